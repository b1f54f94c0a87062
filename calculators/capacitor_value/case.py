"""What is known of one capacitor: its marking, the reading off the circuit, its ohms, and the reading while it runs.

Live, C = I / (2 pi f U). Clamp, voltmeter and frequency are three independent instruments: their relative bands
combine as the root of the sum of squares (JCGM 100:2008, 5.1.2 and 5.1.6).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from calculators.capacitor_value.marking import Marking, marking_of
from calculators.inputs import Entered, Problem, RefusedError
from calculators.limits import InForce
from calculators.readings import Meter, Reading, in_quadrature
from calculators.units import to_base

MICRO = 1e6  # microfarads in a farad


def amps_through(microfarads: float, volts: float, hertz: float) -> float:
    """The current of a capacitor, I = 2 pi f C U.

    >>> round(amps_through(60.0, 110.0, 60.0), 2)
    2.49
    """
    return 2.0 * math.pi * hertz * microfarads / MICRO * volts


def microfarads_from(amps: float, volts: float, hertz: float) -> float:
    """The capacitance that carries this current, C = I / (2 pi f U), in microfarads."""
    return MICRO * amps / (2.0 * math.pi * hertz * volts)


@dataclass(frozen=True)
class Live:
    """Amps and volts of one capacitor while it runs, and what they make of it."""

    amps: Reading
    volts: Reading
    hertz: float
    frequency_percent: float

    @property
    def value(self) -> float:
        """The capacitance by amps and volts, microfarads."""
        return microfarads_from(self.amps.value, self.volts.value, self.hertz)

    @property
    def band(self) -> float:
        """+-a of it: clamp, voltmeter and frequency in quadrature."""
        by_amps = microfarads_from(self.amps.band, self.volts.value, self.hertz)
        by_volts = self.value * self.volts.relative_band
        by_frequency = self.value * self.frequency_percent / 100.0
        return in_quadrature(by_amps, by_volts, by_frequency)

    @property
    def low(self) -> float:
        """The least the capacitance can be."""
        return self.value - self.band

    @property
    def high(self) -> float:
        """The most the capacitance can be."""
        return self.value + self.band

    def with_meter(self, name: str, meter: Meter) -> Live:
        """The same readings taken with another clamp or another voltmeter."""
        if name == "clamp":
            return replace(self, amps=Reading.taken(self.amps.value, meter))
        return replace(self, volts=Reading.taken(self.volts.value, meter))


@dataclass(frozen=True)
class Case:
    """What the findings rest on. A bleed resistor is None where nothing was said of it, infinite where it is off."""

    marking: Marking
    measured: Reading | None
    connection: str
    bleed: float | None
    ohms: Reading | None
    case_ohms: Reading | None
    can: str
    rated_volts: float | None
    live: Live | None
    meters: dict[str, Meter]
    standards: InForce

    @property
    def kind(self) -> str:
        """start or run."""
        return self.marking.kind

    @property
    def page(self) -> str:
        """The procedure for this kind of capacitor."""
        return f"{self.kind}-capacitor"

    @property
    def alone(self) -> bool:
        """Whether the readings off the circuit are the capacitor's own."""
        return self.connection == "alone"

    def ohm_limit(self, name: str) -> float:
        """A limit of ohms, in ohm."""
        limit = self.standards.limit(f"capacitors.{name}")
        return to_base(limit.value, limit.unit)


def case_of(entered: Entered, standards: InForce) -> Case:
    """What was entered, put together; refuses amps without volts, and volts without a frequency."""
    marking = marking_of(entered, standards)
    return Case(
        marking,
        entered.reading("measured"),
        entered.choice("connection"),
        entered.number("bleed_resistor"),
        entered.reading("ohms"),
        entered.reading("case_ohms"),
        entered.choice("can"),
        entered.number("rated_volts"),
        _live(entered),
        dict(entered.meters),
        standards,
    )


def _live(entered: Entered) -> Live | None:
    amps, volts = entered.reading("capacitor_amps"), entered.reading("capacitor_volts")
    hertz = entered.choice("supply_frequency")
    if amps is None and volts is None:
        return None
    problems = []
    if amps is None:
        problems.append(
            Problem("capacitor_amps", "Amps through the capacitor are missing. Enter them, or take the volts out too.")
        )
    if volts is None:
        problems.append(
            Problem("capacitor_volts", "Volts across the capacitor are missing. Enter them, or take the amps out too.")
        )
    if not hertz:
        problems.append(
            Problem("supply_frequency", "Supply frequency is missing. Pick 60 Hz or 50 Hz: the amps depend on it.")
        )
    if amps is None or volts is None or problems:
        raise RefusedError(*problems)
    return Live(amps, volts, float(hertz), entered.needed("frequency_band"))
