"""What should this compressor draw while it runs, and does it?

Use after it has run long enough, with the volts in hand. Says whether the amps are what the plates and data
lead one to expect; says nothing about whether it pumps, and never why the amps are off.
How the evidence is weighed stands in evidence, shift and reference, how the reading is placed in ratio, what is
said about it in verdict, why it may not be judged in hindrances, and what would decide it in deciders.
"""

from __future__ import annotations

from collections.abc import Mapping

from calculators.contract import Calculator, Example, Outcome
from calculators.expected_amps.account import results_of, working_of
from calculators.expected_amps.drawing import figure_of
from calculators.expected_amps.evidence import pieces_of
from calculators.expected_amps.hindrances import conflict_finding, no_reading
from calculators.expected_amps.inputs import INPUTS
from calculators.expected_amps.notes import notes_of
from calculators.expected_amps.ratio import Case
from calculators.expected_amps.reference import conflicts_between, reference_of
from calculators.expected_amps.shift import shifted
from calculators.expected_amps.verdict import findings_of
from calculators.inputs import Entered, Problem, RefusedError, Typed
from calculators.limits import InForce
from calculators.running_condition import Supply

LIMITS = (
    "amps.low_ratio",
    "amps.low_ratio_on_rated_load",
    "amps.high_ratio",
    "amps.stop_ratio",
    "amps.run_settle_minutes",
    "amps.start_over",
    "amps.weak_above",
    "amps.voltage.uncorrected",
    "amps.voltage.no_verdict",
    "amps.voltage.extra_band",
    "amps.band.map",
    "amps.band.data_sheet",
    "amps.band.rated_load",
    "amps.band.watts",
    "amps.band.locked_rotor_low",
    "amps.band.locked_rotor_high",
    "amps.band.horsepower",
    "amps.combine_floor",
    "amps.locked_rotor_ratio",
    "amps.power_factor.resistance_start",
    "amps.power_factor.run_capacitor",
    "amps.power_factor.horsepower",
    "amps.shift.r134a_r600a",
    "amps.shift.r290",
    "amps.shift.spread",
    "amps.shift.most",
    "amps.shift.condensing_r134a_r600a",
    "amps.shift.condensing_r290",
    "amps.shift.condensing_spread",
    "amps.shift.condensing_most",
    "amps.settled_low",
    "amps.settled_high",
)


def evaluate(entered: Entered, standards: InForce) -> Outcome:
    """The expected amps, and the verdict on the reading if there is one."""
    if entered.number("running_amps") == 0.0:
        raise RefusedError(
            Problem(
                "running_amps",
                "Running amps: 0 is no running current. See that the motor runs and that the "
                "clamp is round one conductor only, then enter what it shows.",
            )
        )
    pieces = shifted(pieces_of(entered, standards), entered, standards)
    supply = Supply(
        entered.needed("plate_volts"),
        entered.reading("running_volts"),
        entered.choice("plate_frequency"),
        entered.choice("supply_frequency"),
        standards,
    )
    plain = reference_of(pieces, standards)
    conflicts = conflicts_between(pieces, plain, standards)
    reference = plain.widened(supply.extra_band)
    amps = entered.number("running_amps")
    clamp = entered.meters["clamp"]
    if amps is None:
        case = None
        findings = (*([conflict_finding(conflicts)] if conflicts else []), no_reading(reference, clamp, standards))
    else:
        case = Case(pieces, reference, conflicts, amps, clamp, supply, entered.number("run_time"), standards)
        findings = findings_of(case)
    agreed = None if conflicts else reference
    return Outcome(
        results=tuple(results_of(pieces, agreed, supply, case, standards)),
        findings=findings,
        working=tuple(working_of(pieces, plain, agreed, supply, case)),
        figures=(figure_of(pieces, agreed, case, standards),),
        notes=tuple(notes_of(pieces, reference, supply, case, entered, standards)),
    )


def _typed(**texts: str) -> Mapping[str, Typed]:
    return {name: Typed(text) for name, text in texts.items()}


CALCULATOR = Calculator(
    slug="expected-amps",
    title="Expected running amps",
    question="What should this compressor draw while it runs, and does it?",
    purpose="Works out the running amps to expect from plates and data, and judges a reading against them.",
    does_not_tell="It does not tell whether the compressor pumps, nor why the amps are off: watts, heat and frost do.",
    level="technician",
    inputs=INPUTS,
    evaluate=evaluate,
    examples=(
        Example(
            "watts-locked-rotor-horsepower",
            "185 W, LRA 17 and 1/5 hp agree on a 115 V fridge",
            "derived",
            _typed(
                plate_volts="115",
                motor_type="resistance",
                watts="185",
                locked_rotor_amps="17",
                horsepower="1/5",
                running_amps="2.45",
                running_volts="117",
                run_time="30",
            ),
        ),
        Example(
            "six-times",
            "LRA 6 A, and it draws a steady 4.4 A",
            "common-practice",
            _typed(plate_volts="115", locked_rotor_amps="6", running_amps="4.4", running_volts="115", run_time="30"),
        ),
        Example(
            "third-of-a-horsepower",
            "What a 1/3 hp compressor on 115 V draws",
            "common-practice",
            _typed(plate_volts="115", horsepower="1/3"),
        ),
        Example(
            "dirty-condenser",
            "3.10 A on a bottle cooler with 2.5 A printed: high or not?",
            "common-practice",
            _typed(
                plate_volts="230",
                rated_load_amps="2.5",
                running_amps="3.10",
                running_volts="227",
                run_time="40",
                clamp_percent="2",
                clamp_counts="0",
            ),
        ),
        Example(
            "third-horsepower-textbook-motor",
            "400 W at 115 V and a power factor of 0.6501",
            "kosow-machinery-10",
            _typed(plate_volts="115", watts="400", power_factor="0.6501"),
        ),
        Example(
            "power-and-current",
            "1500 W at 240 V and a power factor of 0.75",
            "storey-systems-16",
            _typed(plate_volts="240", watts="1500", power_factor="0.75"),
        ),
        Example(
            "full-load-motor",
            "6 kW input (4.8 kW at 80 %) at 240 V and a power factor of 0.625",
            "bird-circuits-16",
            _typed(plate_volts="240", watts="6 kW", power_factor="0.625"),
        ),
    ),
    limits=LIMITS,
    tables=("general-motor-full-load",),
    sources=(
        "common-practice",
        "derived",
        "jcgm-100",
        "ahri-540",
        "ashrae-23",
        "nec-440-2",
        "nec-440-52",
        "nec-430-248",
        "nist-sp-811",
        "trade-memory",
        "kosow-machinery-10",
        "storey-systems-16",
        "bird-circuits-16",
    ),
    hazards=("electric-shock", "arc-flash", "moving-parts", "terminal-venting", "flammable-refrigerant"),
    search_words=(
        "running current",
        "amp draw",
        "RLA",
        "FLA",
        "rated load amps",
        "LRA",
        "clamp",
        "how many amps",
        "high amps",
        "low amps",
        "too much current",
    ),
)
