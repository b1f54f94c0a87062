"""Draws the map's limits as a field of evaporating and condensing temperatures, with the reading in it."""

from __future__ import annotations

from calculators.contract import Figure, rounded
from calculators.drawing import Drawing, box, circle, line, words
from calculators.performance_map.the_map import MapReading
from calculators.units import symbol

_LEFT, _RIGHT, _TOP, _BOTTOM = 70.0, 330.0, 34.0, 214.0


def map_figure(reading: MapReading) -> Figure:
    """The field from the lowest to the highest temperatures, in the map's unit; the reading is a filled circle."""
    mark = symbol(reading.temperature_unit)
    coldest, warmest = (reading.in_map_unit(edge) for edge in reading.evaporating_edges)
    least, most = (reading.in_map_unit(edge) for edge in reading.condensing_edges)
    s, d = reading.point
    x = _LEFT + (_RIGHT - _LEFT) * (s - coldest) / (warmest - coldest)
    y = _BOTTOM - (_BOTTOM - _TOP) * (d - least) / (most - least)
    drawing = Drawing(360.0, 270.0).with_shapes(
        box(_LEFT, _TOP, _RIGHT - _LEFT, _BOTTOM - _TOP, filled=True, kind="band"),
        line(x, y, x, _BOTTOM, dashed=True, width=1.5),
        line(_LEFT, y, x, y, dashed=True, width=1.5),
        circle(x, y, 6.0, filled=True),
        words(200.0, 20.0, f"here: S {rounded(s, 1)}, D {rounded(d, 1)} {mark}", bold=True),
        words(_LEFT, 234.0, rounded(coldest, 1), size=12),
        words(_RIGHT, 234.0, rounded(warmest, 1), size=12),
        words(200.0, 256.0, f"S, evaporating, {mark}", size=12),
        words(_LEFT - 8.0, _BOTTOM, rounded(least, 1), anchor="end", size=12),
        words(_LEFT - 8.0, _TOP + 6.0, rounded(most, 1), anchor="end", size=12),
        words(_LEFT - 8.0, 128.0, f"D, {mark}", anchor="end", size=12),
    )
    alt = (
        f"The map goes from {rounded(coldest, 1)} to {rounded(warmest, 1)} {mark} evaporating and from "
        f"{rounded(least, 1)} to {rounded(most, 1)} {mark} condensing; "
        f"the reading at {rounded(s, 1)} and {rounded(d, 1)} {mark} lies inside"
    )
    return Figure("map-limits", drawing.svg(alt), alt, alt + ".")
