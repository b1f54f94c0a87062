"""The numbers of a clamp reading, the arithmetic behind them, their picture, and what stands beside them."""

from __future__ import annotations

import math
from collections.abc import Iterator

from calculators.amps_drawing import Row, amps_figure
from calculators.clamp_reading.case import WORDS, Case
from calculators.clamp_reading.inputs import WHOLE
from calculators.contract import Figure, Named, Result, Step, quantity, rounded
from calculators.inputs import Entered

_MOST_CARRIED = 50.0  # the most percent that a meter field takes


def results_of(case: Case) -> Iterator[Result | Named]:
    """The numbers, in the order they are printed."""
    whole = case.place == WHOLE
    yield Result(
        "line_amps",
        "What the two conductors leave over" if whole else "Amps in the conductor",
        case.line,
        "A",
        3,
        "Next to nothing, whatever the motor draws." if whole else "What the clamp shows, divided by the turns.",
        case.line_low,
        case.line_high,
    )
    if whole:
        return
    yield Result(
        "compressor_amps",
        "Amps of the compressor",
        case.amps,
        "A",
        3,
        "The middle of what is left when the other loads are taken off at every angle they may have."
        if case.counted
        else "The same, where nothing else was on this conductor.",
        case.low if case.counted else case.line_low,
        case.high if case.counted else case.line_high,
    )
    if case.counted:
        yield Result(
            "plain_difference",
            "By plain subtraction",
            max(case.line - math.fsum(one.amps for one in case.counted), 0.0),
            "A",
            3,
            "Only right when all currents keep step; otherwise the compressor draws more than this.",
        )
    if math.isfinite(case.percent):
        yield from _band_results(case)


def _band_results(case: Case) -> Iterator[Result | Named]:
    yield Result(
        "band_percent",
        "Band of these amps",
        case.percent,
        "percent",
        1,
        "How far they may be off either way, everything added up.",
    )
    good = case.standards.limit("clamp.good_band")
    turns = case.turns_for(good.value) if case.percent > good.value else None
    if turns is not None:
        yield Result(
            "turns_for_good",
            "Turns that would be enough",
            float(turns),
            "turn",
            0,
            f"The fewest turns through the jaw that bring the band to {good.text}, on the same range of the clamp.",
        )
    carried = math.ceil(10.0 * case.percent) / 10.0  # exact for whole tenths: they come back from a tenth of themselves
    if carried <= _MOST_CARRIED:
        yield Named(
            "carry_over",
            "To enter in Expected running amps",
            f"{quantity(case.amps, 'A', 3)}, clamp {rounded(carried, 1)} % and 0 counts",
            "There the turns and the other loads are not asked for; this percentage holds them all.",
        )


def working_of(case: Case) -> Iterator[Step]:
    """Every line of arithmetic."""
    clamp, shown, turns = case.clamp, quantity(case.shown, "A", 3), f"{case.turns:g}"
    yield Step(
        "Amps in the conductor", "I = shown / N", f"{shown} / {turns}", quantity(case.line, "A", 3), "common-practice"
    )
    yield Step(
        "Its band, everything added up (worst case)",
        "u = (% · shown + counts · resolution + empty jaw) / N",
        f"({clamp.percent:g} % · {shown} + {clamp.counts:g} · {clamp.resolution:g} A + "
        f"{quantity(case.zero, 'A', 3)}) / {turns}",
        f"±{quantity(case.line_band, 'A', 3)}",
        "euramet-cg-15",
    )
    if case.place == WHOLE:
        return
    if case.counted and case.left is not None:
        yield from _phasor_steps(case)
    yield Step(
        "Band in percent",
        "(most − least) / 2 / I" if case.counted else "u / I",
        f"({rounded(case.high, 3)} − {rounded(case.low, 3)}) / 2 / {quantity(case.amps, 'A', 3)}"
        if case.counted
        else f"{rounded(case.line_band, 3)} / {quantity(case.line, 'A', 3)}",
        f"±{quantity(case.percent, 'percent', 1)}" if math.isfinite(case.percent) else "no reading",
        "derived",
    )


def _phasor_steps(case: Case) -> Iterator[Step]:
    for one in case.counted:
        branch = one.branch
        yield Step(
            f"Other load: {WORDS[one.field]}",
            "amps, and degrees behind the volts",
            f"{quantity(one.amps, 'A', 3)} as entered",
            f"{rounded(branch.low, 3)} to {quantity(branch.high, 'A', 3)}, "
            f"{rounded(branch.least_lag, 0)} to {rounded(branch.most_lag, 0)}°",
            "derived",
        )
    left = case.left
    if left is None:
        return
    ends = (
        ("Least", case.line_low, left.along[1], left.square[1], left.least),
        ("Most", case.line_high, left.along[0], left.square[0], left.most),
    )
    for name, total, along, square, result in ends:
        yield Step(
            f"{name} amps of the compressor (worst case)",
            "x = −p + √(p² + I² − L²); p: other loads along x, L: their sum",
            f"p = {rounded(along, 3)} A, I = {rounded(total, 3)} A, L² = {rounded(square, 4)} A²",
            quantity(result, "A", 3),
            "kuphaldt-lessons",
        )


def figure_of(case: Case) -> Figure:
    """The spans in amps over one another: the conductor, the compressor, and how wide a reading may be."""
    rows = [Row("in the conductor", case.line, case.line_low, case.line_high, bold=True)]
    if case.place != WHOLE:
        good, weak = case.standards.limit("clamp.good_band"), case.standards.limit("amps.weak_above")
        if case.counted:
            rows.append(Row("of the compressor", case.amps, case.low, case.high, bold=True))
        for limit, words in ((good, "good is no wider than"), (weak, "too weak is wider than")):
            part = case.amps * limit.value / 100.0
            rows.append(Row(f"{words} ±{limit.text}", case.amps, case.amps - part, case.amps + part))
    return amps_figure(tuple(rows), ())


def notes_of(case: Case, entered: Entered) -> Iterator[str]:
    """What was not used, and what a good reading still does not say."""
    unused = (
        ("fan_amps", "fan_power_factor", "fans"),
        ("other_amps", "other_power_factor", "anything else"),
    )
    for amps, power_factor, words in unused:
        if entered.number(power_factor) is not None and not entered.number(amps):
            yield f"The power factor of {words} was not used: no amps were entered for it."
    if case.counted:
        yield (
            "Other loads are taken off as currents that may be out of step, so the plain difference is not the answer. "
            "With every power factor known the span closes."
        )
    yield "More turns make the display show more: see that its range still reaches, and that it still steps as finely."
    yield (
        "Low amps well read are not yet low gas: the beginning of a cycle, low volts and a motor that does not pump "
        "show low amps too. Watts, power factor and frost tell more."
    )
