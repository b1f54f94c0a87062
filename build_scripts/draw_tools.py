"""Pictures of the tools in use and of the pins: drawn here so that they scale, print and read aloud like the rest."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import permutations

from calculators.drawing import Drawing, box, circle, line, polyline, words

ROLES = ("C", "R", "S")
_SIZE = 13.0


def clamp_svg(alt: str) -> str:
    """A clamp around one conductor, and one around the whole cord, each with what it shows."""
    shapes = [
        *_cord(40.0, split=True),
        _jaw(180.0, 40.0),
        words(180, 104, "Around one conductor: it shows the amps.", bold=True, size=_SIZE),
        *_cord(170.0, split=False),
        _jaw(180.0, 170.0),
        words(180, 216, "Around the whole cord: it shows about 0 A,", bold=True, size=_SIZE),
        words(180, 234, "for what goes out comes back beside it.", size=_SIZE),
    ]
    return Drawing(360.0, 246.0, tuple(shapes)).svg(alt)


def _cord(y: float, *, split: bool) -> Iterator[str]:
    """Three conductors from the plug to the machine; split: apart in the middle, the line on its own."""
    yield box(8, y - 22, 52, 44)
    yield words(34, y + 5, "supply", size=_SIZE)
    yield box(296, y - 22, 58, 44)
    yield words(325, y + 5, "machine", size=_SIZE)
    for name, lane in (("L", -8.0), ("N", 0.0), ("PE", 8.0)):
        away = 0.0 if not split else 34.0 if name != "L" else -1.0
        bent = y + lane + max(away, 0.0)
        yield polyline(
            [(60, y + lane), (104, y + lane), (128, bent), (236, bent), (260, y + lane), (296, y + lane)],
            dashed=name == "PE",
        )
        if split:
            yield words(112, bent - (5 if name == "L" else -4), name, anchor="end", size=11)


def _jaw(x: float, y: float) -> str:
    """The open ring of a clamp, seen from the side, around what lies at its middle."""
    return (
        f'<ellipse class="drawing-line" cx="{x:g}" cy="{y - 4:g}" rx="9" ry="22" fill="none" stroke="currentColor" '
        f'stroke-width="5"/>'
    )


def discharge_tool_svg(alt: str) -> str:
    """The resistor tool across a capacitor, with a voltmeter that watches it fall."""
    top, bottom = 60.0, 180.0
    shapes = (
        line(60, top, 300, top),
        line(60, bottom, 300, bottom),
        line(60, top, 60, 112),
        line(60, 128, 60, bottom),
        line(40, 112, 80, 112, width=3),
        line(40, 128, 80, 128, width=3),
        words(32, 156, "capacitor", anchor="start", size=_SIZE),
        line(180, top, 180, 90),
        box(168, 90, 24, 60),
        line(180, 150, 180, bottom),
        words(202, 116, "resistor", anchor="start", size=_SIZE),
        words(202, 133, "in the tool", anchor="start", size=_SIZE),
        line(300, top, 300, 100),
        circle(300, 120, 20),
        words(300, 126, "V", size=16, bold=True),
        line(300, 140, 300, bottom),
        words(350, 164, "dc, watched", anchor="end", size=_SIZE),
        *(circle(x, y, 3, filled=True) for x in (60, 180) for y in (top, bottom)),
        *(box(x, y, 34, 14) for x, y in ((104, top - 7), (104, bottom - 7))),
        words(121, top - 16, "insulated probe", size=_SIZE),
        words(121, bottom + 26, "insulated probe", size=_SIZE),
    )
    return Drawing(360.0, 220.0, shapes).svg(alt)


def pins_svg(alt: str, *, single_above: bool) -> str:
    """The six ways in which three names can stand on three pins."""
    shapes: list[str] = []
    for number, order in enumerate(permutations(ROLES)):
        x, y = 60.0 + 120.0 * (number % 3), 74.0 + 124.0 * (number // 3)
        places = _triangle(x, y, single_above=single_above)
        shapes += [circle(x, y, 52)]
        for role, (px, py) in zip(order, places, strict=True):
            shapes += [circle(px, py, 15), words(px, py + 6, role, size=16, bold=True)]
    return Drawing(360.0, 264.0, tuple(shapes)).svg(alt)


def _triangle(x: float, y: float, *, single_above: bool) -> list[tuple[float, float]]:
    """The single pin, then the left and the right one of the other two."""
    up = -1.0 if single_above else 1.0
    return [(x, y + 28 * up), (x - 25, y - 15 * up), (x + 25, y - 15 * up)]


def pins_in_words(*, single_above: bool) -> str:
    """The six ways in words, in the order of the picture."""
    where = "top, lower left, lower right" if single_above else "bottom, upper left, upper right"
    return f"{where}: {'; '.join(', '.join(order) for order in permutations(ROLES))}."
