"""Is the rotor locked? The one conclusion that may condemn, and everything that has to be there before it does.

It needs: all dead tests good with a known-good start device, equal pressures, the plate's locked-rotor amps, and in two
attempts amps whose whole band lies in the window, volts whose whole band is enough, and current in the start lead.
Less than that leaves it undecided; one attempt of two is a watch. The amps alone never condemn a motor.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from calculators.contract import quantity
from calculators.findings import Decider, Finding, NextStep, Verdict
from calculators.finer_meter import finer_meter
from calculators.limits import Limit
from calculators.locked_rotor.attempts import PAGE, kept, unnoted_limits
from calculators.locked_rotor.case import Attempt, Case
from calculators.locked_rotor.placing import amps_carry, volts_carry
from calculators.readings import Meter
from calculators.supply_check.placing import in_volts

_TURNS = NextStep("It runs: read the amps once it has settled.", "running-amps")
_SOMETIMES = NextStep(
    "Unplug it. Supply, start parts and pressures again before the motor is accused.", "start-under-load"
)
_DEAD_TESTS = NextStep("No power before the dead tests are done and good.", "make-safe-prove-dead")
_PAGE = NextStep("Bring what is missing; do not make up for it with another attempt.", PAGE)
_RECORD = NextStep(
    "Leave it unplugged and tagged. A second technician countersigns; the refrigerant is a licensed person's.", PAGE
)


@dataclass(frozen=True)
class Missing:
    """One thing without which the rotor is not judged: what to say, and what would mend it."""

    words: str
    reading: str
    resolution: str
    condition: str
    enter_in: str | None = None
    entry: str | None = None


def rotor_finding(case: Case) -> Finding:
    """Whether the rotor is locked, as far as the evidence carries."""
    turned = case.entered.choice("turned")
    if turned == "first":
        sentence = "The motor turns: the rotor is not locked."
        plain = "It started. What it draws when it has settled is the next question."
        return Finding("rotor", Verdict.WITHIN, sentence, plain, _TURNS)
    if turned == "second":
        return _sometimes(case)
    missing = tuple(_missing(case))
    if missing:
        return _undecided(case, missing)
    last = case.standards.limit("starting.most_attempts")
    if len(case.attempts) < 2:
        return Finding(
            "rotor", Verdict.WATCH, _once(case, last), _ONCE_PLAIN, _PAGE, last, stop=case.count >= last.value
        )
    sentence = (
        "Consistent with a seized compressor in both attempts: dead tests good, pressures equal, volts and start-lead "
        "current there, amps those of a standing rotor, no turn."
    )
    plain = "Nothing outside the motor explains it. It is condemned by two people's signatures, not by this line."
    return Finding("rotor", Verdict.OUTSIDE, sentence, plain, _RECORD, last, stop=True)


_ONCE_PLAIN = "Everything seen so far fits a rotor that cannot turn. One reading condemns nothing."


def _once(case: Case, last: Limit) -> str:
    said = "Consistent with a locked rotor, not yet seized: "
    if case.count >= last.value:
        return f"{said}one attempt was measured, and none is left on this visit."
    fitted = case.entered.choice("start_capacitor") == "fitted"
    extra = " with a new start capacitor of the rated value" if fitted else ""
    rest = case.standards.limit("starting.rest_between_attempts").text
    return f"{said}one attempt{extra} is left, after {rest} without power."


def _sometimes(case: Case) -> Finding:
    fitted = case.entered.choice("start_capacitor") in ("fitted", "renewed")
    capacitor = " Where only the start capacitor was new, the old one was the fault." if fitted else ""
    sentence = f"It turned at the second attempt: not seized, and not yet in order.{capacitor}"
    plain = "A motor that starts only sometimes: pressures, volts, start parts first; a tight motor comes last."
    return Finding("rotor", Verdict.WATCH, sentence, plain, _SOMETIMES)


def _missing(case: Case) -> Iterator[Missing]:
    """Everything that stands in the way of a word about the rotor, in the order in which it is brought."""
    entered = case.entered
    if entered.choice("dead_tests") != "good":
        yield Missing(
            "the dead tests are not all good",
            "Windings, shell, overload, wiring, start device and capacitors",
            "each by its own page",
            "dead, with a start device that is known to be good fitted for the attempt",
            "dead_tests",
            "good",
        )
    if not case.attempts:
        yield Missing(
            "no attempt was measured",
            "Amps while it hums, with the volts of that moment",
            f"{entered.meters['clamp'].resolution:g} A and {entered.meters['voltmeter'].resolution:g} V, both held",
            "one attempt of the allowed time, by a technician, rested",
            "stalled_amps",
        )
    if not entered.choice("turned"):
        yield Missing("nobody noted if it turned", "The motor", "by eye and ear", "in each attempt", "turned", "no")
    if any(over for _, over in kept(case)):
        yield Missing(
            "the attempts went beyond what a winding can take",
            "The windings, and windings to shell",
            "as by their own pages",
            "dead and cooled, before anything else is said; there is no further attempt on this visit",
        )
    for limit in unnoted_limits(case):
        long = limit.key == "starting.longest_attempt"
        yield Missing(
            "the time of the longest attempt was not noted"
            if long
            else "the rest before the last attempt was not noted",
            "Seconds of the longest attempt" if long else "Minutes without power before the last attempt",
            "1 s" if long else "1 min",
            f"{'no more than' if long else 'no less than'} {limit.text}, as the second person counted",
            "longest_attempt" if long else "rest_between",
            limit.text,
        )
    if len(case.attempts) == 2 and entered.choice("start_capacitor") == "fitted":
        yield Missing(
            "the second attempt was not made with a new start capacitor",
            "The second attempt",
            "with a new start capacitor of the rated value",
            "on another visit, cold and rested, if this one has used its attempts",
            "start_capacitor",
            "renewed",
        )
    if case.wrong_frequency:
        yield Missing(
            "plate and supply differ in frequency",
            "Amps while it hums",
            "as now",
            f"on a supply of {entered.choice('plate_frequency')} Hz",
            "supply_frequency",
        )
    if case.locked_rotor_amps is None:
        yield Missing(
            "the plate's locked-rotor amps are not known",
            "The compressor's plate or its own data sheet",
            "the locked-rotor amps with their volts",
            "not from a table, and not from a similar machine",
            "locked_rotor_amps",
        )
    for attempt in case.attempts:
        yield from _about_attempt(case, attempt)
    looked = entered.choice("start_lead")
    if case.attempts and looked != "seen":
        words = "no current was seen in the start lead" if looked else "nobody looked at the start lead"
        condition = (
            "with the start circuit mended, in a new attempt" if looked else "in the same attempt, by a second clamp"
        )
        yield Missing(words, "Current in the start lead", "seen or not", condition, "start_lead", "seen")
    if entered.choice("pressures") != "equal":
        yield Missing(
            "the pressures are not known to be equal",
            "Pressures in the circuit",
            "a night without power; or proved by a licensed person",
            "minutes are no proof with a blocked capillary or an expansion valve",
            "pressures",
            "equal",
        )


def _about_attempt(case: Case, attempt: Attempt) -> Iterator[Missing]:
    which = "first" if attempt.number == "first" else "second"
    if attempt.volts is None:
        field = "stalled_volts" if which == "first" else "second_volts"
        step = f"{case.entered.meters['voltmeter'].resolution:g} V, held"
        yield Missing(
            f"the volts of the {which} attempt are missing", "Volts while it hums", step, "with the amps", field
        )
        return
    if not volts_carry(case, attempt):
        warn = case.standards.limit("start_volts.warn")
        least = quantity(in_volts(warn, case.plate.low).value, "V", 1)
        yield _with_finer(
            case,
            f"the volts of the {which} attempt are not proved to be {warn.text} of the plate",
            "Volts while it hums",
            f"{least} or more with the meter's whole band",
            ("voltmeter",),
        )
    if case.locked_rotor_amps is not None and not case.wrong_frequency and not amps_carry(case, attempt):
        low, high = (case.standards.limit(f"locked_rotor.{end}_ratio").text for end in ("low", "high"))
        yield _with_finer(
            case,
            f"the amps of the {which} attempt are not proved to be those of a standing rotor",
            "Amps while it hums, with the volts of that moment",
            f"between {low} and {high} of the plate's at those volts, with the whole band",
            ("clamp", "voltmeter"),
        )


def _with_finer(case: Case, words: str, reading: str, condition: str, meters: tuple[str, ...]) -> Missing:
    """The finer meter with which every attempt would carry, where there is one."""

    def carries(changed: Case) -> bool:
        return all(volts_carry(changed, one) and amps_carry(changed, one) for one in changed.attempts)

    for name in meters:

        def decides(meter: Meter, name: str = name) -> bool:
            return carries(case.with_meter(name, meter))

        finer = finer_meter(case.entered.meters[name], decides, name, "A" if name == "clamp" else "V")
        if finer is not None:
            return Missing(words, reading, finer.words, condition, finer.enter_in, finer.entry)
    return Missing(words, reading, "as now: the reading itself must be another", condition)


def _undecided(case: Case, missing: tuple[Missing, ...]) -> Finding:
    first = missing[0]
    said = "; ".join(one.words for one in missing)
    others = "; ".join(one.words for one in missing[1:])
    rest = f"; still open after that: {others}" if others else ""
    alone = all(one.enter_in == first.enter_in and one.entry == first.entry for one in missing)
    decider = Decider(
        first.reading, first.resolution, first.condition + rest, first.enter_in, first.entry if alone else None
    )
    unready = case.entered.choice("dead_tests") != "good"
    kind = "No verdict on the rotor" if not case.attempts else "The rotor is not called locked"
    sentence = f"{kind}: {said}."
    plain = "A motor is not condemned on what nobody looked at. Most that hum are short of volts or of a start device."
    step = _DEAD_TESTS if unready else _PAGE
    return Finding("rotor", Verdict.UNDECIDED, sentence, plain, step, None, decider, stop=unready)
