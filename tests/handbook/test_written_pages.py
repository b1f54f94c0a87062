"""What the written pages promise a reader: order, gates, levels, and no word that a reading cannot carry."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest
import yaml

from build_scripts.read_body import find_gates
from build_scripts.read_handbook import Handbook, read_handbook
from build_scripts.read_pages import Page

ROOT = Path(__file__).parents[2]
LIVE_WORK = ("supply-check", "start-under-load", "running-amps", "running-watts", "locked-rotor-test", "bench-start")
OPENS_THE_TERMINALS = ("expose-the-terminals", "identify-the-windings")


@pytest.fixture(scope="module")
def handbook() -> Handbook:
    return read_handbook(ROOT, date(2026, 11, 25))


def page(handbook: Handbook, key: str) -> Page:
    return handbook.procedures[key]


def before_the_steps(one: Page) -> str:
    return one.section("Before you start").text


def test_the_first_ten_procedures_are_written_and_in_the_menu(handbook: Handbook) -> None:
    first = {
        "make-safe-prove-dead",
        "discharge-capacitors",
        "flammable-refrigerant-precautions",
        "read-the-rating-plates",
        "supply-check",
        "cord-and-branch-circuit",
        "expose-the-terminals",
        "identify-the-windings",
        "windings-to-shell",
        "running-amps",
    }
    assert first <= set(handbook.procedures)


@pytest.mark.parametrize("key", LIVE_WORK)
def test_live_work_is_for_a_technician_and_asks_before_it_begins(handbook: Handbook, key: str) -> None:
    one = page(handbook, key)
    assert one.procedure is not None
    assert one.procedure.level == "technician"
    assert find_gates(before_the_steps(one))


def test_running_amps_end_in_not_tellable_yet_without_the_dead_tests(handbook: Handbook) -> None:
    (gate,) = find_gates(before_the_steps(page(handbook, "running-amps")))
    assert "{limit:insulation.pass}" in gate.question
    assert "start gear" in gate.question
    assert gate.otherwise.startswith("Not tellable yet.")


def test_the_cover_stays_on_after_a_trip_until_a_licensed_person_has_advised(handbook: Handbook) -> None:
    (gate,) = find_gates(before_the_steps(page(handbook, "expose-the-terminals")))
    assert "tripped" in gate.question
    assert "has a licensed person advised" in gate.question
    assert gate.otherwise.startswith("Leave the cover on.")


@pytest.mark.parametrize("key", OPENS_THE_TERMINALS)
def test_work_at_the_terminals_asks_for_dead_and_discharged_first(handbook: Handbook, key: str) -> None:
    text = before_the_steps(page(handbook, key))
    assert "{procedure:make-safe-prove-dead}" in text
    assert "{procedure:discharge-capacitors}" in text


def test_the_windings_are_exposed_only_after_the_test_from_the_plug(handbook: Handbook) -> None:
    steps = [step.text for step in page(handbook, "windings-to-shell").steps]
    exposed = next(number for number, text in enumerate(steps) if "{procedure:expose-the-terminals}" in text)
    from_the_plug = next(number for number, text in enumerate(steps) if text.startswith("Test at"))
    assert from_the_plug < exposed


def test_the_cover_is_on_before_the_first_plugging_in_of_the_running_amps(handbook: Handbook) -> None:
    steps = page(handbook, "running-amps").steps
    covered = next(number for number, step in enumerate(steps) if step.hold and "terminal cover" in step.text)
    powered = next(number for number, step in enumerate(steps) if step.text.startswith("Plug in"))
    assert covered < powered


def test_every_hold_point_says_what_to_check_or_do(handbook: Handbook) -> None:
    first_words = {step.text.split()[0] for one in handbook.pages for step in one.steps if step.hold}
    assert first_words <= {"Check", "Prove", "Count"}


def test_no_page_calls_anything_safe(handbook: Handbook) -> None:
    allowed = re.compile(r"make-safe-prove-dead|make safe|made safe", re.IGNORECASE)
    said = [
        (one.path, row)
        for one in handbook.pages
        for row in one.body.splitlines()
        if re.search(r"\b(?:un)?safe(?:ly)?\b", allowed.sub("", row), re.IGNORECASE)
    ]
    assert said == []


def test_every_step_is_one_sentence_or_two(handbook: Handbook) -> None:
    long = [
        (one.path, step.text)
        for one in handbook.pages
        for step in one.steps
        if len(re.findall(r"[.?!](?:\s|$)", step.text)) > 2
    ]
    assert long == []


def test_the_glossary_explains_at_least_eighty_words() -> None:
    words = yaml.safe_load((ROOT / "handbook" / "glossary.yaml").read_text(encoding="utf-8"))
    assert len(words) >= 80


def test_each_complaint_of_the_start_page_leads_to_a_procedure(handbook: Handbook) -> None:
    start = next(one for one in handbook.pages if one.path == "index.md")
    complaints = [section for section in start.sections if section.title not in ("", "Stop first", "Which complaint?")]
    assert len(complaints) >= 8
    assert [section.title for section in complaints if "{procedure:" not in section.text] == []


def test_the_start_page_puts_the_reasons_to_stop_first(handbook: Handbook) -> None:
    start = next(one for one in handbook.pages if one.path == "index.md")
    assert next(section.title for section in start.sections if section.title) == "Stop first"


def test_pressures_are_licensed_work_and_the_last_step(handbook: Handbook) -> None:
    one = page(handbook, "pressure-checks")
    assert one.procedure is not None
    assert one.procedure.level == "licensed"
    assert "work for a person licensed for refrigerants, and for nobody else" in one.section("Why").text
    (gate,) = find_gates(before_the_steps(one))
    assert "licensed for this refrigerant" in gate.question
    assert "every finding that needs no gauge" in gate.question
    assert gate.otherwise.startswith("Not tellable yet, and no gauge is fitted.")


def test_no_gauge_is_fitted_before_the_reason_the_rest_and_the_quiet_detector(handbook: Handbook) -> None:
    steps = page(handbook, "pressure-checks").steps
    fitted = next(number for number, step in enumerate(steps) if step.text.startswith("Fit the access"))
    before = [step.text for step in steps[:fitted]]
    assert before[0].startswith("Write down why the circuit has to be opened")
    for needed in ("{procedure:make-safe-prove-dead}", "{limit:pressures.rest_hours}", "detector is quiet"):
        assert any(needed in text for text in before), needed
    assert sum(step.hold for step in steps[:fitted]) >= 3


def test_power_in_the_pressure_checks_is_a_technicians(handbook: Handbook) -> None:
    powered = [step for step in page(handbook, "pressure-checks").steps if "plug in" in step.text.lower()]
    assert powered
    assert all(step.level == "technician" for step in powered)
