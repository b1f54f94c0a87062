"""Which expected amps does a reading get compared with, and do the pieces of evidence contradict each other?

The best rank wins. A, B and D that overlap are combined by the mean of their logarithms with weights 1/h²
(JCGM 100:2008, independent pieces), the band no smaller than a floor. C, the printed rated-load amps, is a
heavy-load figure and stands alone. E, F and G move nothing that has A to D.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import combinations

from calculators.contract import Step, quantity, rounded
from calculators.expected_amps.evidence import FLOAT_DIGITS, Piece
from calculators.limits import InForce, Limit

_COMBINED = "ABD"
_WEAK = "EFG"


@dataclass(frozen=True)
class Reference:
    """The expected amps that a reading is compared with, and what they rest on."""

    pieces: tuple[Piece, ...]
    amps: float
    below: float
    above: float
    low_limit: Limit
    steps: tuple[Step, ...] = ()

    @property
    def ranks(self) -> str:
        """The ranks it rests on: "A", or "B+D"."""
        return "+".join(piece.rank for piece in self.pieces)

    @property
    def words(self) -> str:
        """What it rests on, in words."""
        return " and ".join(piece.words for piece in self.pieces)

    @property
    def weak(self) -> bool:
        """True when it rests on a rule of thumb or an upper bound: it never calls a motor normal."""
        return self.ranks in _WEAK

    @property
    def at_most(self) -> bool:
        """True when it is only an upper bound: the whole cabinet's amps."""
        return self.ranks == "G"

    @property
    def low(self) -> float:
        """The least amps it allows."""
        return round(self.amps * (1.0 - self.below), FLOAT_DIGITS)

    @property
    def high(self) -> float:
        """The most amps it allows."""
        return round(self.amps * (1.0 + self.above), FLOAT_DIGITS)

    def widened(self, extra: float) -> Reference:
        """The same with extra added to its half-bands (supply off the plate voltage, shared by every piece)."""
        return replace(self, below=self.below + extra, above=self.above + extra)


@dataclass(frozen=True)
class Conflict:
    """Two pieces that cannot both be true of this motor: where to look again, and why."""

    field: str
    sentence: str


def reference_of(pieces: tuple[Piece, ...], standards: InForce) -> Reference:
    """The expected amps: the best rank, with A, B and D combined where they overlap; C is never averaged."""
    best = min(pieces, key=lambda piece: piece.rank)
    on_rated_load = best.rank == "C"
    low_limit = standards.limit("amps.low_ratio_on_rated_load" if on_rated_load else "amps.low_ratio")
    together = [piece for piece in pieces if piece.rank in _COMBINED and best.rank in _COMBINED]
    if len(together) < 2 or _apart(together):
        return Reference((best,), best.amps, best.below, best.above, low_limit)
    return _combined(tuple(sorted(together, key=lambda piece: piece.rank)), low_limit, standards)


def _apart(pieces: list[Piece]) -> list[tuple[Piece, Piece]]:
    return [(one, other) for one, other in combinations(pieces, 2) if not other.overlaps(one.low, one.high)]


def _combined(pieces: tuple[Piece, ...], low_limit: Limit, standards: InForce) -> Reference:
    """The weighted mean of logarithms, weights 1/h²; the band no smaller than the floor."""
    weights = [1.0 / piece.below**2 for piece in pieces]
    total = math.fsum(weights)
    amps = math.exp(
        math.fsum(weight * math.log(piece.amps) for weight, piece in zip(weights, pieces, strict=True)) / total
    )
    floor = standards.limit("amps.combine_floor")
    alone = 1.0 / math.sqrt(total)
    band = max(alone, floor.value / 100.0)
    listed = ", ".join(f"{quantity(piece.amps, 'A', 2)} ±{rounded(100.0 * piece.below, 0)} %" for piece in pieces)
    step = Step(
        "Combined " + "+".join(piece.rank for piece in pieces),
        "ln I = Σ(ln I/h²) / Σ(1/h²),  h = 1/√Σ(1/h²)",
        listed,
        f"{quantity(amps, 'A', 2)} ±{rounded(100.0 * alone, 1)} %, taken as ±{rounded(100.0 * band, 1)} % "
        f"(no less than {floor.text})",
        "jcgm-100",
    )
    return Reference(pieces, amps, band, band, low_limit, (step,))


def conflicts_between(pieces: tuple[Piece, ...], reference: Reference, standards: InForce) -> tuple[Conflict, ...]:
    """Every pair that contradicts each other; with one of them there is no verdict."""
    by_rank = {piece.rank: piece for piece in pieces}
    found = [
        _against(other, one.words, one.low, one.high)
        for one, other in _apart([piece for piece in pieces if piece.rank in _COMBINED])
    ]
    rated = by_rank.get("C")
    low, high, words = reference.low, reference.high, reference.words
    if rated is not None:
        settled = (
            round(standards.value("amps.settled_low") * rated.low, FLOAT_DIGITS),
            round(standards.value("amps.settled_high") * rated.high, FLOAT_DIGITS),
        )
        if reference.ranks == "C":
            low, high, words = *settled, f"a settled cabinet with these {rated.words}"
            watts = by_rank.get("D")
            if watts is not None and not watts.overlaps(low, high):
                found.append(_against(watts, words, low, high))
        elif reference.low > settled[1] or reference.high < settled[0]:
            found.append(_against(rated, f"the running amps by {reference.words}", reference.low, reference.high))
    for rank in "EF":
        other = by_rank.get(rank)
        if other is not None and other not in reference.pieces and not other.overlaps(reference.low, reference.high):
            found.append(_against(other, reference.words, reference.low, reference.high))
    cabinet = by_rank.get("G")
    if cabinet is not None and not reference.at_most and low > cabinet.amps:
        found.append(_against(cabinet, words, low, high))
    return tuple(found)


def _against(piece: Piece, words: str, low: float, high: float) -> Conflict:
    verb = "says" if piece.words.endswith("horsepower") else "say"
    top = quantity(piece.high, "A", 2)
    said = f"at most {top}" if piece.rank == "G" else f"{rounded(piece.low, 2)} to {top}"
    return Conflict(piece.field, f"{piece.words} {verb} {said}, {words} {rounded(low, 2)} to {quantity(high, 'A', 2)}")
