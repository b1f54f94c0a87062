"""Draws spans of amps over one another on one scale, with limits as dashed lines across them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from calculators.contract import Figure, rounded
from calculators.drawing import LINE_HEIGHT, Drawing, Mark, box, line, words

_LEFT, _RIGHT = 20.0, 340.0
_ROW_HEIGHT = 44.0


@dataclass(frozen=True)
class Row:
    """One band on the scale, in amps, with what it is."""

    label: str
    value: float
    low: float
    high: float
    bold: bool = False

    @property
    def text(self) -> str:
        """The row in words."""
        return f"{self.label} {rounded(self.value, 2)} A, {rounded(self.low, 2)} to {rounded(self.high, 2)} A"


def amps_figure(rows: tuple[Row, ...], marks: Iterable[Mark]) -> Figure:
    """Every row with its band over one another, and the limits as dashed pieces of a line in each row."""
    limits = sorted(marks, key=lambda mark: -mark.value)
    ends = [end for row in rows for end in (row.low, row.high)] + [mark.value for mark in limits]
    span = max(max(ends) - min(ends), 0.1)
    first, last = min(ends) - 0.05 * span, max(ends) + 0.05 * span

    def x(amps: float) -> float:
        return _LEFT + (_RIGHT - _LEFT) * (amps - first) / (last - first)

    top = LINE_HEIGHT * len(limits) + 8.0
    drawing = Drawing(360.0, top + _ROW_HEIGHT * len(rows) + 4.0)
    for number, mark in enumerate(limits):
        y = 14.0 + LINE_HEIGHT * number
        label = words(min(max(x(mark.value), 40.0), 320.0), y, f"{mark.label} {rounded(mark.value, 2)} A", size=12)
        drawing = drawing.with_shapes(label, line(x(mark.value), y + 4.0, x(mark.value), top, dashed=True))
    for number, row in enumerate(rows):
        y = top + _ROW_HEIGHT * number
        across = [line(x(mark.value), y + 17.0, x(mark.value), y + 39.0, dashed=True) for mark in limits]
        drawing = drawing.with_shapes(*_band(row, x(row.low), x(row.value), x(row.high), y), *across)
    said = "; ".join([row.text for row in rows] + [f"{mark.label} {rounded(mark.value, 2)} A" for mark in limits[::-1]])
    alt = f"Amps on one scale: {said}"
    return Figure("amps-scale", drawing.svg(alt), alt, alt + ".")


def _band(row: Row, low: float, value: float, high: float, y: float) -> tuple[str, ...]:
    return (
        words(_LEFT, y + 14.0, f"{row.label}: {rounded(row.value, 2)} A", anchor="start", size=12, bold=row.bold),
        box(low, y + 20.0, max(high - low, 2.0), 16.0, filled=True, kind="band"),
        line(value, y + 17.0, value, y + 39.0, width=4.0 if row.bold else 2.0),
    )
