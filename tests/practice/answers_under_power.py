"""Answers measured on a machine that hums, trips on its overload, or runs."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from calculators.decisions import CANNOT_TELL
from tests.practice.answers_at_rest import shell_insulation
from tests.practice.seen import AFTER_THE_WAIT, AS_FOUND, Seen
from tests.practice.shown import (
    START_LEAD,
    START_VOLTS,
    WINDINGS,
    capacitors,
    device,
    level_of_amps,
    level_of_watts,
    low_by_data,
    pairs,
    settled,
    shown,
    wired_wrong,
)


def rested_retry(seen: Seen) -> str:
    """A hum counts after the whole rest; a start counts after a shorter rest too, which is the harder test."""
    hummed, started = seen.measure("hummed again after a rest of"), seen.measure("started after a rest of")
    long_enough = hummed is not None and hummed >= seen.limit("starting.restart_wait")
    if long_enough:
        return "hums"
    return "starts" if started is not None else CANNOT_TELL


def lowest_volts(seen: Seen) -> str:
    """The wall behind a cord is the same outlet; only another circuit shows that it is this one."""
    verdict = seen.verdict(*START_VOLTS, when=AS_FOUND)
    elsewhere = seen.findings("supply-check", "second-place", when=AS_FOUND)
    if verdict == "outside" and any(
        one["verdict"] == "within" and "another circuit" in one["sentence"] for one in elsewhere
    ):
        return "dip-here"
    return shown(verdict, within="good", watch="weak", outside="dip")


def dead_tests(seen: Seen) -> str:
    """The first line that fits, and none before all the lines above it are known."""
    lines = (
        ("windings", {"normal": True, CANNOT_TELL: None}.get(pairs(seen, AS_FOUND), False)),
        ("shell", {"good": True, "low": False}.get(shell_insulation(seen))),
        ("device", {"passes": True, "fails": False}.get(device(seen))),
        ("capacitor", {"good-or-none": True, CANNOT_TELL: None}.get(capacitors(seen), False)),
        ("wiring", {True: False, False: True}.get(wired_wrong(seen))),
    )
    for name, good in lines:
        if not good:
            return CANNOT_TELL if good is None else name
    return "all-good"


def locked_rotor_first(seen: Seen) -> str:
    happened = seen.look("with a substitute start device")
    if happened == "starts":
        return settled(seen)
    if happened != "hums":
        return CANNOT_TELL
    limit = seen.limit_of("locked-rotor", "stalled-amps")
    return shown(
        seen.verdict("locked-rotor", "stalled-amps"),
        within="locked",
        outside="below" if limit == "locked_rotor.low_ratio" else "above",
    )


def short_by_data(seen: Seen) -> str:
    state = pairs(seen, AS_FOUND)
    if state == CANNOT_TELL:
        return "not-read"
    if low_by_data(seen):
        return "low"
    return shown(seen.verdict(WINDINGS, "run winding data", when=AS_FOUND), within="agrees")


def locked_rotor_second(seen: Seen) -> str:
    rotor, lead = seen.verdict("locked-rotor", "rotor"), seen.verdict("locked-rotor", "start-lead")
    if rotor == "outside":
        return "locked"
    if seen.verdict("locked-rotor", "second-stalled-volts") == "outside":
        return "weak-supply"
    return "start-lead-not-seen" if rotor and lead != "within" else CANNOT_TELL


def one_winding_only(seen: Seen) -> str:
    if seen.verdict("locked-rotor", "start-lead") != "outside":
        return CANNOT_TELL
    if pairs(seen, AS_FOUND) == CANNOT_TELL:
        return "not-read"
    return "open-capacitor" if capacitors(seen) == "out-of-value" else "nothing-found"


def off_time(seen: Seen) -> str:
    rest = seen.measure("failed to start after a rest of")
    if rest is None:
        return CANNOT_TELL
    return "short" if rest < seen.limit("starting.start_device_wait") else "long"


def time_to_trip(seen: Seen) -> str:
    time = seen.measure("from the start to the trip")
    if time is None:
        return CANNOT_TELL
    if time < seen.limit("trips.at_start"):
        return "at-start"
    return "late" if time > seen.limit("trips.on_heat") else "soon"


def current_falls(seen: Seen) -> str:
    return shown(seen.verdict(*START_LEAD, when=AS_FOUND), outside="never", within="falls")


def amps_after_start(seen: Seen) -> str:
    return {"high": "high", "far-too-high": "high", "normal": "normal"}.get(level_of_amps(seen, AS_FOUND), CANNOT_TELL)


def start_winding_left_in(seen: Seen) -> str:
    if capacitors(seen) == "shorted":
        return "capacitor"
    if device(seen) == "fails":
        return "device"
    return "good" if device(seen) == "passes" and capacitors(seen) == "good-or-none" else CANNOT_TELL


def start_conditions(seen: Seen) -> str:
    if lowest_volts(seen) in ("dip", "dip-here", "weak"):
        return "weak-supply"
    if capacitors(seen) == "out-of-value":
        return "wrong-capacitor"
    if pairs(seen, AS_FOUND) == CANNOT_TELL:
        return "not-read"
    return "wiring" if wired_wrong(seen) else "missing"


def winding_hot(seen: Seen) -> str:
    return shown(seen.verdict("winding-temperature", "winding-temperature"), outside="hot", undecided="near")


def amps_as_expected(seen: Seen) -> str:
    return {"far-too-high": "high"}.get(level_of_amps(seen, AS_FOUND), level_of_amps(seen, AS_FOUND))


def running_volts(seen: Seen) -> str:
    return shown(seen.verdict("supply-check", "running-volts", when=AS_FOUND), within="inside", outside="outside")


def after_pull_down(seen: Seen) -> str:
    return {"high": "high", "far-too-high": "high", "normal": "normal"}.get(
        level_of_amps(seen, AFTER_THE_WAIT), CANNOT_TELL
    )


def start_winding_running(seen: Seen) -> str:
    """A run capacitor by its value off the circuit; a start winding that should be out by the current in its lead."""
    if capacitors(seen) == "out-of-value":
        return "capacitor-off"
    return shown(seen.verdict("running-power", "start-lead", when=AS_FOUND), within="normal", outside="still-in")


def windings_by_data(seen: Seen) -> str:
    excess = "high" in (level_of_watts(seen), amps_as_expected(seen))
    if low_by_data(seen):
        return "low-ohms" if excess else CANNOT_TELL
    both = [seen.verdict(WINDINGS, f"{one} winding data", when=AS_FOUND) for one in ("run", "start")]
    return "normal" if both == ["within", "within"] else CANNOT_TELL


def watts(seen: Seen) -> str:
    """Low needs the watts low with the whole band, and a power factor that is down at least by leaning."""
    level = level_of_watts(seen)
    if level != "low":
        return level
    return "low" if seen.verdict("running-power", "not-pumping", when=AS_FOUND) else CANNOT_TELL


def knock_when(seen: Seen) -> str:
    if seen.look("it knocks") == "at start and stop only":
        return "start-stop"
    if seen.look("it knocks") != "all the time":
        return CANNOT_TELL
    return {"high": "high-amps", "normal": "continuous"}.get(amps_as_expected(seen), CANNOT_TELL)


ANSWERS: Mapping[str, Callable[[Seen], str]] = {
    "rested-retry": rested_retry,
    "lowest-volts": lowest_volts,
    "dead-tests": dead_tests,
    "locked-rotor-first": locked_rotor_first,
    "short-by-data": short_by_data,
    "locked-rotor-second": locked_rotor_second,
    "one-winding-only": one_winding_only,
    "off-time": off_time,
    "time-to-trip": time_to_trip,
    "current-falls": current_falls,
    "amps-after-start": amps_after_start,
    "start-winding-left-in": start_winding_left_in,
    "start-conditions": start_conditions,
    "winding-hot": winding_hot,
    "amps-as-expected": amps_as_expected,
    "running-volts": running_volts,
    "after-pull-down": after_pull_down,
    "start-winding-running": start_winding_running,
    "windings-by-data": windings_by_data,
    "watts": watts,
    "knock-when": knock_when,
    "amps-better-evidence": amps_as_expected,
}
