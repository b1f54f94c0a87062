"""Twenty practice cases, walked from the complaint to a finding by their readings alone."""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
import yaml

from build_scripts.read_standards import read_standards
from calculators.decisions import evidence_field_of, field_of
from calculators.limits import Standards
from tests.practice.answering import MEASURED, answer_to, reason_to_stop
from tests.practice.evidence import EVIDENCE, evidence_for
from tests.practice.looked_at import LOOKED_AT, STOPS
from tests.practice.seen import TIMES, Seen, Taken, ask

HERE = Path(__file__).resolve().parent
STANDARDS = Standards.from_json(read_standards(HERE.parents[1] / "handbook").as_json("test"))
MAP = STANDARDS.decisions
CASES: dict[str, dict[str, Any]] = yaml.safe_load((HERE / "cases.yaml").read_text(encoding="utf-8"))
NOT_TELLABLE = "not-tellable-yet"
# Written down as the numbers of a case, and asked by no question of the map.
ONLY_TOLD = {
    "from the start to the trip",
    "the thermostat by itself",
    "seen at the terminals",
    "the gas detector",
    "corrected",
    "ran afterwards",
}


@dataclass(frozen=True)
class End:
    """Where a walk ended, and the findings that may be written there."""

    reached: str
    written: frozenset[str]


def readings_of(case: Mapping[str, Any]) -> dict[str, Taken]:
    return {
        name: Taken(name, one["into"], one["typed"], one.get("when", TIMES[0]), one.get("part", "")).with_plate(
            case["plate"]
        )
        for name, one in case["readings"].items()
    }


def seen_in(case: Mapping[str, Any]) -> Seen:
    """What the answers may be made from: no id, no finding."""
    return Seen(tuple(readings_of(case).values()), case["seen"], STANDARDS)


def walked(seen: Seen) -> End:
    """The walk as a reader walks it: the next field that the calculator asks, until it asks no more."""
    questions = {field_of(one, visit): one for one in MAP.questions for visit in range(1, MAP.visits(one) + 1)}
    evidence = {evidence_field_of(one): one for one in MAP.conclusions}
    given = {"stop_now": reason_to_stop(seen)}
    while True:
        reply = ask("next-check", given, seen.standards)
        assert "problems" not in reply, reply
        open_fields = [field for field in reply["asks"] if field not in given]
        if not open_fields:
            break
        field = open_fields[0]
        given[field] = answer_to(questions[field], seen) if field in questions else evidence_for(evidence[field], seen)
    last = reply["findings"][0]
    written = frozenset(one["name"] for one in reply["findings"] if one["verdict"] in ("outside", "watch"))
    return End(last["name"].split(" at ")[0], written)


def without(seen: Seen, what: str | Mapping[str, Any]) -> Seen:
    """The same machine with one reading, some fields of one, or one observation missing."""
    name = what if isinstance(what, str) else what["reading"]
    if name in seen.observations:
        return replace(seen, observations={key: text for key, text in seen.observations.items() if key != name})
    assert name in [one.name for one in seen.readings], name
    if isinstance(what, str):
        return replace(seen, readings=tuple(one for one in seen.readings if one.name != name))
    return replace(
        seen,
        readings=tuple(one.without(what["fields"]) if one.name == name else one for one in seen.readings),
    )


def id_of(what: str | Mapping[str, Any]) -> str:
    return what if isinstance(what, str) else f"{what['reading']}: {' '.join(what['fields'])}"


def printed(reply: Mapping[str, Any], name: str) -> str:
    """A result as it is printed; "ratio low" and "ratio high" are the ends of its band."""
    plain, _, end = name.rpartition(" ")
    ends = end in ("low", "high")
    one = next(one for one in reply["results"] if one["name"] == (plain if ends else name))
    if not ends:
        return str(one["text"]).split(" ")[0]
    low, high = str(one["band"]).split(" to ")
    return {"low": low, "high": high.split(" ")[0]}[end]


def agree(shown: str, typed: str) -> bool:
    """Whether a printed number rounds to the typed one, to the digits typed; words are the same words."""
    try:
        exponent = Decimal(typed).as_tuple().exponent
        return abs(Decimal(shown) - Decimal(typed)) <= Decimal(1).scaleb(int(exponent)) / 2
    except ArithmeticError:
        return shown == typed


every_case = pytest.mark.parametrize("case", CASES.values(), ids=CASES)
every_deciding = pytest.mark.parametrize(
    ("case", "missing"),
    [
        pytest.param(case, missing, id=f"{key}, {id_of(missing)}")
        for key, case in CASES.items()
        for missing in case["deciding"]
    ],
)
every_reading = pytest.mark.parametrize(
    ("case", "missing"),
    [
        pytest.param(case, missing, id=f"{key}, {missing}")
        for key, case in CASES.items()
        for missing in (*case["readings"], *case["seen"])
    ],
)


def test_every_question_of_the_map_has_one_way_of_answering():
    assert sorted([*MEASURED, *LOOKED_AT]) == sorted(MAP.questions)


def test_every_way_of_answering_knows_the_answers_of_its_question():
    for question, (_, meanings) in LOOKED_AT.items():
        for answer in meanings.values():
            assert MAP.questions[question].answer(answer)
    assert {reason for _, meanings in STOPS.values() for reason in meanings.values()} == {one.id for one in MAP.reasons}
    assert set(EVIDENCE) <= {one.id for one in MAP.conclusions.values() if one.needs_evidence}


def test_there_are_twenty_cases_and_each_says_what_decides_it():
    assert len(CASES) == 20
    assert all(case["deciding"] and case["finding"] in MAP.conclusions for case in CASES.values())


@every_case
def test_a_case_stores_no_way_and_no_word_that_nobody_understands(case):
    assert set(case) == {"machine", "complaint", "plate", "readings", "seen", "deciding", "finding"}
    assert all(one.when in TIMES for one in readings_of(case).values())
    asked = [*LOOKED_AT.values(), *STOPS.values()]
    for name, words in case["seen"].items():
        meanings = [known for key, known in asked if key == name]
        assert not meanings or name in ONLY_TOLD or any(words in known for known in meanings), (name, words)


@every_case
def test_the_calculators_say_what_the_case_says(case):
    for name, one in readings_of(case).items():
        reply = ask(one.calculator, one.typed, STANDARDS)
        assert "problems" not in reply, (name, reply)
        verdicts = {finding["name"]: finding["verdict"] for finding in reply["findings"]}
        expected = case["readings"][name]
        assert {key: verdicts.get(key) for key in expected["says"]} == expected["says"], name
        sentences = {finding["name"]: finding["sentence"] for finding in reply["findings"]}
        for key, words in expected.get("tells", {}).items():
            assert words in sentences[key], (name, sentences[key])
        for key, typed in expected.get("prints", {}).items():
            assert agree(printed(reply, key), typed), (name, key, printed(reply, key), typed)


@every_case
def test_the_readings_alone_lead_to_the_finding_in_any_order(case, seed, long_run):
    seen, draw = seen_in(case), random.Random(f"{seed}")
    for _ in range(30 if long_run else 3):
        readings = list(seen.readings)
        draw.shuffle(readings)
        end = walked(replace(seen, readings=tuple(readings)))
        assert end == End(case["finding"], frozenset({case["finding"]}))


@every_deciding
def test_without_a_reading_that_decides_it_is_not_tellable(case, missing):
    assert walked(without(seen_in(case), missing)) == End(NOT_TELLABLE, frozenset())


@every_reading
def test_without_any_one_reading_no_other_finding_is_written(case, missing):
    """A machine that is left isolated is not condemned."""
    end = walked(without(seen_in(case), missing))
    condemned = {one for one in end.written if MAP.conclusions[one].kind != "danger"}
    assert condemned <= {case["finding"]}


def test_after_two_resets_nothing_is_opened_without_licensed_advice():
    end = walked(without(seen_in(CASES["two-resets"]), "licensed advice on the charge"))
    assert end.reached == "left-isolated"


@every_case
def test_wider_meters_may_only_weaken_the_finding(case):
    """Three times as wide, and on until nothing is left: the same finding, then not tellable, and never back."""
    seen, last = seen_in(case), frozenset({case["finding"]})
    for times in (3.0, 10.0, 25.0):
        end = walked(replace(seen, readings=tuple(one.with_meters(times) for one in seen.readings)))
        assert end.written <= last
        assert end.reached in (NOT_TELLABLE, case["finding"])
        last = end.written


@every_case
def test_oil_at_the_terminals_leaves_any_machine_isolated(case):
    seen = seen_in(case)
    end = walked(replace(seen, observations={**seen.observations, "seen at the terminals": "oil"}))
    assert end == End("left-isolated", frozenset({"left-isolated"}))
