"""The arithmetic of the handbook: pure standard-library Python, one module a calculator.

The shelf, in reading order, is CALCULATORS. The vocabulary is in units, readings, limits, findings,
inputs, contract and drawing; the only door for the page, the build and the command line is answer.
Nothing here knows about files, pages, browsers or today's date: limits and date are arguments.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from calculators.capacitor_discharge import CALCULATOR as CAPACITOR_DISCHARGE
from calculators.capacitor_value import CALCULATOR as CAPACITOR_VALUE
from calculators.clamp_reading import CALCULATOR as CLAMP_READING
from calculators.contract import Calculator
from calculators.expected_amps import CALCULATOR as EXPECTED_AMPS
from calculators.insulation_resistance import CALCULATOR as INSULATION_RESISTANCE
from calculators.locked_rotor import CALCULATOR as LOCKED_ROTOR
from calculators.next_check import CALCULATOR as NEXT_CHECK
from calculators.overload_check import CALCULATOR as OVERLOAD_CHECK
from calculators.performance_map import CALCULATOR as PERFORMANCE_MAP
from calculators.running_power import CALCULATOR as RUNNING_POWER
from calculators.saturation_pressure import CALCULATOR as SATURATION_PRESSURE
from calculators.start_device_check import CALCULATOR as START_DEVICE_CHECK
from calculators.supply_check import CALCULATOR as SUPPLY_CHECK
from calculators.voltage_drop import CALCULATOR as VOLTAGE_DROP
from calculators.winding_identification import CALCULATOR as WINDING_IDENTIFICATION
from calculators.winding_temperature import CALCULATOR as WINDING_TEMPERATURE

_SHELF = (
    NEXT_CHECK,
    EXPECTED_AMPS,
    CLAMP_READING,
    PERFORMANCE_MAP,
    RUNNING_POWER,
    WINDING_IDENTIFICATION,
    INSULATION_RESISTANCE,
    OVERLOAD_CHECK,
    WINDING_TEMPERATURE,
    START_DEVICE_CHECK,
    VOLTAGE_DROP,
    CAPACITOR_DISCHARGE,
    CAPACITOR_VALUE,
    SATURATION_PRESSURE,
    SUPPLY_CHECK,
    LOCKED_ROTOR,
)

CALCULATORS: Mapping[str, Calculator] = MappingProxyType({one.slug: one for one in _SHELF})

__all__ = ["CALCULATORS", "Calculator"]
