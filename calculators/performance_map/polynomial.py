"""The ten-coefficient polynomial in which compressor makers print power, current, mass flow and capacity.

X = C1 + C2·S + C3·D + C4·S² + C5·S·D + C6·D² + C7·S³ + C8·S²·D + C9·S·D² + C10·D³, with S the evaporating and D
the condensing dew temperature, both in the unit the map states. AHRI 540 and EN 12900 use the same form (memory).

>>> round(Polynomial((1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 2.0)).at(5.0, 3.0), 1)
55.0
"""

from __future__ import annotations

import math
from dataclasses import dataclass

COEFFICIENTS = 10
_POWERS = ((0, 0), (1, 0), (0, 1), (2, 0), (1, 1), (0, 2), (3, 0), (2, 1), (1, 2), (0, 3))  # of S and D, C1 to C10


@dataclass(frozen=True)
class Polynomial:
    """C1 to C10, in the order of the print; temperatures in the unit that belongs to them."""

    coefficients: tuple[float, ...]

    def terms(self, evaporating: float, condensing: float) -> tuple[float, ...]:
        """The ten terms at a pair of temperatures, C1 first."""
        return tuple(
            coefficient * evaporating**first * condensing**second
            for coefficient, (first, second) in zip(self.coefficients, _POWERS, strict=True)
        )

    def at(self, evaporating: float, condensing: float) -> float:
        """The value at a pair of temperatures."""
        return math.fsum(self.terms(evaporating, condensing))

    def slope_evaporating(self, evaporating: float, condensing: float) -> float:
        """The change for each degree more of evaporating temperature, at a pair of temperatures."""
        return math.fsum(
            coefficient * first * evaporating ** max(first - 1, 0) * condensing**second
            for coefficient, (first, second) in zip(self.coefficients, _POWERS, strict=True)
        )

    def slope_condensing(self, evaporating: float, condensing: float) -> float:
        """The change for each degree more of condensing temperature, at a pair of temperatures."""
        return math.fsum(
            coefficient * second * evaporating**first * condensing ** max(second - 1, 0)
            for coefficient, (first, second) in zip(self.coefficients, _POWERS, strict=True)
        )
