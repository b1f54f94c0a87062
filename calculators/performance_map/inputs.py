"""What the performance-map check asks for: the map with its units and limits, the temperatures, and a reading."""

from __future__ import annotations

from dataclasses import replace

from calculators.expected_amps.inputs import INPUTS as EXPECTED_AMPS_INPUTS
from calculators.inputs import Choice, ChoiceInput, Input, NumberInput
from calculators.performance_map.polynomial import COEFFICIENTS

_MAP, _NOW, _READ, _MOTOR = "The map", "Temperatures now", "Measured while running", "Watts and amps"
_TEMPERATURE = ("degC", "degF")
_TERMS = ("", "S", "D", "S²", "S·D", "D²", "S³", "S²·D", "S·D²", "D³")
_AS_IN_EXPECTED_AMPS = {one.name: one for one in EXPECTED_AMPS_INPUTS}

COEFFICIENT_NAMES = tuple(f"c{number}" for number in range(1, COEFFICIENTS + 1))


def _coefficient(number: int) -> NumberInput:
    term = _TERMS[number - 1]
    return NumberInput(
        f"c{number}",
        f"C{number}",
        ("plain",),
        -1e5,
        1e5,
        group=_MAP,
        help=f"The factor of {term}. 0 where the map has none." if term else "The constant.",
        power_of_ten=True,
    )


def _edge(name: str, label: str, least: float, most: float, help: str = "") -> NumberInput:
    return NumberInput(name, label, _TEMPERATURE, least, most, group=_MAP, help=help)


_MAP_INPUTS: tuple[Input, ...] = (
    ChoiceInput(
        "map_gives",
        "What the map gives",
        (Choice("", "choose"), Choice("A", "amps (current)"), Choice("W", "watts (power)")),
        "",
        group=_MAP,
        help="A sheet has one set of coefficients for each. Capacity and mass flow are other sets.",
    ),
    ChoiceInput(
        "map_temperature_unit",
        "Unit of the map's temperatures",
        (Choice("", "choose"), Choice("degC", "°C"), Choice("degF", "°F")),
        "",
        group=_MAP,
        help="As the sheet states for S and D. The wrong one gives a wrong answer that may look right.",
    ),
    NumberInput(
        "map_volts",
        "Volts of the map",
        ("V",),
        70.0,
        270.0,
        group=_MAP,
        help="The supply voltage that the map is stated for.",
    ),
    ChoiceInput(
        "map_frequency",
        "Frequency of the map",
        (Choice("", "choose"), Choice("60", "60 Hz"), Choice("50", "50 Hz")),
        "",
        group=_MAP,
        help="A map holds for one frequency; sheets print one map for each.",
    ),
    *(_coefficient(number) for number in range(1, COEFFICIENTS + 1)),
    _edge("evaporating_least", "Lowest evaporating temperature of the map", -50.0, 20.0, "Outside it nothing is told."),
    _edge("evaporating_most", "Highest evaporating temperature of the map", -50.0, 20.0),
    _edge("condensing_least", "Lowest condensing temperature of the map", 0.0, 90.0),
    _edge("condensing_most", "Highest condensing temperature of the map", 0.0, 90.0),
)

_NOW_INPUTS: tuple[Input, ...] = (
    NumberInput(
        "evaporating_now",
        "Evaporating temperature now",
        _TEMPERATURE,
        -50.0,
        20.0,
        group=_NOW,
        help="Dew temperature. By a thermometer on the evaporator's tube, or from a pressure that was read already.",
    ),
    NumberInput(
        "condensing_now",
        "Condensing temperature now",
        _TEMPERATURE,
        0.0,
        90.0,
        group=_NOW,
        help="Dew temperature. By a thermometer on the middle of the condenser, under insulation.",
    ),
    NumberInput(
        "temperature_band",
        "How far these temperatures may be off",
        ("K", "degF_diff"),
        0.0,
        10.0,
        required=False,
        group=_NOW,
        help="Either way. Left empty, the temperatures count as right and the map's own band stands alone.",
    ),
)


_READ_INPUTS: tuple[Input, ...] = tuple(
    replace(_AS_IN_EXPECTED_AMPS[name], group=_READ)
    for name in ("running_amps", "running_volts", "run_time", "supply_frequency", "clamp", "voltmeter")
)
_MOTOR_INPUTS: tuple[Input, ...] = (
    replace(_AS_IN_EXPECTED_AMPS["motor_type"], group=_MOTOR, help="Only to turn amps into watts, or watts into amps."),
    replace(_AS_IN_EXPECTED_AMPS["power_factor"], group=_MOTOR, help="Only for the same, where the sheet prints it."),
)

INPUTS: tuple[Input, ...] = (*_MAP_INPUTS, *_NOW_INPUTS, *_READ_INPUTS, *_MOTOR_INPUTS)
