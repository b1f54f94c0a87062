"""Is a start or run capacitor of its marked value?

Use with the capacitor discharged, proved and alone on a capacitance meter; or, for a run capacitor and by a
technician, with amps and volts while it runs. Says nothing about what an electrolytic does at full voltage, nor
whether the marked value is the one that the machine needs.

Source: C = I / (2 pi f U) is physics; bands by JCGM 100:2008; tolerances where none is printed are common practice.
Valid for 50 and 60 Hz sine, film run capacitors and bipolar electrolytic start capacitors of 0.1 to 2000 µF.
Where things are: marking says what the can allows, case puts the readings together, conduction judges the ohms,
verdict the value, deciders what would decide, account shows the arithmetic, notes what goes with it.
"""

from __future__ import annotations

from collections.abc import Mapping

from calculators.capacitor_value.account import figures_of, results_of, working_of
from calculators.capacitor_value.case import case_of
from calculators.capacitor_value.inputs import INPUTS
from calculators.capacitor_value.notes import notes_of
from calculators.capacitor_value.verdict import findings_of
from calculators.contract import Calculator, Example, Outcome
from calculators.inputs import Entered, Typed
from calculators.limits import InForce

LIMITS = (
    "capacitors.run_tolerance",
    "capacitors.start_below",
    "capacitors.start_above",
    "capacitors.open_share",
    "capacitors.short_ohms",
    "capacitors.leak_ohms",
    "capacitors.bleed_least",
    "capacitors.bleed_tolerance",
    "capacitors.case_ohms",
    "capacitors.volts_warn",
    "capacitors.volts_max",
    "capacitors.run_usual_least",
    "capacitors.run_usual_most",
    "capacitors.start_usual_least",
    "capacitors.start_usual_most",
    "amps.weak_above",
)


def evaluate(entered: Entered, standards: InForce) -> Outcome:
    """What it may measure, what it did measure, and the verdict on it."""
    case = case_of(entered, standards)
    return Outcome(
        results=tuple(results_of(case)),
        findings=findings_of(case),
        working=tuple(working_of(case)),
        figures=tuple(figures_of(case)),
        notes=tuple(notes_of(case)),
    )


def _typed(**texts: str) -> Mapping[str, Typed]:
    return {name: Typed(text) for name, text in texts.items()}


EXAMPLES = (
    Example(
        "start-capacitor-low",
        "Starts on the second try: an 88-108 µF start capacitor reads 71.0 µF",
        "derived",
        _typed(
            kind="start",
            marked="88",
            marked_high="108",
            can="sound",
            measured="71.0",
            connection="alone",
            bleed_resistor="15",
            ohms="14.9k",
        ),
    ),
    Example(
        "run-capacitor-straddles",
        "5 µF ±5 % reads 4.71 µF on a meter of 2 % + 5 counts of 0.01 µF: which is it?",
        "derived",
        _typed(
            kind="run",
            marked="5",
            tolerance="5",
            can="sound",
            measured="4.71",
            connection="alone",
            capacitance_meter_resolution="0.01",
        ),
    ),
    Example(
        "run-capacitor-open",
        "Weak and warm, still cools: a 12 µF ±5 % run capacitor reads 0.3 µF",
        "common-practice",
        _typed(
            kind="run",
            marked="12",
            tolerance="5",
            can="sound",
            measured="0.3",
            connection="alone",
            capacitance_meter_resolution="0.01",
        ),
    ),
    Example(
        "amps-of-30-microfarads",
        "30 µF on 240 V and 50 Hz carries 2.26 A",
        "bird-circuits-16",
        _typed(kind="run", marked="30", capacitor_amps="2.26", capacitor_volts="240", supply_frequency="50"),
    ),
    Example(
        "amps-of-60-microfarads",
        "60 µF on 110 V and 60 Hz carries 2.49 A",
        "ncert-physics-12",
        _typed(kind="run", marked="60", capacitor_amps="2.49", capacitor_volts="110", supply_frequency="60"),
    ),
    Example(
        "amps-of-25-microfarads",
        "25 µF on 200 V and 60 Hz carries 1.88 A",
        "thyagarajan-basics-4",
        _typed(kind="run", marked="25", capacitor_amps="1.88", capacitor_volts="200", supply_frequency="60"),
    ),
)

CALCULATOR = Calculator(
    slug="capacitor-value",
    title="Capacitor value",
    question="Is a start or run capacitor of its marked value?",
    purpose="Holds a measured capacitance, or amps and volts while it runs, against the print on the can.",
    does_not_tell=(
        "It does not tell what an electrolytic does at full voltage, nor whether the machine needs this value."
    ),
    level="helper",
    inputs=INPUTS,
    evaluate=evaluate,
    examples=EXAMPLES,
    limits=LIMITS,
    sources=(
        "common-practice",
        "derived",
        "jcgm-100",
        "iec-60252-1-volts",
        "bird-circuits-16",
        "ncert-physics-12",
        "thyagarajan-basics-4",
    ),
    hazards=("stored-charge", "electric-shock", "arc-flash", "terminal-venting", "flammable-refrigerant"),
    search_words=(
        "microfarad",
        "mfd",
        "uF",
        "capacitance",
        "start cap",
        "run cap",
        "weak capacitor",
        "bad capacitor",
        "test capacitor",
        "capacitor tolerance",
        "dual capacitor",
        "open capacitor",
        "shorted capacitor",
        "bleed resistor",
    ),
)
