"""What must hold of every calculator, on requests made at random from its own declaration and worked examples.

Each run starts from the seed that pytest prints; --long takes a new one and many more requests.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from calculators import CALCULATORS
from calculators.answer import answer
from calculators.inputs import MeterInput, NumberInput, fields_of
from calculators.units import UNITS, to_base
from tests.same_text.random_requests import random_requests

DAY = date(2026, 11, 25)
SLUGS = list(CALCULATORS)
MAY_BECOME = {
    "within": {"within", "watch", "undecided"},
    "watch": {"watch", "undecided"},
    "outside": {"outside", "watch", "undecided"},
    "undecided": {"undecided"},
}


@pytest.fixture(scope="module")
def count(long_run: bool) -> int:
    return 1000 if long_run else 60


@pytest.fixture
def answers(standards, seed, count):
    """Requests and their answers, outcomes only: answers(slug) yields (request, answer)."""
    in_force = standards.in_force(DAY)

    def of(slug: str, salt: int = 0) -> Iterator[tuple[dict[str, Any], dict[str, Any]]]:
        for text in random_requests(CALCULATORS[slug], in_force, seed + salt, count):
            reply = json.loads(answer(text, standards))
            if "problems" not in reply:
                yield json.loads(text), reply

    return of


def again(request: dict[str, Any], standards, **changed: str) -> dict[str, Any]:
    inputs = request["inputs"] | {name: {"text": text, "unit": ""} for name, text in changed.items()}
    return json.loads(answer(json.dumps(request | {"inputs": inputs}), standards))


def verdicts(reply: dict[str, Any]) -> dict[str, str]:
    return {one["name"]: one["verdict"] for one in reply.get("findings", ())}


@pytest.mark.parametrize("slug", SLUGS)
def test_a_problem_always_names_a_field_of_the_form(slug, standards, seed, count) -> None:
    in_force = standards.in_force(DAY)
    names = {one.name for one in fields_of(CALCULATORS[slug].inputs, in_force)}
    for text in random_requests(CALCULATORS[slug], in_force, seed, 3 * count):
        reply = json.loads(answer(text, standards))
        assert {one["input"] for one in reply.get("problems", ())} <= names, text
        assert all(one["message"].endswith((".", "?")) for one in reply.get("problems", ())), reply


@pytest.mark.parametrize("slug", SLUGS)
def test_what_would_decide_does_decide_when_it_is_entered(slug, answers, standards) -> None:
    for request, reply in answers(slug):
        for one in reply["findings"]:
            decider = one["decider"] or {}
            if decider.get("entry"):
                after = again(request, standards, **{decider["enter_in"]: decider["entry"]})
                assert "problems" not in after, (request, one, after)
                assert verdicts(after).get(one["name"]) != "undecided", (request, one)


@pytest.mark.parametrize("slug", SLUGS)
def test_an_undecided_finding_says_which_reading_how_fine_and_when(slug, answers) -> None:
    for request, reply in answers(slug):
        for one in reply["findings"]:
            if one["verdict"] == "undecided":
                said = [one["decider"][part] for part in ("reading", "resolution", "condition")]
                assert all(said), (request, one)


@pytest.mark.parametrize("slug", SLUGS)
def test_a_wider_band_only_weakens(slug, answers, standards) -> None:
    meters = [one for one in CALCULATORS[slug].inputs if isinstance(one, MeterInput)]
    for request, reply in answers(slug, salt=1):
        for meter in meters:
            percent, counts, _ = (field.name for field in meter.fields())
            typed = request["inputs"]
            wider = {
                name: str(min(3.0 * float(typed.get(name, {}).get("text") or default), most))
                for name, default, most in ((percent, meter.percent, 50.0), (counts, meter.counts, 100.0))
                if _plain(typed.get(name, {}).get("text", ""))
            }
            before, after = verdicts(reply), verdicts(again(request, standards, **wider))
            for name in before.keys() & after.keys():
                assert after[name] in MAY_BECOME[before[name]], (name, before, after, wider, request)


def _plain(text: str) -> bool:
    return not text or text.replace(".", "", 1).isdigit()


@pytest.mark.parametrize("slug", SLUGS)
def test_the_same_amount_in_another_unit_gives_the_same_answer(slug, answers, standards) -> None:
    numbers = {one.name: one for one in _numbers(slug, standards)}
    for request, reply in answers(slug, salt=2):
        in_base = {}
        for name, entry in request["inputs"].items():
            unit = entry["unit"]
            base = next((one for one in getattr(numbers.get(name), "units", ()) if _is_base(one)), None)
            if base and unit and unit != base and _plain(entry["text"].lstrip("-")):
                value = Decimal(repr(to_base(float(entry["text"]), unit)))
                if len(f"{value:f}") <= 40:
                    in_base[name] = {"text": f"{value:f}", "unit": base}
        if in_base:
            other = json.loads(answer(json.dumps(request | {"inputs": request["inputs"] | in_base}), standards))
            assert other == reply, (request, in_base)


def _numbers(slug: str, standards) -> list[NumberInput]:
    in_force = standards.in_force(DAY)
    return [one for one in fields_of(CALCULATORS[slug].inputs, in_force) if isinstance(one, NumberInput)]


def _is_base(name: str) -> bool:
    unit = UNITS[name]
    return unit.factor == 1.0 and unit.divisor == 1.0 and unit.zero == 0.0
