"""The units a technician reads off a meter, a plate or a tape, and how they convert.

Each quantity has one base unit; formulas see nothing else.
Reading temperatures (degC, degF) and temperature differences (K, degF_diff) are different
quantities: 10 degC read is 50 degF, a difference of 10 K is 18 degF.

>>> to_base(50.0, "ft")
15.24
>>> from_base(25.0, "degF")
77.0
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

DECIMAL_DIGITS = 15  # every decimal number of so many digits comes back from a double unchanged; IEEE 754, binary64


@dataclass(frozen=True)
class Unit:
    """One unit: how it is printed, what it measures, and base = (value - zero) * factor / divisor.

    The divisor keeps decimal steps exact: 31720 milliohm and 31.72 ohm are the same number.
    """

    name: str
    symbol: str
    quantity: str
    factor: float = 1.0
    zero: float = 0.0
    spellings: tuple[str, ...] = ()
    divisor: float = 1.0


_ROWS = (
    Unit("ohm", "Ω", "resistance", 1.0, 0.0, ("ohm", "ohms", "Ω", "Ω", "R")),
    Unit("milliohm", "mΩ", "resistance", 1.0, 0.0, ("mohm", "mΩ", "mΩ", "milliohm", "milliohms", "m"), 1e3),
    Unit("kilohm", "kΩ", "resistance", 1e3, 0.0, ("k", "K", "kohm", "kΩ", "kΩ", "kilohm", "kilohms")),
    Unit("megohm", "MΩ", "resistance", 1e6, 0.0, ("M", "Mohm", "MΩ", "MΩ", "megohm", "megohms", "meg")),
    Unit("gigohm", "GΩ", "resistance", 1e9, 0.0, ("G", "Gohm", "GΩ", "GΩ", "gigohm")),
    Unit("V", "V", "voltage", 1.0, 0.0, ("V", "v", "volt", "volts", "Vac", "VAC", "Vdc", "VDC")),
    Unit("mV", "mV", "voltage", 1.0, 0.0, ("mV", "millivolt", "millivolts"), 1e3),
    Unit("kV", "kV", "voltage", 1e3, 0.0, ("kV", "kilovolt", "kilovolts")),
    Unit("A", "A", "current", 1.0, 0.0, ("A", "a", "amp", "amps", "ampere", "amperes")),
    Unit("mA", "mA", "current", 1.0, 0.0, ("mA", "ma", "milliamp", "milliamps"), 1e3),
    Unit("W", "W", "power", 1.0, 0.0, ("W", "w", "watt", "watts")),
    Unit("kW", "kW", "power", 1e3, 0.0, ("kW", "kw", "kilowatt", "kilowatts")),
    Unit("hp", "hp", "trade_size", 1.0, 0.0, ("hp", "HP", "horsepower")),
    Unit("m", "m", "length", 1.0, 0.0, ("m", "metre", "metres", "meter", "meters")),
    Unit("ft", "ft", "length", 0.3048, 0.0, ("ft", "foot", "feet", "'")),
    Unit("mm2", "mm²", "area", 1.0, 0.0, ("mm2", "mm²", "sqmm")),
    Unit("degC", "°C", "temperature", 1.0, 0.0, ("C", "c", "°C", "degC", "celsius")),
    Unit("degF", "°F", "temperature", 5.0, 32.0, ("F", "f", "°F", "degF", "fahrenheit"), 9.0),
    Unit("K", "K", "temperature_difference", 1.0, 0.0, ("K", "k", "kelvin")),
    Unit("degF_diff", "°F", "temperature_difference", 5.0, 0.0, ("F", "f", "°F", "degF"), 9.0),
    Unit("s", "s", "time", 1.0, 0.0, ("s", "sec", "second", "seconds")),
    Unit("ms", "ms", "time", 1.0, 0.0, ("ms", "millisecond", "milliseconds"), 1e3),
    Unit("min", "min", "time", 60.0, 0.0, ("min", "minute", "minutes")),
    Unit("h", "h", "time", 3600.0, 0.0, ("h", "hr", "hour", "hours")),
    Unit("Hz", "Hz", "frequency", 1.0, 0.0, ("Hz", "hz", "hertz")),
    Unit("uF", "µF", "capacitance", 1.0, 0.0, ("uF", "µF", "μF", "uf", "mfd", "MFD", "microfarad", "microfarads")),
    Unit("nF", "nF", "capacitance", 1.0, 0.0, ("nF", "nf", "nanofarad", "nanofarads"), 1e3),
    Unit("J", "J", "energy", 1.0, 0.0, ("J", "joule", "joules")),
    Unit("VA", "VA", "apparent_power", 1.0, 0.0, ("VA", "va")),
    Unit("var", "var", "reactive_power", 1.0, 0.0, ("var", "VAR")),
    Unit("kPa_abs", "kPa abs", "pressure", 1.0, 0.0, ("kPa", "kPa abs")),
    Unit("bar_abs", "bar abs", "pressure", 100.0, 0.0, ("bar", "bar abs")),
    Unit("psi_abs", "psi abs", "pressure", 6.894757293168361, 0.0, ("psi", "psia", "psi abs")),
    Unit("hPa_abs", "hPa abs", "pressure", 1.0, 0.0, ("hPa", "hPa abs", "mbar", "mb"), 10.0),
    Unit("inHg_abs", "inHg abs", "pressure", 3.386388666666667, 0.0, ("inHg", "inHg abs")),
    Unit("kPa_gauge", "kPa gauge", "gauge_pressure", 1.0, 0.0, ("kPa", "kPa gauge")),
    Unit("bar_gauge", "bar gauge", "gauge_pressure", 100.0, 0.0, ("bar", "bar gauge", "barg")),
    Unit("psi_gauge", "psi gauge", "gauge_pressure", 6.894757293168361, 0.0, ("psi", "psig", "psi gauge")),
    Unit("inHg_vacuum", "inHg vacuum", "gauge_pressure", -3.386388666666667, 0.0, ("inHg", "inHg vacuum")),
    Unit("ohm_per_km", "Ω/km", "resistance_per_length", 1.0, 0.0, ("ohm/km", "Ω/km")),
    Unit("ohm_per_kft", "Ω/kft", "resistance_per_length", 1.0, 0.0, ("ohm/kft", "Ω/kft"), 0.3048),
    Unit("ratio", "", "ratio", 1.0, 0.0, ("x", "×")),
    Unit("percent", "%", "percent", 1.0, 0.0, ("%", "percent", "pct")),
    Unit("count", "", "count", 1.0, 0.0, ("counts", "count", "digits", "digit")),
    Unit("plain", "", "plain_number"),
    Unit("turn", "turns", "turns", 1.0, 0.0, ("turn", "turns")),
)

UNITS: Mapping[str, Unit] = MappingProxyType({unit.name: unit for unit in _ROWS})

# What a whole quantity is called in a message: "this field takes a resistance in ohm".
_QUANTITY_WORDS: Mapping[str, str] = MappingProxyType(
    {
        "resistance": "resistance",
        "voltage": "volts",
        "current": "amps",
        "power": "watts",
        "trade_size": "horsepower",
        "length": "a length",
        "area": "a conductor size",
        "temperature": "a temperature",
        "temperature_difference": "a temperature difference",
        "time": "a time",
        "frequency": "hertz",
        "capacitance": "a capacitance",
        "energy": "joules",
        "apparent_power": "volt-amps",
        "reactive_power": "var",
        "pressure": "an absolute pressure",
        "gauge_pressure": "a gauge pressure",
        "resistance_per_length": "ohms per length",
        "ratio": "a ratio",
        "percent": "a percentage",
        "plain_number": "a plain number",
        "count": "a whole number of counts",
        "turns": "a number of turns",
    }
)


def quantity_words(name: str) -> str:
    """What the unit called name measures, in words for a message."""
    return _QUANTITY_WORDS[UNITS[name].quantity]


def to_base(value: float, name: str) -> float:
    """Convert a value in the named unit to the base unit of its quantity.

    What is converted is rounded to the digits that a double keeps of any decimal number, so that 0.01395 kW is 13.95 W
    to the last bit and both print alike.
    """
    unit = UNITS[name]
    if unit.factor == unit.divisor and unit.zero == 0.0:
        return value
    return float(f"{(value - unit.zero) * unit.factor / unit.divisor:.{DECIMAL_DIGITS}g}")


def from_base(value: float, name: str) -> float:
    """Convert a value in the base unit to the named unit."""
    unit = UNITS[name]
    return value * unit.divisor / unit.factor + unit.zero


def symbol(name: str) -> str:
    """The printed symbol of a unit; empty for a plain ratio."""
    return UNITS[name].symbol


def find_spelling(text: str, quantity: str | None = None) -> Unit | None:
    """The unit somebody meant by text, looked for within one quantity or, with None, everywhere.

    An exact spelling wins; then the same letters in any case, but only where that is unambiguous
    (m and M differ by nine orders of magnitude and are never guessed).
    """
    rows = [unit for unit in _ROWS if quantity is None or unit.quantity == quantity]
    for unit in rows:
        if text == unit.name or text in unit.spellings:
            return unit
    loose = [unit for unit in rows if len(text) > 1 and text.lower() in {s.lower() for s in unit.spellings}]
    return loose[0] if len(loose) == 1 else None
