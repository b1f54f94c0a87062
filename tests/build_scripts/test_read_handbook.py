"""Each mistake that can be made in the handbook: one broken file, its line, and the sentence that mends it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

import pytest

from build_scripts.errors import HandbookError
from build_scripts.read_handbook import read_handbook

ON = date(2026, 11, 25)
FIRST = "procedures/first-check.md"
SECOND = "procedures/second-check.md"
STANDARDS = "standards/sample.yaml"


@dataclass(frozen=True)
class Broken:
    """One change of one file, and what is said about it. says holds parts of the sentence; line None: not looked at."""

    name: str
    file: str
    old: str
    new: str
    line: int | None
    says: tuple[str, ...]
    at: str = ""


def change(root: Path, file: str, old: str, new: str) -> None:
    path = root / "handbook" / file
    text = path.read_text(encoding="utf-8")
    assert old in text, f"{file} has no {old!r} to break"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def mistakes_of(root, calculators, on=ON):
    with pytest.raises(HandbookError) as broken:
        read_handbook(root, on, calculators)
    return broken.value.mistakes


FRONT = [
    Broken("no front matter", FIRST, "---\nid", "id", 1, ("does not start with front matter", "a line ---")),
    Broken("front matter that never ends", SECOND, "approver\n---\n", "approver\n", 1, ("start with front matter",)),
    Broken("empty front matter", "index.md", "---\nid: index", "---\n---\nid: index", 2, ("front matter is empty",)),
    Broken("missing key", FIRST, "summary: Measure the sample once.\n", "", 2, ("summary: this key is missing", "Add")),
    Broken("unknown key", FIRST, "level: helper", "levle: helper", 7, ("levle: there is no such key", "mean level?")),
    Broken("key twice", FIRST, "level: helper", "level: helper\nlevel: anyone", 8, ("level: this key is given twice",)),
    Broken(
        "key out of order",
        FIRST,
        "level: helper\nhazards: [sample-shock, sample-flame]",
        "hazards: [sample-shock, sample-flame]\nlevel: helper",
        8,
        ("level: this key stands after also_called", "The order is: id, title, kind"),
    ),
    Broken("wrong level", FIRST, "level: helper", "level: boss", 7, ("'helper'", "'licensed'", "not “boss”")),
    Broken("wrong kind", FIRST, "kind: procedure", "kind: lesson", 4, ("kind: a page in procedures/ is of kind proc",)),
    Broken("no kind", "index.md", "kind: start\n", "", 2, ("kind: a page in the handbook/ is of kind start",)),
    Broken("id unlike the file", FIRST, "id: first-check", "id: other", 2, ("called first-check.md", "the same")),
    Broken("no day", FIRST, "effective: 2026-02-01", "effective: soon", 14, ("write a day such as 2026-01-31",)),
    Broken("no such day", FIRST, "effective: 2026-02-01", "effective: 2026-02-30", 14, ("a day that is in the cal",)),
    Broken("revision in words", FIRST, "revision: 2", "revision: two", 13, ("revision: write a whole number",)),
    Broken("review before effect", FIRST, "2027-02-01", "2026-01-01", 15, ("is not after effective, 2026-02-01",)),
    Broken(
        "review after a year with work for a technician",
        FIRST,
        "review_by: 2027-02-01",
        "review_by: 2027-02-02",
        15,
        ("too late", "the latest day is 2027-02-01, 12 months on"),
    ),
    Broken(
        "review after more than two years",
        SECOND,
        "review_by: 2028-02-01",
        "review_by: 2028-02-02",
        15,
        ("No page goes longer", "the latest day is 2028-02-01, 24 months on"),
    ),
    Broken(
        "review after a year with a hazard that asks for one",
        SECOND,
        "hazards: []",
        "hazards: [sample-flame]",
        15,
        ("It has the hazard sample-flame", "2027-02-01, 12 months on"),
    ),
    Broken(
        "review after a year of a licensed page",
        SECOND,
        "level: anyone",
        "level: licensed",
        15,
        ("technician or a licensed person", "2027-02-01"),
    ),
    Broken(
        "one role approves both",
        FIRST,
        "safety_approved_by: safety approver",
        "safety_approved_by: Technical approver",
        17,
        ("technical approver approves this page already", "second role"),
    ),
    Broken(
        "no approval for safety", FIRST, "safety_approved_by: safety approver\n", "", 2, ("safety_approved_by: this",)
    ),
    Broken(
        "safety approval where none belongs",
        "index.md",
        "approved_by: editor\n",
        "approved_by: editor\nsafety_approved_by: officer\n",
        None,
        ("safety_approved_by belongs to pages of kind safety or procedure, not start",),
    ),
    Broken("no word people type", FIRST, "[sample test, 1st check]", "", 6, ("also_called: write a list here",)),
]

NAMES = [
    Broken(
        "hazard",
        FIRST,
        "[sample-shock, sample-flame]",
        "[sample-shok]",
        8,
        ("there is no sample-shok", "mean sample-shock"),
    ),
    Broken("instrument", FIRST, "[sample-meter]", "[sample-metre]", 9, ("no sample-metre", "mean sample-meter")),
    Broken(
        "limit", FIRST, "limits: [sample.volts_most]", "limits: [sample.volt_most]", 11, ("no sample.volt_most", "mean")
    ),
    Broken("next procedure", FIRST, "[second-check]", "[second-chek]", 12, ("leads_to: there is no", "second-check")),
    Broken("itself as next", FIRST, "[second-check]", "[second-check, first-check]", 12, ("does not lead to itself",)),
    Broken("named twice", FIRST, "[sample-meter]", "[sample-meter, sample-meter]", 9, ("sample-meter is named twice",)),
    Broken(
        "calculator", SECOND, "calculators: []", "calculators: [sample-chek]", 10, ("no sample-chek", "sample-check")
    ),
    Broken(
        "mark of no kind", FIRST, "{source:old-table}", "{sorce:old-table}", 22, ("{sorce:old-table}", "mean source?")
    ),
    Broken("source in a mark", FIRST, "{source:old-table}", "{source:new-table}", 22, ("no such source", "old-table?")),
    Broken("limit in a mark", SECOND, "To be sure.", "{limit:sample.volt_stop}", 22, ("no such limit", "volts_stop")),
    Broken(
        "procedure in a mark", "index.md", "{procedure:first-check}", "{procedure:frist-check}", 13, ("first-check",)
    ),
    Broken(
        "calculator in a mark", SECOND, "To be sure.", "{calculator:sample}", 22, ("no such calculator", "sample-check")
    ),
    Broken(
        "calculator in a fence",
        FIRST,
        "   sample-check\n",
        "   sample-czech\n",
        44,
        ("no calculator sample-czech", "mean"),
    ),
    Broken("no calculator in a fence", FIRST, "   sample-check\n", "", 44, ("holds one line",)),
]

USES = [
    Broken(
        "calculator that the text never shows",
        SECOND,
        "calculators: []",
        "calculators: [sample-check]",
        10,
        ("sample-check is named but the text never shows or links it", "{calculator:sample-check}"),
    ),
    Broken(
        "calculator that is not named",
        SECOND,
        "To be sure.",
        "{calculator:sample-check}",
        22,
        ("used here but not named", "calculators in the front matter"),
    ),
    Broken(
        "limit that the text never uses",
        SECOND,
        "limits: []",
        "limits: [sample.volts_stop]",
        11,
        ("sample.volts_stop is named but the text never uses it", "{limit:sample.volts_stop}"),
    ),
    Broken(
        "limit that is not named",
        SECOND,
        "To be sure.",
        "{limit:sample.volts_stop}",
        22,
        ("used here but not named", "limits in the front matter"),
    ),
    Broken(
        "limit typed as digits",
        FIRST,
        "Because the number decides",
        "Because it stays below 10 V and that decides",
        22,
        ("“below 10 V” types the limit sample.volts_most", "{limit:sample.volts_most}"),
    ),
    Broken(
        "limit typed as digits with another spelling of the unit",
        FIRST,
        "- It hums.",
        "- The reading is more than 10 volts.",
        66,
        ("“more than 10 volts” types the limit",),
    ),
    Broken(
        "step that needs less than its page",
        FIRST,
        "1. Look at it:",
        "1. [anyone] Look at it:",
        38,
        ("the page's level is helper", "no step may need less"),
    ),
]

BODY = [
    Broken(
        "missing section", FIRST, "## Stop if\n\n- It hums.\n", "", 19, ("## Stop if: this section is missing", "Why")
    ),
    Broken("empty section", FIRST, "- It hums.\n", "", 64, ("## Stop if: this section is empty",)),
    Broken(
        "unknown section", FIRST, "## Stop if", "## Stop", 64, ("a procedure has no such section", "mean", "Stop if")
    ),
    Broken(
        "section twice", FIRST, "## Next", "## Stop if\n\nIt hums.\n\n## Next", 68, ("this section is there twice",)
    ),
    Broken(
        "sections out of order",
        FIRST,
        "## Stop if\n\n- It hums.\n\n## Next\n\nGo on when it is quiet.\n",
        "## Next\n\nGo on when it is quiet.\n\n## Stop if\n\n- It hums.\n",
        68,
        ("## Stop if: this section stands before Next",),
    ),
    Broken("text above the sections", FIRST, "\n## Why", "\nSome words.\n\n## Why", 19, ("above the first heading",)),
    Broken(
        "a title in the body", "index.md", "Go to", "# Find it\n\nGo to", 13, ("the title stands in the front matter",)
    ),
    Broken(
        "an empty page",
        "index.md",
        "Go to {procedure:first-check}, or read [how to stay clear](safety/stay-clear.md).\n",
        "",
        12,
        ("the page is empty below its front matter",),
    ),
    Broken(
        "steps that are no list", SECOND, "1. [hold] Look again.", "Look again.", 34, ("no part of a numbered step",)
    ),
    Broken("steps in bullets", SECOND, "1. [hold] Look again.", "- Look again.", 34, ("no part of a numbered step",)),
    Broken("wrong number", FIRST, "3. [hold]", "4. [hold]", 48, ("this step is number 3, not 4",)),
    Broken("no hold point", SECOND, "1. [hold] Look", "1. Look", 32, ("no step is a hold point", "[hold]")),
    Broken(
        "unknown mark of a step", FIRST, "[technician]", "[techician]", 48, ("no such mark opens a step", "technician?")
    ),
    Broken(
        "two levels on a step", FIRST, "[technician]", "[technician] [licensed]", 48, ("names one level, not techn",)
    ),
    Broken(
        "a step of marks alone",
        SECOND,
        "1. [hold] Look again.",
        "1. [hold] [helper]",
        None,
        ("empty behind its marks",),
    ),
    Broken(
        "a gate without a sentence",
        FIRST,
        "off? | Switch it off first.",
        "off?",
        32,
        ("[gate]: write “[gate] question |",),
    ),
    Broken(
        "a gate elsewhere",
        FIRST,
        "Because the number",
        "[gate] Why? | Do not.\n\nBecause the number",
        22,
        ("a gate stands in the section Before you start",),
    ),
]

LISTS = [
    Broken(
        "menu: unknown page",
        "navigation.yaml",
        "[second-check]",
        "[second-chek]",
        6,
        ("no page second-chek", "mean second"),
    ),
    Broken(
        "menu: page left out",
        "navigation.yaml",
        "[stay-clear]",
        "[]",
        1,
        ("Add stay-clear to safety",),
        at="safety/stay-clear.md",
    ),
    Broken(
        "menu: page twice",
        "navigation.yaml",
        "[second-check]",
        "[second-check, first-check]",
        6,
        ("in the menu twice",),
    ),
    Broken(
        "menu: page of another part",
        "navigation.yaml",
        "[about-this]",
        "[stay-clear]",
        8,
        ("no page stay-clear for this",),
    ),
    Broken(
        "hazard without controls",
        "hazards.yaml",
        "  controls: [Keep sparks away.]\n",
        "",
        5,
        ("controls: this key is missing",),
    ),
    Broken(
        "instrument without rating",
        "instruments.yaml",
        "  rating: R600a proof.\n",
        "",
        5,
        ("rating: this key is miss",),
    ),
    Broken("term without meaning", "glossary.yaml", "{meaning: The unit of current.}", "{}", 2, ("meaning: this key",)),
    Broken(
        "source seen in no way", "sources.yaml", "seen: paper", "seen: somewhere", 3, ("'paper'", "not “somewhere”")
    ),
]

LIMITS = [
    Broken("limit: unknown unit", STANDARDS, "unit: V", "unit: volt", 5, ("volt is not a unit",)),
    Broken(
        "limit: unknown source",
        STANDARDS,
        "source: bench-notes",
        "source: bench-note",
        14,
        ("no source bench-note", "mean"),
    ),
    Broken(
        "limit: text for a number", STANDARDS, "value: 10", 'value: "10"', 12, ("write a number here, without quotes",)
    ),
    Broken(
        "limit: beyond what a shop may choose",
        STANDARDS,
        "value: 10",
        "value: 21",
        12,
        ("21 is outside the range", "5 to 20"),
    ),
    Broken(
        "limit: range upside down",
        STANDARDS,
        "{least: 5, most: 20}",
        "{least: 20, most: 5}",
        8,
        ("20, is above the most",),
    ),
    Broken(
        "limit: dates out of order",
        STANDARDS,
        "in_force_from: 2027-06-01",
        "in_force_from: 2025-06-01",
        16,
        ("each later than the one before", "2025-06-01 is not"),
    ),
    Broken(
        "limit: nothing in force",
        STANDARDS,
        "      - in_force_from: 2026-01-01\n        value: 30.5",
        "      - in_force_from: 2027-01-01\n        value: 30.5",
        28,
        ("no value is in force on 2026-11-25",),
    ),
    Broken(
        "limit: partner that is none",
        STANDARDS,
        "[sample.volts_stop]",
        "[sample.volts_stp]",
        9,
        ("which is no limit", "mean"),
    ),
    Broken(
        "limit: not below its partner",
        STANDARDS,
        "must_stay_below: [sample.volts_stop]",
        "must_stay_below: [sample.volts_most]",
        12,
        ("10 must stay below sample.volts_most, which is 10 from 2026-01-01",),
    ),
    Broken(
        "limit: name without a subject",
        STANDARDS,
        "  sample.volts_stop:",
        "  volts_stop:",
        21,
        ("such as amps.high_ratio",),
    ),
    Broken(
        "limit: no values",
        STANDARDS,
        "unit: V\n    side: most\n    guard: accept",
        "unit: V\n    side: most",
        3,
        ("guard",),
    ),
    Broken("table: row without source", STANDARDS, ", source: bench-notes}", "}", 37, ("this row has no source",)),
    Broken("table: row id twice", STANDARDS, "id: thick", "id: thin", 38, ("the row id thin is given twice",)),
    Broken(
        "table: unknown source",
        STANDARDS,
        "source: old-table}",
        "source: old-tble}",
        38,
        ("no source old-tble", "old-table?"),
    ),
    Broken(
        "table: lists of different length",
        STANDARDS,
        "[200.5, 292.8, 410]",
        "[200.5, 292.8]",
        44,
        ("dew_kPa_abs has 2 numbers and at_degC has 3", "as long as each other"),
    ),
    Broken("table: a word in a list", STANDARDS, "[-10, 0, 10]", "[-10, cold, 10]", 44, ("cold is none",)),
    Broken("table: yes or no in a list", STANDARDS, "[-10, 0, 10]", "[-10, true, 10]", 44, ("True is none",)),
    Broken("table: an empty list", STANDARDS, "kPa_abs: [5.25]", "kPa_abs: []", 45, ("kPa_abs", "is empty")),
]


@pytest.mark.parametrize("broken", [*FRONT, *NAMES, *USES, *BODY, *LISTS, *LIMITS], ids=lambda one: one.name)
def test_each_mistake_is_said_at_its_line(small, sample_calculators, broken):
    change(small, broken.file, broken.old, broken.new)
    mistakes = mistakes_of(small, sample_calculators)
    said = [one for one in mistakes if all(part in one.what for part in broken.says)]
    assert len(said) == 1, [str(one) for one in mistakes]
    assert said[0].file == small / "handbook" / (broken.at or broken.file)
    if broken.line is not None:
        assert said[0].line == broken.line, said[0]


def test_the_small_handbook_itself_has_no_mistake(small, sample_calculators):
    assert list(read_handbook(small, ON, sample_calculators).procedures) == ["first-check", "second-check"]


def test_all_mistakes_are_said_at_once(small, sample_calculators):
    change(small, FIRST, "level: helper", "level: boss")
    change(small, FIRST, "## Stop if", "## Stop")
    change(small, SECOND, "leads_to: []", "leads_to: [nowhere]")
    change(small, "hazards.yaml", "  title: Sample flame\n", "")
    change(small, STANDARDS, "value: 10", "value: 100")
    files = {one.file.name for one in mistakes_of(small, sample_calculators)}
    assert files >= {"first-check.md", "second-check.md", "hazards.yaml", "sample.yaml"}


def test_a_page_that_cannot_be_read_is_not_missed_by_those_that_lead_to_it(small, sample_calculators):
    change(small, SECOND, "level: anyone", "level: boss")
    assert {one.file.name for one in mistakes_of(small, sample_calculators)} == {"second-check.md"}


@pytest.mark.parametrize(
    "sentence",
    [
        "It showed 10 V in a dry room.",
        "The next size up is 10 V higher.",
        "Stay below 110 V.",
        "Stay below 10 Vdc2 of nothing.",
        "`below 10 V` in code is no prose.",
    ],
)
def test_digits_that_are_not_obviously_a_limit_are_let_pass(small, sample_calculators, sentence):
    change(small, FIRST, "Because the number decides", sentence)
    read_handbook(small, ON, sample_calculators)


def test_a_page_in_a_folder_that_holds_none_is_refused(small, sample_calculators):
    stray = small / "handbook" / "notes" / "stray.md"
    stray.parent.mkdir()
    stray.write_text("x", encoding="utf-8")
    (mistake,) = mistakes_of(small, sample_calculators)
    assert str(mistake.what).startswith("pages do not stand in notes/. Move it to one of: procedures, safety")


def test_two_pages_with_one_id_are_refused(small, sample_calculators):
    text = (small / "handbook/reference/about-this.md").read_text(encoding="utf-8")
    (small / "handbook/reference/index.md").write_text(text.replace("about-this", "index"), encoding="utf-8")
    change(small, "navigation.yaml", "[about-this]", "[about-this, index]")
    (mistake,) = mistakes_of(small, sample_calculators)
    assert mistake.what == "id: “index” is the id of index.md already. Rename one of them."


@pytest.mark.parametrize("name", ["hazards.yaml", "instruments.yaml", "navigation.yaml", "sources.yaml"])
def test_a_list_that_is_missing_is_named(small, sample_calculators, name):
    (small / "handbook" / name).unlink()
    missing = [one for one in mistakes_of(small, sample_calculators) if "this file is missing" in one.what]
    assert [one.file.name for one in missing] == [name]


def test_a_handbook_may_have_no_glossary(small, sample_calculators):
    (small / "handbook/glossary.yaml").unlink()
    assert read_handbook(small, ON, sample_calculators).glossary == {}


def test_a_limit_in_two_files_is_refused(small, sample_calculators):
    text = (small / "handbook" / STANDARDS).read_text(encoding="utf-8")
    (small / "handbook/standards/zz.yaml").write_text(text, encoding="utf-8")
    said = [one.what for one in mistakes_of(small, sample_calculators)]
    assert "sample.volts_most: this is given twice, first in sample.yaml on line 3. Keep one of them." in said
    assert "sample_wires: this is given twice, first in sample.yaml on line 34. Keep one of them." in said
    assert "subject: “Sample” is the subject of another file already. Give this file its own." in said


def test_a_limit_has_to_stay_below_its_partner_on_every_day(small, sample_calculators):
    change(small, STANDARDS, "value: 9", "value: 20")
    change(small, STANDARDS, "value: 30.5", "value: 20")
    (mistake,) = mistakes_of(small, sample_calculators)
    assert mistake.what.endswith("20 must stay below sample.volts_stop, which is 20 from 2027-06-01.")


def test_limits_in_different_units_cannot_be_compared(small, sample_calculators):
    change(
        small,
        STANDARDS,
        "Volts at which the sample check stops\n    unit: V",
        "Amps at which it stops now\n    unit: A",
    )
    (mistake,) = mistakes_of(small, sample_calculators)
    assert mistake.what.startswith("sample.volts_most: it is in V and sample.volts_stop is in A")


@pytest.mark.parametrize(
    ("field", "names"),
    [("limits", ("no.such",)), ("tables", ("no_such",)), ("sources", ("no-such",)), ("hazards", ("no-such",))],
)
def test_a_calculator_that_names_what_the_handbook_lacks_is_refused(small, sample_calculators, field, names):
    broken = replace(sample_calculators["sample-check"], **{field: names})
    (mistake,) = mistakes_of(small, {"sample-check": broken})
    assert mistake.what.startswith(f"sample-check: {field} names {names[0]}, which the handbook does not have.")


def test_the_whole_handbook_of_this_clone_has_no_mistake(root):
    read_handbook(root, date.today())
