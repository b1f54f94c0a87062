"""Marks in prose and at the start of steps; code is left alone."""

from __future__ import annotations

import pytest

from build_scripts.marks import fill_marks, find_fences, find_marks, split_step_marks, with_fences
from build_scripts.read_body import find_gates


def upper(mark):
    return f"<{mark.kind}:{mark.key.upper()}>"


def test_marks_are_filled_where_they_stand():
    assert fill_marks("Below {limit:a.b_c}, see {procedure:x-y}.", upper) == "Below <limit:A.B_C>, see <procedure:X-Y>."


@pytest.mark.parametrize(
    "text",
    [
        "`{limit:a.b}`",
        "``a ` {limit:a.b}``",
        "```\n{limit:a.b}\n```",
        "~~~ text\n{limit:a.b}\n~~~",
        "   ```calculator\n   {limit:a.b}\n   ```",
        "````\n```\n{limit:a.b}\n````",
    ],
)
def test_marks_in_code_are_left_alone(text):
    assert fill_marks(text, upper) == text
    assert find_marks(text) == []


def test_a_mark_behind_code_is_filled():
    assert fill_marks("`x` {limit:a}\n\n```\nx\n```\n{limit:b}", upper).endswith("```\n<limit:B>")


@pytest.mark.parametrize("text", ["{: .class }", "{ .class }", "{limit}", "{limit: a.b}", "{LIMIT:a}", "{{limit:a b}}"])
def test_what_looks_like_a_mark_and_is_none_is_left_alone(text):
    assert find_marks(text) == []


def test_marks_know_their_lines():
    assert [(mark.key, mark.line) for mark in find_marks("{limit:a}\n\n{limit:b} {limit:c}", 10)] == [
        ("a", 10),
        ("b", 12),
        ("c", 12),
    ]


def test_a_fence_that_never_closes_runs_to_the_end():
    (fence,) = find_fences("x\n```calculator\nslug\n", 5)
    assert (fence.language, fence.content, fence.line) == ("calculator", "slug\n", 6)
    assert [inside for _, inside in with_fences("x\n```\ny")] == [False, True, True]


@pytest.mark.parametrize(
    ("text", "marks", "rest"),
    [
        ("Look.", [], "Look."),
        ("[hold] Look.", ["hold"], "Look."),
        ("[hold][technician]   Look.", ["hold", "technician"], "Look."),
        ("[the plate](x.md) says it.", [], "[the plate](x.md) says it."),
        ("[the plate][1] says it.", [], "[the plate][1] says it."),
        ("[hold]", ["hold"], ""),
    ],
)
def test_marks_that_open_a_step_are_taken_off_it(text, marks, rest):
    assert split_step_marks(text) == (marks, rest)


def test_a_gate_may_run_over_several_lines():
    (gate,) = find_gates("First.\n\n[gate] Is it\noff? | Switch\nit off.\n\nThen.")
    assert (gate.row, gate.end, gate.question, gate.otherwise) == (2, 5, "Is it off?", "Switch it off.")


def test_a_gate_in_code_is_no_gate():
    assert find_gates("```\n[gate] Is it off? | No.\n```") == []
