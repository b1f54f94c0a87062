"""Reads a map and the temperatures now out of what was entered, and refuses what a map cannot answer."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

from calculators.contract import quantity
from calculators.expected_amps.evidence import FLOAT_DIGITS
from calculators.expected_amps.inputs import INPUTS as EXPECTED_AMPS_INPUTS
from calculators.inputs import Entered, NumberInput, Problem, RefusedError
from calculators.limits import InForce
from calculators.performance_map.inputs import COEFFICIENT_NAMES
from calculators.performance_map.polynomial import Polynomial
from calculators.readings import in_quadrature
from calculators.units import UNITS, from_base

_CHOICES = {
    "map_gives": "What the map gives: choose amps or watts, as the sheet says over its coefficients.",
    "map_temperature_unit": (
        "Unit of the map's temperatures: choose °C or °F, as the sheet says. "
        "The same coefficients with the other unit give another answer, and it may look right."
    ),
    "map_frequency": "Frequency of the map: choose 50 Hz or 60 Hz, as the sheet says.",
}
_SIDES = {"evaporating": "Evaporating temperature now", "condensing": "Condensing temperature now"}
_EXPECTED_AMPS_FIELD = {"A": "map_amps", "W": "watts"}  # what the answer is entered as


@dataclass(frozen=True)
class MapReading:
    """A map, and the pair of temperatures it is read at; temperatures in °C, converted where the map wants °F."""

    polynomial: Polynomial
    gives: str
    temperature_unit: str
    volts: float
    frequency: str
    evaporating_edges: tuple[float, float]
    condensing_edges: tuple[float, float]
    evaporating: float
    condensing: float
    temperature_band: float
    map_band: float

    @property
    def point(self) -> tuple[float, float]:
        """S and D in the map's own unit."""
        return self.in_map_unit(self.evaporating), self.in_map_unit(self.condensing)

    @property
    def value(self) -> float:
        """Amps or watts at this pair of temperatures."""
        return self.polynomial.at(*self.point)

    def in_map_unit(self, celsius: float) -> float:
        """A temperature as the map wants it; rounded, so that 54.4 °C typed as °F is the same number."""
        return round(from_base(celsius, self.temperature_unit), FLOAT_DIGITS)

    @property
    def slopes(self) -> tuple[float, float]:
        """The change for each kelvin more of evaporating and of condensing temperature, as parts of the value."""
        unit = UNITS[self.temperature_unit]
        degrees = unit.divisor / unit.factor / self.value
        return (
            degrees * self.polynomial.slope_evaporating(*self.point),
            degrees * self.polynomial.slope_condensing(*self.point),
        )

    def temperature_part(self, kelvin: float) -> float:
        """What temperatures that are off by this much add, as a part: both off the same way, one thermometer."""
        return kelvin * (abs(self.slopes[0]) + abs(self.slopes[1]))

    def half_band(self, kelvin: float) -> float:
        """The map's half-band and the temperatures' together, as a part of the value; they are independent."""
        return in_quadrature(self.map_band, self.temperature_part(kelvin))

    def corners(self) -> Iterator[tuple[float, float, float]]:
        """S, D and the value at the four corners of the map's limits."""
        for evaporating, condensing in product(self.evaporating_edges, self.condensing_edges):
            pair = self.in_map_unit(evaporating), self.in_map_unit(condensing)
            yield *pair, self.polynomial.at(*pair)


def read_map(entered: Entered, standards: InForce) -> MapReading:
    """The map and the temperatures; RefusedError names every field that keeps it from answering."""
    problems = [Problem(name, message) for name, message in _CHOICES.items() if not entered.choice(name)]
    problems += [problem for side in _SIDES for problem in _edge_problems(side, entered)]
    if not problems:
        problems += _temperature_problems(entered)
    if problems:
        raise RefusedError(*problems)
    reading = MapReading(
        polynomial=Polynomial(tuple(entered.needed(name) for name in COEFFICIENT_NAMES)),
        gives=entered.choice("map_gives"),
        temperature_unit=entered.choice("map_temperature_unit"),
        volts=entered.needed("map_volts"),
        frequency=entered.choice("map_frequency"),
        evaporating_edges=_edges("evaporating", entered),
        condensing_edges=_edges("condensing", entered),
        evaporating=entered.needed("evaporating_now"),
        condensing=entered.needed("condensing_now"),
        temperature_band=entered.number("temperature_band") or 0.0,
        map_band=standards.value("amps.band.map") / 100.0,
    )
    _refuse_nonsense(reading)
    return reading


def _edges(side: str, entered: Entered) -> tuple[float, float]:
    return entered.needed(f"{side}_least"), entered.needed(f"{side}_most")


def _edge_problems(side: str, entered: Entered) -> Iterator[Problem]:
    least, most = _edges(side, entered)
    if least >= most:
        yield Problem(
            f"{side}_most",
            f"Highest {side} temperature of the map: {_both(most)} is not above the lowest, {_both(least)}. "
            f"Enter the ends of the map as the sheet states them, with their unit.",
        )


def _temperature_problems(entered: Entered) -> Iterator[Problem]:
    for side, label in _SIDES.items():
        now, (least, most) = entered.needed(f"{side}_now"), _edges(side, entered)
        if not round(least, FLOAT_DIGITS) <= round(now, FLOAT_DIGITS) <= round(most, FLOAT_DIGITS):
            yield Problem(
                f"{side}_now",
                f"{label}: {_both(now)} is outside the map, which goes from {_both(least)} to {_both(most)}. "
                f"It tells nothing there: take other evidence, or measure at a condition inside.",
            )
    if entered.needed("condensing_now") <= entered.needed("evaporating_now"):
        yield Problem(
            "condensing_now",
            "Condensing temperature now: it is not above the evaporating temperature. "
            "Look whether the two are swapped and whether the compressor runs.",
        )


def _both(celsius: float) -> str:
    return f"{quantity(celsius, 'degC', 1)} ({quantity(celsius, 'degF', 1)})"


def declared_range(gives: str) -> NumberInput:
    """The field of expected amps that takes what the map gives; its range is what this check takes too."""
    name = _EXPECTED_AMPS_FIELD[gives]
    return next(one for one in EXPECTED_AMPS_INPUTS if isinstance(one, NumberInput) and one.name == name)


def _refuse_nonsense(reading: MapReading) -> None:
    taken = declared_range(reading.gives)
    if taken.least <= reading.value <= taken.most:
        return
    raise RefusedError(
        Problem(
            "c1",
            f"C1 to C10: they give {reading.value:.4g} {reading.gives} here, and no compressor of this handbook's size "
            f"draws that: {taken.least:g} to {taken.most:g} {reading.gives} is taken. Look at the signs, the powers of "
            f"ten, the order of the coefficients, what the map gives and the unit of its temperatures.",
        )
    )
