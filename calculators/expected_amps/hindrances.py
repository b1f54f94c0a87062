"""Why there is no verdict on running amps yet: contradicting evidence, frequency, volts, or too short a run."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.contract import quantity
from calculators.expected_amps.ratio import Case
from calculators.expected_amps.reference import Conflict, Reference
from calculators.findings import Decider, Finding, NextStep, Verdict
from calculators.limits import InForce
from calculators.readings import Meter
from calculators.running_condition import is_settled, not_settled, volts_missing, volts_off, wrong_frequency

REREAD = "evidence conflict — reread the plates (hp? 50/60 Hz? two plates?)"
_MEASURE = NextStep("Measure the running amps.", "running-amps")
_REPEAT = NextStep("Measure the running amps again as the page says.", "running-amps")
PLATES = NextStep("Read both rating plates again.", "read-the-rating-plates")


def no_reading(reference: Reference, clamp: Meter, standards: InForce) -> Finding:
    """What is said when only the expected amps were asked for."""
    settle = standards.limit("amps.run_settle_minutes")
    band = quantity(100.0 * clamp.band(reference.amps) / reference.amps, "percent", 1)
    return Finding(
        "running-amps",
        Verdict.UNDECIDED,
        "No running amps were entered: nothing is judged yet.",
        "This is what to expect. Measure, then enter the amps, the volts and the minutes.",
        _MEASURE,
        decider=Decider(
            "Running amps of the compressor alone",
            f"{clamp.resolution:g} A (at the expected amps this clamp is good to ±{band})",
            f"one conductor in the clamp, running for {settle.text} or longer, with the running volts read too",
            "running_amps",
        ),
    )


def hindrances(case: Case) -> Iterator[Finding]:
    """Every reason why this reading is not judged, each with what would mend it."""
    if case.conflicts:
        yield conflict_finding(case.conflicts)
    if case.supply.wrong_frequency:
        yield wrong_frequency(case.supply, "amps")
    if case.supply.running is None:
        yield volts_missing(case.supply, "amps")
    elif not case.supply.passes(case.supply.running):
        yield volts_off(case.supply, case.supply.running, "amps")
    if not is_settled(case.run_seconds, case.standards):
        yield not_settled(case.run_seconds, case.standards, "amps", _REPEAT)


def conflict_finding(conflicts: tuple[Conflict, ...]) -> Finding:
    """No verdict, because the evidence contradicts itself."""
    said = "; ".join(one.sentence for one in conflicts)
    first = conflicts[0]
    return Finding(
        "evidence",
        Verdict.UNDECIDED,
        f"No verdict: {REREAD}. {said[:1].upper()}{said[1:]}.",
        "The figures cannot all belong to this motor at this supply. Find the wrong one before you judge the motor.",
        PLATES,
        decider=Decider(
            "The rating plates, compressor and cabinet apart",
            "every figure with its unit, volts and hertz, letter for letter",
            "read from the machine or from a photo, not from memory",
            first.field,
        ),
    )
