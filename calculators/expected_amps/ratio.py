"""Where does the measured current lie against the expected one, with everything that is uncertain about both?

The ratio r = I / I expected carries U, the root of the sum of squares of the evidence's half-band and of
the clamp's (JCGM 100:2008, 5.1.2); it is placed with its whole band r(1 − U) to r(1 + U).
"""

from __future__ import annotations

from dataclasses import dataclass

from calculators.expected_amps.evidence import FLOAT_DIGITS, Piece, rated_load_of
from calculators.expected_amps.reference import Conflict, Reference
from calculators.findings import Placement, Verdict, judge, judge_pair
from calculators.limits import InForce, Limit
from calculators.readings import Meter, in_quadrature
from calculators.running_condition import Supply, is_starting


@dataclass(frozen=True)
class RatioBand:
    """The measured amps as a part of the expected ones, with its band, and the halves of that band as parts."""

    value: float
    low: float
    high: float
    clamp: float
    whole: float


@dataclass(frozen=True)
class Case:
    """Everything one verdict rests on."""

    pieces: tuple[Piece, ...]
    reference: Reference
    conflicts: tuple[Conflict, ...]
    amps: float
    clamp: Meter
    supply: Supply
    run_seconds: float | None
    standards: InForce

    @property
    def rated_load(self) -> float | None:
        """The rated-load amps printed on the compressor, if they were entered."""
        return rated_load_of(self.pieces)

    @property
    def starting(self) -> bool:
        """True when the reading is known to be from the first seconds."""
        return is_starting(self.run_seconds, self.standards)

    @property
    def band(self) -> RatioBand:
        """The ratio of this reading to the expected amps."""
        return ratio_band(self.amps, self.clamp, self.reference)


def ratio_band(amps: float, clamp: Meter, reference: Reference) -> RatioBand:
    """r with r(1 − U) and r(1 + U); the evidence's band upward lowers r, its band downward raises it."""
    ratio, meter = amps / reference.amps, clamp.band(amps) / amps
    whole = in_quadrature(reference.above, meter)
    low, high = ratio * (1.0 - whole), ratio * (1.0 + in_quadrature(reference.below, meter))
    return RatioBand(*(round(one, FLOAT_DIGITS) for one in (ratio, max(low, 0.0), high, meter, whole)))


@dataclass(frozen=True)
class Placed:
    """Where a ratio lies, and the limit that said so."""

    placement: Placement
    limit: Limit
    low: bool = False

    @property
    def verdict(self) -> Verdict:
        """The verdict alone."""
        return self.placement.verdict


def place(band: RatioBand, reference: Reference, standards: InForce) -> Placed:
    """Between the low, the high and the stop limit; weak evidence can only be outside or undecided."""
    high, stop = standards.limit("amps.high_ratio"), standards.limit("amps.stop_ratio")
    if reference.weak:
        return _place_weakly(band, reference, high)
    upper = judge_pair(band.value, band.low, band.high, warn=high, fail=stop)
    lower = judge(band.value, band.low, band.high, reference.low_limit)
    if upper.verdict is Verdict.WITHIN and lower.verdict is Verdict.WITHIN:
        return Placed(Placement(Verdict.WITHIN, upper.crossing or lower.crossing), high)
    if lower.verdict is not Verdict.WITHIN:
        return Placed(lower, reference.low_limit, low=True)
    return Placed(upper, stop if upper.verdict is Verdict.OUTSIDE else high)


def _place_weakly(band: RatioBand, reference: Reference, high: Limit) -> Placed:
    if band.low > high.value:
        return Placed(Placement(Verdict.OUTSIDE), high)
    low = reference.low_limit
    if band.high < low.value and not reference.at_most:
        return Placed(Placement(Verdict.OUTSIDE), low, low=True)
    below = band.value < low.value and not reference.at_most
    return Placed(Placement(Verdict.UNDECIDED, crossing=True), low if below else high, low=below)
