"""The three pins of a hermetic compressor as a picture: numbers, letters when they are known, ohms between.

Seen square-on, the way the photo is taken before anything is pulled off.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations

from calculators.contract import Figure
from calculators.drawing import Drawing, circle, line, words

PINS = ("1", "2", "3")
ROLE_WORDS = {"C": "common", "R": "run", "S": "start"}

# Where pin 1, 2, 3 sit, in drawing units, for the two ways the triangle can stand.
_PLACES = {
    "single pin above": {"1": (180.0, 70.0), "2": (70.0, 230.0), "3": (290.0, 230.0)},
    "single pin below": {"1": (70.0, 70.0), "2": (290.0, 70.0), "3": (180.0, 230.0)},
}
_WORDS = {
    "single pin above": "pin 1 on top, pin 2 lower left, pin 3 lower right",
    "single pin below": "pin 1 upper left, pin 2 upper right, pin 3 below",
}
_RADIUS = 26.0


def _beside(x: float, y: float, level: bool, ohms: Mapping[tuple[str, str], str], pair: tuple[str, str]) -> str:
    """The ohms of a pair: above a level line, and outside a slanting one so that they grow away from it."""
    text = ohms.get(pair, "?")
    if level:
        return words(x, y - 10.0, text, bold=True)
    right = x > 180.0
    return words(x + (12.0 if right else -12.0), y, text, anchor="start" if right else "end", bold=True)


def pin_figure(layout: str, roles: Mapping[str, str], ohms: Mapping[tuple[str, str], str]) -> Figure:
    """Draw the pins.

    layout: "single pin above" or "single pin below"; anything else is drawn as the first.
    roles: pin -> "C", "R" or "S", for the pins that are known. ohms: pair of pins -> text such as "4.2 Ω".
    """
    stand = layout if layout in _PLACES else "single pin above"
    places = _PLACES[stand]
    drawing = Drawing(360.0, 300.0)
    for pair in combinations(PINS, 2):
        (x1, y1), (x2, y2) = places[pair[0]], places[pair[1]]
        drawing = drawing.with_shapes(
            line(x1, y1, x2, y2, dashed=True, width=1.5),
            _beside((x1 + x2) / 2.0, (y1 + y2) / 2.0, y1 == y2, ohms, pair),
        )
    for pin, (x, y) in places.items():
        role = roles.get(pin, "")
        above = y < 150.0
        drawing = drawing.with_shapes(
            f'<g class="drawing-pin">{circle(x, y, _RADIUS)}</g>',
            words(x, y + 7, role or pin, size=20, bold=True),
            words(x, y - 34 if above else y + 46, f"pin {pin}{' ' + ROLE_WORDS[role] if role else ''}"),
        )
    named = ", ".join(f"pin {pin} {ROLE_WORDS[roles[pin]]}" for pin in PINS if pin in roles) or "no pin named yet"
    between = ", ".join(f"{a} to {b} {ohms.get((a, b), 'not read')}" for a, b in combinations(PINS, 2))
    alt = f"Three pins, {_WORDS[stand]}: {named}; between them {between}"
    return Figure("pins", drawing.svg(alt), alt, alt + ".")
