"""Hot readings reckoned back to the moment of switch-off: least squares of ln R over time.

ln R = ln R0 + b t, every reading with the same weight. R0 is a weighted product of the readings; with one reading
there is no line, and R0 is the reading itself. A winding cools fastest at first, so this reads low, never high.
Valid for the first minutes after switch-off.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Line:
    """ln R over time: its value at switch-off, its slope, and what each reading weighs in that value."""

    log_ohms: float
    slope: float
    weights: tuple[float, ...]
    scatter: float

    @property
    def ohms(self) -> float:
        """The resistance at switch-off."""
        return math.exp(self.log_ohms)

    @property
    def scatter_band(self) -> float:
        """Twice the standard uncertainty of ln R0 by the scatter of the readings about the line."""
        return 2.0 * self.scatter * math.sqrt(math.fsum(weight * weight for weight in self.weights))

    def at(self, seconds: float) -> float:
        """The resistance on the line at a time."""
        return math.exp(self.log_ohms + self.slope * seconds)


def cooling_line(times: Sequence[float], ohms: Sequence[float]) -> Line:
    """The line through the readings; needs distinct times.

    >>> round(cooling_line([30.0, 60.0, 90.0], [13.3, 13.2, 13.1]).ohms, 3)
    13.401
    """
    logs = [math.log(one) for one in ohms]
    if len(times) == 1:
        return Line(logs[0], 0.0, (1.0,), 0.0)
    count = len(times)
    mean = math.fsum(times) / count
    spread = math.fsum((one - mean) ** 2 for one in times)
    weights = tuple(1.0 / count - mean * (one - mean) / spread for one in times)
    slope = math.fsum((one - mean) * log for one, log in zip(times, logs, strict=True)) / spread
    at_zero = math.fsum(weight * log for weight, log in zip(weights, logs, strict=True))
    misses = [log - at_zero - slope * one for one, log in zip(times, logs, strict=True)]
    scatter = math.sqrt(math.fsum(miss * miss for miss in misses) / (count - 2)) if count > 2 else 0.0
    return Line(at_zero, slope, weights, scatter)
