"""Draws how start gear is wired, from its list of parts: symbols of IEC 60617, a name at every part.

The line stands on top, the neutral below the compressor, and under it a row for each way that feeds the start winding.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from build_scripts.connections import Connection, Net, Part, in_words, rows_of
from calculators.drawing import Drawing, box, circle, line, polyline, words

WIDTH = 360.0
_TOP, _NEUTRAL, _FIRST_ROW = 52.0, 236.0, 292.0
_ROW, _BLED_ROW = 58.0, 92.0
_LEFT, _SHELL = 34.0, (152.0, 84.0, 166.0, 116.0)
_C, _R, _S = (236.0, 84.0), (190.0, 200.0), (282.0, 200.0)
_HALF = 22.0  # half the length of every symbol
_SIZE = 13.0
_LABELS = {
    "control": "Control",
    "overload": "Overload",
    "relay-coil": "Relay coil",
    "contact-closes": "Relay contact",
    "contact-opens": "Relay contact",
    "ptc": "PTC",
    "start-capacitor": "Start capacitor",
    "run-capacitor": "Run capacitor",
}


def connection_svg(connection: Connection, *, overload_inside: bool = False) -> str:
    """The picture of one way of wiring, with the overload in the line or inside the shell."""
    net = Net.of(connection.parts)
    rows = rows_of(net)
    in_line = [part for part in rows.line if not (overload_inside and part.kind == "overload")]
    shapes = [*_motor(overload_inside), *_line_row(in_line), *_neutral_row(rows.neutral), *_earth()]
    y, bottom = _FIRST_ROW, _NEUTRAL
    for row in rows.branches:
        shapes += [*_branch(row, y), *(shape for x, part in _places(row) if net.bled(part) for shape in _bleed(x, y))]
        bottom, bled = y, any(net.bled(part) for part in row)
        y += _BLED_ROW if bled else _ROW
    shapes += [line(_LEFT, _NEUTRAL, _LEFT, bottom), line(_S[0], _S[1], _S[0], bottom)]
    shapes += [shape for part in rows.across for shape in _across(part)]
    return Drawing(WIDTH, y - 12.0, tuple(shapes)).svg(alt_of(connection, overload_inside=overload_inside))


def alt_of(connection: Connection, *, overload_inside: bool = False) -> str:
    """The picture in words."""
    where = ". The overload stands inside the shell, behind C" if overload_inside else ""
    return f"{connection.title}: {'; '.join(in_words(connection))}{where}."


def _line_row(parts: list[Part]) -> Iterator[str]:
    yield words(4, _TOP + 5, "L", anchor="start", bold=True)
    yield from _row(zip((74.0, 160.0), parts, strict=False), _TOP, 18.0, _C[0])
    yield line(_C[0], _TOP, *_C)


def _neutral_row(parts: tuple[Part, ...]) -> Iterator[str]:
    yield words(4, _NEUTRAL + 5, "N", anchor="start", bold=True)
    yield from _row(((112.0, part) for part in parts), _NEUTRAL, 18.0, _R[0])
    yield line(*_R, _R[0], _NEUTRAL)
    yield _dot(_LEFT, _NEUTRAL)


def _branch(row: tuple[Part, ...], y: float) -> Iterator[str]:
    yield from _row(_places(row), y, _LEFT, _S[0])
    yield _dot(_S[0], y)


def _places(row: tuple[Part, ...]) -> list[tuple[float, Part]]:
    """Where the middle of each part of a row stands."""
    return list(zip((158.0,) if len(row) == 1 else (94.0, 214.0), row, strict=True))


def _across(part: Part) -> Iterator[str]:
    """A part from S up the right side to C, beside the line."""
    right = 344.0
    yield from _row([(290.0, part)], _TOP, _C[0], right)
    yield polyline([(right, _TOP), (right, 218.0), (_S[0], 218.0)])
    yield _dot(_C[0], _TOP)
    yield _dot(_S[0], 218.0)


def _row(parts: Iterable[tuple[float, Part]], y: float, start: float, end: float) -> Iterator[str]:
    """Symbols at their places on a wire from start to end, with their names and the marks of their terminals."""
    here = start
    for x, part in parts:
        yield line(here, y, x - _HALF, y)
        yield from _symbol(part.kind, x, y)
        yield words(x, y - 20, _LABELS[part.kind], size=_SIZE)
        if part.kind in ("relay-coil", "contact-closes", "contact-opens"):
            yield from _terminals(part.shown[::-1], x, y)
        here = x + _HALF
    yield line(here, y, end, y)


def _terminals(ends: tuple[str, ...], x: float, y: float) -> Iterator[str]:
    """The numbers on a relay's terminals; other points of a list have none."""
    for end, side in zip(ends, (-1.0, 1.0), strict=True):
        if end.isdigit():
            yield words(x + side * (_HALF + 7), y + 17, end, size=_SIZE, bold=True)


def _symbol(kind: str, x: float, y: float) -> Iterator[str]:
    left, right = x - _HALF, x + _HALF
    if kind in ("start-capacitor", "run-capacitor"):
        yield line(left, y, x - 4, y)
        yield line(x + 4, y, right, y)
        yield line(x - 4, y - 12, x - 4, y + 12, width=3)
        yield line(x + 4, y - 12, x + 4, y + 12, width=3)
    elif kind in ("control", "contact-closes"):
        yield from _switch(x, y, tip=-12.0)
        if kind == "control":
            yield words(x + 1, y + 18, "ϑ", size=_SIZE)
    elif kind == "contact-opens":
        yield from _switch(x, y, tip=-9.0)
        yield line(x + 14, y, x + 14, y - 10)
    elif kind == "overload":
        yield box(left, y - 10, 2 * _HALF, 20)
        yield polyline([(left, y), (x - 8, y), (x - 8, y - 6), (x + 8, y - 6), (x + 8, y), (right, y)])
    else:
        yield box(left, y - 9, 2 * _HALF, 18)
        if kind == "ptc":
            yield polyline([(left - 2, y + 15), (left + 8, y + 15), (right - 4, y - 15)])
            yield words(right + 12, y + 18, "+ϑ", size=_SIZE)
        if kind == "relay-coil":
            yield line(x - 5, y + 9, x + 5, y - 9)


def _switch(x: float, y: float, *, tip: float) -> Iterator[str]:
    yield line(x - _HALF, y, x - 12, y)
    yield circle(x - 12, y, 2, filled=True)
    yield line(x - 12, y, x + 14, y + tip)
    yield circle(x + 14, y, 2, filled=True)
    yield line(x + 14, y, x + _HALF, y)


def _bleed(x: float, y: float) -> Iterator[str]:
    below = y + 32.0
    yield polyline([(x - _HALF - 6, y), (x - _HALF - 6, below), (x - _HALF + 4, below)])
    yield box(x - _HALF + 4, below - 7, 2 * _HALF - 8, 14)
    yield polyline([(x + _HALF - 4, below), (x + _HALF + 6, below), (x + _HALF + 6, y)])
    yield _dot(x - _HALF - 6, y)
    yield _dot(x + _HALF + 6, y)
    yield words(x, below + 22, "Bleed resistor", size=_SIZE)


def _motor(overload_inside: bool) -> Iterator[str]:
    """The shell with its three pins, and the two windings that meet behind C."""
    x, y, width, height = _SHELL
    yield (
        f'<rect class="drawing-line" x="{x:g}" y="{y:g}" width="{width:g}" height="{height:g}" rx="16" fill="none" '
        f'stroke="currentColor" stroke-width="2" stroke-dasharray="8 4"/>'
    )
    meet = (_C[0], 116.0 if overload_inside else 98.0)
    if overload_inside:
        yield box(_C[0] - 10, 92, 20, 18)
        yield line(*_C, _C[0], 92)
        yield line(_C[0], 110, *meet)
        yield words(_C[0] + 16, 108, "Overload", anchor="start", size=_SIZE)
    else:
        yield line(*_C, *meet)
    yield _dot(*meet)
    for pin, side, name in ((_R, -1.0, "run"), (_S, 1.0, "start")):
        yield polyline([meet, (pin[0], meet[1] + 14)])
        yield _winding(pin[0], meet[1] + 14, pin[1] - 16)
        yield line(pin[0], pin[1] - 16, *pin)
        yield words(pin[0] + (12 if side < 0 else -14), 172, name, anchor="start" if side < 0 else "end", size=_SIZE)
    for (px, py), pin_name, dx, dy in ((_C, "C", -14, -6), (_R, "R", -14, 14), (_S, "S", 14, 14)):
        yield circle(px, py, 4, filled=True)
        yield words(px + dx, py + dy, pin_name, bold=True)


def _winding(x: float, top: float, bottom: float) -> str:
    """Four bows of a coil, one under the other."""
    bow = (bottom - top) / 4.0
    arcs = "".join(f"a{bow / 2:g},{bow / 2:g} 0 0 1 0,{bow:g}" for _ in range(4))
    return f'<path class="drawing-line" d="M{x:g},{top:g}{arcs}" fill="none" stroke="currentColor" stroke-width="2"/>'


def _earth() -> Iterator[str]:
    """The shell's own conductor, to the sign of the protective earth."""
    x, y = 74.0, 142.0
    yield line(_SHELL[0], y, x, y)
    yield line(x, y, x, y + 12)
    for place, half in enumerate((14.0, 9.0, 4.0)):
        yield line(x - half, y + 12 + 5 * place, x + half, y + 12 + 5 * place)
    yield words(x - 22, y + 6, "PE", anchor="end", bold=True)
    yield words(_SHELL[0] - 6, y - 8, "shell", anchor="end", size=_SIZE)


def _dot(x: float, y: float) -> str:
    return circle(x, y, 2.5, filled=True)
