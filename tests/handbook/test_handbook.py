"""What has to hold of the handbook as a whole, beyond what the reader of its files refuses."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest
import yaml

from build_scripts.assemble import assembled_files
from build_scripts.read_body import find_gates
from build_scripts.read_handbook import Handbook, read_handbook

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
PROCEDURES = sorted(file.stem for file in (ROOT / "handbook" / "procedures").glob("*.md"))


@pytest.fixture(scope="module")
def handbook() -> Handbook:
    return read_handbook(ROOT, date.today())


@pytest.fixture(scope="module")
def pages(handbook) -> dict[str, str]:
    return {path: text for path, text in assembled_files(handbook, date.today()).items() if path.endswith(".md")}


def named_by_pages_and_calculators(handbook: Handbook, field: str) -> set[str]:
    used = {name for page in handbook.procedures.values() for name in getattr(page.front, field)}
    return used | {name for one in handbook.calculators.values() for name in getattr(one, field, ())}


def test_every_query_names_a_page_that_exists(pages):
    queries = yaml.safe_load((HERE / "queries.yaml").read_text(encoding="utf-8"))
    assert [wanted for wanted in queries.values() if f"{wanted}.md" not in pages] == []


def test_every_calculator_is_used_by_a_procedure(handbook):
    used = {slug for page in handbook.procedures.values() for slug in page.procedure.calculators}
    assert set(handbook.calculators) - used == set()


@pytest.mark.parametrize("field", ["hazards", "instruments"])
def test_every_entry_of_the_lists_is_named_somewhere(handbook, field):
    assert set(getattr(handbook, field)) - named_by_pages_and_calculators(handbook, field) == set()


def test_every_limit_is_used_somewhere(handbook):
    used = {mark.key for page in handbook.pages for mark in page.marks if mark.kind == "limit"}
    used |= {key for one in handbook.calculators.values() for key in one.limits}
    assert set(handbook.standards.limits) - used == set()


def test_every_procedure_can_be_reached_from_the_start_page(handbook):
    links = {
        page.front.id: {mark.key for mark in page.marks if mark.kind == "procedure"}
        | set(page.procedure.leads_to if page.procedure else ())
        for page in handbook.pages
    }
    reached, waiting = set(), ["index"]
    while waiting:
        for key in links[waiting.pop()] - reached:
            reached.add(key)
            waiting.append(key)
    assert set(handbook.procedures) - reached == set()


@pytest.mark.parametrize("key", PROCEDURES)
def test_live_work_asks_before_it_begins(handbook, key):
    page = handbook.procedures[key]
    if page.procedure.level in ("technician", "licensed"):
        assert find_gates(page.section("Before you start").text)


@pytest.mark.parametrize("key", PROCEDURES)
def test_a_procedure_at_the_terminals_warns_of_what_they_do(handbook, key):
    page = handbook.procedures[key]
    if re.search(r"bare pins?|the three pins|off the pins|each pin|the glass", page.section("Steps").text):
        assert "terminal-venting" in page.procedure.hazards


@pytest.mark.parametrize("key", PROCEDURES)
def test_live_work_names_what_it_does_to_a_person(handbook, key):
    procedure = handbook.procedures[key].procedure
    if procedure.level in ("technician", "licensed"):
        assert {"electric-shock", "flammable-refrigerant"} <= set(procedure.hazards)


def test_no_page_calls_anything_safe(pages):
    claims = re.compile(r"\b(?:is|are|it's|be|now|as) safe\b|\bsafe (?:to|for|when|if)\b", re.IGNORECASE)
    found = [f"{path}: {row}" for path, text in pages.items() for row in text.splitlines() if claims.search(row)]
    assert found == []
