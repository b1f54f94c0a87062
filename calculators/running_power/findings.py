"""What the running watts mean against the expected ones, and why they may not be judged yet."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from calculators.contract import quantity, rounded
from calculators.findings import Decider, Finding, NextStep, Verdict
from calculators.limits import InForce, Limit
from calculators.running_condition import (
    is_settled,
    is_starting,
    not_settled,
    volts_missing,
    volts_off,
    wrong_frequency,
)
from calculators.running_power.case import FLOAT_DIGITS, Case, Span
from calculators.running_power.conditions import crosses, like_volt_amps, place, weakly_read
from calculators.running_power.deciders import decider_for, other_quantity, steady
from calculators.running_power.inputs import LOW_FACTOR

AIRFLOW = NextStep(
    "Airflow, fans and ice first, then the frost pattern and the line temperatures.", "airflow-and-heat-exchange"
)
_AGAIN = NextStep("Measure watts, volts and amps again as the page says.", "running-watts")
_UNPLUG = NextStep(
    "Unplug it, keep hold of the plug, and prove it dead before you look for the cause.", "make-safe-prove-dead"
)
_PLATES = NextStep("Read both rating plates again, and look the watts up anew.", "read-the-rating-plates")


def hindrances(case: Case, wattmeter_kind: str) -> Iterator[Finding]:
    """Every reason why these watts are not judged, each with what would mend it."""
    if case.supply.wrong_frequency:
        yield wrong_frequency(case.supply, "watts")
    if case.supply.running is None:
        yield volts_missing(case.supply, "watts")
    elif not case.supply.passes(case.supply.running):
        yield volts_off(case.supply, case.supply.running, "watts")
    if not is_settled(case.run_seconds, case.standards):
        yield not_settled(case.run_seconds, case.standards, "watts", _AGAIN)
    if case.power_factor is not None and like_volt_amps(case):
        yield _volt_amps(case, case.power_factor)
    if weakly_read(case) and wattmeter_kind != LOW_FACTOR:
        yield _weak(case)


def with_stop(case: Case, found: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """The same findings, headed by a stop where the amps are far above the expected ones; that waits for no verdict."""
    ratio, stop = case.amps_ratio, case.standards.limit("amps.stop_ratio")
    if ratio is None or case.amps is None or ratio.low <= stop.value:
        return found
    if case.amps_unclear or is_starting(case.run_seconds, case.standards):
        return found
    unless = "" if case.run_seconds is not None else " unless this was caught during the start"
    why = (
        f"Stop{unless}: {quantity(case.amps, 'A', 2)} is {rounded(ratio.value, 2)} times the expected amps, with"
        f" its whole band above {stop.text}. Unplug it."
    )
    plain = "It draws so much that it heats fast. Unplug it now, and look for the cause with it dead."
    first = found[0]
    if first.verdict is Verdict.UNDECIDED:
        stopped = replace(first, sentence=f"{first.sentence} {why}", plain=plain, next_step=_UNPLUG, stop=True)
        return (stopped, *found[1:])
    return (Finding("running-amps", Verdict.OUTSIDE, why, plain, _UNPLUG, stop, stop=True), *found)


def _volt_amps(case: Case, factor: Span) -> Finding:
    return Finding(
        "watts-or-volt-amps",
        Verdict.UNDECIDED,
        f"No verdict: {quantity(case.watts, 'W', 1)} makes a power factor of {rounded(factor.value, 2)}, which a motor"
        " without run capacitor does not have. Was VA read as W?",
        "Watts and volt-amps differ by the power factor. A meter set to VA shows the larger number.",
        _AGAIN,
        case.standards.limit("power.factor_like_volt_amps"),
        Decider("Running watts", "as now", f"the display on W and not on VA; {steady(case)}", "running_watts"),
    )


def _weak(case: Case) -> Finding:
    few, low = case.standards.limit("power.weak_watts"), case.standards.limit("power.weak_factor")
    by_watts = case.watts < few.value
    factor = case.power_factor
    said = (
        f"{quantity(case.watts, 'W', 1)} is less than {few.text}"
        if by_watts or factor is None
        else f"a power factor of {rounded(factor.value, 2)} is less than {low.text}"
    )
    return Finding(
        "weak-watts",
        Verdict.UNDECIDED,
        f"No verdict: {said}, and there an ordinary wattmeter may be far off.",
        "The number on the display may be mostly the meter's own error.",
        _AGAIN,
        few if by_watts else low,
        Decider(
            "Running watts",
            "a wattmeter whose sheet states its accuracy at this power factor and at so few watts",
            steady(case),
            "wattmeter_kind",
            LOW_FACTOR,
        ),
    )


def judged(case: Case) -> Finding:
    """The verdict on the watts alone; no evidence or contradicting evidence is said first."""
    best, ratio, conflict = case.best, case.ratio, case.conflict
    if best is None or ratio is None:
        return _no_evidence(case)
    if conflict is not None:
        return _conflict(case)
    placement, limit = place(ratio, case.standards)
    said = (
        f"{quantity(case.watts, 'W', 1)} is {rounded(ratio.value, 2)} times the expected "
        f"{quantity(best.watts, 'W', 0)} by {best.words} (band {rounded(ratio.low, 2)} to {rounded(ratio.high, 2)})"
    )
    low = limit.side == "least"
    if placement.verdict is Verdict.WITHIN:
        return _within(case.standards, ratio, said, limit)
    if placement.verdict is Verdict.UNDECIDED:
        side = "below" if low else "above"
        return Finding(
            "running-watts",
            Verdict.UNDECIDED,
            f"Cannot tell: {said}, {side} {limit.text}, and the band reaches back over it.",
            "The watts lean one way, but evidence or meter is too coarse to say so.",
            AIRFLOW,
            limit,
            decider_for(case, _decided, other_quantity(case, low)),
        )
    if low:
        return Finding(
            "running-watts",
            Verdict.OUTSIDE,
            f"Low: {said}, with its whole band below {limit.text}. Watts do not say why, and they condemn nothing.",
            "The motor has little to do: a cold evaporator, too little refrigerant, or it does not pump.",
            AIRFLOW,
            limit,
        )
    return Finding(
        "running-watts",
        Verdict.OUTSIDE,
        f"High: {said}, with its whole band above {limit.text}. Watts do not say why, and they condemn nothing.",
        "It takes far more power than it should. Dirt, heat and a warm cabinet do that too, so look there first.",
        AIRFLOW,
        limit,
    )


def _decided(case: Case) -> bool:
    ratio = case.ratio
    return ratio is not None and place(ratio, case.standards)[0].verdict is not Verdict.UNDECIDED


def _within(standards: InForce, ratio: Span, said: str, limit: Limit) -> Finding:
    between = f"between {standards.limit('power.low_ratio').text} and {standards.limit('power.high_ratio').text}"
    part = round(100.0 * (ratio.high - ratio.value) / ratio.value, FLOAT_DIGITS)
    if part > standards.value("amps.weak_above"):
        percent = quantity(part, "percent", 0)
        sentence = f"Not shown abnormal (weak evidence): {said}, {between}, but the band is ±{percent} in all."
    elif crosses(ratio, standards):
        sentence = f"Not shown abnormal: {said}, {between}, and the band reaches past a limit."
    else:
        sentence = f"As expected: {said}, {between} with its whole band."
    return Finding(
        "running-watts",
        Verdict.WITHIN,
        sentence,
        "The motor takes about the power that it should. Where the cold stays is another question.",
        AIRFLOW,
        limit,
    )


def _no_evidence(case: Case) -> Finding:
    return Finding(
        "running-watts",
        Verdict.UNDECIDED,
        "Nothing to compare the watts with: no expected watts were entered.",
        "The power factor stands below. Whether the watts are right needs a figure for this compressor.",
        _PLATES,
        decider=Decider(
            "Expected watts of this compressor",
            "by performance map, data sheet, or a record of this machine when it was in order",
            "at the condition it runs at now, as nearly as can be had",
            "watts",
        ),
    )


def _conflict(case: Case) -> Finding:
    pair = case.conflict
    said, field = "", "watts"
    if pair is not None:
        said = "; ".join(f"{one.words} says {rounded(one.low, 0)} to {quantity(one.high, 'W', 0)}" for one in pair)
        field = pair[1].field
    return Finding(
        "running-watts",
        Verdict.UNDECIDED,
        f"No verdict: the expected watts contradict each other. {said[:1].upper()}{said[1:]}.",
        "They cannot all belong to this compressor at this condition. Find the wrong one first.",
        _PLATES,
        decider=Decider(
            "Each figure again, with the compressor's type and the condition it is for",
            "every figure with its unit",
            "from the data of this very compressor; cabinet watts and heater watts are other things",
            field,
        ),
    )
