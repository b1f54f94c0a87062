"""Does a winding leak to the shell, and how sure is that?

Each bare pin is measured to the shell with an insulation tester; the whole machine from its plug where that was
done. The reading as taken, with the tester's whole band, is held against two limits of the handbook. Both ways of
bringing it to 40 °C are shown in the working and decide nothing. Says nothing about what happens at full voltage,
about current by capacitance, or about the ohms of the windings.

Sources: IET Code of Practice for In-service Inspection and Testing (the lower limit), common practice (the upper),
IEEE 43 (test time, corrections to 40 °C; written for larger machines open to the air), UL 943 and IEC 61008-1 (what
trips at which current). Valid for a dead, disconnected motor up to 300 V; not under vacuum.
What a reading is stands in readings, where it lies in judgement, what is said about it in findings.
"""

from __future__ import annotations

from collections.abc import Mapping

from calculators.contract import Calculator, Example, Outcome
from calculators.inputs import Entered, Typed
from calculators.insulation_resistance.account import results_of, working_of
from calculators.insulation_resistance.drawing import megohm_figure
from calculators.insulation_resistance.findings import findings_of
from calculators.insulation_resistance.inputs import INPUTS
from calculators.insulation_resistance.judgement import Case
from calculators.insulation_resistance.leakage import leakage_of
from calculators.insulation_resistance.notes import notes_of
from calculators.insulation_resistance.readings import readings_of
from calculators.limits import InForce


def evaluate(entered: Entered, standards: InForce) -> Outcome:
    """Judge every reading as it was taken, and show the current and the corrections beside it."""
    case = Case(
        readings_of(entered),
        entered.number("test_volts"),
        entered.choice("pin_state"),
        entered.choice("repeated") == "yes",
        standards,
    )
    temperature = entered.number("shell_temperature")
    leakage = leakage_of(case.places, entered.number("plate_volts"))
    return Outcome(
        results=tuple(results_of(case, leakage)),
        findings=findings_of(case),
        working=tuple(working_of(case, leakage, temperature)),
        figures=(megohm_figure(case),),
        notes=tuple(notes_of(case, leakage, temperature)),
    )


def _typed(**texts: str) -> Mapping[str, Typed]:
    return {name: Typed(text) for name, text in texts.items()}


_PROPER = {"test_volts": "500", "pin_state": "bare"}

CALCULATOR = Calculator(
    slug="insulation-resistance",
    title="Insulation to the shell",
    question="Does a winding leak to the shell?",
    purpose="Judges the megohms from each pin to the shell, and tells what current they let through.",
    does_not_tell=(
        "It does not tell what happens at full voltage, nor why a protective device tripped: it says only whether this"
        " reading explains a trip."
    ),
    level="helper",
    inputs=INPUTS,
    evaluate=evaluate,
    examples=(
        Example(
            "three-good-pins",
            "Three pins at about 180 MΩ, steady, at 24 °C",
            "common-practice",
            _typed(
                **_PROPER,
                pin1="180",
                pin1_first="176",
                pin2="182",
                pin2_first="178",
                pin3="181",
                pin3_first="177",
                shell_temperature="24",
                plate_volts="230",
                insulation_tester_resolution="1",
            ),
        ),
        Example(
            "two-megohms-and-a-trip",
            "2 MΩ, and the RCD trips: is it the compressor?",
            "derived",
            _typed(**_PROPER, pin1="2", pin2="2", pin3="2", plate_volts="230"),
        ),
        Example(
            "ohmmeter-open-line",
            "An ohmmeter shows OL to the shell",
            "common-practice",
            _typed(pin1="OL", pin2="OL", pin3="OL", top_range="40", test_volts="9", pin_state="bare"),
        ),
        Example(
            "grounded-winding",
            "2.2, 6.3 and 18 Ω to the shell after a breaker trip",
            "derived",
            _typed(
                **_PROPER,
                pin1="2.2 ohm",
                pin2="6.3 ohm",
                pin3="18 ohm",
                repeated="yes",
                plate_volts="120",
                insulation_tester_percent="1",
                insulation_tester_counts="2",
                insulation_tester_resolution="0.001 k",
            ),
        ),
        Example(
            "three-megohms-hot",
            "3 MΩ on a shell at 70 °C",
            "ieee-43",
            _typed(**_PROPER, pin1="3", pin2="3", pin3="3", shell_temperature="70"),
        ),
        Example(
            "heater-leaks",
            "0.012 MΩ from the plug, 180 MΩ at the pins",
            "derived",
            _typed(
                **_PROPER,
                pin1="180",
                pin2="180",
                pin3="180",
                whole="0.012",
                plate_volts="120",
                insulation_tester_resolution="0.001",
            ),
        ),
    ),
    limits=(
        "insulation.pass",
        "insulation.fail",
        "insulation.most_fall",
        "insulation.test_volts",
        "insulation.test_time",
        "protection.gfci_least",
        "protection.gfci_most",
        "protection.rcd_least",
        "protection.rcd_most",
    ),
    sources=(
        "common-practice",
        "derived",
        "euramet-cg-15",
        "iet-in-service",
        "ieee-43",
        "ieee-43-thermosetting",
        "ul-943",
        "iec-61008-1",
    ),
    hazards=(
        "insulation-tester-voltage",
        "electric-shock",
        "stored-charge",
        "flammable-refrigerant",
        "terminal-venting",
    ),
    search_words=(
        "megohm",
        "insulation test",
        "short to ground",
        "grounded winding",
        "ground fault",
        "leakage",
        "trips GFCI",
        "trips RCD",
        "ohms to ground",
    ),
)
