"""How many attempts, how long, how rested: what was used of what is allowed, and each attempt's amps and volts."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.contract import quantity, rounded
from calculators.findings import Decider, Finding, NextStep, Placement, Verdict
from calculators.finer_meter import finer_meter
from calculators.limits import Limit
from calculators.locked_rotor.case import Attempt, Case
from calculators.locked_rotor.placing import place_amps, place_volts
from calculators.readings import Meter
from calculators.supply_check.placing import in_volts
from calculators.units import to_base

PAGE = "locked-rotor-test"
_DEAD = NextStep("No more power. Unplug it, prove it dead, and read the windings again.", "make-safe-prove-dead")
_WINDINGS = NextStep("Unplug it and prove it dead; read windings and start circuit again.", "identify-the-windings")
_SUPPLY = NextStep("The supply first: find where the volts go.", "start-under-load")
_ON = NextStep("Put it together with what else was seen.", PAGE)
_FIRST = NextStep(
    "Unplug it and prove it dead; settle what stands in the way before any power.", "make-safe-prove-dead"
)
_AGAIN = NextStep("Only one attempt is left after this one: read it with the meter named.", PAGE)
_UNITS = {"clamp": "A", "voltmeter": "V"}


def attempts_finding(case: Case) -> Finding | None:
    """Whether the attempts kept to what a winding can take; None before the first one."""
    if not case.count:
        return None
    most = case.standards.limit("starting.most_attempts")
    broken = [limit for limit, over in kept(case) if over]
    made = f"{case.count} attempt{'s' if case.count > 1 else ''} made"
    if broken:
        limit = broken[0]
        said = "; ".join(_beyond(case, one) for one in broken)
        sentence = f"{made}: {said}. No more power on this visit."
        plain = "A winding that stands still under power cooks within seconds. What it was before is no longer sure."
        return Finding("attempts", Verdict.OUTSIDE, sentence, plain, _DEAD, limit, stop=True)
    unnoted = unnoted_limits(case)
    if unnoted:
        return _not_noted(case, made, unnoted)
    if case.count >= most.value:
        sentence = f"{made}, as many as are allowed: no third one, whatever is found."
        return Finding("attempts", Verdict.WITHIN, sentence, "The power stays off now.", _ON, most, stop=True)
    if case.entered.choice("turned") == "first":
        sentence = f"{made}, and it turned: there is nothing to repeat."
        return Finding("attempts", Verdict.WITHIN, sentence, "An attempt is for a motor that hums.", _ON, most)
    reasons = tuple(_before_another(case))
    if reasons:
        sentence = f"{made}. No other one yet: {'; '.join(reasons)}."
        plain = "Another try now would heat the winding and prove nothing. That comes first, dead."
        return Finding("attempts", Verdict.WITHIN, sentence, plain, _FIRST, most, stop=True)
    longest, rest = (
        case.standards.limit(key).text for key in ("starting.longest_attempt", "starting.rest_between_attempts")
    )
    sentence = f"{made}: one more at most, after {rest} without power, and of no more than {longest}."
    return Finding("attempts", Verdict.WITHIN, sentence, "Rest first. The second attempt is the last one.", _ON, most)


def unnoted_limits(case: Case) -> tuple[Limit, ...]:
    """The limits of the attempts that nobody can say were kept, for want of a time."""
    found = []
    if case.count and case.entered.number("longest_attempt") is None:
        found.append(case.standards.limit("starting.longest_attempt"))
    if case.count > 1 and case.entered.number("rest_between") is None:
        found.append(case.standards.limit("starting.rest_between_attempts"))
    return tuple(found)


_TIMES = {
    "starting.longest_attempt": ("longest_attempt", "how long the longest took"),
    "starting.rest_between_attempts": ("rest_between", "how long it rested before the last"),
}


def _not_noted(case: Case, made: str, unnoted: tuple[Limit, ...]) -> Finding:
    said = " and ".join(_TIMES[limit.key][1] for limit in unnoted)
    spent = case.count >= case.standards.value("starting.most_attempts")
    after = " There is no further one on this visit." if spent else " No other one before that is known."
    decider = Decider(
        "The times of the attempts",
        "1 s and 1 min",
        f"as the second person counted them; {' and '.join(limit.text for limit in unnoted)} are the limits",
        _TIMES[unnoted[0].key][0],
        unnoted[0].text if len(unnoted) == 1 else None,
    )
    plain = "A winding that stands still under power cooks within seconds. Nobody can say that it did not."
    step = NextStep("Keep it unplugged, and write down the times from the notes of whoever counted.", PAGE)
    sentence = f"{made}. It was not noted {said}.{after}"
    return Finding("attempts", Verdict.UNDECIDED, sentence, plain, step, unnoted[0], decider, stop=True)


def _before_another(case: Case) -> Iterator[str]:
    """Why no other attempt is made as things stand."""
    entered = case.entered
    if entered.choice("dead_tests") != "good":
        yield "the dead tests are not all good"
    if case.wrong_frequency:
        yield "plate and supply differ in frequency"
    attempt = _weakest(case)
    if attempt is not None and place_volts(case, attempt).verdict is not Verdict.WITHIN:
        warn = case.standards.limit("start_volts.warn")
        yield f"the volts are not proved to be {warn.text} of the plate"
    if any(place_amps(case, one).verdict is Verdict.OUTSIDE for one in case.attempts):
        yield "the amps are not those of a standing rotor"
    if entered.choice("start_lead") == "none":
        yield "the start lead carries no current"
    if entered.choice("pressures") != "equal":
        yield "the pressures are not known to be equal"


def kept(case: Case) -> list[tuple[Limit, bool]]:
    """Each limit of the attempts, and whether it was gone beyond."""
    standards, entered = case.standards, case.entered
    most = standards.limit("starting.most_attempts")
    longest, rest = standards.limit("starting.longest_attempt"), standards.limit("starting.rest_between_attempts")
    seconds, rested = entered.number("longest_attempt"), entered.number("rest_between")
    return [
        (most, case.count > most.value),
        (longest, seconds is not None and seconds > to_base(longest.value, longest.unit)),
        (rest, rested is not None and case.count > 1 and rested < to_base(rest.value, rest.unit)),
    ]


def _beyond(case: Case, limit: Limit) -> str:
    if limit.key == "starting.most_attempts":
        return f"more than the {limit.text} that are allowed"
    if limit.key == "starting.longest_attempt":
        return f"the longest took {quantity(case.entered.needed('longest_attempt'), 's', 1)}, more than {limit.text}"
    return f"only {quantity(case.entered.needed('rest_between'), 'min', 1)} of rest, less than {limit.text}"


# --- amps -------------------------------------------------------------------------------------------


def amps_finding(case: Case, attempt: Attempt) -> Finding:
    """Whether these are the amps of a rotor that stands still."""
    name = "stalled-amps" if attempt.number == "first" else "second-stalled-amps"
    low, high = case.standards.limit("locked_rotor.low_ratio"), case.standards.limit("locked_rotor.high_ratio")
    ratio, placed = case.ratio(attempt), place_amps(case, attempt)
    if case.wrong_frequency:
        return _wrong_frequency(case, attempt, name)
    expected = None if attempt.volts is None else case.expected(attempt.volts.value)
    if attempt.volts is None or ratio is None or expected is None:
        return _without_plate(case, attempt, name, placed)
    said = (
        f"{quantity(attempt.amps.value, 'A', 1)} at {quantity(attempt.volts.value, 'V', 1)} is "
        f"{rounded(ratio.value, 2)} times the {quantity(expected.value, 'A', 1)} that the plate's "
        f"LRA comes to there (band {rounded(ratio.low, 2)} to {rounded(ratio.high, 2)})"
    )
    between = f"between {low.text} and {high.text}"
    if placed.verdict is Verdict.WITHIN:
        words = f"{between}, and the band reaches past an end" if placed.crossing else between
        plain = "That is what this motor takes while it stands still. Why it stands still is not in the amps."
        return Finding(name, placed.verdict, f"{said}: {words}.", plain, _ON, high)
    below = ratio.value < low.value
    limit = low if below else high
    if placed.verdict is Verdict.OUTSIDE:
        return _off(name, said, limit, below=below)
    sentence = f"{said}: {'below' if below else 'above'} {limit.text}, and the band reaches back over it."
    plain = "The meters are too coarse to say if these are the amps of a rotor that stands still."
    decider = _finer(case, attempt, "Amps while it hums, and the volts with them")
    return Finding(name, placed.verdict, sentence, plain, _AGAIN, limit, decider)


def _wrong_frequency(case: Case, attempt: Attempt, name: str) -> Finding:
    plate, supply = case.entered.choice("plate_frequency"), case.entered.choice("supply_frequency")
    decider = Decider("Amps while it hums", "as now", f"on a supply of {plate} Hz", "supply_frequency")
    read = quantity(attempt.amps.value, "A", 1)
    sentence = f"{read}: no verdict, the plate says {plate} Hz and the supply is {supply} Hz."
    plain = "The amps of a standing motor change with the frequency. Its plate says nothing about this supply."
    step = NextStep("Leave it unplugged on this supply.", "read-the-rating-plates")
    return Finding(name, Verdict.UNDECIDED, sentence, plain, step, None, decider, stop=True)


def _off(name: str, said: str, limit: Limit, *, below: bool) -> Finding:
    if below:
        sentence = f"{said}, below {limit.text} with the whole band: less than a rotor that stands still takes."
        plain = "A winding, a lead or the start circuit is open or starved, or it did turn. That is no seized motor."
        return Finding(name, Verdict.OUTSIDE, sentence, plain, _WINDINGS, limit)
    sentence = (
        f"{said}, above {limit.text} with the whole band: more than a rotor that stands still takes. Shorted turns are "
        "named only on data-sheet ohms, not on this."
    )
    plain = (
        "No second attempt with so much current. The windings are read again, dead; and the plate, for its"
        " running amps may have been taken for the locked-rotor amps."
    )
    return Finding(name, Verdict.OUTSIDE, sentence, plain, _WINDINGS, limit, stop=True)


def _without_plate(case: Case, attempt: Attempt, name: str, placed: Placement) -> Finding:
    low, high = case.standards.limit("locked_rotor.low_ratio"), case.standards.limit("locked_rotor.high_ratio")
    read = quantity(attempt.amps.value, "A", 1)
    if attempt.volts is None:
        field = "stalled_volts" if attempt.number == "first" else "second_volts"
        step = f"{case.entered.meters['voltmeter'].resolution:g} V, held"
        decider = Decider("Volts at the moment of the amps", step, "at the machine, in the same attempt", field)
        sentence = f"{read} were read without the volts of that moment: nothing to compare them with."
        plain = "A motor that gets less volts takes less amps. Without the volts the amps say nothing."
        return Finding(name, Verdict.UNDECIDED, sentence, plain, _ON, high, decider)
    letter = case.letter
    if placed.verdict is Verdict.OUTSIDE and letter is not None:
        below = attempt.amps.value * case.nominal / attempt.volts.value < letter.least
        said = f"{read} at {quantity(attempt.volts.value, 'V', 1)}, by code letter {letter.letter} alone"
        return _off(name, said, low if below else high, below=below)
    decider = Decider(
        "The compressor's plate, or the data sheet of this very compressor",
        "the locked-rotor amps with their volts",
        "from the machine or a photo",
        "locked_rotor_amps",
    )
    why = (
        "not off by code letter, which is too weak to go by"
        if letter
        else "the plate's locked-rotor amps are not known"
    )
    sentence = f"{read} at {quantity(attempt.volts.value, 'V', 1)}: {why}. No verdict on the amps."
    plain = "Without the plate's own figure nobody knows what this motor should take."
    return Finding(name, Verdict.UNDECIDED, sentence, plain, _ON, high, decider)


def _finer(case: Case, attempt: Attempt, reading: str) -> Decider:
    """The least finer clamp, else voltmeter, with which these amps would be judged."""
    condition = "both held in one attempt of the allowed time, rested"
    for name in ("clamp", "voltmeter"):

        def decides(meter: Meter, name: str = name) -> bool:
            changed = case.with_meter(name, meter)
            same = next(one for one in changed.attempts if one.number == attempt.number)
            return place_amps(changed, same).verdict is not Verdict.UNDECIDED

        finer = finer_meter(case.entered.meters[name], decides, name, _UNITS[name])
        if finer is not None:
            return Decider(reading, finer.words, condition, finer.enter_in, finer.entry)
    return Decider(reading, "a better clamp and a better voltmeter together, or a plate without a range", condition)


# --- volts and start lead ---------------------------------------------------------------------------


def _weakest(case: Case) -> Attempt | None:
    """The measured attempt with the fewest volts."""
    measured = [(one.volts.value, one) for one in case.attempts if one.volts is not None]
    return min(measured, key=lambda pair: pair[0])[1] if measured else None


def volts_finding(case: Case) -> Finding | None:
    """Whether the motor had volts enough in every measured attempt; the attempt with the fewest is judged."""
    attempt = _weakest(case)
    if attempt is None or attempt.volts is None:
        return None
    volts = attempt.volts.value
    warn, fail = case.standards.limit("start_volts.warn"), case.standards.limit("start_volts.min")
    placed = place_volts(case, attempt)
    share = quantity(100.0 * volts / case.plate.low, "percent", 1)
    read = f"{quantity(volts, 'V', 1)} while it hummed is {share} of the plate's {case.plate.low:g} V"
    if placed.verdict is Verdict.WITHIN:
        words = f"not shown short of {warn.text}" if placed.crossing else f"{warn.text} or more"
        return Finding("stalled-volts", placed.verdict, f"{read}: {words}.", "The supply held.", _ON, warn)
    torque = rounded((volts / case.plate.low) ** 2, 2)
    plain = f"With {torque} of its torque a good motor may stand still. The supply comes first."
    if placed.verdict is Verdict.OUTSIDE:
        sentence = f"{read}: below {fail.text}. Nothing is said about the motor on such a supply."
        return Finding("stalled-volts", placed.verdict, sentence, plain, _SUPPLY, fail)
    if placed.verdict is Verdict.WATCH:
        sentence = f"{read}: between {fail.text} and {warn.text}. No rotor is called locked on that."
        return Finding("stalled-volts", placed.verdict, sentence, plain, _SUPPLY, warn)
    sentence = f"{read}: below {warn.text}, and the meter's band reaches back over it."
    return Finding("stalled-volts", placed.verdict, sentence, plain, _SUPPLY, warn, volts_decider(case))


def volts_decider(case: Case) -> Decider:
    """The least finer voltmeter with which the volts of every attempt would be judged."""
    warn = in_volts(case.standards.limit("start_volts.warn"), case.plate.low)
    condition = f"while it hums, {quantity(warn.value, 'V', 1)} or more with the meter's whole band"

    def decides(meter: Meter) -> bool:
        weakest = _weakest(case.with_meter("voltmeter", meter))
        return weakest is not None and place_volts(case, weakest).verdict is not Verdict.UNDECIDED

    finer = finer_meter(case.entered.meters["voltmeter"], decides, "voltmeter", "V")
    if finer is not None:
        return Decider("Volts while it hums", finer.words, condition, finer.enter_in, finer.entry)
    return Decider("Volts while it hums", "as now: the volts themselves must be higher", condition)


def start_lead_finding(case: Case) -> Finding | None:
    """What the start lead says; None where nobody looked."""
    looked = case.entered.choice("start_lead")
    if looked == "seen":
        sentence = "Current flows in the start lead: both windings are fed."
        return Finding("start-lead", Verdict.WITHIN, sentence, "The start circuit does its part.", _ON)
    if looked == "none":
        sentence = (
            "No current in the start lead: the start circuit is open, and the motor cannot start on its run winding."
        )
        plain = (
            "Start device, capacitor, a lead, a pin contact or the start winding. The rotor is not to blame for that."
        )
        return Finding("start-lead", Verdict.OUTSIDE, sentence, plain, _WINDINGS)
    return None
