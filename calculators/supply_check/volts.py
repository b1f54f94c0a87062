"""Are the volts enough, idle, running and in the moment of the start?

The limits condemn a supply, so `outside` needs the whole band outside. A start is passed only on a lowest reading that
the meter is quick enough to hold; one that a slow meter shows is never too low, so `outside` stands by any meter.
"""

from __future__ import annotations

from calculators.contract import quantity, rounded
from calculators.findings import Decider, Finding, NextStep, Placement, Verdict
from calculators.readings import Reading
from calculators.supply_check.case import Case
from calculators.supply_check.earth import place_earth
from calculators.supply_check.placing import Place, finer_or, percent_of, place_level, place_start
from calculators.units import to_base
from calculators.voltage_drop.path_volts import Span

_EARTH_FIRST = NextStep(
    "Earth and polarity come first: read the volts from each pole to earth, with nothing plugged in.", "supply-check"
)
_START_NEXT = NextStep("An idle reading clears nothing: read the lowest volts while it starts.", "supply-check")
_SETTLE = NextStep("Plug nothing in on these volts: settle the supply first.", "supply-check")
_UNPLUG = NextStep("Unplug it and prove it dead; it does not run on these volts.", "make-safe-prove-dead")
_RUN_NEXT = NextStep("The volts are there: read the amps, if the machine runs.", "running-amps")
_TO_MACHINE = NextStep("Low volts do not explain a failed start: go on to the machine, dead.", "make-safe-prove-dead")
_UNDER_LOAD = NextStep("Find out where the volts go, and whether it starts every time.", "start-under-load")
_LOSES = NextStep("Straight at the wall first, then along cord and circuit.", "cord-and-branch-circuit")
_MEASURE = NextStep("Take the volts again as the page says.", "supply-check")
_AGAIN = "in quiet hours and in busy ones, by a meter that logs"


# --- idle and running -------------------------------------------------------------------------------


def idle_finding(case: Case) -> Finding:
    """Whether the volts with nothing on fit the plate."""
    return _level(case, "idle-volts", "Idle", "idle_volts", _before_a_start(case, _START_NEXT))


def _before_a_start(case: Case, step: NextStep) -> NextStep:
    """Nothing is plugged in, for a start or for anything, on an outlet whose earth is not passed."""
    return step if place_earth(case).verdict is Verdict.WITHIN else _EARTH_FIRST


def running_finding(case: Case) -> Finding | None:
    """Whether the volts while it runs fit the plate; None where they were not read."""
    if case.entered.reading("running_volts") is None:
        return None
    return _level(case, "running-volts", "Running", "running_volts", _RUN_NEXT)


def _level(case: Case, name: str, when: str, field: str, step: NextStep) -> Finding:
    reading = case.entered.needed_reading(field)
    low, high = case.standards.limit("supply.low"), case.standards.limit("supply.high")
    placed = place_level(case, reading)
    too_low = reading.value < case.plate.low
    limit = low if too_low else high
    read = f"{when}, {quantity(reading.value, 'V', 1)} is {shares(case, reading)}"
    between = f"between {low.text} and {high.text}"
    if placed.verdict is Verdict.WITHIN:
        words = f"{between}, and the band reaches past a limit: not shown abnormal" if placed.crossing else between
        return Finding(name, placed.verdict, f"{read}: {words}.", _within_plain(when), step, limit)
    if placed.verdict is Verdict.OUTSIDE:
        words = f"below {low.text}" if too_low else f"above {high.text}"
        sentence = f"{read}: {words}, with the whole band. No verdict on the machine on this supply."
        plain = "Too little for this machine: the supply sags, or plate and outlet do not belong together."
        if not too_low:
            plain = "Too much for this machine: the supply is high, or plate and outlet do not belong together."
        stop_step = _UNPLUG if when == "Running" else _SETTLE
        return Finding(name, placed.verdict, sentence, plain, stop_step, limit, stop=True)

    def place(changed: Case) -> Placement:
        return place_level(changed, changed.entered.needed_reading(field))

    decider = finer_or(case, place, f"{when} volts", _AGAIN, "no handheld meter decides so close to the limit")
    sentence = f"{read}: {'below' if too_low else 'above'} a limit, but the meter's band reaches back over it."
    return Finding(
        name, placed.verdict, sentence, "Too close to the edge for this meter to say.", _MEASURE, limit, decider
    )


def _within_plain(when: str) -> str:
    if when == "Idle":
        return "The outlet is right with nothing on it. It can still collapse when the motor pulls."
    return "The volts while it runs are right for this machine."


def shares(case: Case, reading: Reading) -> str:
    """A reading in percent of the plate, of both ends where it is a range."""
    plate = case.plate
    low = percent_of(reading.value, plate.low)
    if not plate.ranged:
        return f"{low} of the plate's {plate.text}"
    return (
        f"{low} of the plate's low end, {plate.low:g} V, and {percent_of(reading.value, plate.high)} of its high end,"
        f" {plate.high:g} V"
    )


# --- the start --------------------------------------------------------------------------------------


def _lowest(case: Case, field: str) -> Span | None:
    reading = case.entered.reading(field)
    return None if reading is None else Span.read(reading)


def place_lowest(case: Case, field: str = "lowest_volts") -> Placement:
    """The lowest volts held during a start against their limits."""
    volts = _lowest(case, field)
    if volts is None:
        return Placement(Verdict.UNDECIDED, crossing=True)
    return place_start(case, volts, complete=case.caught)


def start_finding(case: Case) -> Finding:
    """Whether the machine got the volts it needs to start, as far as anybody saw it."""
    warn, fail = case.standards.limit("start_volts.warn"), case.standards.limit("start_volts.min")
    volts, placed = _lowest(case, "lowest_volts"), place_lowest(case)
    if volts is None:
        sentence = "The lowest volts during the start were not read: nothing clears the supply yet."
        decider = Decider(
            "Lowest volts at the machine's plug", _meter_words(case), "while it starts, rested", "lowest_volts"
        )
        plain = "An outlet can read well and collapse for half a second when the motor pulls."
        return Finding(
            "start-volts", Verdict.UNDECIDED, sentence, plain, _before_a_start(case, _START_NEXT), warn, decider
        )
    got = (
        f"At the start the volts fall to {quantity(volts.value, 'V', 1)}, {percent_of(volts.value, case.plate.low)} of"
        f" the plate's {case.plate.low:g} V"
    )
    if placed.verdict is Verdict.WITHIN:
        words = f"not shown short of {warn.text}" if placed.crossing else f"{warn.text} or more"
        return Finding(
            "start-volts", placed.verdict, f"{got}: {words}.", "Enough volts to start on.", _TO_MACHINE, warn
        )
    if placed.verdict is Verdict.WATCH:
        return Finding(
            "start-volts",
            placed.verdict,
            _weak(case, got, placed),
            _WEAK_PLAIN,
            _before_a_start(case, _UNDER_LOAD),
            warn,
        )
    if placed.verdict is Verdict.OUTSIDE:
        torque = rounded((volts.value / case.plate.low) ** 2, 2)
        sentence = f"{got}: below {fail.text}, with the whole band. A dip; do not judge the compressor on this supply."
        plain = f"Too little to start on: {torque} of the torque is left. It hums, heats and trips, and may be whole."
        return Finding("start-volts", placed.verdict, sentence, plain, _LOSES, fail)
    why = "the meter is not known to hold so short a dip" if not case.caught else "the meter's band lies across a limit"
    plain = "The dip may have been deeper than shown." if not case.caught else "Too close for this meter to say."
    sentence = f"{got}: not tellable, {why}."
    step, decider = _before_a_start(case, _MEASURE), _start_decider(case, "lowest_volts")
    return Finding("start-volts", placed.verdict, sentence, plain, step, warn, decider)


_WEAK_PLAIN = "It may start or may not. What counts is whether it starts every time out of three, rested in between."


def _weak(case: Case, got: str, placed: Placement) -> str:
    warn, fail = case.standards.limit("start_volts.warn"), case.standards.limit("start_volts.min")
    reach = f" The band reaches below {fail.text}." if placed.crossing else ""
    return f"{got}: between {fail.text} and {warn.text}.{reach}"


def _meter_words(case: Case) -> str:
    hold = case.standards.limit("start_volts.hold_time")
    return f"{case.entered.meters['voltmeter'].resolution:g} V on a meter that holds a dip of {hold.text} or shorter"


def _start_decider(case: Case, field: str) -> Decider:
    """A quicker meter if that is enough, else a finer one, else both in words."""
    hold = case.standards.limit("start_volts.hold_time")
    rested = "while it starts, rested, by a qualified person"

    def place(changed: Case) -> Placement:
        return place_lowest(changed, field)

    if case.caught:
        return finer_or(
            case, place, "Lowest volts during the start", rested, "a second start, rested, read the same way"
        )
    quick = case.with_number("hold_time", to_base(hold.value, hold.unit))
    if place(quick).verdict is not Verdict.UNDECIDED:
        return Decider("Lowest volts during the start", _meter_words(case), rested, "hold_time", hold.text)
    finer = finer_or(quick, place, "", "", f"{case.entered.meters['voltmeter'].resolution:g} V").resolution
    words = f"{finer}, and one that holds a dip of {hold.text} or shorter"
    return Decider("Lowest volts during the start", words, rested, "hold_time")


# --- the second place -------------------------------------------------------------------------------


def second_finding(case: Case) -> Finding | None:
    """Where the volts are lost, by the same machine at a second place; None where nobody tried."""
    volts = _lowest(case, "second_lowest_volts")
    if volts is None:
        return None
    warn, fail = case.standards.limit("start_volts.warn"), case.standards.limit("start_volts.min")
    at_wall = case.entered.choice("second_place") == "wall"
    where = "straight at the wall" if at_wall else "on another circuit"
    first, placed = place_lowest(case), place_lowest(case, "second_lowest_volts")
    got = (
        f"The same machine {where}: {quantity(volts.value, 'V', 1)}, {percent_of(volts.value, case.plate.low)} of the"
        f" plate's {case.plate.low:g} V"
    )
    short = first.verdict in (Verdict.WATCH, Verdict.OUTSIDE)
    if placed.verdict is Verdict.UNDECIDED:
        decider = _start_decider(case, "second_lowest_volts")
        sentence = f"{got}: not tellable."
        return Finding(
            "second-place",
            placed.verdict,
            sentence,
            "It does not show yet where the volts go.",
            _MEASURE,
            warn,
            decider,
        )
    if placed.verdict is Verdict.WITHIN:
        blamed = "the cord and its plugs" if at_wall else "the first outlet's circuit or cord"
        tail = f" What the first place loses is lost in {blamed}." if short else ""
        words = f"not shown short of {warn.text}" if placed.crossing else f"{warn.text} or more"
        step = _LOSES if short else _TO_MACHINE
        return Finding(
            "second-place", placed.verdict, f"{got}: {words}.{tail}", "Enough volts to start on here.", step, warn
        )
    common = "outlet, circuit or service, not the cord alone" if at_wall else "what both circuits share: panel, service"
    tail = f" What is short at both places is {common}." if short else ""
    if placed.verdict is Verdict.WATCH:
        return Finding(
            "second-place", placed.verdict, f"{_weak(case, got, placed)}{tail}", _WEAK_PLAIN, _UNDER_LOAD, warn
        )
    sentence = f"{got}: below {fail.text}, with the whole band.{tail}"
    plain = "Too little to start on here too. An electrician or the supplier is next, not the compressor."
    return Finding("second-place", placed.verdict, sentence, plain, _UNDER_LOAD, fail)


# --- foretold from a known load ---------------------------------------------------------------------


def place_predicted(case: Case) -> Placement:
    """The volts foretold for the start; never passed while the known load moved the display by too little."""
    volts, source = case.predicted, case.source
    if volts is None or source is None:
        return Placement(Verdict.UNDECIDED, crossing=True)
    return place_start(case, volts, complete=source.resolved)


def predicted_finding(case: Case) -> Finding | None:
    """What the start would get, from two loads; only where no start was read in which the dip was caught."""
    volts, source = case.predicted, case.source
    if volts is None or source is None or (case.caught and case.entered.number("lowest_volts") is not None):
        return None
    warn, fail = case.standards.limit("start_volts.warn"), case.standards.limit("start_volts.min")
    placed = place_predicted(case)
    least = ", at the least" if case.entered.number("start_power_factor") is None else ""
    got = (
        f"By two loads the start would get {quantity(volts.value, 'V', 1)}, {percent_of(volts.value, case.plate.low)}"
        f" of the plate's {case.plate.low:g} V{least}"
    )
    name = "predicted-start"
    if placed.verdict is Verdict.WITHIN:
        words = f"not shown short of {warn.text}" if placed.crossing else f"{warn.text} or more"
        plain = "This outlet is stiff enough on paper. The lowest volts during a start confirm it."
        return Finding(name, placed.verdict, f"{got}: {words}.", plain, _UNDER_LOAD, warn)
    if placed.verdict is Verdict.WATCH:
        return Finding(name, placed.verdict, _weak(case, got, placed), _WEAK_PLAIN, _UNDER_LOAD, warn)
    if placed.verdict is Verdict.OUTSIDE:
        torque = rounded((volts.value / case.plate.low) ** 2, 2)
        sentence = f"{got}: below {fail.text}, with the whole band."
        plain = (
            f"On paper {torque} of the torque is left. Read the lowest volts during a start before blaming anything."
        )
        return Finding(name, placed.verdict, sentence, plain, _LOSES, fail)
    why = "the known load moved the volts too little" if not source.resolved else "the band lies across a limit"
    sentence = f"{got}, somewhere from {rounded(volts.low, 1)} to {quantity(volts.high, 'V', 1)}: not tellable, {why}."
    plain = "Neither pass nor blame the outlet on this figure alone."
    return Finding(name, placed.verdict, sentence, plain, _UNDER_LOAD, warn, _predicted_decider(case))


def _predicted_decider(case: Case) -> Decider:
    place: Place = place_predicted
    return finer_or(
        case,
        place,
        "Idle volts, volts with the known load, and its amps",
        "right after one another; or the lowest volts while it starts, held by the meter, which decide by themselves",
        "a bigger known load, such as a kettle instead of a lamp",
        "voltmeter",
        "clamp",
    )
