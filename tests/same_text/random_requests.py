"""Requests as people and accidents make them: a worked example with some fields changed, or a form filled at random."""

from __future__ import annotations

import json
import math
import random
from collections.abc import Iterator

from calculators.contract import Calculator
from calculators.inputs import ChoiceInput, Field, NumberInput, Typed, fields_of
from calculators.limits import InForce
from calculators.units import from_base

DATE = "2026-11-25"
ODD_TEXTS = (
    "",
    " ",
    "four",
    "OL",
    "4,4",
    "1,234",
    "--3",
    "1e5",
    "12k",
    "9" * 41,
    "½",
    "٣",
    "0.0000001",
    "-0",
    "∞",
    "<b>",
)


def example_requests(calculator: Calculator) -> list[str]:
    """The worked examples, as the page sends them."""
    return [_request(calculator, dict(example.typed)) for example in calculator.examples]


def random_requests(calculator: Calculator, standards: InForce, seed: int, count: int) -> Iterator[str]:
    """As many requests as asked for, the same ones for the same seed."""
    choice = random.Random(f"{calculator.slug} {seed}")
    fields = list(fields_of(calculator.inputs, standards))
    for _ in range(count):
        yield _request(calculator, _filled(calculator, fields, choice))


def _filled(calculator: Calculator, fields: list[Field], choice: random.Random) -> dict[str, Typed]:
    typed: dict[str, Typed] = {}
    if choice.random() < 0.7:
        typed = dict(choice.choice(calculator.examples).typed)
        changed = choice.sample(fields, k=min(len(fields), choice.randint(1, 4)))
    else:
        changed = [one for one in fields if _needed(one) or choice.random() < 0.4]
    for one in changed:
        typed[one.name] = _entry(one, choice)
    if choice.random() < 0.1:
        typed[choice.choice(fields).name] = Typed(choice.choice(ODD_TEXTS))
    return typed


def _needed(one: Field) -> bool:
    return isinstance(one, NumberInput) and one.required and not one.default


def _entry(one: Field, choice: random.Random) -> Typed:
    if isinstance(one, ChoiceInput):
        return Typed(choice.choice(one.choices).value)
    if one.open_line and choice.random() < 0.15:
        return Typed("OL")
    if one.power_of_ten:
        return Typed(f"{choice.uniform(-10.0, 10.0):.3f}e{choice.randint(-9, -1)}")
    unit = choice.choice(one.units)
    ends = sorted((from_base(one.least, unit), from_base(one.most, unit)))
    number = choice.choice(ends) if choice.random() < 0.05 else _between(ends[0], ends[1], choice)
    digits = 0 if one.whole else choice.randint(0, 4)
    return Typed(f"{number:.{digits}f}", unit)


def _between(low: float, high: float, choice: random.Random) -> float:
    """Small numbers as often as large ones, where the range spans more than two decades."""
    floor = max(low, high / 1e6, 1e-6)
    if low >= 0.0 and high / floor > 100.0 and choice.random() < 0.7:
        return math.exp(choice.uniform(math.log(floor), math.log(high)))
    return choice.uniform(low, high)


def _request(calculator: Calculator, typed: dict[str, Typed]) -> str:
    inputs = {name: {"text": one.text, "unit": one.unit} for name, one in typed.items()}
    return json.dumps({"calculator": calculator.slug, "date": DATE, "inputs": inputs}, ensure_ascii=False)
