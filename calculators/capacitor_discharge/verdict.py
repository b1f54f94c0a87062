"""What may be said of a discharge: never more than what was measured, twice, below the limit.

A computed time gives no verdict: it says how long to hold the tool on and what to measure afterwards.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from calculators.capacitor_discharge.case import PEAK, Case
from calculators.contract import quantity
from calculators.findings import Decider, Finding, NextStep, Verdict, judge, judge_side
from calculators.finer_meter import finer_meter
from calculators.readings import Meter, Reading

_PAGE = "discharge-capacitors"
_AGAIN = NextStep("Prove the tool on ohms, discharge again, wait and measure again.", _PAGE)
_ORDER = (Verdict.OUTSIDE, Verdict.UNDECIDED, Verdict.WATCH, Verdict.WITHIN)


def findings_of(case: Case) -> tuple[Finding, ...]:
    """Everything found, what stops the work first."""
    found = [*_can(case), *_meter_rating(case), *_tool(case), *_no_fall(case), *_after(case), *_after_wait(case)]
    return tuple(sorted(found, key=lambda one: (not one.stop, _ORDER.index(one.verdict))))


def _can(case: Case) -> Iterator[Finding]:
    if case.can != "damaged":
        return
    wait = case.standards.limit("capacitors.hot_wait")
    yield Finding(
        "can",
        Verdict.OUTSIDE,
        f"The can is swollen, leaking, burnt or has vented: not by a tool held in the hand. Leave it for {wait.text} "
        "at least; it still counts as charged then.",
        "It can burst. A technician discharges it through clip-on resistor leads from a distance.",
        NextStep("Stay away and call the technician.", _PAGE),
        wait,
        stop=True,
    )


def _meter_rating(case: Case) -> Iterator[Finding]:
    """What it may hold against what meter, tool and leads are rated for; the whole band has to pass."""
    rating = case.standards.limit("meters.capacitor_volts")

    def between(value: float, low: float, high: float) -> Verdict:
        return judge_side(value, low, high, limit=rating.value, side="most", guard="accept").verdict

    def placed(again: Reading) -> Verdict:
        return between(again.value, again.low, again.high)

    volts, peak = case.before, case.start  # the peak of a print carries no band of its own
    verdict = placed(volts) if volts is not None else between(peak, peak, peak)
    if verdict is Verdict.WITHIN:
        return
    decider = None
    if volts is not None and verdict is Verdict.UNDECIDED:
        decider = _finer_voltmeter(volts, placed, case, "volts_before")
    yield Finding(
        "meter-rating",
        verdict,
        f"It may hold {quantity(case.start, 'V', 0)}, more than the {rating.text} that meter, tool and leads are "
        "asked to be rated for.",
        "Use nothing on it that is not rated for these volts.",
        NextStep("A technician chooses meter, tool and leads for these volts.", _PAGE),
        rating,
        decider,
        stop=True,
    )


def _tool(case: Case) -> Iterator[Finding]:
    """Fewer ohms make a spark at the tips. This limit protects a person: the whole band has to pass."""
    tool, limit = case.tool, case.standards.limit("capacitors.tool_least")
    if tool is None or not tool_refused(case):
        return
    least, verdict = case.in_base("capacitors.tool_least"), _place_tool(case, tool)

    def placed(again: Reading) -> Verdict:
        return _place_tool(case, again)

    said = f"{quantity(tool.value, 'kilohm', 2)} from tip to tip; it {'is' if tool.high < least else 'may be'} less"
    yield Finding(
        "tool",
        verdict,
        f"Do not use this tool: {said} than {limit.text}.",
        "So few ohms make the first contact a spark, and the tool gets hot.",
        NextStep("Take a tool of the resistance that the page names, and measure it first.", _PAGE),
        limit,
        _finer_ohmmeter(tool, placed) if verdict is Verdict.UNDECIDED else None,
        stop=True,
    )


def tool_refused(case: Case) -> bool:
    """Whether the tool was measured and is not proved to have ohms enough; then no time is told for it."""
    return case.tool is not None and _place_tool(case, case.tool) is not Verdict.WITHIN


def _place_tool(case: Case, tool: Reading) -> Verdict:
    limit, least = case.standards.limit("capacitors.tool_least"), case.in_base("capacitors.tool_least")
    return judge_side(tool.value, tool.low, tool.high, limit=least, side="least", guard=limit.guard).verdict


def _finer_ohmmeter(tool: Reading, placed: Callable[[Reading], Verdict]) -> Decider:
    finer = finer_meter(tool.meter, lambda meter: _settles(tool, meter, placed), "ohmmeter", "ohm")
    reading, condition = "Resistance of the tool", "from tip to tip, the tool joined to nothing"
    if finer is None:
        return Decider(reading, "another tool, clearly above the limit", condition, "tool_ohms")
    return Decider(reading, finer.words, condition, finer.enter_in, finer.entry)


def _settles(now: Reading, meter: Meter, placed: Callable[[Reading], Verdict]) -> bool:
    return placed(Reading.taken(now.value, meter)) is not Verdict.UNDECIDED


def _no_fall(case: Case) -> Iterator[Finding]:
    """Far more volts left than the tool can have left: it is open, or a tip had no contact."""
    left, held_for = case.after, case.held_for
    if left is None or held_for is None:
        return
    most = case.slow_volts(held_for)
    if left.low <= max(most, case.touch):
        return
    yield Finding(
        "tool-open",
        Verdict.OUTSIDE,
        f"It does not fall as it should: {quantity(left.value, 'V', 1)} left, where no more than "
        f"{quantity(most, 'V', 1)} should be after {quantity(held_for, 's', 1)}.",
        "The tool is open, or a tip made no contact. Nothing has been discharged.",
        NextStep("Prove the tool on ohms, away from the capacitor, and begin again.", _PAGE),
        stop=True,
    )


# --- measured afterwards ----------------------------------------------------------------------------


def _after(case: Case) -> Iterator[Finding]:
    wait = case.standards.limit("capacitors.recheck_wait").text
    if case.after is not None:
        passed = f"First measurement: {{volts}}, which {case.must_be}. Wait {wait} and measure again."
        yield _measured(case, case.after, "after-discharge", "volts_after", passed)
        return
    hold = quantity(case.hold, "s", 0)
    how = f"Hold the tool on for {hold}, then"
    if tool_refused(case):
        how = "Not with this tool: take another, measure it and reckon its time anew, then"
    elif case.can == "damaged":
        how = f"A technician holds {hold} through clip-on leads, then"
    yield Finding(
        "after-discharge",
        Verdict.UNDECIDED,
        f"{how} measure: {case.must_be}.",
        "The time is only reckoned. It counts as charged until the volts have been measured.",
        NextStep("Discharge it, measure, wait, measure again.", _PAGE),
        case.standards.limit("capacitors.touch_volts"),
        _measure_it("Dc volts between its terminals, after the tool is off", case, "volts_after"),
        stop=True,
    )


def _after_wait(case: Case) -> Iterator[Finding]:
    wait = case.standards.limit("capacitors.recheck_wait").text
    if case.after_wait is not None:
        passed = f"After the wait: {{volts}}, which {case.must_be}. Measure again whenever you come back to it."
        yield _measured(case, case.after_wait, "after-the-wait", "volts_after_wait", passed)
    elif case.after is not None:
        yield Finding(
            "after-the-wait",
            Verdict.UNDECIDED,
            f"Not measured a second time: wait {wait}, then measure: {case.must_be}.",
            "Charge can come back out of the dielectric, with nobody near it.",
            NextStep("Wait, and measure every pair again.", _PAGE),
            case.standards.limit("capacitors.touch_volts"),
            _measure_it(
                f"Dc volts between its terminals, {wait} after the first measurement", case, "volts_after_wait"
            ),
            stop=True,
        )


def _measured(case: Case, volts: Reading, name: str, field: str, passed: str) -> Finding:
    limit = case.standards.limit("capacitors.touch_volts")

    def placed(again: Reading) -> Verdict:
        if again.high == limit.value:  # it must be below the limit, and this is on it
            return Verdict.UNDECIDED
        return judge(again.value, again.low, again.high, limit).verdict

    verdict = placed(volts)
    shown = quantity(volts.value, "V", 1)
    if verdict is Verdict.WITHIN:
        return Finding(
            name,
            verdict,
            passed.format(volts=f"{shown} with its whole band to {quantity(volts.high, 'V', 1)}"),
            "Below the limit where it was measured. Every other pair of terminals is measured too.",
            NextStep("Measure every pair, wait, and measure every pair again.", _PAGE),
            limit,
        )
    if verdict is Verdict.OUTSIDE:
        return Finding(
            name,
            verdict,
            f"Still charged: {shown}; it {case.must_be}.",
            "Do not touch it. Discharge it again, and prove the tool first.",
            _AGAIN,
            limit,
            stop=True,
        )
    return Finding(
        name,
        verdict,
        f"{shown}, up to {quantity(volts.high, 'V', 1)} with the meter's band; it {case.must_be}.",
        "Do not touch it. Near the limit is not passed.",
        _AGAIN,
        limit,
        _finer_voltmeter(volts, placed, case, field),
        stop=True,
    )


def _finer_voltmeter(volts: Reading, placed: Callable[[Reading], Verdict], case: Case, field: str) -> Decider:
    finer = finer_meter(volts.meter, lambda meter: _settles(volts, meter, placed), "voltmeter", "V")
    if finer is None:
        return _measure_it("Dc volts between its terminals, after another discharge", case, field)
    condition = "dc, between the same terminals; or discharge it again first"
    return Decider("Dc volts between its terminals", finer.words, condition, finer.enter_in, finer.entry)


def _measure_it(reading: str, case: Case, field: str) -> Decider:
    rating = case.standards.limit("meters.capacitor_volts").text
    return Decider(
        reading,
        f"0.1 V on dc, meter and leads rated {rating} or more",
        f"the voltmeter proved before and after; {case.must_be} with its whole band",
        field,
    )


def more_than_its_peak(case: Case) -> bool:
    """Whether more was measured than the peak of what is printed on the can."""
    return case.before is not None and case.rated_volts is not None and case.before.low > PEAK * case.rated_volts


def bled(case: Case) -> bool:
    """Whether it is said to have a bleed resistor."""
    return case.bleed is not None and not math.isinf(case.bleed)
