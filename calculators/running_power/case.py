"""Watts, volts and amps of one moment, what the watts and the power factor should be, and how far each may be off.

Independent bands (different meters, meter and evidence) are combined as the root of the sum of squares
(JCGM 100:2008, 5.1.2). Watts of other loads are taken off plainly, because active powers add up.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from calculators.contract import Step, quantity, rounded
from calculators.expected_amps.shift import WattsChange, watts_change
from calculators.inputs import Entered, Problem, RefusedError
from calculators.limits import InForce
from calculators.readings import Meter, Reading, in_quadrature
from calculators.running_condition import Supply

FLOAT_DIGITS = 9  # a number typed on a limit stays on it, in whatever unit it was typed
WORDS = {"map_watts": "the performance map", "watts": "the data sheet", "record_watts": "the earlier record"}
_BAND = {"map_watts": "power.band.map", "watts": "power.band.data_sheet", "record_watts": "power.band.record"}


@dataclass(frozen=True)
class Evidence:
    """What one source says the watts should be, with its half-band as a part of them."""

    field: str
    watts: float
    band: float
    steps: tuple[Step, ...] = ()

    @property
    def words(self) -> str:
        """What it is called in a sentence."""
        return WORDS[self.field]

    @property
    def low(self) -> float:
        """The least watts it allows."""
        return round(self.watts * (1.0 - self.band), FLOAT_DIGITS)

    @property
    def high(self) -> float:
        """The most watts it allows."""
        return round(self.watts * (1.0 + self.band), FLOAT_DIGITS)


@dataclass(frozen=True)
class Span:
    """A number with its least and most."""

    value: float
    low: float
    high: float


@dataclass(frozen=True)
class Case:
    """Everything one verdict on watts rests on."""

    shown: float
    others: float
    amps: float | None
    volts: float | None
    wattmeter: Meter
    clamp: Meter
    voltmeter: Meter
    supply: Supply
    run_seconds: float | None
    motor_type: str
    evidence: tuple[Evidence, ...]
    sheet_power_factor: float | None
    expected_amps: float | None
    expected_amps_band: float
    standards: InForce

    @property
    def watts(self) -> float:
        """Watts of the compressor: the display less the other loads."""
        return self.shown - self.others

    @property
    def watts_band(self) -> float:
        """How far they may be off: the wattmeter's band at what it shows."""
        return self.wattmeter.band(self.shown)

    @cached_property
    def volt_amps(self) -> float | None:
        """U · I, where both were read."""
        return None if self.amps is None or self.volts is None else self.amps * self.volts

    @cached_property
    def power_factor(self) -> Span | None:
        """P / (U · I), with the bands of the three meters combined."""
        if self.volt_amps is None or self.amps is None or self.volts is None:
            return None
        value = round(self.watts / self.volt_amps, FLOAT_DIGITS)
        parts = (
            self.watts_band / self.watts,
            self.clamp.band(self.amps) / self.amps,
            self.voltmeter.band(self.volts) / self.volts,
        )
        band = value * in_quadrature(*parts)
        return Span(value, max(value - band, 0.0), value + band)

    @property
    def amps_unclear(self) -> bool:
        """True when the amps may be those of everything in the wattmeter, as a plug-in meter shows them."""
        if self.others == 0.0 or self.volt_amps is None:
            return False
        return self.shown <= self.volt_amps * self.standards.value("power.factor_most")

    @property
    def usual_power_factor(self) -> tuple[float, float] | None:
        """The power factor to expect and how far it may be off; None when neither sheet nor motor type is known."""
        if self.sheet_power_factor is not None:
            return self.sheet_power_factor, self.standards.value("power.factor_spread.data_sheet")
        key = {"resistance": "resistance_start", "run_capacitor": "run_capacitor"}.get(self.motor_type)
        if key is None:
            return None
        return self.standards.value(f"amps.power_factor.{key}"), self.standards.value(f"power.factor_spread.{key}")

    @cached_property
    def drop(self) -> Span | None:
        """How much lower the power factor is than expected."""
        usual, measured = self.usual_power_factor, self.power_factor
        if usual is None or measured is None:
            return None
        value = round(usual[0] - measured.value, FLOAT_DIGITS)
        low = value - in_quadrature(usual[1], measured.high - measured.value)
        high = value + in_quadrature(usual[1], measured.value - measured.low)
        return Span(value, round(low, FLOAT_DIGITS), round(high, FLOAT_DIGITS))

    @property
    def best(self) -> Evidence | None:
        """The evidence with the smallest band, widened when the volts are off the plate."""
        if not self.evidence:
            return None
        best = min(self.evidence, key=lambda one: one.band)
        return Evidence(best.field, best.watts, best.band + self.supply.extra_band, best.steps)

    @property
    def conflict(self) -> tuple[Evidence, Evidence] | None:
        """Two pieces of evidence whose bands do not meet."""
        best = self.best
        if best is None:
            return None
        apart = (one for one in self.evidence if one.low > best.high or one.high < best.low)
        other = next(apart, None)
        return None if other is None else (best, other)

    @cached_property
    def ratio(self) -> Span | None:
        """Measured over expected watts, with both bands."""
        best = self.best
        return None if best is None else self.ratio_to(best)

    def ratio_to(self, evidence: Evidence) -> Span:
        """Measured watts over those of this evidence."""
        return _ratio(self.watts / evidence.watts, evidence.band, self.watts_band / self.watts)

    @cached_property
    def amps_ratio(self) -> Span | None:
        """Measured over expected amps, with both bands."""
        if self.amps is None or self.expected_amps is None:
            return None
        band = self.expected_amps_band + self.supply.extra_band
        return _ratio(self.amps / self.expected_amps, band, self.clamp.band(self.amps) / self.amps)


def _ratio(value: float, expected_band: float, meter_band: float) -> Span:
    whole = in_quadrature(expected_band, meter_band)
    ends = (value, max(value * (1.0 - whole), 0.0), value * (1.0 + whole))
    return Span(*(round(one, FLOAT_DIGITS) for one in ends))


def case_of(entered: Entered, standards: InForce) -> Case:
    """Put one case together; RefusedError where the readings contradict each other."""
    running_volts = entered.reading("running_volts")
    case = Case(
        shown=entered.needed("running_watts"),
        others=entered.number("other_watts") or 0.0,
        amps=entered.number("running_amps"),
        volts=None if running_volts is None else running_volts.value,
        wattmeter=entered.meters["wattmeter"],
        clamp=entered.meters["clamp"],
        voltmeter=entered.meters["voltmeter"],
        supply=_supply(entered, running_volts, standards),
        run_seconds=entered.number("run_time"),
        motor_type=entered.choice("motor_type"),
        evidence=_evidence(entered, standards),
        sheet_power_factor=entered.number("power_factor"),
        expected_amps=entered.number("expected_amps"),
        expected_amps_band=entered.needed("expected_amps_percent") / 100.0,
        standards=standards,
    )
    _refuse(case)
    return case


def _supply(entered: Entered, running_volts: Reading | None, standards: InForce) -> Supply:
    return Supply(
        entered.needed("plate_volts"),
        running_volts,
        entered.choice("plate_frequency"),
        entered.choice("supply_frequency"),
        standards,
    )


def _evidence(entered: Entered, standards: InForce) -> tuple[Evidence, ...]:
    found = []
    for field, key in _BAND.items():
        watts = entered.number(field)
        if watts is not None:
            one = Evidence(field, watts, standards.value(key) / 100.0)
            change = watts_change(entered, standards) if field == "watts" else None
            found.append(one if change is None else _shifted(one, change))
    return tuple(found)


def _shifted(one: Evidence, change: WattsChange) -> Evidence:
    """Data-sheet watts brought to the temperatures now, with the spread of the rule in their band."""
    watts = one.watts * change.ratio
    if watts <= 0.0:
        raise RefusedError(
            Problem(
                "evaporating_now",
                "Evaporating temperature now: this far from the data sheet's temperatures nothing is left of its watts."
                " Take a rating point that is nearer, or clear the temperatures.",
            )
        )
    band = in_quadrature(one.band, *(off / change.ratio for off in change.off))
    moved = Step(
        "Data-sheet watts brought to it",
        "P expected = P data × p",
        f"{quantity(one.watts, 'W', 0)} × {rounded(change.ratio, 3)}",
        f"{quantity(watts, 'W', 0)} ±{rounded(100.0 * band, 0)} %",
        "derived",
    )
    return Evidence(one.field, watts, band, (change.step, moved))


def _refuse(case: Case) -> None:
    """Readings that cannot belong together: nothing is computed from them."""
    problems = []
    if case.shown == 0.0:
        problems.append(
            Problem(
                "running_watts",
                "Running watts: 0 is no running motor. See that it runs and that the meter reads its lead, "
                "then enter what it shows.",
            )
        )
    elif case.watts <= 0.0:
        problems.append(
            Problem(
                "other_watts",
                "Watts of other loads in it: they are as much as the meter showed in all or more. Enter only loads "
                "that ran while it was read.",
            )
        )
    if case.amps == 0.0:
        problems.append(
            Problem(
                "running_amps",
                "Running amps: 0 is no running current. See that the clamp is round one conductor only, then enter "
                "what it shows, or clear it.",
            )
        )
    if problems:
        raise RefusedError(*problems)
    measured, most = case.power_factor, case.standards.limit("power.factor_most")
    if measured is not None and measured.value > most.value and case.volt_amps is not None:
        raise RefusedError(
            Problem(
                "running_watts",
                f"Running watts: {quantity(case.watts, 'W', 1)} is {rounded(measured.value, 2)} times the"
                f" {quantity(case.volt_amps, 'VA', 1)} of these volts and amps, and watts are never more than"
                " volt-amps. Read all three again in one moment, and see that the amps are those of the same"
                " conductor.",
            )
        )
