"""Answers measured on a machine that is silent, or that trips its supply."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from calculators.decisions import CANNOT_TELL
from tests.practice.seen import AFTER_THE_WAIT, AS_FOUND, Seen
from tests.practice.shown import (
    INSULATION,
    OPEN_WINDINGS,
    WINDINGS,
    capacitors,
    device,
    pairs,
    settled,
    shown,
    whole_insulation,
)


def supply_idle(seen: Seen) -> str:
    return shown(seen.verdict("supply-check", "idle-volts", when=AS_FOUND), within="inside", outside="outside")


def shell_hot(seen: Seen) -> str:
    shell = seen.measure("shell as found")
    if shell is None:
        return CANNOT_TELL
    return "hot" if shell > seen.limit("terminals.hot_shell") else "cool"


def cool_down(seen: Seen) -> str:
    shell = seen.measure("shell after the wait")
    if shell is None:
        return CANNOT_TELL
    return "cool" if shell < seen.limit("windings.cool_shell_temperature") else "leaving"


def overload_cold(seen: Seen) -> str:
    if seen.look("overload outside the shell") == "none fitted":
        return "none-fitted"
    return shown(seen.verdict("overload-check", "contact", when=AS_FOUND), within="closed", outside="open")


def three_windings(seen: Seen) -> str:
    return pairs(seen, AS_FOUND)


def windings_again(seen: Seen) -> str:
    return {"normal": "resolved", CANNOT_TELL: CANNOT_TELL}.get(pairs(seen, AFTER_THE_WAIT), "still")


def open_lines_cold(seen: Seen) -> str:
    """A pair that conducts again needs no cold to be believed; an open one does."""
    later = pairs(seen, AFTER_THE_WAIT)
    if later == "normal":
        return "closed"
    when = AS_FOUND if later == CANNOT_TELL else AFTER_THE_WAIT
    verdict = seen.verdict(WINDINGS, "open line", when=when)
    cold = verdict == "outside" or seen.would_be_decided_in(WINDINGS, "open line", when=when) in ("repeated", "diagram")
    return "still-open" if cold else "not-yet" if verdict else CANNOT_TELL


def open_lines_after_wait(seen: Seen) -> str:
    return {"not-yet": CANNOT_TELL}.get(open_lines_cold(seen), open_lines_cold(seen))


def open_lines_proved(seen: Seen) -> str:
    """Which winding is open, where the names of the pins are known; one reading is enough, two must agree."""
    said = {_which_open(one) for one in seen.findings(WINDINGS, "open line")}
    return said.pop() if len(said) == 1 else CANNOT_TELL


def _which_open(finding: Mapping[str, Any]) -> str:
    if finding["verdict"] != "outside":
        return "not-named" if finding["decider"]["enter_in"] == "diagram" else CANNOT_TELL
    return next((answer for words, answer in OPEN_WINDINGS.items() if words in finding["sentence"]), CANNOT_TELL)


def why_hot(seen: Seen) -> str:
    return "noted" if pairs(seen, AFTER_THE_WAIT) == "normal" else CANNOT_TELL


def shell_insulation(seen: Seen) -> str:
    return shown(
        seen.verdict(INSULATION, "insulation", when=AS_FOUND, part=""),
        within="good",
        watch="low",
        outside="low",
    )


def shell_insulation_dried(seen: Seen) -> str:
    return shown(
        seen.verdict(INSULATION, "insulation", when=AFTER_THE_WAIT, part=""),
        within="recovered",
        watch="between",
        outside="failed",
    )


def substitute_start(seen: Seen) -> str:
    happened = seen.look("with a substitute start device")
    if happened in ("hums", "silent"):
        return happened
    return settled(seen) if happened == "starts" else CANNOT_TELL


def silent_with_volts(seen: Seen) -> str:
    if seen.verdict("overload-check", "contact", when=AFTER_THE_WAIT) == "outside":
        return "overload-open"
    return {"normal": "as-before", "one-pair": "pair-open", "none": "pair-open"}.get(
        pairs(seen, AFTER_THE_WAIT), CANNOT_TELL
    )


def fault_from_the_plug(seen: Seen) -> str:
    whole = whole_insulation(seen, AS_FOUND, "whole machine")
    if whole == "low" and seen.look("licensed advice on the charge") != "given":
        return "low-no-advice"
    pins = seen.verdict(INSULATION, "insulation", when=AS_FOUND, part="")
    if pins == "outside":
        return "pins-low"
    if capacitors(seen) == "shorted":
        return "capacitor"
    good = whole == "good" and pins == "within" and capacitors(seen) == "good-or-none"
    after = {"at once": "good-at-once", "after seconds of humming": "good-after-hum"}
    return after.get(seen.look("when it tripped"), CANNOT_TELL) if good else CANNOT_TELL


def whole_machine_insulation(seen: Seen) -> str:
    return {"low": "low", "between": "good", "good": "good"}.get(
        whole_insulation(seen, AS_FOUND, "whole machine"), CANNOT_TELL
    )


def find_the_part(seen: Seen) -> str:
    """The compressor is named by its own pins, and cleared by them before another part is named."""
    pins = seen.verdict(INSULATION, "insulation", when=AS_FOUND, part="")
    if pins == "outside":
        return "compressor"
    if pins == "within" and whole_insulation(seen, AS_FOUND, "defrost heater") == "low":
        return "other"
    dried = whole_insulation(seen, AFTER_THE_WAIT, "whole machine")
    return "recovers" if pins == "within" and dried == "good" else CANNOT_TELL


def earth_after_shock(seen: Seen) -> str:
    """All three before any answer, then the first line that fits."""
    whole = whole_insulation(seen, AS_FOUND, "whole machine")
    path, outlet = seen.look("earth path of the machine"), seen.verdict("supply-check", "earth", when=AS_FOUND)
    if whole == CANNOT_TELL or outlet in ("", "undecided") or not path:
        return CANNOT_TELL
    if whole == "low":
        return "insulation-low"
    if path.startswith("open"):
        return "earth-open"
    return "all-good" if outlet == "within" else "outlet-bad"


ANSWERS: Mapping[str, Callable[[Seen], str]] = {
    "supply-idle": supply_idle,
    "shell-hot": shell_hot,
    "cool-down": cool_down,
    "overload-cold": overload_cold,
    "three-windings": three_windings,
    "windings-again": windings_again,
    "open-lines-cold": open_lines_cold,
    "open-lines-after-wait": open_lines_after_wait,
    "open-lines-proved": open_lines_proved,
    "why-hot": why_hot,
    "shell-insulation": shell_insulation,
    "shell-insulation-dried": shell_insulation_dried,
    "substitute-start": substitute_start,
    "silent-with-volts": silent_with_volts,
    "fault-from-the-plug": fault_from_the_plug,
    "whole-machine-insulation": whole_machine_insulation,
    "find-the-part": find_the_part,
    "earth-after-shock": earth_after_shock,
    "capacitors": capacitors,
    "start-device-dead": device,
}
