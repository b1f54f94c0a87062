"""What the running-power form asks: plates, what is known of the watts, and what was measured in one moment."""

from __future__ import annotations

from dataclasses import replace

from calculators.expected_amps.inputs import INPUTS as EXPECTED_AMPS_INPUTS
from calculators.inputs import Choice, ChoiceInput, Input, MeterInput, NumberInput

_PLATE, _DATA, _READ = "Rating plates", "What the watts should be", "Measured while running"
_LEAD = "Start lead and windings, where they were measured"
_SHARED = {one.name: one for one in EXPECTED_AMPS_INPUTS}

RESISTANCE, RUN_CAPACITOR = "resistance", "run_capacitor"
ORDINARY, LOW_FACTOR = "ordinary", "low_power_factor"
NOT_COMPARED, ON_DATA, RUN_LOW = "", "on_data", "run_low"
RELAY, PTC = "relay", "ptc"


def _shared(name: str, group: str, words: str | None = None) -> Input:
    """An input that the expected-amps form has too, with its name, label, units and range."""
    one = _SHARED[name]
    return replace(one, group=group) if words is None else replace(one, group=group, help=words)


_PLATE_INPUTS: tuple[Input, ...] = (
    _shared("plate_volts", _PLATE),
    _shared("plate_frequency", _PLATE),
    _shared(
        "motor_type", _PLATE, "A run capacitor is a film capacitor that stays in circuit. It sets the power factor."
    ),
)

_DATA_INPUTS: tuple[Input, ...] = (
    NumberInput(
        "map_watts",
        "Watts from the performance map",
        ("W", "kW"),
        5.0,
        10000.0,
        required=False,
        group=_DATA,
        help="Read at the evaporating and condensing temperatures you measured, inside the map only.",
    ),
    _shared("watts", _DATA, "Input watts of the compressor by its data sheet, not defrost or heater watts."),
    NumberInput(
        "record_watts",
        "Watts in an earlier record",
        ("W", "kW"),
        5.0,
        10000.0,
        required=False,
        group=_DATA,
        help="Of this very machine when it was in order, at the same settled condition.",
    ),
    _shared("power_factor", _DATA, "Where the sheet or the record has it; otherwise the usual one of the motor type."),
    NumberInput(
        "expected_amps",
        "Expected running amps",
        ("A", "mA"),
        0.05,
        60.0,
        required=False,
        group=_DATA,
        help="By the calculator of that name, or an earlier record. It tells whether the amps are up.",
    ),
    NumberInput(
        "expected_amps_percent",
        "Half-band of the expected amps",
        ("percent",),
        0.0,
        50.0,
        default="10",
        group=_DATA,
        help="As that calculator gives it.",
    ),
    *(
        _shared(name, _DATA)
        for name in (
            "data_sheet_evaporating",
            "evaporating_now",
            "data_sheet_condensing",
            "condensing_now",
            "refrigerant",
        )
    ),
)

_READ_INPUTS: tuple[Input, ...] = (
    NumberInput(
        "running_watts",
        "Running watts",
        ("W", "kW"),
        0.0,
        20000.0,
        meter="wattmeter",
        group=_READ,
        help="W on the display, not VA. Steady for some minutes.",
        negative_hint="A minus sign means that clamp or voltage leads are the wrong way round.",
    ),
    NumberInput(
        "other_watts",
        "Watts of other loads in it",
        ("W", "kW"),
        0.0,
        20000.0,
        required=False,
        group=_READ,
        help="Fans, lamp, heaters that ran while it was read. Watts add up plainly, unlike amps.",
    ),
    _shared("running_volts", _READ),
    _shared(
        "running_amps", _READ, "Of the compressor alone, in the same moment. Without them there is no power factor."
    ),
    _shared("run_time", _READ, "How long it had been running when the watts were read."),
    _shared("supply_frequency", _READ),
    ChoiceInput(
        "wattmeter_kind",
        "What the wattmeter's sheet covers",
        (
            Choice(ORDINARY, "nothing said about low power factor"),
            Choice(LOW_FACTOR, "states its accuracy at low power factor and few watts"),
        ),
        ORDINARY,
        group=_READ,
        help="Ordinary wattmeters are poor at few watts and low power factor.",
    ),
    MeterInput(
        "wattmeter",
        "Wattmeter",
        "W",
        0.1,
        percent=2.0,
        group=_READ,
        help="Copy yours from its sheet; plug-in meters are 1 to 2 %.",
    ),
    _shared("voltmeter", _READ),
    _shared("clamp", _READ),
)

_LEAD_INPUTS: tuple[Input, ...] = (
    NumberInput(
        "start_lead_amps",
        "Amps in the start lead",
        ("A", "mA"),
        0.0,
        300.0,
        required=False,
        meter="clamp",
        group=_LEAD,
        help="On a lead brought out dead, the cover back on, after the start is over.",
        negative_hint="A minus sign means the clamp is on dc; set it to ac.",
    ),
    NumberInput(
        "start_lead_first",
        "Amps in the start lead at the start",
        ("A",),
        0.05,
        300.0,
        required=False,
        meter="clamp",
        group=_LEAD,
        help="Only for a PTC: the highest that the clamp held in the first second.",
    ),
    ChoiceInput(
        "start_device",
        "Start device",
        (
            Choice("", "not known"),
            Choice(RELAY, "relay: its contact opens"),
            Choice(PTC, "PTC: it stays hot on a little current"),
        ),
        "",
        group=_LEAD,
        help="What feeds the start winding.",
    ),
    ChoiceInput(
        "winding_ohms",
        "Winding ohms against the data",
        (
            Choice(NOT_COMPARED, "not compared"),
            Choice(ON_DATA, "both on the data at the same temperature"),
            Choice(RUN_LOW, "run winding low, start winding on the data"),
        ),
        NOT_COMPARED,
        group=_LEAD,
        help="As winding identification found it, dead, corrected to one temperature.",
    ),
)

INPUTS: tuple[Input, ...] = (*_PLATE_INPUTS, *_DATA_INPUTS, *_READ_INPUTS, *_LEAD_INPUTS)
