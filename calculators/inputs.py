"""Declared inputs: what a form asks, what may be typed, and what is said when it cannot be used.

Numbers arrive as the text that was typed: `4.4`, `4,4`, `12k`, `4.4 ohm`, `OL`.
The form, the command line and the practice sheets are all made from these declarations.
A message names the field by its label, says what was wrong and what may be entered; the text itself is kept.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from calculators.decisions import Conclusion, Question, evidence_field_of, field_of
from calculators.limits import InForce
from calculators.readings import Meter, Reading
from calculators.units import UNITS, find_spelling, from_base, quantity_words, symbol, to_base

MOST_CHARACTERS = 40
_OPEN_WORDS = frozenset({"ol", "o.l", "o.l.", "0l", "0.l", "o/l", "open", "inf", "infinity", "∞", "open line"})
_NUMBER = re.compile(r"([+-]?)([0-9]*)(?:([.,])([0-9]*))?", re.ASCII)
_SECOND_NUMBER = re.compile(r"(?:[-/]|to\b)\s*[0-9]", re.ASCII | re.IGNORECASE)
_SPLIT = re.compile(r"(?P<number>[+-]?[0-9.,' ]*[0-9.,])(?P<power>)\s*(?P<unit>.*)", re.ASCII | re.DOTALL)
_SPLIT_POWER = re.compile(
    r"(?P<number>[+-]?[0-9.,' ]*[0-9.,])(?P<power>(?:[eE][+-]?[0-9]+)?)\s*(?P<unit>.*)", re.ASCII | re.DOTALL
)


@dataclass(frozen=True)
class Problem:
    """One thing that must be mended before anything is computed: at which field, and the sentence."""

    input: str
    message: str


class RefusedError(ValueError):
    """Raised by a calculator when entries contradict each other; carries the problems, one per field."""

    def __init__(self, *problems: Problem) -> None:
        self.problems = problems
        super().__init__("; ".join(problem.message for problem in problems))


@dataclass(frozen=True)
class NumberInput:
    """A number somebody types, kept in base units inside.

    units: the units it may be entered in, the first one offered first. least and most are in base units.
    meter: the name of the MeterInput it is read with; None for a number that carries no band of its own.
    negative_hint: what a value below zero tells the reader, said in the message.
    power_of_ten: it may be typed as 1.2e-3 too, the way coefficients are printed.
    """

    name: str
    label: str
    units: tuple[str, ...]
    least: float
    most: float
    required: bool = True
    default: str = ""
    open_line: bool = False
    meter: str | None = None
    help: str = ""
    negative_hint: str = ""
    whole: bool = False
    group: str = ""
    power_of_ten: bool = False


@dataclass(frozen=True)
class Choice:
    """One thing that can be picked."""

    value: str
    label: str


@dataclass(frozen=True)
class ChoiceInput:
    """A pick from a closed list; always has a value, the default until somebody picks."""

    name: str
    label: str
    choices: tuple[Choice, ...]
    default: str
    help: str = ""
    group: str = ""


@dataclass(frozen=True)
class TableInput:
    """A pick of one row of a printed table, or none where the default is empty; nothing is what "none" reads there."""

    name: str
    label: str
    table: str
    default: str = ""
    required: bool = False
    help: str = ""
    group: str = ""
    nothing: str = "none"


@dataclass(frozen=True)
class MeterInput:
    """The accuracy limit of one meter: three small fields, prefilled, shown and editable.

    resolution is the prefilled step in the unit given, which is what the meter shows, base unit or not.
    """

    name: str
    label: str
    unit: str
    resolution: float
    percent: float = 0.5
    counts: float = 2.0
    help: str = "Copy it from the meter's own data sheet, for the range in use."
    group: str = ""

    def fields(self) -> tuple[NumberInput, ...]:
        """The three number fields this meter shows."""
        return (
            NumberInput(
                f"{self.name}_percent",
                f"{self.label}: percent of reading",
                ("percent",),
                0.0,
                50.0,
                default=f"{self.percent:g}",
                help=self.help,
                group=self.group,
            ),
            NumberInput(
                f"{self.name}_counts",
                f"{self.label}: counts",
                ("count",),
                0.0,
                100.0,
                default=f"{self.counts:g}",
                help="The digits added to the percentage.",
                group=self.group,
            ),
            NumberInput(
                f"{self.name}_resolution",
                f"{self.label}: resolution",
                _resolution_units(self.unit),
                to_base(1e-6, self.unit),
                to_base(1e3, self.unit),
                default=f"{self.resolution:g}",
                help="The smallest step the display shows on this range.",
                group=self.group,
            ),
        )


@dataclass(frozen=True)
class DecisionInput:
    """A walk through the handbook's decision map; which of its picks are asked now, the outcome says.

    One pick for the reason to stop, one a question and visit, one for the evidence of every finding that needs it.
    """

    name: str
    label: str
    help: str = ""
    group: str = ""

    def fields(self, standards: InForce) -> Iterator[ChoiceInput]:
        """The picks of the whole map, none of them made yet."""
        yield from standards.once(self, lambda: tuple(self._fields(standards)))

    def _fields(self, standards: InForce) -> Iterator[ChoiceInput]:
        decisions = standards.decisions
        if not decisions.questions:
            return
        reasons = tuple(Choice(one.id, one.label) for one in decisions.reasons)
        nothing = Choice("", "Nothing of the kind so far")
        yield ChoiceInput(self.name, decisions.stop_question, (nothing, *reasons), "", self.help, self.group)
        for question in decisions.questions.values():
            for visit in range(1, decisions.visits(question.id) + 1):
                yield self._question(question, visit, standards)
        for conclusion in decisions.conclusions.values():
            if conclusion.needs_evidence:
                yield self._evidence(conclusion, standards)

    def _question(self, question: Question, visit: int, standards: InForce) -> ChoiceInput:
        choices = tuple(Choice(one.id, standards.said(one.label)) for one in question.answers)
        label = standards.said(question.question)
        return ChoiceInput(
            field_of(question.id, visit),
            label if visit == 1 else f"{label} Asked again",
            (Choice("", "Not answered yet"), *choices),
            "",
            standards.said(question.how),
            self.group,
        )

    def _evidence(self, conclusion: Conclusion, standards: InForce) -> ChoiceInput:
        listed = "; ".join(standards.said(one) for one in conclusion.evidence)
        choices = (
            Choice("", "Not answered yet"),
            Choice("all", "Yes, every line of it is in hand and written down"),
            Choice("not-all", "No, something is missing"),
        )
        return ChoiceInput(
            evidence_field_of(conclusion.id),
            f"{conclusion.title}: is the evidence complete?",
            choices,
            "",
            f"It is written only with: {listed}.",
            self.group,
        )


Input = NumberInput | ChoiceInput | TableInput | MeterInput | DecisionInput
Field = NumberInput | ChoiceInput


def _resolution_units(unit: str) -> tuple[str, ...]:
    finer = {
        "ohm": ("ohm", "milliohm"),
        "megohm": ("megohm", "kilohm"),
        "V": ("V", "mV"),
        "A": ("A", "mA"),
        "uF": ("uF", "nF"),
        "kPa_gauge": ("kPa_gauge", "bar_gauge", "psi_gauge"),
    }
    return finer.get(unit, (unit,))


@dataclass(frozen=True)
class Typed:
    """What one field holds: the text as typed and the unit picked beside it, if any."""

    text: str
    unit: str = ""


@dataclass(frozen=True)
class Entered:
    """Everything entered, understood: numbers in base units, readings with their bands, picks as text."""

    numbers: Mapping[str, float]
    choices: Mapping[str, str]
    meters: Mapping[str, Meter]
    taken_with: Mapping[str, str] = field(default_factory=dict)

    def number(self, name: str) -> float | None:
        """A number in base units, or None when the field was left empty."""
        return self.numbers.get(name)

    def needed(self, name: str) -> float:
        """A number that the declaration made required."""
        return self.numbers[name]

    def reading(self, name: str) -> Reading | None:
        """A number with the band of the meter it was taken with, or None when the field was left empty."""
        value = self.numbers.get(name)
        return None if value is None else Reading.taken(value, self.meters[self.taken_with[name]])

    def needed_reading(self, name: str) -> Reading:
        """A reading that the declaration made required."""
        reading = self.reading(name)
        if reading is None:
            raise KeyError(name)
        return reading

    def choice(self, name: str) -> str:
        """What was picked; empty for a table row that was left unpicked."""
        return self.choices[name]


def fields_of(inputs: tuple[Input, ...], standards: InForce) -> Iterator[Field]:
    """The flat list of form fields, in order, with table rows and the decision map turned into choices."""
    for one in inputs:
        if isinstance(one, MeterInput):
            yield from one.fields()
        elif isinstance(one, TableInput):
            rows = [Choice(str(row["id"]), str(row["label"])) for row in standards.table(one.table).rows]
            nothing = [] if one.required else [Choice("", one.nothing)]
            yield ChoiceInput(one.name, one.label, tuple(nothing + rows), one.default, one.help, one.group)
        elif isinstance(one, DecisionInput):
            yield from one.fields(standards)
        else:
            yield one


def understand(inputs: tuple[Input, ...], typed: Mapping[str, Typed], standards: InForce) -> Entered | list[Problem]:
    """Turn what was typed into numbers, readings and picks; or list every field that needs mending.

    A field that was not sent at all holds its default. Fields that the calculator does not declare are a problem.
    """
    numbers: dict[str, float] = {}
    choices: dict[str, str] = {}
    problems: list[Problem] = []
    known = {one.name: one for one in fields_of(inputs, standards)}
    for name in typed:
        if name not in known:
            problems.append(Problem(name, f"There is no field called {name} here. The fields are: {', '.join(known)}."))
    for name, one in known.items():
        entry = typed.get(name, Typed(one.default))
        try:
            if isinstance(one, ChoiceInput):
                choices[name] = _understand_choice(one, entry.text)
            else:
                value = understand_number(one, entry)
                if value is not None:
                    numbers[name] = value
        except _UnreadableError as why:
            problems.append(Problem(name, str(why)))
    if problems:
        return problems
    meters = {
        one.name: Meter(*(numbers[part.name] for part in one.fields())) for one in inputs if isinstance(one, MeterInput)
    }
    taken = {one.name: one.meter for one in inputs if isinstance(one, NumberInput) and one.meter}
    return Entered(
        MappingProxyType(numbers), MappingProxyType(choices), MappingProxyType(meters), MappingProxyType(taken)
    )


class _UnreadableError(ValueError):
    """An entry that cannot be used; its text is the sentence for the reader."""


def _understand_choice(one: ChoiceInput, text: str) -> str:
    allowed = [choice.value for choice in one.choices]
    if text in allowed:
        return text
    if text == "":
        return one.default
    alike = [value for value in allowed if value.casefold() == text.casefold()]
    if len(alike) == 1:
        return alike[0]
    words = ", ".join(value or "(empty)" for value in allowed)
    raise _UnreadableError(f"{one.label}: “{_short(text)}” is not in the list. Choose one of: {words}.")


def understand_number(one: NumberInput, entry: Typed) -> float | None:
    """The base value of what was typed; None when empty and not required; infinity for an open line.

    Raises a ValueError whose text is the sentence for the reader.
    """
    text = _tidy(entry.text)
    if not text:
        if one.required:
            raise _UnreadableError(f"{one.label} is missing. Enter {_what_to_enter(one)}.")
        return None
    if len(text) > MOST_CHARACTERS:
        raise _UnreadableError(
            f"{one.label}: the entry is longer than {MOST_CHARACTERS} characters. Enter {_what_to_enter(one)}."
        )
    if text.lower() in _OPEN_WORDS:
        if one.open_line:
            return math.inf
        raise _UnreadableError(f"{one.label}: an open line cannot be used here. Enter {_what_to_enter(one)}.")
    number, unit = _split_unit(one, text, entry.unit)
    if number < 0.0 and UNITS[unit].factor < 0.0:
        raise _UnreadableError(
            f"{one.label}: {_short(text)} has a minus sign, but {symbol(unit)} already counts below the air's "
            f"pressure. Enter it without the sign."
        )
    value = to_base(number, unit)
    if value < 0.0 <= one.least:
        hint = f" {one.negative_hint}" if one.negative_hint else ""
        raise _UnreadableError(f"{one.label}: {_short(text)} is below zero. Enter {_what_to_enter(one)}.{hint}")
    if not one.least <= value <= one.most:
        raise _UnreadableError(
            f"{one.label}: {_short(text)} is outside what this check takes, {_range(one, unit)}. "
            f"Check the number and its unit{', or enter OL for an open line' if one.open_line else ''}."
        )
    if one.whole and value != round(value):
        raise _UnreadableError(f"{one.label}: {_short(text)} is not a whole number. Enter {_what_to_enter(one)}.")
    return value


def _tidy(text: str) -> str:
    """Drop the spaces and odd minus signs that keyboards and copied text bring along."""
    plain = text.replace("\u2212", "-").replace("\u2013", "-").replace("\u00a0", " ").replace("\u202f", " ")
    return plain.strip()


def _split_unit(one: NumberInput, text: str, picked: str) -> tuple[float, str]:
    """The number and the unit it was meant in: a unit typed behind it wins over the one picked beside it."""
    default = picked if picked in one.units else one.units[0]
    if picked and picked not in one.units:
        raise _UnreadableError(f"{one.label}: the unit {_short(picked)} does not fit. It takes {_unit_words(one)}.")
    parts = (_SPLIT_POWER if one.power_of_ten else _SPLIT).fullmatch(text)
    if parts is None:
        raise _UnreadableError(f"{one.label}: “{_short(text)}” is not a number. Enter {_what_to_enter(one)}.")
    number = _plain_number(one, parts["number"].strip(), parts["power"])
    written = parts["unit"].strip()
    if not written:
        return number, default
    quantity = UNITS[default].quantity
    meant = find_spelling(written, quantity)
    if meant is None:
        other = find_spelling(written)
        if _SECOND_NUMBER.match(written):
            raise _UnreadableError(
                f"{one.label}: “{_short(text)}” is more than one number. Enter one: {_range(one, one.units[0])}."
            )
        if other is None:
            raise _UnreadableError(
                f"{one.label}: “{_short(text)}” has letters that are not a unit here. Enter {_what_to_enter(one)}."
            )
        raise _UnreadableError(
            f"{one.label}: “{_short(text)}” is {quantity_words(other.name)}, but this field takes "
            f"{quantity_words(default)}{f' in {_unit_words(one)}' if symbol(default) else ''}."
        )
    return number, meant.name


def _plain_number(one: NumberInput, text: str, power: str) -> float:
    """The number without its unit; power is what follows a decimal number as e-3, or nothing."""
    if text.count(".") + text.count(",") > 1:
        raise _UnreadableError(
            f"{one.label}: “{_short(text + power)}” has two decimal marks. "
            "Enter one number with one mark, such as 4.4 or 4,4."
        )
    found = _NUMBER.fullmatch(text)
    if found is None or not (found[2] or found[4]):
        raise _UnreadableError(f"{one.label}: “{_short(text + power)}” is not a number. Enter {_what_to_enter(one)}.")
    sign, whole, mark, part = found[1], found[2] or "0", found[3], found[4] or ""
    if mark == "," and len(part) == 3 and whole.strip("0") and len(whole) <= 3:
        small, large = f"{sign}{whole}.{part}{power}", f"{sign}{whole}{part}{power}"
        raise _UnreadableError(
            f"{one.label}: “{_short(text + power)}” could be {small} or {large}. Enter it as {small} or as {large}."
        )
    return float(f"{sign}{whole}.{part or '0'}{power}")


def _unit_words(one: NumberInput) -> str:
    return " or ".join(symbol(unit) or quantity_words(unit) for unit in one.units)


def _what_to_enter(one: NumberInput) -> str:
    open_line = ", or OL for an open line" if one.open_line else ""
    return f"a number{' such as 1.2e-3' if one.power_of_ten else ''}, {_range(one, one.units[0])}{open_line}"


def _range(one: NumberInput, unit: str) -> str:
    ends = sorted((from_base(one.least, unit), from_base(one.most, unit)))
    mark = symbol(unit)
    return f"{_written(ends[0])} to {_written(ends[1])}{' ' + mark if mark else ''}"


def _written(number: float) -> str:
    """A number as people write it, never with a power of ten.

    >>> _written(1e-6), _written(1000.0), _written(2.5e6)
    ('0.000001', '1000', '2500000')
    """
    text = f"{number:g}"
    if "e" not in text:
        return text
    return f"{number:.12f}".rstrip("0").rstrip(".")


def _short(text: str) -> str:
    return text if len(text) <= MOST_CHARACTERS else text[: MOST_CHARACTERS - 1] + "…"
