"""What a clamp reading is worth: may it carry a verdict on amps, and if not, what would make it good enough?"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from calculators.clamp_reading.case import WORDS, Case
from calculators.clamp_reading.inputs import COMMON, CORD, WHOLE
from calculators.contract import quantity
from calculators.findings import Decider, Finding, NextStep, Verdict, judge_pair
from calculators.finer_meter import finer_meter
from calculators.running_condition import is_settled, not_settled

_AGAIN = NextStep("Measure the running amps again as the page says.", "running-amps")
_JUDGE = NextStep("Enter these amps with their band in Expected running amps.", "running-amps")
_EARTH = NextStep(
    "Put one conductor in the jaw, on a splitter lead. If the whole cord keeps showing more than nothing, "
    "unplug it and measure the insulation: current may be going to earth.",
    "windings-to-shell",
)


def findings_of(case: Case) -> tuple[Finding, ...]:
    """Where and when it was read, then the band."""
    if case.place == WHOLE:
        return (_whole_cord(case),)
    return (*_hindrances(case), _band(case))


def _whole_cord(case: Case) -> Finding:
    return Finding(
        "clamp-place",
        Verdict.UNDECIDED,
        f"No reading: round the whole cord the current out and the current back cancel, and {_shown(case)} is only "
        "what is left over.",
        "The clamp saw both conductors at once, so it shows next to nothing whatever the motor draws.",
        _EARTH,
        decider=Decider(
            "Amps in one conductor",
            "as now",
            "the cord's conductors apart on a splitter lead, one of them in the middle of the jaw",
            "clamp_place",
            CORD,
        ),
    )


def _hindrances(case: Case) -> Iterator[Finding]:
    if not case.place and case.loads is None:
        yield Finding(
            "clamp-place",
            Verdict.UNDECIDED,
            "Not yet the compressor's amps: it was not noted what was in the jaw.",
            "The same number means one thing on the lead to common and another on the cord.",
            _AGAIN,
            decider=Decider(
                "What was in the jaw, and the amps with it",
                "as now",
                "one conductor: the lead to common, brought out dead, or one conductor of the cord on a splitter lead",
                "clamp_place",
                COMMON,
            ),
        )
    if case.place == CORD and case.loads is None:
        yield Finding(
            "other-loads",
            Verdict.UNDECIDED,
            "Not yet the compressor's amps: fans, lamps, heaters and boards are in it too, and none is named.",
            "Everything on the cord reads as compressor until it is switched off or taken off.",
            _AGAIN,
            decider=Decider(
                "Amps of each other load on the cord",
                "as its plate prints it, or measured by itself",
                "while it was read; 0 when everything but the compressor was switched off",
                "fan_amps",
                "0 A",
            ),
        )
    if not is_settled(case.run_seconds, case.standards):
        yield not_settled(case.run_seconds, case.standards, "amps", _AGAIN)


def _band(case: Case) -> Finding:
    good, weak = case.standards.limit("clamp.good_band"), case.standards.limit("amps.weak_above")
    verdict = judge_pair(case.percent, case.percent, case.percent, warn=good, fail=weak).verdict
    said = f"{quantity(case.amps, 'A', 3)} ±{quantity(case.percent, 'percent', 1)}"
    if verdict is Verdict.WITHIN:
        return Finding(
            "clamp-band",
            verdict,
            f"Good enough to be judged: {said}, and {good.text} can carry a verdict on amps.",
            "The clamp leaves little doubt here. What the motor ought to draw has its own doubt.",
            _JUDGE,
            good,
        )
    if verdict is Verdict.WATCH:
        return Finding(
            "clamp-band",
            verdict,
            f"Good for a large departure only: {said}, more than {good.text}.{_advice(case, good.value)}",
            "Amps that are far off will show. Amps that are a little off will not.",
            replace(_JUDGE, text="Narrow the reading as said, or enter these amps with their band all the same."),
            good,
        )
    return _too_coarse(case)


def _too_coarse(case: Case) -> Finding:
    weak, good = case.standards.limit("amps.weak_above"), case.standards.value("clamp.good_band")
    if case.nothing_shown:
        sentence = (
            f"Nothing was measured: {_shown(case)} is no more than the clamp's own error, "
            f"±{quantity(case.line_band * case.turns, 'A', 3)}."
        )
        plain = "If the motor plainly runs, see that the jaw holds one conductor and not the whole cord."
    else:
        percent = quantity(case.percent, "percent", 0)
        sentence = f"Cannot carry a verdict: {quantity(case.amps, 'A', 3)} ±{percent}, more than {weak.text}."
        plain = "So much of this reading is doubt that nothing may be said about the motor by it."
    return Finding(
        "clamp-band", Verdict.UNDECIDED, f"{sentence}{_advice(case, good)}", plain, _AGAIN, weak, _decider(case)
    )


def _advice(case: Case, percent: float) -> str:
    """The turns that would be enough, or that turns are not what it lacks."""
    turns = case.turns_for(percent)
    if turns is not None:
        shows = quantity(case.line * turns, "A", 2)
        return (
            f" With {turns} turns through the jaw it would show about {shows} and be good to ±{percent:g} % or better."
        )
    if case.counted and replace(case, loads=()).percent <= percent:
        return " Turns do not help: it is the other loads that blur it. Switch them off, or clamp the lead to common."
    return " Turns alone do not make it good enough."


def _decider(case: Case) -> Decider:
    """A finer clamp on the same current, a clean zero, or the other loads off; turns are told in words."""
    weak = case.standards.value("amps.weak_above")
    steady = f"one conductor, steady, {case.standards.limit('amps.run_settle_minutes').text} or longer after the start"
    turns = case.turns_for(weak)
    by_turns = f"{turns} turns through this jaw" if turns is not None else ""
    finer = finer_meter(case.clamp, lambda clamp: replace(case, clamp=clamp).percent <= weak, "clamp", "A")
    if finer is not None:
        words = f"{by_turns}; or as many turns as now and {finer.words}" if by_turns else finer.words
        return Decider("Amps of the same conductor", words, steady, finer.enter_in, finer.entry)
    if replace(case, zero=0.0).percent <= weak:
        words = f"{by_turns}; or an empty jaw that shows nothing" if by_turns else "an empty jaw that shows nothing"
        where = f"{steady}, the clamp zeroed away from motors and magnets"
        return Decider("Amps of the same conductor, after zeroing", words, where, "zero_amps", "0 A")
    if case.counted and replace(case, loads=()).percent <= weak:
        only = case.counted[0].field if len(case.counted) == 1 else None
        names = " and ".join(WORDS[one.field] for one in case.counted)
        return Decider(
            "Amps without the other loads",
            by_turns or "as now",
            f"{steady}, with {names} switched off, or the lead to common in the jaw",
            only,
            "0 A" if only else None,
        )
    worth = (
        f"good to {weak:g} % of {quantity(case.amps, 'A', 3)}" if case.amps else "that shows more than its own error"
    )
    words = by_turns or f"a clamp made for small currents, {worth}"
    return Decider("Amps of the compressor alone", words, steady)


def _shown(case: Case) -> str:
    return f"the {quantity(case.shown, 'A', 3)} that the clamp shows"
