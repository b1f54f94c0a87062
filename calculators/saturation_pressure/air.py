"""The pressure of the air at the place: what a gauge reads from, and what has to be added to its reading."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.contract import quantity
from calculators.inputs import Entered, Problem, RefusedError
from calculators.limits import InForce

# ISO 2533 and U.S. Standard Atmosphere 1976 below 11 km, in the short form that handbooks of air conditioning print.
SEA_LEVEL, PER_METRE, POWER = 101.325, 2.25577e-5, 5.2559


@dataclass(frozen=True)
class Air:
    """The air's pressure in kPa with how far it may be off, and where it is from: altitude, barometer or nothing."""

    pressure: float
    band: float
    origin: str
    altitude: float

    @property
    def words(self) -> str:
        """Where the pressure is from."""
        if self.origin == "barometer":
            return "by the barometer"
        return f"at {self.altitude:g} m by the standard atmosphere" if self.origin == "altitude" else "at sea level"


def standard_atmosphere(altitude: float) -> float:
    """The air's pressure in kPa at an altitude in metres."""
    return float(SEA_LEVEL * (1.0 - PER_METRE * altitude) ** POWER)


def air_of(entered: Entered, standards: InForce) -> Air:
    """What is known of the air: a barometer wins over an altitude, and both have to fit each other.

    Weather moves the air's pressure around that of the altitude; the barometer has its own small error.
    """
    altitude, barometer = entered.number("altitude"), entered.number("barometer")
    height = 0.0 if altitude is None else altitude
    weather = standards.value("pressures.weather") / 100.0
    standard = standard_atmosphere(height)
    if barometer is None:
        return Air(standard, weather * standard, "nothing" if altitude is None else "altitude", height)
    if altitude is not None and abs(barometer - standard) > weather * standard:
        raise RefusedError(
            Problem(
                "barometer",
                f"Barometer: {quantity(barometer, 'kPa_abs', 1)} does not fit an altitude of {altitude:.5g} m, where "
                f"the air has about {quantity(standard, 'kPa_abs', 1)}. Enter what a barometer at the place shows, "
                "not the figure of a weather report, which is brought to sea level; or correct the altitude.",
            )
        )
    return Air(barometer, standards.value("pressures.barometer_band") / 100.0 * barometer, "barometer", height)
