"""What a group of readings shows, in a word: by the verdicts of the calculators, never by a number compared here."""

from __future__ import annotations

from calculators.decisions import CANNOT_TELL
from tests.practice.seen import AS_FOUND, WITH_SUBSTITUTE, Seen

AMPS = ("expected-amps", "running-amps")
WATTS = ("running-power", "running-watts")
WINDINGS = "winding-identification"
INSULATION = "insulation-resistance"
DEVICE = ("start-device-check", "device")
START_LEAD = ("start-device-check", "start-lead")
START_VOLTS = ("supply-check", "start-volts")
OPEN_WINDINGS = {
    "All three pairs read open.": "all-open",
    "the start winding is open": "common-run",
    "the run winding is open": "common-start",
    "common is open": "run-start",
}


def shown(verdict: str, **meanings: str) -> str:
    """The meaning of a verdict; without one it cannot be told."""
    return meanings.get(verdict, CANNOT_TELL)


def level_of_amps(seen: Seen, when: str) -> str:
    """low, normal, high or far-too-high; high and low with the whole band only."""
    verdict, limit = seen.verdict(*AMPS, when=when), seen.limit_of(*AMPS, when=when)
    if verdict == "outside":
        return "far-too-high" if limit == "amps.stop_ratio" else "low"
    return shown(verdict, within="normal", watch="high")


def level_of_watts(seen: Seen) -> str:
    """low, normal, high, or near where the band reaches back over a limit."""
    verdict, limit = seen.verdict(*WATTS, when=AS_FOUND), seen.limit_of(*WATTS, when=AS_FOUND)
    if verdict == "undecided":
        return "near" if limit else CANNOT_TELL
    return shown(verdict, within="normal", outside="low" if limit == "power.low_ratio" else "high")


def pairs(seen: Seen, when: str) -> str:
    """What the three winding readings of that time show, in the words of the map."""
    if seen.findings(WINDINGS, "open line", when=when):
        conducting = [pair for pair in ("r12", "r23", "r13") if seen.result(WINDINGS, pair, when=when)]
        return {0: "none", 1: "one-pair"}.get(len(conducting), "unclear")
    if seen.findings(WINDINGS, "three equal", when=when):
        return "three-equal"
    return shown(seen.verdict(WINDINGS, "pins", when=when), within="normal", undecided="unclear", outside="unclear")


def device(seen: Seen) -> str:
    """fails, or passes as far as a dead test can: nothing but a start would tell more."""
    verdict = seen.verdict(*DEVICE, when=AS_FOUND, part="")
    if verdict == "undecided" and seen.would_be_decided_in(*DEVICE, when=AS_FOUND, part="") == "with_device":
        return "passes"
    return shown(verdict, within="passes", outside="fails")


def whole_insulation(seen: Seen, when: str, part: str) -> str:
    """low, between, or good as far as a reading from a plug can be: it never speaks for the pins."""
    which = {"when": when, "part": part}
    verdict = seen.verdict(INSULATION, "whole-machine", **which)
    if verdict == "undecided" and seen.limit_of(INSULATION, "whole-machine", **which) == "insulation.pass":
        return "good"
    return shown(verdict, within="good", watch="between", outside="low")


def capacitors(seen: Seen) -> str:
    """What the capacitors show off the circuit; one that is undecided leaves all of them open."""
    if seen.look("capacitors") == "none fitted":
        return "good-or-none"
    if seen.verdict("capacitor-value", "ohms", when=AS_FOUND) == "outside":
        return "shorted"
    return shown(
        seen.verdict("capacitor-value", "capacitance", when=AS_FOUND), within="good-or-none", outside="out-of-value"
    )


def wired_wrong(seen: Seen) -> bool | None:
    """Whether the run lead sits on another pin than the one that the ohms name."""
    named, found = seen.result(WINDINGS, "run", when=AS_FOUND), seen.look("the run lead sits on pin")
    return named != found if named and found else None


def low_by_data(seen: Seen) -> bool:
    """Whether a winding is below its data with the whole band, and all that was read of it says so."""
    for name in ("run winding data", "start winding data"):
        found = seen.findings(WINDINGS, name, when=AS_FOUND)
        if found and all(one["verdict"] == "outside" and "below its data" in one["sentence"] for one in found):
            return True
    return False


def settled(seen: Seen) -> str:
    level = level_of_amps(seen, WITH_SUBSTITUTE)
    return {"normal": "settles", "high": "high", "far-too-high": "stays-high"}.get(level, CANNOT_TELL)
