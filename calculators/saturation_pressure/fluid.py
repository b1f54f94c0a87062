"""One refrigerant out of the table of saturation pressures: pressure from temperature and temperature from pressure.

Between two temperatures of the table ln p is a straight line in 1/T, T in kelvin, as the Clausius-Clapeyron equation
has it for a small step. The same line is used both ways, so what goes out comes back.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from calculators.contract import quantity, rounded
from calculators.inputs import Problem, RefusedError
from calculators.limits import InForce

TABLE = "saturation"
ZERO_CELSIUS = 273.15


@dataclass(frozen=True)
class Segment:
    """Two neighbouring lines of the table, in °C and kPa absolute, between which a value is read."""

    cold: float
    warm: float
    low: float
    high: float

    def pressure(self, degrees: float) -> float:
        """The pressure on the straight line of ln p over 1/T."""
        part = (_inverse(degrees) - _inverse(self.cold)) / (_inverse(self.warm) - _inverse(self.cold))
        return math.exp(math.log(self.low) + part * (math.log(self.high) - math.log(self.low)))

    def temperature(self, pressure: float) -> float:
        """The temperature on the same line."""
        part = (math.log(pressure) - math.log(self.low)) / (math.log(self.high) - math.log(self.low))
        return 1.0 / (_inverse(self.cold) + part * (_inverse(self.warm) - _inverse(self.cold))) - ZERO_CELSIUS


def _inverse(degrees: float) -> float:
    return 1.0 / (degrees + ZERO_CELSIUS)


@dataclass(frozen=True)
class Curve:
    """The pressure of one line, dew or bubble, over temperature."""

    degrees: tuple[float, ...]
    pressures: tuple[float, ...]

    def at(self, degrees: float) -> Segment:
        """The lines of the table on both sides of a temperature."""
        return self._segment(bisect_right(self.degrees, degrees))

    def around(self, pressure: float) -> Segment:
        """The lines of the table on both sides of a pressure."""
        return self._segment(bisect_right(self.pressures, pressure))

    def pressure(self, degrees: float) -> float:
        """Saturation pressure in kPa absolute; the temperature has to be in the table."""
        return self.at(degrees).pressure(degrees)

    def temperature(self, pressure: float) -> float:
        """Saturation temperature in °C; the pressure has to be in the table."""
        return self.around(pressure).temperature(pressure)

    def has(self, pressure: float) -> bool:
        """Whether a pressure lies in the table."""
        return self.pressures[0] <= pressure <= self.pressures[-1]

    def _segment(self, above: int) -> Segment:
        warm = min(max(above, 1), len(self.degrees) - 1)
        return Segment(self.degrees[warm - 1], self.degrees[warm], self.pressures[warm - 1], self.pressures[warm])


@dataclass(frozen=True)
class Fluid:
    """A refrigerant: its name, its two lines (one and the same for a pure fluid), and where they end."""

    name: str
    blend: bool
    flammable: bool
    dew: Curve
    bubble: Curve
    critical_degrees: float
    critical_pressure: float
    source: str

    @property
    def lines(self) -> tuple[tuple[str, Curve], ...]:
        """The lines by name: dew and bubble of a blend, the one line of a pure fluid without a name."""
        return (("dew", self.dew), ("bubble", self.bubble)) if self.blend else (("", self.dew),)

    @property
    def coldest(self) -> float:
        """The first temperature of the table."""
        return self.dew.degrees[0]

    @property
    def warmest(self) -> float:
        """The last temperature of the table."""
        return self.dew.degrees[-1]

    def covers(self, degrees: float) -> bool:
        """Whether a temperature lies in the table."""
        return self.coldest <= degrees <= self.warmest

    def refuse_temperature(self, name: str, label: str, degrees: float) -> None:
        """Raise a refusal where the table has no such temperature."""
        if self.covers(degrees):
            return
        if degrees >= self.critical_degrees:
            why = (
                f"is above the critical temperature of {self.name}, {rounded(self.critical_degrees, 1)} °C: there is "
                "no saturation up there"
            )
        else:
            why = f"is outside the table of {self.name}"
        raise RefusedError(
            Problem(
                name,
                f"{label}: {_both(degrees)} {why}. Enter {_both(self.coldest)} to {_both(self.warmest)}.",
            )
        )

    def refuse_pressure(self, name: str, label: str, pressure: float) -> None:
        """Raise a refusal where one of the lines has no such pressure."""
        low, high = self.dew.pressures, self.bubble.pressures
        least, most = max(self.bubble.pressures[0], low[0]), min(self.dew.pressures[-1], high[-1])
        if least <= pressure <= most:
            return
        if pressure >= self.critical_pressure:
            why = (
                f"is above the critical pressure of {self.name}, {quantity(self.critical_pressure, 'kPa_abs', 0)}: "
                "there is no saturation up there"
            )
        elif pressure > most:
            why = f"is above the table of {self.name}, which ends at {_both(self.warmest)}"
        else:
            why = (
                f"is below the table of {self.name}, which begins at {_both(self.coldest)}; a machine at rest in a "
                "room with so little has no liquid in it"
            )
        raise RefusedError(
            Problem(
                name,
                f"{label}: {quantity(pressure, 'kPa_abs', 1)} {why}. Check the number, its unit and the refrigerant; "
                f"the table takes {rounded(least, 1)} to {quantity(most, 'kPa_abs', 1)}.",
            )
        )


def _both(degrees: float) -> str:
    return f"{quantity(degrees, 'degC', 1)} ({quantity(degrees, 'degF', 1)})"


def fluid_of(key: str, standards: InForce) -> Fluid:
    """The refrigerant that was picked; a refusal when none was."""
    row = standards.table(TABLE).row(key)
    if row is None:
        raise RefusedError(
            Problem(
                "refrigerant",
                "Refrigerant is missing. Choose the one that the plate of this machine prints; "
                "with a wrong one every number here is wrong.",
            )
        )
    return Fluid(
        str(row["label"]),
        row["kind"] == "blend",
        row["safety_class"] == "A3",
        _curve(row, "dew_kPa_abs"),
        _curve(row, "bubble_kPa_abs"),
        float(row["critical_degC"]),
        float(row["critical_kPa_abs"]),
        str(row["source"]),
    )


def _curve(row: Mapping[str, Any], name: str) -> Curve:
    pressures = row[name] if name in row else row["kPa_abs"]
    return Curve(tuple(float(one) for one in row["at_degC"]), tuple(float(one) for one in pressures))
