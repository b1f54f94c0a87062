"""The numbers of the insulation check and the arithmetic behind them, as a trainee would write it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from calculators.contract import Named, Result, Step, quantity, rounded
from calculators.insulation_resistance.inputs import WHOLE
from calculators.insulation_resistance.judgement import Case
from calculators.insulation_resistance.leakage import Leakage, leakage_results, leakage_step
from calculators.insulation_resistance.readings import Insulation, digits_for, shown, unit_for
from calculators.insulation_resistance.temperature import halving_factor, steepness_at, thermosetting_factor
from calculators.units import from_base


def results_of(case: Case, leakage: Leakage | None) -> Iterator[Result | Named]:
    """The numbers, in the order they are printed."""
    for place in case.places:
        yield _reading_result(place)
        fall = case.fall(place)
        if fall is not None:
            yield Result(
                f"{place.field}_fall",
                f"{place.words}: fall during the test",
                100.0 * fall.part,
                "percent",
                1,
                "How far the second reading lies below the first; below zero it rose, as good insulation may.",
            )
    if leakage is not None:
        yield from leakage_results(leakage, case.standards)


def _reading_result(place: Insulation) -> Result | Named:
    label = "Whole machine to earth" if place.field == WHOLE else f"{place.words} to shell"
    plain = "As it was taken; this is what decides, and no temperature correction changes it."
    if place.open_line:
        return Named(place.field, label, f"above {shown(place.low)}", plain)
    unit = unit_for(place.ohms)
    digits = digits_for(from_base(place.ohms, unit))
    return Result(place.field, label, place.ohms, unit, digits, plain, place.low, place.high)


def working_of(case: Case, leakage: Leakage | None, temperature: float | None) -> Iterator[Step]:
    """Every line of arithmetic, from the tester's band to the corrections that decide nothing."""
    for place in case.places:
        yield _band_step(place)
        yield from _fall_step(case, place)
    if leakage is not None:
        yield leakage_step(leakage)
    lowest = min(case.pins or case.places, key=lambda one: one.low)
    if temperature is not None:
        yield from _corrections(lowest, temperature)


def _band_step(place: Insulation) -> Step:
    meter = place.meter
    resolution = f"{from_base(meter.resolution, 'megohm'):.6g} MΩ"
    if place.open_line:
        top = shown(place.top)
        return Step(
            f"{place.words}: least it can be",
            "top − (% · top + counts · resolution)",
            f"{top} − ({meter.percent:g} % · {top} + {meter.counts:g} · {resolution})",
            f"above {shown(place.low)}",
            "euramet-cg-15",
        )
    return Step(
        f"{place.words}: band of the tester",
        "R ± (% · R + counts · resolution)",
        f"{shown(place.ohms)} ± ({meter.percent:g} % · {shown(place.ohms)} + {meter.counts:g} · {resolution})",
        f"{shown(place.low)} to {shown(place.high)}",
        "euramet-cg-15",
    )


def _fall_step(case: Case, place: Insulation) -> Iterator[Step]:
    fall = case.fall(place)
    if fall is not None and not math.isinf(fall.first):
        yield Step(
            f"{place.words}: fall during the test",
            "(R first − R end) / R first",
            f"({shown(fall.first)} − {shown(place.ohms)}) / {shown(fall.first)}",
            f"{quantity(100.0 * fall.part, 'percent', 1)}, at most"
            f" {case.standards.limit('insulation.most_fall').text} with the tester's counts on both readings; its gain"
            " cancels",
            "common-practice",
        )


def _corrections(place: Insulation, celsius: float) -> Iterator[Step]:
    """Both rules to 40 °C; they disagree, and neither takes part in a verdict."""
    ohms, bound = (place.low, "above ") if place.open_line else (place.ohms, "")
    at = quantity(celsius, "degC", 1)
    halving = halving_factor(celsius)
    yield Step(
        f"{place.words} at 40 °C by halving for each 10 K (decides nothing)",
        "R40 = R · 0.5^((40 − T) / 10)",
        f"{shown(ohms)} · 0.5^((40 − {rounded(celsius, 1)}) / 10)",
        f"factor {rounded(halving, 4)}: {bound}{shown(ohms * halving)}",
        "ieee-43",
    )
    thermosetting = thermosetting_factor(celsius)
    if thermosetting is not None:
        steepness = rounded(steepness_at(celsius), 0)
        yield Step(
            f"{place.words} at 40 °C by the thermosetting formula (decides nothing)",
            f"R40 = R · exp(−{steepness} · (1/(T + 273) − 1/313))",
            f"{shown(ohms)} · exp(−{steepness} · (1/({rounded(celsius, 1)} + 273) − 1/313)), T = {at}",
            f"factor {rounded(thermosetting, 3)}: {bound}{shown(ohms * thermosetting)}",
            "ieee-43-thermosetting",
        )
