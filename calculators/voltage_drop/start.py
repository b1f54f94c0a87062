"""Whether a motor gets the volts it needs to start.

The limits condemn a cord or a circuit, so `outside` needs the whole band outside. A start can only be passed when idle
volts, source resistance and branch circuit are all known: each one that is missing can only lower the volts, or leaves
them open. `outside` stands without them.
"""

from __future__ import annotations

from dataclasses import dataclass

from calculators.contract import quantity, rounded
from calculators.findings import Decider, Finding, NextStep, Placement, Verdict, judge, judge_pair
from calculators.inputs import Entered
from calculators.limits import InForce
from calculators.voltage_drop.case import Case, Starting, case_of
from calculators.voltage_drop.deciders import (
    SETTLE_SUPPLY,
    TO_SUPPLY,
    cord_or_circuit,
    ends,
    finer,
    first_that_decides,
    supply_fits,
)

_TO_MACHINE = NextStep("Low volts do not explain a failed start: go on to the machine, dead.", "make-safe-prove-dead")


@dataclass(frozen=True)
class OpenQuestion:
    """Something without which a start cannot be passed: what to say, and what would decide."""

    sentence: str
    decider: Decider


def place_starting(case: Case, starting: Starting, standards: InForce) -> Placement:
    """The volts at the start against their limits; never passed while something that could lower them is unknown."""
    warn, fail = standards.limit("start_volts.warn"), standards.limit("start_volts.min")
    percent = starting.percent
    if complete(case):
        return judge_pair(percent.value, percent.low, percent.high, warn=warn, fail=fail)
    failed = judge(percent.value, percent.low, percent.high, fail)
    return failed if failed.verdict is Verdict.OUTSIDE else Placement(Verdict.UNDECIDED, crossing=True)


def complete(case: Case) -> bool:
    """Whether everything that can lower the volts at the start is in the case."""
    return case.idle_measured and case.source is not None and case.source.resolved and case.branch_counted


def starting_finding(case: Case, starting: Starting, entered: Entered, standards: InForce) -> Finding:
    """Whether the motor gets the volts it needs to start."""
    warn, fail = standards.limit("start_volts.warn"), standards.limit("start_volts.min")
    placed = place_starting(case, starting, standards)
    got = _got(case, starting)
    limit, decider = warn, None
    if placed.verdict is Verdict.WITHIN:
        words = f"not shown short of {warn.text}" if placed.crossing else f"{warn.text} or more"
        sentence, plain, step = f"{got}: {words}.", "Enough volts to start on.", _TO_MACHINE
        if not supply_fits(case, standards):
            plain, step = "Not short of volts, but the supply does not fit the plate.", SETTLE_SUPPLY
    elif placed.verdict is Verdict.WATCH:
        reach = f" The band reaches below {fail.text}." if placed.crossing else ""
        sentence = f"{got}: between {fail.text} and {warn.text}.{reach}"
        plain = "It may start or may not. What counts is whether it starts every time out of three, rested in between."
        step = _path_or_supply(case, standards)
    elif placed.verdict is Verdict.OUTSIDE:
        sentence = f"{got}: below {fail.text}, with the whole band. Do not judge the compressor on this supply."
        torque = rounded((starting.percent.value / 100.0) ** 2, 2)
        plain = f"Too little to start on: {torque} of the torque is left. It hums, heats and trips."
        step, limit = _path_or_supply(case, standards), fail
    else:
        question = _question(case, entered, standards)
        sentence = f"{got}, somewhere from {ends(starting.percent, 'percent', 1)}: not tellable. {question.sentence}"
        plain = "Neither pass nor blame the path on this figure alone."
        step = TO_SUPPLY if supply_fits(case, standards) else SETTLE_SUPPLY
        decider = question.decider
    return Finding("start-volts", placed.verdict, sentence, plain, step, limit, decider)


def _path_or_supply(case: Case, standards: InForce) -> NextStep:
    """Along the path, unless the volts are off before the path begins."""
    return cord_or_circuit(case) if supply_fits(case, standards) else SETTLE_SUPPLY


def _got(case: Case, starting: Starting) -> str:
    only_lower = case.idle_measured and (case.source is None or not case.branch_counted)
    most = "at most " if only_lower else ""
    volts, share = quantity(starting.volts.value, "V", 1), quantity(starting.percent.value, "percent", 1)
    return f"At the start the machine gets {most}{volts}, {share} of its plate"


def _question(case: Case, entered: Entered, standards: InForce) -> OpenQuestion:
    """The first thing that stands between the figure and a verdict, in the order in which it is measured."""
    resolution = f"{entered.meters['voltmeter'].resolution:g} V"
    if not case.idle_measured:
        return OpenQuestion(
            "Nobody has measured the idle volts.",
            Decider(
                "Idle volts at the outlet", resolution, "with the machine off, right before the start", "idle_volts"
            ),
        )
    if case.source is None:
        return OpenQuestion(
            "The supply's own resistance is not in it and can only lower the volts.",
            Decider(
                "Volts at the outlet with a known load on, and its amps",
                resolution,
                "a kettle or an iron on the same outlet, right after the idle reading, by a qualified person",
                "loaded_volts",
            ),
        )
    if not case.branch_counted:
        return OpenQuestion(
            "The branch circuit is not in it and can only lower the volts.",
            Decider(
                "Size and length of the branch circuit",
                "1 m",
                "from panel to outlet; or both source readings at the outlet instead",
                "branch_conductor",
            ),
        )
    if not case.source.resolved:
        return _small_difference(case.source.difference or 0.0, entered, standards)
    return _crossing(entered, standards)


def _small_difference(difference: float, entered: Entered, standards: InForce) -> OpenQuestion:
    """The known load moved the display by too few steps to say how stiff the supply is."""
    resolution, least = entered.meters["voltmeter"].resolution, standards.value("drop.least_steps")
    entry = first_that_decides(finer(entered, "voltmeter"), lambda changed: _verdict(changed, standards))
    amps = entered.needed("load_amps")
    bigger = quantity(amps * least * resolution / difference, "A", 1) if difference > 0.0 else "many times these amps"
    return OpenQuestion(
        f"The known load moved the volts by {difference:.3g} V, less than {least:g} steps of the display.",
        Decider(
            "Idle volts and volts with a known load",
            entry.text if entry else f"finer than {resolution:g} V",
            f"or the same meter with a bigger load, {bigger} or more, such as a kettle or an iron",
            entry.field if entry else None,
            entry.text if entry else None,
        ),
    )


def _crossing(entered: Entered, standards: InForce) -> OpenQuestion:
    """Everything is known, but the band of the meters lies across a limit."""
    display = finer(entered, "voltmeter", "clamp", "loop_meter")
    entry = first_that_decides(display, lambda changed: _verdict(changed, standards))
    return OpenQuestion(
        "The band of the meters lies across the limit.",
        Decider(
            entry.reading if entry else "Least volts at the machine's plug while it starts",
            entry.text if entry else "0.1 V on a MIN/MAX meter that catches 100 ms",
            "read by a qualified person, machine rested; a bigger known load also narrows the source resistance",
            entry.field if entry else None,
            entry.text if entry else None,
        ),
    )


def _verdict(entered: Entered, standards: InForce) -> Verdict:
    case = case_of(entered, standards)
    starting = case.starting
    return place_starting(case, starting, standards).verdict if starting else Verdict.UNDECIDED
