"""What would decide a reading that cannot be judged: a finer clamp, a better supply, better evidence, or watts."""

from __future__ import annotations

from dataclasses import replace

from calculators.contract import quantity
from calculators.expected_amps.evidence import piece_with
from calculators.expected_amps.ratio import Case, Placed, place, ratio_band
from calculators.expected_amps.reference import Reference, reference_of
from calculators.findings import Decider, Verdict
from calculators.finer_meter import BETTER_PERCENTS, FINER_STEPS, finer_meter, meter_words
from calculators.readings import Meter

_BETTER_EVIDENCE = ("rated_load_amps", "data_sheet_amps", "map_amps", "watts")


def decider_for(case: Case, placed: Placed) -> Decider:
    """A finer clamp if that is enough, else a better supply, else better evidence, else watts."""
    finer = finer_clamp(case)
    if finer is not None:
        return finer
    for clamp, words in clamps_tried(case):
        better = better_supply(case, clamp, words) or _better_evidence(case, clamp, words)
        if better is not None:
            return better
    return second_quantity(case, placed)


def steady(case: Case) -> str:
    """How the amps are to be read again."""
    settle = case.standards.limit("amps.run_settle_minutes")
    return f"same conductor, steady, {settle.text} or longer after the start"


def finer_clamp(case: Case) -> Decider | None:
    """A finer clamp alone, where that is enough."""
    finer = finer_meter(case.clamp, lambda clamp: decides(case, clamp, case.reference), "clamp", "A")
    if finer is None:
        return None
    words = f"{finer.words}, or turns of the lead through the clamp"
    return Decider("Running amps", words, steady(case), finer.enter_in, finer.entry)


def clamps_tried(case: Case) -> tuple[tuple[Meter, str], tuple[Meter, str]]:
    """The clamp as it is, then the finest there is, each with what is added to the resolution for it."""
    finest = replace(
        case.clamp,
        percent=min(case.clamp.percent, BETTER_PERCENTS[-1]),
        resolution=min(case.clamp.resolution, FINER_STEPS[-1]),
    )
    return (case.clamp, ""), (finest, f", and a clamp of {meter_words(finest, 'A')}")


def second_quantity(case: Case, placed: Placed) -> Decider:
    """Watts, where no reading of amps can decide."""
    needed = abs(1.0 - placed.limit.value / case.band.value)
    return Decider(
        "Watts and power factor, read with the amps",
        f"amps would need a band of ±{quantity(100.0 * needed, 'percent', 1)} in all and have "
        f"±{quantity(100.0 * case.band.whole, 'percent', 1)}: a second quantity tells more",
        steady(case) if placed.low else f"{steady(case)}, after the condenser is clean and the fan turns",
    )


def decides(case: Case, clamp: Meter, reference: Reference) -> bool:
    """True when this reading, with this clamp and this reference, gets a verdict."""
    return place(ratio_band(case.amps, clamp, reference), reference, case.standards).verdict is not Verdict.UNDECIDED


def better_supply(case: Case, clamp: Meter, words: str) -> Decider | None:
    """The volts nearer to the plate, where the band that they add is what stands in the way."""
    extra = case.supply.extra_band
    if not extra or not decides(case, clamp, case.reference.widened(-extra)):
        return None
    near = case.standards.limit("amps.voltage.uncorrected")
    return Decider(
        "Running amps and volts",
        f"as now{words}",
        f"{steady(case)}, with the volts within {near.text} of the {case.supply.whose}",
        "running_volts",
    )


def _better_evidence(case: Case, clamp: Meter, words: str) -> Decider | None:
    """The first piece of rank A to D that would decide, if it names the same expected amps."""
    for field in _BETTER_EVIDENCE:
        piece = piece_with(field, case.reference.amps, case.standards)
        if any(one.field == field for one in case.pieces):
            continue
        better = reference_of((*case.pieces, piece), case.standards).widened(case.supply.extra_band)
        if decides(case, clamp, better):
            return Decider(
                f"Expected amps by {piece.words}",
                f"evidence good to ±{quantity(100.0 * better.above, 'percent', 0)} or better{words}",
                f"for this very compressor, where it also comes to about {quantity(case.reference.amps, 'A', 2)}",
                field,
            )
    return None
