"""What a meter showed: a value, its unit's base value, and how far the truth may lie from it.

A meter's accuracy limit is +-(percent of reading + counts x resolution of the range in use),
the form printed in meter data sheets (EURAMET cg-15 practice, from memory).
The limit +-a is what verdicts use. For propagation the standard uncertainty of a rectangular
distribution is a / sqrt(3) (JCGM 100:2008, 4.3.7).

>>> round(Reading.taken(4.2, Meter(percent=0.5, counts=3, resolution=0.1)).band, 3)
0.321
"""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True)
class Meter:
    """A meter's accuracy limit: percent of reading, and counts of the given resolution (base unit)."""

    percent: float
    counts: float
    resolution: float

    @property
    def counts_band(self) -> float:
        """The part of the limit that does not grow with the reading, in base units."""
        return self.counts * self.resolution

    def gain_band(self, value: float) -> float:
        """The part that grows with the reading; readings taken with one meter share its sign."""
        return abs(value) * self.percent / 100.0

    def band(self, value: float) -> float:
        """The whole accuracy limit +-a at this value, in base units."""
        return self.gain_band(value) + self.counts_band


@dataclass(frozen=True)
class Reading:
    """A value in base units with its accuracy limit +-band, or an open line (value is infinite)."""

    value: float
    band: float
    meter: Meter

    @classmethod
    def taken(cls, value: float, meter: Meter) -> Reading:
        """A reading of value taken with this meter."""
        if math.isinf(value):
            return cls(value, 0.0, meter)
        return cls(value, meter.band(value), meter)

    @property
    def open_line(self) -> bool:
        """True when the meter showed over-range (OL): a reading, not an error."""
        return math.isinf(self.value)

    @property
    def low(self) -> float:
        """The least the true value can be."""
        return self.value - self.band

    @property
    def high(self) -> float:
        """The most the true value can be."""
        return self.value + self.band

    @property
    def standard_uncertainty(self) -> float:
        """a / sqrt(3): the limit taken as a rectangular distribution (JCGM 100:2008, 4.3.7)."""
        return self.band / math.sqrt(3.0)

    @property
    def relative_band(self) -> float:
        """The band as a part of the reading; infinite at zero."""
        return self.band / abs(self.value) if self.value else math.inf


def in_quadrature(*bands: float) -> float:
    """Combine independent bands: the root of the sum of squares (JCGM 100:2008, 5.1.2)."""
    return math.sqrt(math.fsum(band * band for band in bands))
