"""Which check comes next, from the complaint to a finding?

A walk through the handbook's decision map: each answer leads to the next question or to a finding. Says who may answer
a question and which page tells how; says what a finding needs before it is written. It measures nothing itself and
knows nothing but the answers, so that it is only as good as they are.

The map is the handbook's data; the rules of the walk stand in calculators.decisions, what is said in findings and
account. Source: common practice of the trade, as each part of the map names it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from calculators.contract import Calculator, Example, Outcome
from calculators.decisions import Walk, begin, evidence_field_of, field_of
from calculators.inputs import DecisionInput, Entered, Problem, RefusedError, Typed
from calculators.limits import InForce
from calculators.next_check.account import notes_of, results_of, working_of
from calculators.next_check.drawing import path_figure
from calculators.next_check.findings import findings_of

STOP_FIELD = "stop_now"


def evaluate(entered: Entered, standards: InForce) -> Outcome:
    """Where the answers lead."""
    if not standards.decisions.questions:
        raise RefusedError(Problem("", "This handbook has no decision map. Begin at its start page instead."))
    here = walked(entered, standards)
    evidence = {
        one.id: entered.choice(evidence_field_of(one.id))
        for one in (*here.on_the_way, *([here.reached] if here.reached else []))
        if one.needs_evidence
    }
    return Outcome(
        results=tuple(results_of(here, evidence, standards)),
        findings=tuple(findings_of(here, evidence, standards)),
        working=tuple(working_of(here, standards)),
        figures=(path_figure(here, evidence, standards),),
        notes=tuple(notes_of(here, standards)),
        asks=tuple(asked(here)),
    )


def walked(entered: Entered, standards: InForce) -> Walk:
    """The walk as far as the answers go; a reason to stop cuts in behind what was answered before it."""
    so_far = _answered(begin(standards.decisions), entered)
    reason = entered.choice(STOP_FIELD)
    return _answered(so_far.stop(reason), entered) if reason else so_far


def _answered(so_far: Walk, entered: Entered) -> Walk:
    while so_far.asks is not None:
        given = entered.choice(field_of(so_far.asks.id, so_far.visit))
        if not given:
            break
        so_far = so_far.answer(given)
    return so_far


def asked(here: Walk) -> Iterator[str]:
    """The fields of the walk in its order: the reason to stop, what was answered, and what is asked now."""
    yield STOP_FIELD
    written: set[str] = set()
    for one in here.taken:
        yield field_of(one.question.id, one.visit)
        if one.answer.also_write and one.answer.also_write not in written:
            written.add(one.answer.also_write)
            yield evidence_field_of(one.answer.also_write)
    if here.asks is not None:
        yield field_of(here.asks.id, here.visit)
    elif here.reached is not None and here.reached.needs_evidence and here.reached.id not in written:
        yield evidence_field_of(here.reached.id)


def _typed(**texts: str) -> Mapping[str, Typed]:
    return {name: Typed(text) for name, text in texts.items()}


CALCULATOR = Calculator(
    slug="next-check",
    title="Next check",
    question="Which check comes next, and what may be written?",
    purpose="Walks from the complaint to a finding, one question at a time, and says who may answer each and how.",
    does_not_tell=(
        "It does not tell whether an answer is right: each rests on the page that says how it is found. It takes no"
        " reading and opens no cover."
    ),
    level="anyone",
    inputs=(DecisionInput(STOP_FIELD, "The walk", group="The walk, one question after the other"),),
    evaluate=evaluate,
    examples=(
        Example(
            "cellar-cord",
            "Hums in the cellar on a long cord, starts straight from the wall",
            "common-practice",
            _typed(
                complaint="hums",
                rested_retry="hums",
                on_a_cord="cord",
                straight_to_wall="starts",
                evidence_cord_unsuitable="all",
            ),
        ),
        Example(
            "hot-overload",
            "Silent after a hot day: the overload inside was doing its work",
            "common-practice",
            _typed(
                complaint="silent",
                outlet_alive="alive",
                supply_idle="inside",
                control_calls="calling",
                shell_hot="hot",
                cool_down="cool",
                overload_cold="none-fitted",
                three_windings="one-pair",
                open_lines_cold="closed",
                why_hot="noted",
                airflow_looked_at="bad",
                evidence_airflow_fault="all",
            ),
        ),
        Example(
            "not-tellable",
            "Hums, and the meter does not hold the lowest volts",
            "common-practice",
            _typed(complaint="hums", rested_retry="hums", on_a_cord="wall", lowest_volts="no-hold"),
        ),
        Example(
            "tingle",
            "A tingle in the middle of a walk",
            "common-practice",
            _typed(complaint="not-cooling", stop_now="shock", shut_off="shock-only", earth_after_shock="earth-open"),
        ),
    ),
    limits=(
        "airflow.run_minutes",
        "amps.high_ratio",
        "amps.run_settle_minutes",
        "amps.start_over",
        "amps.stop_ratio",
        "earth_bond.max",
        "insulation.fail",
        "insulation.pass",
        "insulation.test_time",
        "insulation.test_volts",
        "leakage.most",
        "locked_rotor.high_ratio",
        "locked_rotor.low_ratio",
        "power.high_ratio",
        "power.low_ratio",
        "power.start_lead_after",
        "power.start_lead_ptc",
        "start_volts.min",
        "start_volts.warn",
        "starting.longest_attempt",
        "starting.rest_between_attempts",
        "starting.restart_wait",
        "starting.start_device_wait",
        "supply.high",
        "supply.low",
        "supply.neutral_to_earth_running",
        "terminals.hot_shell",
        "trips.at_start",
        "trips.on_heat",
        "winding_temperature.stop",
        "windings.cool_hours",
        "windings.cool_shell_temperature",
        "windings.reference_temperature",
        "windings.rest_hours",
    ),
    sources=("common-practice",),
    hazards=(
        "electric-shock",
        "stored-charge",
        "terminal-venting",
        "flammable-refrigerant",
        "refrigerant-release",
        "unexpected-restart",
    ),
    search_words=(
        "what next",
        "where to start",
        "decision tree",
        "flow chart",
        "fault finding",
        "troubleshooting",
        "diagnosis",
        "condemn",
        "what to write",
        "not tellable",
    ),
)
