"""What cannot be true together on one path, each with the sentence that says how to mend it."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.contract import quantity
from calculators.inputs import Entered, Problem


def contradictions(entered: Entered) -> Iterator[Problem]:
    """Every contradiction in what was entered, before anything is computed."""
    yield from _half_a_wire(entered, "cord", "Cord")
    yield from _half_a_wire(entered, "branch", "Branch circuit")
    yield from source_readings(entered)
    yield from meter_blind(entered)
    start, run = entered.number("start_amps"), entered.number("run_amps")
    if start is not None and run is not None and run > start:
        yield Problem(
            "start_amps",
            f"Start amps: {quantity(start, 'A', 2)} is less than the running amps, {quantity(run, 'A', 2)}. "
            f"A motor takes its most while it does not turn: check that the two are not swapped.",
        )
    picked = any(entered.choice(f"{name}_conductor") for name in ("cord", "branch"))
    numbers = ("cord_length", "branch_length", "source_ohms", "loaded_volts", "cord_loop")
    if not (picked or entered.needed("joint_count") or any(entered.number(name) is not None for name in numbers)):
        yield Problem(
            "cord_conductor",
            "Cord conductor: nothing of the path is entered yet. Choose the cord or the branch circuit with its "
            "length, or enter a measured loop or source resistance.",
        )


def _half_a_wire(entered: Entered, name: str, label: str) -> Iterator[Problem]:
    picked, length = entered.choice(f"{name}_conductor"), entered.number(f"{name}_length")
    if picked and length is None and not (name == "cord" and entered.number("cord_loop") is not None):
        yield Problem(f"{name}_length", f"{label} length is missing. Enter its length one way, from end to end.")
    if length is not None and not picked:
        yield Problem(
            f"{name}_conductor",
            f"{label} conductor is missing. Choose the size printed on the jacket; a size that is not listed is not "
            f"in the table: take the next thinner one, or measure the loop.",
        )


def source_readings(entered: Entered) -> Iterator[Problem]:
    """What cannot be true of the readings with a known load, in any form that asks for them."""
    idle, loaded, amps = (entered.number(name) for name in ("idle_volts", "loaded_volts", "load_amps"))
    if entered.number("source_ohms") is not None and (loaded is not None or amps is not None):
        yield Problem(
            "source_ohms",
            "Source resistance is typed, and also follows from the readings with a known load. Empty one of the two.",
        )
    if loaded is not None and idle is None:
        yield Problem(
            "idle_volts", "Idle volts are missing. A source resistance needs the volts without and with the known load."
        )
    if loaded is not None and amps is None:
        yield Problem("load_amps", "Amps of the known load are missing. Enter what the clamp shows while it is on.")
    if amps is not None and loaded is None:
        yield Problem(
            "loaded_volts", "Volts with the known load are missing. Enter what the meter shows while it is on."
        )
    if idle is not None and loaded is not None and loaded > idle:
        yield Problem(
            "loaded_volts",
            f"Volts with the known load: {quantity(loaded, 'V', 2)} is more than the idle "
            f"{quantity(idle, 'V', 2)}. A load cannot raise the volts: something else on the circuit was switched "
            f"between the readings. Take both again, one right after the other.",
        )


def meter_blind(entered: Entered) -> Iterator[Problem]:
    """A voltmeter so coarse that it cannot tell its own reading from nothing."""
    idle = entered.reading("idle_volts")
    if idle is not None and idle.low <= 0.0:
        yield Problem(
            "voltmeter_resolution",
            f"Voltmeter: with this percentage, counts and resolution it is good to ±{quantity(idle.band, 'V', 1)} "
            f"only, and cannot tell {quantity(idle.value, 'V', 1)} from nothing. Copy the three from its data sheet, "
            f"for the range in use.",
        )
