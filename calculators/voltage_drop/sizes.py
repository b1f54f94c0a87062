"""Which size would do, and how long may it be? By volts alone: what a wire may carry is another question.

A wire passes when the running loss stays within its warning and the volts at the start reach theirs, each where its
amps were entered; the rest of the path stays as it is.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from calculators.conductors import sizes_like
from calculators.contract import Named, Result, quantity
from calculators.limits import InForce
from calculators.voltage_drop.case import BRANCH_TABLE, CORD_TABLE, Case
from calculators.voltage_drop.inputs import LONGEST

_TABLES = {"cord": CORD_TABLE, "branch": BRANCH_TABLE}
_LABELS = {"cord": "cord", "branch": "branch circuit"}


def passes(case: Case, standards: InForce) -> bool:
    """Whether the case keeps to the limits for a sound path, by its figures without their bands."""
    running, starting = case.running, case.starting
    runs = running is None or running.judged_percent.value <= standards.value("drop.run_warn")
    starts = starting is None or starting.percent.value >= standards.value("start_volts.warn")
    return runs and starts


def size_results(case: Case, standards: InForce) -> Iterator[Result | Named]:
    """The thinnest size and the longest length that pass, for each wire that is in the path."""
    if case.run is None and case.start is None:
        return
    in_path = {part.name for part in case.parts}
    for name in ("cord", "branch"):
        if name in case.wires and name in in_path:
            yield _thinnest(case, name, standards)
            yield _longest(case, name, standards)


def criteria(case: Case, standards: InForce) -> str:
    """What a passing wire keeps to, in words."""
    words = []
    if case.run is not None:
        words.append(f"a running loss of no more than {standards.limit('drop.run_warn').text}")
    if case.start is not None:
        words.append(f"{standards.limit('start_volts.warn').text} of the plate at the start")
    return " and ".join(words)


def _thinnest(case: Case, name: str, standards: InForce) -> Named:
    wire = case.wires[name]
    sizes = sizes_like(wire.conductor, _TABLES[name], standards)
    length = f"{quantity(wire.metres, 'm', 1)} ({quantity(wire.metres, 'ft', 1)})"
    label = f"Thinnest {_LABELS[name]} of this kind that passes, by volts alone"
    for size in sizes:
        if passes(case.with_wire(name, size, wire.metres), standards):
            plain = f"At {length} it keeps {criteria(case, standards)}. What it may carry is not looked at here."
            return Named(f"thinnest_{name}", label, size.label, plain)
    thickest = f"{sizes[-1].label}, the thickest of its kind in the table,"
    plain = f"Not even {thickest} keeps {criteria(case, standards)} at {length}."
    return Named(f"thinnest_{name}", label, "none in the table", plain)


def _longest(case: Case, name: str, standards: InForce) -> Result | Named:
    """The length is rounded down to 0.1 m, so that what is printed passes."""
    conductor = case.wires[name].conductor
    label = f"Longest {_LABELS[name]} of this size that passes"
    keeps = f"Of {conductor.label}, keeping {criteria(case, standards)}. Measured one way, rounded down."

    def enough(metres: float) -> bool:
        return passes(case.with_wire(name, conductor, metres), standards)

    if not enough(0.0):
        plain = "The rest of the path and the supply use up what may be lost, before this wire takes any."
        return Named(f"longest_{name}", label, "none", plain)
    if enough(LONGEST):
        return Named(f"longest_{name}", label, f"more than {quantity(LONGEST, 'm', 0)}", keeps)
    low, high = 0.0, LONGEST
    for _ in range(60):
        middle = (low + high) / 2.0
        low, high = (middle, high) if enough(middle) else (low, middle)
    metres = math.floor(low * 10.0 + 1e-6) / 10.0
    return Result(f"longest_{name}", label, metres, "m", 1, keeps, also=(("ft", 1),))
