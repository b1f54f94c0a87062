"""Bands one below the other on one scale, with the limits as dashed lines across every row.

For comparing what was expected with what was read, or several readings of one quantity with the same limits.
Rows and limits carry their names and numbers, so that nothing hangs on colour.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import permutations, product

from calculators.contract import Figure, rounded
from calculators.drawing import LINE_HEIGHT, Drawing, Mark, box, line, words

_LEFT, _RIGHT = 20.0, 340.0
_ROW_HEIGHT = 44.0


@dataclass(frozen=True)
class Row:
    """One band on the scale, in the scale's unit, with what it is."""

    label: str
    value: float
    low: float
    high: float
    bold: bool = False


def rows_figure(
    name: str,
    title: str,
    rows: tuple[Row, ...],
    marks: Iterable[Mark],
    *,
    unit: str,
    digits: int,
    least_span: float = 0.1,
) -> Figure:
    """Every row with its band over one another, and the limits as dashed pieces of a line in each row."""
    limits = sorted(marks, key=lambda mark: -mark.value)
    ends = [end for row in rows for end in (row.low, row.high)] + [mark.value for mark in limits]
    span = max(max(ends) - min(ends), least_span)
    first, last = min(ends) - 0.05 * span, max(ends) + 0.05 * span

    def x(value: float) -> float:
        return _LEFT + (_RIGHT - _LEFT) * (value - first) / (last - first)

    def number(value: float) -> str:
        return f"{rounded(value, digits)} {unit}"

    top = LINE_HEIGHT * len(limits) + 8.0
    drawing = Drawing(360.0, top + _ROW_HEIGHT * len(rows) + 4.0)
    labels = [f"{mark.label} {number(mark.value)}" for mark in limits]
    for label in _beside_their_lines([x(mark.value) for mark in limits], labels):
        y = 14.0 + LINE_HEIGHT * label.row
        drawing = drawing.with_shapes(
            words(label.x + (5.0 if label.anchor == "start" else -5.0), y, label.text, anchor=label.anchor, size=12),
            line(label.x, y - 10.0, label.x, top, dashed=True),
        )
    for place, row in enumerate(rows):
        y = top + _ROW_HEIGHT * place
        across = [line(x(mark.value), y + 17.0, x(mark.value), y + 39.0, dashed=True) for mark in limits]
        heading = words(_LEFT, y + 14.0, f"{row.label}: {number(row.value)}", anchor="start", size=12, bold=row.bold)
        drawing = drawing.with_shapes(heading, *_band(row, x(row.low), x(row.value), x(row.high), y), *across)
    said = [f"{row.label} {number(row.value)}, {rounded(row.low, digits)} to {number(row.high)}" for row in rows]
    said += [f"{mark.label} {number(mark.value)}" for mark in limits[::-1]]
    alt = f"{title}: {'; '.join(said)}"
    return Figure(name, drawing.svg(alt), alt, alt + ".")


@dataclass(frozen=True)
class _Label:
    """The name of a limit: where its line stands, in which row its words are, and on which side of the line."""

    x: float
    text: str
    row: int
    anchor: str

    @property
    def ends(self) -> tuple[float, float]:
        width = 6.6 * len(self.text) + 5.0  # as wide as such words are at their size, a little generous
        return (self.x, self.x + width) if self.anchor == "start" else (self.x - width, self.x)


def _beside_their_lines(places: list[float], texts: list[str]) -> tuple[_Label, ...]:
    """The names in rows so that as few lines as can be run through words, and no words off the drawing."""

    def layout(order: tuple[int, ...], sides: tuple[str, ...]) -> tuple[_Label, ...]:
        return tuple(_Label(places[one], texts[one], row, sides[row]) for row, one in enumerate(order))

    sides = list(product(("end", "start"), repeat=len(texts)))
    layouts = (layout(order, side) for order in permutations(range(len(texts))) for side in sides)
    return min(layouts, key=_clashes)


def _clashes(labels: tuple[_Label, ...]) -> int:
    """How many lines run through words, and ten for each name that runs off the drawing."""
    off = sum(one.ends[0] < 0.0 or one.ends[1] > 360.0 for one in labels)
    through = sum(
        above.row < below.row and below.ends[0] < above.x < below.ends[1] for above in labels for below in labels
    )
    return 10 * off + through


def _band(row: Row, low: float, value: float, high: float, y: float) -> tuple[str, ...]:
    return (
        box(low, y + 20.0, max(high - low, 2.0), 16.0, filled=True, kind="band"),
        line(value, y + 17.0, value, y + 39.0, width=4.0 if row.bold else 2.0),
    )
