"""Whether what a finding must have is in hand: by verdicts and observations, one function a finding for all cases.

A finding that is not listed here is never written by these tests.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from calculators.decisions import CANNOT_TELL
from tests.practice.seen import AFTER_THE_MEND, AFTER_THE_WAIT, AS_FOUND, WITH_SUBSTITUTE, Seen
from tests.practice.shown import (
    INSULATION,
    START_LEAD,
    START_VOLTS,
    WINDINGS,
    device,
    level_of_amps,
    level_of_watts,
    low_by_data,
    settled,
    whole_insulation,
)


def evidence_for(finding: str, seen: Seen) -> str:
    """all, or not-all."""
    complete = EVIDENCE.get(finding)
    return "all" if complete is not None and complete(seen) else "not-all"


def supply_outside(seen: Seen) -> bool:
    return all(seen.verdict("supply-check", name) == "outside" for name in ("idle-volts", "running-volts"))


def dip_at_start(seen: Seen) -> bool:
    """Too few volts at the plug, and a start seen elsewhere."""
    elsewhere = (seen.look("straight at the wall"), seen.look("on another circuit"))
    return seen.verdict(*START_VOLTS) == "outside" and "starts" in elsewhere


def cord(seen: Seen) -> bool:
    """Too few volts during a start with the cord, and a start straight at the wall."""
    return seen.verdict(*START_VOLTS) in ("watch", "outside") and seen.look("straight at the wall") == "starts"


def control(seen: Seen) -> bool:
    """No volts at the motor while the supply is there, or starts after a rest and none after a shorter one."""
    supply = seen.verdict("supply-check", "idle-volts") == "within"
    if supply and seen.look("volts on the leads brought out") == "nowhere":
        return True
    failed, started = seen.measure("failed to start after a rest of"), seen.measure("started after a rest of")
    wait = seen.limit("starting.start_device_wait")
    return failed is not None and started is not None and failed < wait <= started


def overload(seen: Seen) -> bool:
    return seen.verdict("overload-check", "contact") == "outside"


def start_device_fails(seen: Seen) -> bool:
    """Its own test, and a start with a substitute."""
    return (
        device(seen) == "fails"
        and seen.look("with a substitute start device") == "starts"
        and settled(seen) == "settles"
    )


def start_device_stays_in(seen: Seen) -> bool:
    """The same, and the substitute lets go."""
    return start_device_fails(seen) and seen.verdict(*START_LEAD, when=WITH_SUBSTITUTE) == "within"


def capacitor(finding: str) -> Callable[[Seen], bool]:
    def complete(seen: Seen) -> bool:
        handled = seen.look("the capacitor before its reading") == "discharged, off the circuit, meter proved"
        return handled and seen.verdict("capacitor-value", finding, when=AS_FOUND) == "outside"

    return complete


def open_line(words: str) -> Callable[[Seen], bool]:
    def complete(seen: Seen) -> bool:
        proved = seen.look("pins and meter") == "pins clean, meter proved, other probes"
        said = [one["sentence"] for one in seen.findings(WINDINGS, "open line") if one["verdict"] == "outside"]
        return proved and bool(said) and all(words in one for one in said)

    return complete


def shorted_turns(seen: Seen) -> bool:
    return low_by_data(seen) and "high" in (level_of_watts(seen), level_of_amps(seen, AS_FOUND))


def winding_shorted(seen: Seen) -> bool:
    """Off its data, and more than the current of a standing rotor."""
    amps = ("locked-rotor", "stalled-amps")
    return low_by_data(seen) and (seen.verdict(*amps), seen.limit_of(*amps)) == ("outside", "locked_rotor.high_ratio")


def winding_to_shell(seen: Seen) -> bool:
    return seen.verdict(INSULATION, "insulation", part="") == "outside"


def water(seen: Seen) -> bool:
    return bool(seen.look("where the water came from")) and (
        seen.verdict(INSULATION, "insulation", when=AFTER_THE_WAIT, part="") == "within"
    )


def earth_open(seen: Seen) -> bool:
    return seen.look("earth path of the machine") == "open, cord and machine measured apart"


def seized(seen: Seen) -> bool:
    return seen.verdict("locked-rotor", "rotor") == "outside"


def by_licensed_person(words: str) -> Callable[[Seen], bool]:
    return lambda seen: seen.look("the licensed person finds") == words


def mended(seen: Seen) -> bool:
    """Seen and corrected, and run and measured again."""
    again = (level_of_amps(seen, AFTER_THE_MEND), whole_insulation(seen, AFTER_THE_MEND, "whole machine"))
    good = again in (("normal", CANNOT_TELL), (CANNOT_TELL, "good"), ("normal", "good"))
    return bool(seen.look("corrected")) and bool(seen.look("ran afterwards")) and good


EVIDENCE: Mapping[str, Callable[[Seen], bool]] = {
    "supply-outside-limits": supply_outside,
    "dip-at-start": dip_at_start,
    "cord-unsuitable": cord,
    "control-at-fault": control,
    "overload-faulty": overload,
    "start-device-fails": start_device_fails,
    "start-device-stays-in": start_device_stays_in,
    "capacitor-out-of-value": capacitor("capacitance"),
    "capacitor-shorted": capacitor("ohms"),
    "run-open": open_line("the run winding is open"),
    "start-open": open_line("the start winding is open"),
    "common-open": open_line("common is open"),
    "more-than-one-open": open_line("All three pairs read open."),
    "shorted-turns": shorted_turns,
    "winding-shorted": winding_shorted,
    "winding-to-shell": winding_to_shell,
    "water-on-terminals": water,
    "earth-path-open": earth_open,
    "seized": seized,
    "no-pumping": by_licensed_person("no pressure is built"),
    "refrigerant-leak": by_licensed_person("a leak at a joint"),
    "sealed-circuit-fault": by_licensed_person("a restriction"),
    "airflow-fault": mended,
    "other-wiring": mended,
}
