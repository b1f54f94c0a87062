"""The command `calc`, typed as a person types it. The values are those of the calculators' own tests; here it is the
command that is looked at: what it takes, what it says, how it ends."""

from __future__ import annotations

import json

import pytest

from calculators import CALCULATORS

PINS = ("r12=4.2", "r13=13.8", "r23=17.9")


def test_the_list_names_every_calculator_with_its_question(run):
    ended = run("calc", "--list")
    assert ended.code == 0
    text = " ".join(ended.out.split())
    for slug, one in CALCULATORS.items():
        assert f"{slug} {one.question}" in text


def test_calc_alone_lists_them_too(run):
    assert run("calc").out == run("calc", "--list").out


@pytest.mark.parametrize("slug", list(CALCULATORS))
def test_a_calculator_without_entries_says_what_it_asks_for_and_shows_its_example(run, slug):
    ended = run("calc", slug)
    assert (ended.code, ended.err) == (0, "")
    text = " ".join(ended.out.split())
    calculator = CALCULATORS[slug]
    for one in calculator.inputs:
        assert one.name in text
        assert one.label in text
    assert f"Worked example: {calculator.examples[0].title}" in text
    for example in calculator.examples:
        assert example.title in text
    for heading in ("What it means", "Results", "Working"):
        assert heading in text


def test_an_entry_shows_label_range_units_default_and_whether_it_is_needed(run):
    out = run("calc", "winding-identification").out
    assert "  r12  Reading 1–2; 0 to 300 Ω (in Ω or kΩ or mΩ), or OL for an open line; required\n" in out
    assert "  lead  Test leads shorted together; 0 to 2 Ω (in Ω or mΩ); optional\n" in out
    assert "  ohmmeter_counts  Ohmmeter: counts; 0 to 100; default 2\n" in out
    assert "  metal  Winding metal; default copper\n      copper: copper\n      aluminium: aluminium\n" in out


def test_readings_are_answered_with_verdict_results_working_and_limits(run):
    ended = run("calc", "winding-identification", *PINS)
    assert (ended.code, ended.err) == (0, "")
    text = " ".join(ended.out.split())
    assert "within: Pin 1 is common, pin 2 is run, pin 3 is start" in text
    assert "Limit 5 % (derived): " in text
    assert "Next: Measure each pin to the shell" in text
    assert "(procedure windings-to-shell)" in text
    assert "Common pin: 1" in text
    assert "C–R: 4.20 Ω (" in text
    assert "17.90 − (13.80 + 4.20)" in text
    assert "Source: " in text
    assert "windings.sum_tolerance 5 %: " in text
    assert "in force from 2026-01-01" in text


@pytest.mark.parametrize("columns", ["40", "61", "77", "100"])
def test_a_line_never_breaks_between_a_number_and_its_unit(run, columns):
    out = run("calc", "winding-identification", *PINS, COLUMNS=columns).out
    first_words = [line.split()[0] for line in out.splitlines() if line.strip()]
    assert not {"Ω", "%", "°C", "h"} & {word.rstrip(".,;:)") for word in first_words}
    assert max(len(line) for line in out.splitlines()) <= int(columns)


def test_an_undecided_answer_says_what_would_decide_it(run):
    ended = run("calc", "winding-identification", "r12=OL", "r13=OL", "r23=13.9", "lead=0", "shell_temperature=88")
    assert ended.code == 0
    text = " ".join(ended.out.split())
    assert "undecided: " in text
    assert "What would decide it: " in text


@pytest.mark.parametrize("word", ["r12=0.0042 kohm", "r12:kilohm=0.0042", "r12:kΩ=0.0042", "r12=4,2", "r12=4200 mohm"])
def test_a_unit_may_be_typed_behind_the_number_or_behind_the_name(run, word):
    ended = run("calc", "winding-identification", word, *PINS[1:])
    assert ended.code == 0
    assert "C–R: 4.20 Ω (" in ended.out


def test_json_is_the_answer_unchanged(run):
    ended = run("calc", "winding-identification", *PINS, "--date", "2026-03-01", "--json")
    assert ended.code == 0
    reply = json.loads(ended.out)
    assert reply["calculator"] == "winding-identification"
    assert reply["date"] == "2026-03-01"
    assert reply["results"][0]["text"] == "1"
    assert ended.out == json.dumps(reply, ensure_ascii=False, separators=(",", ":")) + "\n"


def test_json_says_what_cannot_be_used_as_json_too(run):
    ended = run("calc", "winding-identification", "r12=four", *PINS[1:], "--json")
    assert ended.code == 2
    assert [one["input"] for one in json.loads(ended.out)["problems"]] == ["r12"]
    ended = run("calc", "winding-identifcation", "--json")
    assert ended.code == 2
    assert "winding-identification" in json.loads(ended.out)["problems"][0]["message"]


def test_an_unknown_calculator_gets_the_nearest_names(run):
    ended = run("calc", "winding-identifcation", *PINS)
    assert ended.code == 2
    assert ended.err == ("There is no calculator called winding-identifcation. Did you mean winding-identification?\n")
    assert ended.out == ""


def test_an_unknown_field_gets_the_nearest_names(run):
    ended = run("calc", "winding-identification", *PINS, "led=0.2")
    assert ended.code == 2
    assert ended.err == "led — there is no such field here. Did you mean lead?\n"


def test_every_entry_that_cannot_be_used_gets_one_sentence_with_its_name(run):
    ended = run("calc", "winding-identification", "r12=four", "r13=-2", "metal=gold")
    assert ended.code == 2
    lines = ended.err.splitlines()
    assert [line.split(" — ")[0] for line in lines] == ["r12", "r23", "r13", "metal"]
    assert lines[0] == (
        "r12 — Reading 1–2: “four” is not a number. Enter a number, 0 to 300 Ω, or OL for an open line."
    )
    assert lines[1].startswith("r23 — Reading 2–3 is missing.")
    assert ended.out == ""


def test_a_unit_that_does_not_fit_is_refused_by_name(run):
    ended = run("calc", "winding-identification", "r12:volt=4.2", *PINS[1:])
    assert ended.code == 2
    assert ended.err == "r12 — Reading 1–2: the unit volt does not fit. It takes Ω or kΩ or mΩ.\n"


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["4.2"], "“4.2” is not an entry. Type it as name=value, such as r12=4.2."),
        (["=4.2"], "“=4.2” is not an entry. Type it as name=value, such as r12=4.2."),
        (["r12=4.2", "r12=4.3"], "r12 is entered twice. Keep one of the two."),
        (["metal:ohm=copper"], "metal is picked from a list and takes no unit. Type it as metal=value."),
    ],
)
def test_a_word_that_is_no_entry_is_refused(run, words, sentence):
    ended = run("calc", "winding-identification", *words)
    assert (ended.code, ended.err, ended.out) == (2, sentence + "\n", "")


@pytest.mark.parametrize("typed", ["tomorrow", "2026-02-30", "20260201", "31.01.2026", "2026-W05-1"])
def test_a_date_that_is_none_is_refused(run, typed):
    ended = run("calc", "winding-identification", *PINS, "--date", typed)
    assert ended.code == 2
    assert f"“{typed}” is not a date. Write it as 2026-01-31." in ended.err


def test_a_day_before_any_limit_was_in_force_is_refused(run):
    ended = run("calc", "winding-identification", *PINS, "--date", "1999-01-01")
    assert ended.code == 2
    assert "is in force on 1999-01-01" in ended.err
    assert "Traceback" not in ended.err
