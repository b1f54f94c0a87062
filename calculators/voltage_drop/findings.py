"""What a path loses while the machine runs, and what the cord's own loop says, against their limits.

These limits condemn a cord or a circuit, so `outside` needs the whole band outside.
"""

from __future__ import annotations

from dataclasses import replace

from calculators.contract import quantity, rounded
from calculators.findings import Decider, Finding, NextStep, Placement, Verdict, judge, judge_pair
from calculators.inputs import Entered
from calculators.limits import InForce, Limit
from calculators.voltage_drop.case import Case, Running, case_of
from calculators.voltage_drop.deciders import (
    LOOK_AT_PATH,
    SETTLE_SUPPLY,
    UNPLUG_CORD,
    Entry,
    cord_or_circuit,
    ends,
    finer,
    first_that_decides,
    supply_fits,
)
from calculators.voltage_drop.path_volts import Span, size

_CONFIRM = NextStep("Have it confirmed by the volts at the machine's plug while it runs.", "supply-check")


# --- running ----------------------------------------------------------------------------------------


def place_running(running: Running, standards: InForce) -> Placement:
    """The running loss against its warning and its limit."""
    warn, fail = standards.limit("drop.run_warn"), standards.limit("drop.run_max")
    percent = running.judged_percent
    return judge_pair(percent.value, percent.low, percent.high, warn=warn, fail=fail)


def running_finding(case: Case, running: Running, entered: Entered, standards: InForce) -> Finding:
    """How much of the volts the path takes while the machine runs."""
    warn, fail = standards.limit("drop.run_warn"), standards.limit("drop.run_max")
    placed = place_running(running, standards)
    took = _took(case, running)
    left_out = "" if case.branch_counted else " The branch circuit was not entered and is not in this."
    limit, decider = warn, None
    if placed.verdict is Verdict.WITHIN:
        words = (
            f"not shown abnormal against {warn.text}" if placed.crossing else f"no more than the {warn.text} advised"
        )
        sentence, plain = f"{took}: {words}.", "What was entered takes little of the volts."
        step = _CONFIRM if supply_fits(case, standards) else SETTLE_SUPPLY
    elif placed.verdict is Verdict.WATCH:
        reach = f" The band reaches past {fail.text}." if placed.crossing else ""
        sentence = f"{took}: between {warn.text} and {fail.text}.{reach}"
        plain, step = f"It runs on less than is advised. Most is lost in {_worst(case)}.", LOOK_AT_PATH
    elif placed.verdict is Verdict.OUTSIDE:
        sentence = f"{took}: more than {fail.text}, with the whole band. Most of it is lost in {_worst(case)}."
        plain = "Too much of the volts stays in the wires. They warm up, and the motor gets less than it is built for."
        step, limit = cord_or_circuit(case), fail
    else:
        sentence = f"{took}, somewhere from {ends(running.judged_percent, 'percent', 2)}: not tellable yet."
        plain, step = "It may be the wires, it may be what the readings leave open.", LOOK_AT_PATH
        decider = _running_decider(case, entered, standards)
    return Finding("running-drop", placed.verdict, sentence + left_out, plain, step, limit, decider)


def _running_decider(case: Case, entered: Entered, standards: InForce) -> Decider:
    def verdict_of(changed: Entered) -> Verdict:
        running = case_of(changed, standards).running
        return place_running(running, standards).verdict if running else Verdict.UNDECIDED

    if case.source is not None and case.at_outlet:
        at_panel = replace(entered, choices={**entered.choices, "source_where": "panel"})
        where = Entry("source_where", "panel", "Where the readings were taken", at_panel)
        entry = first_that_decides(iter((where,)), verdict_of)
        return Decider(
            "Idle volts and volts with the known load, at the panel instead of the outlet",
            f"{entered.meters['voltmeter'].resolution:g} V",
            "with the branch circuit entered by size and length, so that circuit and supply are told apart",
            entry.field if entry else None,
            entry.text if entry else None,
        )
    entry = first_that_decides(finer(entered, "clamp", "voltmeter", "loop_meter"), verdict_of)
    return Decider(
        entry.reading if entry else "Volts at panel and at machine, read one right after the other",
        entry.text if entry else "0.1 V",
        "while the machine runs steadily, by a qualified person",
        entry.field if entry else None,
        entry.text if entry else None,
    )


def _took(case: Case, running: Running) -> str:
    lost = quantity(running.judged_loss, "V", 2)
    share = quantity(running.judged_percent.value, "percent", 2)
    whose = "idle" if case.idle_measured else "plate"
    return f"Running, the volts lost in {_judged_words(case)} are {lost}, {share} of the {whose} volts"


def _judged_words(case: Case) -> str:
    if case.source is not None and case.at_outlet:
        return "supply, circuit and all that follows"
    labels = [part.label.lower() for part in case.wiring]
    return " and ".join([", ".join(labels[:-1]), labels[-1]]) if len(labels) > 1 else labels[0]


def _worst(case: Case) -> str:
    judged = case.parts if case.at_outlet else case.wiring
    worst = max(judged, key=lambda part: size(part.ohms))
    return "the circuit or supply before the outlet" if worst.name == "source" else f"the {worst.label.lower()}"


# --- the supply itself ------------------------------------------------------------------------------


def _place_idle(case: Case, standards: InForce) -> tuple[Limit, Placement]:
    """The idle volts against the end of the plate's range that they lie beyond."""
    low, high = standards.limit("supply.low"), standards.limit("supply.high")
    percent = case.idle.times(100.0 / case.plate)
    limit = low if percent.value < low.value else high
    return limit, judge(percent.value, percent.low, percent.high, limit)


def supply_finding(case: Case, entered: Entered, standards: InForce) -> Finding | None:
    """That the supply does not fit the plate, whatever the path does; None where it fits or was not measured."""
    if supply_fits(case, standards):
        return None
    limit, placed = _place_idle(case, standards)
    share = quantity(100.0 * case.idle.value / case.plate, "percent", 1)
    side = "below" if limit.side == "least" else "above"
    read = f"Idle, {quantity(case.idle.value, 'V', 1)} is {share} of the plate's {case.plate:g} V: {side} {limit.text}"
    if placed.verdict is Verdict.OUTSIDE:
        sentence = f"{read}, with the whole band. This machine does not run on this supply."
        plain = "The supply comes before cord and circuit: it sags or is too high, or plate and outlet do not belong"
        return Finding(
            "idle-volts", placed.verdict, sentence, f"{plain} together.", SETTLE_SUPPLY, limit, None, stop=True
        )

    def verdict_of(changed: Entered) -> Verdict:
        return _place_idle(case_of(changed, standards), standards)[1].verdict

    entry = first_that_decides(finer(entered, "voltmeter"), verdict_of)
    decider = Decider(
        "Idle volts",
        entry.text if entry else "no handheld meter decides so close to the limit",
        "with the machine off, in quiet hours and in busy ones, by a qualified person",
        entry.field if entry else None,
        entry.text if entry else None,
    )
    sentence = f"{read}, but the meter's band reaches back over it."
    plain = "Too close to the edge for this meter to say."
    return Finding("idle-volts", placed.verdict, sentence, plain, SETTLE_SUPPLY, limit, decider)


# --- the cord's own loop ----------------------------------------------------------------------------


def loop_ratio(case: Case) -> Span | None:
    """The measured loop of the cord over the calculated one; None where either is missing."""
    if case.cord_measured is None or "cord" not in case.wires:
        return None
    return Span.read(case.cord_measured).times(1.0 / case.wires["cord"].loop.real)


def place_loop(ratio: Span, standards: InForce) -> Placement:
    """The ratio against its limit."""
    return judge(ratio.value, ratio.low, ratio.high, standards.limit("drop.loop_ratio"))


def bad_joint(case: Case, standards: InForce) -> bool:
    """Whether the cord is out of use, by its own loop, whatever else is found."""
    ratio = loop_ratio(case)
    return ratio is not None and place_loop(ratio, standards).verdict is Verdict.OUTSIDE


def loop_finding(case: Case, ratio: Span, entered: Entered, standards: InForce) -> Finding:
    """Whether the cord has a joint that its size and length do not explain."""
    limit = standards.limit("drop.loop_ratio")
    placed, too_short = place_loop(ratio, standards), ratio.value < 1.0 / limit.value
    measured, calculated = entered.needed("cord_loop"), case.wires["cord"].loop.real
    read = (
        f"The cord's loop reads {quantity(measured, 'ohm', 3)}, {rounded(ratio.value, 2)} times the "
        f"{quantity(calculated, 'ohm', 3)} of its size and length"
    )
    if too_short:
        return _too_few_ohms(f"{read}: far less than size and length say. No verdict on its joints.", limit)
    if placed.verdict is Verdict.WITHIN:
        words = "not shown abnormal" if placed.crossing else "not more than size and length explain"
        plain = "No bad joint shows in the ohms. Feel both plugs after a run all the same."
        return Finding("cord-loop", placed.verdict, f"{read}: {words}.", plain, LOOK_AT_PATH, limit)
    if placed.verdict is Verdict.OUTSIDE:
        sentence = f"{read}: more than {limit.text} times. A joint, a plug or a broken strand holds the rest."
        plain = "A bad joint gets hot under load. The cord stays unplugged until the joint is found."
        return Finding("cord-loop", placed.verdict, sentence, plain, UNPLUG_CORD, limit, stop=True)
    sentence = f"{read}, from {ends(ratio, 'ratio', 2)}: not tellable against {limit.text}."
    plain = "The meter is too coarse to tell a bad joint from its own error."
    decider = _loop_decider(entered, standards)
    return Finding("cord-loop", placed.verdict, sentence, plain, LOOK_AT_PATH, limit, decider)


def _too_few_ohms(sentence: str, limit: Limit) -> Finding:
    """A loop that cannot be so small: its size, length or reading is wrong, and a bad joint can hide in that."""
    plain = "Its size, its length or the shorting plug is not what was taken. A bad joint can hide behind that."
    decider = Decider(
        "The cord's length, one way, its size, and the loop once more",
        "0.1 m; as printed on the jacket; 0.01 ohm",
        "unplugged at both ends, the shorting plug at the far end, leads subtracted",
        "cord_length",
    )
    return Finding("cord-loop", Verdict.UNDECIDED, sentence, plain, LOOK_AT_PATH, limit, decider)


def _loop_decider(entered: Entered, standards: InForce) -> Decider:
    def verdict_of(changed: Entered) -> Verdict:
        again = loop_ratio(case_of(changed, standards))
        return place_loop(again, standards).verdict if again else Verdict.UNDECIDED

    entry = first_that_decides(finer(entered, "loop_meter"), verdict_of)
    return Decider(
        "The cord's loop, shorted at the far end",
        entry.text if entry else "0.001 ohm on a four-wire meter",
        "unplugged at both ends, leads subtracted, plug pins clean",
        entry.field if entry else None,
        entry.text if entry else None,
    )
