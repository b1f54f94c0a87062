"""Open lines between the pins: what they can mean, and when anything may be concluded from them.

An internal overload opens when it is hot, so nothing is concluded before the shell is cold, the readings repeated,
and the pins named by diagram or data (common practice, no source).
"""

from __future__ import annotations

from calculators.contract import Named, Result, quantity
from calculators.findings import Decider, Finding, NextStep, Verdict
from calculators.inputs import Entered
from calculators.limits import InForce
from calculators.pin_drawing import PINS, ROLE_WORDS
from calculators.units import from_base
from calculators.winding_identification.readings import (
    FIELD,
    METALS,
    PAIRS,
    READ_AGAIN,
    Pins,
    diagram_roles,
    resistance_at,
)

COOL = NextStep("Leave it off with a fan on the shell, then read the three pairs again.", "identify-the-windings")


def open_results(pins: Pins) -> tuple[Result | Named, ...]:
    """The pairs that still conduct."""
    finite = [pair for pair in PAIRS if pair not in pins.opens]
    return tuple(
        Result(
            FIELD[a, b],
            f"Pin {a} to pin {b}",
            pins.ohms[a, b],
            "ohm",
            2,
            f"There is a path between pin {a} and pin {b}.",
            pins.reading((a, b)).low,
            pins.reading((a, b)).high,
        )
        for a, b in finite
    )


def open_lines(entered: Entered, pins: Pins, standards: InForce) -> Finding:
    """What one, two or three open pairs mean: never more than the pins, the cold and the names allow."""
    if len(pins.opens) == 1:
        a, b = pins.opens[0]
        third = next(pin for pin in PINS if pin not in (a, b))
        return Finding(
            "open line",
            Verdict.UNDECIDED,
            f"{a}–{b} reads open, yet both pins read through to pin {third}: the readings contradict each other.",
            "If current can get from one pin to the middle one and on to the other, it can get all the way. One reading"
            " is wrong.",
            READ_AGAIN,
            decider=Decider(
                f"Reading {a}–{b}", "any", "probes on bright metal, a range that shows the sum of the other two"
            ),
        )
    isolated = (
        next((pin for pin in PINS if all(pin in pair for pair in pins.opens)), None) if len(pins.opens) == 2 else None
    )
    role = _role_of_isolated(entered, pins, isolated, standards) if isolated else None
    seen = _what_is_open(pins, isolated)
    missing = _not_cold(entered, standards)
    if missing:
        whole = (
            " The windings between run and start are whole; an internal overload that is open while hot is doing its"
            " job."
            if role == "C"
            else ""
        )
        return Finding(
            "open line",
            Verdict.UNDECIDED,
            f"{seen} That is not yet a cold reading.{whole}",
            "An overload inside the shell opens when hot and closes again by itself. Nobody can tell it from a broken"
            " winding until it is cold.",
            COOL,
            decider=Decider("all three pairs", "any", missing),
        )
    if entered.choice("repeated") != "yes":
        # Said here, it decides at once only where the pin has its name, or where no pair reads at all.
        named = isolated is None or role is not None
        return Finding(
            "open line",
            Verdict.UNDECIDED,
            f"{seen} It has been read once only.",
            "A dirty pin or a dead probe reads open too.",
            READ_AGAIN,
            decider=Decider(
                "all three pairs",
                "any",
                "clean pins, other probes, meter proved on a known resistor; then say so here"
                + ("" if named else ", and get the pin names from the machine's own diagram"),
                "repeated" if named else None,
                "yes" if named else None,
            ),
        )
    return _cold_open(pins, isolated, role, seen)


def _cold_open(pins: Pins, isolated: str | None, role: str | None, seen: str) -> Finding:
    record = NextStep(
        "Write the readings down with time, shell temperature and meter; a second person repeats them before anything"
        " is condemned.",
        "record-and-report",
    )
    if isolated is None:
        return Finding(
            "open line",
            Verdict.OUTSIDE,
            f"{seen} Cold, repeated: more than one path is open, or a two-pole protector inside has failed.",
            "No path is left between any two pins. This motor cannot run.",
            record,
        )
    if role is None:
        return Finding(
            "open line",
            Verdict.UNDECIDED,
            f"{seen} By ohms alone nobody can say which winding ends at pin {isolated}.",
            "Only the pin is known, not its name. Get the name from the machine's diagram or its data sheet, never from"
            " where the pin sits.",
            READ_AGAIN,
            decider=Decider(
                "the pin names",
                "not a matter of the meter",
                "the machine's own diagram, or data-sheet ohms that fit one winding only",
                "diagram",
                None,
            ),
        )
    sentence = {
        "C": "common is open: the internal overload has failed or the lead to common is broken",
        "R": "the run winding is open",
        "S": "the start winding is open",
    }[role]
    return Finding(
        "open line",
        Verdict.OUTSIDE,
        f"{seen} Cold, repeated, pin {isolated} is {ROLE_WORDS[role]}: {sentence}.",
        "This part of the motor no longer conducts. It cannot be mended from outside the shell.",
        record,
    )


def _what_is_open(pins: Pins, isolated: str | None) -> str:
    if isolated is None:
        return "All three pairs read open."
    a, b = next(pair for pair in PAIRS if pair not in pins.opens)
    return f"Pin {isolated} reads open to both other pins; {a}–{b} reads {quantity(pins.ohms[a, b], 'ohm', 2)}."


def _not_cold(entered: Entered, standards: InForce) -> str:
    """What is missing before open lines may be judged; empty when nothing is."""
    cool, rest = standards.limit("windings.cool_hours"), standards.limit("windings.rest_hours")
    shell = standards.limit("windings.cool_shell_temperature")
    temperature, band = entered.number("shell_temperature"), entered.needed("thermometer_band")
    hours_cool, hours_rest = entered.number("hours_cool"), entered.number("hours_rest")
    cold = (
        temperature is not None
        and temperature + band <= shell.value
        and hours_cool is not None
        and from_base(hours_cool, "h") >= cool.value
        and hours_rest is not None
        and from_base(hours_rest, "h") >= rest.value
    )
    return (
        ""
        if cold
        else (
            f"shell measured below {shell.text} for {cool.text}, and {rest.text} since the last run or trip; "
            "enter the temperature and both times"
        )
    )


def _role_of_isolated(entered: Entered, pins: Pins, isolated: str, standards: InForce) -> str | None:
    """The name of the isolated pin by the machine's diagram, else by data that only one winding fits."""
    by_diagram = diagram_roles(entered).get(isolated)
    if by_diagram:
        return by_diagram
    run, start, temperature = (
        entered.number("data_run"),
        entered.number("data_start"),
        entered.number("shell_temperature"),
    )
    if run is None or start is None or temperature is None:
        return None
    pair = next(one for one in PAIRS if one not in pins.opens)
    zero = METALS[entered.choice("metal")]
    measured = resistance_at(pins.ohms[pair], temperature, entered.needed("data_temperature"), zero)
    tolerance = standards.value("windings.data_tolerance") / 100.0
    band = measured * pins.reading(pair).relative_band
    off = {
        role: (abs(measured - data), data * tolerance) for role, data in (("S", run), ("R", start), ("C", run + start))
    }
    possible = [role for role, (miss, room) in off.items() if miss <= room + band]
    fits = [role for role in possible if off[role][0] <= off[role][1]]
    return fits[0] if fits and len(possible) == 1 else None
