"""How fast does a winding heat while it stands still?

dT/dt = J^2 rho / (c d), the heat staying in the copper: J the current density, rho the resistivity at the winding's
temperature, c the specific heat, d the density. Valid for the first seconds; the truth is somewhat slower.
Sources: copper at 20 °C 1/58 ohm mm2/m and 234.5 (IEC 60028); c 385 J/(kg K) and d 8960 kg/m3, from memory.

>>> round(heating_rate(20.0), 1), round(heating_rate(80.0))
(2.4, 38)
"""

from __future__ import annotations

_OHM_MM2_PER_M_AT_20 = 1.0 / 58.0
_ZERO_RESISTANCE_BELOW = 234.5
_JOULE_PER_KG_K = 385.0
_KG_PER_M3 = 8960.0
WARM = 70.0  # °C, a winding that has hummed before; a warmer one heats faster
DENSITIES = (20.0, 40.0, 80.0)  # A/mm2, run windings at the low end and start windings at the high end


def heating_rate(density: float, celsius: float = WARM) -> float:
    """Kelvin a second at a current density in A/mm2."""
    warmer = (_ZERO_RESISTANCE_BELOW + celsius) / (_ZERO_RESISTANCE_BELOW + 20.0)
    ohm_metres = _OHM_MM2_PER_M_AT_20 * warmer * 1e-6
    return (density * 1e6) ** 2 * ohm_metres / (_JOULE_PER_KG_K * _KG_PER_M3)
