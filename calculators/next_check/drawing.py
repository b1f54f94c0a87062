"""The path of a walk as boxes under each other: question and answer, down to where it stands."""

from __future__ import annotations

import textwrap
from collections.abc import Mapping

from calculators.contract import Figure
from calculators.decisions import Walk
from calculators.drawing import LINE_HEIGHT, Drawing, box, line, words
from calculators.limits import InForce
from calculators.next_check.findings import falls_short

_WIDTH = 360.0
# What fits a line of 332 units in letters of 13, bold and plain, in the widest of the usual sans-serif faces.
_MOST_BOLD, _MOST_PLAIN = 40, 44
_GAP = 18.0
_EDGE = 8.0


def path_figure(here: Walk, evidence: Mapping[str, str], standards: InForce) -> Figure:
    """Every box holds its words; the one where the walk stands has a thick frame and says so."""
    boxes = [
        (standards.said(one.question.question), f"Answer: {standards.said(one.answer.label)}") for one in here.taken
    ]
    if here.stopped_for is not None:
        boxes.insert(here.anew, (here.stopped_for.label, "The walk begins anew here."))
    asks, reached = here.asks, here.reached
    if asks is not None:
        boxes.append((standards.said(asks.question), "Asked now"))
    elif reached is not None:
        short = falls_short(reached, evidence)
        boxes.append((reached.title, "Not tellable yet: something is missing" if short else "The walk ends here"))
    drawing, y = Drawing(_WIDTH, 0.0), _EDGE
    for place, (first, second) in enumerate(boxes):
        last = place == len(boxes) - 1
        if place:
            drawing = drawing.with_shapes(*_arrow(y))
            y += _GAP
        bold, light = _lines(first, _MOST_BOLD), _lines(second, _MOST_PLAIN)
        height = LINE_HEIGHT * (len(bold) + len(light)) + 2 * _EDGE
        drawing = drawing.with_shapes(box(_EDGE, y, _WIDTH - 2 * _EDGE, height, kind="mark" if last else "line"))
        if last:
            drawing = drawing.with_shapes(box(_EDGE + 3, y + 3, _WIDTH - 2 * _EDGE - 6, height - 6))
        for number, text in enumerate([*bold, *light]):
            baseline = y + _EDGE + LINE_HEIGHT * number + 13
            drawing = drawing.with_shapes(
                words(2 * _EDGE + 2, baseline, text, anchor="start", size=13, bold=number < len(bold))
            )
        y += height
    alt = "The path walked: " + "; then ".join(
        f"{first}{'' if first.endswith('?') else ':'} {second}" for first, second in boxes
    )
    return Figure("path", Drawing(_WIDTH, y + _EDGE, drawing.shapes).svg(alt), alt, f"{alt}.")


def _lines(text: str, most: int) -> list[str]:
    return textwrap.wrap(text, most, break_long_words=True) or [""]


def _arrow(y: float) -> tuple[str, ...]:
    middle = _WIDTH / 2
    end = y + _GAP
    return (
        line(middle, y, middle, end - 1),
        line(middle - 5, end - 7, middle, end - 1),
        line(middle + 5, end - 7, middle, end - 1),
    )
