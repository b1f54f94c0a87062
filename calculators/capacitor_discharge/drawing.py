"""Draws the volts against time. The volts are on a scale of tenths, on which a discharge is a straight line."""

from __future__ import annotations

import math

from calculators.capacitor_discharge.case import Case, volts_after
from calculators.capacitor_discharge.verdict import tool_refused
from calculators.contract import Figure, quantity
from calculators.drawing import Drawing, circle, line, words

_LEFT, _RIGHT, _TOP, _BOTTOM = 52.0, 340.0, 34.0, 210.0


def discharge_figure(case: Case) -> Figure | None:
    """The line from the start volts to the end of the hold time; None where nothing falls or no tool is held."""
    touch = case.touch
    if case.start <= touch or tool_refused(case):
        return None
    span = 1.1 * case.hold
    lowest = touch / 10.0
    end = max(volts_after(case.hold, case.start, case.ohms, case.microfarads), lowest)
    reached = min(case.hold, case.time_constant * math.log(case.start / end))
    top = math.log10(case.start)
    bottom = math.log10(lowest)

    def x(seconds: float) -> float:
        return _LEFT + (_RIGHT - _LEFT) * seconds / span

    def y(volts: float) -> float:
        return _BOTTOM - (_BOTTOM - _TOP) * (math.log10(volts) - bottom) / (top - bottom)

    limit = case.standards.limit("capacitors.touch_volts").text
    hold, computed = quantity(case.hold, "s", 0), quantity(case.computed, "s", 2)
    start = quantity(case.start, "V", 0)
    drawing = Drawing(360.0, 262.0).with_shapes(
        line(_LEFT, _TOP, _LEFT, _BOTTOM),
        line(_LEFT, _BOTTOM, _RIGHT, _BOTTOM),
        words(_LEFT - 4.0, _TOP - 8.0, start, anchor="start", size=12, bold=True),
        circle(x(0.0), y(case.start), 4.0, filled=True),
        line(x(0.0), y(case.start), x(reached), y(end), width=3.0),
        line(_LEFT, y(touch), _RIGHT, y(touch), dashed=True),
        words(_LEFT - 6.0, y(touch) + 4.0, limit, anchor="end", size=12),
        line(x(case.hold), _TOP, x(case.hold), _BOTTOM, dashed=True),
        words(_RIGHT, _TOP - 8.0, f"hold {hold}, then measure", anchor="end", size=12, bold=True),
        circle(x(case.computed), y(touch), 4.0),
        words(_LEFT, _BOTTOM + 20.0, "0 s", anchor="start", size=12),
        words(x(case.hold), _BOTTOM + 20.0, hold, size=12),
        words((_LEFT + _RIGHT) / 2.0, _BOTTOM + 42.0, f"{case.must_be}; reckoned for {computed}", size=12),
    )
    alt = (
        f"Volts over time, a straight line on a scale of tenths: from {start} it is reckoned to reach {limit} after "
        f"{computed}; the tool is held on for {hold}, then it is measured and {case.must_be}"
    )
    return Figure("discharge", drawing.svg(alt), alt, alt + ".")
