"""What the capacitor check asks: the print on the can, the reading off the circuit, and the live reading."""

from __future__ import annotations

from calculators.inputs import Choice, ChoiceInput, Input, MeterInput, NumberInput

_FIRST, _CAN, _OHMS = "The capacitor, off the circuit", "More on the can", "Ohms, off the circuit"
_LIVE, _METERS = "While it runs, read by a technician", "Meters"
_CHARGED = "A minus sign or a drifting figure means charge: discharge it, measure volts twice, then read again."

_FIRST_INPUTS: tuple[Input, ...] = (
    ChoiceInput(
        "kind",
        "Kind of capacitor",
        (
            Choice("", "choose"),
            Choice("start", "start capacitor: electrolytic, in circuit for seconds"),
            Choice("run", "run capacitor: film, in circuit all the time"),
        ),
        "",
        group=_FIRST,
        help="Two values on one can are two run capacitors: check each section to the common terminal by itself.",
    ),
    NumberInput(
        "marked",
        "Marked value",
        ("uF", "nF"),
        0.1,
        2000.0,
        group=_FIRST,
        help="As printed. For a range such as 88-108 its low end.",
    ),
    NumberInput(
        "marked_high",
        "High end of a marked range",
        ("uF", "nF"),
        0.1,
        2000.0,
        required=False,
        group=_FIRST,
        help="Only where the can prints a range.",
    ),
    NumberInput(
        "tolerance",
        "Printed tolerance",
        ("percent",),
        0.0,
        50.0,
        required=False,
        group=_FIRST,
        help="The 5 of ±5 %; the downward one where the two differ. Leave it empty where none is printed.",
    ),
    NumberInput(
        "measured",
        "Measured capacitance",
        ("uF", "nF"),
        0.0,
        5000.0,
        required=False,
        open_line=True,
        meter="capacitance_meter",
        negative_hint=_CHARGED,
        group=_FIRST,
        help="By capacitance meter, discharged and proved. Read it twice.",
    ),
    ChoiceInput(
        "connection",
        "How it was connected",
        (
            Choice("unknown", "not said yet"),
            Choice("alone", "alone: its leads off, at most its own bleed resistor across it"),
            Choice("in_circuit", "still joined to a relay, a PTC, a winding or a board"),
        ),
        "unknown",
        group=_FIRST,
    ),
)

_CAN_INPUTS: tuple[Input, ...] = (
    NumberInput(
        "tolerance_above",
        "Printed tolerance upward",
        ("percent",),
        0.0,
        50.0,
        required=False,
        group=_CAN,
        help="Only where it differs from the downward one, as in -0/+20 %.",
    ),
    NumberInput(
        "rated_volts",
        "Printed volts",
        ("V",),
        50.0,
        1000.0,
        required=False,
        group=_CAN,
        help="Ac volts on the can.",
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
)

_OHM_INPUTS: tuple[Input, ...] = (
    NumberInput(
        "bleed_resistor",
        "Bleed resistor",
        ("kilohm", "ohm"),
        100.0,
        1e7,
        required=False,
        open_line=True,
        group=_OHMS,
        help="By its marking. OL when there is none, or when one end of it is lifted.",
    ),
    NumberInput(
        "ohms",
        "Settled ohms across it",
        ("ohm", "kilohm", "megohm"),
        0.0,
        1e9,
        required=False,
        open_line=True,
        meter="ohmmeter",
        negative_hint=_CHARGED,
        group=_OHMS,
        help="What the ohmmeter stands at when it has stopped climbing.",
    ),
    NumberInput(
        "case_ohms",
        "Ohms to its metal case",
        ("megohm", "kilohm", "ohm"),
        0.0,
        1e9,
        required=False,
        open_line=True,
        meter="ohmmeter",
        negative_hint=_CHARGED,
        group=_OHMS,
        help="The lower of the two terminals. Leave it empty for a plastic can.",
    ),
)

_LIVE_INPUTS: tuple[Input, ...] = (
    NumberInput(
        "capacitor_amps",
        "Amps through the capacitor",
        ("A", "mA"),
        0.0,
        100.0,
        required=False,
        meter="clamp",
        group=_LIVE,
        help="Clamp round one lead of this capacitor only, brought out dead, covers on.",
        negative_hint="A minus sign means the clamp is on dc; set it to ac.",
    ),
    NumberInput(
        "capacitor_volts",
        "Volts across the capacitor",
        ("V",),
        20.0,
        1000.0,
        required=False,
        meter="voltmeter",
        group=_LIVE,
        help="Ac, between its own two terminals. More than the supply is usual.",
    ),
    ChoiceInput(
        "supply_frequency",
        "Supply frequency",
        (Choice("", "not read"), Choice("60", "60 Hz"), Choice("50", "50 Hz")),
        "",
        group=_LIVE,
        help="60 Hz or 50 Hz by country; a generator or inverter has to be measured.",
    ),
    NumberInput(
        "frequency_band",
        "Frequency good to within",
        ("percent",),
        0.0,
        2.0,
        default="1",
        group=_LIVE,
        help="1 % covers a public supply. A measured frequency is known better.",
    ),
)

INPUTS: tuple[Input, ...] = (
    *_FIRST_INPUTS,
    *_CAN_INPUTS,
    *_OHM_INPUTS,
    *_LIVE_INPUTS,
    MeterInput(
        "capacitance_meter",
        "Capacitance meter",
        "uF",
        0.1,
        2.0,
        5.0,
        group=_METERS,
        help="Copy it from the meter's sheet, for the range in use. A display of 4.71 has a resolution of 0.01.",
    ),
    MeterInput("ohmmeter", "Ohmmeter", "ohm", 0.1, group=_METERS),
    MeterInput(
        "clamp", "Clamp", "A", 0.01, group=_METERS, help="Copy it from its sheet; many clamps are 2 % + 5 counts."
    ),
    MeterInput("voltmeter", "Voltmeter", "V", 0.1, group=_METERS),
)
