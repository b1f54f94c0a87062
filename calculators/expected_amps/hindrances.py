"""Why there is no verdict on running amps yet: contradicting evidence, frequency, volts, or too short a run."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.contract import quantity, rounded
from calculators.expected_amps.ratio import Case, Supply
from calculators.expected_amps.reference import Conflict, Reference
from calculators.findings import Decider, Finding, NextStep, Verdict
from calculators.finer_meter import finer_meter
from calculators.limits import InForce, Limit
from calculators.readings import Meter, Reading
from calculators.units import to_base

REREAD = "evidence conflict — reread the plates (hp? 50/60 Hz? two plates?)"
_MEASURE = NextStep("Measure the running amps.", "running-amps")
_REPEAT = NextStep("Measure the running amps again as the page says.", "running-amps")
_SUPPLY = NextStep("Check the supply first, idle and running.", "supply-check")
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
        yield _frequency(case.supply)
    if case.supply.running is None:
        yield _volts_missing(case)
    elif not case.supply.passes(case.supply.running):
        yield _volts_off(case, case.supply.running)
    settle = case.standards.limit("amps.run_settle_minutes")
    if case.run_seconds is None or case.run_seconds < to_base(settle.value, settle.unit):
        yield _not_settled(case, settle)


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


def _frequency(supply: Supply) -> Finding:
    return Finding(
        "supply-frequency",
        Verdict.UNDECIDED,
        f"No verdict: the plate says {supply.plate_frequency} Hz and the supply is {supply.frequency} Hz.",
        "A motor on the wrong frequency draws amps that its plate says nothing about, and it runs hot.",
        _SUPPLY,
        decider=Decider(
            "Running amps",
            "as now",
            f"on a supply of {supply.plate_frequency} Hz at the plate's volts",
            "supply_frequency",
        ),
    )


def _volts_missing(case: Case) -> Finding:
    low, high = case.supply.judged_range
    return Finding(
        "running-volts",
        Verdict.UNDECIDED,
        "No verdict: the volts at the plug while it runs are not known.",
        "Low or high volts change the amps of a good motor.",
        _SUPPLY,
        case.standards.limit("amps.voltage.no_verdict"),
        Decider(
            "Volts at the machine's plug",
            "0.1 V, a meter of 0.5 % + 2 counts is enough",
            f"while it runs and the amps are read, between {rounded(low, 1)} and {quantity(high, 'V', 1)}",
            "running_volts",
        ),
    )


def _volts_off(case: Case, reading: Reading) -> Finding:
    supply, limit = case.supply, case.standards.limit("amps.voltage.no_verdict")
    low, high = supply.judged_range
    off = quantity(supply.departure(reading.value), "percent", 1)
    needed = f"between {rounded(low, 1)} and {quantity(high, 'V', 1)} with the meter's whole band"
    decider = Decider(
        "Volts at the machine's plug",
        "as now: the volts themselves must change",
        f"while it runs, {needed}",
        "running_volts",
    )
    finer = finer_meter(
        reading.meter, lambda meter: supply.passes(Reading.taken(reading.value, meter)), "voltmeter", "V"
    )
    if finer is not None:
        decider = Decider(
            "Volts at the machine's plug", finer.words, f"while it runs, {needed}", finer.enter_in, finer.entry
        )
    beyond = supply.departure(reading.value) > limit.value
    return Finding(
        "running-volts",
        Verdict.UNDECIDED,
        f"No verdict: {quantity(reading.value, 'V', 1)} is {off} off the plate's {quantity(supply.plate, 'V', 0)}, "
        + (
            f"more than the {limit.text} at which amps are judged."
            if beyond
            else f"and with the meter's band it may be more than the {limit.text} at which amps are judged."
        ),
        "Mend the supply first. A motor cannot be judged on volts it was not made for.",
        _SUPPLY,
        limit,
        decider,
    )


def _not_settled(case: Case, settle: Limit) -> Finding:
    if case.run_seconds is None:
        said = "No verdict: the minutes since the start are not known."
    elif case.starting:
        first = case.standards.limit("amps.start_over").text
        said = (
            f"No verdict: this was read within {first} of the start, so it is start current. "
            f"If it does not fall by then, unplug it."
        )
    else:
        said = f"No verdict: {quantity(case.run_seconds, 'min', 1)} after the start is less than {settle.text}."
    return Finding(
        "run-time",
        Verdict.UNDECIDED,
        said,
        "A motor draws more while it starts and while the cabinet pulls down. Wait, then read again.",
        _REPEAT,
        settle,
        Decider(
            "Running amps",
            "as now",
            f"steady, {settle.text} or longer after the start, the cabinet near its set temperature",
            "run_time",
        ),
    )
