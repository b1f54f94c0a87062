"""Is the capacitor of its marked value: by meter off the circuit, else by amps and volts while it runs?

There is no verdict on a reading taken in circuit, across a bleed resistor of few ohms, on a meter that shows OL, or
on the amps of a start, which is over before a display has settled.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from calculators.capacitor_value.case import Case, Live
from calculators.capacitor_value.conduction import alone_decider, conduction_findings, conducts, ohms_text
from calculators.capacitor_value.deciders import live_decider, meter_decider, volts_decider
from calculators.capacitor_value.marking import FLOAT_DIGITS, Placed
from calculators.contract import quantity
from calculators.findings import Decider, Finding, NextStep, Placement, Verdict, judge_pair
from calculators.readings import Reading

_ORDER = (Verdict.OUTSIDE, Verdict.UNDECIDED, Verdict.WATCH, Verdict.WITHIN)
_RENEW = "Keep it off and have it renewed: same µF, same or higher volts, same kind. Finish the other dead checks."


def findings_of(case: Case) -> tuple[Finding, ...]:
    """Everything found, what stops the work first and what condemns next; of a can that can burst, nothing else.

    Every other finding sends its reader to the capacitor, to measure, to discharge or to take its leads off.
    """
    damaged = tuple(_can(case))
    if damaged:
        return damaged
    found = [*_joined(case), *conduction_findings(case), *_volts(case), *_capacitance(case)]
    return tuple(sorted(found, key=lambda one: (not one.stop, _ORDER.index(one.verdict))))


def _can(case: Case) -> Iterator[Finding]:
    if case.can == "damaged":
        yield Finding(
            "can",
            Verdict.OUTSIDE,
            "The can is swollen, leaking, burnt or has vented: it has failed, whatever it reads.",
            "It can burst, and it may still be charged. Stay away from it until a technician has discharged it.",
            NextStep("Leave it alone to cool; a technician discharges it from a distance.", "discharge-capacitors"),
            stop=True,
        )


def _joined(case: Case) -> Iterator[Finding]:
    """Readings off the circuit that are not known to be the capacitor's own."""
    if case.alone or (case.measured is None and case.ohms is None):
        return
    joined = case.connection == "in_circuit"
    said = "it was measured in circuit" if joined else "it was not said whether it was measured alone"
    yield Finding(
        "connection",
        Verdict.UNDECIDED,
        f"No verdict: {said}.",
        "A winding, a PTC, a relay or a board beside it is measured along with it, in µF and in ohms.",
        NextStep("Take its leads off, discharged and tagged, and measure it alone.", case.page),
        decider=alone_decider("Measured capacitance and settled ohms"),
    )


def _capacitance(case: Case) -> Iterator[Finding]:
    """One verdict on the value; the live reading gives it where the meter gave none."""
    if case.measured is None and case.live is None:
        yield _no_reading(case)
        return
    hindered = tuple(_hindrances(case, case.measured)) if case.measured is not None else ()
    yield from hindered
    judged = case.measured is not None and case.alone and not hindered and not conducts(case)
    metered = by_meter(case, case.measured) if case.measured is not None and judged else None
    if metered is not None:
        yield metered
    if case.live is None:
        return
    if case.kind == "start":
        if case.measured is None:
            yield _start_amps(case)
        return
    live = by_amps(case, case.live)
    if live.verdict is Verdict.OUTSIDE and metered is not None and metered.verdict is Verdict.WITHIN:
        yield _contradicted(live)
    elif metered is None or live.verdict is Verdict.OUTSIDE:
        yield live


# --- why there is no verdict ------------------------------------------------------------------------


def _no_reading(case: Case) -> Finding:
    return Finding(
        "capacitance",
        Verdict.UNDECIDED,
        f"No reading yet: it has to measure {case.marking.between}.",
        "This is what it should read. Discharge it, take its leads off, measure it and enter what the meter shows.",
        NextStep("Measure it off the circuit.", case.page),
        decider=_measure_it(case, "discharged, volts measured twice, leads off"),
    )


def _measure_it(case: Case, condition: str) -> Decider:
    room = case.marking.most - case.marking.least
    return Decider(
        "Capacitance by a capacitance meter",
        f"a band well inside the {case.marking.text(room)} between the two ends",
        condition,
        "measured",
    )


def _hindrances(case: Case, measured: Reading) -> Iterator[Finding]:
    if measured.open_line and case.alone and not conducts(case):
        yield _over_range(case)
    least = case.standards.limit("capacitors.bleed_least")
    if case.bleed is not None and case.bleed < case.ohm_limit("bleed_least"):
        yield Finding(
            "bleed-across",
            Verdict.UNDECIDED,
            f"No verdict: a resistor of {ohms_text(case.bleed)}, less than {least.text}, was across it.",
            "So few ohms beside it fool a capacitance meter.",
            NextStep("Lift one end of the resistor and measure again.", case.page),
            least,
            Decider(
                "Measured capacitance, again",
                "as now",
                "with one end of the resistor lifted, and OL entered for it",
                "bleed_resistor",
                "OL",
            ),
        )


def _over_range(case: Case) -> Finding:
    open_ohms = case.ohms is not None
    return Finding(
        "over-range",
        Verdict.UNDECIDED,
        "No verdict: the capacitance meter shows OL, which a short, a leak, a charge or too small a range gives.",
        "OL is not a capacitance. The ohms tell whether it conducts.",
        NextStep("Discharge it, measure its volts, then read the ohms across it.", case.page),
        decider=Decider(
            "Capacitance on a range that holds the marked value" if open_ohms else "Settled ohms across it",
            f"a range above {case.marking.text(case.marking.most)}" if open_ohms else "0.1 Ω",
            "discharged, volts measured twice, leads off",
            "measured" if open_ohms else "ohms",
        ),
    )


def _start_amps(case: Case) -> Finding:
    return Finding(
        "capacitance",
        Verdict.UNDECIDED,
        "No verdict: a start is over before clamp and voltmeter have settled, so its amps do not judge a start "
        "capacitor.",
        "Start current that does not go away within a second or so is a fault of the start device instead.",
        NextStep("Measure it off the circuit.", case.page),
        decider=_measure_it(case, "discharged, volts measured twice, leads off"),
    )


def _contradicted(live: Finding) -> Finding:
    """Out of value by amps and volts, in value by the meter: one of the two was not this capacitor alone."""
    return replace(
        live,
        verdict=Verdict.UNDECIDED,
        sentence=(
            f"Cannot tell: the readings contradict each other. {live.sentence} The meter, off the circuit, finds it "
            "in value."
        ),
        plain=(
            "The clamp was not on this capacitor's lead alone, or a connector or a joint opens when it carries current."
        ),
        next_step=NextStep(
            "Unplug it, prove it dead and discharge it. See that its connectors are tight, then read both again.",
            "make-safe-prove-dead",
        ),
        decider=Decider(
            "Amps through the capacitor and volts across it, again",
            "as now",
            "the clamp round this capacitor's lead alone, the volts at its own terminals, its connectors tight",
            "capacitor_amps",
        ),
    )


# --- the verdict ------------------------------------------------------------------------------------


def by_meter(case: Case, measured: Reading) -> Finding:
    """The verdict on a reading by capacitance meter, off the circuit."""
    marking = case.marking
    placed = marking.place(measured.value, measured.low, measured.high)
    said = f"{marking.text(measured.value)} (band {marking.band_text(measured.low, measured.high)})"
    if placed.verdict is Verdict.WITHIN:
        return _within(case, placed, said, measured.relative_band)
    if placed.verdict is Verdict.OUTSIDE:
        return _outside(case, placed, said, marking.is_open(measured.high), live=False)
    return _undecided(case, placed, said, meter_decider(case, measured))


def by_amps(case: Case, live: Live) -> Finding:
    """The verdict on a run capacitor by its amps and volts while it runs."""
    marking = case.marking
    placed = marking.place(live.value, live.low, live.high)
    said = (
        f"{quantity(live.amps.value, 'A', 2)} at {quantity(live.volts.value, 'V', 1)} and {live.hertz:g} Hz make "
        f"{marking.text(live.value)} (band {marking.band_text(live.low, live.high)})"
    )
    if placed.verdict is Verdict.WITHIN:
        return _within(case, placed, said, live.band / live.value if live.value else math.inf)
    if placed.verdict is Verdict.OUTSIDE:
        finding = _outside(case, placed, said, marking.is_open(live.high), live=True)
        return replace(finding, name="live-capacitance")
    return _undecided(case, placed, said, live_decider(case, live))


def _within(case: Case, placed: Placed, said: str, relative: float) -> Finding:
    weak = case.standards.limit("amps.weak_above")
    unproved = case.kind == "start"  # the amps of a start are never judged, so this is the meter's few volts
    if 100.0 * relative > weak.value:
        opening = "Not shown abnormal (weak evidence)"
    elif placed.placement.crossing:
        opening = "Not shown abnormal"
    else:
        opening = "In value"
    if unproved:
        opening += ", not proved under voltage"
    past = ", and the band reaches past an end" if placed.placement.crossing else ""
    plain = (
        "A capacitance meter has a few volts. An electrolytic that leaks at full voltage passes it."
        if unproved
        else "Its value does not accuse it. Look at the can as well."
    )
    step = (
        NextStep("Measure the run capacitor too if there is one, then finish the dead checks.", "run-capacitor")
        if case.kind == "start"
        else NextStep("Finish the dead checks: start device, overload, windings to the shell.", "windings-to-shell")
    )
    return Finding(
        "capacitance",
        Verdict.WITHIN,
        f"{opening}: {said}, inside {case.marking.between}{past}.",
        plain,
        step,
        placed.limit,
    )


def _outside(case: Case, placed: Placed, said: str, is_open: bool, *, live: bool) -> Finding:
    marking, limit = case.marking, placed.limit
    if is_open:
        limit = marking.open_share
        opening = f"Open: {said}, with the whole band below {limit.text} of {marking.text(marking.marked)}"
        plain = "There is next to no capacitor left between its terminals, or a lead inside has parted."
    elif placed.low:
        opening = f"Low: {said}, with the whole band below {marking.text(marking.least)} {marking.printed}"
        plain = "It has lost value. The motor starts weakly or runs warm on it."
    else:
        opening = f"High: {said}, with the whole band above {marking.text(marking.most)} {marking.printed}"
        plain = "A second part across it, a leak, or another capacitor than the marking says."
    if live and not is_open:
        plain = f"{plain} See that the clamp was on this capacitor's lead alone."
    step = NextStep(_RENEW, case.page)
    if live:
        step = NextStep(
            "Unplug it, prove it dead, discharge it, and measure it off the circuit before it is renewed.",
            "make-safe-prove-dead",
        )
    return Finding("capacitance", Verdict.OUTSIDE, f"{opening}.", plain, step, limit)


def _undecided(case: Case, placed: Placed, said: str, decider: Decider) -> Finding:
    marking = case.marking
    side = "below" if placed.low else "above"
    end = marking.least if placed.low else marking.most
    return Finding(
        "capacitance",
        Verdict.UNDECIDED,
        f"Cannot tell: {said} is {side} {marking.text(end)} {marking.printed}, and the band reaches back over it.",
        "It leans out of value, but the meter is too coarse to say so.",
        NextStep("Measure it again as the decider says, before it is called bad.", case.page),
        placed.limit,
        decider,
    )


# --- volts across it --------------------------------------------------------------------------------


def place_volts(case: Case, volts: Reading, rated: float) -> Placement:
    """The volts across it in percent of what is printed, between warning and most."""
    warn, fail = (case.standards.limit(f"capacitors.volts_{name}") for name in ("warn", "max"))
    ends = (round(100.0 * one / rated, FLOAT_DIGITS) for one in (volts.value, volts.low, volts.high))
    return judge_pair(*ends, warn=warn, fail=fail)


def _volts(case: Case) -> Iterator[Finding]:
    """Only for a live reading with the printed volts known; volts inside the print say nothing of the value."""
    if case.live is None or case.rated_volts is None:
        return
    volts, rated = case.live.volts, case.rated_volts
    warn, fail = (case.standards.limit(f"capacitors.volts_{name}") for name in ("warn", "max"))
    placed = place_volts(case, volts, rated)
    share = quantity(100.0 * volts.value / rated, "percent", 1)
    said = f"{quantity(volts.value, 'V', 1)} across it is {share} of the {quantity(rated, 'V', 0)} printed"
    step = NextStep("Compare the volts printed with what the machine asks for.", case.page)
    if placed.verdict is Verdict.WITHIN:
        return
    if placed.verdict is Verdict.UNDECIDED:
        yield Finding(
            "volts",
            Verdict.UNDECIDED,
            f"Cannot tell: {said}, and the band reaches back over {warn.text}.",
            "It may carry more volts than it is made for.",
            step,
            warn,
            volts_decider(volts, lambda again: place_volts(case, again, rated).verdict),
        )
        return
    outside = placed.verdict is Verdict.OUTSIDE
    yield Finding(
        "volts",
        placed.verdict,
        f"{'Too many volts' if outside else 'More than printed'}: {said}.",
        "It carries more volts than it is made for and will not last. It may be the wrong part, or the supply is high.",
        step,
        fail if outside else warn,
    )
