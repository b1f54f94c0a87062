"""The page of measurements says what its file holds: every target that was missed, first and in words."""

from __future__ import annotations

from datetime import date

import pytest

from build_scripts.assemble import assembled_files
from build_scripts.errors import HandbookError
from build_scripts.read_handbook import read_handbook
from build_scripts.render import menu

ON = date(2026, 11, 25)
PAGE = "reference/measurements.md"

RUN = """\
taken: 2026-11-24
machine: 2 processors, 8 GB of memory
conditions: Taken on a quiet machine.
versions: {Browser: '1.2', Python: '3.11'}
groups:
- title: Opening a page
  how: From opening it until it computes.
  other: The ordinary way
  rows:
  - what: First visit
    unit: ms
    here: {middle: 1000, least: 900, most: 1100, runs: 3}
    other: {middle: 4000, least: 3900, most: 4200, runs: 3}
    target: {most: 0.3, of: the other}
  - what: Later visit
    unit: ms
    here: {middle: 900, least: 890, most: 910, runs: 3}
    other: {middle: 3000, least: 2900, most: 3100, runs: 3}
    target: {most: 0.2, of: the other}
    note: The theme takes half of it.
- title: In an open page
  how: Edits of one digit.
  rows:
  - what: A keystroke
    unit: ms
    here: {middle: 16, least: 2, most: 40.25, runs: 1000}
    target: {most: 16, of: itself}
"""


def write(small, text):
    (small / "handbook" / "measurements.yaml").write_text(text, encoding="utf-8")


def page_of(small, sample_calculators) -> str:
    return assembled_files(read_handbook(small, ON, sample_calculators), ON)[PAGE]


def test_a_target_that_was_missed_stands_first_with_what_was_found_and_why(small, sample_calculators):
    write(small, RUN)
    missed = page_of(small, sample_calculators).split("## Targets that were missed")[1].split("\n## ")[0]
    assert "- Later visit: 0.30 times, and the target is at most 0.20 times. The theme takes half of it." in missed
    assert "First visit" not in missed
    assert "keystroke" not in missed


def test_a_run_that_reached_every_target_says_so(small, sample_calculators):
    write(small, RUN.replace("most: 0.2,", "most: 0.4,"))
    assert "None: every target below was reached in this run." in page_of(small, sample_calculators)


def test_a_number_above_a_target_of_its_own_is_missed(small, sample_calculators):
    write(small, RUN.replace("middle: 16,", "middle: 16.1,"))
    assert "- A keystroke: 16.1 ms, and the target is at most 16 ms." in page_of(small, sample_calculators)


def test_the_tables_show_middle_spread_ratio_target_and_whether_it_was_reached(small, sample_calculators):
    write(small, RUN)
    page = page_of(small, sample_calculators)
    assert "| What | This handbook | The ordinary way | Times | Target | Reached |" in page
    assert (
        "| First visit, ms | 1000 (900 to 1100) | 4000 (3900 to 4200) | 0.25 | at most 0.30 times | reached |" in page
    )
    assert "| Later visit, ms | 900 (890 to 910) | 3000 (2900 to 3100) | 0.30 | at most 0.20 times | missed |" in page
    assert "| A keystroke, ms | 16.0 (2.00 to 40.2) | at most 16 ms | reached |" in page


def test_the_page_says_when_on_what_and_with_which_versions(small, sample_calculators):
    write(small, RUN)
    page = page_of(small, sample_calculators)
    assert "- Measured on 2026-11-24, on 2 processors, 8 GB of memory." in page
    assert "- Taken on a quiet machine." in page
    assert "- With: Browser 1.2, Python 3.11." in page


def test_a_handbook_without_measurements_has_no_such_page(small, sample_calculators):
    handbook = read_handbook(small, ON, sample_calculators)
    assert PAGE not in assembled_files(handbook, ON)
    assert PAGE not in str(menu(handbook))


def test_the_page_stands_in_the_menu(small, sample_calculators):
    write(small, RUN)
    assert PAGE in str(menu(read_handbook(small, ON, sample_calculators)))


@pytest.mark.parametrize(
    ("right", "wrong", "told"),
    [
        pytest.param("runs: 3}", "runs: 3, times: 2}", "there is no such key here", id="an unknown key"),
        pytest.param("middle: 1000,", "middle: 1200,", "the middle lies between the least and the most", id="order"),
        pytest.param("target: {most: 16, of: itself}", "target: {most: 16, of: the other}", "needs the other one", id="alone"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_with_its_line(small, sample_calculators, right, wrong, told):
    write(small, RUN.replace(right, wrong, 1))
    with pytest.raises(HandbookError) as broken:
        read_handbook(small, ON, sample_calculators)
    (mistake,) = broken.value.mistakes
    assert mistake.file.name == "measurements.yaml"
    assert mistake.line > 5
    assert told in mistake.what
