"""What the discharge form asks: the capacitor, the tool, and what was measured before and after."""

from __future__ import annotations

from calculators.inputs import Choice, ChoiceInput, Input, MeterInput, NumberInput

MOST_VOLTS = 2000.0

_CAN, _AFTER, _METERS = "The capacitor and the tool", "Measured afterwards", "Meters"
_SIGN = "The sign only tells which way round the probes are."


def _dc_volts(name: str, label: str, note: str, group: str = _AFTER) -> NumberInput:
    return NumberInput(
        name,
        label,
        ("V", "kV"),
        -MOST_VOLTS,
        MOST_VOLTS,
        required=False,
        meter="voltmeter",
        group=group,
        help=f"{note} {_SIGN}",
    )


INPUTS: tuple[Input, ...] = (
    NumberInput(
        "capacitance",
        "Capacitance",
        ("uF", "nF"),
        0.01,
        5000.0,
        group=_CAN,
        help="As printed, the high end of a range. One section of a double can at a time.",
    ),
    _dc_volts("volts_before", "Dc volts before discharge", "Between its terminals. Left empty: the worst case.", _CAN),
    NumberInput(
        "rated_volts",
        "Printed volts",
        ("V",),
        50.0,
        1000.0,
        required=False,
        group=_CAN,
        help="Ac volts on the can. Needed where its dc volts were not measured.",
    ),
    NumberInput(
        "tool_ohms",
        "Measured resistance of the tool",
        ("kilohm", "ohm"),
        100.0,
        1e6,
        required=False,
        meter="ohmmeter",
        group=_CAN,
        help="From tip to tip, before use. Left empty, the handbook's tool is reckoned with.",
    ),
    NumberInput(
        "bleed_resistor",
        "Bleed resistor",
        ("kilohm", "ohm"),
        100.0,
        1e7,
        required=False,
        open_line=True,
        group=_CAN,
        help="By its marking; OL when there is none. It is never counted on.",
    ),
    ChoiceInput(
        "can",
        "Look of the can",
        (
            Choice("unknown", "not looked at yet"),
            Choice("sound", "whole, dry, not swollen"),
            Choice("damaged", "swollen, leaking, burnt, or its vent has opened"),
        ),
        "unknown",
        group=_CAN,
    ),
    NumberInput(
        "held_for",
        "Time the tool was held on",
        ("s", "min"),
        0.0,
        3600.0,
        required=False,
        group=_AFTER,
        help="Shows what volts should be left, so that an open tool is found.",
    ),
    _dc_volts("volts_after", "Dc volts after discharge", "Measured, with the tool off again."),
    _dc_volts("volts_after_wait", "Dc volts after the wait", "The second measurement; charge can come back."),
    NumberInput(
        "target_volts",
        "Time down to another voltage",
        ("V",),
        0.1,
        MOST_VOLTS,
        required=False,
        group=_AFTER,
        help="Only for a figure of your own. The hold time does not depend on it.",
    ),
    MeterInput("voltmeter", "Voltmeter", "V", 0.1, group=_METERS),
    MeterInput("ohmmeter", "Ohmmeter", "ohm", 0.1, group=_METERS),
)
