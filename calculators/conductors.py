"""How many ohms has this wire, at this temperature, there and back?

Reads rows of the conductor tables (IEC 60228; NEC Chapter 9 Tables 8 and 9). Each row is of one conductor, with its
resistance at the temperature of the print; a circuit of two conductors has twice its length in it.
Says nothing about the current a wire may carry. A size that the table lacks is not interpolated.

Source for temperature: R2 = R1 (k + T2) / (k + T1). Copper k = 1 / 0.00393 - 20 = 234.5, from the coefficient of
IEC 60028 (memory). Aluminium conductors k = 228.1, which gives the 0.00330 at 75 °C of the note to NEC Chapter 9
Table 8. Aluminium windings are another metal, with 225.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from calculators.limits import InForce
from calculators.units import from_base, to_base

ZERO_RESISTANCE_BELOW = {"copper": 234.5, "aluminium": 228.1}  # °C below zero; sources above
SQUARE_MM_IN_CIRCULAR_MIL = 5.067075e-4  # pi/4 x (0.0254 mm)^2, by definition


@dataclass(frozen=True)
class Conductor:
    """One row of a table: one conductor, ohm per km at the temperature of the print."""

    id: str
    label: str
    family: str
    metal: str
    square_mm: float
    ohm_per_km: float
    reactance_per_km: float | None
    printed_at: float
    source: str

    @classmethod
    def from_row(cls, row: Mapping[str, Any]) -> Conductor:
        """Read a row of a conductor table; the digits of the print are in its own unit."""
        unit = str(row["unit"])
        area = row["mm2"] if "mm2" in row else row["circular_mils"] * SQUARE_MM_IN_CIRCULAR_MIL
        reactance = to_base(float(row["reactance"]), unit) if "reactance" in row else None
        return cls(
            id=str(row["id"]),
            label=str(row["label"]),
            family=str(row["family"]),
            metal=str(row["metal"]),
            square_mm=float(area),
            ohm_per_km=to_base(float(row["resistance"]), unit),
            reactance_per_km=reactance,
            printed_at=float(row["at_degC"]),
            source=str(row["source"]),
        )

    def ohm_per_km_at(self, temperature: float) -> float:
        """Resistance of one conductor, ohm per km, at a conductor temperature in °C."""
        return at_temperature(self.ohm_per_km, self.metal, self.printed_at, temperature)

    def loop(self, metres: float, temperature: float) -> complex:
        """Resistance and reactance there and back, ohm, of a run of this length one way."""
        return loop_ohms(complex(self.ohm_per_km_at(temperature), self.reactance_per_km or 0.0), metres)


def at_temperature(ohms: float, metal: str, printed_at: float, wanted_at: float) -> float:
    """Bring a conductor's resistance from one temperature to another, both °C.

    >>> round(at_temperature(1.0, "copper", 75.0, 20.0), 3)
    0.822
    """
    below = ZERO_RESISTANCE_BELOW[metal]
    return ohms * (below + wanted_at) / (below + printed_at)


def loop_ohms(per_km: complex, metres: float) -> complex:
    """Ohms there and back of a two-wire circuit: 2 x length one way x ohm per km.

    >>> round(loop_ohms(26.0, 15.0).real, 2)
    0.78
    """
    return complex(2.0 * metres * per_km / 1000.0)


def find_conductor(table: str, id: str, standards: InForce) -> Conductor:
    """The conductor of this id; KeyError when the table has none."""
    row = standards.table(table).row(id)
    if row is None:
        raise KeyError(id)
    return Conductor.from_row(row)


def sizes_like(conductor: Conductor, table: str, standards: InForce) -> tuple[Conductor, ...]:
    """Every size of the same family in the table, thinnest first."""
    rows = (Conductor.from_row(row) for row in standards.table(table).rows)
    return tuple(sorted((one for one in rows if one.family == conductor.family), key=lambda one: one.square_mm))


def feet(metres: float) -> float:
    """A length in feet."""
    return from_base(metres, "ft")
