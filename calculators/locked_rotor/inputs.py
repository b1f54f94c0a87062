"""What the locked-rotor check asks: the plate, what was checked before, one or two short attempts, and the meters."""

from __future__ import annotations

from calculators.inputs import Choice, ChoiceInput, Input, MeterInput, NumberInput, TableInput

CODE_LETTERS = "locked-rotor-code-letters"
SINGLE_PHASE = "locked-rotor-single-phase"

_HERTZ = (Choice("60", "60 Hz"), Choice("50", "50 Hz"))
_SMALLER = ("1/20", "1/15", "1/12", "1/10", "1/8", "1/6", "1/5", "1/4", "1/3", "3/8")
_IN_THE_TABLE = ("1/2", "3/4", "1", "1-1/2", "2", "3", "5")
_PLATE, _BEFORE, _TRIED, _METERS = (
    "Rating plate",
    "Before the first attempt",
    "Attempts, made by a technician",
    "Meters",
)

_PLATE_INPUTS: tuple[Input, ...] = (
    NumberInput(
        "plate_volts",
        "Plate voltage",
        ("V",),
        70.0,
        270.0,
        group=_PLATE,
        help="As printed on the compressor. Of a range such as 220-240, the low end.",
    ),
    NumberInput(
        "plate_volts_high",
        "Plate voltage, high end of a range",
        ("V",),
        70.0,
        270.0,
        required=False,
        group=_PLATE,
        help="Only where the plate prints a range. Both ends are then reckoned with.",
    ),
    NumberInput(
        "locked_rotor_amps",
        "Locked-rotor amps (LRA)",
        ("A",),
        0.3,
        300.0,
        required=False,
        group=_PLATE,
        help="From the compressor's plate. Without it no rotor is judged.",
    ),
    ChoiceInput(
        "plate_frequency",
        "Plate frequency",
        (Choice("", "not read"), *_HERTZ, Choice("50/60", "50 and 60 Hz")),
        "",
        group=_PLATE,
        help="For a plate with both, take the figures printed for your supply.",
    ),
    ChoiceInput(
        "supply_frequency",
        "Supply frequency",
        (Choice("", "not read"), *_HERTZ),
        "",
        group=_PLATE,
        help="60 Hz or 50 Hz by country; a generator or inverter has to be measured.",
    ),
    TableInput(
        "code_letter",
        "Code letter",
        CODE_LETTERS,
        group=_PLATE,
        help="Of the motor, not of the compressor's model. There is no I, O or Q. It needs the horsepower.",
    ),
    ChoiceInput(
        "horsepower",
        "Trade horsepower",
        (Choice("", "not printed"), *(Choice(size, f"{size} hp") for size in (*_SMALLER, *_IN_THE_TABLE))),
        "",
        group=_PLATE,
        help="A trade size. Weak evidence.",
    ),
    ChoiceInput(
        "start_capacitor",
        "Start capacitor",
        (
            Choice("", "not known"),
            Choice("none", "none (RSIR, PSC, PTC with run capacitor)"),
            Choice("fitted", "fitted (CSIR, CSR)"),
            Choice("renewed", "fitted, and a new one of the rated value was in for the second attempt"),
        ),
        "",
        help="A worn one makes a good motor hum, so the second attempt is made with a new one.",
        group=_PLATE,
    ),
)

_BEFORE_INPUTS: tuple[Input, ...] = (
    ChoiceInput(
        "dead_tests",
        "Dead tests",
        (
            Choice("", "not all done, or not all good"),
            Choice("good", "all done and good, known-good start device fitted"),
        ),
        "",
        group=_BEFORE,
        help="Windings, shell, overload, wiring, start device, capacitors.",
    ),
    ChoiceInput(
        "pressures",
        "Pressures in the circuit",
        (
            Choice("", "not known to be equal, or rested for minutes only"),
            Choice("equal", "equal: off overnight, or proved by a licensed person"),
        ),
        "",
        group=_BEFORE,
        help="Some minutes prove nothing with a blocked capillary or an expansion valve.",
    ),
)

_TRIED_INPUTS: tuple[Input, ...] = (
    NumberInput(
        "stalled_amps",
        "Amps while it hums",
        ("A",),
        0.05,
        500.0,
        required=False,
        meter="clamp",
        group=_TRIED,
        help="First attempt: in the common lead, held by the clamp's peak or inrush hold.",
    ),
    NumberInput(
        "stalled_volts",
        "Volts at that moment",
        ("V",),
        1.0,
        270.0,
        required=False,
        meter="voltmeter",
        group=_TRIED,
        help="First attempt: the lowest volts, held by the meter, at the machine.",
    ),
    NumberInput(
        "second_amps",
        "Amps while it hums, second attempt",
        ("A",),
        0.05,
        500.0,
        required=False,
        meter="clamp",
        group=_TRIED,
    ),
    NumberInput(
        "second_volts",
        "Volts at that moment, second attempt",
        ("V",),
        1.0,
        270.0,
        required=False,
        meter="voltmeter",
        group=_TRIED,
    ),
    ChoiceInput(
        "start_lead",
        "Current in the start lead",
        (
            Choice("", "not looked at"),
            Choice("seen", "seen in every attempt"),
            Choice("none", "none, or not in every attempt"),
        ),
        "",
        group=_TRIED,
        help="By a second clamp on the lead to the start pin.",
    ),
    ChoiceInput(
        "turned",
        "Did the motor turn?",
        (
            Choice("", "not noted"),
            Choice("no", "in no attempt"),
            Choice("first", "it started at the first attempt"),
            Choice("second", "it started at the second attempt only"),
        ),
        "",
        group=_TRIED,
    ),
    NumberInput(
        "attempts",
        "Attempts made",
        ("count",),
        0.0,
        50.0,
        required=False,
        whole=True,
        group=_TRIED,
        help="All on this visit, with the ones that were not measured.",
    ),
    NumberInput(
        "longest_attempt",
        "Longest attempt",
        ("s",),
        0.0,
        3600.0,
        required=False,
        group=_TRIED,
        help="From power on to power off, by a watch.",
    ),
    NumberInput(
        "rest_between",
        "Rest before the last attempt",
        ("min", "s", "h"),
        0.0,
        3.6e6,
        required=False,
        group=_TRIED,
        help="Without power, since the attempt before.",
    ),
)

INPUTS: tuple[Input, ...] = (
    *_PLATE_INPUTS,
    *_BEFORE_INPUTS,
    *_TRIED_INPUTS,
    MeterInput(
        "clamp",
        "Clamp",
        "A",
        0.01,
        group=_METERS,
        help="Copy yours from its sheet, for inrush or peak hold; many clamps are 2 % + 5 counts.",
    ),
    MeterInput("voltmeter", "Voltmeter", "V", 0.1, group=_METERS),
)
