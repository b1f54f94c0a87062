"""A motor that ran: did the overload open without cause, or does it stay closed on a current that it has to stop?

Opening on too many amps or on heat is its work. It is condemned for opening only when amps, volts and heat are all
proved normal; for one inside the shell that heat is the copper's, and the trip has been seen twice.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from calculators.contract import Figure, Result, Step, quantity, rounded
from calculators.drawing import Mark, scale_figure
from calculators.findings import Decider, NextStep, Verdict, judge_pair
from calculators.inputs import Entered
from calculators.limits import InForce
from calculators.overload_check.deciders import HERE, UNPLUG, sharper
from calculators.overload_check.live import (
    Ratio,
    amps_of,
    missing_fields,
    ratio_to,
    seconds_words,
    volts_missing,
    volts_step,
)
from calculators.parts import Judged, Missing, Part, decider_of
from calculators.units import to_base

_AMPS = NextStep("Look for the cause of the amps: supply, airflow, a start winding that stays in.", "running-amps")
_AIR = NextStep("Condenser, fan, clearances and room first, dead; then let it cool and look again.", HERE)
_RENEW = NextStep("Compare the marking; with the plug out, fit the part that the motor's list names.", HERE)
_RECORD = NextStep("Write the readings down; a second person repeats them before anything is condemned.", HERE)
_AGAIN = NextStep("Read amps, volts and heat at the next trip that comes by itself.", "running-amps")


def running_part(entered: Entered, standards: InForce) -> Part:
    """The finding on a motor that ran and tripped, or that runs on."""
    tripped = entered.choice("seen") == "running_trip"
    judge_it = _judge_trip if tripped else _judge_runs_on
    judged = judge_it(entered, standards)
    decider = None
    if judged.verdict is Verdict.UNDECIDED:
        reading = "Amps, volts and heat at a trip that comes by itself" if tripped else "Steady amps and their time"
        decider = sharper(entered, lambda changed: judge_it(changed, standards).verdict) or _decider(reading, judged)
    return Part(
        (judged.finding("trip", decider),),
        tuple(_results(entered, standards)),
        tuple(_working(entered, standards, tripped)),
        tuple(_figures(entered, standards, tripped)),
    )


def _decider(reading: str, judged: Judged) -> Decider:
    return decider_of(reading, "0.01 A, 0.1 V, 1 K", judged.missing)


# --- it ran and tripped -----------------------------------------------------------------------------


def expected_ratio(entered: Entered) -> Ratio | None:
    """The amps over the expected amps; None when one of them is not known."""
    amps, expected = amps_of(entered), entered.number("expected_amps")
    if amps is None or expected is None:
        return None
    return ratio_to(amps, expected, entered.needed("expected_band") / 100.0)


@dataclass(frozen=True)
class Heat:
    """A temperature in °C with the band it is good to."""

    value: float
    band: float

    @property
    def low(self) -> float:
        """The least it can be."""
        return self.value - self.band

    @property
    def high(self) -> float:
        """The most it can be."""
        return self.value + self.band


def heat(entered: Entered) -> Heat | None:
    """The temperature that counts: the shell's for one outside it, the copper's for one inside."""
    inside = entered.choice("kind") == "internal"
    value = entered.number("winding_temperature" if inside else "trip_shell_temperature")
    if value is None:
        return None
    band = entered.needed("winding_band" if inside else "thermometer_band")
    return Heat(value, band)


def _judge_trip(entered: Entered, standards: InForce) -> Judged:
    ratio, hot = expected_ratio(entered), heat(entered)
    high = standards.limit("amps.high_ratio")
    inside = entered.choice("kind") == "internal"
    least = standards.limit("overload.trip_winding" if inside else "overload.trip_shell")
    where = "winding" if inside else "shell"
    warm = quantity(hot.value, "degC", 0) if hot else ""
    if ratio is not None and ratio.low > high.value:
        sentence = (
            f"It tripped on amps that were {ratio.text} the expected ones, above {high.text}: the overload is not shown"
            " abnormal."
        )
        return Judged(
            Verdict.WITHIN, sentence, "It was asked to carry too much. The cause of the amps comes first.", _AMPS, high
        )
    if hot is not None and hot.low >= least.value:
        sentence = (
            f"It tripped with the {where} at {warm}, {least.text} or more with the whole band: the overload is not"
            " shown abnormal."
        )
        return Judged(
            Verdict.WITHIN, sentence, "It had heat to open on. The cause of the heat comes first.", _AIR, least
        )
    missing = tuple(_not_normal(entered, standards, ratio, hot))
    if missing:
        sentence = "It ran and tripped. No verdict: neither a cause nor proof that there was none."
        plain = "An overload that opens on too many amps or on heat is right. It is wrong only when neither was there."
        return Judged(Verdict.UNDECIDED, sentence, plain, _AGAIN, least, missing)
    sentence = (
        f"It tripped with the amps at {ratio.text if ratio else ''} the expected ones, the {where} at {warm} and the "
        "volts within limits: it opens without cause."
    )
    plain = "Failed, or a part for another motor. A new one of the listed marking settles it."
    if inside:
        plain = "The copper was not hot and the amps were right, twice over. It cannot be renewed from outside."
    return Judged(Verdict.OUTSIDE, sentence, plain, _RECORD if inside else _RENEW, least)


def _not_normal(entered: Entered, standards: InForce, ratio: Ratio | None, hot: Heat | None) -> Iterator[Missing]:
    """What is missing to say that amps, volts and heat were all normal, each with its whole band."""
    inside = entered.choice("kind") == "internal"
    high = standards.limit("amps.high_ratio")
    least = standards.limit("overload.trip_winding" if inside else "overload.trip_shell")
    field = "winding_temperature" if inside else "trip_shell_temperature"
    yield from missing_fields(entered, "trip_amps", "expected_amps", field)
    if ratio is not None and ratio.high > high.value:
        yield Missing(f"amps clearly over or not over {high.text} times the expected, with the whole band", "trip_amps")
    if hot is not None and hot.high >= least.value:
        yield Missing(f"a temperature that is clearly below {least.text} or not, with the whole band", field)
    yield from volts_missing(entered, standards)
    yield from _started_long_ago(entered, standards)
    if inside and entered.choice("trip_repeated") != "yes":
        yield Missing("the same trip seen a second time, by itself", "trip_repeated", "yes")


def _started_long_ago(entered: Entered, standards: InForce) -> Iterator[Missing]:
    """Amps and heat of the start itself are a cause: a trip so soon after it is not one without cause."""
    limit, time, watch = standards.limit("amps.start_over"), entered.reading("trip_time"), entered.meters["stopwatch"]
    least = to_base(limit.value, limit.unit)
    if time is not None and time.low >= least:
        return
    later = math.ceil((least + watch.counts_band) / (1.0 - watch.percent / 100.0)) + 1
    yield Missing(f"a trip that came {limit.text} or more after the start, timed", "trip_time", f"{later} s")


# --- it runs on -------------------------------------------------------------------------------------


def load_ratio(entered: Entered) -> Ratio | None:
    """The steady amps over the rated-load amps; None when one of them is not known."""
    amps, rated = amps_of(entered), entered.number("rated_load_amps")
    return None if amps is None or rated is None else ratio_to(amps, rated)


def _judge_runs_on(entered: Entered, standards: InForce) -> Judged:
    relay, integral = standards.limit("overload.relay_ceiling"), standards.limit("overload.integral_ceiling")
    ratio = load_ratio(entered)
    if ratio is None:
        missing = tuple(missing_fields(entered, "trip_amps", "rated_load_amps"))
        sentence = "It runs on. No verdict: steady amps and rated-load amps are not both known."
        return Judged(Verdict.UNDECIDED, sentence, _NO_CALL, _AGAIN, relay, missing)
    settle = standards.limit("amps.run_settle_minutes")
    time = entered.reading("trip_time")
    settled = time is not None and time.low >= to_base(settle.value, settle.unit)
    placed = judge_pair(ratio.value, ratio.low, ratio.high, warn=relay, fail=integral).verdict
    stop = ratio.value > relay.value
    said = f"It runs on at {ratio.text} the rated-load amps"
    if placed is Verdict.WITHIN:
        sentence = f"{said}, {relay.text} or less: nothing called for a trip."
        return Judged(Verdict.WITHIN, sentence, _NO_CALL, _AGAIN, relay)
    if placed is Verdict.UNDECIDED:
        words = f"amps with a band clear of {relay.text} and {integral.text} times the rated-load amps"
        sentence = f"{said}: the clamp cannot tell whether that is more than an overload may let flow."
        return Judged(
            Verdict.UNDECIDED,
            sentence + (" Unplug it." if stop else ""),
            _HEATS if stop else _NO_CALL,
            UNPLUG if stop else _AGAIN,
            relay,
            (Missing(words, "trip_amps"),),
            stop,
        )
    if not settled:
        took = "an unknown time" if time is None else seconds_words(time.value)
        sentence = f"{said}, above {relay.text}, after {took}. Unplug it: it need not run on to be judged."
        words = f"a run that had lasted {settle.text} or more already, never one left on to see"
        return Judged(Verdict.UNDECIDED, sentence, _HEATS, UNPLUG, relay, (Missing(words, "trip_time"),), stop=True)
    if placed is Verdict.WATCH:
        sentence = (
            f"{said}, above {relay.text}, where a separate overload relay has to have opened; a thermal protector of "
            f"the motor may let {integral.text} flow. Unplug it."
        )
        return Judged(Verdict.WATCH, sentence, _HEATS, UNPLUG, relay, stop=True)
    sentence = f"{said} for {settle.text} or more, above {integral.text}: no protector may let that flow. Unplug it."
    return Judged(Verdict.OUTSIDE, sentence, _HEATS, UNPLUG, integral, stop=True)


_NO_CALL = "An overload that was not called on has not been tested. That it would open is not shown."
_HEATS = "The motor draws far more than its plate and nothing cuts it off. Unplug it, look for the cause dead."


# --- the account ------------------------------------------------------------------------------------


def _results(entered: Entered, standards: InForce) -> Iterator[Result]:
    tripped = entered.choice("seen") == "running_trip"
    ratio = expected_ratio(entered) if tripped else load_ratio(entered)
    if ratio is not None:
        yield Result(
            "ratio",
            "Measured over expected amps" if tripped else "Measured over rated-load amps",
            ratio.value,
            "ratio",
            2,
            "How the amps compare with what they are held against.",
            max(ratio.low, 0.0),
            ratio.high,
        )


def ceilings(entered: Entered, standards: InForce) -> Part:
    """The two printed ceilings in amps, where the rated-load amps are known."""
    rated = entered.number("rated_load_amps")
    if rated is None:
        return Part()
    rows = (
        ("relay_ceiling", "Overload relay opens at, at most", "A separate overload relay may stay closed up to here."),
        ("integral_ceiling", "Thermal protector lets flow, at most", "No protector may let more flow for good."),
    )
    results, steps = [], []
    for key, label, plain in rows:
        limit = standards.limit(f"overload.{key}")
        results.append(Result(key, label, limit.value * rated, "A", 2, plain))
        put_in = f"{limit.text} · {quantity(rated, 'A', 2)}"
        steps.append(Step(label, "ceiling · RLA", put_in, quantity(limit.value * rated, "A", 2), limit.source.key))
    return Part((), tuple(results), tuple(steps))


def _working(entered: Entered, standards: InForce, tripped: bool) -> Iterator[Step]:
    amps = entered.reading("trip_amps")
    reference = entered.number("expected_amps" if tripped else "rated_load_amps")
    ratio = expected_ratio(entered) if tripped else load_ratio(entered)
    if tripped:
        yield from volts_step(entered)
    if amps is not None and reference is not None and ratio is not None:
        other = f"² + {rounded(entered.needed('expected_band'), 1)}²" if tripped else "²"
        yield Step(
            "Amps against what they are held against",
            "r = I / I reference, band √(clamp² + reference²)" if tripped else "r = I / RLA, band of the clamp",
            f"{quantity(amps.value, 'A', 2)} / {quantity(reference, 'A', 2)}, "
            f"√({rounded(100.0 * amps.relative_band, 1)}{other}) %",
            ratio.text,
            "jcgm-100",
        )
    hot = heat(entered)
    if tripped and hot is not None:
        limit = standards.limit(
            "overload.trip_winding" if entered.choice("kind") == "internal" else "overload.trip_shell"
        )
        yield Step(
            "Heat",
            f"a cause from {limit.text} on",
            f"{quantity(hot.value, 'degC', 1)} ±{quantity(hot.band, 'K', 1)}",
            f"{rounded(hot.low, 1)} to {quantity(hot.high, 'degC', 1)}",
            limit.source.key,
        )


def _figures(entered: Entered, standards: InForce, tripped: bool) -> Iterator[Figure]:
    ratio = expected_ratio(entered) if tripped else load_ratio(entered)
    if ratio is None or ratio.value > 50.0:
        return
    keys = (
        {"amps.high_ratio": "high"}
        if tripped
        else {
            "overload.relay_ceiling": "relay",
            "overload.integral_ceiling": "protector",
        }
    )
    marks = [Mark(standards.value(key), label) for key, label in keys.items()]
    yield scale_figure(
        "ratio",
        "Measured over expected amps" if tripped else "Measured over rated-load amps",
        value=ratio.value,
        low=max(ratio.low, 0.0),
        high=ratio.high,
        marks=marks,
        unit="×",
        digits=2,
    )
