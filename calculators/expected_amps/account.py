"""The numbers of the running-amps check and the arithmetic behind them, as a trainee would write it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from calculators.contract import Result, Step, quantity, rounded
from calculators.expected_amps.evidence import Piece, rated_load_of
from calculators.expected_amps.ratio import Case, RatioBand
from calculators.expected_amps.reference import Reference
from calculators.limits import InForce
from calculators.running_condition import Supply


def results_of(
    pieces: tuple[Piece, ...], reference: Reference | None, supply: Supply, case: Case | None, standards: InForce
) -> Iterator[Result]:
    """The numbers, in the order they are printed; reference is None where the evidence contradicts itself."""
    if reference is None:
        for piece in pieces:
            yield Result(
                f"from_{piece.field}",
                f"By {piece.words}",
                piece.amps,
                "A",
                2,
                "One of the figures that contradict each other.",
                piece.low,
                piece.high,
            )
    else:
        yield from _expected_results(reference, standards)
    rated = rated_load_of(pieces)
    if rated is not None:
        stop = standards.limit("amps.stop_ratio")
        yield Result(
            "unplug_above",
            "Unplug if it stays above",
            stop.value * rated,
            "A",
            2,
            f"{stop.text} times the rated-load amps on the compressor.",
        )
    if supply.running is not None:
        yield Result(
            "volts_off_plate",
            "Running volts off the plate",
            supply.departure(supply.running.value),
            "percent",
            1,
            "How far the supply is from the volts the motor was made for.",
        )
    if case is not None and reference is not None:
        yield from ratio_results(case.band)


def _expected_results(reference: Reference, standards: InForce) -> Iterator[Result]:
    if reference.at_most:
        yield Result(
            "expected_amps",
            "Expected running amps, at most",
            reference.amps,
            "A",
            2,
            "The compressor draws less than the whole cabinet; how much less the plate does not say.",
        )
        return
    plain = f"What a good motor draws, by {reference.words}."
    if reference.ranks == "C":
        low, high = (standards.value(f"amps.settled_{end}") * reference.amps for end in ("low", "high"))
        plain = (
            f"A figure for heavy load: a settled cabinet usually draws {rounded(low, 2)} to {quantity(high, 'A', 2)}."
        )
    yield Result("expected_amps", "Expected running amps", reference.amps, "A", 2, plain, reference.low, reference.high)
    if reference.below == reference.above:
        yield Result(
            "half_band",
            "Half-band of the expected amps",
            100.0 * reference.above,
            "percent",
            1,
            "How far the expected amps themselves may be off; the better the evidence, the smaller.",
        )
    if reference.weak:
        return
    yield Result(
        "called_low_below",
        "Called low below",
        reference.low_limit.value * reference.amps,
        "A",
        2,
        "A reading under this, with its whole band, is low.",
    )
    high_limit = standards.value("amps.high_ratio")
    yield Result(
        "called_high_above",
        "Called high above",
        high_limit * reference.amps,
        "A",
        2,
        "A reading over this, with its whole band, is high.",
    )


def ratio_results(band: RatioBand) -> Iterator[Result]:
    """The measured amps against the expected ones, with the bands that this rests on."""
    yield Result(
        "ratio",
        "Measured over expected",
        band.value,
        "ratio",
        2,
        "1 is exactly what was expected; the band says how far that can be trusted.",
        band.low,
        band.high,
    )
    yield Result(
        "clamp_band",
        "Band of the clamp at this reading",
        100.0 * band.clamp,
        "percent",
        1,
        "How far the clamp itself may be off here; small currents on a coarse clamp are mostly band.",
    )
    yield Result(
        "whole_band",
        "Band of evidence and clamp together",
        100.0 * band.whole,
        "percent",
        1,
        "Both bands in one, as the root of the sum of their squares.",
    )


def working_of(
    pieces: tuple[Piece, ...], plain: Reference, reference: Reference | None, supply: Supply, case: Case | None
) -> Iterator[Step]:
    """Every line of arithmetic, from the evidence to the band of the ratio."""
    for piece in pieces:
        yield from piece.steps
    yield from plain.steps
    hertz = f"plate {supply.plate_frequency or 'not read'}, supply {supply.frequency or 'not read'}"
    known = supply.plate_frequency and supply.frequency
    yield Step(
        "Frequency",
        "plate = supply",
        hertz,
        ("differ" if supply.wrong_frequency else "agree") if known else "taken as equal",
        "common-practice",
    )
    if supply.running is not None:
        extra = (
            f"half-band + {quantity(100.0 * supply.extra_band, 'percent', 0)}" if supply.extra_band else "no correction"
        )
        plate = quantity(supply.plate, "V", 1)
        off = quantity(supply.departure(supply.running.value), "percent", 1)
        yield Step(
            "Running volts off the plate",
            "|U − Un| / Un",
            f"|{quantity(supply.running.value, 'V', 1)} − {plate}| / {plate}",
            f"{off}: {extra}",
            "common-practice",
        )
    if case is not None:
        yield clamp_step(case)
        if reference is not None:
            yield from ratio_steps(case, reference)


def clamp_step(case: Case) -> Step:
    """What the clamp itself may be off by at this reading."""
    clamp, amps = case.clamp, quantity(case.amps, "A", 2)
    part = 100.0 * case.band.clamp
    standard = quantity(part / math.sqrt(3.0), "percent", 1)
    return Step(
        "Band of the clamp",
        "u = (% · I + counts · resolution) / I",
        f"({clamp.percent:g} % · {amps} + {clamp.counts:g} · {clamp.resolution:g} A) / {amps}",
        f"±{quantity(part, 'percent', 1)} (standard uncertainty u/√3 = {standard})",
        "jcgm-100",
    )


def ratio_steps(case: Case, reference: Reference) -> Iterator[Step]:
    """The ratio and both ends of its band."""
    band = case.band
    up, down, meter = (rounded(100.0 * part, 1) for part in (reference.above, reference.below, band.clamp))
    yield Step(
        "Measured over expected",
        "r = I / I expected",
        f"{quantity(case.amps, 'A', 2)} / {quantity(reference.amps, 'A', 2)}",
        rounded(band.value, 2),
        "derived",
    )
    yield Step(
        "Low end of r",
        "r · (1 − U), U = √(h² + u²)",
        f"{rounded(band.value, 2)} · (1 − √({up}² + {meter}²) %)",
        rounded(band.low, 2),
        "jcgm-100",
    )
    yield Step(
        "High end of r",
        "r · (1 + U), U = √(h² + u²)",
        f"{rounded(band.value, 2)} · (1 + √({down}² + {meter}²) %)",
        rounded(band.high, 2),
        "jcgm-100",
    )
