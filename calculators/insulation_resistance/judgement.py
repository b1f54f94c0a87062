"""Where the readings lie: against the two limits as they were taken, with what they can prove in their condition.

The reading as taken decides. Temperature never enters here, so no correction can turn a fail into a pass.
Leakage beside the winding and a weak test voltage can only make a reading better or worse than the winding is
in one direction each: a low reading through dirt does not accuse the winding, a high one at a few volts clears nothing.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from calculators.findings import Placement, Verdict, judge_pair, judge_side
from calculators.insulation_resistance.inputs import PLACES, WHOLE
from calculators.insulation_resistance.readings import Insulation, exact
from calculators.limits import InForce, Limit
from calculators.readings import Meter
from calculators.units import from_base

_ORDER = (Verdict.OUTSIDE, Verdict.UNDECIDED, Verdict.WATCH, Verdict.WITHIN)


@dataclass(frozen=True)
class Judged:
    """One place with its verdict, and why it has no better or no clearer one.

    why: low, state (low, but not shown to be the winding), band, volts, range, watch, good.
    """

    place: Insulation
    verdict: Verdict
    why: str


@dataclass(frozen=True)
class Fall:
    """How far a reading fell during the test, as a part of its first reading, with the ends of its band.

    low is minus infinity where the first reading may have been nothing but counts.
    """

    place: Insulation
    first: float
    part: float
    low: float
    high: float
    verdict: Verdict


@dataclass(frozen=True)
class Case:
    """Everything that decides: the readings, the test voltage, the pins' condition, and the limits in force."""

    places: tuple[Insulation, ...]
    test_volts: float | None
    pin_state: str
    repeated: bool
    standards: InForce

    @property
    def pins(self) -> tuple[Insulation, ...]:
        """The pins that were measured."""
        return tuple(one for one in self.places if one.field in PLACES)

    @property
    def whole(self) -> Insulation | None:
        """The whole machine from its plug, where that was measured."""
        return next((one for one in self.places if one.field == WHOLE), None)

    @property
    def missing(self) -> tuple[str, ...]:
        """The fields of the pins that were not measured."""
        measured = {one.field for one in self.places}
        return tuple(field for field in PLACES if field not in measured)

    @property
    def accepted(self) -> Limit:
        """The limit above which insulation is accepted."""
        return self.standards.limit("insulation.pass")

    @property
    def refused(self) -> Limit:
        """The limit below which there is no power."""
        return self.standards.limit("insulation.fail")

    @property
    def weak_volts(self) -> bool:
        """True when the test voltage is not known to be enough for a high reading to mean anything."""
        return self.test_volts is None or self.test_volts < self.standards.value("insulation.test_volts")

    def with_meter(self, meter: Meter) -> Case:
        """The same readings as another tester would have shown them."""
        return replace(self, places=tuple(replace(one, meter=meter) for one in self.places))

    def with_top(self, top: float) -> Case:
        """The same readings on a range that reaches up to top, ohm."""
        return replace(self, places=tuple(replace(one, top=top) for one in self.places))

    def judged(self, place: Insulation) -> Judged:
        """One place against both limits, in the condition it was taken."""
        placed = self._placed(place)
        if placed.verdict is Verdict.OUTSIDE:
            blamed = place.field == WHOLE or self.pin_state == "bare"
            return Judged(place, Verdict.OUTSIDE if blamed else Verdict.UNDECIDED, "low" if blamed else "state")
        if self.weak_volts:
            return Judged(place, Verdict.UNDECIDED, "volts")
        if placed.verdict is Verdict.WITHIN:
            return Judged(place, Verdict.WITHIN, "good")
        if place.open_line:
            return Judged(place, Verdict.UNDECIDED, "range")
        decided = placed.verdict is Verdict.WATCH
        return Judged(place, placed.verdict, "watch" if decided else "band")

    def _placed(self, place: Insulation) -> Placement:
        value, low, high = (exact(from_base(one, self.refused.unit)) for one in (place.ohms, place.low, place.high))
        return judge_pair(value, low, high, warn=self.accepted, fail=self.refused)

    @property
    def worst_pin(self) -> Judged | None:
        """The pin that decides: the worst verdict, the lowest reading among several; None without pins."""
        judged = [self.judged(pin) for pin in self.pins]
        return min(judged, key=lambda one: (_ORDER.index(one.verdict), one.place.low), default=None)

    @property
    def judged_whole(self) -> Judged | None:
        """The whole machine from its plug, judged; None when it was not measured."""
        return None if self.whole is None else self.judged(self.whole)

    def falls(self) -> tuple[Fall, ...]:
        """Every reading that fell, or may have fallen, further than the limit allows.

        Where the reading is low already, a fall that is not certain is left out: the low reading has its own finding.
        """
        found = tuple(fall for fall in map(self.fall, self.places) if fall is not None)
        certain = tuple(fall for fall in found if fall.verdict is Verdict.OUTSIDE)
        return certain + tuple(
            fall
            for fall in found
            if fall.verdict is Verdict.UNDECIDED and self.judged(fall.place).why not in ("low", "state")
        )

    def fall(self, place: Insulation) -> Fall | None:
        """How far a place fell from its first reading; None where that cannot be told from the entries at all.

        The tester's gain is shared by both readings and cancels in their ratio; counts are independent, taken linearly.
        """
        first, last, counts = place.first, place.ohms, place.meter.counts_band
        if not first or place.open_line:
            return None
        if math.isinf(first):
            least = place.least_of(first)
            part = low = 0.0 if place.high >= least else 1.0 - place.high / least
            high = 1.0
        else:
            part = 1.0 - last / first
            low = 1.0 - (last + counts) / (first - counts) if first > counts else -math.inf
            high = min(1.0 - (last - counts) / (first + counts), 1.0)  # nothing is less than no insulation
        limit = self.standards.limit("insulation.most_fall")
        percents = (exact(100.0 * one) for one in (part, low, high))
        placed = judge_side(*percents, limit=limit.value, side=limit.side, guard=limit.guard)
        return Fall(place, first, part, low, high, placed.verdict)
