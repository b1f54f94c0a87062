"""Does the capacitor conduct? Its settled ohms, less what its bleed resistor carries, and its ohms to the case.

An ohmmeter has a few volts: what it finds condemns, what it does not find proves nothing, so good ohms are a note
and never a finding. Conductance adds, so the leak is judged as G = 1/R - 1/R(bleed), ohms and resistor at their worst.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from calculators.capacitor_value.case import Case
from calculators.contract import Step, quantity
from calculators.findings import Decider, Finding, NextStep, Verdict, judge, judge_side
from calculators.finer_meter import finer_meter
from calculators.readings import Meter, Reading
from calculators.units import from_base

_READINGS = {"ohms": "Settled ohms across it", "case_ohms": "Ohms from each terminal to the case"}
_KEEP_OFF = "Keep it off and have it renewed: same µF, same or higher volts, same kind. Finish the other dead checks."


def ohms_text(ohms: float) -> str:
    """Ohms in the unit a technician would say them in."""
    if math.isinf(ohms):
        return "OL"
    unit, digits = (
        ("ohm", 2) if ohms < 1.0 else ("ohm", 1) if ohms < 1e3 else ("kilohm", 1) if ohms < 1e6 else ("megohm", 2)
    )
    return quantity(ohms, unit, digits)


@dataclass(frozen=True)
class Leak:
    """The conductance beside the bleed resistor, siemens: as read, and the least that it can be."""

    value: float
    low: float

    def verdict(self, case: Case) -> Verdict:
        """Against the most that is taken for no leak: to condemn takes the least, and to pass what was read."""
        limit = 1.0 / case.ohm_limit("leak_ohms")
        return judge_side(self.value, self.low, self.value, limit=limit, side="most", guard="reject").verdict


def leak_of(case: Case, ohms: Reading) -> Leak:
    """What flows beside the bleed resistor; without a word of one, beside none."""
    bleed = math.inf if case.bleed is None else case.bleed
    part = case.standards.value("capacitors.bleed_tolerance") / 100.0
    return Leak(_over(ohms.value) - _over(bleed), _over(ohms.high) - _over(bleed * (1.0 - part)))


def _over(ohms: float) -> float:
    return math.inf if ohms == 0.0 else 1.0 / ohms


def conducts(case: Case) -> bool:
    """Whether the ohms, as read, say that this is no capacitor any more: then its microfarads are not judged.

    The reading itself decides and not its band, so that a coarser ohmmeter cannot let a capacitance through.
    """
    if case.ohms is None or not case.alone or leak_of(case, case.ohms).verdict(case) is Verdict.WITHIN:
        return False
    return case.bleed is not None or case.ohms.value < case.ohm_limit("bleed_least")


def conduction_findings(case: Case) -> Iterator[Finding]:
    """What the ohms condemn, or leave open. In circuit they are a winding's ohms, so across it they wait."""
    if case.ohms is not None and case.alone:
        yield from _across(case, case.ohms)
    if case.case_ohms is not None:
        yield from _to_case(case, case.case_ohms)


def _across(case: Case, ohms: Reading) -> Iterator[Finding]:
    verdict = leak_of(case, ohms).verdict(case)
    if verdict is Verdict.WITHIN:
        yield from _bleed_open(case, ohms)
    elif case.bleed is None and not _too_low_for_a_bleed(case, ohms):
        yield _bleed_unknown(case, ohms)
    elif verdict is Verdict.OUTSIDE:
        yield _leaking(case, ohms)
    else:
        yield _leak_undecided(case, ohms)


def _too_low_for_a_bleed(case: Case, ohms: Reading) -> bool:
    return ohms.high < case.ohm_limit("bleed_least")


def _leaking(case: Case, ohms: Reading) -> Finding:
    short = case.standards.limit("capacitors.short_ohms")
    if judge(ohms.value, ohms.low, ohms.high, short).verdict is Verdict.OUTSIDE:
        return Finding(
            "ohms",
            Verdict.OUTSIDE,
            f"Shorted: {ohms_text(ohms.value)} across it, with the whole band below {short.text}.",
            "It lets direct current straight through. In circuit it puts the start winding across the line.",
            NextStep(_KEEP_OFF, case.page),
            short,
        )
    limit = case.standards.limit("capacitors.leak_ohms")
    beside = "" if case.bleed is None or math.isinf(case.bleed) else " beside its bleed resistor"
    return Finding(
        "ohms",
        Verdict.OUTSIDE,
        f"It conducts: {ohms_text(ohms.value)} settled across it is more than a leak of {limit.text}{beside} explains, "
        "with the whole band.",
        "A capacitor that conducts gets hot in circuit, and its microfarads mean nothing.",
        NextStep(_KEEP_OFF, case.page),
        limit,
    )


def _bleed_unknown(case: Case, ohms: Reading) -> Finding:
    shown = ohms_text(ohms.value)
    return Finding(
        "ohms",
        Verdict.UNDECIDED,
        f"Cannot tell: {shown} settled across it may be its bleed resistor, or a leak.",
        "A start capacitor usually has a resistor across its terminals. It looks like leakage until it is counted in.",
        NextStep("Look for a resistor across the terminals, and read its marking.", case.page),
        case.standards.limit("capacitors.leak_ohms"),
        Decider(
            "The bleed resistor's marking, or OL when there is none",
            "as marked, in kΩ",
            "or lift one end of it, enter OL here, and read the settled ohms again",
            "bleed_resistor",
            "OL" if ohms.value < case.ohm_limit("bleed_least") else f"{from_base(ohms.value, 'kilohm'):.3g} kΩ",
        ),
    )


def _leak_undecided(case: Case, ohms: Reading) -> Finding:
    limit = case.standards.limit("capacitors.leak_ohms")
    return Finding(
        "ohms",
        Verdict.UNDECIDED,
        f"Cannot tell: {ohms_text(ohms.value)} settled across it may be a leak, or what its bleed resistor and the "
        "ohmmeter may be off.",
        "The resistor across it hides a small leak.",
        NextStep("Lift one end of the bleed resistor and read the settled ohms again.", case.page),
        limit,
        _ohm_decider(
            ohms,
            "ohms",
            lambda again: leak_of(case, again).verdict(case),
            "with one end of the bleed resistor lifted, and OL entered for it",
        ),
    )


def _bleed_open(case: Case, ohms: Reading) -> Iterator[Finding]:
    """A resistor that reads more than it may: the capacitor keeps its charge, and a contact that closes on it burns."""
    if case.bleed is None or math.isinf(case.bleed):
        return
    most = case.bleed * (1.0 + case.standards.value("capacitors.bleed_tolerance") / 100.0)

    def placed(again: Reading) -> Verdict:
        return judge_side(again.value, again.low, again.high, limit=most, side="most", guard="reject").verdict

    verdict = placed(ohms)
    if verdict is Verdict.WITHIN:
        return
    said = f"the bleed resistor is marked {ohms_text(case.bleed)}, and {ohms_text(ohms.value)} is read across it"
    step = NextStep("Have the bleed resistor renewed; measure volts before every touch.", "discharge-capacitors")
    plain = "Without its resistor the capacitor keeps its charge, and the relay contact that closes on it can weld."
    if verdict is Verdict.OUTSIDE:
        yield Finding("bleed-resistor", verdict, f"The bleed resistor is open or has drifted: {said}.", plain, step)
        return
    yield Finding(
        "bleed-resistor",
        verdict,
        f"Cannot tell whether the bleed resistor is right: {said}.",
        plain,
        step,
        decider=_ohm_decider(ohms, "ohms", placed, "discharged, after the figure has stopped climbing"),
    )


def _to_case(case: Case, ohms: Reading) -> Iterator[Finding]:
    """To the metal case: this one protects a person, and passing it on an ohmmeter is no proof, so it is a note."""
    limit = case.standards.limit("capacitors.case_ohms")
    least = case.ohm_limit("case_ohms")

    def placed(again: Reading) -> Verdict:
        return judge_side(again.value, again.low, again.high, limit=least, side="least", guard=limit.guard).verdict

    verdict = placed(ohms)
    if verdict is Verdict.WITHIN:
        return
    step = NextStep(_KEEP_OFF, case.page)
    plain = "Its case can become live. It goes back on no machine."
    if verdict is Verdict.OUTSIDE and case.alone:
        yield Finding(
            "case",
            verdict,
            f"A path to the case: {ohms_text(ohms.value)}, with the whole band below {limit.text}.",
            plain,
            step,
            limit,
            stop=True,
        )
        return
    yield Finding(
        "case",
        Verdict.UNDECIDED,
        f"{ohms_text(ohms.value)} to the case is not {limit.text} or more with the whole band.",
        "Its case may become live. Put it back on no machine before this is settled.",
        NextStep("Clean and dry it, take everything off it, and read its ohms to the case again.", case.page),
        limit,
        _case_decider(case, ohms, placed),
        stop=True,
    )


def _case_decider(case: Case, ohms: Reading, placed: Callable[[Reading], Verdict]) -> Decider:
    clean = "on clean, dry terminals, to bright bare metal"
    if case.alone:
        return _ohm_decider(ohms, "case_ohms", placed, clean)
    if placed(ohms) is not Verdict.UNDECIDED:
        return alone_decider(_READINGS["case_ohms"])
    return Decider(_READINGS["case_ohms"], "a finer range or meter", f"its leads off, {clean}", "case_ohms")


def alone_decider(reading: str) -> Decider:
    """What was joined to the capacitor was measured along with it."""
    return Decider(reading, "as now", "its leads off, nothing else across it", "connection", "alone")


def _ohm_decider(now: Reading, field: str, placed: Callable[[Reading], Verdict], condition: str) -> Decider:
    """A finer ohmmeter if that is enough; else the same reading under the condition."""

    def decides(meter: Meter) -> bool:
        return placed(Reading.taken(now.value, meter)) is not Verdict.UNDECIDED

    finer = finer_meter(now.meter, decides, "ohmmeter", "ohm")
    if finer is not None:
        return Decider(_READINGS[field], finer.words, condition, finer.enter_in, finer.entry)
    return Decider(_READINGS[field], "the finest range that holds the reading", condition, field)


def conduction_steps(case: Case) -> Iterator[Step]:
    """The arithmetic of the leak."""
    ohms = case.ohms
    if ohms is None or case.bleed is None or math.isinf(case.bleed) or ohms.open_line or ohms.value == 0.0:
        return
    beside = 1.0 / ohms.value - 1.0 / case.bleed
    off = case.standards.limit("capacitors.bleed_tolerance").text
    yield Step(
        "Ohms beside the bleed resistor",
        "R = 1 / (1/R read − 1/R bleed)",
        f"1 / (1/{ohms_text(ohms.value)} − 1/{ohms_text(case.bleed)})",
        (ohms_text(1.0 / beside) if beside > 0.0 else "the bleed resistor explains all of it")
        + f"; judged with the resistor {off} off and the ohmmeter's band, worst case both ways",
        "derived",
    )
