"""What the insulation readings mean, in a technician's sentences, and what comes next."""

from __future__ import annotations

import math
from collections.abc import Iterator

from calculators.contract import quantity
from calculators.findings import Decider, Finding, NextStep, Verdict
from calculators.insulation_resistance.deciders import accepted_entry, decider_for, fall_decider
from calculators.insulation_resistance.inputs import PINS, PLACES
from calculators.insulation_resistance.judgement import Case, Fall, Judged
from calculators.insulation_resistance.readings import shown

PAGE = "windings-to-shell"
WHOLE_MACHINE = "whole-machine"  # the finding about the reading from the plug; it never speaks for the pins
_GO_ON = {
    "bare": NextStep(
        "Write the readings down with the shell temperature and “bare, clean and dry”, then go on as the page says.",
        PAGE,
    ),
    "unknown": NextStep(
        "Look what is on the pins, write it down with the readings and the shell temperature, then go on as the page"
        " says.",
        PAGE,
    ),
    "dirty": NextStep(
        "Clean and dry the pins and read once more, so that the next look has something to be compared with.", PAGE
    ),
    "joined": NextStep(
        "Take everything off the pins and read once more: a board may not stand the test voltage, and the next look"
        " needs something to be compared with.",
        PAGE,
    ),
}
_REPEAT = NextStep("Keep it unplugged. Clean and dry the pins and the glass, warm them, and test once more.", PAGE)
_GIVE_UP = NextStep(
    "No power again: leave it proved dead, label it, have a second person repeat the readings, and leave the charge to"
    " a licensed person.",
    "make-safe-prove-dead",
)
_BARE = NextStep("Keep it unplugged. Take everything off the pins, clean and dry them, and test each pin.", PAGE)
_WATCHED = NextStep("Clean, dry and warm the pins and repeat; write it down with a date for the next look.", PAGE)
_TEST = NextStep("Test again with an insulation tester, as the page says.", PAGE)
_TESTER = NextStep("Keep it unplugged. Test each bare pin with an insulation tester, as the page says.", PAGE)
_PINS_TOO = NextStep("Measure each bare pin to the shell.", PAGE)
_COVERS_ON = NextStep(
    "Leave every cover on. If anything has tripped, a licensed person advises on the charge before the terminals are"
    " exposed.",
    PAGE,
)
_PART_BY_PART = NextStep(
    "Keep it unplugged. Take heaters, cord, fans and board off one at a time and test again.", PAGE
)


def findings_of(case: Case) -> tuple[Finding, ...]:
    """Every finding; acceptance is said only where nothing else speaks against it or is still missing."""
    found = [*_on_pins(case), *(_on_fall(case, fall) for fall in case.falls()), *_missing(case), *_on_whole(case)]
    spoken = [one for one in found if one.verdict is not Verdict.WITHIN]
    contradicted = any(one.verdict is not Verdict.WATCH for one in spoken if one.name != WHOLE_MACHINE)
    return tuple(sorted(spoken if contradicted else found, key=lambda one: not one.stop))


def _said(judged: Judged, where: str) -> str:
    """The reading in a sentence, with its band and where it lies."""
    place = judged.place
    if place.open_line:
        return f"{place.words} reads {place.text}, {where}"
    return f"{place.words} reads {place.text} (band {shown(place.low)} to {shown(place.high)}), {where}"


def _on_pins(case: Case) -> Iterator[Finding]:
    judged = case.worst_pin
    if judged is not None:
        name = "insulation"
        if judged.verdict is Verdict.OUTSIDE:
            yield _low_pin(case, judged)
        elif judged.verdict is Verdict.UNDECIDED:
            yield _undecided(case, judged, name)
        elif judged.verdict is Verdict.WATCH:
            yield Finding(
                name,
                Verdict.WATCH,
                f"Low but not failed: {_said(judged, _between(case))}.",
                "Damp, dirt, heat or tired insulation. It may recover when it is dry; it wants another look either"
                " way.",
                _WATCHED,
                case.accepted,
            )
        else:
            yield Finding(
                name,
                Verdict.WITHIN,
                "Insulation accepted:"
                f" {_said(judged, f'at {case.accepted.text} or more with its whole band')}, the lowest of the pins.",
                "The windings hold the test voltage against the shell. Heat and full voltage can still find a weak"
                " place.",
                _GO_ON[case.pin_state],
                case.accepted,
            )


def _between(case: Case) -> str:
    return f"not below {case.refused.text} with any of its band, and not at {case.accepted.text} or more with all of it"


def _low_pin(case: Case, judged: Judged) -> Finding:
    said = _said(judged, f"below {case.refused.text} with its whole band, bare, clean and dry")
    if case.repeated and case.weak_volts:
        volts = case.standards.limit("insulation.test_volts")
        at = "with a test voltage that was not noted"
        if case.test_volts is not None:
            at = f"at {case.test_volts:g} V"
        return Finding(
            "insulation",
            Verdict.OUTSIDE,
            f"Not passed: {said}, twice, {at}. It keeps the power off; the winding is accused only on an insulation"
            f" test at {volts.text}.",
            "Something leaks even at few volts. Moisture does that too, so the insulation tester has the word.",
            _TESTER,
            case.refused,
            stop=True,
        )
    if case.repeated:
        return Finding(
            "insulation",
            Verdict.OUTSIDE,
            f"Winding to shell: {said}, and again after cleaning and drying.",
            "The winding leaks to the shell. This machine gets no power again, and the compressor cannot be mended.",
            _GIVE_UP,
            case.refused,
            stop=True,
        )
    return Finding(
        "insulation",
        Verdict.OUTSIDE,
        f"Not passed: {said}. One reading condemns no compressor; it keeps the power off.",
        "It leaks too much to be powered. Water or dirt can still be the cause, so it is dried and tested once more.",
        _REPEAT,
        case.refused,
        stop=True,
    )


def _undecided(case: Case, judged: Judged, name: str) -> Finding:
    volts = case.standards.limit("insulation.test_volts")
    if judged.why == "state":
        state = {
            "unknown": "it was not noted whether the pins were bare, clean and dry",
            "dirty": "the pins were damp, oily or dirty",
            "joined": "something was still joined to the pins",
        }[case.pin_state]
        sentence = f"Not passed: {_said(judged, f'below {case.refused.text} with its whole band')}, but {state}."
        plain = "Something leaks to the shell, so the power stays off; it need not be the winding."
        step, limit, stop = _BARE, case.refused, True
    elif judged.why == "volts":
        stood = "at a test voltage that was not noted"
        if case.test_volts is not None:
            stood = f"at {case.test_volts:g} V, less than {volts.text}"
        sentence = (
            f"Not passed: {judged.place.words} reads {judged.place.text} {stood}. A high reading there clears nothing."
        )
        plain = "A few volts do not stress insulation: only a low reading means something there, a high one does not."
        step, limit, stop = _TEST, volts, False
    elif judged.why == "range":
        top = shown(judged.place.top)
        sentence = (
            f"Not passed: {judged.place.words} reads over-range on a range that ends at {top}, and"
            f" {case.accepted.text} lies above that."
        )
        plain = "The range is too low to show whether the insulation is good."
        step, limit, stop = _TEST, case.accepted, False
    else:
        sentence = f"Not passed: {_said(judged, f'and its band reaches over {case.refused.text}')}."
        plain = "The tester's own error is too large to say that it is above the limit, so the power stays off."
        step, limit, stop = _BARE, case.refused, True
    return Finding(name, Verdict.UNDECIDED, sentence, plain, step, limit, decider_for(case, judged), stop)


def _on_fall(case: Case, fall: Fall) -> Finding:
    limit = case.standards.limit("insulation.most_fall")
    before = "over-range" if math.isinf(fall.first) else shown(fall.first)
    band = f"{'a rise of any size' if math.isinf(fall.low) else _percent(fall.low)} to {_percent(fall.high)}"
    said = f"{fall.place.words} went from {before} to {fall.place.text} during the test, {_percent(fall.part)} down"
    if fall.verdict is Verdict.OUTSIDE:
        return Finding(
            "falling",
            Verdict.OUTSIDE,
            f"Not passed: {said} (band {band}), more than {limit.text}.",
            "Good insulation holds or rises while it is tested. One that falls is wet or giving way.",
            _REPEAT,
            limit,
            stop=True,
        )
    return Finding(
        "falling",
        Verdict.UNDECIDED,
        f"Not passed yet: {said} (band {band}), and the tester cannot tell that from {limit.text}.",
        "It may be falling under the test. A longer, finer test shows.",
        _REPEAT,
        limit,
        fall_decider(case, fall),
    )


def _percent(part: float) -> str:
    return quantity(100.0 * part, "percent", 1)


def _missing(case: Case) -> Iterator[Finding]:
    """Some pins measured and found no worse than watch, others not measured at all."""
    worst = case.worst_pin
    if worst is None or not case.missing or worst.verdict is Verdict.OUTSIDE:
        return
    names = [PINS[PLACES.index(field)] for field in case.missing]
    pins = f"pin {names[0]}" if len(names) == 1 else f"pins {' and '.join(names)}"
    were = "was" if len(names) == 1 else "were"
    good = f"{_said(worst, 'the lowest so far')}. " if worst.verdict is Verdict.WITHIN else ""
    limit = case.accepted
    yield Finding(
        "missing-pins",
        Verdict.UNDECIDED,
        f"Not passed yet: {good}{pins[0].upper()}{pins[1:]} to shell {were} not measured.",
        "With an open winding the pins are not joined, and a fault is seen only from its own pin.",
        _PINS_TOO,
        limit,
        Decider(
            f"{pins[0].upper()}{pins[1:]} to shell",
            "the tester as it is",
            f"the same test, pins bare, clean and dry; accepted at {limit.text} or more with the tester's whole band",
            case.missing[0],
            accepted_entry(case) if len(names) == 1 else None,
        ),
    )


def _on_whole(case: Case) -> Iterator[Finding]:
    """The whole machine from its plug: it can condemn the machine, never clear the compressor."""
    judged = case.judged_whole
    if judged is None:
        return
    cleared = case.worst_pin is not None and case.worst_pin.verdict in (Verdict.WITHIN, Verdict.WATCH)
    if judged.verdict is Verdict.OUTSIDE:
        yield Finding(
            WHOLE_MACHINE,
            Verdict.OUTSIDE,
            f"Machine not passed: {_said(judged, f'below {case.refused.text} with its whole band')}.",
            "It leaks to earth too much to be plugged in. "
            + (
                "The pins read better, so another part does it: heater, cord, board or fan."
                if cleared
                else "Which part does it, this reading does not say."
            ),
            _PART_BY_PART if cleared else _COVERS_ON,
            case.refused,
            stop=True,
        )
    elif judged.verdict is Verdict.UNDECIDED:
        yield _undecided(case, judged, WHOLE_MACHINE)
    elif judged.verdict is Verdict.WATCH:
        yield Finding(
            WHOLE_MACHINE,
            Verdict.WATCH,
            f"Machine low but not failed: {_said(judged, _between(case))}.",
            "Some part of the machine is damp, dirty or tired. This reading does not say which.",
            _PART_BY_PART if cleared else _PINS_TOO,
            case.accepted,
        )
    elif not case.pins:
        yield _whole_alone(case, judged)


def _whole_alone(case: Case, judged: Judged) -> Finding:
    return Finding(
        WHOLE_MACHINE,
        Verdict.UNDECIDED,
        f"Machine not shown low: {_said(judged, f'at {case.accepted.text} or more')}. That does not clear the"
        " compressor: a contact may have been open.",
        "From the plug a winding is seen only through closed contacts. The pins themselves have to be measured.",
        _PINS_TOO,
        case.accepted,
        Decider(
            "Each pin to the shell",
            "the tester as it is",
            "pins bare, clean and dry, after the terminals have been exposed as the page says",
            PLACES[0],
        ),
    )
