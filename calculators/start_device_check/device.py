"""The verdict on the device itself: a dead test condemns or is plausible, a start proves, a substitute accuses.

Weak evidence alone gives outside or undecided, never within: a dead test that is passed stays undecided, and what
decides it is a start. Where a start and a dead test contradict each other nothing is written before both are repeated.
"""

from __future__ import annotations

from calculators.findings import Decider, Finding, NextStep, Verdict
from calculators.inputs import Entered
from calculators.limits import InForce, Limit
from calculators.parts import Missing, decider_of
from calculators.start_device_check.dead import DeadTest, Fault
from calculators.start_device_check.start import UNPLUG, left_finding, left_speaks_against, not_a_fair_try, volts_words

NAME = "device"
SUBSTITUTE = "start-with-a-substitute"
PAGES = {"current": "current-relay", "ptc": "ptc-start-device", "potential": "potential-relay"}
_RENEW = NextStep("Fit the listed part with the plug out; finish the list of checks before any power.", SUBSTITUTE)
_ANY = "any meter that has been proved"


def device_finding(entered: Entered, standards: InForce, test: DeadTest) -> Finding:
    """What may be written about the device, strongest evidence first."""
    left, tried = left_finding(entered, standards), entered.choice("with_device")
    if test.damage is not None:
        return _outside(test.damage, stop=tried == "started_stays")
    if left is not None and left.verdict is Verdict.OUTSIDE:
        return _stays_in(left)
    if tried == "started_released":
        return _started(entered, standards, test)
    hums = _hums(entered, standards) if tried == "hums" else None
    if hums is not None and hums.verdict is Verdict.OUTSIDE:
        return hums  # two tries that differ in the device only outweigh what its ohms may still lack
    if test.faults:
        return _faults(entered, test, stop=tried == "started_stays")
    if hums is not None:
        return hums
    if tried == "started_stays":
        return _stays_unproved()
    return _silent() if tried == "silent" else _dead_only(entered, standards, test)


def _outside(fault: Fault, more: str = "", *, stop: bool = False) -> Finding:
    sentence = f"{fault.words}{more}. The device has failed.{' Unplug it.' if stop else ''}"
    step = UNPLUG if stop else _RENEW
    return Finding(NAME, Verdict.OUTSIDE, sentence, fault.effect, step, fault.limit, stop=stop)


def _stays_in(left: Finding) -> Finding:
    return Finding(
        NAME,
        Verdict.OUTSIDE,
        "The start current does not go away once the motor runs: the device stays in.",
        "A welded relay, a PTC that does not warm, or a potential relay that does not open. Unplug it.",
        UNPLUG,
        left.limit,
        stop=True,
    )


def _started(entered: Entered, standards: InForce, test: DeadTest) -> Finding:
    if test.suspect or left_speaks_against(entered, standards):
        what = "its start lead" if left_speaks_against(entered, standards) else "its dead test"
        return Finding(
            NAME,
            Verdict.UNDECIDED,
            f"The start and {what} contradict each other: it started the motor and let go, and {what} says otherwise.",
            "One of the two was read or seen wrongly, or the device works only now and then.",
            NextStep("With the plug out, repeat the dead test; then watch one more start.", SUBSTITUTE),
            decider=decider_of(
                "The dead test and one more start",
                _ANY,
                [
                    Missing(
                        "both repeated, the start lead in a clamp of its own, the motor rested between", "with_device"
                    )
                ],
            ),
        )
    return Finding(
        NAME,
        Verdict.WITHIN,
        f"Proved by a start{volts_words(entered)}: the motor starts with it, and the start current goes away.",
        "That is the proof that no dead test can give. It holds for volts like these and a rested motor.",
        NextStep("Measure the running amps.", "running-amps"),
    )


def _faults(entered: Entered, test: DeadTest, *, stop: bool) -> Finding:
    fault = test.faults[0]
    others = "".join(f"; {one.words}" for one in test.faults[1:])
    waiting = list(test.waiting)
    if entered.choice("repeated") != "yes":
        waiting.append(Missing("read again on clean contacts, with other probes, meter proved", "repeated", "yes"))
    if not waiting:
        return _outside(fault, others, stop=stop)
    return Finding(
        NAME,
        Verdict.UNDECIDED,
        f"{fault.words}{others}. No verdict yet: nothing is condemned hot, or on one reading.",
        fault.effect,
        UNPLUG if stop else NextStep("Let it cool, clean the contacts, read it again.", PAGES[entered.choice("kind")]),
        fault.limit,
        decider_of("The same reading", _ANY, waiting),
        stop,
    )


def _stays_unproved() -> Finding:
    return Finding(
        NAME,
        Verdict.UNDECIDED,
        "It starts, and the amps stay high: the device stays in, or something else holds them up. Unplug it.",
        "A device that stays in and a tight motor, shorted turns or a shorted run capacitor look the same from"
        " outside.",
        UNPLUG,
        decider=decider_of(
            "The amps in the device's own start lead, at the start and later",
            "0.1 A",
            [Missing("a lead brought out dead, covers on, unplugged as soon as it is read", "start_lead_later")],
        ),
        stop=True,
    )


def _hums(entered: Entered, standards: InForce) -> Finding:
    missing = list(not_a_fair_try(entered, standards))
    substitute = entered.choice("with_substitute")
    limit = standards.limit("start_volts.warn")
    if substitute in ("started_stays", "hums", "silent"):
        return _not_the_device_alone(limit)
    if substitute != "started_released":
        words = "a start with a device known to be good, on the same supply, as rested"
        missing.append(Missing(words, "with_substitute", "started_released"))
    if not missing:
        return Finding(
            NAME,
            Verdict.OUTSIDE,
            f"It hums with this device{volts_words(entered)} and starts with a good one: this device does not"
            " start it.",
            "The two tries differ in the device only. A dead test that was passed never said that it works.",
            _RENEW,
            limit,
        )
    return Finding(
        NAME,
        Verdict.UNDECIDED,
        f"It hums with this device. No verdict: {_hum_reason(entered, standards)}.",
        "A hot PTC, unequal pressures, low volts and a bad start device all sound like a seized motor.",
        NextStep("Unplug it, let it rest, and take the tries in order.", SUBSTITUTE),
        limit,
        decider_of("A start with a device known to be good", "no meter: it starts or it does not", missing),
    )


def _hum_reason(entered: Entered, standards: InForce) -> str:
    wait, rested = standards.limit("starting.start_device_wait"), entered.number("start_rest")
    if entered.choice("kind") == "ptc" and rested is not None and rested < 60.0 * wait.value:
        return f"a PTC that has rested for less than {wait.text} is hot and starts nothing"
    return "humming has many causes, and the device is only one"


def _not_the_device_alone(limit: Limit) -> Finding:
    return Finding(
        NAME,
        Verdict.UNDECIDED,
        "It does not start and settle with a good device either: the device is not what stands in the way, or not"
        " alone.",
        "Two faults at once do happen, so the device is not cleared; but a new one will not mend this.",
        NextStep("Stop trying. Supply, windings and capacitors first; then a technician judges the motor.", SUBSTITUTE),
        limit,
        Decider(
            "Volts at the plug during the try, windings, capacitors, then the locked-rotor amps",
            "1 V, 0.01 Ω, 0.1 A",
            "by a technician, no more than the tries that the pages allow",
            "with_substitute",
        ),
    )


def _silent() -> Finding:
    return Finding(
        NAME,
        Verdict.UNDECIDED,
        "Silent with this device: the way to the run winding is open, or nothing calls.",
        "A current relay with an open coil is silent, and so are an open overload and a control that does not call.",
        NextStep("Read the overload and the windings dead.", "overload-cold-and-hot"),
        decider=decider_of(
            "The coil of a current relay, the overload, and whether the control calls",
            _ANY,
            [Missing("dead first; volts at the terminals only by a technician on leads brought out", "with_device")],
        ),
    )


def _dead_only(entered: Entered, standards: InForce, test: DeadTest) -> Finding:
    page = PAGES[entered.choice("kind")]
    if entered.choice("look") == "unknown" and test.read:
        test.missing.append(Missing("looked at and shaken", "look", "whole"))
    needs = [*(need for _, need in test.doubts), *test.waiting, *test.missing]
    if not test.read:
        return Finding(
            NAME,
            Verdict.UNDECIDED,
            "Nothing of the device was read yet: nothing is judged.",
            "Read it dead first. A dead test can condemn it; only a start can prove it.",
            NextStep("Read the device dead, as the page says.", page),
            decider=decider_of("The device, off the pins and dead", _ANY, needs),
        )
    if needs:
        why = "; ".join(words for words, _ in test.doubts) or "the dead test is not complete"
        return Finding(
            NAME,
            Verdict.UNDECIDED,
            f"No verdict: {why}.",
            "Neither condemned nor plausible yet.",
            NextStep("Finish the dead test.", page),
            decider=_toward_a_start(entered, standards, needs),
        )
    return Finding(
        NAME,
        Verdict.UNDECIDED,
        f"Plausible, not proved: {', '.join(test.good)}.",
        "The dead test found nothing against it, and no dead test can find more than that. Only a start proves it.",
        NextStep("Try it, or a substitute, as the page says.", SUBSTITUTE),
        decider=_toward_a_start(entered, standards, []),
    )


def _toward_a_start(entered: Entered, standards: InForce, needs: list[Missing]) -> Decider:
    """A start is what decides; what the dead test still lacks is told with it."""
    least, rest = standards.limit("start_volts.warn"), standards.limit("starting.restart_wait")
    first = "; ".join(one.words for one in needs)
    condition = (
        f"{f'{first}; then ' if first else ''}the motor starts with it at {least.text} of the plate volts or more, "
        f"rested {rest.text} or more, covers on, and the start current goes away"
    )
    # A start alone decides nothing where its start lead was read and speaks against letting go.
    entry = None if needs or left_speaks_against(entered, standards) else "started_released"
    return Decider(
        "A start with this very device fitted" if not needs else "The rest of the dead test, then a start",
        "no meter: it starts or it does not" if not needs else _ANY,
        condition,
        needs[0].field if needs else "with_device",
        entry,
    )
