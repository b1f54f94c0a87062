"""Where readings of a supply lie against their limits, and the least change that would decide one that lies across.

Everything is compared in volts, so that a reading exactly on a limit is inside.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from calculators.contract import quantity
from calculators.findings import Decider, Placement, Verdict, judge, judge_pair
from calculators.finer_meter import finer_meter
from calculators.limits import Limit
from calculators.readings import Meter, Reading
from calculators.supply_check.case import Case
from calculators.voltage_drop.path_volts import Span

Place = Callable[[Case], Placement]


def in_volts(limit: Limit, plate_volts: float) -> Limit:
    """A limit in percent of the plate, as volts on this plate."""
    return replace(limit, value=plate_volts * limit.value / 100.0, unit="V")


def together(*places: Placement) -> Placement:
    """Several comparisons that all have to hold: one outside is outside, one left open leaves it open."""
    for verdict in (Verdict.OUTSIDE, Verdict.UNDECIDED):
        if any(one.verdict is verdict for one in places):
            return Placement(verdict, crossing=verdict is Verdict.UNDECIDED)
    return Placement(Verdict.WITHIN, crossing=any(one.crossing for one in places))


def place_level(case: Case, reading: Reading) -> Placement:
    """Steady volts against the least and the most that the plate stands: its low end, its high end."""
    low = in_volts(case.standards.limit("supply.low"), case.plate.low)
    high = in_volts(case.standards.limit("supply.high"), case.plate.high)
    return together(*(judge(reading.value, reading.low, reading.high, limit) for limit in (low, high)))


def place_start(case: Case, volts: Span, *, complete: bool) -> Placement:
    """Volts at the start against their two limits, on the low end of the plate.

    Incomplete is what can only show too many volts: it may fail, it is never passed.
    """
    warn = in_volts(case.standards.limit("start_volts.warn"), case.plate.low)
    fail = in_volts(case.standards.limit("start_volts.min"), case.plate.low)
    placed = judge_pair(volts.value, volts.low, volts.high, warn=warn, fail=fail)
    if complete or placed.verdict is Verdict.OUTSIDE:
        return placed
    return Placement(Verdict.UNDECIDED, crossing=True)


def percent_of(value: float, plate_volts: float) -> str:
    """A share of the plate, as it is printed."""
    return quantity(100.0 * value / plate_volts, "percent", 1)


def finer_or(case: Case, place: Place, reading: str, condition: str, otherwise: str, *meters: str) -> Decider:
    """The least finer meter with which place gives a verdict; in words where no handheld meter does."""
    units = {"voltmeter": "V", "clamp": "A"}
    for name in meters or ("voltmeter",):

        def decides(meter: Meter, name: str = name) -> bool:
            return place(case.with_meter(name, meter)).verdict is not Verdict.UNDECIDED

        finer = finer_meter(case.entered.meters[name], decides, name, units[name])
        if finer is not None:
            return Decider(reading, finer.words, condition, finer.enter_in, finer.entry)
    return Decider(reading, otherwise, condition)
