"""The winding temperature at switch-off with its band, and what keeps it from being trusted.

T2 = (R0 / R1) (k + T1) − k, IEC 60335-1 clause 11, k = 234.5 for copper and 225 for aluminium: the average of the
winding, not its hottest place. Bands add in quadrature where they are independent: counts of each reading, scatter
about the line, the thermometer, and the meter's percentage, once cold and once hot. By the same meter on the same
range the percentage is shared and cancels in the ratio; the counts of the nulled leads are shared and nearly cancel.
Leads that were not taken off make the result too low, so the band then reaches up to what such leads could hide.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from calculators.findings import Placement, Verdict, judge, judge_pair
from calculators.limits import InForce, Limit
from calculators.readings import Meter, in_quadrature
from calculators.units import from_base
from calculators.winding_temperature.cooling import Line, cooling_line

METALS = {"copper": 234.5, "aluminium": 225.0}  # k; zero-resistance temperature below 0 °C, IEC 60335-1 clause 11
SCATTER = "scatter about the line, twice"
EXACT_DIGITS = 6  # takes off what binary fractions and unit conversions add


def exact(value: float) -> float:
    """A number without the noise of its unit's conversion."""
    return value if math.isinf(value) else round(value, EXACT_DIGITS)


def temperature_by_resistance(ratio: float, cold: float, zero_resistance: float) -> float:
    """The winding temperature in °C from hot over cold ohms and the cold temperature in °C.

    >>> round(temperature_by_resistance(100.0 / 80.0, 20.0, METALS["copper"]), 3)
    83.625
    """
    return ratio * (zero_resistance + cold) - zero_resistance


@dataclass(frozen=True)
class Part:
    """One independent part of the band, in kelvin, and where it comes from."""

    words: str
    kelvin: float


@dataclass(frozen=True)
class Estimate:
    """The temperature for one metal and one lead resistance, with the parts of its band."""

    cold: float
    line: Line
    zero_resistance: float
    celsius: float
    parts: tuple[Part, ...]

    @property
    def band(self) -> float:
        """All parts together, in quadrature, kelvin."""
        return in_quadrature(*(part.kelvin for part in self.parts))


@dataclass(frozen=True)
class Case:
    """Everything that decides: the readings, the cold condition, the motor, the meters, and the limits in force."""

    cold_ohms: float
    cold_temperature: float
    hours_rest: float | None
    lead: float | None
    times: tuple[float, ...]
    hot_ohms: tuple[float, ...]
    metal: str
    insulation: str
    same_meter: bool
    meter: Meter
    thermometer_band: float
    standards: InForce

    def estimate(self, metal: str, lead: float) -> Estimate:
        """The temperature and its band as if the winding were of this metal and the leads had this resistance."""
        zero = METALS[metal]
        cold, hot = self.cold_ohms - lead, [one - lead for one in self.hot_ohms]
        line = self.line(lead)
        celsius = temperature_by_resistance(line.ohms / cold, self.cold_temperature, zero)
        return Estimate(cold, line, zero, celsius, self._parts(cold, hot, line, zero + celsius))

    def line(self, lead: float) -> Line:
        """The hot readings less the leads, reckoned back to switch-off."""
        return cooling_line(self.times, [one - lead for one in self.hot_ohms])

    def _parts(self, cold: float, hot: list[float], line: Line, kelvin: float) -> tuple[Part, ...]:
        """The independent parts of the band; kelvin is k + T2, which turns a part of the ratio into degrees."""
        counts, gain = self.meter.counts_band, self.meter.percent / 100.0
        weighed = [weight * counts / one for weight, one in zip(line.weights, hot, strict=True)]
        lead = 1.0 / cold - math.fsum(weight / one for weight, one in zip(line.weights, hot, strict=True))
        parts = [
            Part("counts of the cold reading", kelvin * counts / cold),
            Part("counts of the hot readings", kelvin * in_quadrature(*weighed)),
            Part(SCATTER, kelvin * line.scatter_band),
            Part("thermometer", (line.ohms / cold) * self.thermometer_band),
        ]
        if self.lead is not None:
            parts.append(Part("counts of the leads, shared", kelvin * counts * abs(lead)))
        if not self.same_meter:
            parts += [Part("percentage, cold", kelvin * gain), Part("percentage, hot", kelvin * gain)]
        return tuple(parts)

    @property
    def best(self) -> Estimate:
        """What is printed: the leads as entered, none where they were not, and copper where the metal is not known."""
        return self.estimate("copper" if self.metal == "unknown" else self.metal, self.lead or 0.0)

    @property
    def low(self) -> float:
        """The least the temperature at switch-off can be by these readings."""
        floor = self.best if self.metal != "unknown" else self.estimate("aluminium", self.lead or 0.0)
        return exact(min(one.celsius - one.band for one in (floor, self.best)))

    @property
    def high(self) -> float:
        """The most it can be; infinite where leads that were not taken off could hide any heat."""
        best = self.best
        if self.lead is None:
            most = self.standards.value("windings.lead_most")
            if min(self.cold_ohms, *self.hot_ohms) <= 2.0 * most:
                return math.inf
            hidden = self.estimate("copper" if self.metal == "unknown" else self.metal, most)
            return exact(max(one.celsius + one.band for one in (best, hidden)))
        return exact(best.celsius + best.band)

    @property
    def weaknesses(self) -> tuple[str, ...]:
        """Why the result may only be a lower bound: every one of these makes it read low, none makes it read high."""
        rest, first, least = (
            self.standards.value(key)
            for key in (
                "windings.rest_hours",
                "winding_temperature.first_reading",
                "winding_temperature.least_readings",
            )
        )
        line = self.best.line
        found = {
            "rising": round(line.slope, 12) > 0.0,
            "colder": exact(self.best.celsius) < exact(self.cold_temperature),
            "few": len(self.times) < least,
            "late": min(self.times) > first,
            "rest": self.hours_rest is None or from_base(self.hours_rest, "h") < rest,
            "leads": math.isinf(self.high),
        }
        return tuple(name for name, there in found.items() if there)

    @property
    def warn(self) -> Limit:
        """Above it the cause is looked for."""
        return self.standards.limit("winding_temperature.warn")

    @property
    def stop(self) -> Limit:
        """Above it the motor is not run again."""
        return self.standards.limit("winding_temperature.stop")

    @property
    def insulation_limit(self) -> Limit | None:
        """The appliance standard's limit for the winding's insulation, where that is known."""
        return None if self.insulation == "unknown" else self.standards.limit(f"winding_temperature.{self.insulation}")

    @property
    def placed(self) -> Placement:
        """Between the warning and the stop, whatever the weaknesses."""
        return judge_pair(exact(self.best.celsius), self.low, self.high, warn=self.warn, fail=self.stop)

    @property
    def verdict(self) -> Verdict:
        """A weakness makes the result a lower bound: it can only be outside or undecided."""
        verdict = self.placed.verdict
        return Verdict.UNDECIDED if self.weaknesses and verdict is not Verdict.OUTSIDE else verdict

    @property
    def insulation_verdict(self) -> Verdict | None:
        """The same against the insulation's own limit; None where it is not known or nothing can be said."""
        limit = self.insulation_limit
        if limit is None:
            return None
        verdict = judge(exact(self.best.celsius), self.low, self.high, limit).verdict
        return None if self.weaknesses and verdict is not Verdict.OUTSIDE else verdict

    def with_meter(self, meter: Meter) -> Case:
        """The same readings as another meter would have shown them."""
        return replace(self, meter=meter)
