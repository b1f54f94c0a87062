"""A small handbook goes in, and the assembled folder comes out: compared with one that was read by a person.

Set THREEPIN_REFRESH_GOLDEN=1 to write golden/pages anew, then read what changed before it is committed.
"""

from __future__ import annotations

import json
import os
import shutil
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from build_scripts.assemble import assemble, assembled_files
from build_scripts.errors import HandbookError
from build_scripts.read_handbook import read_handbook
from calculators.limits import Standards

ON = date(2026, 11, 25)
GOLDEN_PAGES = Path(__file__).resolve().parent / "golden" / "pages"


@pytest.fixture
def handbook(small, sample_calculators):
    return replace(read_handbook(small, ON, sample_calculators), revision="1.0+golden")


def contents(folder: Path) -> dict[str, str]:
    return {
        file.relative_to(folder).as_posix(): file.read_text(encoding="utf-8")
        for file in sorted(folder.rglob("*"))
        if file.is_file()
    }


def test_the_assembled_folder_is_the_golden_one(handbook, tmp_path):
    assemble(handbook, tmp_path / "pages", ON)
    if os.environ.get("THREEPIN_REFRESH_GOLDEN"):
        shutil.rmtree(GOLDEN_PAGES, ignore_errors=True)
        shutil.copytree(tmp_path / "pages", GOLDEN_PAGES)
    assert contents(tmp_path / "pages") == contents(GOLDEN_PAGES)


def test_the_same_handbook_gives_the_same_files(small, sample_calculators):
    first = assembled_files(read_handbook(small, ON, sample_calculators), ON)
    assert assembled_files(read_handbook(small, ON, sample_calculators), ON) == first


def test_what_an_earlier_build_left_is_gone(handbook, tmp_path):
    left = tmp_path / "pages" / "procedures" / "gone.md"
    left.parent.mkdir(parents=True)
    left.write_text("old", encoding="utf-8")
    assemble(handbook, tmp_path / "pages", ON)
    assert not left.exists()


def test_the_limit_of_the_day_is_printed(handbook):
    before = assembled_files(handbook, date(2027, 5, 31))["procedures/first-check.md"]
    after = assembled_files(handbook, date(2027, 6, 1))["procedures/first-check.md"]
    assert "[10\u00a0V](../reference/limits.md#sample.volts_most)" in before
    assert "[9\u00a0V](../reference/limits.md#sample.volts_most)" in after


def test_a_later_value_is_announced_on_the_page_of_limits(handbook):
    assert "From 2027-06-01 it is 9 V." in assembled_files(handbook, ON)["reference/limits.md"]
    assert "From 2027-06-01" not in assembled_files(handbook, date(2027, 6, 1))["reference/limits.md"]


def test_calculators_can_read_the_standards_that_are_written(handbook):
    standards = Standards.from_json(assembled_files(handbook, ON)["assets/data/standards.json"])
    limit = standards.in_force(ON).limit("sample.volts_stop")
    assert (limit.value, limit.unit, limit.source.citation) == (30.5, "V", "An old table, row 2")
    assert standards.revision == "1.0+golden"


def test_scripts_know_every_procedure_with_its_level(handbook):
    assert json.loads(assembled_files(handbook, ON)["assets/data/procedures.json"]) == {
        "first-check": {"title": "First check", "level": "helper"},
        "second-check": {"title": "Second check", "level": "anyone"},
    }


def test_the_build_says_its_day_and_its_revision(handbook):
    assert json.loads(assembled_files(handbook, ON)["assets/data/build.json"]) == {
        "date": "2026-11-25",
        "revision": "1.0+golden",
    }


def test_level_hazards_and_instruments_stand_above_the_first_section(handbook):
    page = assembled_files(handbook, ON)["procedures/first-check.md"]
    head = page.partition("## Why")[0]
    for said in ("Who may do this", "Sample shock", "Switch it off first.", "Sample meter", "rated for 300 V."):
        assert said in head


def test_a_step_for_somebody_else_is_named_in_the_head(handbook):
    head = assembled_files(handbook, ON)["procedures/first-check.md"].partition("## Why")[0]
    assert "Step 3: a technician qualified to measure on live parts." in head


def test_words_people_type_are_in_the_text_of_the_page(handbook):
    assert "Also called: sample test; 1st check" in assembled_files(handbook, ON)["procedures/first-check.md"]


def test_text_from_data_cannot_become_markup(handbook):
    sources = assembled_files(handbook, ON)["reference/sources.md"]
    assert r"It has \* and &#124; in it." in sources


def test_marks_in_code_stay_as_they_are(handbook):
    assert "`{limit:sample.volts_most}`" in assembled_files(handbook, ON)["reference/about-this.md"]


def test_pictures_are_copied_and_sources_of_scripts_are_not(handbook, tmp_path):
    scripts = handbook.folder / "assets" / "scripts"
    scripts.mkdir()
    (scripts / "page.mjs").write_text("", encoding="utf-8")
    assemble(handbook, tmp_path / "pages", ON)
    assert (tmp_path / "pages/assets/pictures/dot.svg").is_file()
    assert not (tmp_path / "pages/assets/scripts").exists()


def test_a_page_with_the_name_of_one_made_from_data_is_refused(small, sample_calculators):
    page = small / "handbook" / "reference" / "about-this.md"
    text = page.read_text(encoding="utf-8")
    (small / "handbook/reference/limits.md").write_text(text.replace("about-this", "limits"), encoding="utf-8")
    page.unlink()
    menu = small / "handbook" / "navigation.yaml"
    menu.write_text(menu.read_text(encoding="utf-8").replace("about-this", "limits"), encoding="utf-8")
    with pytest.raises(HandbookError, match=r"reference/limits.md:1 — the build makes a page of this name"):
        assembled_files(read_handbook(small, ON, sample_calculators), ON)


def test_an_asset_with_the_name_of_a_file_that_is_made_is_refused(handbook, tmp_path):
    data = handbook.folder / "assets" / "data"
    data.mkdir()
    (data / "build.json").write_text("{}", encoding="utf-8")
    with pytest.raises(HandbookError, match=r"build.json:1 — the build makes a file of this name"):
        assemble(handbook, tmp_path / "pages", ON)


def test_the_revision_holds_the_version_and_changes_with_any_word(small, sample_calculators):
    before = read_handbook(small, ON, sample_calculators).revision
    page = small / "handbook" / "index.md"
    page.write_text(page.read_text(encoding="utf-8").replace("Begin here", "Start here"), encoding="utf-8")
    after = read_handbook(small, ON, sample_calculators).revision
    assert before.startswith("1.0+")
    assert after.startswith("1.0+")
    assert before != after
