"""What a reader must know beside the numbers of a voltage-drop case."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.contract import quantity
from calculators.inputs import Entered
from calculators.limits import InForce
from calculators.voltage_drop.case import Case


def notes(case: Case, entered: Entered, standards: InForce) -> Iterator[str]:
    """What a reader must know beside the numbers."""
    yield from _supply_notes(case, standards)
    yield from _path_notes(case, standards)
    yield from _unused(case, entered)
    if case.run is None and case.start is None:
        yield "No running or start amps were entered: ohms only, no volts."
    if case.start is not None and case.start[1] is None:
        yield (
            "Without a start power factor the stalled motor counts as a plain resistance: its true volts are somewhat "
            "higher. A start at another outlet, or the least volts at the plug, bears the figure out or not."
        )
    if case.run is not None or case.start is not None:
        yield (
            "Bands: ohms of separate meters add in quadrature; then ohms, amps and idle volts are each taken at their "
            "worst together, because one voltmeter serves for more than one of them."
        )
        if any(name in case.wires for name in ("cord", "branch")):
            yield "Sizes and lengths are by volts alone. What a wire may carry, and the local code, can ask for more."


def _supply_notes(case: Case, standards: InForce) -> Iterator[str]:
    low = standards.limit("supply.low")
    if not case.idle_measured and (case.run or case.start):
        yield "Idle volts were not measured; the plate's volts stand in for them."
    running = case.running
    if running is not None and 100.0 * running.volts / case.plate < low.value:
        got = quantity(100.0 * running.volts / case.plate, "percent", 1)
        yield f"Running, the machine gets {got} of its plate, less than {low.text}."


def _path_notes(case: Case, standards: InForce) -> Iterator[str]:
    names = {part.name for part in case.parts}
    if ("cord" in names) and "joints" not in names:
        yield f"No plug joint was counted; each adds about {standards.limit('drop.joint').text}."
    if case.cord_measured is not None:
        yield "The measured loop is used for the cord, with the plug contacts it was read through."
    if any(wire.conductor.family.startswith("iec") for wire in case.wires.values()):
        yield "IEC 60228 gives the most a conductor may have; a real one is a few per cent lower. Measuring decides."
    if any(wire.conductor.reactance_per_km is None for wire in case.wires.values()):
        yield "Reactance is left out where the table prints none: below 0.1 mΩ per metre in small cables."
    branch = case.wires.get("branch")
    if branch is not None and "branch" not in names and case.source is not None:
        yield "The branch circuit is in the source reading at the outlet already and is not added a second time."
        if case.source.part.ohms.real + case.source.part.above < branch.loop.real:
            yield "Yet the source reads less than this branch circuit alone: check its size, its length, the readings."


def _unused(case: Case, entered: Entered) -> Iterator[str]:
    """What was entered and has no part in the answer, so that nothing is dropped in silence."""
    for name, label in (("run", "running"), ("start", "start")):
        if entered.number(f"{name}_power_factor") is not None and entered.number(f"{name}_amps") is None:
            yield f"The {label} power factor is not used: no {label} amps were entered."
    if entered.choice("cord_conductor") and "cord" not in case.wires:
        yield "No cord length was entered, so the measured loop is not compared with the size of the cord."
    if entered.number("joint_ohms") is not None and not entered.needed("joint_count"):
        yield "The ohms of a plug joint are not used: no plug joints were counted."
