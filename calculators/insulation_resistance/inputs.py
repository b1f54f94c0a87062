"""What the insulation check asks: each pin to the shell, the whole machine, how it was tested, and the tester."""

from __future__ import annotations

from calculators.inputs import Choice, ChoiceInput, Input, MeterInput, NumberInput

PINS = ("1", "2", "3")
PLACES = tuple(f"pin{pin}" for pin in PINS)  # the fields that hold a pin's reading at the end of the test
WHOLE = "whole"
FIRST = "_first"  # a place's first reading has its own field, the place with this behind it
LARGEST = 1e13  # ohm; the top of what insulation testers show

_PINS, _WHOLE = "Each pin to the shell", "Whole machine from its plug"
_CONDITION, _TESTER = "How it was tested", "Insulation tester"
_UNITS = ("megohm", "kilohm", "gigohm", "ohm")
_NEGATIVE = "Ohms below zero mean voltage or charge on the part: prove it dead, discharge it, then test again."
_OVER_RANGE = "Enter OL when the tester shows over-range, and the top of its range below."


def _reading(field: str, label: str, text: str, group: str) -> NumberInput:
    return NumberInput(
        field,
        label,
        _UNITS,
        0.0,
        LARGEST,
        required=False,
        open_line=True,
        meter="insulation_tester",
        help=text,
        negative_hint=_NEGATIVE,
        group=group,
    )


def _place(field: str, words: str, group: str) -> tuple[NumberInput, NumberInput]:
    return (
        _reading(field, f"{words}, end of the test", f"What decides. {_OVER_RANGE}", group),
        _reading(
            f"{field}{FIRST}",
            f"{words}, first reading",
            "Taken earlier in the same test, on the same range. It shows whether the reading falls.",
            group,
        ),
    )


INPUTS: tuple[Input, ...] = (
    *(one for pin, field in zip(PINS, PLACES, strict=True) for one in _place(field, f"Pin {pin} to shell", _PINS)),
    *_place(WHOLE, "Whole machine", _WHOLE),
    NumberInput(
        "test_volts",
        "Test voltage",
        ("V",),
        0.1,
        5000.0,
        required=False,
        group=_CONDITION,
        help="Direct volts that the tester was set to. For an ohmmeter, its battery: 9 V or less.",
    ),
    ChoiceInput(
        "pin_state",
        "The pins while they were tested",
        (
            Choice("unknown", "not noted"),
            Choice("bare", "bare, clean and dry"),
            Choice("dirty", "damp, oily or dirty"),
            Choice("joined", "something still joined to them"),
        ),
        "unknown",
        group=_CONDITION,
        help="Bare: leads, start gear, capacitors and boards are all off.",
    ),
    ChoiceInput(
        "repeated",
        "Low reading seen again after cleaning and drying",
        (Choice("no", "not yet"), Choice("yes", "yes")),
        "no",
        group=_CONDITION,
        help="Only needed when a pin reads low: nobody gives up a compressor on one reading.",
    ),
    NumberInput(
        "shell_temperature",
        "Shell temperature",
        ("degC", "degF"),
        -10.0,
        120.0,
        required=False,
        group=_CONDITION,
        help="By probe or surface thermometer, when the readings were taken.",
    ),
    NumberInput(
        "plate_volts",
        "Plate voltage",
        ("V",),
        70.0,
        270.0,
        required=False,
        group=_CONDITION,
        help="Only for the current that the lowest reading lets through. Of a range such as 220-240 the upper end.",
    ),
    NumberInput(
        "top_range",
        "Top of the tester's range",
        _UNITS,
        1.0,
        LARGEST,
        required=False,
        group=_TESTER,
        help="Only needed with OL: the largest figure that the range in use can show.",
    ),
    MeterInput(
        "insulation_tester",
        "Insulation tester",
        "megohm",
        0.01,
        percent=5.0,
        counts=5.0,
        group=_TESTER,
        help="Copy it from the tester's own sheet, for the range in use.",
    ),
)
