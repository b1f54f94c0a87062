"""Volts along the path, drawn from the supply to the machine: idle, running, and in the moment of the start.

The three lines differ by weight and dash and each carries its name and its volts at the end, so that nothing hangs on
colour. The two limits of the start are dashed lines across, named at the left.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from calculators.contract import Figure, quantity, rounded
from calculators.drawing import Drawing, line, words
from calculators.limits import InForce
from calculators.voltage_drop.case import Case
from calculators.voltage_drop.path_volts import Part, in_series, volts_upstream

_LEFT, _RIGHT, _TOP, _BOTTOM = 48.0, 222.0, 20.0, 208.0
_LABEL_GAP = 16.0
_FINE_SCALE = 20.0  # volts from top to bottom, below which the scale shows tenths
_MOST_IN_A_ROW = 4  # station names side by side


@dataclass(frozen=True)
class Trace:
    """One line of the drawing: its name and the volts at each station."""

    name: str
    volts: tuple[float, ...]
    width: float
    dashed: bool = False


def stations(case: Case) -> tuple[str, ...]:
    """Where volts are shown: the supply, the end of each part, the machine at last."""
    ends = [part.ends_at for part in case.parts]
    return ("supply", *ends[:-1], "machine")


def traces(case: Case) -> tuple[Trace, ...]:
    """Volts at each station: idle, running and at the start, each where its amps are known."""
    found = [Trace("idle", tuple(case.idle.value for _ in range(len(case.parts) + 1)), 1.5)]
    running, starting = case.running, case.starting
    if running is not None:
        volts = _along(case.parts, running.volts, running.amps.value, running.power_factor)
        found.append(Trace("running", volts, 3.0))
    if starting is not None:
        amps = starting.amps * starting.volts.value / case.plate
        volts = _along(case.parts, starting.volts.value, amps, starting.power_factor)
        found.append(Trace("start", volts, 2.5, dashed=True))
    return tuple(found)


def path_figure(case: Case, standards: InForce) -> Figure:
    """The drawing, with the same in words."""
    lines, names = traces(case), stations(case)
    limits = _limits(case, standards)
    volts = [value for trace in lines for value in trace.volts] + [value for _, value in limits]
    top, bottom = max(volts), min(volts)
    room = max((top - bottom) * 0.06, 0.5)
    scale = _Scale(bottom - room, top + room, len(names))
    shapes = [line(_LEFT, _TOP, _LEFT, _BOTTOM), line(_LEFT, _BOTTOM, _RIGHT, _BOTTOM)]
    digits = 1 if top - bottom < _FINE_SCALE else 0
    ticks = (top, bottom) if scale.y(bottom) - scale.y(top) > _LABEL_GAP else (top,)
    shapes += [words(_LEFT - 4, scale.y(value) + 4, rounded(value, digits), anchor="end", size=11) for value in ticks]
    above = -_LABEL_GAP
    for label, value in limits:
        y = scale.y(value)
        shapes.append(line(_LEFT, y, _RIGHT, y, dashed=True, width=1.0))
        shapes.append(words(_LEFT + 4, y - 3 if y - above >= _LABEL_GAP else y + 11, label, anchor="start", size=11))
        above = y
    for trace in lines:
        shapes += _drawn(trace, scale)
    shapes += _end_labels(lines, scale)
    shapes += [line(scale.x(place), _BOTTOM, scale.x(place), _BOTTOM + 5) for place in range(len(names))]
    lower = 14.0 if len(names) > _MOST_IN_A_ROW else 0.0
    for place, name in enumerate(names):
        shapes.append(words(scale.x(place), _BOTTOM + 18 + lower * (place % 2), name, size=11))
    alt = _in_words(lines, names, limits)
    drawing = Drawing(360.0, _BOTTOM + 44.0).with_shapes(*shapes)
    return Figure("volts-along-the-path", drawing.svg(alt), alt, f"{alt}.")


@dataclass(frozen=True)
class _Scale:
    bottom: float
    top: float
    count: int

    def x(self, place: int) -> float:
        return _LEFT + (_RIGHT - _LEFT) * place / (self.count - 1)

    def y(self, volts: float) -> float:
        return _BOTTOM - (_BOTTOM - _TOP) * (volts - self.bottom) / (self.top - self.bottom)


def _along(parts: Sequence[Part], load_volts: float, amps: float, power_factor: float | None) -> tuple[float, ...]:
    """Volts at each station, worked upstream from the load."""
    return tuple(
        volts_upstream(load_volts, amps, in_series(parts[place:]).value, power_factor)
        for place in range(len(parts) + 1)
    )


def _limits(case: Case, standards: InForce) -> tuple[tuple[str, float], ...]:
    if case.start is None:
        return ()
    found = (standards.limit(key) for key in ("start_volts.warn", "start_volts.min"))
    return tuple((f"{limit.text} of plate", case.plate * limit.value / 100.0) for limit in found)


def _drawn(trace: Trace, scale: _Scale) -> list[str]:
    points = [(scale.x(place), scale.y(volts)) for place, volts in enumerate(trace.volts)]
    return [line(*start, *end, dashed=trace.dashed, width=trace.width) for start, end in pairwise(points)]


def _end_labels(lines: Sequence[Trace], scale: _Scale) -> list[str]:
    """The name and the volts at the end of each line, pushed apart where they would lie on each other."""
    ordered = sorted(lines, key=lambda trace: -trace.volts[-1])
    places: list[float] = []
    for number, trace in enumerate(ordered):
        lowest = _BOTTOM - _LABEL_GAP * (len(ordered) - 1 - number)  # room for those below, above the stations' names
        least = places[-1] + _LABEL_GAP if places else 0.0
        places.append(max(min(scale.y(trace.volts[-1]) + 4, lowest), least))
    texts = [f"{trace.name} {quantity(trace.volts[-1], 'V', 1)}" for trace in ordered]
    placed = zip(texts, places, strict=True)
    return [words(_RIGHT + 8, y, text, anchor="start", size=12, bold=True) for text, y in placed]


def _in_words(lines: Sequence[Trace], names: Sequence[str], limits: Sequence[tuple[str, float]]) -> str:
    told = [f"idle {quantity(lines[0].volts[-1], 'V', 1)} all along"]
    for trace in lines[1:]:
        stops = ", ".join(f"{name} {quantity(volts, 'V', 1)}" for name, volts in zip(names, trace.volts, strict=True))
        told.append(f"{trace.name}: {stops}")
    told += [f"{label} is {quantity(value, 'V', 1)}" for label, value in limits]
    return "Volts along the path. " + "; ".join(told)
