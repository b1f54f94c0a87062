"""Draws the saturation line around what was looked up, with each point on it and the reading as a box.

The bubble line of a blend is dashed; the pressure of the air is a thin dashed line across with its name.
"""

from __future__ import annotations

from dataclasses import dataclass

from calculators.contract import Figure, quantity, rounded
from calculators.drawing import Drawing, box, circle, line, polyline, words
from calculators.saturation_pressure.case import Case
from calculators.saturation_pressure.fluid import Curve

_LEFT, _RIGHT, _TOP, _BOTTOM = 52.0, 344.0, 16.0, 236.0
_AROUND = 20.0  # °C of the line shown on both sides of what was looked up
_PIECES = 24
_ROW = 16.0  # between two lines of words


@dataclass(frozen=True)
class Point:
    """A place in the picture, in °C and kPa absolute, with its name."""

    name: str
    degrees: float
    pressure: float

    @property
    def words(self) -> str:
        """The place in words."""
        return f"{self.name} {quantity(self.degrees, 'degC', 1)}, {quantity(self.pressure, 'kPa_abs', 1)}"


@dataclass(frozen=True)
class Scale:
    """From °C and kPa to places on the paper."""

    cold: float
    warm: float
    least: float
    most: float

    def x(self, degrees: float) -> float:
        """Across; what lies outside is put at the edge."""
        part = (degrees - self.cold) / (self.warm - self.cold)
        return _LEFT + (_RIGHT - _LEFT) * min(max(part, 0.0), 1.0)

    def y(self, pressure: float) -> float:
        """Up; what lies outside is put at the edge."""
        part = (pressure - self.least) / (self.most - self.least)
        return _BOTTOM - (_BOTTOM - _TOP) * min(max(part, 0.0), 1.0)


def curve_figure(case: Case) -> Figure:
    """The line of this refrigerant with the points and the reading on it."""
    on_line, reading = _points(case), _reading(case)
    shown = [*on_line, *([reading] if reading else [])]
    scale = _scale(case, shown)
    drawing = Drawing(360.0, 276.0).with_shapes(*_frame(scale), *_lines(case, scale), *_air(case, scale, len(shown)))
    for one in on_line:
        drawing = drawing.with_shapes(circle(scale.x(one.degrees), scale.y(one.pressure), 5.0, filled=True))
    if reading is not None and case.standing is not None and case.pressure is not None:
        ambient = case.standing.ambient
        left, right = scale.x(ambient.low), scale.x(ambient.high)
        top, bottom = scale.y(case.pressure.high), scale.y(case.pressure.low)
        drawing = drawing.with_shapes(
            box(left, top, max(right - left, 4.0), max(bottom - top, 4.0), filled=True, kind="band"),
            line(
                scale.x(reading.degrees) - 7.0,
                scale.y(reading.pressure),
                scale.x(reading.degrees) + 7.0,
                scale.y(reading.pressure),
                width=3.0,
            ),
            line(
                scale.x(reading.degrees),
                scale.y(reading.pressure) - 7.0,
                scale.x(reading.degrees),
                scale.y(reading.pressure) + 7.0,
                width=3.0,
            ),
        )
    drawing = drawing.with_shapes(*_labels(shown, scale))
    said = "; ".join(one.words for one in shown)
    alt = (
        f"Saturation line of {case.fluid.name}, absolute pressure over temperature: {said}; the air at"
        f" {quantity(case.air.pressure, 'kPa_abs', 1)}"
    )
    return Figure("saturation-line", drawing.svg(alt), alt, alt + ".")


def _points(case: Case) -> list[Point]:
    found = []
    for degrees, name in ((case.temperature, "saturation"), (case.ambient, "at the ambient")):
        if degrees is not None:
            found += [Point(_named(name, part), degrees, curve.pressure(degrees)) for part, curve in case.fluid.lines]
    if case.pressure is not None and case.standing is None:
        value = case.pressure.value
        found += [Point(_named("reading", part), curve.temperature(value), value) for part, curve in case.fluid.lines]
    return found


def _named(name: str, part: str) -> str:
    return f"{name} ({part})" if part else name


def _reading(case: Case) -> Point | None:
    if case.standing is None or case.pressure is None:
        return None
    return Point("reading", case.standing.ambient.value, case.pressure.value)


def _scale(case: Case, shown: list[Point]) -> Scale:
    degrees = [one.degrees for one in shown]
    cold = max(case.fluid.coldest, min(degrees) - _AROUND)
    warm = min(case.fluid.warmest, max(degrees) + _AROUND)
    pressures = [one.pressure for one in shown]
    ends = (case.fluid.dew.pressure(cold), case.fluid.bubble.pressure(warm))
    least, most = min(*ends, *pressures), max(*ends, *pressures)
    room = 0.05 * (most - least)
    return Scale(cold, warm, max(least - room, 0.0), most + room)


def _frame(scale: Scale) -> tuple[str, ...]:
    return (
        line(_LEFT, _TOP, _LEFT, _BOTTOM, width=1.5),
        line(_LEFT, _BOTTOM, _RIGHT, _BOTTOM, width=1.5),
        words(_LEFT, _BOTTOM + 18.0, quantity(scale.cold, "degC", 0), size=12),
        words(_RIGHT - 12.0, _BOTTOM + 18.0, quantity(scale.warm, "degC", 0), size=12),
        words((_LEFT + _RIGHT) / 2.0, _BOTTOM + 34.0, "temperature, °C; pressure, kPa absolute", size=12),
        words(_LEFT - 6.0, _BOTTOM, rounded(scale.least, 0), anchor="end", size=12),
        words(_LEFT - 6.0, _TOP + 10.0, rounded(scale.most, 0), anchor="end", size=12),
    )


def _lines(case: Case, scale: Scale) -> tuple[str, ...]:
    return tuple(polyline(_along(curve, scale), dashed=name == "bubble", width=2.5) for name, curve in case.fluid.lines)


def _along(curve: Curve, scale: Scale) -> list[tuple[float, float]]:
    step = (scale.warm - scale.cold) / _PIECES
    degrees = [scale.cold + step * number for number in range(_PIECES)] + [scale.warm]
    return [(scale.x(one), scale.y(curve.pressure(one))) for one in degrees]


def _air(case: Case, scale: Scale, rows: int) -> tuple[str, ...]:
    """The air's pressure across, named where the rising line is not: low at the right, high at the left."""
    if not scale.least < case.air.pressure < scale.most:
        return ()
    y = scale.y(case.air.pressure)
    text = f"the air, {rounded(case.air.pressure, 1)}"
    if y > (_TOP + _BOTTOM) / 2.0:
        label = words(_RIGHT - 4.0, y - 5.0, text, anchor="end", size=12)
    else:
        under_labels = _TOP + 12.0 + _ROW * rows
        label = words(_LEFT + 10.0, max(y - 5.0, under_labels), text, anchor="start", size=12)
    return (line(_LEFT, y, _RIGHT, y, dashed=True, width=1.0), label)


def _labels(shown: list[Point], scale: Scale) -> list[str]:
    """The points in words, one under the other in the corner that the rising line leaves empty."""
    return [
        words(_LEFT + 10.0, _TOP + 12.0 + _ROW * row, one.words, anchor="start", size=12, bold=one.name == "reading")
        for row, one in enumerate(shown)
    ]
