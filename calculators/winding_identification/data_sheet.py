"""Windings held against their data sheet at the same temperature, with meter and thermometer bands.

Shorted turns are never concluded from ohms alone: running watts or amps must say the same.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from calculators.contract import Step, quantity, rounded
from calculators.findings import Decider, Finding, NextStep, Verdict, judge_side
from calculators.inputs import Entered
from calculators.limits import InForce
from calculators.readings import in_quadrature
from calculators.winding_identification.readings import METALS, READ_AGAIN, Pair, Pins, pair_of, resistance_at

TO_SHELL = NextStep("Measure each pin to the shell with the insulation tester.", "windings-to-shell")


@dataclass(frozen=True)
class AgainstData:
    """One winding against its data sheet, in percent of the data."""

    name: str
    deviation: float
    meter_band: float
    band: float

    @property
    def verdict(self) -> tuple[float, float, float]:
        """The size of the deviation with the ends of its band, never below zero."""
        size = abs(self.deviation)
        return size, max(size - self.band, 0.0), size + self.band


def against_data(
    entered: Entered, pins: Pins, roles: Mapping[str, str], standards: InForce, working: list[Step]
) -> list[Finding]:
    """Hold run and start against the data sheet, as far as temperature and leads allow."""
    wanted = [("run", "R", entered.number("data_run")), ("start", "S", entered.number("data_start"))]
    given = [(name, role, data) for name, role, data in wanted if data is not None]
    if not given:
        return []
    temperature = entered.number("shell_temperature")
    if temperature is None or pins.lead is None:
        return [_not_comparable(entered, pins)]
    compared = [
        _compare(entered, pins, name, pair_of(roles, "C", role), data, temperature, working)
        for name, role, data in given
    ]
    return [_data_finding(pins, one, compared, standards) for one in compared]


def _not_comparable(entered: Entered, pins: Pins) -> Finding:
    """Data cannot be held against readings of unknown temperature, or with the leads in them."""
    needed = {
        "shell_temperature": ("shell temperature", "1 K", "25"),
        "lead": ("leads shorted together", quantity(pins.meter.resolution, "ohm", 2), "0"),
    }
    missing = [name for name in needed if entered.number(name) is None]
    what = " and ".join(needed[name][0] for name in missing)
    # One entry decides only where one is missing.
    field, entry = (missing[0], needed[missing[0]][2]) if len(missing) == 1 else (None, None)
    return Finding(
        "data",
        Verdict.UNDECIDED,
        f"The windings cannot be held against the data sheet yet: {what} not entered.",
        "Copper changes by about four parts in a thousand for each kelvin, and leads add to a small winding.",
        READ_AGAIN,
        decider=Decider(
            what,
            " and ".join(needed[name][1] for name in missing),
            "measured with the three readings",
            field,
            entry,
        ),
    )


def _compare(
    entered: Entered, pins: Pins, name: str, pair: Pair, data: float, temperature: float, working: list[Step]
) -> AgainstData:
    zero, at = METALS[entered.choice("metal")], entered.needed("data_temperature")
    measured = resistance_at(pins.ohms[pair], temperature, at, zero)
    ratio = 100.0 * measured / data
    meter = ratio * pins.reading(pair).relative_band
    warmth = ratio * entered.needed("thermometer_band") / (zero + temperature)
    working.append(
        Step(
            f"{name.capitalize()} winding against data at {quantity(at, 'degC', 0)}",
            "R × (k + T data) / (k + T), over the data",
            f"{rounded(pins.ohms[pair], 2)} × ({zero:g} + {rounded(at, 1)}) / ({zero:g} + {rounded(temperature, 1)}) ="
            f" {rounded(measured, 2)}, over {rounded(data, 2)}",
            f"{rounded(ratio, 1)} % of data, ±{rounded(in_quadrature(meter, warmth), 1)} % (meter and thermometer in"
            " quadrature)",
            "iec-60335-1-clause-11",
        )
    )
    return AgainstData(name, ratio - 100.0, meter, in_quadrature(meter, warmth))


def _data_finding(pins: Pins, one: AgainstData, compared: list[AgainstData], standards: InForce) -> Finding:
    limit = standards.limit("windings.data_tolerance")
    size, low, high = one.verdict
    placed = judge_side(size, low, high, limit=limit.value, side="most", guard=limit.guard)
    off = f"{rounded(size, 1)} % {'below' if one.deviation < 0 else 'above'} its data, ±{rounded(one.band, 1)} %"
    name = f"{one.name} winding data"
    if placed.verdict is Verdict.WITHIN:
        words = "not shown abnormal against its data" if placed.crossing else "agrees with its data"
        return Finding(
            name,
            Verdict.WITHIN,
            f"The {one.name} winding {words}: {off}.",
            "It reads what its maker says, as far as this meter can see.",
            TO_SHELL,
            limit,
        )
    if placed.verdict is Verdict.UNDECIDED:
        return Finding(
            name,
            Verdict.UNDECIDED,
            f"The {one.name} winding is {off}: the band reaches back over {limit.text}.",
            "It may be off, it may be the meter or the temperature.",
            READ_AGAIN,
            limit,
            Decider(
                f"The {one.name} winding",
                f"meter and thermometer together better than {rounded(size - limit.value, 1)} %",
                "left off overnight at room temperature, leads nulled, a meter of 0.01 ohm or finer",
            ),
        )
    other = next((each for each in compared if each.name != one.name), None)
    if (
        one.name == "run"
        and one.deviation < 0
        and other is not None
        and other.verdict[0] <= limit.value
        and one.meter_band <= standards.value("windings.short_turns_band")
    ):
        return Finding(
            name,
            Verdict.OUTSIDE,
            f"The run winding is {off}, while the start winding is on its data: that fits shorted turns in the run"
            " winding.",
            "Ohms alone never prove shorted turns. Running watts or amps above what is expected must say the same"
            " before it is written down.",
            NextStep("Compare running watts and amps with what is expected.", "running-amps"),
            limit,
        )
    return Finding(
        name,
        Verdict.OUTSIDE,
        f"The {one.name} winding is {off}: it does not fit the data sheet.",
        "Check that the data are of this very motor, then look for what else agrees: watts, amps, heat.",
        NextStep("Check the plate against the data sheet, then measure to the shell.", "windings-to-shell"),
        limit,
    )
