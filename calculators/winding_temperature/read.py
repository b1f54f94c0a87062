"""Turns what was entered into a case; refuses readings that cannot belong together."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from calculators.contract import quantity
from calculators.inputs import Entered, Problem, RefusedError
from calculators.limits import InForce
from calculators.winding_temperature.case import Case, exact
from calculators.winding_temperature.inputs import HOT, OHMS, TIME

CLOSEST = 1.0  # s; two readings nearer in time than that are one
HOTTEST = 300.0  # °C; a winding's varnish is gone long before
COLDEST_RATIO = 0.8  # hot over cold ohms; less is another pair of pins
STEEPEST = math.log(100.0)  # of hot over cold; keeps exp within bounds, far beyond the two above


def left_out(entered: Entered) -> tuple[str, ...]:
    """Every hot reading of which only the time or only the ohms were entered, in words; it takes no part."""
    found = []
    for number, name in enumerate(HOT, start=1):
        time, ohms = entered.number(name + TIME), entered.number(name + OHMS)
        if (time is None) != (ohms is None):
            found.append(f"Hot reading {number} was not used: its {'time is' if time is None else 'ohms are'} missing.")
    return tuple(found)


def case_of(entered: Entered, standards: InForce) -> Case:
    """The case, with hot readings in the order of their times."""
    problems = list(_problems(entered, standards))
    if problems:
        raise RefusedError(*problems)
    points = _ordered(entered)
    lead = entered.number("lead")
    case = Case(
        exact(entered.needed("cold_ohms")),
        exact(entered.needed("cold_temperature")),
        entered.number("hours_rest"),
        None if lead is None else exact(lead),
        tuple(time for time, _, _ in points),
        tuple(ohms for _, ohms, _ in points),
        entered.choice("metal"),
        entered.choice("insulation"),
        entered.choice("same_meter") == "yes",
        entered.meters["ohmmeter"],
        entered.needed("thermometer_band"),
        standards,
    )
    _refuse_other_pairs(case, points[0][2])
    return case


def _points(entered: Entered) -> Iterator[tuple[float, float, str]]:
    """Every complete hot reading: time, ohms, and its name."""
    for name in HOT:
        time, ohms = entered.number(name + TIME), entered.number(name + OHMS)
        if time is not None and ohms is not None:
            yield exact(time), exact(ohms), name


def _ordered(entered: Entered) -> list[tuple[float, float, str]]:
    """The hot readings by their times; of two at one time the one entered first comes first."""
    return sorted(_points(entered), key=lambda point: (point[0], point[2]))


def _problems(entered: Entered, standards: InForce) -> Iterator[Problem]:
    lead = entered.number("lead") or 0.0
    fields = [("cold_ohms", "Cold reading")]
    fields += [(name + OHMS, f"Hot reading {number}") for number, name in enumerate(HOT, start=1)]
    for field, label in fields:
        ohms = entered.number(field)
        if ohms is not None:
            yield from _odd_ohms(field, label, ohms, lead)
    last = standards.limit("winding_temperature.last_reading")
    for number, name in enumerate(HOT, start=1):
        time, ohms = entered.number(name + TIME), entered.number(name + OHMS)
        if time is not None and ohms is not None and time > last.value:
            yield Problem(
                name + TIME,
                f"Hot reading {number}: {quantity(time, 's', 0)} after switch-off is later than {last.text}, and the"
                " winding has cooled too far to reckon back from. Leave this reading out.",
            )
    ordered = _ordered(entered)
    for (before, _, _), (after, _, name) in pairwise(ordered):
        if after - before < CLOSEST:
            yield Problem(
                name + TIME,
                f"Hot reading {name.removeprefix('hot')}: another reading has the same time,"
                f" {quantity(after, 's', 0)}. Enter the time of each reading, or clear one of them.",
            )


def _odd_ohms(field: str, label: str, ohms: float, lead: float) -> Iterator[Problem]:
    if math.isinf(ohms):
        yield Problem(
            field,
            f"{label}: OL is no temperature. After a trip an internal overload opens the pairs to common: take the pair"
            " run–start, cold and hot, and enter its ohms.",
        )
    elif exact(ohms) <= exact(lead):
        than = f"no more than the leads alone, {quantity(lead, 'ohm', 2)}" if lead else "zero"
        yield Problem(
            field,
            f"{label}: {quantity(ohms, 'ohm', 2)} is {than}. Short the probes, read the leads again, then this pair.",
        )


def _refuse_other_pairs(case: Case, field: str) -> None:
    """Refuse a ratio that no winding has: another pair of pins, another motor, or a slip of the pen."""
    best = case.best if _within_reach(case) else None
    if best is not None and best.celsius <= HOTTEST and best.line.ohms >= COLDEST_RATIO * best.cold:
        return
    said = "far from any winding" if best is None else f"{quantity(best.celsius, 'degC', 0)}"
    raise RefusedError(
        Problem(
            field + OHMS,
            f"Hot reading {field.removeprefix('hot')}: hot over cold ohms would make the winding {said}. Cold and hot"
            " were not the same pair of pins, or a figure is wrong: check the ohms and the times.",
        )
    )


def _within_reach(case: Case) -> bool:
    """Whether reckoning back stays far inside what numbers can hold."""
    lead = case.lead or 0.0
    return abs(case.line(lead).log_ohms - math.log(case.cold_ohms - lead)) < STEEPEST
