"""Draws spans of amps over one another on one scale, with limits as dashed lines across them."""

from __future__ import annotations

from collections.abc import Iterable

from calculators.contract import Figure
from calculators.drawing import Mark
from calculators.rows_drawing import Row, rows_figure

__all__ = ["Row", "amps_figure"]


def amps_figure(rows: tuple[Row, ...], marks: Iterable[Mark]) -> Figure:
    """Every row with its band over one another, and the limits as dashed pieces of a line in each row."""
    return rows_figure("amps-scale", "Amps on one scale", rows, marks, unit="A", digits=2)
