"""What pressure has a refrigerant at a temperature, what temperature at a pressure, and does a machine at rest fit it?

For a licensed person who has a pressure in hand and every finding that needs no gauge. Says nothing about how much
refrigerant a machine holds, and is no reason to open a circuit: one drop of liquid gives the same pressure as a full
charge, and a small charge can stand below saturation with nothing wrong, as vapour or dissolved in the oil.

Sources: equations of state, one a refrigerant, as CoolProp computes them (build_scripts/make_saturation_tables.py), in
the table `saturation`; the air by ISO 2533. Valid for the refrigerant as filled, from -50 to 80 °C or to just below
its critical point; a blend that leaked may be another blend.

Where things are: fluid reads the table, air the barometer, inputs asks, case puts it together and compares, findings
judges, deciders says what would decide, account shows the arithmetic, drawing draws, notes says what goes with it.
"""

from __future__ import annotations

from collections.abc import Mapping

from calculators.contract import Calculator, Example, Outcome
from calculators.inputs import Entered, Typed
from calculators.limits import InForce
from calculators.saturation_pressure.account import results_of, working_of
from calculators.saturation_pressure.case import case_of
from calculators.saturation_pressure.drawing import curve_figure
from calculators.saturation_pressure.findings import findings_of
from calculators.saturation_pressure.fluid import TABLE
from calculators.saturation_pressure.inputs import INPUTS
from calculators.saturation_pressure.notes import notes_of


def evaluate(entered: Entered, standards: InForce) -> Outcome:
    """What was looked up, and what the pressure of a machine at rest says."""
    case = case_of(entered, standards)
    return Outcome(
        tuple(results_of(case)),
        findings_of(case),
        tuple(working_of(case)),
        (curve_figure(case),),
        tuple(notes_of(case)),
    )


def _typed(**texts: str | tuple[str, str]) -> Mapping[str, Typed]:
    return {name: Typed(text) if isinstance(text, str) else Typed(*text) for name, text in texts.items()}


EXAMPLES = (
    Example(
        "standing-low",
        "R134a, off overnight in a room of 25 °C, 450 kPa on the gauge at the sea: low?",
        "common-practice",
        _typed(refrigerant="r134a", gauge_pressure="450", ambient_temperature="25", hours_rest="10", altitude="0"),
    ),
    Example(
        "isobutane-suction",
        "R600a at −25 °C: what the low side stands at",
        "saturation-r600a",
        _typed(refrigerant="r600a", temperature="-25", altitude="0"),
    ),
    Example(
        "propane-in-the-mountains",
        "R290 with 125 psi on the gauge, at 1500 m",
        "saturation-r290",
        _typed(refrigerant="r290", gauge_pressure=("125", "psi_gauge"), altitude="1500"),
    ),
    Example(
        "blend-glide",
        "R404A at 1241 kPa absolute: dew, bubble and glide",
        "saturation-r404a",
        _typed(refrigerant="r404a", absolute_pressure="1241"),
    ),
    Example(
        "air-in-it",
        "R12 at rest at 20 °C with 560 kPa on the gauge: more than it can have",
        "common-practice",
        _typed(refrigerant="r12", gauge_pressure="560", ambient_temperature="20", hours_rest="12", barometer="101.3"),
    ),
)

CALCULATOR = Calculator(
    slug="saturation-pressure",
    title="Saturation pressure and temperature",
    question="What pressure belongs to this temperature, and does the pressure of a machine at rest fit it?",
    purpose=(
        "Turns temperature into saturation pressure and back, and compares a standing pressure with it. Taking a "
        "pressure is licensed work: this is for whoever holds the licence, as the last step and never the first."
    ),
    does_not_tell=(
        "It does not tell how much refrigerant is in a machine, and it is no reason to open a circuit. A pressure below"
        " saturation proves nothing by itself on a small charge."
    ),
    level="licensed",
    inputs=INPUTS,
    evaluate=evaluate,
    examples=EXAMPLES,
    limits=(
        "pressures.rest_low",
        "pressures.rest_high",
        "pressures.weak_band",
        "pressures.rest_hours",
        "pressures.flat",
        "pressures.weather",
        "pressures.barometer_band",
        "pressures.table_error",
    ),
    tables=(TABLE,),
    sources=(
        "saturation-r134a",
        "saturation-r600a",
        "saturation-r290",
        "saturation-r12",
        "saturation-r22",
        "saturation-r404a",
        "coolprop",
        "iso-2533",
        "common-practice",
        "derived",
    ),
    hazards=("refrigerant-release", "flammable-refrigerant", "terminal-venting"),
    search_words=(
        "PT chart",
        "pressure temperature chart",
        "boiling point",
        "gauge pressure",
        "standing pressure",
        "psig",
        "vacuum",
        "R134a",
        "R600a",
        "R290",
        "R12",
        "R22",
        "R404A",
        "glide",
        "dew point",
        "bubble point",
    ),
)
