"""Is the supply good enough for this machine: idle, in the moment of the start, and while it runs?

Use before anything is opened. Says nothing about how good the earth is, about the compressor, or about a dip that no
meter held. Judges no volts on the wrong frequency.

Sources: supply limits from NEMA MG 1, 12.44; limits of the start, of neutral to earth and of the meter's hold from
common practice; what a system is meant to deliver from ANSI C84.1 and EN 50160 (background).
Valid for one phase, fixed-speed motors, 50 or 60 Hz. Torque goes with the square of the volts; the stalled motor is a
fixed impedance: U0 / (1 + R x LRA / Un), the source resistance R from two loads.

Where things are: inputs asks, case puts one supply together and refuses, placing compares, earth and volts and system
judge, account shows the arithmetic, notes says what goes with it, drawing draws. The arithmetic of source and start is
that of voltage_drop.
"""

from __future__ import annotations

from calculators.contract import Calculator, Example, Outcome
from calculators.findings import Finding
from calculators.inputs import Entered, Typed
from calculators.limits import InForce
from calculators.supply_check.account import results, working
from calculators.supply_check.case import Case, case_of
from calculators.supply_check.drawing import volts_figure
from calculators.supply_check.earth import earth_finding, neutral_finding
from calculators.supply_check.inputs import INPUTS
from calculators.supply_check.notes import notes
from calculators.supply_check.system import frequency_finding, system_finding
from calculators.supply_check.volts import (
    idle_finding,
    predicted_finding,
    running_finding,
    second_finding,
    start_finding,
)


def evaluate(entered: Entered, standards: InForce) -> Outcome:
    """The volts against plate, system and limits, the outlet's earth, and what the start gets."""
    case = case_of(entered, standards)
    return Outcome(
        tuple(results(case)), _findings(case), tuple(working(case)), (volts_figure(case),), tuple(notes(case))
    )


def _findings(case: Case) -> tuple[Finding, ...]:
    frequency = frequency_finding(case)
    found = [frequency or system_finding(case), earth_finding(case)]
    if frequency is None:
        found += [
            idle_finding(case),
            start_finding(case),
            second_finding(case),
            predicted_finding(case),
            running_finding(case),
        ]
    found.append(neutral_finding(case))
    return tuple(one for one in found if one is not None)


def _typed(**texts: str | tuple[str, str]) -> dict[str, Typed]:
    return {name: Typed(text) if isinstance(text, str) else Typed(*text) for name, text in texts.items()}


EXAMPLES = (
    Example(
        "dip-at-the-start",
        "A 115 V fridge: 121 V idle, 92 V in the moment of the start",
        "common-practice",
        _typed(
            plate_volts="115",
            system_volts="120",
            idle_volts="121",
            line_earth_volts="120.6",
            neutral_earth_idle="0.4",
            lowest_volts="92",
            hold_time="100",
        ),
    ),
    Example(
        "two-places",
        "A 230 V freezer on a long cord, then straight at the wall",
        "derived",
        _typed(
            plate_volts="230",
            system_volts="230",
            idle_volts="231",
            line_earth_volts="230.7",
            neutral_earth_idle="0.3",
            lowest_volts="194",
            hold_time="50",
            second_lowest_volts="214",
            second_place="wall",
            running_volts="228",
            neutral_earth_running="1.2",
        ),
    ),
    Example(
        "edge-of-the-system",
        "A 230 V plate on a 208 V system",
        "nema-mg-1-12-44",
        _typed(plate_volts="230", system_volts="208", idle_volts="209", polarity="two_lines"),
    ),
    Example(
        "ordinary-pair",
        "A 115 V plate on a 120 V system, all read and in order",
        "ansi-c84-1",
        _typed(
            plate_volts="115",
            plate_frequency="60",
            supply_frequency="60",
            system_volts="120",
            idle_volts="120",
            line_earth_volts="119.8",
            neutral_earth_idle="0.3",
            lowest_volts="110",
            hold_time="100",
            running_volts="118.5",
            neutral_earth_running="1.1",
        ),
    ),
    Example(
        "stiffness-from-two-loads",
        "Two loads foretell the start: 229 V idle, 226.5 V at 1.1 A, start amps 12",
        "derived",
        _typed(
            plate_volts="230",
            idle_volts="229",
            loaded_volts="226.5",
            load_amps="1.1",
            start_amps="12",
            voltmeter_resolution="0.01",
        ),
    ),
)

CALCULATOR = Calculator(
    slug="supply-check",
    title="Supply check",
    question="Is the supply good enough for this machine: idle, at the start, and while it runs?",
    purpose="Clears or blames the supply before anything is opened, and foretells the start from two loads.",
    does_not_tell="It does not tell how good the earth is, and it does not see a dip that no meter held.",
    level="technician",
    inputs=INPUTS,
    evaluate=evaluate,
    examples=EXAMPLES,
    limits=(
        "supply.low",
        "supply.high",
        "start_volts.warn",
        "start_volts.min",
        "start_volts.hold_time",
        "supply.neutral_to_earth_idle",
        "supply.neutral_to_earth_running",
        "supply.utility_120_low",
        "supply.utility_120_high",
        "supply.utility_230_low",
        "supply.utility_230_high",
        "drop.least_steps",
    ),
    sources=("nema-mg-1-12-44", "ansi-c84-1", "en-50160", "jcgm-100", "common-practice", "derived"),
    hazards=("electric-shock", "arc-flash", "unexpected-restart", "flammable-refrigerant"),
    search_words=(
        "low voltage",
        "outlet",
        "brownout",
        "dip",
        "lights dim",
        "polarity",
        "neutral to earth",
        "plate voltage",
        "208 230",
        "source resistance",
        "hums",
    ),
)
