"""Does this motor take the amps of a rotor that stands still, and is it locked?

Use after every dead test is good and the supply is cleared. Says nothing about why a rotor stands still; never condemns
a motor by its amps alone, below enough volts, without current in the start lead, or without the plate's own figure.

Sources: the window, the attempts and the volts from common practice; code letters from NEC Table 430.7(B), currents
for disconnects from NEC Table 430.251(A), shown and never judged by; heating from the properties of copper.
Valid for single-phase motors; no amps are judged on the wrong frequency. I = LRA x U / Un; by code letter
kVA per hp x hp x 1000 / V.

Where things are: inputs asks, case puts one motor together and refuses, placing compares, attempts judges what was
read, rotor concludes, heating gives the heat, account shows the arithmetic, notes says what goes with it, drawing
draws.
"""

from __future__ import annotations

from calculators.contract import Calculator, Example, Outcome
from calculators.findings import Finding
from calculators.inputs import Entered, Typed
from calculators.limits import InForce
from calculators.locked_rotor.account import results, working
from calculators.locked_rotor.attempts import amps_finding, attempts_finding, start_lead_finding, volts_finding
from calculators.locked_rotor.case import Case, case_of
from calculators.locked_rotor.drawing import amps_picture
from calculators.locked_rotor.inputs import CODE_LETTERS, INPUTS, SINGLE_PHASE
from calculators.locked_rotor.notes import notes
from calculators.locked_rotor.rotor import rotor_finding


def evaluate(entered: Entered, standards: InForce) -> Outcome:
    """What the motor should take while it stands still, what it took, and what that says about the rotor."""
    case = case_of(entered, standards)
    return Outcome(
        tuple(results(case)), _findings(case), tuple(working(case)), tuple(amps_picture(case)), tuple(notes(case))
    )


def _findings(case: Case) -> tuple[Finding, ...]:
    amps = [amps_finding(case, attempt) for attempt in case.attempts]
    found = [rotor_finding(case), attempts_finding(case), volts_finding(case), *amps, start_lead_finding(case)]
    return tuple(one for one in found if one is not None)


def _typed(**texts: str) -> dict[str, Typed]:
    return {name: Typed(text) for name, text in texts.items()}


_READY = {"dead_tests": "good", "pressures": "equal", "start_lead": "seen", "turned": "no", "longest_attempt": "3"}

EXAMPLES = (
    Example(
        "locked-on-low-volts",
        "LRA 24 A at 115 V; 19.5 A measured at 95 V",
        "common-practice",
        _typed(plate_volts="115", locked_rotor_amps="24", stalled_amps="19.5", stalled_volts="95", **_READY),
    ),
    Example(
        "twice-and-no-turn",
        "LRA 21 A at 115 V; 19.6 A at 110 V, twice, 5 minutes apart",
        "common-practice",
        _typed(
            plate_volts="115",
            locked_rotor_amps="21",
            stalled_amps="19.6",
            stalled_volts="110",
            second_amps="19.6",
            second_volts="110",
            rest_between="5",
            **_READY,
        ),
    ),
    Example(
        "code-letter",
        "What 1/2 hp, 115 V and code letter L come to",
        "nec-430-7-b",
        _typed(plate_volts="115", code_letter="L", horsepower="1/2"),
    ),
    Example(
        "start-circuit-open",
        "Only the run winding draws, and the start lead shows nothing",
        "common-practice",
        _typed(
            plate_volts="230",
            locked_rotor_amps="12",
            stalled_amps="10.8",
            stalled_volts="224",
            dead_tests="good",
            pressures="equal",
            start_lead="none",
            turned="no",
            longest_attempt="3",
        ),
    ),
)

CALCULATOR = Calculator(
    slug="locked-rotor",
    title="Locked rotor",
    question="Does this motor take the amps of a rotor that stands still, and is it locked?",
    purpose="Works out the locked-rotor amps at the volts of the moment, and weighs what one or two attempts showed.",
    does_not_tell="It does not tell why a rotor stands still, and it condemns nothing by amps alone.",
    level="technician",
    inputs=INPUTS,
    evaluate=evaluate,
    examples=EXAMPLES,
    limits=(
        "locked_rotor.low_ratio",
        "locked_rotor.high_ratio",
        "start_volts.warn",
        "start_volts.min",
        "starting.longest_attempt",
        "starting.most_attempts",
        "starting.rest_between_attempts",
        "supply.low",
        "supply.high",
    ),
    tables=(CODE_LETTERS, SINGLE_PHASE),
    sources=(
        "nec-430-7-b",
        "nec-430-251",
        "iec-60028",
        "jcgm-100",
        "common-practice",
        "derived",
    ),
    hazards=(
        "electric-shock",
        "arc-flash",
        "terminal-venting",
        "stored-charge",
        "flammable-refrigerant",
        "unexpected-restart",
        "hot-surfaces",
    ),
    search_words=(
        "LRA",
        "locked rotor",
        "seized",
        "stuck compressor",
        "code letter",
        "kVA per hp",
        "start current",
        "inrush",
        "hums",
        "stalled",
    ),
)
