"""What the start-device check asks for: the kind, its dead readings, its figures, and what happened at a start."""

from __future__ import annotations

from calculators.inputs import Choice, ChoiceInput, Input, MeterInput, NumberInput, TableInput

PTC_TABLE = "ptc_cold_ohms"
_DEVICE, _RELAY, _PTC, _POTENTIAL = "The device", "Current relay, dead", "PTC, dead", "Potential relay, dead"
_FIGURES, _START, _METERS = "Figures of relay and motor", "A start, covers on", "Meters"
_NEGATIVE = "Ohms below zero mean voltage or charge on the part: prove it dead, discharge it, then read again."
_NO_YES = (Choice("no", "not yet"), Choice("yes", "yes, and it reads the same"))


def _ohms(name: str, label: str, group: str, help_text: str) -> NumberInput:
    return NumberInput(
        name,
        label,
        ("ohm", "kilohm", "megohm", "milliohm"),
        0.0,
        1e9,
        required=False,
        open_line=True,
        meter="ohmmeter",
        negative_hint=_NEGATIVE,
        group=group,
        help=help_text,
    )


def _amps(name: str, label: str, help_text: str, *, meter: str | None = None, least: float = 0.05) -> NumberInput:
    return NumberInput(
        name,
        label,
        ("A", "mA"),
        least,
        300.0,
        required=False,
        meter=meter,
        group=_START if meter else _FIGURES,
        help=help_text,
    )


def _volts(name: str, label: str, help_text: str, *, meter: str | None = None, most: float = 1000.0) -> NumberInput:
    return NumberInput(
        name,
        label,
        ("V",),
        1.0,
        most,
        required=False,
        meter=meter,
        group=_START if meter else _FIGURES,
        help=help_text,
    )


_DEVICE_INPUTS: tuple[Input, ...] = (
    ChoiceInput(
        "kind",
        "Kind of start device",
        (
            Choice("current", "current relay (a coil, a contact that falls open)"),
            Choice("ptc", "PTC (a disc that gets hot)"),
            Choice("potential", "potential relay (terminals 1, 2 and 5)"),
        ),
        "current",
        group=_DEVICE,
        help="By its marking and its terminals.",
    ),
    ChoiceInput(
        "marking",
        "Part marking against the motor's list",
        (Choice("unknown", "not compared"), Choice("fits", "the listed part"), Choice("differs", "another part")),
        "unknown",
        group=_DEVICE,
        help="Each motor has its own relay; one that only looks the same may never close, or never open.",
    ),
    ChoiceInput(
        "look",
        "Looked at and shaken",
        (
            Choice("unknown", "not yet"),
            Choice("whole", "whole and dry; a PTC quiet, a plunger free"),
            Choice("rattles", "a PTC that rattles"),
            Choice("stuck", "a plunger that does not move"),
            Choice("burnt", "cracked, burnt, brown or wet"),
        ),
        "unknown",
        group=_DEVICE,
        help="A plunger that clicks is how a current relay sounds. A PTC that rattles is broken.",
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
        group=_DEVICE,
        help="What the meter shows with its probes touching. Enter 0 when the meter has been zeroed on them.",
    ),
    ChoiceInput(
        "repeated",
        "Read again on clean contacts, with other probes, meter proved on a known resistor",
        _NO_YES,
        "no",
        group=_DEVICE,
        help="Only needed before anything is condemned.",
    ),
)

_RELAY_INPUTS: tuple[Input, ...] = (
    _ohms("relay_coil_ohms", "Coil of the current relay", _RELAY, "From the line socket to the run socket."),
    _ohms(
        "contact_upright_ohms",
        "Contact, upright as mounted",
        _RELAY,
        "From line socket to start socket.",
    ),
    _ohms("contact_inverted_ohms", "Contact, upside down", _RELAY, "The weight of the plunger closes it."),
    NumberInput(
        "turns",
        "Times it was turned over",
        ("count",),
        0.0,
        100.0,
        required=False,
        whole=True,
        group=_RELAY,
        help="Upright and upside down again is once.",
    ),
    NumberInput(
        "sticks",
        "Times it stuck, open or closed",
        ("count",),
        0.0,
        100.0,
        required=False,
        whole=True,
        group=_RELAY,
        help="0 when it never stuck. One stick is a fault.",
    ),
)

_PTC_INPUTS: tuple[Input, ...] = (
    _ohms("ptc_ohms", "Across the disc", _PTC, "Between its run and start sockets, off the pins."),
    _ohms("ptc_ohms_again", "Across the disc, read again later", _PTC, "After the wait that the page gives."),
    NumberInput(
        "ptc_temperature",
        "Temperature of the disc",
        ("degC", "degF"),
        -20.0,
        250.0,
        required=False,
        group=_PTC,
        help="By a surface probe on the device.",
    ),
    NumberInput(
        "thermometer_band",
        "Thermometer good to within",
        ("K", "degF_diff"),
        0.0,
        20.0,
        default="2",
        group=_PTC,
        help="How far the reading may be from the disc's own temperature.",
    ),
    NumberInput(
        "ptc_rest",
        "Time without power before it was read",
        ("min", "h", "s"),
        0.0,
        3.6e7,
        required=False,
        group=_PTC,
        help="A disc is hot for minutes after every run.",
    ),
    TableInput(
        "ptc_class",
        "Voltage class",
        PTC_TABLE,
        group=_PTC,
        help="From memory: the part's own data overrides it.",
    ),
    NumberInput(
        "ptc_data_least",
        "Least cold ohms by the part's data",
        ("ohm",),
        0.1,
        1000.0,
        required=False,
        group=_PTC,
        help="Enter both ends, or neither.",
    ),
    NumberInput(
        "ptc_data_most",
        "Most cold ohms by the part's data",
        ("ohm",),
        0.1,
        1000.0,
        required=False,
        group=_PTC,
        help="For 25 Ω ±20 % enter 20 and 30.",
    ),
)

_POTENTIAL_INPUTS: tuple[Input, ...] = (
    _ohms("contact_ohms", "Contact 1 to 2, at rest", _POTENTIAL, "Every lead off, capacitors discharged."),
    _ohms("coil_ohms", "Coil 2 to 5", _POTENTIAL, "Thousands of ohms on a whole one."),
    ChoiceInput(
        "position",
        "How it is mounted",
        (Choice("unknown", "not noted"), Choice("arrow", "as its arrow says"), Choice("other", "another way")),
        "unknown",
        group=_POTENTIAL,
        help="Its figures hold for one position.",
    ),
)

_FIGURE_INPUTS: tuple[Input, ...] = (
    NumberInput(
        "plate_volts",
        "Plate voltage",
        ("V",),
        70.0,
        270.0,
        required=False,
        group=_FIGURES,
        help="As printed on the compressor.",
    ),
    _amps("locked_rotor_amps", "Locked-rotor amps (LRA)", "From the compressor's plate.", least=0.3),
    _amps("run_amps", "Running amps", "Measured or expected, of the compressor alone."),
    _amps("pick_up_amps", "Pick-up amps of the current relay", "From its data."),
    _amps("drop_out_amps", "Drop-out amps of the current relay", "From its data."),
    _volts("pick_up_volts", "Pick-up volts of the potential relay", "From its marking; the larger of two."),
    _volts("drop_out_volts", "Drop-out volts of the potential relay", "From its marking."),
    _volts("coil_rating_volts", "Continuous volts of the potential relay's coil", "From its marking."),
)

_STARTED = (
    Choice("", "not tried"),
    Choice("started_released", "it starts, and the start current goes away within seconds"),
    Choice("started_stays", "it starts, but the amps stay high"),
    Choice("hums", "it hums and does not start"),
    Choice("silent", "silent"),
)

_START_INPUTS: tuple[Input, ...] = (
    ChoiceInput(
        "with_device",
        "With this very device fitted",
        _STARTED,
        "",
        group=_START,
        help="By the page on starting with a substitute, covers on. Never for more than a few seconds of humming.",
    ),
    ChoiceInput(
        "with_substitute",
        "With a device known to be good and listed for this motor",
        _STARTED,
        "",
        group=_START,
        help="Chosen and checked by a technician.",
    ),
    NumberInput(
        "start_rest",
        "Rest before the attempt",
        ("min", "h", "s"),
        0.0,
        3.6e7,
        required=False,
        group=_START,
        help="Unplugged. Pressures become equal and a PTC cools.",
    ),
    NumberInput(
        "start_volts",
        "Lowest volts at the plug during the attempt",
        ("V",),
        10.0,
        300.0,
        required=False,
        meter="voltmeter",
        group=_START,
        help="On a meter that holds the lowest, read by a technician.",
    ),
    _amps(
        "start_lead_first",
        "Amps in the device's start lead, at the start",
        "A lead brought out dead from the device itself, so that a run capacitor's current is not in it.",
        meter="clamp",
        least=0.0,
    ),
    _amps("start_lead_later", "Amps in the same lead, later", "Same clamp, same range.", meter="clamp", least=0.0),
    NumberInput(
        "start_lead_time",
        "Time of that reading after the start",
        ("s", "min"),
        0.0,
        36000.0,
        required=False,
        meter="stopwatch",
        group=_START,
        help="A stuck device is unplugged at once.",
    ),
    _volts(
        "coil_volts_start",
        "Highest volts across coil 2 to 5 at the start",
        "On leads brought out dead, meter for capacitor volts.",
        meter="voltmeter",
    ),
    _volts("coil_volts_running", "Volts across coil 2 to 5, running", "The same leads.", meter="voltmeter"),
)

_METER_INPUTS: tuple[Input, ...] = (
    MeterInput("ohmmeter", "Ohmmeter", "ohm", 0.1, group=_METERS),
    MeterInput(
        "clamp",
        "Clamp",
        "A",
        0.01,
        group=_METERS,
        help="Copy yours from its sheet, for the range in use; many clamps are 2 % + 5 counts.",
    ),
    MeterInput("voltmeter", "Voltmeter", "V", 0.1, group=_METERS),
    MeterInput("stopwatch", "Stopwatch", "s", 0.5, 0.0, 1.0, group=_METERS, help="A thumb is good to half a second."),
)

INPUTS: tuple[Input, ...] = (
    *_DEVICE_INPUTS,
    *_RELAY_INPUTS,
    *_PTC_INPUTS,
    *_POTENTIAL_INPUTS,
    *_FIGURE_INPUTS,
    *_START_INPUTS,
    *_METER_INPUTS,
)
