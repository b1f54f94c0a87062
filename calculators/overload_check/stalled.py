"""A motor that hummed and did not start: did the overload open in time on a current that was its to open on?

Only what happened by itself counts: nobody leaves power on a motor that hums to see when it trips.
The verdict needs proof that the current was that of a motor at a standstill; the order to unplug does not wait for it.
"""

from __future__ import annotations

from collections.abc import Iterator

from calculators.contract import Figure, Result, Step, quantity, rounded
from calculators.drawing import Mark, scale_figure
from calculators.findings import Decider, NextStep, Verdict, judge
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

_WHY = NextStep("Keep it unplugged. Ask why the motor does not turn: supply first, then the start device.", HERE)
_WATCH = NextStep("Do not provoke a trip. Keep it unplugged and go on with the dead checks.", HERE)


def stalled_part(entered: Entered, standards: InForce) -> Part:
    """The finding on a trip, or on a trip that did not come, with a motor that did not turn."""
    judged = _judge(entered, standards)
    decider = None
    if judged.verdict is Verdict.UNDECIDED:
        decider = sharper(entered, lambda changed: _judge(changed, standards).verdict) or _decider(judged)
    return Part(
        (judged.finding("trip", decider),),
        tuple(_results(entered, standards)),
        tuple(_working(entered, standards)),
        tuple(_figures(entered, standards)),
        ("Power stays on a motor that does not turn for a few seconds only; the pages give the time.",),
    )


def _decider(judged: Judged) -> Decider:
    return decider_of("A trip that comes by itself, watched on another day", "1 s, 0.1 A, 1 V", judged.missing)


def stalled_ratio(entered: Entered) -> Ratio | None:
    """The amps over LRA · U / Un; None when one of them is not known."""
    amps, volts = amps_of(entered), entered.reading("trip_volts")
    stalled, plate = entered.number("locked_rotor_amps"), entered.number("plate_volts")
    if amps is None or volts is None or stalled is None or plate is None:
        return None
    return ratio_to(amps, stalled * volts.value / plate, volts.relative_band)


def _not_proved(entered: Entered, standards: InForce) -> Iterator[Missing]:
    """What is missing to say that the current was that of a motor at a standstill, at volts that fit the plate."""
    yield from missing_fields(entered, "trip_time", "trip_amps", "locked_rotor_amps")
    yield from volts_missing(entered, standards)
    ratio, least = stalled_ratio(entered), standards.limit("overload.stalled_least")
    if ratio is not None and ratio.low < least.value:
        words = f"amps of {least.text} times the locked-rotor amps at these volts, or more, with the meters' band"
        yield Missing(words, "trip_amps")


def _judge(entered: Entered, standards: InForce) -> Judged:
    missing = tuple(_not_proved(entered, standards))
    time, latest = entered.reading("trip_time"), standards.limit("overload.trip_latest")
    tripped = entered.choice("seen") == "stalled_trip"
    if time is None:
        sentence = "No verdict: the time until it tripped or was unplugged is not known."
        return Judged(Verdict.UNDECIDED, sentence, _PLAIN, _WATCH, latest, missing)
    placed = judge(time.value, time.low, time.high, latest).verdict
    took = f"{'Tripped after' if tripped else 'No trip in'} {seconds_words(time.value)} without starting"
    if placed is Verdict.OUTSIDE:
        return _too_slow(f"{took}, more than {latest.text}", entered, standards, missing)
    if missing:
        sentence = f"{took}. No verdict: it is not proved that this was the current of a motor at a standstill."
        return Judged(Verdict.UNDECIDED, sentence, _PLAIN, _WATCH, latest, missing)
    if not tripped or placed is Verdict.UNDECIDED:
        why = "too short a time to say" if placed is Verdict.WITHIN else "the stopwatch cannot tell"
        decide = (Missing("a trip that comes by itself, timed; never power left on to see it", "seen"),)
        return Judged(Verdict.UNDECIDED, f"{took}: {why}.", _PLAIN, _WATCH, latest, decide)
    return _in_time(took, entered, standards)


_PLAIN = "Whether the overload opens in time is known only from a trip that was timed, with amps and volts beside it."


def _too_slow(took: str, entered: Entered, standards: InForce, missing: tuple[Missing, ...]) -> Judged:
    latest = standards.limit("overload.trip_latest")
    plain = "A motor that does not turn heats by several degrees a second. What should cut it off did not, in time."
    if missing:
        sentence = f"{took}. Unplug it. What the current was is not proved, so the overload is not judged."
        return Judged(Verdict.UNDECIDED, sentence, plain, UNPLUG, latest, missing, stop=True)
    sentence = f"{took} on the current of a motor at a standstill: the overload does not protect this motor."
    return Judged(Verdict.OUTSIDE, sentence, plain, UNPLUG, latest, stop=True)


def _in_time(took: str, entered: Entered, standards: InForce) -> Judged:
    soonest, latest = standards.limit("overload.trip_soonest"), standards.limit("overload.trip_latest")
    time = entered.needed_reading("trip_time")
    placed = judge(time.value, time.low, time.high, soonest)
    if placed.verdict is Verdict.OUTSIDE:
        sentence = f"{took} on the current of a motor at a standstill: sooner than {soonest.text}."
        plain = "Still warm from the try before, or a part for a smaller motor. Let it rest and compare the marking."
        return Judged(Verdict.WATCH, sentence, plain, _WHY, soonest)
    if placed.verdict is Verdict.UNDECIDED:
        decide = (Missing("a trip that comes by itself, timed to a tenth of a second", "trip_time"),)
        sentence = f"{took}: the stopwatch cannot tell whether that is sooner than {soonest.text}."
        return Judged(Verdict.UNDECIDED, sentence, _PLAIN, _WHY, soonest, decide)
    crossing = " (not shown abnormal: the stopwatch's band reaches past the lower limit)" if placed.crossing else ""
    sentence = (
        f"{took} on the current of a motor at a standstill, between {soonest.text} and {latest.text}{crossing}: "
        "the overload did its work."
    )
    return Judged(
        Verdict.WITHIN, sentence, "It opened in time. Something else keeps the motor from turning.", _WHY, latest
    )


def _results(entered: Entered, standards: InForce) -> Iterator[Result]:
    stalled, volts = entered.number("locked_rotor_amps"), entered.reading("trip_volts")
    plate, ratio = entered.number("plate_volts"), stalled_ratio(entered)
    if stalled is not None and volts is not None and plate is not None:
        yield Result(
            "stalled_amps",
            "Amps at a standstill at these volts",
            stalled * volts.value / plate,
            "A",
            2,
            "What a motor that does not turn draws here, by its plate.",
            stalled * volts.low / plate,
            stalled * volts.high / plate,
        )
    if ratio is not None:
        yield Result(
            "stalled_ratio",
            "Measured over that",
            ratio.value,
            "ratio",
            2,
            "Near 1: the motor did not turn.",
            max(ratio.low, 0.0),
            ratio.high,
        )
    time = entered.reading("trip_time")
    if time is not None:
        label = "Time to trip" if entered.choice("seen") == "stalled_trip" else "Time without a trip"
        yield Result("trip_time", label, time.value, "s", 1, "By the stopwatch.", max(time.low, 0.0), time.high)


def _working(entered: Entered, standards: InForce) -> Iterator[Step]:
    yield from volts_step(entered)
    stalled, volts = entered.number("locked_rotor_amps"), entered.reading("trip_volts")
    plate, ratio, amps = entered.number("plate_volts"), stalled_ratio(entered), entered.reading("trip_amps")
    if stalled is not None and volts is not None and plate is not None:
        yield Step(
            "Amps at a standstill",
            "I = LRA · U / Un",
            f"{quantity(stalled, 'A', 2)} · {quantity(volts.value, 'V', 1)} / {quantity(plate, 'V', 1)}",
            quantity(stalled * volts.value / plate, "A", 2),
            "derived",
        )
        if ratio is not None and amps is not None:
            yield Step(
                "Measured over that",
                "r = I / I standstill, band √(clamp² + voltmeter²)",
                f"{quantity(amps.value, 'A', 2)} / {quantity(stalled * volts.value / plate, 'A', 2)}, "
                f"√({rounded(100.0 * amps.relative_band, 1)}² + {rounded(100.0 * volts.relative_band, 1)}²) %",
                ratio.text,
                "jcgm-100",
            )
    time, latest = entered.reading("trip_time"), standards.limit("overload.trip_latest")
    if time is not None:
        yield Step(
            "Time",
            f"at most {latest.text}",
            f"{quantity(time.value, 's', 1)} ±{quantity(time.band, 's', 1)}",
            f"{rounded(max(time.low, 0.0), 1)} to {quantity(time.high, 's', 1)}",
            latest.source.key,
        )


def _figures(entered: Entered, standards: InForce) -> Iterator[Figure]:
    time = entered.reading("trip_time")
    limits = (standards.limit("overload.trip_soonest"), standards.limit("overload.trip_latest"))
    if time is None or time.value > 20.0 * to_base(limits[1].value, limits[1].unit):
        return
    marks = [Mark(one.value, word) for one, word in zip(limits, ("soonest", "latest"), strict=True)]
    yield scale_figure(
        "trip-time", "Time", value=time.value, low=max(time.low, 0.0), high=time.high, marks=marks, unit="s", digits=1
    )
