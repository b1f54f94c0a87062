"""What was entered, put together: the refrigerant, the air, the pressure read, and the comparison at rest."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calculators.contract import quantity, rounded
from calculators.findings import Placement, Verdict, judge
from calculators.inputs import Entered, Problem, RefusedError
from calculators.limits import InForce, Limit
from calculators.readings import Reading
from calculators.saturation_pressure.air import Air, air_of
from calculators.saturation_pressure.fluid import Curve, Fluid, fluid_of

_FLOAT_DIGITS = 9  # a reading on a limit stays on it, in whatever unit it was typed


@dataclass(frozen=True)
class Span:
    """A value with the ends of its band."""

    value: float
    low: float
    high: float

    @property
    def ends(self) -> str:
        """The band in words, in percent; the upper end is open where nothing bounds it."""
        if math.isinf(self.high):
            return f"from {rounded(self.low, 1)} % up"
        return f"from {rounded(self.low, 1)} to {rounded(self.high, 1)} %"


@dataclass(frozen=True)
class Pressure:
    """A pressure that was read, in kPa absolute: its band is the gauge's, and the air's for a gauge reading."""

    value: float
    band: float
    gauge: Reading | None

    @property
    def low(self) -> float:
        """The least it can be."""
        return self.value - self.band

    @property
    def high(self) -> float:
        """The most it can be."""
        return self.value + self.band


@dataclass(frozen=True)
class Standing:
    """The pressure of a machine at rest beside saturation at the ambient temperature, in percent of it.

    share is taken of the dew line for the lower limit and of the bubble line for the upper one: with both liquid and
    vapour in a blend its pressure lies between the two.
    """

    ambient: Reading
    hours: float | None
    of_dew: Span
    of_bubble: Span
    low_limit: Limit
    high_limit: Limit
    weak_band: Limit
    rest: Limit

    @property
    def low(self) -> Placement:
        """The pressure against the lower limit."""
        return judge(self.of_dew.value, self.of_dew.low, self.of_dew.high, self.low_limit)

    @property
    def high(self) -> Placement:
        """The pressure against the upper limit."""
        return judge(self.of_bubble.value, self.of_bubble.low, self.of_bubble.high, self.high_limit)

    @property
    def rested(self) -> bool:
        """Whether the machine is known to have been at rest for long enough."""
        return self.hours is not None and self.hours / 3600.0 >= self.rest.value

    @property
    def decided(self) -> bool:
        """Whether the pressures alone give a verdict."""
        verdicts = (self.low.verdict, self.high.verdict)
        return Verdict.OUTSIDE in verdicts or (Verdict.UNDECIDED not in verdicts and not self.weak)

    @property
    def weak(self) -> bool:
        """Whether the band is so wide that a pressure inside the limits says nothing."""
        return self.of_dew.high - self.of_dew.low > self.weak_band.value


@dataclass(frozen=True)
class Case:
    """Everything that can be looked up or compared from what was entered."""

    fluid: Fluid
    air: Air
    temperature: float | None
    pressure: Pressure | None
    ambient: float | None
    standing: Standing | None
    entered: Entered
    standards: InForce


def case_of(entered: Entered, standards: InForce) -> Case:
    """Put the entries together; refuse what contradicts itself or lies outside the table."""
    fluid = fluid_of(entered.choice("refrigerant"), standards)
    air = air_of(entered, standards)
    temperature, ambient = entered.number("temperature"), entered.number("ambient_temperature")
    if temperature is not None:
        fluid.refuse_temperature("temperature", "Temperature", temperature)
    if ambient is not None:
        fluid.refuse_temperature("ambient_temperature", "Ambient temperature", ambient)
    pressure = _pressure_of(entered, fluid, air)
    if temperature is None and ambient is None and pressure is None:
        raise RefusedError(
            Problem(
                "temperature",
                "Temperature is missing, and so is a pressure. Enter a temperature to get the saturation pressure, "
                "or a pressure to get the saturation temperature.",
            )
        )
    standing = None if pressure is None or ambient is None else _standing(pressure, fluid, entered, standards)
    return Case(fluid, air, temperature, pressure, ambient, standing, entered, standards)


def _pressure_of(entered: Entered, fluid: Fluid, air: Air) -> Pressure | None:
    gauge, absolute = entered.reading("gauge_pressure"), entered.reading("absolute_pressure")
    if gauge is not None and absolute is not None:
        raise RefusedError(
            Problem(
                "absolute_pressure",
                "Absolute pressure: a gauge pressure is entered as well. Enter the one that was read and leave the "
                "other empty.",
            )
        )
    if absolute is not None:
        fluid.refuse_pressure("absolute_pressure", "Absolute pressure", absolute.value)
        return Pressure(absolute.value, absolute.band, None)
    if gauge is None:
        return None
    if air.origin == "nothing":
        raise RefusedError(
            Problem(
                "altitude",
                "Altitude is missing. A gauge reads from the pressure of the air, which changes with the place: enter "
                "the altitude, 0 at the sea, or what a barometer at the place shows.",
            )
        )
    value = gauge.value + air.pressure
    if value <= 0.0:
        raise RefusedError(
            Problem(
                "gauge_pressure",
                f"Gauge pressure: {quantity(gauge.value, 'kPa_gauge', 1)} is perfect vacuum or less where the air has "
                f"{quantity(air.pressure, 'kPa_abs', 1)}. Check the sign, the unit and the zero of the gauge.",
            )
        )
    fluid.refuse_pressure("gauge_pressure", "Gauge pressure", value)
    return Pressure(value, gauge.band + air.band, gauge)


def _standing(pressure: Pressure, fluid: Fluid, entered: Entered, standards: InForce) -> Standing:
    ambient = entered.needed_reading("ambient_temperature")
    error = standards.value("pressures.table_error") / 100.0
    return Standing(
        ambient,
        entered.number("hours_rest"),
        _share(pressure, fluid.dew, ambient, error),
        _share(pressure, fluid.bubble, ambient, error),
        standards.limit("pressures.rest_low"),
        standards.limit("pressures.rest_high"),
        standards.limit("pressures.weak_band"),
        standards.limit("pressures.rest_hours"),
    )


def _share(pressure: Pressure, curve: Curve, ambient: Reading, error: float) -> Span:
    """The pressure in percent of saturation, at worst: every band at the end that moves it furthest.

    Where the thermometer's band reaches out of the table, that end is open: nothing is known beyond.
    """
    inside = curve.degrees
    most = curve.pressure(ambient.high) * (1.0 + error) if ambient.high <= inside[-1] else math.inf
    least = curve.pressure(ambient.low) * (1.0 - error) if ambient.low >= inside[0] else 0.0
    return Span(
        round(100.0 * pressure.value / curve.pressure(ambient.value), _FLOAT_DIGITS),
        round(100.0 * max(pressure.low, 0.0) / most, _FLOAT_DIGITS),
        round(100.0 * pressure.high / least, _FLOAT_DIGITS) if least else math.inf,
    )
