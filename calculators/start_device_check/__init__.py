"""Is this start device good: condemned dead, plausible dead, or proved by a start?

Takes current relays, PTCs and potential relays. A dead test condemns, or it leaves the device plausible and undecided;
only a start proves it, and humming accuses it only beside a substitute that starts the same motor on the same supply.
Says nothing about why a motor does not turn when the device is good.

Sources: what the kinds do, their order of figures and every limit are common practice or memory; the part's own data
overrides them wherever it is at hand.
Valid for the start gear of small single-phase hermetic motors, not for electronic boards.

Where things are: inputs asks; dead holds what a dead test finds, current_relay, ptc and potential_relay take it for
each kind; start judges the tries and the start lead, figures whether relay and motor fit, device says what may be
written; drawing shows what is inside.
"""

from __future__ import annotations

from collections.abc import Iterator

from calculators.contract import Calculator, Example, Outcome
from calculators.findings import Finding, NextStep, Verdict
from calculators.inputs import Entered, Typed
from calculators.limits import InForce
from calculators.parts import Missing, decider_of
from calculators.start_device_check.current_relay import current_relay
from calculators.start_device_check.dead import DeadTest, Fault
from calculators.start_device_check.device import SUBSTITUTE, device_finding
from calculators.start_device_check.drawing import inside_figure
from calculators.start_device_check.figures import figures_part
from calculators.start_device_check.inputs import INPUTS, PTC_TABLE
from calculators.start_device_check.potential_relay import potential_relay
from calculators.start_device_check.ptc import ptc
from calculators.start_device_check.start import UNPLUG, left_account, left_finding

_TESTS = {"current": current_relay, "ptc": ptc, "potential": potential_relay}


def evaluate(entered: Entered, standards: InForce) -> Outcome:
    """Everything that can be said of the device from what was entered."""
    test = _TESTS[entered.choice("kind")](entered, standards)
    test.damage = _damage(entered)
    figures = figures_part(entered, standards)
    left = left_finding(entered, standards)
    results, steps = left_account(entered, standards)
    found = [device_finding(entered, standards, test), *_marking(entered), *figures.findings]
    found += [one for one in (left, _substitute(entered)) if one is not None]
    return Outcome(
        (*test.results, *results, *figures.results),
        tuple(sorted(found, key=lambda one: not one.stop)),
        (*test.working, *steps, *figures.working),
        (inside_figure(entered), *figures.figures),
        (*_notes(entered, test), *figures.notes),
    )


def _damage(entered: Entered) -> Fault | None:
    """What eyes and ears condemn, whatever the ohms."""
    kind, look = entered.choice("kind"), entered.choice("look")
    if look == "burnt":
        return Fault("It is cracked, burnt, brown or wet", "What looks like that has failed, whatever its ohms.")
    if look == "rattles" and kind == "ptc":
        return Fault("The PTC rattles: its disc is broken", "A broken disc has failed, whatever its ohms.")
    if look == "stuck" and kind == "current":
        return Fault("The plunger does not move", "A relay that cannot move can neither pull in nor let go.")
    return None


def _marking(entered: Entered) -> Iterator[Finding]:
    if entered.choice("marking") == "differs":
        yield Finding(
            "marking",
            Verdict.OUTSIDE,
            "The part is not the one that the motor's list names.",
            "One for a larger motor never pulls in, one for a smaller never lets go; both look like a bad compressor.",
            NextStep("Keep it unplugged; fit the part that the motor's list names.", SUBSTITUTE),
            stop=True,
        )


def _substitute(entered: Entered) -> Finding | None:
    """A motor that starts on a good device and does not settle is not mended by one."""
    if entered.choice("with_substitute") != "started_stays":
        return None
    return Finding(
        "substitute",
        Verdict.UNDECIDED,
        "It starts with a good device and keeps drawing too much: not the start device. Unplug it.",
        "A tight motor, shorted turns, low volts or a shorted run capacitor do that. It heats and trips.",
        UNPLUG,
        decider=decider_of(
            "Running amps, volts, windings and run capacitor",
            "0.01 A, 1 V, 0.01 Ω",
            [Missing("the dead tests first, then by a technician", "with_substitute")],
        ),
        stop=True,
    )


def _notes(entered: Entered, test: DeadTest) -> Iterator[str]:
    kind, look = entered.choice("kind"), entered.choice("look")
    if look == "rattles" and kind == "current":
        yield "A current relay clicks when it is shaken: that is its plunger, and no fault."
    elif (look == "rattles" and kind != "ptc") or (look == "stuck" and kind != "current"):
        yield "What was heard or felt is not used for this kind of device."
    if test.read and entered.number("lead") is None:
        yield "The test leads were not entered: readings may be too high by what the shorted probes show."
    if kind == "ptc":
        yield "Hot, a PTC reads thousands of ohms and starts nothing; that is how it works, and no fault."
    if kind == "potential":
        yield "Read the contact with the capacitors off: through them the meter shows something else."
    yield "Finish the list after the first find: a shorted capacitor or low volts kill the next device too."
    yield "With a flammable refrigerant only the sealed or non-arcing part that is listed for the machine is fitted."


def _typed(**texts: str) -> dict[str, Typed]:
    return {name: Typed(text) for name, text in texts.items()}


EXAMPLES = (
    Example(
        "relay-never-closes",
        "A current relay that reads OL both ways, on a motor that hums and trips",
        "common-practice",
        _typed(
            kind="current",
            relay_coil_ohms="0.8",
            lead="0.2",
            contact_upright_ohms="OL",
            contact_inverted_ohms="OL",
            repeated="yes",
            look="whole",
        ),
    ),
    Example(
        "ptc-plausible",
        "A 230 V PTC of 22 Ω, 12 minutes off, at 24 °C: plausible, not proved",
        "common-practice",
        _typed(
            kind="ptc",
            ptc_ohms="22.3",
            ptc_ohms_again="22.5",
            lead="0.3",
            ptc_temperature="24",
            ptc_rest="12",
            ptc_class="230",
            look="whole",
        ),
    ),
    Example(
        "ptc-rattles",
        "A PTC that rattles",
        "common-practice",
        _typed(kind="ptc", look="rattles", ptc_ohms="OL"),
    ),
    Example(
        "potential-coil-open",
        "A potential relay with an open coil, and a start capacitor that popped twice",
        "common-practice",
        _typed(kind="potential", contact_ohms="0.3", lead="0", coil_ohms="OL", position="arrow", repeated="yes"),
    ),
    Example(
        "relay-figures",
        "Does a relay of 6.5 A and 4 A fit a motor of 2.0 A and LRA 13?",
        "common-practice",
        _typed(kind="current", run_amps="2.0", locked_rotor_amps="13", pick_up_amps="6.5", drop_out_amps="4"),
    ),
    Example(
        "stuck-in",
        "The start lead still carries 5.2 A after 8 s",
        "common-practice",
        _typed(
            kind="current",
            with_device="started_stays",
            start_lead_first="5.3",
            start_lead_later="5.2",
            start_lead_time="8",
        ),
    ),
    Example(
        "proved-by-a-start",
        "The same motor with the listed relay: it starts at 112 V, and the start lead is at 0",
        "common-practice",
        _typed(
            kind="current",
            with_device="started_released",
            start_lead_first="5.3",
            start_lead_later="0.00",
            start_lead_time="3",
            start_volts="112",
            plate_volts="115",
            start_rest="12",
        ),
    ),
)

CALCULATOR = Calculator(
    slug="start-device-check",
    title="Start device: relay or PTC",
    question="Is this start device bad, plausible, or proved?",
    purpose="Judges a current relay, a PTC or a potential relay by its dead test, its figures and what a start showed.",
    does_not_tell="No dead test proves a start device, and a good one does not say why a motor does not turn.",
    level="helper",
    inputs=INPUTS,
    evaluate=evaluate,
    examples=EXAMPLES,
    limits=(
        "start_device.contact_ohms",
        "start_device.open_ohms",
        "start_device.relay_coil",
        "start_device.relay_tries",
        "start_device.drop_out_margin",
        "start_device.pick_up_margin",
        "start_device.ptc_rest",
        "start_device.ptc_coolest",
        "start_device.ptc_warmest",
        "start_device.ptc_wait",
        "start_device.ptc_agree",
        "start_device.ptc_open",
        "start_device.ptc_shorted",
        "start_device.potential_coil_least",
        "start_device.potential_coil_most",
        "start_device.left",
        "start_device.open_time",
        "starting.restart_wait",
        "starting.start_device_wait",
        "start_volts.warn",
    ),
    tables=(PTC_TABLE,),
    sources=("common-practice", "derived", "trade-memory", "jcgm-100"),
    hazards=(
        "electric-shock",
        "stored-charge",
        "arc-flash",
        "hot-surfaces",
        "unexpected-restart",
        "terminal-venting",
        "flammable-refrigerant",
    ),
    search_words=(
        "start relay",
        "current relay",
        "PTC",
        "potential relay",
        "starter",
        "relay rattles",
        "hums and trips",
        "solid state relay",
        "5-2-1 relay",
        "pick-up",
        "drop-out",
    ),
)
