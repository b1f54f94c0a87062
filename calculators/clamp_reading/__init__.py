"""What is a clamp reading worth: how many amps of the compressor is it, and may a verdict rest on it?

Use before the amps are judged. Says nothing about what the motor ought to draw, and nothing about a current that
changes while it is read. Percentage, counts and what an empty jaw shows are added up as a worst case; other loads on
the same conductor are taken off as currents out of step, between the ends that their angles allow.

Sources: accuracy as percentage and counts (EURAMET cg-15, from memory); currents at a node and the law of cosines
(Kuphaldt, Lessons In Electric Circuits); the limits are common practice. Valid for one phase and true-rms clamps.
"""

from __future__ import annotations

from collections.abc import Mapping

from calculators.clamp_reading.account import figure_of, notes_of, results_of, working_of
from calculators.clamp_reading.case import case_of
from calculators.clamp_reading.findings import findings_of
from calculators.clamp_reading.inputs import INPUTS
from calculators.contract import Calculator, Example, Outcome
from calculators.inputs import Entered, Typed
from calculators.limits import InForce


def evaluate(entered: Entered, standards: InForce) -> Outcome:
    """The amps of the compressor with their band, and whether a verdict may rest on them."""
    case = case_of(entered, standards)
    return Outcome(
        results=tuple(results_of(case)),
        findings=findings_of(case),
        working=tuple(working_of(case)),
        figures=(figure_of(case),),
        notes=tuple(notes_of(case, entered)),
    )


def _typed(**texts: str) -> Mapping[str, Typed]:
    return {name: Typed(text) for name, text in texts.items()}


CALCULATOR = Calculator(
    slug="clamp-reading",
    title="What a clamp reading is worth",
    question="How many amps of the compressor is this clamp reading, and may a verdict rest on it?",
    purpose="Takes off turns and other loads, and says how far the amps may be off.",
    does_not_tell="It does not tell what the motor ought to draw: expected running amps do.",
    level="technician",
    inputs=INPUTS,
    evaluate=evaluate,
    examples=(
        Example(
            "coarse-clamp",
            "0.9 A on a display that steps by 0.1 A",
            "common-practice",
            _typed(
                shown_amps="0.9",
                clamp_place="common",
                run_time="30",
                clamp_percent="2",
                clamp_counts="5",
                clamp_resolution="0.1",
            ),
        ),
        Example(
            "ten-turns",
            "The same clamp with ten turns of 1.2 A",
            "derived",
            _typed(
                shown_amps="12.0",
                turns="10",
                clamp_place="common",
                run_time="30",
                clamp_percent="2",
                clamp_counts="5",
                clamp_resolution="0.1",
            ),
        ),
        Example(
            "fan-and-compressor",
            "1.45 A on one conductor of a cord, a 0.20 A fan among it",
            "derived",
            _typed(shown_amps="1.45", clamp_place="cord", fan_amps="0.20", motor_type="resistance", run_time="25"),
        ),
        Example(
            "resistor-and-coil",
            "3.322 A in all, 2 A of it through a resistor, the rest through a coil",
            "kuphaldt-parallel",
            _typed(
                shown_amps="3.322",
                clamp_place="cord",
                heater_amps="2",
                load_percent="0",
                motor_type="resistance",
                run_time="30",
                clamp_percent="0",
                clamp_counts="0",
                clamp_resolution="0.001",
            ),
        ),
        Example(
            "whole-cord",
            "0.05 A with the whole cord in the jaw",
            "common-practice",
            _typed(shown_amps="0.05", clamp_place="whole", run_time="30"),
        ),
    ),
    limits=(
        "clamp.good_band",
        "amps.weak_above",
        "clamp.power_factor_spread",
        "amps.run_settle_minutes",
        "amps.start_over",
    ),
    sources=("common-practice", "derived", "euramet-cg-15", "kuphaldt-lessons", "kuphaldt-parallel"),
    hazards=("electric-shock", "arc-flash", "moving-parts", "terminal-venting", "flammable-refrigerant"),
    search_words=(
        "clamp meter",
        "amp clamp",
        "turns in the clamp",
        "loop the wire",
        "coil ten turns",
        "clamp reads zero",
        "clamp round the cord",
        "splitter lead",
        "clamp accuracy",
        "subtract fan amps",
    ),
)
