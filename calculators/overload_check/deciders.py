"""The way out of this check, and what would decide a reading of it: a finer meter or a better figure."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from calculators.findings import Decider, NextStep, Verdict
from calculators.finer_meter import finer_meter
from calculators.inputs import Entered
from calculators.readings import Meter

HERE = "overload-cold-and-hot"
UNPLUG = NextStep(
    "Unplug it, keep hold of the plug, and prove it dead before you look for the cause.", "make-safe-prove-dead"
)

_METERS = (
    ("stopwatch", "s", "The time", (0.1, 0.01)),
    ("clamp", "A", "The amps", (0.1, 0.01, 0.001)),
    ("voltmeter", "V", "The volts", (0.1, 0.01)),
)
# Better figures that the technician can bring: the field, its unit, the sharper values, and what they belong to.
_FIGURES = (
    ("expected_band", "%", (10.0, 5.0), "The expected amps, by better evidence"),
    ("thermometer_band", "K", (1.0, 0.5), "The shell temperature, by a better probe"),
    ("winding_band", "K", (5.0, 2.0), "The winding temperature, by a finer ohmmeter"),
)


def sharper(entered: Entered, verdict_of: Callable[[Entered], Verdict]) -> Decider | None:
    """The least change of one meter or one figure with which the same readings give a verdict; None when none does."""
    for field, entry, words, reading in _tries(entered, verdict_of):
        return Decider(reading, words, "the same moment, read as before", field, entry)
    return None


def _tries(
    entered: Entered, verdict_of: Callable[[Entered], Verdict]
) -> Iterator[tuple[str | None, str | None, str, str]]:
    for name, unit, reading, steps in _METERS:
        finer = finer_meter(entered.meters[name], _with_meter(entered, name, verdict_of), name, unit, steps=steps)
        if finer is not None and finer.enter_in is not None:
            yield finer.enter_in, finer.entry, finer.words, reading
    for field, unit, values, reading in _FIGURES:
        for value in values:
            if value < entered.needed(field):
                changed = replace(entered, numbers={**entered.numbers, field: value})
                if verdict_of(changed) is not Verdict.UNDECIDED:
                    yield field, f"{value:g} {unit}", f"good to ±{value:g} {unit}", reading


def _with_meter(entered: Entered, name: str, verdict_of: Callable[[Entered], Verdict]) -> Callable[[Meter], bool]:
    def decides(meter: Meter) -> bool:
        changed = replace(entered, meters={**entered.meters, name: meter})
        return verdict_of(changed) is not Verdict.UNDECIDED

    return decides
