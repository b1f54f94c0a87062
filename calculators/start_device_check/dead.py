"""What a dead test of a start device has found, whatever its kind: faults, doubts, and what is still missing.

A fault is beyond its limit with the whole band. A doubt is everything that may be a fault: beyond its limit by the
reading alone, or beyond a figure that is only memory. A dead test without either is plausible, and no more than that.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from calculators.contract import Named, Result, Step, quantity
from calculators.findings import Verdict, judge
from calculators.finer_meter import finer_meter
from calculators.inputs import Entered
from calculators.limits import Limit
from calculators.nulling import fits_leads, nulled, ohms_steps
from calculators.parts import Missing
from calculators.readings import Meter, Reading
from calculators.units import to_base


@dataclass(frozen=True)
class Fault:
    """What is wrong in words, what it does, and the limit it is beyond."""

    words: str
    effect: str
    limit: Limit | None = None


@dataclass
class DeadTest:
    """What has been gathered; suspect is true when a reading, whatever its band, speaks against the device.

    waiting is what has to hold before a fault may be written: cold, rested. missing is what the test still lacks.
    """

    damage: Fault | None = None
    faults: list[Fault] = field(default_factory=list)
    doubts: list[tuple[str, Missing]] = field(default_factory=list)
    waiting: list[Missing] = field(default_factory=list)
    missing: list[Missing] = field(default_factory=list)
    good: list[str] = field(default_factory=list)
    suspect: bool = False
    read: bool = False
    results: list[Result | Named] = field(default_factory=list)
    working: list[Step] = field(default_factory=list)


def take(entered: Entered, test: DeadTest, name: str, label: str) -> Reading | None:
    """One reading in ohms with the leads taken off, added to the account; None when it was not taken."""
    typed = entered.number(name)
    if typed is None:
        return None
    reading = nulled(entered, name, label, typed, entered.meters["ohmmeter"])
    test.read = True
    test.working += ohms_steps(entered, label, typed, reading)
    if reading.open_line:
        test.results.append(Named(name, label, "OL", "No path through it when it was read."))
        return reading
    unit = _unit(reading.value)
    plain, low = "What the device itself reads.", max(reading.low, 0.0)
    test.results.append(Result(name, f"{label}, leads off", reading.value, unit, 2, plain, low, reading.high))
    return reading


def hold_against(
    entered: Entered, test: DeadTest, name: str, label: str, reading: Reading, limit: Limit, fault: Fault
) -> None:
    """Hold a reading against a condemning limit: a fault, a doubt with the meter that would decide, or good."""
    placed = place(reading, limit)
    if placed is Verdict.WITHIN:
        test.good.append(f"{label.lower()} {ohms(reading)}")
        return
    test.suspect = True
    if placed is Verdict.OUTSIDE:
        test.faults.append(replace(fault, words=f"{label} {ohms(reading)}: {fault.words}", limit=limit))
        return
    typed = entered.needed(name)

    def decides(meter: Meter) -> bool:
        if not fits_leads(entered, typed, meter):
            return False
        return place(nulled(entered, name, label, typed, meter), limit) is not Verdict.UNDECIDED

    finer = finer_meter(entered.meters["ohmmeter"], decides, "ohmmeter", "ohm")
    need = Missing("a four-wire low-ohm meter", "ohmmeter_resolution")
    if finer is not None:
        need = Missing(f"an ohmmeter of {finer.words}", finer.enter_in or "ohmmeter_resolution", finer.entry)
    test.doubts.append((f"{label} {ohms(reading)} and the meter's band lie across {limit.text}", need))


def place(reading: Reading, limit: Limit) -> Verdict:
    """Against a limit given in any unit of resistance; an open line is beyond every most and within every least."""
    in_ohms = replace(limit, value=to_base(limit.value, limit.unit), unit="ohm")
    if reading.open_line:
        return Verdict.OUTSIDE if limit.side == "most" else Verdict.WITHIN
    return judge(reading.value, reading.low, reading.high, in_ohms).verdict


def ohms(reading: Reading) -> str:
    """A reading as it is said: OL, or with the unit that fits its size."""
    return quantity(reading.value, _unit(reading.value), 2)


def _unit(value: float) -> str:
    return "ohm" if value < 1e3 else "kilohm" if value < 1e6 else "megohm"
