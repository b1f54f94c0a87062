"""What the supply check asks: plate, idle outlet and its earth, start and run, a known load, and the meters."""

from __future__ import annotations

from calculators.inputs import Choice, ChoiceInput, Input, MeterInput, NumberInput

_PLATE, _IDLE, _START = "Rating plate", "Outlet, nothing on it", "Start and run"
_STIFF, _METERS = "Known load, to tell how stiff the supply is", "Meters"
_HERTZ = (Choice("60", "60 Hz"), Choice("50", "50 Hz"))

_PLATE_INPUTS: tuple[Input, ...] = (
    NumberInput(
        "plate_volts",
        "Plate voltage",
        ("V",),
        70.0,
        270.0,
        group=_PLATE,
        help="As printed on the plate. Of a range such as 220-240, the low end.",
    ),
    NumberInput(
        "plate_volts_high",
        "Plate voltage, high end of a range",
        ("V",),
        70.0,
        270.0,
        required=False,
        group=_PLATE,
        help="Only where the plate prints a range. The low end then judges the least volts, the high end the most.",
    ),
    ChoiceInput(
        "plate_frequency",
        "Plate frequency",
        (Choice("", "not read"), *_HERTZ, Choice("50/60", "50 and 60 Hz")),
        "",
        group=_PLATE,
    ),
    ChoiceInput(
        "supply_frequency",
        "Supply frequency",
        (Choice("", "not read"), *_HERTZ),
        "",
        group=_PLATE,
        help="60 Hz or 50 Hz by country; a generator or inverter has to be measured.",
    ),
    ChoiceInput(
        "system_volts",
        "Supply system",
        (
            Choice("", "not known"),
            Choice("120", "120 V, line and neutral"),
            Choice("208", "208 V, two lines of a three-phase supply"),
            Choice("230", "230 V, public supply"),
            Choice("240", "240 V, two lines of 120 V"),
        ),
        "",
        group=_PLATE,
        help="What the outlet is meant to give, whatever it reads today.",
    ),
)

_IDLE_INPUTS: tuple[Input, ...] = (
    NumberInput(
        "idle_volts",
        "Idle volts",
        ("V",),
        70.0,
        270.0,
        meter="voltmeter",
        group=_IDLE,
        help=(
            "Line to neutral, or line to line, with the machine off. An outlet that reads next to nothing is dead, "
            "not low: that is no case for this check."
        ),
    ),
    NumberInput(
        "line_earth_volts",
        "Line to earth, idle",
        ("V",),
        0.0,
        500.0,
        required=False,
        meter="voltmeter",
        group=_IDLE,
        help="The first pole to earth, where no pole is marked as line.",
    ),
    NumberInput(
        "neutral_earth_idle",
        "Neutral to earth, idle",
        ("V",),
        0.0,
        500.0,
        required=False,
        meter="voltmeter",
        group=_IDLE,
        help="The second pole to earth, where no pole is marked as neutral.",
    ),
    ChoiceInput(
        "polarity",
        "Poles of the outlet",
        (
            Choice("fixed", "line and neutral have fixed places"),
            Choice("reversible", "line and neutral, the plug can be turned round"),
            Choice("two_lines", "two lines, no neutral"),
        ),
        "fixed",
        group=_IDLE,
    ),
    ChoiceInput(
        "earth_test",
        "Earth, by a low-ohm or loop test",
        (Choice("", "not tested"), Choice("good", "tested, good"), Choice("bad", "tested, not good")),
        "",
        group=_IDLE,
        help="By a licensed person or a tester made for it. A plug-in outlet tester does not measure it.",
    ),
)

_START_INPUTS: tuple[Input, ...] = (
    NumberInput(
        "lowest_volts",
        "Lowest volts during the start",
        ("V",),
        1.0,
        270.0,
        required=False,
        meter="voltmeter",
        group=_START,
        help="At the machine's plug, as the meter's MIN/MAX hold kept it.",
    ),
    NumberInput(
        "hold_time",
        "Shortest dip that the meter holds",
        ("ms", "s"),
        0.0001,
        60.0,
        required=False,
        group=_START,
        help="From the meter's sheet, for MIN/MAX. Leave it empty when the meter has no MIN/MAX.",
    ),
    NumberInput(
        "inrush_amps",
        "Amps at the start, held by the clamp",
        ("A",),
        0.1,
        500.0,
        required=False,
        meter="clamp",
        group=_START,
        help="Only by a clamp with peak or inrush hold, in the same start.",
    ),
    NumberInput(
        "running_volts",
        "Running volts",
        ("V",),
        70.0,
        270.0,
        required=False,
        meter="voltmeter",
        group=_START,
        help="At the machine's plug, while it runs steadily.",
    ),
    NumberInput(
        "neutral_earth_running",
        "Neutral to earth, running",
        ("V",),
        0.0,
        500.0,
        required=False,
        meter="voltmeter",
        group=_START,
    ),
    NumberInput(
        "second_lowest_volts",
        "Lowest volts at a second place",
        ("V",),
        1.0,
        270.0,
        required=False,
        meter="voltmeter",
        group=_START,
        help="The same machine, rested, with the same meter: straight at the wall, or on another circuit.",
    ),
    ChoiceInput(
        "second_place",
        "The second place",
        (Choice("circuit", "an outlet of another circuit"), Choice("wall", "the wall, without the cord")),
        "circuit",
        group=_START,
    ),
)

_STIFF_INPUTS: tuple[Input, ...] = (
    NumberInput(
        "loaded_volts",
        "Volts with the known load",
        ("V",),
        70.0,
        270.0,
        required=False,
        meter="voltmeter",
        group=_STIFF,
        help="At the same outlet and right after the idle volts, with a kettle or iron on.",
    ),
    NumberInput(
        "load_amps",
        "Amps of the known load",
        ("A",),
        0.05,
        100.0,
        required=False,
        meter="clamp",
        group=_STIFF,
        help="One conductor in the clamp, at the time of the loaded volts.",
    ),
    NumberInput(
        "start_amps",
        "Start amps (LRA)",
        ("A",),
        0.1,
        300.0,
        required=False,
        group=_STIFF,
        help="Locked-rotor amps of the plate, at the plate voltage.",
    ),
    NumberInput(
        "start_power_factor",
        "Start power factor",
        ("ratio",),
        0.05,
        1.0,
        required=False,
        group=_STIFF,
        help="Leave it empty when nobody has measured it: the volts foretold are then the least they can be.",
    ),
)

INPUTS: tuple[Input, ...] = (
    *_PLATE_INPUTS,
    *_IDLE_INPUTS,
    *_START_INPUTS,
    *_STIFF_INPUTS,
    MeterInput("voltmeter", "Voltmeter", "V", 0.1, group=_METERS),
    MeterInput("clamp", "Clamp", "A", 0.01, group=_METERS),
)
