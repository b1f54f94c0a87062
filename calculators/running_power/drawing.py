"""Draws the watts, the volt-amps and what lies between them as a triangle, and the watts on their limits."""

from __future__ import annotations

import math

from calculators.contract import Figure, quantity, rounded
from calculators.drawing import Drawing, Mark, line, scale_figure, words
from calculators.running_power.case import Case

_LEFT, _BASE, _WIDTH, _TALL = 40.0, 210.0, 185.0, 150.0


def figures_of(case: Case) -> tuple[Figure, ...]:
    """The triangle where volts and amps were read; the watts on their limits where something was expected."""
    found = []
    ratio, factor = case.ratio, case.power_factor
    if ratio is not None and case.conflict is None:
        limits = (("low", "power.low_ratio"), ("high", "power.high_ratio"))
        marks = [Mark(case.standards.value(key), label) for label, key in limits]
        title = "Measured over expected watts"
        found.append(
            scale_figure(
                "watts-scale", title, value=ratio.value, low=ratio.low, high=ratio.high, marks=marks, unit="", digits=2
            )
        )
    if factor is not None and case.volt_amps is not None and case.volt_amps >= case.watts:
        found.append(_triangle(case, case.watts, case.volt_amps, factor.value))
    return tuple(found)


def _triangle(case: Case, watts: float, volt_amps: float, factor: float) -> Figure:
    """Watts along the ground, var upward, volt-amps as the long side; the expected slope dashed beside it."""
    reactive = math.sqrt(max(volt_amps**2 - watts**2, 0.0))
    scale = min(_WIDTH / watts, _TALL / reactive if reactive > 0.0 else math.inf)
    right, top = _LEFT + watts * scale, _BASE - reactive * scale
    drawing = Drawing(360.0, 260.0).with_shapes(
        line(_LEFT, _BASE, right, _BASE, width=4.0),
        line(right, _BASE, right, top),
        line(_LEFT, _BASE, right, top),
        words(_LEFT, _BASE + 20.0, f"watts {quantity(watts, 'W', 1)}", anchor="start", bold=True),
        words(right + 8.0, (_BASE + top) / 2.0, f"reactive {quantity(reactive, 'var', 1)}", anchor="start", size=12),
        words(_LEFT, 22.0, f"volt-amps {quantity(volt_amps, 'VA', 1)}: the long side", anchor="start", size=12),
        words(_LEFT, _BASE + 40.0, f"power factor {rounded(factor, 2)}: watts over volt-amps", anchor="start", size=12),
    )
    usual, expected = case.usual_power_factor, ""
    if usual is not None and usual[0] < 1.0:
        slope = math.sqrt(1.0 - usual[0] ** 2) / usual[0]
        reach = min(right - _LEFT, _TALL / slope)
        drawing = drawing.with_shapes(
            line(_LEFT, _BASE, _LEFT + reach, _BASE - reach * slope, dashed=True),
            words(_LEFT, 38.0, f"dashed: the slope at the expected {usual[0]:g}", anchor="start", size=12),
        )
        expected = f"; dashed the slope at the expected power factor {usual[0]:g}"
    alt = (
        f"Power triangle: {quantity(watts, 'W', 1)} along the ground, {quantity(reactive, 'var', 1)} upward, "
        f"{quantity(volt_amps, 'VA', 1)} as the long side, power factor {rounded(factor, 2)}{expected}"
    )
    return Figure("power-triangle", drawing.svg(alt), alt, alt + ".")
