"""What one question of a check adds to the answer, and what is missing where it is undecided.

For calculators that put several findings together; see overload_check and start_device_check.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from calculators.contract import Figure, Named, Result, Step
from calculators.findings import Decider, Finding, NextStep, Verdict
from calculators.limits import Limit


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
