"""What comes next after a voltage-drop finding, and which finer reading would decide one that is undecided.

A finer reading is tried before it is named: the same entries are judged again on a finer display, and only a display
that gives a verdict is offered.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from calculators.contract import quantity, rounded
from calculators.findings import NextStep, Verdict
from calculators.inputs import Entered
from calculators.limits import InForce
from calculators.voltage_drop.case import Case
from calculators.voltage_drop.path_volts import Span

LOOK_AT_PATH = NextStep("Go along cord, plugs and branch circuit for what loses the volts.", "cord-and-branch-circuit")
TO_SUPPLY = NextStep("Take the volts at the outlet, idle and under a known load.", "supply-check")
SETTLE_SUPPLY = NextStep("Settle the supply first: its idle volts do not fit the plate.", "supply-check")
UNPLUG_CORD = NextStep(
    "Unplug the cord at both ends and keep it out of use; look for a hot, loose or burnt plug.", "make-safe-prove-dead"
)
_CORD_OFF = NextStep(
    "Let it rest unplugged, then try it straight at the outlet, before judging the machine.", "cord-and-branch-circuit"
)


def cord_or_circuit(case: Case) -> NextStep:
    """Without the cord first, where there is one; else along the circuit."""
    names = {part.name for part in case.parts}
    return _CORD_OFF if names & {"cord", "joints"} else LOOK_AT_PATH


def supply_fits(case: Case, standards: InForce) -> bool:
    """Whether the idle volts, where they were measured, lie where the plate expects them."""
    share = 100.0 * case.idle.value / case.plate
    fits = standards.value("supply.low") <= share <= standards.value("supply.high")
    return fits or not case.idle_measured


def ends(span: Span, unit: str, digits: int) -> str:
    """The two ends of a band, as printed."""
    return f"{rounded(span.low, digits)} to {quantity(span.high, unit, digits)}"


@dataclass(frozen=True)
class Entry:
    """A field to enter again, what to enter there, which reading that is, and all of it as understood then."""

    field: str
    text: str
    reading: str
    entered: Entered


_METERS = {
    "voltmeter": ("Idle volts and loaded volts", "V"),
    "clamp": ("Running amps and load amps", "A"),
    "loop_meter": ("The cord's loop, shorted at the far end", "ohm"),
}


def finer(entered: Entered, *meters: str) -> Iterator[Entry]:
    """The same readings on a finer display, one meter after the other, as far as handheld meters go."""
    for meter in meters:
        now = entered.meters[meter]
        reading, unit = _METERS[meter]
        for resolution in (0.1, 0.01, 0.001):
            if resolution < now.resolution * 0.999:
                changed = {**entered.meters, meter: replace(now, resolution=resolution)}
                text = f"{resolution:g} {unit}"
                yield Entry(f"{meter}_resolution", text, reading, replace(entered, meters=changed))


def first_that_decides(entries: Iterator[Entry], verdict_of: Callable[[Entered], Verdict]) -> Entry | None:
    """The first entry with which the finding would no longer be undecided; None when none is enough."""
    return next((one for one in entries if verdict_of(one.entered) is not Verdict.UNDECIDED), None)
