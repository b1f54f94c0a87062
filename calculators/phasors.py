"""What is left of a current when the currents of other loads on the same conductor are taken off.

Currents of loads side by side add as phasors, so a total tells the part that is looked for only as well as the angles
between them are known. Each current carries the span of its size and of its angle to the volts (lag positive).
From |I total|² = x² + 2·x·p + |L|², with p the other currents along x and L their sum, x = −p + √(p² + I² − |L|²):
it falls with p and with |L|², so their ends give its ends. These are worst-case ends: no error is left to chance.
Where |L| may be more than the total (a load that leads beside one that lags), a lesser x is possible as well.

Source: addition of currents at a node and the law of cosines (T. R. Kuphaldt, Lessons In Electric Circuits, parallel ac
circuits). Valid for sine waves; with a span of 180 degrees it is the triangle inequality, which holds for any waveform.

>>> apart((0.0, 0.0), (60.0, 90.0))
(60.0, 90.0)
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations

Lags = tuple[float, float]  # the least and the most degrees behind the volts, from −90 to 90


@dataclass(frozen=True)
class Branch:
    """One current: its least and most amps, and the least and most degrees behind the volts (ahead is minus)."""

    low: float
    high: float
    least_lag: float
    most_lag: float

    @property
    def lags(self) -> Lags:
        """Its angles alone."""
        return self.least_lag, self.most_lag


def apart(one: Lags, other: Lags) -> tuple[float, float]:
    """The least and the most degrees between two currents, from 0 to 180."""
    least = max(one[0] - other[1], other[0] - one[1], 0.0)
    return least, max(one[1] - other[0], other[1] - one[0])


def lag_of(power_factor: float) -> float:
    """Degrees between volts and current at a power factor.

    >>> lag_of(0.5), lag_of(1.0), lag_of(0.0)
    (60.0, 0.0, 90.0)
    """
    return round(math.degrees(math.acos(power_factor)), 9)


@dataclass(frozen=True)
class Left:
    """What is left: the least and the most amps, and the spans that they come from."""

    least: float
    most: float
    along: tuple[float, float]
    square: tuple[float, float]


def remaining(low: float, high: float, own: Lags, others: Sequence[Branch]) -> Left | None:
    """The least and the most amps of the part looked for, from a total between low and high; None when it cannot be.

    own are the angles of that part. None means that the others alone are more than the total.
    """
    along = _sum(_scaled(_cosines(apart(own, one.lags)), one.low, one.high) for one in others)
    pairs = _sum(
        _scaled(_cosines(apart(one.lags, other.lags)), one.low * other.low, one.high * other.high)
        for one, other in combinations(others, 2)
    )
    alone = _sum((one.low**2, one.high**2) for one in others)
    square = (max(alone[0] + 2.0 * pairs[0], 0.0), alone[1] + 2.0 * pairs[1])
    most = _root(high, along[0], square[0])
    if most is None:
        return None
    if square[1] <= low * low:
        least = _root(low, along[1], square[1]) or 0.0
    else:  # x² + 2·p·x + L² − I² = 0 may have two roots above zero, whose product is L² − I²: this is the lesser
        least = max(square[0] - high * high, 0.0) / most
    return Left(least, most, along, square)


def _sum(spans: Iterable[tuple[float, float]]) -> tuple[float, float]:
    listed = list(spans)
    return math.fsum(one[0] for one in listed), math.fsum(one[1] for one in listed)


def _root(total: float, along: float, square: float) -> float | None:
    """x = −p + √(p² + I² − |L|²); None where there is no x above zero."""
    inside = along * along + total * total - square
    if inside < 0.0:
        return None
    found = round(math.sqrt(inside) - along, 12)
    return found if found > 0.0 else None


def _cosines(degrees: tuple[float, float]) -> tuple[float, float]:
    """The least and the most cosine between these angles, exact at 0, 90 and 180 degrees."""
    exact = {0.0: 1.0, 90.0: 0.0, 180.0: -1.0}
    least, most = (exact.get(one, math.cos(math.radians(one))) for one in (degrees[1], degrees[0]))
    return least, most


def _scaled(span: tuple[float, float], low: float, high: float) -> tuple[float, float]:
    """The least and the most of a factor in span times a size between low and high."""
    ends = [factor * size for factor in span for size in (low, high)]
    return min(ends), max(ends)
