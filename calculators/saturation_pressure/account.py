"""The numbers of the saturation check and their arithmetic, as a trainee would write it."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.contract import Result, Step, quantity, rounded
from calculators.saturation_pressure.air import PER_METRE, POWER, SEA_LEVEL
from calculators.saturation_pressure.case import Case, Pressure, Standing
from calculators.saturation_pressure.fluid import ZERO_CELSIUS, Curve

_LINES = {"dew": "dew, as vapour", "bubble": "bubble, as liquid"}
_MEANS = {
    "": "Where liquid and vapour are together, nothing else is possible at this temperature.",
    "dew": "Vapour begins to condense here: for evaporating temperature and superheat.",
    "bubble": "Liquid begins to boil here: for condensing temperature and subcooling.",
}


# --- results ------------------------------------------------------------------------------------------


def results_of(case: Case) -> Iterator[Result]:
    """Everything that was looked up, in the order it was asked."""
    if case.standing is not None:
        yield _share_result(case, case.standing)
    if case.temperature is not None:
        yield from _pressures(case, case.temperature, "saturation", "Saturation pressure")
    if case.ambient is not None:
        yield from _pressures(case, case.ambient, "ambient_saturation", "Saturation pressure at the ambient")
    if case.pressure is not None:
        yield from _temperatures(case, case.pressure)
    yield Result(
        "air_pressure",
        "Pressure of the air",
        case.air.pressure,
        "kPa_abs",
        1,
        f"What a gauge reads from, {case.air.words}.",
        case.air.pressure - case.air.band,
        case.air.pressure + case.air.band,
        (("inHg_abs", 2), ("psi_abs", 2)),
    )


def _share_result(case: Case, standing: Standing) -> Result:
    span = standing.of_dew
    closed = span.high < float("inf")
    line = " (dew)" if case.fluid.blend else ""
    return Result(
        "share_of_saturation",
        f"Standing pressure over saturation{line}, both absolute",
        span.value,
        "percent",
        1,
        "About 100 % where liquid is left; less where none is.",
        span.low if closed else None,
        span.high if closed else None,
    )


def _pressures(case: Case, degrees: float, name: str, label: str) -> Iterator[Result]:
    at = "" if case.air.origin != "nothing" else ", at sea level"
    for line, curve in case.fluid.lines:
        pressure = curve.pressure(degrees)
        gauge = pressure - case.air.pressure
        end, words = (f"_{line}", f" ({_LINES[line]})") if line else ("", "")
        vacuum = (("inHg_vacuum", 1),) if gauge < 0.0 else ()
        yield Result(
            f"{name}{end}_gauge",
            f"{label}{words}, gauge{at}",
            gauge,
            "kPa_gauge",
            1,
            "What a gauge shows there." if gauge >= 0.0 else "Below the air's pressure: a vacuum on the gauge.",
            also=(("bar_gauge", 3), ("psi_gauge", 1), *vacuum),
        )
        yield Result(
            f"{name}{end}_absolute",
            f"{label}{words}, absolute",
            pressure,
            "kPa_abs",
            1,
            _MEANS[line],
            also=(("bar_abs", 3), ("psi_abs", 1)),
        )
    if case.fluid.blend and name == "saturation":
        pressure = max(case.fluid.dew.pressure(degrees), case.fluid.bubble.pressures[0])
        yield _glide(case, pressure)


def _temperatures(case: Case, pressure: Pressure) -> Iterator[Result]:
    for line, curve in case.fluid.lines:
        end, words = (f"{line}_temperature", f", {_LINES[line]}") if line else ("saturation_temperature", "")
        inside = band_in_table(case, pressure)
        yield Result(
            end,
            f"Saturation temperature{words}",
            curve.temperature(pressure.value),
            "degC",
            1,
            _MEANS[line] if line else "Where liquid and vapour are together, they have this temperature.",
            curve.temperature(pressure.low) if inside else None,
            curve.temperature(pressure.high) if inside else None,
            (("degF", 1),),
        )
    if case.fluid.blend:
        yield _glide(case, pressure.value)


def band_in_table(case: Case, pressure: Pressure) -> bool:
    """Whether the table reaches as far as the band of the reading, on every line."""
    return all(curve.has(pressure.low) and curve.has(pressure.high) for _, curve in case.fluid.lines)


def _glide(case: Case, pressure: float) -> Result:
    pressure = min(pressure, case.fluid.dew.pressures[-1])
    return Result(
        "glide",
        f"Glide at {quantity(pressure, 'kPa_abs', 1)}",
        case.fluid.dew.temperature(pressure) - case.fluid.bubble.temperature(pressure),
        "K",
        2,
        "How far the blend's temperature moves while it boils or condenses at one pressure.",
        also=(("degF_diff", 2),),
    )


# --- working ------------------------------------------------------------------------------------------


def working_of(case: Case) -> Iterator[Step]:
    """The air, the absolute pressure, each reading between two lines of the table, the share."""
    yield _air_step(case)
    if case.pressure is not None and case.pressure.gauge is not None:
        yield Step(
            "Absolute pressure",
            "p = p gauge + p air",
            f"{quantity(case.pressure.gauge.value, 'kPa_gauge', 2)} + {quantity(case.air.pressure, 'kPa_abs', 2)}",
            quantity(case.pressure.value, "kPa_abs", 2),
            "derived",
        )
    for degrees, words in ((case.temperature, ""), (case.ambient, " at the ambient")):
        if degrees is not None:
            for line, curve in case.fluid.lines:
                yield _pressure_step(case, curve, degrees, f"Saturation pressure{words}{_comma(line)}")
    if case.pressure is not None:
        for line, curve in case.fluid.lines:
            yield _temperature_step(case, curve, case.pressure.value, f"Saturation temperature{_comma(line)}")
    if case.standing is not None and case.pressure is not None:
        yield from _share_steps(case, case.standing, case.pressure)


def _comma(line: str) -> str:
    return f", {line}" if line else ""


def _air_step(case: Case) -> Step:
    result = quantity(case.air.pressure, "kPa_abs", 2)
    if case.air.origin == "barometer":
        return Step("Pressure of the air", "as read on the barometer", result, result, "derived")
    factor = f"{PER_METRE * 1e5:.5f}·10⁻⁵"
    return Step(
        "Pressure of the air",
        f"p = {SEA_LEVEL:g} kPa × (1 − {factor} h)^{POWER:g}",
        f"h = {case.air.altitude:.6g} m",
        result,
        "iso-2533",
    )


def _pressure_step(case: Case, curve: Curve, degrees: float, label: str) -> Step:
    between = curve.at(degrees)
    return Step(
        label,
        "ln p = ln p1 + (ln p2 − ln p1) × (1/T − 1/T1) / (1/T2 − 1/T1)",
        f"p1 = {between.low:.5g} kPa at {between.cold:g} °C, p2 = {between.high:.5g} kPa at {between.warm:g} °C, "
        f"T = {rounded(degrees + ZERO_CELSIUS, 2)} K",
        quantity(curve.pressure(degrees), "kPa_abs", 1),
        case.fluid.source,
    )


def _temperature_step(case: Case, curve: Curve, pressure: float, label: str) -> Step:
    between = curve.around(pressure)
    return Step(
        label,
        "1/T = 1/T1 + (1/T2 − 1/T1) × (ln p − ln p1) / (ln p2 − ln p1)",
        f"p1 = {between.low:.5g} kPa at {between.cold:g} °C, p2 = {between.high:.5g} kPa at {between.warm:g} °C, "
        f"p = {rounded(pressure, 2)} kPa",
        quantity(curve.temperature(pressure), "degC", 1),
        case.fluid.source,
    )


def _share_steps(case: Case, standing: Standing, pressure: Pressure) -> Iterator[Step]:
    spans = [("dew", case.fluid.dew, standing.of_dew), ("bubble", case.fluid.bubble, standing.of_bubble)]
    for line, curve, span in spans if case.fluid.blend else spans[:1]:
        words = f" ({line})" if case.fluid.blend else ""
        yield Step(
            f"Share of saturation{words}",
            "p / p saturation × 100 %",
            f"{rounded(pressure.value, 1)} / {rounded(curve.pressure(standing.ambient.value), 1)} × 100 %",
            quantity(span.value, "percent", 1),
            "derived",
        )
        yield Step(
            f"Its band{words}, at worst",
            "(p ± gauge ± air) / (p saturation at T ∓ thermometer, ∓ table error), every band at its end, added",
            f"±{rounded(pressure.band, 1)} kPa, ±{rounded(standing.ambient.band, 2)} K, "
            f"±{case.standards.limit('pressures.table_error').text}",
            span.ends,
            "derived",
        )
