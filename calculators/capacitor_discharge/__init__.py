"""How long does a discharge tool have to stay on a capacitor, and what is measured afterwards?

Use before any lead of a capacitor is touched. It reckons a time and says what to measure; only the measured volts,
twice, give a verdict. Says nothing about whether the tool or a bleed resistor is whole, and never that a capacitor
may be touched.

Source: U = U0 e^(-t/RC), E = C U^2 / 2 and P = U^2 / R are physics; the hold time and the volts to be below are
common practice and stand in the handbook's limits.
Valid for one capacitor and one resistor of constant value, from the volts measured on dc or, where they were not
measured, from the peak of the ac volts printed on the can. The supply's peak is no bound for a motor's capacitor.
"""

from __future__ import annotations

from collections.abc import Mapping

from calculators.capacitor_discharge.account import notes_of, results_of, working_of
from calculators.capacitor_discharge.case import case_of
from calculators.capacitor_discharge.drawing import discharge_figure
from calculators.capacitor_discharge.inputs import INPUTS
from calculators.capacitor_discharge.verdict import findings_of
from calculators.contract import Calculator, Example, Outcome
from calculators.inputs import Entered, Typed
from calculators.limits import InForce


def evaluate(entered: Entered, standards: InForce) -> Outcome:
    """The hold time, what it rests on, and what the measured volts mean."""
    case = case_of(entered, standards)
    figure = discharge_figure(case)
    return Outcome(
        results=tuple(results_of(case)),
        findings=findings_of(case),
        working=tuple(working_of(case)),
        figures=() if figure is None else (figure,),
        notes=tuple(notes_of(case)),
    )


def _typed(**texts: str) -> Mapping[str, Typed]:
    return {name: Typed(text) for name, text in texts.items()}


EXAMPLES = (
    Example(
        "start-capacitor",
        "A 100 µF start capacitor that shows 325 V, the handbook's tool",
        "derived",
        _typed(capacitance="100", volts_before="325", can="sound", bleed_resistor="15"),
    ),
    Example(
        "run-capacitor-not-measured",
        "A 5 µF run capacitor of 440 V that nobody has measured yet",
        "derived",
        _typed(capacitance="5", rated_volts="440", can="sound"),
    ),
    Example(
        "discharged-twice",
        "88 µF, 250 V, held on for 8 s: 0.6 V, and 1.1 V after the wait",
        "derived",
        _typed(
            capacitance="88",
            rated_volts="250",
            can="sound",
            tool_ohms="15",
            held_for="8",
            volts_after="0.6",
            volts_after_wait="1.1",
        ),
    ),
    Example(
        "textbook-sixteen-microfarads",
        "16 µF through 50 kΩ from 100 V: how long to 20 V?",
        "bird-circuits-17",
        _typed(
            capacitance="16",
            tool_ohms="50",
            volts_before="100",
            target_volts="20",
            held_for="1",
            voltmeter_percent="0",
            voltmeter_counts="0",
            ohmmeter_percent="0",
            ohmmeter_counts="0",
        ),
    ),
    Example(
        "textbook-three-seconds",
        "A time constant of 3 s from 40 V: what is left after 6 s?",
        "schultz-grob-22",
        _typed(
            capacitance="200",
            tool_ohms="15",
            volts_before="40",
            held_for="6",
            voltmeter_percent="0",
            voltmeter_counts="0",
            ohmmeter_percent="0",
            ohmmeter_counts="0",
        ),
    ),
)

CALCULATOR = Calculator(
    slug="capacitor-discharge",
    title="Capacitor discharge",
    question="How long does the discharge tool stay on, and what must the voltmeter show then?",
    purpose="Works out the hold time, the energy and the first spark, and judges the two measurements after it.",
    does_not_tell="It does not tell that anything may be touched: only the voltmeter does, twice, on every pair.",
    level="helper",
    inputs=INPUTS,
    evaluate=evaluate,
    examples=EXAMPLES,
    limits=(
        "capacitors.touch_volts",
        "capacitors.discharge_resistor",
        "capacitors.tool_least",
        "capacitors.hold_factor",
        "capacitors.time_constants",
        "capacitors.least_hold",
        "capacitors.recheck_wait",
        "capacitors.hot_wait",
        "capacitors.published_volts",
        "capacitors.published_time",
        "meters.capacitor_volts",
    ),
    sources=("common-practice", "derived", "jcgm-100", "nec-460-6", "bird-circuits-17", "schultz-grob-22"),
    hazards=("stored-charge", "electric-shock", "arc-flash", "terminal-venting", "flammable-refrigerant"),
    search_words=(
        "discharge",
        "bleed",
        "bleed down",
        "stored charge",
        "time constant",
        "RC",
        "joules",
        "how long to discharge",
        "capacitor shock",
    ),
)
