"""What an insulation reading would be at 40 °C, by two rules that disagree. Shown, never used for a verdict.

Halving rule: R40 = R · 0.5^((40 − T) / 10), IEEE 43-2000 and -2013 for thermoplastic insulation and as rule of thumb.
Thermosetting: R40 = R · exp(−B (1/(T + 273) − 1/313)), IEEE 43-2013 (from memory), B = 4230 from 40 to 85 °C and
1245 from 10 to 40 °C. Neither was made for a winding in refrigerant and oil.
"""

from __future__ import annotations

import math

_REFERENCE = 40.0  # °C; IEEE 43 brings readings to this temperature
_ABOVE, _BELOW = 4230.0, 1245.0  # kelvin; IEEE 43-2013 6.3, above and below the reference (from memory)
_COLDEST, _HOTTEST = 10.0, 85.0  # °C; range of the thermosetting formula


def halving_factor(celsius: float) -> float:
    """The factor to 40 °C by halving for each 10 K.

    >>> round(halving_factor(35.0), 4), halving_factor(70.0)
    (0.7071, 8.0)
    """
    return float(0.5 ** ((_REFERENCE - celsius) / 10.0))


def thermosetting_factor(celsius: float) -> float | None:
    """The factor to 40 °C for thermosetting enamel; None outside 10 to 85 °C, where the formula says nothing.

    >>> round(thermosetting_factor(20.0) or 0.0, 3), thermosetting_factor(5.0)
    (0.762, None)
    """
    if not _COLDEST <= celsius <= _HOTTEST:
        return None
    return math.exp(-steepness_at(celsius) * (1.0 / (celsius + 273.0) - 1.0 / (_REFERENCE + 273.0)))


def steepness_at(celsius: float) -> float:
    """The exponent of the thermosetting formula, kelvin: one above the reference temperature and one below it."""
    return _ABOVE if celsius >= _REFERENCE else _BELOW
