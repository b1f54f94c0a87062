"""One motor that does not turn: its plate, its attempts, and how its amps compare with those of the plate."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from calculators.contract import quantity
from calculators.inputs import Entered, Problem, RefusedError
from calculators.limits import InForce
from calculators.locked_rotor.inputs import CODE_LETTERS
from calculators.readings import Meter, Reading, in_quadrature
from calculators.supply_check.case import Plate, ranged_plate
from calculators.voltage_drop.path_volts import Span

_FIELDS = {"first": ("stalled_amps", "stalled_volts"), "second": ("second_amps", "second_volts")}


@dataclass(frozen=True)
class Attempt:
    """One measured attempt. Volts may be missing."""

    number: str
    amps: Reading
    volts: Reading | None


@dataclass(frozen=True)
class LetterAmps:
    """What a code letter allows at the plate's volts; no upper end for the last letter."""

    letter: str
    least: float
    most: float | None


@dataclass(frozen=True)
class Case:
    """Everything entered about one motor."""

    entered: Entered
    standards: InForce

    @property
    def plate(self) -> Plate:
        """The plate's volts."""
        low = self.entered.needed("plate_volts")
        return Plate(low, self.entered.number("plate_volts_high") or low)

    @property
    def nominal(self) -> float:
        """The volts that the plate's amps are taken for: those printed, or the middle of a range."""
        return (self.plate.low + self.plate.high) / 2.0

    @property
    def locked_rotor_amps(self) -> float | None:
        """The plate's own locked-rotor amps."""
        return self.entered.number("locked_rotor_amps")

    @property
    def wrong_frequency(self) -> bool:
        """Whether plate and supply are known to differ in frequency; then no amps are judged."""
        plate, supply = self.entered.choice("plate_frequency"), self.entered.choice("supply_frequency")
        return bool(plate and supply) and plate not in (supply, "50/60")

    @property
    def attempts(self) -> tuple[Attempt, ...]:
        """The attempts in which amps were read."""
        found = []
        for number, (amps, volts) in _FIELDS.items():
            reading = self.entered.reading(amps)
            if reading is not None:
                found.append(Attempt(number, reading, self.entered.reading(volts)))
        return tuple(found)

    @property
    def count(self) -> int:
        """How many attempts there were: those named, and never fewer than those measured."""
        return max(int(self.entered.number("attempts") or 0), len(self.attempts))

    @property
    def horsepower(self) -> float | None:
        """The trade size as a number."""
        text = self.entered.choice("horsepower")
        return horsepower_of(text) if text else None

    @property
    def letter(self) -> LetterAmps | None:
        """Letter x hp x 1000 / V at both ends of the letter; None without letter and horsepower."""
        picked, size = self.entered.choice("code_letter"), self.horsepower
        row = self.standards.table(CODE_LETTERS).row(picked) if picked else None
        if row is None or size is None:
            return None
        per = size * 1000.0 / self.nominal
        most = row.get("most")
        return LetterAmps(picked, float(row["least"]) * per, None if most is None else float(most) * per)

    def expected(self, volts: float) -> Span | None:
        """LRA x U / Un at these volts, with both ends of a plate that prints a range."""
        amps, plate = self.locked_rotor_amps, self.plate
        if amps is None:
            return None
        return Span(amps * volts / self.nominal, amps * volts / plate.high, amps * volts / plate.low)

    def ratio(self, attempt: Attempt) -> Span | None:
        """Amps over the expected ones. Clamp and voltmeter are two meters: their bands add in quadrature.

        A plate that prints a range widens it on top of that, in full.
        """
        if attempt.volts is None:
            return None
        expected = self.expected(attempt.volts.value)
        if expected is None:
            return None
        part = in_quadrature(attempt.amps.relative_band, attempt.volts.relative_band)
        amps = attempt.amps.value
        return Span(
            amps / expected.value, max(amps / expected.high * (1.0 - part), 0.0), amps / expected.low * (1.0 + part)
        )

    def with_meter(self, name: str, meter: Meter) -> Case:
        """The same readings by another meter."""
        return Case(replace(self.entered, meters={**self.entered.meters, name: meter}), self.standards)

    def with_number(self, name: str, value: float) -> Case:
        """The same readings with one number typed anew, in base units."""
        return Case(replace(self.entered, numbers={**self.entered.numbers, name: value}), self.standards)

    def with_choice(self, name: str, value: str) -> Case:
        """The same readings with another pick."""
        return Case(replace(self.entered, choices={**self.entered.choices, name: value}), self.standards)


def horsepower_of(text: str) -> float:
    """A trade size as a number.

    >>> horsepower_of("1/3"), horsepower_of("1-1/2"), horsepower_of("2")
    (0.3333333333333333, 1.5, 2.0)
    """
    whole, _, part = text.rpartition("-")
    top, _, bottom = part.partition("/")
    return float(whole or 0) + float(top) / float(bottom or 1)


def case_of(entered: Entered, standards: InForce) -> Case:
    """Put together what was entered; raises RefusedError when it contradicts itself."""
    problems = tuple(_contradictions(entered, standards))
    if problems:
        raise RefusedError(*problems)
    return Case(entered, standards)


def _contradictions(entered: Entered, standards: InForce) -> Iterator[Problem]:
    yield from ranged_plate(entered, standards)
    if entered.choice("code_letter") and not entered.choice("horsepower"):
        yield Problem(
            "horsepower",
            "Trade horsepower is missing. A code letter is kVA per horsepower and says nothing without it; choose the "
            "size, or leave the letter out.",
        )
    first, second = entered.number("stalled_amps"), entered.number("second_amps")
    if second is not None and first is None:
        yield Problem(
            "stalled_amps",
            "Amps while it hums are missing. Enter the first attempt's amps before those of the second.",
        )
    for amps, volts, label in (
        ("stalled_amps", "stalled_volts", "Volts at that moment"),
        ("second_amps", "second_volts", "Volts at that moment, second attempt"),
    ):
        if entered.number(volts) is not None and entered.number(amps) is None:
            yield Problem(
                amps, f"{label}: {quantity(entered.needed(volts), 'V', 1)} stands without amps. Enter both or neither."
            )
    turned = entered.choice("turned")
    if turned == "second" and entered.number("attempts") == 1.0:
        yield Problem("attempts", "Attempts made: it started at the second attempt, so there were two or more.")
    if second is not None and turned == "first":
        yield Problem(
            "turned",
            "Did the motor turn? It started at the first attempt, and yet there are amps of a second one. Leave the "
            "second attempt out, or choose what happened.",
        )
