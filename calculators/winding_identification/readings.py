"""Three resistance readings between three pins: leads taken off, bands, and whether they add up.

One meter takes all three, so its gain error is shared and cancels between readings; only counts are independent.
Winding resistance at another temperature: IEC 60335-1 clause 11.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import combinations

from calculators.contract import Step, quantity, rounded
from calculators.findings import Decider, Finding, NextStep, Verdict
from calculators.inputs import Entered, Problem, RefusedError
from calculators.limits import InForce
from calculators.pin_drawing import PINS
from calculators.readings import Meter, Reading, in_quadrature

COPPER = 234.5  # zero-resistance temperature below 0 °C; IEC 60335-1 clause 11
ALUMINIUM = 225.0  # the same for aluminium windings
METALS = {"copper": COPPER, "aluminium": ALUMINIUM}
FINEST_RESOLUTION = 1e-3  # ohm; what bench ohmmeters reach, no finer one is asked for

MOST_OHMS = 300.0  # what the three fields take; a winding of a small motor reads less

Pair = tuple[str, str]
PAIRS: tuple[Pair, ...] = tuple((a, b) for a, b in combinations(PINS, 2))
FIELD: Mapping[Pair, str] = {("1", "2"): "r12", ("2", "3"): "r23", ("1", "3"): "r13"}

READ_AGAIN = NextStep("Read the three pairs again with everything off the pins.", "identify-the-windings")


def resistance_at(ohms: float, measured_at: float, wanted_at: float, zero_resistance: float) -> float:
    """Bring a winding resistance from one temperature to another, both °C.

    R2 = R1 (k + T2) / (k + T1), IEC 60335-1 clause 11. Valid for one metal, -10 to 150 °C.

    >>> round(resistance_at(10.0, 22.0, 109.2, COPPER), 2)
    13.4
    """
    return ohms * (zero_resistance + wanted_at) / (zero_resistance + measured_at)


@dataclass(frozen=True)
class Pins:
    """The three readings after the leads are taken off, and what kind of band they carry.

    One meter takes all three: gain error is shared and cancels between readings; counts are independent.
    """

    ohms: Mapping[Pair, float]
    meter: Meter
    lead: float | None
    opens: tuple[Pair, ...]

    def band(self, pair: Pair) -> float:
        """+-a of one reading with the leads taken off, ohm."""
        counts = self.meter.counts_band
        return self.meter.gain_band(self.ohms[pair]) + (counts if self.lead is None else in_quadrature(counts, counts))

    def reading(self, pair: Pair) -> Reading:
        """One pair as a reading."""
        return Reading(self.ohms[pair], 0.0 if math.isinf(self.ohms[pair]) else self.band(pair), self.meter)

    def told_apart(self, larger: Pair, smaller: Pair, factor: float) -> bool:
        """Whether two readings of this meter differ by more than factor x counts and the shared gain on the gap."""
        return self.gap(larger, smaller) > self.gap_needed(larger, smaller, factor)

    def gap(self, larger: Pair, smaller: Pair) -> float:
        """How far two readings lie apart, ohm."""
        return self.ohms[larger] - self.ohms[smaller]

    def gap_needed(self, larger: Pair, smaller: Pair, factor: float) -> float:
        """How far they must lie apart to be told apart, ohm."""
        return factor * self.meter.counts_band + self.meter.gain_band(self.gap(larger, smaller))

    @property
    def ordered(self) -> tuple[Pair, Pair, Pair]:
        """The pairs from largest to smallest."""
        largest, middle, smallest = sorted(PAIRS, key=lambda pair: -self.ohms[pair])
        return largest, middle, smallest

    def text(self) -> dict[Pair, str]:
        """Every pair as printed."""
        return {pair: quantity(self.ohms[pair], "ohm", 2) for pair in PAIRS}


def nulled(entered: Entered) -> Pins:
    """The three readings with the leads taken off; refuses a reading smaller than its leads."""
    lead = entered.number("lead")
    ohms: dict[Pair, float] = {}
    for pair in PAIRS:
        value = entered.needed(FIELD[pair])
        if lead is not None and value < lead:
            raise RefusedError(
                Problem(
                    FIELD[pair],
                    f"Reading {pair[0]}–{pair[1]}: {quantity(value, 'ohm', 2)} is less than the leads alone, "
                    f"{quantity(lead, 'ohm', 2)}. Short the probes, read the leads again, then this pair.",
                )
            )
        ohms[pair] = value - (lead or 0.0)
    opens = tuple(pair for pair in PAIRS if math.isinf(ohms[pair]))
    return Pins(ohms, entered.meters["ohmmeter"], lead, opens)


def nulling_steps(entered: Entered, pins: Pins) -> list[Step]:
    """The working of taking the leads off."""
    if not pins.lead:
        return []
    return [
        Step(
            f"Take the leads off {a}–{b}",
            "R = reading − leads",
            f"{rounded(entered.needed(FIELD[a, b]), 2)} − {rounded(pins.lead, 2)}",
            quantity(pins.ohms[a, b], "ohm", 2),
            "derived",
        )
        for a, b in PAIRS
        if (a, b) not in pins.opens
    ]


def resolution_to_tell_apart(pins: Pins, gap: float, factor: float) -> float:
    """The resolution at which this gap is told apart, ohm; zero when no bench meter would."""
    room = gap - pins.meter.gain_band(gap)
    return finest_asked(0.99 * room / factor / pins.meter.counts if pins.meter.counts else 0.0)


def finest_asked(needed: float) -> float:
    """The resolution needed, ohm, or zero where no bench meter is as fine."""
    return needed if needed >= FINEST_RESOLUTION else 0.0


def enter_resolution(needed: float) -> tuple[str | None, str | None]:
    """The field and the entry that would decide, or nothing."""
    return ("ohmmeter_resolution", decade_below(needed)) if needed > 0.0 else (None, None)


def enter_to_name(pins: Pins, needed: float, standards: InForce) -> tuple[str | None, str | None]:
    """The same where it would name all three pins: of readings that do not add up, a finer meter alone does not."""
    field, entry = enter_resolution(needed)
    if entry is None:
        return None, None
    finer = replace(pins, meter=replace(pins.meter, resolution=float(entry)))
    return (field, entry) if would_name(finer, standards) else (None, None)


def resolution_words(needed: float) -> str:
    """A resolution as the reader is told it."""
    return f"{decade_below(needed)} ohm or finer" if needed > 0.0 else "finer than bench meters have"


def decade_below(needed: float) -> str:
    """The next finer decade of resolution a meter really has: 0.1, 0.01, 0.001 …"""
    return f"{10.0 ** math.floor(math.log10(needed)):g}"


def diagram_roles(entered: Entered) -> dict[str, str]:
    """Pin -> C, R or S by the machine's own diagram; empty when it is not known."""
    order = entered.choice("diagram")
    return {} if order == "unknown" else dict(zip(PINS, order, strict=True))


def pair_of(roles: Mapping[str, str], first: str, second: str) -> Pair:
    """The pair of pins that carry two roles."""
    wanted = {pin for pin, role in roles.items() if role in (first, second)}
    return next(pair for pair in PAIRS if set(pair) == wanted)


@dataclass(frozen=True)
class SumCheck:
    """The largest reading against the sum of the other two, ohm."""

    difference: float
    tolerance: float
    spread: float
    step: Step

    @property
    def good(self) -> bool:
        """Whether they agree. A coarse meter never widens this: what it cannot show stays undecided."""
        return abs(self.difference) <= self.tolerance

    @property
    def meter_could_explain(self) -> bool:
        """Whether the counts of the three readings alone could make the difference."""
        return abs(self.difference) - self.spread <= self.tolerance


def sum_check(pins: Pins, standards: InForce) -> SumCheck:
    """Hold the largest reading against the sum of the other two."""
    largest, middle, smallest = pins.ordered
    total = math.fsum((pins.ohms[middle], pins.ohms[smallest]))
    difference = pins.ohms[largest] - total
    counts = pins.meter.counts_band
    leads = 0.0 if pins.lead is None else counts
    spread = in_quadrature(counts, counts, counts, leads) + pins.meter.gain_band(difference)
    limit = standards.limit("windings.sum_tolerance")
    tolerance = limit.value / 100.0 * pins.ohms[largest]
    step = Step(
        "Sum check",
        f"largest − (other two), at most {limit.text} of the largest",
        f"{rounded(pins.ohms[largest], 2)} − ({rounded(pins.ohms[middle], 2)} + {rounded(pins.ohms[smallest], 2)})",
        f"{quantity(difference, 'ohm', 2)}, at most ±{quantity(tolerance, 'ohm', 2)}; the meter's counts (in"
        f" quadrature) and shared gain allow ±{quantity(spread, 'ohm', 2)}",
        "goodheart-willcox-25-8",
    )
    return SumCheck(difference, tolerance, spread, step)


def sum_finding(pins: Pins, check: SumCheck, standards: InForce) -> Finding:
    """What a failed sum check says, and what most likely made it fail."""
    largest, middle, smallest = pins.ordered
    total = pins.ohms[middle] + pins.ohms[smallest]
    shown = total + (pins.lead or 0.0)
    entry = rounded(shown, 3)  # what is judged is what would be typed: rounding may bring two readings together
    as_typed = replace(pins, ohms={**pins.ohms, largest: float(entry) - (pins.lead or 0.0)})
    can_be_entered = shown <= MOST_OHMS and would_name(as_typed, standards)
    needed = 0.99 * check.tolerance / (2.0 * max(pins.meter.counts, 1.0))
    return Finding(
        "pins",
        Verdict.UNDECIDED,
        f"Sum check fails: {'–'.join(largest)} reads {quantity(pins.ohms[largest], 'ohm', 2)} but the other two add up"
        f" to {quantity(total, 'ohm', 2)}. {_why_sum_fails(pins, check, standards)}",
        "Two windings in a row must add up. When they do not, the readings are not yet of the windings alone.",
        READ_AGAIN,
        standards.limit("windings.sum_tolerance"),
        Decider(
            f"Reading {'–'.join(largest)}",
            resolution_words(needed),
            "leads nulled, everything off the pins, read twice; the sum holds when it reads within "
            f"{quantity(check.tolerance, 'ohm', 2)} of {quantity(total, 'ohm', 2)}",
            FIELD[largest] if can_be_entered else None,
            entry if can_be_entered else None,
        ),
    )


def would_name(pins: Pins, standards: InForce) -> bool:
    """Whether these readings add up and are told apart, so that all three pins get their names."""
    largest, middle, smallest = pins.ordered
    factor = standards.value("windings.gap_factor")
    apart = pins.told_apart(largest, middle, factor) and pins.told_apart(middle, smallest, factor)
    return apart and sum_check(pins, standards).good


def _why_sum_fails(pins: Pins, check: SumCheck, standards: InForce) -> str:
    short = -check.difference
    if check.meter_could_explain:
        return "The last digits of this meter alone could make that difference: a finer meter decides."
    if short > 0.0 and pins.lead is None and short >= standards.value("windings.lead_least"):
        likely = short <= standards.value("windings.lead_most") + 2.0 * pins.meter.counts_band
        leads = (
            "Leads that were not zeroed make the largest fall short by exactly one lead reading: leads of"
            f" {quantity(short, 'ohm', 2)} would explain it. "
            if likely
            else ""
        )
        return (
            leads
            + "A part still joined across two pins, or turns of one winding touching the other, makes it fall short."
        )
    if short > 0.0:
        return (
            "A part is still joined across two pins (relay, capacitor, board), or turns of one winding touch the other."
        )
    if pins.lead and abs(check.difference - pins.lead) <= 2.0 * pins.meter.counts_band:
        return (
            "It is over by one lead reading: the readings had probably been zeroed already. Then enter 0 for the leads."
        )
    return "A probe moved, a pin is dirty, or the winding is still warming or cooling."


def short_sum_note(pins: Pins, check: SumCheck, standards: InForce) -> tuple[str, ...]:
    """A note when leads that were not zeroed would explain a sum that is a little short."""
    if pins.lead is not None or -check.difference < standards.value("windings.lead_least"):
        return ()
    short = quantity(-check.difference, "ohm", 2)
    return (
        (
            f"The largest falls {short} short of the sum, within tolerance; leads of {short} that were not zeroed do"
            " exactly that."
        ),
    )
