"""Did it close again by itself, and about when one of its kind usually does? Figures from memory, so never a fault."""

from __future__ import annotations

from dataclasses import replace

from calculators.contract import Result, Step, quantity, rounded
from calculators.findings import NextStep, Verdict, judge
from calculators.inputs import Entered
from calculators.limits import InForce, Limit
from calculators.overload_check.deciders import HERE, sharper
from calculators.overload_check.live import seconds_words
from calculators.parts import Judged, Missing, Part, decider_of
from calculators.readings import Reading
from calculators.units import to_base

_COLD = NextStep("With the plug out, let it cool and read it dead.", HERE)
_PLAIN = "It starts the motor again without warning. The plug stays out while hands are in the machine."


def reset_part(entered: Entered, standards: InForce) -> Part:
    """The finding on closing again; nothing when nobody watched, or when a dead reading already tells."""
    told = any(field in entered.numbers for field in ("contact_ohms", "common_run_ohms"))
    seen, time = entered.choice("reset"), entered.reading("reset_time")
    if seen == "" or (seen == "no" and told):
        return Part()
    if seen == "yes" and time is not None:
        judged = _judge(entered, standards)
        decider = None
        if judged.verdict is Verdict.UNDECIDED:
            decider = sharper(entered, lambda changed: _judge(changed, standards).verdict) or decider_of(
                "Time until it closes again", "1 s", judged.missing
            )
        result = Result(
            "reset_time", "Time to close again", time.value, "min", 1, "From trip to click.", also=(("s", 0),)
        )
        least, most = _limits(entered, standards)
        step = Step(
            "Time to close again",
            f"usually {least.text} to {most.text}",
            f"{quantity(time.value, 's', 1)} ±{quantity(time.band, 's', 1)}",
            f"{rounded(max(time.low, 0.0), 1)} to {quantity(time.high, 's', 1)}",
            least.source.key,
        )
        return Part((judged.finding("reset", decider),), (result,), (step,))
    if seen == "yes":
        judged = Judged(Verdict.WITHIN, "It closed again by itself; after how long is not known.", _PLAIN, _COLD)
        return Part((judged.finding("reset", None),))
    inside = entered.choice("kind") == "internal"
    field = "common_run_ohms" if inside else "contact_ohms"
    judged = Judged(
        Verdict.UNDECIDED,
        "It has not closed again so far. No verdict: that may be heat, or a failed part.",
        "Only a cold reading tells the two apart.",
        _COLD,
    )
    words = "cold, as long at rest as the limits ask, read twice"
    reading = "The three pairs of pins" if inside else "The contact, off the pin"
    return Part(
        (judged.finding("reset", decider_of(reading, "any meter that has been proved", [Missing(words, field)])),)
    )


def _limits(entered: Entered, standards: InForce) -> tuple[Limit, Limit]:
    if entered.choice("kind") == "internal":
        return standards.limit("overload.reset_internal_least"), standards.limit("windings.rest_hours")
    return standards.limit("overload.reset_external_least"), standards.limit("overload.external_rest")


def _judge(entered: Entered, standards: InForce) -> Judged:
    time = entered.needed_reading("reset_time")
    least, most = _limits(entered, standards)
    took = f"It closed again by itself after {seconds_words(time.value)}"
    for limit, side, word in ((least, "least", "sooner"), (most, "most", "later")):
        placed = _place(time, limit, side)
        if placed is Verdict.OUTSIDE:
            sentence = f"{took}, {word} than one of its kind usually does ({limit.text}, from memory)."
            return Judged(Verdict.WATCH, sentence, _PLAIN, _COLD, limit)
        if placed is Verdict.UNDECIDED:
            sentence = f"{took}: the stopwatch cannot tell whether that is {word} than {limit.text}."
            return Judged(
                Verdict.UNDECIDED,
                sentence,
                _PLAIN,
                _COLD,
                limit,
                (Missing("timed again at another trip", "reset_time"),),
            )
    sentence = f"{took}, as one of its kind usually does ({least.text} to {most.text}, from memory)."
    return Judged(Verdict.WITHIN, sentence, _PLAIN, _COLD, most)


def _place(time: Reading, limit: Limit, side: str) -> Verdict:
    """Against a limit in seconds, condemning rule: nothing is said to be unusual unless its whole band is."""
    seconds = replace(limit, value=to_base(limit.value, limit.unit), unit="s", side=side, guard="reject")
    return judge(time.value, time.low, time.high, seconds).verdict
