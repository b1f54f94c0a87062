"""What a reading means against a limit: within, watch, outside or undecided.

The limit's guard decides. Condemning a part (`reject`) needs the whole band outside; a reading
inside is within even when its band crosses, worded "not shown abnormal". Protecting a person
(`accept`) needs the whole band inside; whatever is not proved inside is not passed.

A wider band can only weaken a verdict, never make one:

>>> judge_side(1.30, 1.20, 1.40, limit=1.15, side="most", guard="reject").verdict.value
'outside'
>>> judge_side(1.30, 1.10, 1.50, limit=1.15, side="most", guard="reject").verdict.value
'undecided'
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from calculators.limits import Limit


class Verdict(Enum):
    """The four words a finding may carry."""

    WITHIN = "within"
    WATCH = "watch"
    OUTSIDE = "outside"
    UNDECIDED = "undecided"


@dataclass(frozen=True)
class Placement:
    """Where a reading lies: the verdict, and whether its band crosses the limit."""

    verdict: Verdict
    crossing: bool = False


@dataclass(frozen=True)
class NextStep:
    """What comes next, in words, and the procedure that says how, when the handbook has one."""

    text: str
    procedure: str | None = None


@dataclass(frozen=True)
class Decider:
    """What would decide an undecided finding: which reading, how fine, under which condition.

    `input` names the field to enter again; `entry` is the value of `enter_in` that would decide
    (a meter resolution, or a better piece of evidence); both None where no instrument can decide.
    """

    reading: str
    resolution: str
    condition: str
    enter_in: str | None = None
    entry: str | None = None


@dataclass(frozen=True)
class Finding:
    """One conclusion as a technician would write it, with the limit it rests on and what comes next."""

    name: str
    verdict: Verdict
    sentence: str
    plain: str
    next_step: NextStep
    limit: Limit | None = None
    decider: Decider | None = None
    stop: bool = False

    def __post_init__(self) -> None:
        if (self.verdict is Verdict.UNDECIDED) != (self.decider is not None):
            raise ValueError(f"finding {self.name}: an undecided finding, and no other, says what would decide it")


def judge_side(value: float, low: float, high: float, *, limit: float, side: str, guard: str) -> Placement:
    """Place a reading with its band low..high against one limit.

    side "most": above the limit is outside; "least": below it is. A reading on the limit is inside.
    """
    if side == "least":
        mirrored = judge_side(-value, -high, -low, limit=-limit, side="most", guard=guard)
        return mirrored
    if guard == "accept":
        if high <= limit:
            return Placement(Verdict.WITHIN)
        return Placement(Verdict.OUTSIDE) if low > limit else Placement(Verdict.UNDECIDED, crossing=True)
    if value <= limit:
        return Placement(Verdict.WITHIN, crossing=high > limit)
    return Placement(Verdict.OUTSIDE) if low > limit else Placement(Verdict.UNDECIDED, crossing=True)


def judge(value: float, low: float, high: float, limit: Limit) -> Placement:
    """Place a reading with its band against a limit, by the limit's own side and guard."""
    return judge_side(value, low, high, limit=limit.value, side=limit.side, guard=limit.guard)


def judge_pair(value: float, low: float, high: float, *, warn: Limit, fail: Limit) -> Placement:
    """Place a reading between a warning limit and a fail limit; certainly past the first only is watch.

    Under guard `reject` a reading inside the warning is within. Under guard `accept` the whole band
    must be inside the warning to be within, and inside the fail limit to be no worse than watch.
    """
    failed = judge(value, low, high, fail)
    if failed.verdict is Verdict.OUTSIDE:
        return failed
    warned = judge(value, low, high, warn)
    if warn.guard == "accept":
        if warned.verdict is Verdict.WITHIN:
            return warned
        return Placement(Verdict.WATCH) if failed.verdict is Verdict.WITHIN else failed
    if warned.verdict is Verdict.OUTSIDE:
        return Placement(Verdict.WATCH, crossing=failed.crossing)
    return warned
