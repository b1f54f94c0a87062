"""Draws every reading of the volts on one scale with what the plate stands and what a start needs."""

from __future__ import annotations

from calculators.contract import Figure
from calculators.drawing import Mark
from calculators.rows_drawing import Row, rows_figure
from calculators.supply_check.case import Case
from calculators.supply_check.placing import in_volts

_READINGS = (
    ("idle", "idle_volts"),
    ("lowest at the start", "lowest_volts"),
    ("lowest at the second place", "second_lowest_volts"),
    ("running", "running_volts"),
)


def volts_figure(case: Case) -> Figure:
    """The readings and the foretold volts, one below the other."""
    rows = []
    for label, field in _READINGS:
        reading = case.entered.reading(field)
        if reading is not None:
            rows.append(Row(label, reading.value, max(reading.low, 0.0), reading.high, bold=True))
    if case.predicted is not None:
        rows.append(Row("foretold for the start", case.predicted.value, case.predicted.low, case.predicted.high))
    standards, plate = case.standards, case.plate
    low, warn = (in_volts(standards.limit(key), plate.low).value for key in ("supply.low", "start_volts.warn"))
    marks = [
        Mark(in_volts(standards.limit("start_volts.min"), plate.low).value, "start, least"),
        *([Mark(warn, "start, good")] if warn != low else []),
        Mark(low, "low; start, good" if warn == low else "low"),
        Mark(in_volts(standards.limit("supply.high"), plate.high).value, "high"),
    ]
    return rows_figure("volts-scale", "Volts on one scale", tuple(rows), marks, unit="V", digits=1, least_span=1.0)
