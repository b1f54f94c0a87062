"""What a start shows: volts and rest of the attempt, and whether the start lead lets go.

A start proves a device; humming accuses it only beside a substitute that starts the same motor, at good volts, rested.
The start current is held against its own value at the start: one clamp took both, so its gain error cancels and only
its counts are left.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from calculators.contract import Result, Step, quantity, rounded
from calculators.findings import Decider, Finding, NextStep, Placement, Verdict, judge
from calculators.finer_meter import finer_meter
from calculators.inputs import Entered, Problem, RefusedError
from calculators.limits import InForce
from calculators.parts import Judged, Missing, decider_of
from calculators.readings import Meter
from calculators.units import to_base

UNPLUG = NextStep(
    "Unplug it, keep hold of the plug, and prove it dead before you look for the cause.", "make-safe-prove-dead"
)
_AGAIN = NextStep("Read the start lead again at a start that another page asks for.", "start-with-a-substitute")


@dataclass(frozen=True)
class Left:
    """The current left in the start lead, in percent of its value at the start, with its band."""

    value: float
    low: float
    high: float


def left_of(entered: Entered) -> Left | None:
    """What is left in the start lead; None when the two amps are not both known."""
    first, later = entered.number("start_lead_first"), entered.number("start_lead_later")
    if first is None or later is None:
        return None
    if first == 0.0:
        raise RefusedError(
            Problem(
                "start_lead_first",
                "Amps in the device's start lead, at the start: 0 means that the device never fed the start winding. "
                "Clear the field and say that it hums, or read again with the clamp round that lead only.",
            )
        )
    counts = entered.meters["clamp"].counts_band
    most = 100.0 * (later + counts) / (first - counts) if first > counts else math.inf
    return Left(100.0 * later / first, 100.0 * max(later - counts, 0.0) / (first + counts), most)


def place_left(entered: Entered, standards: InForce) -> Placement | None:
    """What is left against its limit; None when it was not read."""
    left = left_of(entered)
    return None if left is None else judge(left.value, left.low, left.high, standards.limit("start_device.left"))


def left_speaks_against(entered: Entered, standards: InForce) -> bool:
    """Whether the bare reading is too much, whatever its band, and was not taken early."""
    left, time = left_of(entered), entered.number("start_lead_time")
    early = time is not None and time < standards.value("start_device.open_time")
    return left is not None and not early and left.value > standards.value("start_device.left")


def judge_left(entered: Entered, standards: InForce) -> Judged | None:
    """Whether the device lets go; None when the start lead was not read."""
    left, placed, limit = left_of(entered), place_left(entered, standards), standards.limit("start_device.left")
    if left is None or placed is None:
        return None
    wait = standards.limit("start_device.open_time")
    time = entered.reading("start_lead_time")
    said = f"{quantity(left.value, 'percent', 1)} of the start current is left in the start lead"
    if placed.verdict is Verdict.WITHIN:
        shown = "not shown to stay in, though the clamp's band reaches past that" if placed.crossing else "it lets go"
        return Judged(
            Verdict.WITHIN,
            f"{said}, {limit.text} or less: {shown}.",
            "The start winding is out once the motor runs, as it has to be.",
            NextStep("Measure the running amps.", "running-amps"),
            limit,
        )
    plain = "A start winding that stays in heats by tens of degrees a second. It is unplugged first, then looked at."
    late = time is not None and time.low >= wait.value
    stop = time is not None and time.value >= wait.value
    if placed.verdict is Verdict.OUTSIDE and time is not None and late:
        sentence = f"{said} {quantity(time.value, 's', 1)} after the start: the device stays in. Unplug it."
        return Judged(Verdict.OUTSIDE, sentence, plain, UNPLUG, limit, stop=True)
    missing = []
    if placed.verdict is Verdict.UNDECIDED:
        missing.append(Missing("a clamp whose counts are small beside the start current", "clamp_resolution"))
    if not late:
        missing.append(Missing(f"the time of that reading, {wait.text} or more after the start", "start_lead_time"))
    sentence = f"{said}. No verdict yet: {'the clamp cannot tell' if late else 'when it was read counts too'}."
    step = UNPLUG if stop else _AGAIN
    return Judged(Verdict.UNDECIDED, sentence, plain, step, limit, tuple(missing), stop)


def left_finding(entered: Entered, standards: InForce) -> Finding | None:
    """The finding on the start lead, with the meter that would decide it where there is one."""
    judged = judge_left(entered, standards)
    if judged is None:
        return None
    decider = None
    if judged.verdict is Verdict.UNDECIDED:
        decider = _finer(entered, standards) or decider_of(
            "The amps in the device's own start lead", "0.01 A and 1 s", judged.missing
        )
    return judged.finding("start-lead", decider)


def _finer(entered: Entered, standards: InForce) -> Decider | None:
    def decides(name: str) -> Callable[[Meter], bool]:
        def with_it(meter: Meter) -> bool:
            again = judge_left(replace(entered, meters={**entered.meters, name: meter}), standards)
            return again is not None and again.verdict is not Verdict.UNDECIDED

        return with_it

    for name, unit, steps in (("clamp", "A", (0.1, 0.01, 0.001)), ("stopwatch", "s", (0.1, 0.01))):
        finer = finer_meter(entered.meters[name], decides(name), name, unit, steps=steps)
        if finer is not None and finer.enter_in:
            reading = "The amps in the device's own start lead"
            return Decider(reading, finer.words, "read as before", finer.enter_in, finer.entry)
    return None


def left_account(entered: Entered, standards: InForce) -> tuple[tuple[Result, ...], tuple[Step, ...]]:
    """The number and the working of the start lead."""
    left, limit = left_of(entered), standards.limit("start_device.left")
    if left is None:
        return (), ()
    plain = "What the start winding still draws once the motor runs."
    bounded = math.isfinite(left.high)
    result = Result(
        "left",
        "Left in the start lead",
        left.value,
        "percent",
        1,
        plain,
        left.low if bounded else None,
        left.high if bounded else None,
    )
    clamp = entered.meters["clamp"]
    step = Step(
        "Left in the start lead",
        "later / at the start; the band is the counts of both (their gain error is shared)",
        f"{quantity(entered.needed('start_lead_later'), 'A', 2)} / "
        f"{quantity(entered.needed('start_lead_first'), 'A', 2)}, counts ±{quantity(clamp.counts_band, 'A', 2)}",
        f"{quantity(left.value, 'percent', 1)}, at most {limit.text}",
        limit.source.key,
    )
    return (result,), (step,)


def not_a_fair_try(entered: Entered, standards: InForce) -> Iterator[Missing]:
    """What an attempt that hummed still lacks before it says anything about the device: rest, and good volts."""
    rest = standards.limit("starting.restart_wait")
    rested = entered.number("start_rest")
    if rested is None or rested < to_base(rest.value, rest.unit):
        yield Missing(f"{rest.text} or more of rest, unplugged, before it", "start_rest", f"{rest.value:g} {rest.unit}")
    least = standards.limit("start_volts.warn")
    volts, plate = entered.reading("start_volts"), entered.number("plate_volts")
    if plate is None:
        yield Missing("the plate's volts", "plate_volts")
    if volts is None:
        yield Missing(f"the lowest volts at the plug during it, {least.text} of the plate or more", "start_volts")
    elif plate is not None and volts.low < least.value / 100.0 * plate:
        need = Missing(f"volts of {least.text} of the plate or more at the plug, with the meter's band", "start_volts")
        finer = finer_meter(
            volts.meter,
            lambda meter: volts.value - meter.band(volts.value) >= least.value / 100.0 * plate,
            "voltmeter",
            "V",
        )
        if finer is not None and finer.enter_in:
            need = Missing(f"a voltmeter of {finer.words}", finer.enter_in, finer.entry)
        yield need


def volts_words(entered: Entered) -> str:
    """The lowest volts as said in a sentence; empty when they are not known."""
    volts, plate = entered.number("start_volts"), entered.number("plate_volts")
    if volts is None or plate is None:
        return ""
    return f" at {quantity(volts, 'V', 1)}, {rounded(100.0 * volts / plate, 0)} % of the plate"
