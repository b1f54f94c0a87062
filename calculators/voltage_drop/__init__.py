"""How many volts are lost in cord and branch circuit, running and in the moment of the start?

Use before a compressor is blamed for not starting, and to choose a cord. Says nothing about the current that a wire may
carry, about a circuit shared with other loads while they change, or about a dip shorter than the meter's own time.

Sources: conductor resistance from IEC 60228 and NEC Chapter 9 Tables 8 and 9; limits of the running loss from the note
to NEC 210.19 and IEC 60364-5-52 Annex G, both advice; limits of the start from common practice.
Valid for one phase, two equal conductors, a steady supply. The motor is a fixed current while it runs and a fixed
impedance while it is stalled: U0 / (1 + R x LRA / Un).

Where things are: conductors reads the tables; here path_volts holds the circuit arithmetic, source the stiffness of
the supply, inputs asks, case puts one path together, contradictions refuses, findings and start judge, deciders says
what would decide, sizes looks for a wire that would do, account shows the arithmetic, notes says what goes with it,
drawing draws.
"""

from __future__ import annotations

from dataclasses import replace

from calculators.contract import Calculator, Example, Outcome
from calculators.findings import Finding
from calculators.inputs import Entered, Typed
from calculators.limits import InForce
from calculators.voltage_drop.account import results, working
from calculators.voltage_drop.case import BRANCH_TABLE, CORD_TABLE, Case, case_of
from calculators.voltage_drop.deciders import UNPLUG_CORD
from calculators.voltage_drop.drawing import path_figure
from calculators.voltage_drop.findings import bad_joint, loop_finding, loop_ratio, running_finding, supply_finding
from calculators.voltage_drop.inputs import INPUTS
from calculators.voltage_drop.notes import notes
from calculators.voltage_drop.start import starting_finding


def evaluate(entered: Entered, standards: InForce) -> Outcome:
    """Ohms of the path, volts at the machine running and starting, and what they mean."""
    case = case_of(entered, standards)
    return Outcome(
        tuple(results(case, standards)),
        _findings(case, entered, standards),
        tuple(working(case, entered)),
        (path_figure(case, standards),) if case.run or case.start else (),
        tuple(notes(case, entered, standards)),
    )


def _findings(case: Case, entered: Entered, standards: InForce) -> tuple[Finding, ...]:
    supply = supply_finding(case, entered, standards)
    found = [] if supply is None else [supply]
    ratio, running, starting = loop_ratio(case), case.running, case.starting
    if ratio is not None:
        found.append(loop_finding(case, ratio, entered, standards))
    if starting is not None:
        found.append(starting_finding(case, starting, entered, standards))
    if running is not None and (case.wiring or case.at_outlet):
        found.append(running_finding(case, running, entered, standards))
    if bad_joint(case, standards):
        found = [replace(one, next_step=UNPLUG_CORD) for one in found]  # nothing live follows with this cord plugged in
    return tuple(found)


def _typed(**texts: str | tuple[str, str]) -> dict[str, Typed]:
    return {name: Typed(text) if isinstance(text, str) else Typed(*text) for name, text in texts.items()}


EXAMPLES = (
    Example(
        "cellar-cord",
        "A freezer that does not start in the cellar: 25 m of 0.75 mm² on an outlet of 0.9 Ω",
        "derived",
        _typed(
            plate_volts="230",
            idle_volts="231",
            start_amps="20",
            cord_conductor="iec-5-0.75",
            cord_length="25",
            source_ohms="0.9",
        ),
    ),
    Example(
        "stiffness-from-two-readings",
        "How stiff is the outlet? 229 V idle, 226.5 V at 1.1 A, start amps 12",
        "derived",
        _typed(plate_volts="230", idle_volts="229", loaded_volts="226.5", load_amps="1.1", start_amps="12"),
    ),
    Example(
        "workshop-cord",
        "50 ft of cold 16 AWG cord at 20 start amps, outlet not measured",
        "nec-chapter-9-table-8",
        _typed(
            plate_volts="115",
            idle_volts="121",
            run_amps="4",
            start_amps="20",
            cord_conductor="nec-8-stranded-16",
            cord_length=("50", "ft"),
            joint_count="2",
        ),
    ),
    Example(
        "branch-with-power-factor",
        "12 A at power factor 0.7 through 100 ft of 12 AWG in plastic conduit, exact beside approximate",
        "nec-chapter-9-table-9",
        _typed(
            plate_volts="120",
            run_amps="12",
            run_power_factor="0.7",
            branch_conductor="nec-9-pvc-12",
            branch_length=("100", "ft"),
            conductor_temperature="75",
        ),
    ),
    Example(
        "hot-plug",
        "A cord whose measured loop is far above what its size and length explain",
        "common-practice",
        _typed(
            plate_volts="230",
            run_amps="1.2",
            cord_conductor="iec-5-1.5",
            cord_length="10",
            cord_loop="0.52",
            joint_count="2",
        ),
    ),
)

CALCULATOR = Calculator(
    slug="voltage-drop",
    title="Voltage drop in cord and branch circuit",
    question="How many volts are lost on the way to the machine, running and at the start?",
    purpose="Tells whether cord, plugs, circuit or supply keep a machine from starting or running as it should.",
    does_not_tell="It does not say what current a wire may carry, and it does not see a dip that no meter caught.",
    level="helper",
    inputs=INPUTS,
    evaluate=evaluate,
    examples=EXAMPLES,
    limits=(
        "drop.run_warn",
        "drop.run_max",
        "start_volts.warn",
        "start_volts.min",
        "drop.loop_ratio",
        "drop.least_steps",
        "drop.joint_least",
        "drop.joint",
        "drop.joint_most",
        "supply.low",
        "supply.high",
    ),
    tables=(CORD_TABLE, BRANCH_TABLE),
    sources=(
        "iec-60228",
        "nec-chapter-9-table-8",
        "nec-chapter-9-table-8-memory",
        "nec-chapter-9-table-9",
        "nec-210-19",
        "iec-60364-5-52",
        "iec-60028",
        "ufc-3-520-01",
        "jcgm-100",
        "common-practice",
        "derived",
    ),
    hazards=("electric-shock", "hot-cord", "unexpected-restart", "flammable-refrigerant"),
    search_words=("extension cord", "volts lost", "low voltage", "dip", "long cord", "wire size", "AWG", "hums", "LRA"),
)
