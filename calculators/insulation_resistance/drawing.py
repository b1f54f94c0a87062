"""Draws every reading on one scale of megohms, each step ten times the one before, with the two limits."""

from __future__ import annotations

import math

from calculators.contract import Figure
from calculators.drawing import Drawing, box, line, words
from calculators.insulation_resistance.inputs import WHOLE
from calculators.insulation_resistance.judgement import Case
from calculators.insulation_resistance.readings import Insulation
from calculators.units import from_base

_LEFT, _RIGHT, _ROW = 20.0, 340.0, 46.0
_FIRST, _LAST = -2, 4  # powers of ten of a megohm at the ends of the scale


def _x(megohms: float) -> float:
    power = math.log10(megohms) if megohms > 0.0 else _FIRST
    return _LEFT + (_RIGHT - _LEFT) * (min(max(power, _FIRST), _LAST) - _FIRST) / (_LAST - _FIRST)


def megohm_figure(case: Case) -> Figure:
    """The picture of this check: three zones, and each reading with its band or an arrow off the scale."""
    fail, accept = case.refused, case.accepted
    low, high = _x(fail.value), _x(accept.value)
    top = 44.0
    bottom = top + _ROW * len(case.places) + 2.0
    drawing = Drawing(360.0, bottom + 42.0).with_shapes(
        words((_LEFT + low) / 2.0, 32.0, "not passed", size=12, bold=True),
        words((low + high) / 2.0, 32.0, "watch", size=12, bold=True),
        words((high + _RIGHT) / 2.0, 32.0, "accepted", size=12, bold=True),
        words(low, 14.0, fail.text, size=12),
        words(high, 14.0, accept.text, size=12),
        *(line(at, 18.0, at, top, dashed=True) for at in (low, high)),
        line(_LEFT, bottom, _RIGHT, bottom),
        *(
            shape
            for power in range(_FIRST, _LAST + 1, 2)
            for shape in (
                line(_x(10.0**power), bottom, _x(10.0**power), bottom + 6.0),
                words(min(max(_x(10.0**power), 40.0), 316.0), bottom + 20.0, f"{10.0**power:g} MΩ", size=12),
            )
        ),
        words(180.0, bottom + 38.0, "each mark is 100 times the one before", size=12),
    )
    for number, place in enumerate(case.places):
        y = top + _ROW * number
        across = [line(at, y + 16.0, at, y + 40.0, dashed=True) for at in (low, high)]
        drawing = drawing.with_shapes(*across, *_row(place, y))
    said = "; ".join(f"{_label(one)} {one.text}" for one in case.places)
    alt = f"Insulation on one scale: {said}; not passed below {fail.text}, accepted from {accept.text} on"
    return Figure("megohm-scale", drawing.svg(alt), alt, alt + ".")


def _label(place: Insulation) -> str:
    return "whole machine" if place.field == WHOLE else place.words.lower()


def _row(place: Insulation, y: float) -> tuple[str, ...]:
    low, high = _x(from_base(place.low, "megohm")), _x(from_base(place.high, "megohm"))
    label = words(_LEFT, y + 12.0, f"{_label(place)}: {place.text}", anchor="start", size=12)
    if place.open_line:
        arrow = (line(_RIGHT - 8.0, y + 22.0, _RIGHT, y + 28.0), line(_RIGHT - 8.0, y + 34.0, _RIGHT, y + 28.0))
        return (label, line(low, y + 20.0, low, y + 36.0, width=4.0), line(low, y + 28.0, _RIGHT, y + 28.0), *arrow)
    at = _x(from_base(place.ohms, "megohm"))
    return (
        label,
        box(low, y + 20.0, max(high - low, 2.0), 16.0, filled=True, kind="band"),
        line(at, y + 17.0, at, y + 39.0, width=4.0),
    )
