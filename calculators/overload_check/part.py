"""What one question of the check adds to the answer, and what would decide where it is undecided."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from calculators.contract import Figure, Named, Result, Step
from calculators.findings import Decider, Finding, NextStep, Verdict
from calculators.finer_meter import finer_meter
from calculators.inputs import Entered
from calculators.limits import Limit
from calculators.readings import Meter

HERE = "overload-cold-and-hot"
UNPLUG = NextStep(
    "Unplug it, keep hold of the plug, and prove it dead before you look for the cause.", "make-safe-prove-dead"
)


@dataclass(frozen=True)
class Part:
    """Findings, numbers, working, pictures and notes of one question."""

    findings: tuple[Finding, ...] = ()
    results: tuple[Result | Named, ...] = ()
    working: tuple[Step, ...] = ()
    figures: tuple[Figure, ...] = ()
    notes: tuple[str, ...] = ()


def joined(parts: Sequence[Part]) -> Part:
    """Several questions as one."""
    return Part(
        tuple(one for part in parts for one in part.findings),
        tuple(one for part in parts for one in part.results),
        tuple(one for part in parts for one in part.working),
        tuple(one for part in parts for one in part.figures),
        tuple(one for part in parts for one in part.notes),
    )


@dataclass(frozen=True)
class Missing:
    """One thing without which nothing is condemned: in words, and the entry that would supply it."""

    words: str
    field: str
    entry: str | None = None


@dataclass(frozen=True)
class Judged:
    """A verdict with its words; what is missing when it is undecided."""

    verdict: Verdict
    sentence: str
    plain: str
    next_step: NextStep
    limit: Limit | None = None
    missing: tuple[Missing, ...] = ()
    stop: bool = False

    def finding(self, name: str, decider: Decider | None) -> Finding:
        """The same as a finding; the decider goes with an undecided one only."""
        undecided = self.verdict is Verdict.UNDECIDED
        return Finding(
            name,
            self.verdict,
            self.sentence,
            self.plain,
            self.next_step,
            self.limit,
            decider if undecided else None,
            self.stop,
        )


def decider_of(reading: str, resolution: str, missing: Sequence[Missing]) -> Decider:
    """What would decide: every missing thing in words; an entry only where one entry is enough."""
    alone = missing[0].entry if len(missing) == 1 else None
    return Decider(reading, resolution, "; ".join(one.words for one in missing), missing[0].field, alone)


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
