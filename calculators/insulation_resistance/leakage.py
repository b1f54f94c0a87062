"""What the lowest reading lets through at the plate voltage, and whether that would trip a GFCI or an RCD.

I = U / R. It is the current by the measured resistance alone: capacitance to earth adds to it in service, and
insulation that breaks down only at full voltage is not in it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from calculators.contract import Named, Result, Step, quantity
from calculators.insulation_resistance.readings import Insulation, digits_for, shown
from calculators.limits import InForce
from calculators.units import from_base

DEVICES = (("gfci", "a class A GFCI"), ("rcd", "a household RCD"))
_EXPLAINS = {
    "no": "this reading does not explain the trip",
    "may": "this reading may explain the trip",
    "yes": "this reading alone is enough to trip it",
}


@dataclass(frozen=True)
class Leakage:
    """The current through one place at a voltage, amps, with the ends of its band."""

    place: Insulation
    volts: float

    @property
    def amps(self) -> float:
        """The current by the reading; infinite through a dead short, nothing to speak of through an open line."""
        return math.inf if self.place.ohms == 0.0 else self.volts / self.place.ohms

    @property
    def least(self) -> float:
        """The least it can be: nothing through an open line, whose most is infinite."""
        return self.volts / self.place.high if self.place.high else math.inf

    @property
    def most(self) -> float:
        """The most it can be; infinite where the reading's band reaches to zero."""
        return self.volts / self.place.low if self.place.low else math.inf

    def trips(self, least: float, most: float) -> str:
        """Against a device that may trip from least and has to at most, both amps: no, may or yes."""
        if self.most < least:
            return "no"
        return "yes" if self.least >= most else "may"


def leakage_of(places: tuple[Insulation, ...], volts: float | None) -> Leakage | None:
    """The current through the lowest of the readings; None without the plate voltage."""
    if volts is None or not places:
        return None
    return Leakage(min(places, key=lambda one: (one.low, one.ohms)), volts)


def leakage_results(leakage: Leakage, standards: InForce) -> Iterator[Result | Named]:
    """The current, and what each protective device makes of it."""
    label, place = "Current by the lowest reading", leakage.place
    plain = (
        f"What {place.words[0].lower()}{place.words[1:]} lets through at {quantity(leakage.volts, 'V', 0)}, by ohms"
        " alone."
    )
    if place.open_line:
        yield Named("leakage", label, f"less than {_current(leakage.most)}", plain)
    elif math.isinf(leakage.amps):
        yield Named("leakage", label, "a dead short: as much as the supply gives", plain)
    else:
        banded = not math.isinf(leakage.most)
        yield Result(
            "leakage",
            label,
            leakage.amps,
            *_mark(leakage.amps),
            plain,
            leakage.least if banded else None,
            leakage.most if banded else None,
        )
    for key, words in DEVICES:
        least, most = (standards.limit(f"protection.{key}_{end}") for end in ("least", "most"))
        trips = leakage.trips(least.value / 1e3, most.value / 1e3)
        text = _EXPLAINS[trips]
        yield Named(
            key, f"If {words} trips", text, f"It trips between {least.text} and {most.text} of leakage to earth."
        )


def leakage_step(leakage: Leakage) -> Step:
    """The arithmetic of the current."""
    ohms = leakage.place.low if leakage.place.open_line else leakage.place.ohms
    return Step(
        "Current by the lowest reading",
        "I = U / R",
        f"{quantity(leakage.volts, 'V', 0)} / {shown(ohms)}",
        "no limit but the supply" if ohms == 0.0 else _current(leakage.volts / ohms),
        "derived",
    )


def _current(amps: float) -> str:
    if math.isinf(amps):
        return "the supply gives"
    unit, digits = _mark(amps)
    return quantity(amps, unit, digits)


def _mark(amps: float) -> tuple[str, int]:
    """The unit and the digits that show three figures of a current."""
    if amps >= 1.0:
        return "A", digits_for(amps)
    milliamps = from_base(amps, "mA")
    return "mA", digits_for(milliamps) + sum(milliamps < step for step in (1.0, 0.1, 0.01, 0.001, 0.0001))
