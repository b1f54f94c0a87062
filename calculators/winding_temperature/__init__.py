"""How hot was the winding when the motor was switched off?

Its resistance is read cold, with the motor as cool as the room, and again as soon as it has been switched off and
proved dead; the hot readings are reckoned back to the moment of switch-off. Says nothing about the hottest place in
the winding, and nothing about why it is hot.

Sources: IEC 60335-1 clause 11 (formula and rise; k = 234.5 copper, 225 aluminium), IEC 60335-2-34 from memory (limits
of the insulation), JCGM 100 (the band). Valid from -10 °C to about 150 °C and for the first minutes after switch-off.
What the readings give stands in case and cooling, what is said about it in findings, what would decide it in deciders.
"""

from __future__ import annotations

from collections.abc import Mapping

from calculators.contract import Calculator, Example, Outcome
from calculators.inputs import Entered, Typed
from calculators.limits import InForce
from calculators.winding_temperature.account import results_of, working_of
from calculators.winding_temperature.drawing import cooling_figure
from calculators.winding_temperature.findings import findings_of
from calculators.winding_temperature.inputs import INPUTS
from calculators.winding_temperature.notes import notes_of
from calculators.winding_temperature.read import case_of, left_out


def evaluate(entered: Entered, standards: InForce) -> Outcome:
    """The temperature at switch-off, its band, and where it lies between the limits."""
    case = case_of(entered, standards)
    end = entered.number("end_temperature")
    return Outcome(
        results=tuple(results_of(case, end)),
        findings=findings_of(case),
        working=tuple(working_of(case, end)),
        figures=(cooling_figure(case),),
        notes=(*left_out(entered), *notes_of(case)),
    )


def _typed(**texts: str) -> Mapping[str, Typed]:
    return {name: Typed(text) for name, text in texts.items()}


CALCULATOR = Calculator(
    slug="winding-temperature",
    title="Winding temperature after a run",
    question="How hot was the winding when the motor was switched off?",
    purpose="Works out the winding's temperature from its ohms cold and hot, reckoned back to switch-off.",
    does_not_tell="It does not tell how hot the hottest place is, nor why: airflow, supply and amps do.",
    level="technician",
    inputs=INPUTS,
    evaluate=evaluate,
    examples=(
        Example(
            "four-readings",
            "11.20 Ω cold at 24 °C, four readings in two minutes after the run",
            "derived",
            _typed(
                cold_ohms="11.20",
                cold_temperature="24",
                hours_rest="12",
                lead="0.12",
                hot1_time="30",
                hot1_ohms="13.90",
                hot2_time="60",
                hot2_ohms="13.78",
                hot3_time="90",
                hot3_ohms="13.68",
                hot4_time="120",
                hot4_ohms="13.57",
                end_temperature="25",
                metal="copper",
                same_meter="yes",
                ohmmeter_percent="0.2",
            ),
        ),
        Example(
            "eighty-to-a-hundred-ohms",
            "80 Ω at 20 °C, 100 Ω after the run",
            "winding-temperature-print",
            _typed(
                cold_ohms="80",
                cold_temperature="20",
                lead="0",
                hot1_time="0",
                hot1_ohms="100",
                end_temperature="20",
                metal="copper",
            ),
        ),
        Example(
            "textbook-rise",
            "3.42 Ω at 20 °C, 4.22 Ω hot: the rise",
            "kulshreshtha-2",
            _typed(
                cold_ohms="3.42",
                cold_temperature="20",
                lead="0",
                hot1_time="0",
                hot1_ohms="4.22",
                end_temperature="20",
                metal="copper",
            ),
        ),
        Example(
            "leads-left-in",
            "Leads of 0.3 Ω left in 3.6 and 4.6 Ω",
            "derived",
            _typed(cold_ohms="3.9", cold_temperature="22", hot1_time="45", hot1_ohms="4.9", metal="copper"),
        ),
    ),
    limits=(
        "winding_temperature.warn",
        "winding_temperature.stop",
        "winding_temperature.synthetic",
        "winding_temperature.cellulosic",
        "winding_temperature.first_reading",
        "winding_temperature.last_reading",
        "winding_temperature.least_readings",
        "windings.rest_hours",
        "windings.lead_most",
    ),
    sources=(
        "common-practice",
        "derived",
        "iec-60335-1-clause-11",
        "iec-60335-2-34",
        "jcgm-100",
        "kulshreshtha-2",
        "winding-temperature-print",
    ),
    hazards=(
        "electric-shock",
        "stored-charge",
        "hot-surfaces",
        "unexpected-restart",
        "terminal-venting",
        "flammable-refrigerant",
    ),
    search_words=(
        "winding temperature",
        "hot winding",
        "motor temperature",
        "temperature rise",
        "resistance method",
        "change of resistance",
        "overheating",
        "overload trips hot",
    ),
)
