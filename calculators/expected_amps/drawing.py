"""Draws what each piece of evidence allows, the expected amps and the reading on one scale of amps."""

from __future__ import annotations

from calculators.amps_drawing import Row, amps_figure
from calculators.contract import Figure
from calculators.drawing import Mark
from calculators.expected_amps.evidence import Piece, rated_load_of
from calculators.expected_amps.ratio import Case
from calculators.expected_amps.reference import Reference
from calculators.limits import InForce


def figure_of(pieces: tuple[Piece, ...], reference: Reference | None, case: Case | None, standards: InForce) -> Figure:
    """The picture of this check: the pieces where there are several, the expected amps, the reading, the limits."""
    rows = [
        Row(f"{piece.rank} {piece.words}", piece.amps, piece.low, piece.high)
        for piece in pieces
        if reference is None or len(pieces) > 1
    ]
    marks = []
    if reference is not None:
        bound = "at most" if reference.at_most else "expected"
        rows.append(Row(bound, reference.amps, reference.low, reference.high, bold=True))
        marks.append(Mark(standards.value("amps.high_ratio") * reference.amps, "high"))
        if not reference.weak:
            marks.append(Mark(reference.low_limit.value * reference.amps, "low"))
            marks.append(Mark(standards.value("amps.stop_ratio") * (rated_load_of(pieces) or reference.amps), "stop"))
    if case is not None:
        band = case.clamp.band(case.amps)
        rows.append(Row("measured", case.amps, case.amps - band, case.amps + band, bold=True))
    return amps_figure(tuple(rows), marks)
