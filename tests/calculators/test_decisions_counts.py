"""What the walk counts, on a map small enough to count by hand: visits, answers away from a finding, and going round."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from calculators.decisions import ROUND_AGAIN, SAME_ANSWER, DecisionMap, field_of, walk


def question(name: str, **leads_to: str) -> Mapping[str, Any]:
    answers = [{"id": one, "label": one, "leads_to": place} for one, place in leads_to.items()]
    told = {"id": name, "question": f"{name}?", "how": "Look.", "level": "anyone", "procedures": ["look"]}
    return {**told, "answers": answers, "cannot_tell": "not-yet"}


def finding(name: str, kind: str) -> Mapping[str, Any]:
    return {"id": name, "title": name, "write": name, "kind": kind, "procedure": "look"}


@pytest.fixture
def lamps() -> DecisionMap:
    """Lamp and bulb in a ring, the cord behind it; smoke cuts in with the socket, and the ring comes anew behind it."""
    return DecisionMap.from_data(
        {
            "first": "lamp",
            "stop": {"question": "Stop?", "reasons": [{"id": "smoke", "label": "Smoke", "leads_to": "socket"}]},
            "checks": [],
            "questions": [
                question("lamp", dim="bulb", dark="cord"),
                question("bulb", tightened="lamp", loose="lamp", black="lamp"),
                question("cord", cut="dead-cord"),
                question("socket", cold="lamp"),
            ],
            "findings": [finding("dead-cord", "fault"), finding("not-yet", "open")],
        }
    )


@pytest.mark.parametrize(
    ("name", "visits"),
    [
        ("lamp", 4),  # twice in the ring, and twice more behind the smoke
        ("bulb", 4),
        ("cord", 2),  # no ring leads back to it: once before the smoke and once behind it
        ("socket", 1),  # only the smoke leads there, once
    ],
)
def test_a_question_has_a_field_for_every_visit_and_not_one_more(lamps, name, visits):
    assert lamps.visits(name) == visits


def test_a_walk_can_use_every_field_of_a_question(lamps):
    to_smoke = ["dim", "loose", "dark", "stop:smoke"]
    end = walk(lamps, [*to_smoke, "cold", "dim", "loose", "dark", "cut"])
    assert [one.visit for one in end.taken if one.question.id == "lamp"] == [1, 2, 3, 4]
    assert [one.visit for one in end.taken if one.question.id == "cord"] == [1]
    assert end.at == "dead-cord"


@pytest.mark.parametrize(
    ("name", "answers"),
    [("dead-cord", 0), ("cord", 1), ("lamp", 2), ("bulb", 3), ("socket", 3)],
)
def test_the_answers_to_the_nearest_finding_are_counted(lamps, name, answers):
    # cord: cut. lamp: dark, cut. bulb: loose, dark, cut. socket: cold, dark, cut.
    assert lamps.steps_to_finding[name] == answers


def test_giving_up_is_no_finding_that_a_walk_comes_nearer_to(lamps):
    assert "not-yet" not in lamps.steps_to_finding


def test_the_very_first_answer_counts_when_it_is_given_again(lamps):
    end = walk(lamps, ["dim", "loose", "dim"])
    assert (end.at, end.why) == ("not-yet", SAME_ANSWER)


def test_a_third_visit_is_going_round_and_is_not_asked():
    ring = DecisionMap.from_data(
        {
            "first": "lamp",
            "stop": {"question": "Stop?", "reasons": []},
            "checks": [],
            "questions": [question("lamp", dim="bulb", flickers="bulb"), question("bulb", loose="lamp", black="lamp")],
            "findings": [finding("not-yet", "open")],
        }
    )
    assert walk(ring, ["dim", "loose", "flickers"]).at == "bulb"
    end = walk(ring, ["dim", "loose", "flickers", "black"])
    assert (end.at, end.why) == ("not-yet", ROUND_AGAIN)


def test_a_field_is_numbered_from_the_second_visit_on():
    assert [field_of("three-windings", visit) for visit in (1, 2, 3)] == [
        "three_windings",
        "three_windings_2",
        "three_windings_3",
    ]
