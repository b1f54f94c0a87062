"""Is the overload whole, and did it do its work?

Takes the dead reading of an overload outside the shell, the pattern of the three pairs for one inside it, and what it
did by itself. Nothing is condemned hot: an open contact is judged only cold, at rest for as long as the limits ask,
and read twice. Says nothing about why the motor drew its amps or got hot, and never that a closed contact would open.

Sources: ceilings of 140 % and 156 % of rated-load amps from NEC 440.52; cooling by Newton's law with a time constant of
common practice; all times to trip and to close again are common practice or memory.
Valid for the bimetal protectors of small single-phase hermetic motors.

Where things are: inputs asks; contact reads a part outside the shell, pattern one inside it, cooling estimates when a
cold reading is possible; stalled and running judge what it did, reset how it closed again; live holds what these share,
deciders says what would decide them.
"""

from __future__ import annotations

import math

from calculators.contract import Calculator, Example, Outcome
from calculators.findings import Finding, NextStep, Verdict
from calculators.inputs import Entered, Typed
from calculators.limits import InForce
from calculators.overload_check.contact import contact_part
from calculators.overload_check.cooling import cooling_part
from calculators.overload_check.deciders import HERE
from calculators.overload_check.inputs import INPUTS
from calculators.overload_check.live import amps_of
from calculators.overload_check.pattern import pattern_part
from calculators.overload_check.reset import reset_part
from calculators.overload_check.running import ceilings, running_part
from calculators.overload_check.stalled import stalled_part
from calculators.parts import Missing, Part, decider_of, joined

_INSIDE_ONLY = {
    "common_run_ohms": "common to run",
    "common_start_ohms": "common to start",
    "run_start_ohms": "run to start",
    "shell_temperature": "shell temperature",
    "hours_cool": "time the shell has been cool",
    "winding_temperature": "winding temperature",
}
_OUTSIDE_ONLY = {
    "contact_ohms": "across the contact",
    "heater_ohms": "across the heater",
    "part_temperature": "temperature of the part",
    "trip_shell_temperature": "shell temperature when it tripped",
}


def evaluate(entered: Entered, standards: InForce) -> Outcome:
    """Everything that can be said of the overload from what was entered."""
    amps_of(entered)
    inside = entered.choice("kind") == "internal"
    parts = [pattern_part(entered, standards), cooling_part(entered, standards)] if inside else []
    parts += [] if inside else [contact_part(entered, standards), _marking(entered)]
    seen = entered.choice("seen")
    if seen.startswith("stalled"):
        parts.append(stalled_part(entered, standards))
    elif seen:
        parts.append(running_part(entered, standards))
    parts += [reset_part(entered, standards), ceilings(entered, standards)]
    whole = joined(parts)
    findings = whole.findings or (_nothing(inside),)
    return Outcome(
        whole.results,
        tuple(sorted(findings, key=lambda one: not one.stop)),
        whole.working,
        whole.figures,
        (*whole.notes, *_notes(entered, inside)),
    )


def _nothing(inside: bool) -> Finding:
    field, reading = ("common_run_ohms", "The three pairs of pins") if inside else ("contact_ohms", "The contact")
    return Finding(
        "overload",
        Verdict.UNDECIDED,
        "Nothing was read yet: nothing is judged.",
        "Read it dead first. What it did by itself comes second.",
        NextStep("Read the overload dead, as the page says.", HERE),
        decider=decider_of(reading, "any meter that has been proved", [Missing("dead, off the pins", field)]),
    )


def _marking(entered: Entered) -> Part:
    if entered.choice("marking") != "differs":
        return Part()
    finding = Finding(
        "marking",
        Verdict.OUTSIDE,
        "The part is not the one that the motor's list names: it is not known to protect this motor.",
        "One that is too large lets the motor burn, one that is too small trips a good motor.",
        NextStep("Keep it unplugged; fit the part that the motor's list names.", HERE),
        stop=True,
    )
    return Part((finding,))


def _notes(entered: Entered, inside: bool) -> tuple[str, ...]:
    notes = []
    unused = [words for field, words in (_OUTSIDE_ONLY if inside else _INSIDE_ONLY).items() if field in entered.numbers]
    if unused:
        notes.append(f"Not used for an overload {'inside' if inside else 'outside'} the shell: {', '.join(unused)}.")
    ohms = ("contact_ohms", "heater_ohms", *(list(_INSIDE_ONLY)[:3]))
    finite = [field for field in ohms if field in entered.numbers and not math.isinf(entered.needed(field))]
    if entered.number("lead") is None and finite:
        notes.append("The test leads were not entered: readings may be too high by what the shorted probes show.")
    notes.append("An overload is never bridged to see whether the motor runs.")
    return tuple(notes)


def _typed(**texts: str) -> dict[str, Typed]:
    return {name: Typed(text) for name, text in texts.items()}


EXAMPLES = (
    Example(
        "internal-hot",
        "Common open on a shell of 90 °C in a room of 25 °C: when is a cold reading possible?",
        "derived",
        _typed(
            kind="internal",
            common_run_ohms="OL",
            common_start_ohms="OL",
            run_start_ohms="21",
            lead="0",
            shell_temperature="90",
            room_temperature="25",
            hours_rest="0.2",
        ),
    ),
    Example(
        "open-cold",
        "An overload outside the shell reads OL, cold, rested and twice",
        "common-practice",
        _typed(contact_ohms="OL", part_temperature="22", hours_rest="1", repeated="yes"),
    ),
    Example(
        "tripped-at-standstill",
        "LRA 13 A at 115 V: hummed at 12.0 A and 108 V, tripped after 8 s",
        "common-practice",
        _typed(
            seen="stalled_trip",
            contact_ohms="0.2",
            lead="0.1",
            trip_time="8",
            trip_amps="12.0",
            trip_volts="108",
            plate_volts="115",
            locked_rotor_amps="13",
        ),
    ),
    Example(
        "ceilings",
        "Rated-load 2.0 A, and it runs on at 3.3 A for 25 minutes",
        "nec-440-52",
        _typed(seen="runs_on", rated_load_amps="2.0", trip_amps="3.3", trip_time="25 min"),
    ),
    Example(
        "trips-without-cause",
        "Trips at 1.55 A where 1.6 A is expected, shell at 62 °C, volts right",
        "common-practice",
        _typed(
            seen="running_trip",
            trip_time="4 min",
            trip_amps="1.55",
            expected_amps="1.6",
            expected_band="10",
            trip_volts="118",
            plate_volts="115",
            trip_shell_temperature="62",
        ),
    ),
)

CALCULATOR = Calculator(
    slug="overload-check",
    title="Overload, cold and hot",
    question="Is the overload whole, and did it do its work?",
    purpose="Judges an overload by its cold reading and by what it did, and says when a hot one can be read cold.",
    does_not_tell="It does not say why the motor got hot, nor that an overload that is closed would open in time.",
    level="helper",
    inputs=INPUTS,
    evaluate=evaluate,
    examples=EXAMPLES,
    limits=(
        "overload.contact_ohms",
        "overload.external_cold",
        "overload.external_rest",
        "windings.cool_shell_temperature",
        "windings.cool_hours",
        "windings.rest_hours",
        "overload.cooling",
        "overload.cooling_least",
        "overload.cooling_most",
        "overload.trip_soonest",
        "overload.trip_latest",
        "overload.stalled_least",
        "overload.trip_shell",
        "overload.trip_winding",
        "overload.relay_ceiling",
        "overload.integral_ceiling",
        "overload.reset_external_least",
        "overload.reset_internal_least",
        "amps.high_ratio",
        "amps.run_settle_minutes",
        "amps.start_over",
        "supply.low",
        "supply.high",
    ),
    sources=(
        "common-practice",
        "derived",
        "trade-memory",
        "jcgm-100",
        "nec-440-52",
        "iec-60335-2-34",
    ),
    hazards=(
        "electric-shock",
        "hot-surfaces",
        "unexpected-restart",
        "terminal-venting",
        "stored-charge",
        "flammable-refrigerant",
    ),
    search_words=(
        "overload protector",
        "thermal protector",
        "bimetal",
        "trips on overload",
        "open overload",
        "internal overload",
        "how long to cool",
        "reset",
    ),
)
