"""Each mistake that can be made in a decision map: one broken file, its line, and the sentence that mends it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

import pytest

from build_scripts.errors import HandbookError
from build_scripts.read_handbook import read_handbook
from calculators.decisions import walk

ON = date(2026, 11, 25)
FILE = "decisions/sample.yaml"


@dataclass(frozen=True)
class Broken:
    """One change of the file, and what is said about it; line None: not looked at."""

    name: str
    old: str
    new: str
    line: int | None
    says: tuple[str, ...]


BROKEN = [
    Broken("unknown key", "level: anyone", "levle: anyone", 15, ("levle: there is no such key", "Did you mean level?")),
    Broken("wrong level", "level: anyone", "level: boss", 15, ("'helper'", "'licensed'", "not “boss”")),
    Broken("wrong kind", "kind: watch", "kind: maybe", 53, ("'fault'", "'open'", "not “maybe”")),
    Broken(
        "no answers", "    answers:\n      leaks: {label: It leaks, leads_to: leak}\n", "", 34, ("answers: this key",)
    ),
    Broken("no way to give up", "    cannot_tell: volts-there\n", "", 12, ("cannot_tell: this key is missing",)),
    Broken(
        "an answer to nowhere",
        "leads_to: volts-there}",
        "leads_to: volts-ther}",
        19,
        ("the answer dark leads to volts-ther, which is no question and no finding", "Did you mean volts-there?"),
    ),
    Broken(
        "an answer back to its own question",
        "leads_to: lamp-lights, also",
        "leads_to: volts-there, also",
        30,
        ("the answer again leads back to its own question",),
    ),
    Broken(
        "cannot tell makes a finding",
        "cannot_tell: volts-there",
        "cannot_tell: lamp-faulty",
        21,
        ("cannot_tell leads to lamp-faulty", "makes no finding", "not-tellable-yet"),
    ),
    Broken(
        "cannot tell asks the same again",
        "cannot_tell: volts-there",
        "cannot_tell: lamp-lights",
        21,
        ("cannot_tell leads to lamp-lights", "to another question"),
    ),
    Broken(
        "cannot tell written as an answer",
        "      leaks: {label",
        "      cannot-tell: {label",
        40,
        ("has the answer cannot-tell by itself", "Write cannot_tell:"),
    ),
    Broken(
        "a licensed finding from anybody else",
        "level: licensed",
        "level: technician",
        40,
        ("leak, which only a licensed person may find", "is for: technician"),
    ),
    Broken(
        "no such procedure",
        "procedures: [first-check, second-check]",
        "procedures: [first-check, secnd-check]",
        27,
        ("volts-there: there is no procedure secnd-check", "Did you mean second-check"),
    ),
    Broken(
        "no such procedure behind a finding",
        "kind: watch\n    evidence: [seen twice]\n    procedure: second-check",
        "kind: watch\n    evidence: [seen twice]\n    procedure: third-check",
        55,
        ("lamp-flickers: there is no procedure third-check",),
    ),
    Broken("no such check", "checks: [lamp]", "checks: [lmap]", 17, ("there is no check lmap", "Did you mean lamp?")),
    Broken(
        "no such limit",
        "Are there more than {limit:sample.volts_most}?",
        "Are there more than {limit:sample.volt_most}?",
        24,
        ("{limit:sample.volt_most}: there is no such limit", "sample.volts_most"),
    ),
    Broken(
        "another mark than a limit",
        "how: Measure once.",
        "how: Measure once, {procedure:first-check}.",
        25,
        ("only {limit:…} is filled in the decision map",),
    ),
    Broken("no such source", "source: bench-notes", "source: bench-note", 2, ("no source bench-note", "bench-notes?")),
    Broken(
        "writing a finding on the way that is none",
        "also_write: lamp-flickers",
        "also_write: left-alone",
        30,
        ("also_write names left-alone, which is no fault to write down on the way",),
    ),
    Broken("no first question", "first: lamp-lights\n", "", 1, ("first: name the question that every walk begins",)),
    Broken("no such first question", "first: lamp-lights", "first: lamp-light", 3, ("no question lamp-light.", "mean")),
    Broken(
        "a reason to stop that leads nowhere",
        "leads_to: left-alone}",
        "leads_to: left-alon}",
        9,
        ("smoke: there is no left-alon", "Did you mean left-alone?"),
    ),
    Broken("no finding that is open", "kind: open", "kind: fault", 12, ("one finding is of kind open", "not 0")),
    Broken("two findings that are open", "kind: watch", "kind: open", 74, ("one finding is of kind open", "not 2")),
    Broken(
        "a question that nothing leads to",
        "leads_to: look-inside}",
        "leads_to: leak}",
        34,
        ("look-inside: nothing leads here", "take it out"),
    ),
    Broken(
        "a finding that nothing leads to",
        ", also_write: lamp-flickers",
        "",
        50,
        ("lamp-flickers: nothing leads here",),
    ),
    Broken(
        "a question named like a visit",
        "  look-inside:\n",
        "  look-inside-2:\n",
        34,
        ("a question's name does not end in a number",),
    ),
    Broken("a question twice", "  look-inside:\n", "  lamp-lights:\n", 34, ("lamp-lights: this key is given twice",)),
]


@pytest.mark.parametrize("broken", BROKEN, ids=lambda one: one.name)
def test_a_mistake_is_told_on_its_line_with_what_mends_it(small, sample_calculators, broken):
    file = small / "handbook" / FILE
    text = file.read_text(encoding="utf-8")
    assert broken.old in text
    file.write_text(text.replace(broken.old, broken.new, 1), encoding="utf-8")
    with pytest.raises(HandbookError) as told:
        read_handbook(small, ON, sample_calculators)
    fitting = [
        one
        for one in told.value.mistakes
        if one.file == file and all(part in one.what for part in broken.says) and broken.line in (None, one.line)
    ]
    assert fitting, str(told.value)


def test_questions_that_only_lead_round_are_told(small, sample_calculators):
    file = small / "handbook" / FILE
    text = file.read_text(encoding="utf-8")
    round_about = text.replace("leads_to: leak}", "leads_to: volts-there}").replace(
        "leads_to: lamp-faulty, note: Leave it on.}", "leads_to: volts-there}"
    )
    for old in ('      more: {label: "More than {limit:sample.volts_most}", leads_to: lamp-faulty}\n',):
        round_about = round_about.replace(old, "")
    file.write_text(round_about, encoding="utf-8")
    with pytest.raises(HandbookError) as told:
        read_handbook(small, ON, sample_calculators)
    assert "volts-there: none of its answers ever comes to a finding" in str(told.value)


def test_every_mistake_of_a_map_is_told_at_once(small, sample_calculators):
    file = small / "handbook" / FILE
    text = file.read_text(encoding="utf-8").replace("checks: [lamp]", "checks: [lmap]")
    file.write_text(text.replace("cannot_tell: volts-there", "cannot_tell: leak"), encoding="utf-8")
    with pytest.raises(HandbookError) as told:
        read_handbook(small, ON, sample_calculators)
    assert len(told.value.mistakes) == 2


def test_a_question_given_in_two_files_is_told_with_both(small, sample_calculators):
    other = small / "handbook" / "decisions" / "second.yaml"
    findings = "findings:\n  leak:\n    title: Leak\n    write: It leaks.\n    kind: fault\n    evidence: [found]\n"
    other.write_text(
        f"subject: More\nsource: bench-notes\nfirst: lamp-lights\n{findings}    procedure: first-check\n",
        encoding="utf-8",
    )
    with pytest.raises(HandbookError) as told:
        read_handbook(small, ON, sample_calculators)
    assert "leak: this is given twice, first in sample.yaml on line 56" in str(told.value)
    assert "first: this is given twice, first in sample.yaml on line 3" in str(told.value)


def test_a_map_keeps_the_order_in_which_it_was_written(small, sample_calculators):
    decisions = read_handbook(small, ON, sample_calculators).in_force(ON).decisions
    assert list(decisions.questions) == ["lamp-lights", "volts-there", "look-inside"]
    assert [one.id for one in decisions.questions["volts-there"].answers] == ["more", "again", "gas", "cannot-tell"]
    assert walk(decisions, ["dark", "again", "lit"]).on_the_way[0].title == "Lamp flickers"


def test_a_handbook_may_have_no_map(small, sample_calculators):
    (small / "handbook" / FILE).unlink()
    handbook = read_handbook(small, ON, sample_calculators)
    assert "decisions" not in handbook.standards_json()
