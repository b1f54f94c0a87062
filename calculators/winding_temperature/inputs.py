"""What the winding-temperature check asks: the cold reading, the hot readings with their times, motor and meters."""

from __future__ import annotations

from calculators.inputs import Choice, ChoiceInput, Input, MeterInput, NumberInput

MOST_READINGS = 8
HOT = tuple(f"hot{number}" for number in range(1, MOST_READINGS + 1))
LONGEST = 600.0  # s; beyond any time that is still reckoned back from
OHMS, TIME = "_ohms", "_time"  # a hot reading has two fields, its name with one of these behind it

_COLD, _HOT = "Cold, before the run", "Hot, after switch-off"
_MOTOR, _METERS = "Motor", "Meters"
_NEGATIVE = "Ohms below zero mean voltage or charge on the part: prove it dead, discharge it, then read again."


def _ohms(name: str, label: str, text: str, group: str, required: bool = False) -> NumberInput:
    return NumberInput(
        name,
        label,
        ("ohm", "milliohm"),
        0.0,
        300.0,
        required=required,
        open_line=True,
        meter="ohmmeter",
        help=text,
        negative_hint=_NEGATIVE,
        group=group,
    )


def _hot(name: str, number: int) -> tuple[NumberInput, NumberInput]:
    first = number == 1
    text = "The same two pins as cold, by the same leads." if first else "Only where it was taken."
    return (
        NumberInput(
            f"{name}{TIME}",
            f"Hot reading {number}: time since switch-off",
            ("s", "min"),
            0.0,
            LONGEST,
            required=first,
            help="From the moment the power went off." if first else "Only where it was taken.",
            group=_HOT,
        ),
        _ohms(f"{name}{OHMS}", f"Hot reading {number}", text, _HOT, required=first),
    )


INPUTS: tuple[Input, ...] = (
    _ohms(
        "cold_ohms",
        "Cold reading",
        "Between two pins with nothing else on them, the motor as cool as the room.",
        _COLD,
        required=True,
    ),
    NumberInput(
        "cold_temperature",
        "Temperature at the cold reading",
        ("degC", "degF"),
        -10.0,
        60.0,
        help="Of the shell, by probe, when it agrees with the room.",
        group=_COLD,
    ),
    NumberInput(
        "hours_rest",
        "Time since it last ran or tripped",
        ("h", "min"),
        0.0,
        3.6e7,
        required=False,
        help="Before the cold reading. A winding that was still warm makes the result too low.",
        group=_COLD,
    ),
    NumberInput(
        "lead",
        "Test leads shorted together",
        ("ohm", "milliohm"),
        0.0,
        2.0,
        required=False,
        meter="ohmmeter",
        negative_hint=_NEGATIVE,
        help="What the meter shows with its probes touching. Enter 0 when the meter has been zeroed on them.",
        group=_COLD,
    ),
    *(one for number, name in enumerate(HOT, start=1) for one in _hot(name, number)),
    NumberInput(
        "end_temperature",
        "Room temperature at the end of the run",
        ("degC", "degF"),
        -10.0,
        60.0,
        required=False,
        help="Only for the rise over the room; it changes nothing about the temperature itself.",
        group=_HOT,
    ),
    ChoiceInput(
        "metal",
        "Winding metal",
        (
            Choice("unknown", "not known"),
            Choice("copper", "copper"),
            Choice("aluminium", "aluminium"),
        ),
        "unknown",
        help="Not known is reckoned as copper, the hotter of the two, and its band reaches down to aluminium.",
        group=_MOTOR,
    ),
    ChoiceInput(
        "insulation",
        "Winding insulation",
        (
            Choice("unknown", "not known"),
            Choice("synthetic", "synthetic"),
            Choice("cellulosic", "cellulosic"),
        ),
        "unknown",
        help="By the motor's data. Only for the appliance standard's own limits.",
        group=_MOTOR,
    ),
    ChoiceInput(
        "same_meter",
        "Cold and hot by the same meter on the same range",
        (Choice("no", "no, or not noted"), Choice("yes", "yes")),
        "no",
        help="Yes: its percentage error is the same in both readings and cancels in their ratio. Its counts do not.",
        group=_METERS,
    ),
    MeterInput("ohmmeter", "Ohmmeter", "ohm", 0.01, group=_METERS),
    NumberInput(
        "thermometer_band",
        "Thermometer good to within",
        ("K", "degF_diff"),
        0.0,
        20.0,
        default="2",
        help="How far the cold temperature may be from the winding's own.",
        group=_METERS,
    ),
)
