"""How pages are written: each rule with a page that breaks it, and the line at which it is said."""

from __future__ import annotations

import pytest

from build_scripts.check_writing import check_writing, reading_grade
from build_scripts.errors import HandbookError
from build_scripts.read_handbook import read_handbook
from tests.build_scripts.conftest import ROOT
from tests.build_scripts.test_read_handbook import ON, change

FIRST = "procedures/first-check.md"
HARD = (
    "Notwithstanding considerable uncertainties concerning instrumentation characteristics, comprehensive "
    "determination of electrical insulation deterioration necessitates systematically repeated measurements under "
    "representative environmental circumstances."
)


def said_of(root, calculators):
    with pytest.raises(HandbookError) as broken:
        check_writing(read_handbook(root, ON, calculators))
    return broken.value.mistakes


def line_of(root, file, text):
    rows = (root / "handbook" / file).read_text(encoding="utf-8").splitlines()
    return next(number for number, row in enumerate(rows, start=1) if text in row)


def test_the_handbook_is_written_as_it_should_be():
    check_writing(read_handbook(ROOT, ON))


@pytest.mark.parametrize(
    ("new", "says"),
    [
        ("A resistence is read.", "resistence: did you mean resistance?"),
        ("The XYZQ is read.", "XYZQ: nobody explains this"),
        ('Look: <img src="a.png" alt="">', "a picture has no words"),
        ("Look: ![](a.png)", "a picture has no words"),
    ],
)
def test_a_line_that_wants_mending_is_named(small, sample_calculators, new, says):
    change(small, "index.md", "\n---\n", f"\n---\n\n{new}\n")
    (mistake,) = said_of(small, sample_calculators)
    assert says in mistake.what
    assert mistake.line == line_of(small, "index.md", new)


def test_prose_that_asks_for_too_many_years_at_school_is_named(small, sample_calculators):
    page = small / "handbook" / "index.md"
    page.write_text(page.read_text(encoding="utf-8") + "\n" + "\n".join([HARD] * 12) + "\n", encoding="utf-8")
    (mistake,) = said_of(small, sample_calculators)
    assert "the prose reads at grade" in mistake.what


def test_misspelt_search_words_are_meant(small, sample_calculators):
    change(small, "index.md", "also_called: [", "also_called: [resistence, ")
    check_writing(read_handbook(small, ON, sample_calculators))


@pytest.mark.parametrize(
    ("new", "says"),
    [
        ("Read it. Write it down. Read it again.", "a step of 3 sentences"),
        ("Read " + "and read " * 25 + "it.", "one of 52 words"),
    ],
)
def test_a_step_that_is_more_than_one_thing_to_do_is_named(small, sample_calculators, new, says):
    page = (small / "handbook" / FIRST).read_text(encoding="utf-8")
    first = next(row for row in page.splitlines() if row.startswith("1. "))
    change(small, FIRST, first, f"1. {new}")
    (mistake,) = said_of(small, sample_calculators)
    assert says in mistake.what
    assert mistake.line == line_of(small, FIRST, "1. Read")


def test_marks_tables_headings_and_code_are_not_read_for_the_grade():
    plain = "Read it. Write it down. Go on now.\n"
    assert reading_grade(plain) == reading_grade(f"# {HARD}\n{plain}| {HARD} |\n```\n{HARD}\n```\n")


def test_the_grade_is_the_one_that_the_formula_gives():
    # Kincaid and others 1975, by hand: 6 words in 1 sentence, 6 syllables: 0.39 × 6 + 11.8 × 1 − 15.59.
    assert reading_grade("The cat sat on the mat.") == pytest.approx(-1.45)
