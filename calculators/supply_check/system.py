"""Does this plate belong on this supply system at all, and on its frequency?

What a system is meant to deliver follows from the two published figures of the standards: 120 V and its doubles by
ANSI C84.1, 230 V by EN 50160. It is background: the machine is judged by the volts that were read.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from calculators.contract import quantity
from calculators.findings import Decider, Finding, NextStep, Verdict
from calculators.limits import Limit
from calculators.supply_check.case import Case
from calculators.supply_check.placing import in_volts, percent_of

_PLATES = NextStep("Read plate and outlet again; this machine is not plugged in here.", "read-the-rating-plates")
_GO_ON = NextStep("Read the volts: idle, at the start, running.", "supply-check")
_NO_VERDICT = NextStep("No volts are judged on the wrong frequency. Leave it unplugged.", "read-the-rating-plates")


@dataclass(frozen=True)
class System:
    """A supply system: its name in volts, and the least and the most it is meant to deliver."""

    volts: float
    least: float
    most: float
    low_limit: Limit


def system_of(case: Case) -> System | None:
    """The system that was picked: 120 V legs are taken once, twice (240), or root three times (208)."""
    legs = {"120": 1.0, "208": math.sqrt(3.0), "240": 2.0, "230": 1.0}
    picked = case.entered.choice("system_volts")
    if not picked:
        return None
    stem = "supply.utility_230" if picked == "230" else "supply.utility_120"
    low, high = case.standards.limit(f"{stem}_low"), case.standards.limit(f"{stem}_high")
    return System(float(picked), low.value * legs[picked], high.value * legs[picked], low)


def frequency_finding(case: Case) -> Finding | None:
    """No verdict on volts, because the plate is for another frequency; None where the two are not known to differ."""
    if not case.wrong_frequency:
        return None
    plate, supply = case.entered.choice("plate_frequency"), case.entered.choice("supply_frequency")
    return Finding(
        "supply-frequency",
        Verdict.UNDECIDED,
        f"No verdict on volts: the plate says {plate} Hz and the supply is {supply} Hz.",
        "A motor on the wrong frequency runs hot and slow or fast, whatever the volts.",
        _NO_VERDICT,
        decider=Decider("The volts", "as now", f"on a supply of {plate} Hz", "supply_frequency", plate),
        stop=True,
    )


def system_finding(case: Case) -> Finding | None:
    """Whether plate and system belong together, before anything is read; None where no system was picked."""
    system = system_of(case)
    if system is None:
        return None
    plate = case.plate
    low, high = case.standards.limit("supply.low"), case.standards.limit("supply.high")
    least, most = in_volts(low, plate.low).value, in_volts(high, plate.high).value
    below = system.volts < plate.low
    against = plate.low if below else plate.high
    said = (
        f"A {plate.text} plate on a {system.volts:g} V system, {percent_of(system.volts, against)} of its"
        f" {against:g} V,"
    )
    limit = low if below else high
    if not least <= system.volts <= most:
        sentence = f"{said} is outside {low.text} to {high.text}: they do not belong together."
        plain = "This machine is made for another supply. Do not plug it in here."
        return Finding("plate-and-system", Verdict.OUTSIDE, sentence, plain, _PLATES, limit, stop=True)
    span = f"{quantity(system.least, 'V', 0)} to {quantity(system.most, 'V', 0)}"
    if system.least < least or system.most > most:
        sentence = (
            f"{said} is at the edge: the system may deliver {span}; the plate stands {quantity(least, 'V', 1)} to"
            f" {quantity(most, 'V', 1)}."
        )
        plain = "It fits on a good day. What counts is what the outlet gives, idle, at the start and running."
        return Finding("plate-and-system", Verdict.WATCH, sentence, plain, _GO_ON, limit)
    sentence = f"{said} is in order: all that the system may deliver, {span}, suits the plate."
    return Finding("plate-and-system", Verdict.WITHIN, sentence, "Plate and system belong together.", _GO_ON, limit)
