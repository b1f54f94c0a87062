"""Insulation readings as they were taken: what each place read at the end, what before, and how far each may be off.

An over-range reading (OL) is a reading: the insulation is above the top of the tester's range, less its error there.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from calculators.contract import quantity
from calculators.inputs import Entered, Problem, RefusedError
from calculators.insulation_resistance.inputs import FIRST, PINS, PLACES, WHOLE
from calculators.readings import Meter
from calculators.units import from_base

EXACT_DIGITS = 6  # of an ohm and of a megohm; takes off what binary fractions add
SMALLEST = 1.0  # ohm; a lower reading that is not zero has its unit wrong


def exact(value: float) -> float:
    """A number without the noise of its unit's conversion."""
    return value if math.isinf(value) else round(value, EXACT_DIGITS)


def unit_for(ohms: float) -> str:
    """The unit in which a technician says so many ohms."""
    if ohms >= 1e9 and not math.isinf(ohms):
        return "gigohm"
    if ohms >= 1e5 or ohms == 0.0:
        return "megohm"
    return "kilohm" if ohms >= 1e3 else "ohm"


def digits_for(value: float) -> int:
    """Three figures: 2.00, 24.0, 180."""
    if value < 10.0:
        return 2
    return 1 if value < 100.0 else 0


def shown(ohms: float) -> str:
    """Ohms as they are printed: "2.00 MΩ", "12.0 kΩ", "OL"."""
    unit = unit_for(ohms)
    return quantity(ohms, unit, digits_for(from_base(ohms, unit)))


@dataclass(frozen=True)
class Insulation:
    """One place measured to the shell or to earth: ohms at the end of the test, and earlier where that was read.

    top is the largest figure that the tester's range shows, ohm; zero where it was not entered.
    """

    field: str
    words: str
    ohms: float
    first: float | None
    top: float
    meter: Meter

    @property
    def open_line(self) -> bool:
        """True when the tester showed over-range."""
        return math.isinf(self.ohms)

    @property
    def low(self) -> float:
        """The least it can be, ohm; never below zero."""
        return self.least_of(self.ohms)

    @property
    def high(self) -> float:
        """The most it can be, ohm."""
        return self.ohms if self.open_line else exact(self.ohms + self.meter.band(self.ohms))

    def least_of(self, ohms: float) -> float:
        """The least that a reading of this tester can be, ohm; an open line is at least the top of the range."""
        at = self.top if math.isinf(ohms) else ohms
        return max(exact(at - self.meter.band(at)), 0.0)

    @property
    def text(self) -> str:
        """The reading as it is said in a sentence."""
        return f"over-range, above {shown(self.low)}" if self.open_line else shown(self.ohms)


def readings_of(entered: Entered) -> tuple[Insulation, ...]:
    """The pins and the whole machine, as far as they were measured; refuses what cannot be."""
    problems = list(_problems(entered))
    if problems:
        raise RefusedError(*problems)
    top = entered.number("top_range")
    places = [*zip(PLACES, (f"Pin {pin}" for pin in PINS), strict=True), (WHOLE, "The whole machine")]
    taken = []
    for field, words in places:
        ohms, first = entered.number(field), entered.number(f"{field}{FIRST}")
        if ohms is not None:
            taken.append(
                Insulation(
                    field,
                    words,
                    exact(ohms),
                    None if first is None else exact(first),
                    exact(top or 0.0),
                    entered.meters["insulation_tester"],
                )
            )
    return tuple(taken)


def _problems(entered: Entered) -> Iterator[Problem]:
    top = entered.number("top_range")
    fields = [(field, f"Pin {pin} to shell") for field, pin in zip(PLACES, PINS, strict=True)]
    fields.append((WHOLE, "Whole machine"))
    if all(entered.number(field + end) is None for field, _ in fields for end in ("", FIRST)):
        yield Problem(
            PLACES[0],
            "Pin 1 to shell, end of the test: nothing was entered anywhere. Enter what one pin or the whole machine"
            " read, or OL for over-range.",
        )
    for field, label in fields:
        if entered.number(field) is None and entered.number(field + FIRST) is not None:
            yield Problem(
                field,
                f"{label}, end of the test is missing, and the first reading alone decides nothing. Enter it too.",
            )
        for end, words in (("", "end of the test"), (FIRST, "first reading")):
            ohms = entered.number(field + end)
            if ohms is not None:
                yield from _odd_reading(field + end, f"{label}, {words}", ohms, top)


def _odd_reading(field: str, label: str, ohms: float, top: float | None) -> Iterator[Problem]:
    if math.isinf(ohms):
        if top is None:
            yield Problem(
                "top_range",
                f"Top of the tester's range is missing: {label[0].lower()}{label[1:]} is OL, which only says that it is"
                " above the range. Enter the largest figure that range can show.",
            )
    elif 0.0 < ohms < SMALLEST:
        yield Problem(
            field,
            f"{label}: the entry is less than one ohm. Check its unit, M is megohm and m is milliohm, and enter 0 for a"
            " dead short.",
        )
    elif top is not None and exact(ohms) > exact(top):
        yield Problem(
            field,
            f"{label}: {shown(ohms)} is above the top of the tester's range, {shown(top)}. Enter OL for over-range, or"
            " mend the top of the range.",
        )
