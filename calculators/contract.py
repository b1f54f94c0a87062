"""What a calculator is, and what it answers: results, findings, their working, and a figure.

One declaration feeds the form, the worked example printed in the page, the command line,
practice sheets and the docs. Every number is rounded here, once, to its declared digits,
so that every place prints the same text.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from calculators.findings import Finding
from calculators.inputs import Entered, Input, Typed
from calculators.limits import InForce
from calculators.units import from_base, symbol


def rounded(value: float, digits: int) -> str:
    """A number as it is printed: rounded to digits decimals, never "-0", OL for an open line.

    >>> rounded(-0.004, 2), rounded(2.675, 2), rounded(float("inf"), 1)
    ('0.00', '2.67', 'OL')
    """
    if math.isinf(value):
        return "OL" if value == math.inf else "-OL"
    text = f"{value:.{digits}f}"
    return text.lstrip("-") if float(text) == 0.0 else text


def quantity(value: float, unit: str, digits: int) -> str:
    """A base-unit value as printed with its unit: "2.68 A".

    >>> quantity(25.0, "degF", 0), quantity(5.3, "percent", 1)
    ('77 °F', '5.3 %')
    """
    number = rounded(from_base(value, unit), digits)
    mark = symbol(unit)
    return f"{number} {mark}" if mark and number != "OL" else number


@dataclass(frozen=True)
class Result:
    """One number with its unit, the sentence a helper understands, and the same in other units.

    value, low and high are in base units; low and high are the ends of the band, when there is one.
    also lists further (unit, digits) the value is printed in.
    """

    name: str
    label: str
    value: float
    unit: str
    digits: int
    plain: str
    low: float | None = None
    high: float | None = None
    also: tuple[tuple[str, int], ...] = ()

    def as_json(self) -> dict[str, Any]:
        """The result as the page and the command line receive it."""
        band = ""
        if self.low is not None and self.high is not None:
            low = rounded(from_base(self.low, self.unit), self.digits)
            band = f"{low} to {quantity(self.high, self.unit, self.digits)}"
        return {
            "name": self.name,
            "label": self.label,
            "plain": self.plain,
            "value": rounded(from_base(self.value, self.unit), self.digits),
            "unit": self.unit,
            "text": quantity(self.value, self.unit, self.digits),
            "band": band,
            "also": [quantity(self.value, unit, digits) for unit, digits in self.also],
        }


@dataclass(frozen=True)
class Named:
    """A result that is a word, not a number: which pin is common."""

    name: str
    label: str
    text: str
    plain: str

    def as_json(self) -> dict[str, Any]:
        """The result as the page and the command line receive it."""
        return {
            "name": self.name,
            "label": self.label,
            "plain": self.plain,
            "value": self.text,
            "unit": "",
            "text": self.text,
            "band": "",
            "also": [],
        }


@dataclass(frozen=True)
class Step:
    """One line of working as a trainee would write it: formula, numbers put in, result, source key."""

    label: str
    formula: str
    put_in: str
    result: str
    source: str


@dataclass(frozen=True)
class Figure:
    """A drawing: SVG text from calculators.drawing, its alt text, and the same facts in words."""

    name: str
    svg: str
    alt: str
    words: str


@dataclass(frozen=True)
class Outcome:
    """Everything a calculator has to say about what was entered.

    asks names the fields that are asked now, in order; empty when all of them always are.
    """

    results: tuple[Result | Named, ...]
    findings: tuple[Finding, ...]
    working: tuple[Step, ...]
    figures: tuple[Figure, ...] = ()
    notes: tuple[str, ...] = ()
    asks: tuple[str, ...] = ()


@dataclass(frozen=True)
class Example:
    """A worked example: an id that never changes, what is typed, and where it comes from (a source key)."""

    id: str
    title: str
    source: str
    typed: Mapping[str, Typed]


@dataclass(frozen=True)
class Calculator:
    """One question answered. See the module of each for its source and validity.

    limits, tables and sources are the keys it uses; the build checks that the handbook has them.
    hazards are keys of the handbook's one list of hazards.
    level is who may take the readings: anyone, helper, technician or licensed.
    """

    slug: str
    title: str
    question: str
    purpose: str
    does_not_tell: str
    level: str
    inputs: tuple[Input, ...]
    evaluate: Callable[[Entered, InForce], Outcome]
    examples: tuple[Example, ...]
    limits: tuple[str, ...] = ()
    tables: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    hazards: tuple[str, ...] = ()
    search_words: tuple[str, ...] = field(default=())
