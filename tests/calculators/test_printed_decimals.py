"""To how many decimals each number of an answer is printed, for every worked example, kept in printed/.

A file there holds the form of every number and not its value: "2.68 A ±20 %" is kept as "#.## ##". What the numbers
have to be is for the calculators' own tests to say. THREEPIN_REFRESH_GOLDEN=1 writes the files anew, to be read
before they are committed: more decimals than the reading can carry are a promise that nobody can keep.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from calculators import CALCULATORS
from calculators.answer import evaluate, outcome_as_json
from calculators.contract import Calculator, Outcome
from calculators.limits import InForce, Standards

KEPT = Path(__file__).parent / "printed"
NUMBER = re.compile(r"(?<![A-Za-z_₀-₉])[0-9]+(?:\.[0-9]+)?(?:e[+-]?[0-9]+)?")


def forms(text: str) -> str:
    return " ".join(re.sub("[0-9]", "#", re.sub(r"^[0-9]+", "#", found)) for found in NUMBER.findall(text))


def lines_of(answer: dict[str, Any]) -> Iterator[str]:
    for one in answer["results"]:
        yield f"result {one['name']} | {forms(one['text'])} | {forms(one['band'])} | {forms(' '.join(one['also']))} | {forms(one['plain'])}"
    for one in answer["findings"]:
        decider = one["decider"] or {}
        said = " ".join(str(decider.get(part, "")) for part in ("resolution", "condition", "entry"))
        yield f"finding {one['name']} | {forms(one['sentence'])} | {forms(said)}"
    for one in answer["working"]:
        yield f"working {forms(one['put_in'])} | {forms(one['result'])}"
    for one in answer["figures"]:
        yield f"figure {one['name']} | {forms(one['words'])}"


def forms_of(calculator: Calculator, in_force: InForce) -> str:
    lines = []
    for example in calculator.examples:
        outcome = evaluate(calculator, example.typed, in_force)
        assert isinstance(outcome, Outcome)
        lines += [
            f"[{example.id}]",
            *(line.rstrip(" |") for line in lines_of(outcome_as_json(outcome, calculator, in_force))),
        ]
    return "\n".join(lines) + "\n"


@pytest.mark.parametrize("slug", list(CALCULATORS))
def test_every_number_of_a_worked_example_has_the_decimals_it_was_given(slug, standards: Standards) -> None:
    printed = forms_of(CALCULATORS[slug], standards.in_force(date(2026, 11, 25)))
    file = KEPT / f"{slug}.txt"
    if os.environ.get("THREEPIN_REFRESH_GOLDEN") == "1":
        KEPT.mkdir(exist_ok=True)
        file.write_text(printed, encoding="utf-8", newline="\n")
    assert file.exists(), f"run the tests once with THREEPIN_REFRESH_GOLDEN=1 and read {file.name}"
    assert printed == file.read_text(encoding="utf-8")


def test_no_form_is_kept_of_a_calculator_that_is_gone() -> None:
    assert {file.stem for file in KEPT.glob("*.txt")} <= set(CALCULATORS)
