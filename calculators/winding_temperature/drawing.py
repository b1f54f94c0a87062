"""Draws the hot readings as temperatures over time, the line back to switch-off, its band, and the two limits."""

from __future__ import annotations

import math

from calculators.contract import Figure, quantity, rounded
from calculators.drawing import Drawing, box, circle, line, words
from calculators.winding_temperature.case import Case, temperature_by_resistance
from calculators.winding_temperature.findings import when

_LEFT, _RIGHT, _TOP, _BOTTOM = 70.0, 340.0, 24.0, 204.0


def cooling_figure(case: Case) -> Figure:
    """The picture of this check."""
    best = case.best
    points = [
        (time, _celsius(case, ohms - (case.lead or 0.0))) for time, ohms in zip(case.times, case.hot_ohms, strict=True)
    ]
    high = case.high if not math.isinf(case.high) else best.celsius + best.band
    ends = [case.low, high, case.warn.value, case.stop.value, *(one for _, one in points)]
    low_end, high_end = min(ends) - 5.0, max(ends) + 5.0
    last = max(*case.times, 60.0)

    def x(seconds: float) -> float:
        return _LEFT + (_RIGHT - _LEFT) * seconds / last

    def y(celsius: float) -> float:
        return _BOTTOM - (_BOTTOM - _TOP) * (celsius - low_end) / (high_end - low_end)

    result = x(0.0) if len(points) > 1 else x(case.times[0])
    limits = (("stop", case.stop.value), ("warning", case.warn.value))
    drawing = Drawing(360.0, 250.0).with_shapes(
        line(_LEFT, _TOP, _LEFT, _BOTTOM),
        line(_LEFT, _BOTTOM, _RIGHT, _BOTTOM),
        *(shape for label, value in limits for shape in _limit(label, value, y(value))),
        box(result - 5.0, y(high), 10.0, max(y(case.low) - y(high), 2.0), filled=True, kind="band"),
        *(circle(x(time), y(celsius), 4.0) for time, celsius in points),
        circle(result, y(best.celsius), 5.0, filled=True),
        words(_LEFT, _BOTTOM + 18.0, "0 s", size=12),
        words(_RIGHT, _BOTTOM + 18.0, f"{rounded(last, 0)} s", anchor="end", size=12),
        words(
            (_LEFT + _RIGHT) / 2.0, _BOTTOM + 38.0, f"{_moment(case)}: {quantity(best.celsius, 'degC', 1)}", bold=True
        ),
    )
    if len(points) > 1:
        end = _celsius(case, best.line.at(last))
        drawing = drawing.with_shapes(line(_LEFT, y(best.celsius), _RIGHT, min(max(y(end), _TOP), _BOTTOM), width=1.5))
    read = ", ".join(f"{rounded(time, 0)} s {quantity(celsius, 'degC', 1)}" for time, celsius in points)
    reach = f"{rounded(case.low, 1)} to {quantity(case.high, 'degC', 1)}"
    if math.isinf(case.high):
        reach = f"at least {quantity(case.low, 'degC', 1)}"
    alt = (
        f"Winding temperature over time: {read}; {when(case)} {quantity(best.celsius, 'degC', 1)}, {reach}; warning"
        f" {case.warn.text}, stop {case.stop.text}"
    )
    return Figure("cooling", drawing.svg(alt), alt, alt + ".")


def _moment(case: Case) -> str:
    return "at switch-off" if len(case.times) > 1 else f"at {quantity(case.times[0], 's', 0)}"


def _celsius(case: Case, ohms: float) -> float:
    best = case.best
    return temperature_by_resistance(ohms / best.cold, case.cold_temperature, best.zero_resistance)


def _limit(label: str, value: float, at: float) -> tuple[str, str, str]:
    return (
        line(_LEFT, at, _RIGHT, at, dashed=True, width=1.5),
        words(_LEFT - 8.0, at + 4.0, f"{value:g} °C", anchor="end", size=12),
        words(_RIGHT, at - 6.0, label, anchor="end", size=12),
    )
