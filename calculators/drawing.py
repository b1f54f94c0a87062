"""SVG drawn from numbers: small, plain, the same in light and dark, never meaning anything by colour alone.

Everything that reaches the text is escaped here, so a drawing may be put into a page as it is.
Colours come from the page by class (`drawing-line`, `drawing-band`, `drawing-mark`, `drawing-text`);
without a stylesheet, in a file opened alone, the shapes still read in black on white.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from html import escape

from calculators.contract import Figure, rounded

LINE_HEIGHT = 18
SAME = 1e-9  # values this close, as a part of the largest, are one value: a last bit is not a distance to draw


@dataclass(frozen=True)
class Drawing:
    """A canvas of a fixed size in drawing units, and the shapes on it."""

    width: float
    height: float
    shapes: tuple[str, ...] = ()

    def with_shapes(self, *shapes: str) -> Drawing:
        """The same drawing with more on it."""
        return Drawing(self.width, self.height, self.shapes + shapes)

    def svg(self, alt: str) -> str:
        """The whole drawing as SVG text, named for a screen reader."""
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" class="drawing" role="img" aria-label="{escape(alt)}" '
            f'viewBox="0 0 {_n(self.width)} {_n(self.height)}" font-family="sans-serif" font-size="14">'
            f"<title>{escape(alt)}</title>{''.join(self.shapes)}</svg>"
        )


def line(x1: float, y1: float, x2: float, y2: float, *, dashed: bool = False, width: float = 2.0) -> str:
    """A straight line."""
    dash = ' stroke-dasharray="6 4"' if dashed else ""
    return (
        f'<line class="drawing-line" x1="{_n(x1)}" y1="{_n(y1)}" x2="{_n(x2)}" y2="{_n(y2)}" '
        f'stroke="currentColor" stroke-width="{_n(width)}"{dash}/>'
    )


def polyline(points: Iterable[tuple[float, float]], *, dashed: bool = False, width: float = 2.0) -> str:
    """A line through many points."""
    dash = ' stroke-dasharray="6 4"' if dashed else ""
    places = " ".join(f"{_n(x)},{_n(y)}" for x, y in points)
    return (
        f'<polyline class="drawing-line" points="{places}" fill="none" stroke="currentColor" '
        f'stroke-width="{_n(width)}"{dash}/>'
    )


def box(x: float, y: float, width: float, height: float, *, filled: bool = False, kind: str = "line") -> str:
    """A rectangle; filled ones are half-transparent so that lines show through."""
    fill = 'fill="currentColor" fill-opacity="0.25"' if filled else 'fill="none"'
    return (
        f'<rect class="drawing-{kind}" x="{_n(x)}" y="{_n(y)}" width="{_n(width)}" height="{_n(height)}" '
        f'{fill} stroke="currentColor" stroke-width="1.5"/>'
    )


def circle(x: float, y: float, radius: float, *, filled: bool = False) -> str:
    """A circle."""
    fill = "currentColor" if filled else "none"
    return (
        f'<circle class="drawing-line" cx="{_n(x)}" cy="{_n(y)}" r="{_n(radius)}" fill="{fill}" '
        f'stroke="currentColor" stroke-width="2"/>'
    )


def words(x: float, y: float, text: str, *, anchor: str = "middle", size: float = 14, bold: bool = False) -> str:
    """A line of text; anchor is start, middle or end."""
    weight = ' font-weight="700"' if bold else ""
    return (
        f'<text class="drawing-text" x="{_n(x)}" y="{_n(y)}" text-anchor="{anchor}" font-size="{_n(size)}" '
        f'fill="currentColor"{weight}>{escape(text)}</text>'
    )


@dataclass(frozen=True)
class Mark:
    """A limit on a scale, with its label."""

    value: float
    label: str


def scale_figure(
    name: str, title: str, *, value: float, low: float, high: float, marks: Iterable[Mark], unit: str, digits: int
) -> Figure:
    """A reading with its band on a line with the limits: the picture behind most verdicts.

    Values are in the unit given. A band that runs off the picture ends in an arrow line at the edge.
    """
    listed = sorted(marks, key=lambda mark: mark.value)
    ends = [low, high, value, *(mark.value for mark in listed)]
    span = max(ends) - min(ends)
    if span <= SAME * max(map(abs, ends)):
        span = max(abs(value), 1.0)
    left, right = min(ends) - 0.12 * span, max(ends) + 0.12 * span

    def x(number: float) -> float:
        return 20.0 + 320.0 * (number - left) / (right - left)

    base = 30.0 + LINE_HEIGHT * len(listed)
    drawing = Drawing(360.0, base + 70.0).with_shapes(
        line(20, base + 20, 340, base + 20),
        box(x(low), base + 10, max(x(high) - x(low), 2.0), 20, filled=True, kind="band"),
        line(x(value), base + 4, x(value), base + 36, width=4),
        words(_inside(x(value)), base + 54, f"reading {rounded(value, digits)} {unit}".rstrip(), bold=True),
    )
    labels = [(x(mark.value), f"{mark.label} {mark.value:g} {unit}".rstrip()) for mark in listed]
    for row, (at, text) in zip(_rows(labels), labels, strict=True):
        y = 20.0 + LINE_HEIGHT * row
        anchor = _anchor(at)
        drawing = drawing.with_shapes(
            line(at, y - 10, at, base + 30, dashed=True),
            words(at + (6 if anchor == "start" else -6), y, text, anchor=anchor, size=12),
        )
    limits = "; ".join(f"{mark.label} {mark.value:g} {unit}".rstrip() for mark in listed)
    alt = (
        (
            f"{title}: reading {rounded(value, digits)} {unit}, somewhere between {rounded(low, digits)} and "
            f"{rounded(high, digits)} {unit}; {limits}"
        )
        .replace(" ;", ";")
        .replace(" ,", ",")
    )
    return Figure(name, drawing.svg(alt), alt, alt + ".")


def _anchor(at: float) -> str:
    """Labels grow towards the middle, where there is room."""
    return "start" if at < 180 else "end"


def _rows(labels: list[tuple[float, str]]) -> list[int]:
    """The row of each label, from the top down; the other way round where a line would run through another's words."""
    rows = list(range(len(labels)))
    return rows[::-1] if _crossings(labels[::-1]) < _crossings(labels) else rows


def _crossings(labels: list[tuple[float, str]]) -> int:
    """How many labels a line that begins in a row above runs through; a letter of size 12 is about 7 wide."""
    found = 0
    for row, (at, text) in enumerate(labels):
        reach = 6.0 + 7.0 * len(text)
        near, far = (at, at + reach) if _anchor(at) == "start" else (at - reach, at)
        found += sum(near <= above <= far for above, _ in labels[:row])
    return found


def _inside(x: float) -> float:
    return min(max(x, 80.0), 280.0)


def _n(number: float) -> str:
    return f"{number:.1f}".rstrip("0").rstrip(".")
