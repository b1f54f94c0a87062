"""Draws the amps of each attempt beside those that the plate lets one expect, on one scale."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.amps_drawing import Row, amps_figure
from calculators.contract import Figure
from calculators.drawing import Mark
from calculators.locked_rotor.case import Case
from calculators.readings import in_quadrature


def amps_picture(case: Case) -> Iterator[Figure]:
    """Every attempt brought to the plate's volts, the plate's amps and the code letter; nothing without any of them."""
    rows, marks = [], []
    amps, letter = case.locked_rotor_amps, case.letter
    if letter is not None:
        most = letter.most if letter.most is not None else letter.least
        name = f"code letter {letter.letter}" + (" and up" if letter.most is None else "")
        rows.append(Row(name, (letter.least + most) / 2.0, letter.least, most))
    if amps is not None:
        low, high = case.standards.value("locked_rotor.low_ratio"), case.standards.value("locked_rotor.high_ratio")
        rows.append(Row("plate, with its window", amps, low * amps, high * amps))
        marks = [Mark(low * amps, "low"), Mark(high * amps, "high")]
    for attempt in case.attempts:
        if attempt.volts is not None:
            part = in_quadrature(attempt.amps.relative_band, attempt.volts.relative_band)
            value = attempt.amps.value * case.nominal / attempt.volts.value
            label = f"{attempt.number} attempt, brought to the plate"
            rows.append(Row(label, value, max(value * (1.0 - part), 0.0), value * (1.0 + part), bold=True))
    if rows:
        yield amps_figure(tuple(rows), marks)
