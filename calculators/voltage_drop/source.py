"""How stiff is a supply, by its volts with and without a known load? Shared with the supply check.

R = (U0 - U1) / I1, from circuit theory. Says nothing about how much of it is the wiring and how much the utility.
Valid for two readings at one place, right after each other, with a load of power factor one.
"""

from __future__ import annotations

from dataclasses import dataclass

from calculators.inputs import Entered
from calculators.limits import InForce
from calculators.readings import Reading, in_quadrature
from calculators.voltage_drop.path_volts import Part


@dataclass(frozen=True)
class Source:
    """The supply's own resistance: its part of the path, and what it was taken from."""

    part: Part
    difference: float | None = None
    steps: float | None = None
    resolved: bool = True


def source_of(entered: Entered, standards: InForce) -> Source | None:
    """The source resistance as typed, or from the volts with and without a known load; None without either."""
    where = entered.choice("source_where")
    typed = entered.number("source_ohms")
    if typed is not None:
        return Source(Part("source", "Source", where, complex(typed)))
    idle, loaded, amps = (entered.reading(name) for name in ("idle_volts", "loaded_volts", "load_amps"))
    if idle is None or loaded is None or amps is None:
        return None
    return source_from_loads(idle, loaded, amps, where, standards)


def source_from_loads(idle: Reading, loaded: Reading, amps: Reading, where: str, standards: InForce) -> Source:
    """(U0 - U1) / I1 with its band.

    One voltmeter took both volts: its gain error is that of the difference, only the counts of the two are independent.
    """
    meter = idle.meter
    difference = idle.value - loaded.value
    band = meter.gain_band(difference) + in_quadrature(meter.counts_band, meter.counts_band)
    ohms = difference / amps.value
    above = in_quadrature(band / amps.value, ohms * amps.relative_band)
    steps = difference / meter.resolution
    resolved = steps > standards.value("drop.least_steps") - 1e-6  # exactly three steps count as three
    below = min(above, ohms) if resolved else ohms
    return Source(Part("source", "Source", where, complex(ohms), below, above), difference, steps, resolved)
