"""The decision map against the rest of the handbook: pages, levels, limits, and the page made from it."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest

from build_scripts.assemble import assembled_files
from build_scripts.read_handbook import Handbook, read_handbook

ROOT = Path(__file__).resolve().parents[2]
RANK = {"anyone": 0, "helper": 1, "technician": 2}
CONDEMNS = {
    "run-open",
    "start-open",
    "common-open",
    "more-than-one-open",
    "shorted-turns",
    "winding-shorted",
    "winding-to-shell",
    "seized",
    "tight",
    "no-pumping",
}


@pytest.fixture(scope="module")
def handbook() -> Handbook:
    return read_handbook(ROOT, date.today())


@pytest.fixture(scope="module")
def pages(handbook) -> dict[str, str]:
    return assembled_files(handbook, date.today())


def may_work_by(level: str, page: str) -> bool:
    """A licence is separate, not a higher rank: a licensed page is for licensed people, and they read any other."""
    return (
        level == page
        or (level == "licensed" and page != "licensed")
        or (level in RANK and page in RANK and RANK[page] <= RANK[level])
    )


def test_nobody_is_sent_to_a_page_that_they_may_not_work_by(handbook):
    wrong = [
        (key, name)
        for key, one in handbook.standards.decisions.questions.items()
        for name in one.procedures
        if not may_work_by(one.level, handbook.procedures[name].procedure.level)
    ]
    assert wrong == []


def test_the_walk_lists_every_limit_that_the_map_names(handbook):
    assert sorted(handbook.calculators["next-check"].limits) == sorted(handbook.standards.decisions.limits)


def test_the_page_of_the_map_holds_every_question_and_every_finding(handbook, pages):
    page = pages["reference/decision-map.md"]
    decisions = handbook.standards.decisions
    assert [key for key in (*decisions.questions, *decisions.findings) if f"{{: #{key} }}" not in page] == []


def test_each_complaint_of_the_start_page_leads_into_the_walk(handbook):
    start = next(one for one in handbook.pages if one.path == "index.md")
    complaints = [one for one in start.sections if one.title not in ("", "Stop first", "Which complaint?")]
    begun = [re.findall(r'data-begin="next-check complaint=([a-z-]+)"', one.text) for one in complaints]
    answers = [*handbook.standards.decisions.questions["complaint"].answers, "cannot-tell"]
    assert [one.title for one, named in zip(complaints, begun, strict=True) if len(named) != 1] == []
    assert {named[0] for named in begun} == set(answers) - {"high-amps"}


def test_the_start_page_names_the_question_that_each_complaint_leads_to(handbook):
    start = next(one for one in handbook.pages if one.path == "index.md")
    complaint = handbook.standards.decisions.questions["complaint"]
    reached = {answer.leads_to for answer in complaint.answers.values()} | {complaint.cannot_tell}
    assert [one for one in reached - {"running-volts"} if f"decision-map.md#{one})" not in start.body] == []


def test_a_finding_that_condemns_goes_to_a_second_person_and_stops_the_work(handbook):
    findings = handbook.standards.decisions.findings
    assert {key for key, one in findings.items() if one.procedure == "after-condemnation"} == CONDEMNS
    assert [key for key in CONDEMNS if not findings[key].stop] == []


def test_a_condemnation_is_countersigned_before_the_tag(handbook):
    steps = handbook.procedures["after-condemnation"].steps
    signed = next(number for number, step in enumerate(steps) if step.hold and "second person has signed" in step.text)
    tagged = next(number for number, step in enumerate(steps) if step.text.startswith("Put the tag on"))
    assert signed < tagged


def test_the_charge_of_a_condemned_machine_belongs_to_a_licensed_person(handbook):
    steps = handbook.procedures["after-condemnation"].steps
    assert [step.level for step in steps if "refrigerant" in step.text.lower() and step.text.startswith("Recover")] == [
        "licensed"
    ]


def test_a_mended_machine_gets_power_only_closed_and_measured(handbook):
    steps = [step.text for step in handbook.procedures["return-to-service"].steps]
    covered = next(number for number, text in enumerate(steps) if "the terminal cover is on" in text)
    measured = next(number for number, text in enumerate(steps) if "{limit:insulation.pass}" in text)
    powered = next(number for number, text in enumerate(steps) if text.startswith("Plug it in"))
    assert covered < measured < powered


def test_shorted_turns_are_come_to_by_watts_or_by_amps_as_the_finding_asks(handbook):
    decisions = handbook.standards.decisions
    label = decisions.questions["windings-by-data"].answers["low-ohms"].label
    # Common practice, no source: ohms below their data, and watts or amps in excess.
    assert "watts or amps too high, with the whole band" in decisions.findings["shorted-turns"].evidence
    assert "{limit:power.high_ratio} or amps above {limit:amps.high_ratio}" in label


def test_the_whole_band_is_asked_of_low_watts_and_not_of_the_power_factor_beside_them(handbook):
    label = handbook.standards.decisions.questions["watts"].answers["low"].label
    # Common practice, no source: watts clearly below, and a power factor that is down beside them.
    assert label.endswith("with the whole band, and power factor down")


def test_a_run_capacitor_is_judged_by_its_current_or_off_the_circuit(handbook):
    label = handbook.standards.decisions.questions["start-winding-running"].answers["capacitor-off"].label
    assert "The current of a run capacitor, or its value off the circuit" in label
