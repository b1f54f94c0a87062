"""What do the measured running amps mean against the expected ones?

There is no verdict with contradicting evidence, on the wrong frequency, with the volts unknown or too far
off the plate, or before the run has settled. The stop flag does not wait for a verdict.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from calculators.contract import quantity, rounded
from calculators.expected_amps.deciders import decider_for
from calculators.expected_amps.evidence import FLOAT_DIGITS
from calculators.expected_amps.hindrances import PLATES, hindrances
from calculators.expected_amps.ratio import Case, Placed, place
from calculators.findings import Decider, Finding, NextStep, Verdict

_UNPLUG = NextStep(
    "Unplug it, keep hold of the plug, and prove it dead before you look for the cause.", "make-safe-prove-dead"
)
_AIRFLOW = NextStep(
    "Look at airflow first: condenser clean, fan turning, clearances, a warm load, the door. Then measure again.",
    "airflow-and-heat-exchange",
)
_WINDINGS = NextStep(
    "Airflow first: condenser, fan, clearances. Then is the start winding still in, and do the "
    "windings read right? Unplug it and prove it dead before you open anything.",
    "make-safe-prove-dead",
)
_WATTS = NextStep(
    "Measure watts and power factor, then look at the frost pattern and the line temperatures.", "running-watts"
)


Decide = Callable[[Case, Placed], Decider]


def findings_of(case: Case, decide: Decide = decider_for) -> tuple[Finding, ...]:
    """Every reason why there is no verdict, or the one verdict; with the stop flag on the first when it applies.

    decide: finds what would decide a reading that cannot be judged.
    """
    found = tuple(hindrances(case)) or (_judged(case, decide),)
    why = stop_reason(case)
    if why is None:
        return found
    if found[0].verdict is Verdict.WITHIN:
        found = (_contradicted(found[0]),)
    plain = "It draws so much that it heats fast. Unplug it now, and look for the cause with it dead."
    first = replace(found[0], sentence=f"{found[0].sentence} {why}", plain=plain, next_step=_UNPLUG, stop=True)
    return (first, *found[1:])


def _contradicted(within: Finding) -> Finding:
    """As expected by one piece of evidence, far above the plate by another: nobody may call that within."""
    decider = Decider(
        "The rated-load amps on the compressor, and the data the expected amps rest on",
        "every figure with its unit",
        "read from the machine or from a photo, with the motor's own data sheet",
        "rated_load_amps",
    )
    sentence = f"Cannot tell: the evidence contradicts itself. {within.sentence}"
    return replace(within, verdict=Verdict.UNDECIDED, sentence=sentence, decider=decider)


def stop_reason(case: Case) -> str | None:
    """Why the machine is to be stopped now, whatever the verdict; None when it need not be."""
    stop, rated = case.standards.limit("amps.stop_ratio"), case.rated_load
    if case.starting:
        return None
    unless = "" if case.run_seconds is not None else " unless this was caught during the start"
    if rated is not None and round(case.amps / rated, FLOAT_DIGITS) > stop.value:
        return (
            f"Stop{unless}: {quantity(case.amps, 'A', 2)} is {rounded(case.amps / rated, 2)} times the rated-load "
            f"amps on the compressor, above {stop.text}. Unplug it."
        )
    if not case.conflicts and case.band.low > stop.value:
        return f"Stop{unless}: the whole band is above {stop.text} times the expected amps. Unplug it."
    return None


def _judged(case: Case, decide: Decide) -> Finding:
    band, placed = case.band, place(case.band, case.reference, case.standards)
    bound = "at most " if case.reference.at_most else ""
    said = (
        f"{quantity(case.amps, 'A', 2)} is {rounded(band.value, 2)} times the expected {bound}"
        f"{quantity(case.reference.amps, 'A', 2)} by {case.reference.words} "
        f"(band {rounded(band.low, 2)} to {rounded(band.high, 2)})"
    )
    if placed.verdict is Verdict.UNDECIDED:
        return _undecided(case, placed, said, decide(case, placed))
    if placed.verdict is Verdict.WITHIN:
        return _within(case, placed, said)
    if placed.low:
        return Finding(
            "running-amps",
            Verdict.OUTSIDE,
            f"Low: {said}, with its whole band below {placed.limit.text}. Measure watts; amps alone can't say why.",
            "It draws clearly less than it should. That can be many things, and low gas is only one of them.",
            _WATTS,
            placed.limit,
        )
    if placed.verdict is Verdict.WATCH:
        stop = case.standards.limit("amps.stop_ratio").text
        return Finding(
            "running-amps",
            Verdict.WATCH,
            f"High: {said}, with its whole band above {placed.limit.text} and not with its whole band above {stop}.",
            "It draws more than it should. Dirt, heat and a warm cabinet do that too, so look there first.",
            _AIRFLOW,
            placed.limit,
        )
    return Finding(
        "running-amps",
        Verdict.OUTSIDE,
        f"High: {said}, with its whole band above {placed.limit.text}.",
        "It draws far more than it should. Amps say that something is wrong, not what.",
        _WINDINGS,
        placed.limit,
    )


def _within(case: Case, placed: Placed, said: str) -> Finding:
    weak, high = case.standards.limit("amps.weak_above"), case.standards.limit("amps.high_ratio")
    between = f"between {case.reference.low_limit.text} and {high.text}"
    if 100.0 * case.band.whole > weak.value:
        sentence = (
            f"Not shown abnormal (weak evidence): {said}, {between}, but the band is "
            f"±{quantity(100.0 * case.band.whole, 'percent', 0)} in all."
        )
    elif placed.placement.crossing:
        sentence = f"Not shown abnormal: {said}, {between}, and the band reaches past a limit."
    else:
        sentence = f"As expected: {said}, {between} with its whole band."
    return Finding(
        "running-amps",
        Verdict.WITHIN,
        sentence,
        "The amps do not accuse the motor. They do not show that it pumps either: measure watts for that.",
        _WATTS,
        placed.limit,
    )


def _undecided(case: Case, placed: Placed, said: str, decider: Decider) -> Finding:
    if placed.low or case.band.value > placed.limit.value:
        side = "below" if placed.low else "above"
        why = f"{side} {placed.limit.text}, and the band reaches back over it"
        plain = "The reading leans one way, but the evidence or the clamp is too coarse to say so."
    else:
        verb = "is" if case.reference.words.endswith("horsepower") else "are"
        why = f"and {case.reference.words} alone {verb} too weak to call a motor normal"
        plain = "Nothing looks wrong, but what is known of this motor is too little to say that it is right."
    return Finding(
        "running-amps",
        Verdict.UNDECIDED,
        f"Cannot tell: {said}, {why}.",
        plain,
        PLATES if case.reference.weak else _WATTS if placed.low else _AIRFLOW,
        placed.limit,
        decider,
    )
