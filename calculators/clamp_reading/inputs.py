"""What the clamp-reading form asks: what the clamp showed and where, the other loads there, the compressor."""

from __future__ import annotations

from calculators.inputs import Choice, ChoiceInput, Input, MeterInput, NumberInput

MOST_TURNS = 50
_READ, _OTHERS, _MOTOR = "Measured while running", "Other loads on the same conductor", "Compressor"

COMMON, CORD, WHOLE = "common", "cord", "whole"
LOAD_FIELDS = ("fan_amps", "heater_amps", "other_amps")

_READ_INPUTS: tuple[Input, ...] = (
    NumberInput(
        "shown_amps",
        "The clamp shows",
        ("A", "mA"),
        0.0,
        1000.0,
        meter="clamp",
        group=_READ,
        help="As it stands on the display, before anything is divided or taken off.",
        negative_hint="A minus sign means the clamp is on dc; set it to ac.",
    ),
    NumberInput(
        "turns",
        "Turns through the jaw",
        ("turn",),
        1.0,
        float(MOST_TURNS),
        default="1",
        whole=True,
        group=_READ,
        help="How often the conductor goes through the jaw. Straight through once is 1.",
    ),
    ChoiceInput(
        "clamp_place",
        "What is in the jaw",
        (
            Choice("", "not noted"),
            Choice(COMMON, "the lead to common: the compressor alone"),
            Choice(CORD, "one conductor of the cord, on a splitter lead"),
            Choice(WHOLE, "the whole cord"),
        ),
        "",
        group=_READ,
        help="One conductor only. Round a whole cord the current out and the current back cancel.",
    ),
    NumberInput(
        "zero_amps",
        "Shown with an empty jaw",
        ("A", "mA"),
        0.0,
        20.0,
        required=False,
        group=_READ,
        help="Jaw closed and empty, held where the reading is taken. Left empty it is taken as nothing.",
    ),
    NumberInput(
        "run_time",
        "Time since the start",
        ("min", "s", "h"),
        0.0,
        3.6e6,
        required=False,
        group=_READ,
        help="How long it had been running when the amps were read.",
    ),
    MeterInput(
        "clamp",
        "Clamp",
        "A",
        0.01,
        group=_READ,
        help="Copy yours from its sheet, for the range in use; many clamps are 2 % + 5 counts.",
    ),
)

_OTHER_INPUTS: tuple[Input, ...] = (
    NumberInput(
        "fan_amps",
        "Fan amps",
        ("A", "mA"),
        0.0,
        60.0,
        required=False,
        group=_OTHERS,
        help="All fans that ran while it was read. Enter 0 when every other load was off.",
    ),
    NumberInput(
        "fan_power_factor",
        "Power factor of the fans",
        ("ratio",),
        0.05,
        1.0,
        required=False,
        group=_OTHERS,
        help="Only when it is known; it narrows the answer.",
    ),
    NumberInput(
        "heater_amps",
        "Heater and filament lamp amps",
        ("A", "mA"),
        0.0,
        60.0,
        required=False,
        group=_OTHERS,
        help="Their power factor is 1.",
    ),
    NumberInput(
        "other_amps",
        "Amps of anything else",
        ("A", "mA"),
        0.0,
        60.0,
        required=False,
        group=_OTHERS,
        help="Board, LED lamp, fan with electronics: their current may lead or lag the volts.",
    ),
    NumberInput(
        "other_power_factor",
        "Power factor of anything else",
        ("ratio",),
        0.05,
        1.0,
        required=False,
        group=_OTHERS,
        help="Only when it is known; it narrows the answer.",
    ),
    NumberInput(
        "load_percent",
        "How good the amps of these loads are",
        ("percent",),
        0.0,
        100.0,
        default="20",
        group=_OTHERS,
        help="20 for figures off their plates; the clamp's own band when you measured each by itself.",
    ),
)

_MOTOR_INPUTS: tuple[Input, ...] = (
    ChoiceInput(
        "motor_type",
        "Motor type",
        (
            Choice("unknown", "not known"),
            Choice("resistance", "no run capacitor (RSIR, CSIR)"),
            Choice("run_capacitor", "with run capacitor (PSC, CSR, PTCSR)"),
        ),
        "unknown",
        group=_MOTOR,
        help="A motor without run capacitor always lags the volts; that narrows the answer.",
    ),
    NumberInput(
        "run_power_factor",
        "Running power factor",
        ("ratio",),
        0.05,
        1.0,
        required=False,
        group=_MOTOR,
        help="Of the compressor alone, by wattmeter or data sheet, when it is known.",
    ),
)

INPUTS: tuple[Input, ...] = (*_READ_INPUTS, *_OTHER_INPUTS, *_MOTOR_INPUTS)
