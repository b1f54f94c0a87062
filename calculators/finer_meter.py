"""The least change of a meter that would decide a reading it leaves undecided.

A finer meter is tried before it is named: the same reading is judged again as that meter would show it,
and only a meter that gives a verdict is offered.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import product

from calculators.readings import Meter
from calculators.units import from_base, symbol

FINER_STEPS = (0.1, 0.01, 0.001)  # what meters show, in the unit that the reading is taken in
BETTER_PERCENTS = (2.0, 1.5, 1.0, 0.5)  # what meter sheets promise


@dataclass(frozen=True)
class Finer:
    """A meter that would decide, in words, with the field to enter it in and the entry.

    enter_in and entry are None where only two entries together would decide.
    """

    words: str
    enter_in: str | None
    entry: str | None


def finer_meter(
    meter: Meter,
    decides: Callable[[Meter], bool],
    name: str,
    unit: str,
    *,
    steps: tuple[float, ...] = FINER_STEPS,
    percents: tuple[float, ...] = BETTER_PERCENTS,
) -> Finer | None:
    """The least change of the meter input called name that would decide; None when no such meter does.

    steps are in the unit given, coarsest first. A finer step alone, else a smaller percentage alone;
    where only both together decide there is no one entry.
    """
    now = from_base(meter.resolution, unit)
    finer = [step for step in steps if step < now]
    better = [percent for percent in percents if percent < meter.percent]
    scale = meter.resolution / now
    for step in finer:
        tried = replace(meter, resolution=step * scale)
        if decides(tried):
            return Finer(f"{meter_words(tried, unit)} or finer", f"{name}_resolution", f"{step:g} {symbol(unit)}")
    for percent in better:
        tried = replace(meter, percent=percent)
        if decides(tried):
            return Finer(f"{meter_words(tried, unit)} or better", f"{name}_percent", f"{percent:g}")
    for step, percent in product(finer, better):
        tried = replace(meter, resolution=step * scale, percent=percent)
        if decides(tried):
            return Finer(f"{meter_words(tried, unit)} or better", None, None)
    return None


def meter_words(meter: Meter, unit: str) -> str:
    """A meter as a technician would ask for it: "0.01 A on a meter of 2 % + 5 counts"."""
    step = from_base(meter.resolution, unit)
    return f"{step:.6g} {symbol(unit)} on a meter of {meter.percent:g} % + {meter.counts:g} counts"
