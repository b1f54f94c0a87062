"""What is joined inside each kind of start device, with the readings written beside it.

Two rows of terminals and what lies between them; a contact is drawn open or closed as the device rests.
"""

from __future__ import annotations

from calculators.contract import Figure
from calculators.drawing import Drawing, box, circle, line, words
from calculators.inputs import Entered
from calculators.nulling import nulled
from calculators.start_device_check.dead import ohms

_X1, _X2, _ROW = 70.0, 290.0, 78.0


def inside_figure(entered: Entered) -> Figure:
    """The device as it rests, off the pins."""
    kind = entered.choice("kind")
    if kind == "ptc":
        rows = [("run", "start", "disc", "disc", _said(entered, "ptc_ohms"))]
        title = "PTC: one disc between the run and the start socket"
    elif kind == "potential":
        rows = [
            ("2", "1", "closed", "contact, closed at rest", _said(entered, "contact_ohms")),
            ("2", "5", "coil", "coil", _said(entered, "coil_ohms")),
        ]
        title = "Potential relay: contact from 2 to 1 closed at rest, coil from 2 to 5"
    else:
        upright, inverted = _said(entered, "contact_upright_ohms"), _said(entered, "contact_inverted_ohms")
        both = f"upright {upright}, upside down {inverted}"
        rows = [
            ("line", "run", "coil", "coil", _said(entered, "relay_coil_ohms")),
            ("line", "start", "open", "contact", both),
        ]
        title = "Current relay: coil from line to run, contact from line to start open upright"
    drawing = Drawing(360.0, _ROW * len(rows) + 12.0)
    for number, (left, right, part, name, said) in enumerate(rows):
        drawing = drawing.with_shapes(*_row(20.0 + _ROW * number + 24.0, left, right, part, name, said))
    alt = f"{title}. Read: {'; '.join(f'{name} {said}' for _, _, _, name, said in rows)}"
    return Figure("inside", drawing.svg(alt), alt, alt + ".")


def _said(entered: Entered, field: str) -> str:
    typed = entered.number(field)
    return "not read" if typed is None else ohms(nulled(entered, field, field, typed, entered.meters["ohmmeter"]))


def _row(y: float, left: str, right: str, part: str, name: str, said: str) -> tuple[str, ...]:
    middle = (_X1 + _X2) / 2.0
    ends = (
        circle(_X1, y, 5.0, filled=True),
        circle(_X2, y, 5.0, filled=True),
        words(_X1 - 12.0, y + 5.0, left, anchor="end", bold=True),
        words(_X2 + 12.0, y + 5.0, right, anchor="start", bold=True),
        words(middle, y - 20.0, name, size=12),
        words(middle, y + 30.0, said, size=12, bold=True),
    )
    if part in ("coil", "disc"):
        return (
            *ends,
            line(_X1, y, middle - 34.0, y),
            box(middle - 34.0, y - 11.0, 68.0, 22.0, filled=part == "disc"),
            line(middle + 34.0, y, _X2, y),
        )
    lift = 14.0 if part == "open" else 0.0
    return (
        *ends,
        line(_X1, y, middle - 30.0, y),
        circle(middle - 30.0, y, 4.0),
        line(middle - 30.0, y, middle + 30.0, y - lift, width=3.0),
        circle(middle + 30.0, y, 4.0),
        line(middle + 30.0, y, _X2, y),
    )
