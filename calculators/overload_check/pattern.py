"""An overload inside the shell, read through the three pairs of pins: is common open, and may that be called failed?

It opens on the heat of the copper and closes by itself when the copper has cooled, long after the shell feels cool.
So an open common is no fault before the shell has been cool and at rest for as long as the limits ask.
"""

from __future__ import annotations

import math

from calculators.contract import Named, Result, Step, quantity
from calculators.findings import Finding, NextStep, Verdict
from calculators.inputs import Entered, Problem, RefusedError
from calculators.limits import InForce
from calculators.nulling import nulled
from calculators.overload_check.deciders import HERE
from calculators.parts import Missing, Part, decider_of
from calculators.readings import Reading

PAIRS = (
    ("common_run_ohms", "Common to run"),
    ("common_start_ohms", "Common to start"),
    ("run_start_ohms", "Run to start"),
)
_COOL = NextStep("Leave it off with a fan on the shell, then read the three pairs again.", HERE)
_WINDINGS = NextStep("Name the pins and read the three pairs again.", "identify-the-windings")
_RECORD = NextStep("Write the readings down; a second person repeats them before anything is condemned.", HERE)
_ANY = "any meter that has been proved"


def pattern_part(entered: Entered, standards: InForce) -> Part:
    """What the three pairs say of the overload between the common pin and the windings."""
    given = [field for field, _ in PAIRS if field in entered.numbers]
    if not given:
        return Part()
    if len(given) < len(PAIRS):
        raise RefusedError(
            *(
                Problem(field, f"{label}: the pattern needs all three pairs. Enter this one too, or clear the others.")
                for field, label in PAIRS
                if field not in given
            )
        )
    meter = entered.meters["ohmmeter"]
    readings = {field: nulled(entered, field, label, entered.needed(field), meter) for field, label in PAIRS}
    results = tuple(_result(field, label, readings[field]) for field, label in PAIRS)
    shown = ", ".join(f"{label.lower()} {quantity(readings[field].value, 'ohm', 2)}" for field, label in PAIRS)
    finding, meaning = _finding(entered, standards, readings)
    working = (Step("Pattern of the three pairs", "which pairs have a path", shown, meaning, "common-practice"),)
    return Part((finding,), results, working)


def not_cold(entered: Entered, standards: InForce) -> tuple[Missing, ...]:
    """What is missing before an open line may be judged: cool now, cool long enough, at rest long enough."""
    shell, cool = standards.limit("windings.cool_shell_temperature"), standards.limit("windings.cool_hours")
    rest, band = standards.limit("windings.rest_hours"), entered.needed("thermometer_band")
    temperature = entered.number("shell_temperature")
    found = []
    if temperature is None or temperature + band > shell.value:
        found.append(
            Missing(
                f"the shell measured at {shell.text} or less with the thermometer's band",
                "shell_temperature",
                f"{math.floor(shell.value - band)} °C",
            )
        )
    for field, limit, words in (
        ("hours_cool", cool, "for the shell to have been that cool"),
        ("hours_rest", rest, "since the last run or trip"),
    ):
        hours = entered.number(field)
        if hours is None or hours < 3600.0 * limit.value:
            found.append(Missing(f"{limit.text} or more {words}", field, f"{limit.value:g} h"))
    return tuple(found)


def _result(field: str, label: str, reading: Reading) -> Result | Named:
    if reading.open_line:
        return Named(field, label, "OL", "No path between these two pins when they were read.")
    plain = "There is a path between these two pins."
    return Result(field, label, reading.value, "ohm", 2, plain, max(reading.low, 0.0), reading.high)


def _finding(entered: Entered, standards: InForce, readings: dict[str, Reading]) -> tuple[Finding, str]:
    opens = tuple(field for field, _ in PAIRS if readings[field].open_line)
    limit = standards.limit("windings.cool_shell_temperature")
    if not opens:
        sentence = "All three pairs have a path: the overload inside the shell is closed."
        plain = "It lets current through now. That does not show that it opens at the right heat."
        step = NextStep("Check that the three readings add up, and name the pins.", "identify-the-windings")
        return Finding("overload", Verdict.WITHIN, sentence, plain, step, limit), "closed"
    if len(opens) == 1:
        return _contradiction(opens[0]), "contradiction"
    if "run_start_ohms" in opens and len(opens) == 2:
        return _a_winding(readings), "a winding, not the overload"
    return _open_common(entered, standards, readings, both=len(opens) == 2), "common open"


def _contradiction(field: str) -> Finding:
    label = dict(PAIRS)[field]
    return Finding(
        "overload",
        Verdict.UNDECIDED,
        f"{label} reads open, yet both its pins read through to the third: the readings contradict each other.",
        "If current can get round by the third pin, it can get across. One reading is wrong.",
        _WINDINGS,
        decider=decider_of(
            f"{label}, everything off the pins", _ANY, [Missing("probes on bright metal, a range that fits", field)]
        ),
    )


def _a_winding(readings: dict[str, Reading]) -> Finding:
    run_open = readings["common_run_ohms"].open_line
    whole = "start" if run_open else "run"
    return Finding(
        "overload",
        Verdict.UNDECIDED,
        f"One pin is cut off from the other two, and it is not common: by these names common reads through to {whole}. "
        "That is not how an open overload reads.",
        "The overload sits in the lead to common. With common through, the names of the pins or a winding are in"
        " question.",
        _WINDINGS,
        decider=decider_of(
            "All three pairs",
            _ANY,
            [Missing("pins named from the machine's diagram, read cold, in the check of the windings", "pins_proved")],
        ),
    )


def _open_common(entered: Entered, standards: InForce, readings: dict[str, Reading], *, both: bool) -> Finding:
    limit = standards.limit("windings.cool_shell_temperature")
    cold = not_cold(entered, standards)
    missing = list(cold)
    if entered.choice("repeated") != "yes":
        missing.append(Missing("read again on clean pins, with other probes, meter proved", "repeated", "yes"))
    if both and entered.choice("pins_proved") != "yes":
        missing.append(Missing("the common pin named by the machine's diagram or data", "pins_proved", "yes"))
    seen = "All three pairs read open."
    if both:
        across = quantity(readings["run_start_ohms"].value, "ohm", 2)
        names = "" if entered.choice("pins_proved") == "yes" else "by these names "
        seen = f"Common reads open to run and to start; run to start reads {across}, so {names}both windings are whole."
    if missing:
        why = "that is not yet a cold reading" if cold else "one reading condemns nothing"
        doing = " An overload that is open while hot is doing its work." if cold else ""
        return Finding(
            "overload",
            Verdict.UNDECIDED,
            f"{seen} No verdict: {why}.{doing}",
            "Nobody can tell an overload that is open on heat from one that has failed, until the motor is cold.",
            _COOL if cold else _WINDINGS,
            limit,
            decider_of("All three pairs, everything off the pins", _ANY, missing),
        )
    fault = (
        "the overload inside the shell has failed, or the lead to common is broken"
        if both
        else "more than one path is open, or a protector that cuts both windings has failed"
    )
    return Finding(
        "overload",
        Verdict.OUTSIDE,
        f"{seen} Cold, rested and repeated: {fault}.",
        "It cannot be mended from outside the shell.",
        _RECORD,
        limit,
    )
