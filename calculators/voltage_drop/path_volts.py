"""How many volts are left at the end of a path of known ohms?

Circuit arithmetic of a single-phase path and its load: a running motor as a fixed current, a stalled one as a fixed
impedance. Volts and amps are rms; impedances are complex ohm of the whole loop; the power factor is lagging and
belongs to the volts at the load.

Without a power factor the loss is amps x impedance, which is the most it can be: the true loss is a projection of that.
Source: circuit theory; the projection R cos + X sin as in UFC 3-520-01, appendix B. It is an approximation,
good to one or two per cent of the loss in small circuits.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from calculators.readings import Reading, in_quadrature


@dataclass(frozen=True)
class Span:
    """A value with the least and the most it can be."""

    value: float
    low: float
    high: float

    @classmethod
    def exactly(cls, value: float) -> Span:
        """A value that carries no band."""
        return cls(value, value, value)

    @classmethod
    def read(cls, reading: Reading) -> Span:
        """A reading with the band of its meter, never below zero."""
        return cls(reading.value, max(reading.low, 0.0), reading.high)

    def times(self, factor: float) -> Span:
        """All three multiplied by a positive number."""
        return Span(self.value * factor, self.low * factor, self.high * factor)


@dataclass(frozen=True)
class Part:
    """One part of the path: its ohms, how much fewer or more they can be, and where it ends."""

    name: str
    label: str
    ends_at: str
    ohms: complex
    below: float = 0.0
    above: float = 0.0


@dataclass(frozen=True)
class Stretch:
    """Parts in series: their ohms, the least and the most."""

    value: complex
    low: complex
    high: complex


def in_series(parts: Iterable[Part]) -> Stretch:
    """Add parts up. Their bands come from different meters, so they add in quadrature (JCGM 100:2008, 5.1.2)."""
    listed = tuple(parts)
    ohms = math.fsum(part.ohms.real for part in listed)
    reactance = math.fsum(part.ohms.imag for part in listed)
    low = max(ohms - in_quadrature(*(part.below for part in listed)), 0.0)
    high = ohms + in_quadrature(*(part.above for part in listed))
    return Stretch(complex(ohms, reactance), complex(low, reactance), complex(high, reactance))


def running_volts(supply: float, amps: float, path: complex, power_factor: float | None) -> float:
    """Volts at a load that takes a fixed current; the least they can be when no power factor is given.

    Exact: U = sqrt(U0^2 - (I (X cos - R sin))^2) - I (R cos + X sin).

    >>> round(running_volts(120.0, 12.0, 0.4 + 0.0108j, 0.7), 3)
    116.501
    """
    if power_factor is None:
        return max(supply - amps * size(path), 0.0)
    loss = path * _current(amps, power_factor)
    return max(math.sqrt(max(supply * supply - loss.imag * loss.imag, 0.0)) - loss.real, 0.0)


def volts_upstream(load_volts: float, amps: float, path: complex, power_factor: float | None) -> float:
    """Volts at the head of a stretch, from the volts at the load and the current through it."""
    if power_factor is None:
        return load_volts + amps * size(path)
    return size(load_volts + path * _current(amps, power_factor))


def approximate_loss(amps: float, path: complex, power_factor: float) -> float:
    """I (R cos + X sin), the form printed in tables and handbooks.

    >>> round(approximate_loss(12.0, 0.4 + 0.0108j, 0.7), 4)
    3.4526
    """
    return (path * _current(amps, power_factor)).real


def stalled_volts(supply: float, path: complex, plate_volts: float, amps: float, power_factor: float | None) -> float:
    """Volts at a motor that does not turn yet, taken as a fixed impedance of plate volts over locked-rotor amps.

    U = U0 / (1 + Z LRA / Un) without a power factor, the least it can be; with one, the exact divider.

    >>> round(stalled_volts(231.0, 2.2, 230.0, 20.0, None), 1)
    193.9
    """
    motor = plate_volts / amps
    if power_factor is None:
        return supply / (1.0 + size(path) / motor)
    return supply * motor / size(motor / (_current(1.0, power_factor)) + path)


def constant_current_volts(supply: float, path: complex, amps: float) -> float:
    """U0 - Z I, as if the stalled motor took its locked-rotor amps whatever the volts."""
    return max(supply - size(path) * amps, 0.0)


def size(value: complex) -> float:
    """How long an impedance or a phasor is. Python's own abs rounds differently from one C library to the next."""
    return math.sqrt(value.real * value.real + value.imag * value.imag)


def _current(amps: float, power_factor: float) -> complex:
    """A lagging current as a phasor against the volts at the load."""
    return amps * complex(power_factor, -math.sqrt(max(1.0 - power_factor * power_factor, 0.0)))
