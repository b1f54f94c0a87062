"""What would decide a reading that cannot be judged: a finer clamp, a better supply, better evidence, or watts."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from calculators.contract import quantity
from calculators.expected_amps.evidence import piece_with
from calculators.expected_amps.ratio import Case, Placed, place, ratio_band
from calculators.expected_amps.reference import Reference, reference_of
from calculators.findings import Decider, Verdict
from calculators.readings import Meter

FINER_STEPS = (0.1, 0.01, 0.001)  # what meters show, in volts or amps
BETTER_PERCENTS = (2.0, 1.5, 1.0, 0.5)  # what meter sheets promise
_BETTER_EVIDENCE = ("rated_load_amps", "data_sheet_amps", "map_amps", "watts")


def decider_for(case: Case, placed: Placed) -> Decider:
    """A finer clamp if that is enough, else a better supply, else better evidence, else watts."""
    settle = case.standards.limit("amps.run_settle_minutes")
    steady = f"same conductor, steady, {settle.text} or longer after the start"
    finer = finer_meter(case.clamp, lambda clamp: _decides(case, clamp, case.reference), "clamp", "A")
    if finer is not None:
        return Decider(
            "Running amps", f"{finer[0]}, or turns of the lead through the clamp", steady, finer[1], finer[2]
        )
    extra = case.supply.extra_band
    if extra and _decides(case, case.clamp, case.reference.widened(-extra)):
        near = case.standards.limit("amps.voltage.uncorrected")
        return Decider(
            "Running amps and volts",
            "as now",
            f"{steady}, with the volts within {near.text} of the plate",
            "running_volts",
        )
    better = _better_evidence(case)
    if better is not None:
        return better
    needed = abs(1.0 - placed.limit.value / case.band.value)
    return Decider(
        "Watts and power factor, read with the amps",
        f"amps would need a band of ±{quantity(100.0 * needed, 'percent', 1)} in all and have "
        f"±{quantity(100.0 * case.band.whole, 'percent', 1)}; neither this clamp nor the ranks of evidence get there",
        steady if placed.low else f"{steady}, after the condenser is clean and the fan turns",
    )


def _decides(case: Case, clamp: Meter, reference: Reference) -> bool:
    return place(ratio_band(case.amps, clamp, reference), reference, case.standards).verdict is not Verdict.UNDECIDED


def _better_evidence(case: Case) -> Decider | None:
    """The first piece of rank A to D that would decide, if it names the same expected amps."""
    for field in _BETTER_EVIDENCE:
        piece = piece_with(field, case.reference.amps, case.standards)
        if any(one.field == field for one in case.pieces):
            continue
        better = reference_of((*case.pieces, piece), case.standards).widened(case.supply.extra_band)
        if _decides(case, case.clamp, better):
            return Decider(
                f"Expected amps by {piece.words}",
                f"evidence good to ±{quantity(100.0 * better.above, 'percent', 0)} or better",
                f"for this very compressor, where it also comes to about {quantity(case.reference.amps, 'A', 2)}",
                field,
            )
    return None


def finer_meter(meter: Meter, decides: Callable[[Meter], bool], name: str, unit: str) -> tuple[str, str, str] | None:
    """The coarsest step, or else the largest percentage, at which this meter would decide: words, field and entry."""
    for step in FINER_STEPS:
        if step < meter.resolution and decides(replace(meter, resolution=step)):
            return (
                f"{step:g} {unit} or finer, on a meter of {meter.percent:g} % + {meter.counts:g} counts",
                f"{name}_resolution",
                f"{step:g} {unit}",
            )
    for percent in BETTER_PERCENTS:
        if percent < meter.percent and decides(replace(meter, percent=percent)):
            return (
                f"{meter.resolution:g} {unit}, on a meter of {percent:g} % + {meter.counts:g} counts or better",
                f"{name}_percent",
                f"{percent:g}",
            )
    return None
