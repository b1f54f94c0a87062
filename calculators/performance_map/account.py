"""The numbers of the performance-map check, the arithmetic behind them, and what stands beside them."""

from __future__ import annotations

import math
from collections.abc import Iterator

from calculators.contract import Result, Step, quantity, rounded
from calculators.expected_amps.account import clamp_step, ratio_results, ratio_steps
from calculators.expected_amps.ratio import Case
from calculators.expected_amps.reference import Reference
from calculators.limits import InForce
from calculators.performance_map.the_map import MapReading, declared_range
from calculators.running_condition import Supply
from calculators.units import symbol

_DIGITS = {"A": 3, "W": 1}
_KELVINS_A_FAHRENHEIT = 5.0 / 9.0  # a difference of 1 °F, by definition


def results_of(
    reading: MapReading,
    reference: Reference,
    supply: Supply,
    case: Case | None,
    power_factor: float | None,
    standards: InForce,
) -> Iterator[Result]:
    """The numbers, in the order they are printed; the expected amps or watts first."""
    digits, unit = _DIGITS[reading.gives], reading.gives
    yield Result(
        "map_amps" if unit == "A" else "map_watts",
        f"Expected {'amps' if unit == 'A' else 'watts'} by the map",
        reading.value,
        unit,
        digits,
        "What this compressor draws at these two temperatures, by its maker's own measurements.",
        max(reference.low, 0.0),
        reference.high,
        also=(("mA", 0),) if unit == "A" else (),
    )
    if power_factor is not None:
        yield _other_quantity(reading, power_factor, standards)
    yield Result(
        "half_band",
        "Half-band of the map here",
        100.0 * reference.above,
        "percent",
        1,
        "How far the map may be off for a good compressor, with the temperatures and volts as entered.",
    )
    for slope, side in zip(reading.slopes, ("evaporating", "condensing"), strict=True):
        yield Result(
            f"change_{side}",
            f"Change for 1 K more of {side} temperature",
            100.0 * slope,
            "percent",
            2,
            f"So much a wrong {side} temperature puts the answer off: "
            f"{rounded(100.0 * slope * _KELVINS_A_FAHRENHEIT, 2)} % for each °F.",
        )
    if supply.running is not None:
        yield Result(
            "volts_off_map",
            "Running volts off the map",
            supply.departure(supply.running.value),
            "percent",
            1,
            "How far the supply is from the volts the map was measured at.",
        )
    if case is not None:
        yield from ratio_results(case.band)


def _other_quantity(reading: MapReading, power_factor: float, standards: InForce) -> Result:
    """Watts by the power factor where the map gives amps, and the other way round."""
    band = standards.value("amps.band.watts") / 100.0
    across = reading.volts * power_factor
    plain = f"By a power factor of {power_factor:g}: an estimate, wider than the map itself."
    if reading.gives == "A":
        watts = reading.value * across
        return Result(
            "watts", "Watts that these amps come to", watts, "W", 0, plain, watts * (1 - band), watts * (1 + band)
        )
    amps = reading.value / across
    return Result("amps", "Amps that these watts come to", amps, "A", 2, plain, amps * (1 - band), amps * (1 + band))


def working_of(
    reading: MapReading, reference: Reference, supply: Supply, case: Case | None, power_factor: float | None
) -> Iterator[Step]:
    """Every line of arithmetic, from the temperatures to the band of the ratio."""
    yield _temperature_step(reading)
    yield from _term_steps(reading)
    if power_factor is not None:
        yield _power_step(reading, power_factor)
    yield _slope_step(reading)
    yield _band_step(reading)
    known = reading.frequency and supply.frequency
    yield Step(
        "Frequency",
        "map = supply",
        f"map {reading.frequency}, supply {supply.frequency or 'not read'}",
        ("differ" if supply.wrong_frequency else "agree") if known else "taken as equal",
        "common-practice",
    )
    if supply.running is not None:
        extra = quantity(100.0 * supply.extra_band, "percent", 0)
        yield Step(
            "Running volts off the map",
            "|U − Un| / Un",
            f"|{quantity(supply.running.value, 'V', 1)} − {quantity(supply.plate, 'V', 1)}| / "
            f"{quantity(supply.plate, 'V', 1)}",
            f"{quantity(supply.departure(supply.running.value), 'percent', 1)}: "
            + (f"half-band + {extra}" if supply.extra_band else "no correction"),
            "common-practice",
        )
    if case is not None:
        yield clamp_step(case)
        yield from ratio_steps(case, reference)


def _temperature_step(reading: MapReading) -> Step:
    s, d = reading.point
    mark = symbol(reading.temperature_unit)
    return Step(
        "Temperatures in the map's unit",
        "°F = °C · 9/5 + 32" if reading.temperature_unit == "degF" else "°C = (°F − 32) · 5/9",
        f"S {quantity(reading.evaporating, 'degC', 1)} ({quantity(reading.evaporating, 'degF', 1)}), "
        f"D {quantity(reading.condensing, 'degC', 1)} ({quantity(reading.condensing, 'degF', 1)})",
        f"S = {rounded(s, 2)} {mark}, D = {rounded(d, 2)} {mark}",
        "derived",
    )


def _term_steps(reading: MapReading) -> Iterator[Step]:
    """The polynomial in three lines by degree, and their sum."""
    terms, digits = reading.polynomial.terms(*reading.point), _DIGITS[reading.gives] + 2
    named = [f"{one:.10g}" for one in reading.polynomial.coefficients]
    sums = []
    for label, formula, first, last in (
        ("Constant and first degree", "C1 + C2·S + C3·D", 0, 3),
        ("Second degree", "C4·S² + C5·S·D + C6·D²", 3, 6),
        ("Third degree", "C7·S³ + C8·S²·D + C9·S·D² + C10·D³", 6, 10),
    ):
        listed = "; ".join(f"C{first + 1 + place} {text}" for place, text in enumerate(named[first:last]))
        sums.append(rounded(math.fsum(terms[first:last]), digits))
        yield Step(
            label,
            formula,
            listed,
            f"{_added([rounded(term, digits) for term in terms[first:last]])} = {sums[-1]}",
            "ahri-540",
        )
    yield Step(
        "The map here",
        "X = sum of the three",
        _added(sums),
        quantity(reading.value, reading.gives, _DIGITS[reading.gives]),
        "en-12900",
    )


def _added(texts: list[str]) -> str:
    """Numbers as a sum: "3.52 − 2.55 + 0.63"."""
    first, *others = texts
    return first + "".join(f" − {text[1:]}" if text.startswith("-") else f" + {text}" for text in others)


def _power_step(reading: MapReading, power_factor: float) -> Step:
    volts = quantity(reading.volts, "V", 0)
    if reading.gives == "A":
        return Step(
            "Watts",
            "P = U · I · PF",
            f"{volts} · {quantity(reading.value, 'A', 3)} · {power_factor:g}",
            quantity(reading.value * reading.volts * power_factor, "W", 0),
            "derived",
        )
    return Step(
        "Amps",
        "I = P / (U · PF)",
        f"{quantity(reading.value, 'W', 1)} / ({volts} · {power_factor:g})",
        quantity(reading.value / (reading.volts * power_factor), "A", 2),
        "derived",
    )


def _slope_step(reading: MapReading) -> Step:
    s, d = (rounded(100.0 * slope, 2) for slope in reading.slopes)
    return Step(
        "Change for 1 K more",
        "a = (dX/dS) / X, b = (dX/dD) / X",
        "the same ten coefficients, one power down"
        + (", × 9/5 from °F to K" if reading.temperature_unit == "degF" else ""),
        f"a = {s} %, b = {d} %",
        "derived",
    )


def _band_step(reading: MapReading) -> Step:
    alone = quantity(100.0 * reading.map_band, "percent", 0)
    kelvin = reading.temperature_band
    if not kelvin:
        return Step("Half-band of the map", "h = the map's own", alone, f"±{alone}", "common-practice")
    part = rounded(100.0 * reading.temperature_part(kelvin), 1)
    return Step(
        "Half-band of the map",
        "h = √(h map² + (ΔT · (|a| + |b|))²)",
        f"√({alone}² + ({rounded(kelvin, 1)} · (|a| + |b|) = {part} %)²): both temperatures off the same way, "
        f"then in quadrature with the map",
        f"±{quantity(100.0 * reading.half_band(kelvin), 'percent', 1)}",
        "jcgm-100",
    )


def notes_of(reading: MapReading, supply: Supply, case: Case | None, running_amps: float | None) -> Iterator[str]:
    """Where the answer goes next, what it rests on, and what looks wrong in the map."""
    field = declared_range(reading.gives)
    rank = "rank A" if reading.gives == "A" else "rank D, with its power factor or motor type"
    yield (
        f"Enter this as “{field.label}” in expected amps: "
        f"{quantity(reading.value, reading.gives, _DIGITS[reading.gives])} at plate volts "
        f"{quantity(reading.volts, 'V', 0)} ({rank})."
    )
    if reading.gives == "W":
        yield "To judge measured watts, enter it as “Watts from the performance map” in running watts and power factor."
    if reading.gives == "W" and running_amps is not None:
        yield "The running amps were not compared: this map gives watts. Enter both in expected amps."
    if case is not None and not supply.frequency:
        yield "The supply frequency was not read: this holds only if it is the map's."
    if not reading.temperature_band:
        yield "The temperatures count as right. Enter how far they may be off, and the band grows by it."
    yield (
        "The map holds for its own return-gas temperature and subcooling, with dew temperatures for S and D. "
        "With a blend that glides, dew and bubble are apart."
    )
    taken, mark = declared_range(reading.gives), symbol(reading.temperature_unit)
    for s, d, value in reading.corners():
        if not taken.least <= value <= taken.most:
            yield (
                f"At its own corner S {rounded(s, 1)}, D {rounded(d, 1)} {mark} this map gives "
                f"{rounded(value, 2)} {reading.gives}. Compare the coefficients with the sheet once more."
            )
