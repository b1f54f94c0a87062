"""What is made of many times: the middle of them, how far they lie apart, and how slow the slowest few are."""

from __future__ import annotations

import math
import statistics
from collections.abc import Sequence

from build_scripts.read_measurements import Spread


def spread(values: Sequence[float], digits: int = 1) -> Spread:
    """The median of runs of the same thing, with the least and the most."""
    rounded = [round(value, digits) for value in values]
    return Spread(
        middle=round(statistics.median(values), digits), least=min(rounded), most=max(rounded), runs=len(rounded)
    )


def once(value: float, digits: int = 2) -> Spread:
    """One number that comes out the same each time, such as a size."""
    return spread([value], digits)


def percentile(values: Sequence[float], percent: float) -> float:
    """The value that so many percent of all values do not exceed."""
    ordered = sorted(values)
    return ordered[max(0, math.ceil(len(ordered) * percent / 100) - 1)]
