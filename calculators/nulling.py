"""Ohms with the test leads taken off, and the line of working that shows it."""

from __future__ import annotations

import math

from calculators.contract import Step, quantity, rounded
from calculators.inputs import Entered, Problem, RefusedError
from calculators.readings import Meter, Reading, in_quadrature


def leads_of(entered: Entered) -> float:
    """What the leads alone read, ohm; nothing where that was not entered."""
    return entered.number("lead") or 0.0


def fits_leads(entered: Entered, value: float, meter: Meter) -> bool:
    """Whether a reading is no smaller than its leads, but for what the counts of the two readings allow."""
    return leads_of(entered) - value <= in_quadrature(meter.counts_band, meter.counts_band)


def nulled(entered: Entered, field: str, label: str, value: float, meter: Meter) -> Reading:
    """A reading with the leads taken off; refuses one that is smaller than its leads by more than the meter's counts.

    One meter took both: the gain error is that of the difference, the counts of the two are independent. A part of next
    to nothing may read a count or two less than the leads alone: that is nought, within the band.
    """
    if not fits_leads(entered, value, meter):
        raise RefusedError(
            Problem(
                field,
                f"{label}: {quantity(value, 'ohm', 2)} is less than the leads alone,"
                f" {quantity(leads_of(entered), 'ohm', 2)}. Short the probes, read the leads again, then the part.",
            )
        )
    ohms = max(value - leads_of(entered), 0.0)
    if math.isinf(ohms):
        return Reading.taken(ohms, meter)
    counts = meter.counts_band
    both = counts if entered.number("lead") is None else in_quadrature(counts, counts)
    return Reading(ohms, meter.gain_band(ohms) + both, meter)


def ohms_steps(entered: Entered, label: str, typed: float, reading: Reading) -> tuple[Step, ...]:
    """The working of one reading in ohms: leads off, and its band; of an open line, that it is one."""
    lead, meter = leads_of(entered), reading.meter
    if reading.open_line:
        return (Step(label, "OL = no path", "as the meter showed it", "open line", "common-practice"),)
    root = "" if entered.number("lead") is None else " · √2"
    nought = ", below 0 by no more than the counts of the two" if typed < lead else ""
    return (
        Step(
            f"Take the leads off: {label.lower()}",
            "R = reading − leads",
            f"{rounded(typed, 2)} − {rounded(lead, 2)}{nought}",
            quantity(reading.value, "ohm", 2),
            "derived",
        ),
        Step(
            "Band of the meter",
            "% · R + counts · resolution" + (f"{root} for two readings" if root else ""),
            f"{meter.percent:g} % · {rounded(reading.value, 2)} Ω + {meter.counts:g} · {meter.resolution:g} Ω{root}",
            f"±{quantity(reading.band, 'ohm', 2)}",
            "jcgm-100",
        ),
    )
