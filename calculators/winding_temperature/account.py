"""The numbers of the winding-temperature check and the arithmetic behind them, as a trainee would write it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from calculators.contract import Result, Step, quantity, rounded
from calculators.units import from_base
from calculators.winding_temperature.case import Case, Estimate
from calculators.winding_temperature.findings import when

IEC = "iec-60335-1-clause-11"


def rise_over_room(best: Estimate, cold: float, end: float) -> float:
    """The rise over the room at the end of the run, K: (R2 − R1)/R1 (k + t1) − (t2 − t1), IEC 60335-1 clause 11."""
    return (best.line.ohms - best.cold) / best.cold * (best.zero_resistance + cold) - (end - cold)


def results_of(case: Case, end: float | None) -> Iterator[Result]:
    """The numbers, in the order they are printed."""
    best = case.best
    banded = not math.isinf(case.high)
    yield Result(
        "winding_temperature",
        f"Winding temperature {when(case)}",
        best.celsius,
        "degC",
        1,
        "The average of the copper; its hottest place is warmer.",
        case.low if banded else None,
        case.high if banded else None,
        also=(("degF", 0),),
    )
    yield Result(
        "temperature_gain",
        "Hotter than at the cold reading",
        best.celsius - case.cold_temperature,
        "K",
        1,
        "How much the winding warmed up.",
        also=(("degF_diff", 0),),
    )
    if end is not None:
        yield Result(
            "rise_over_room",
            "Rise over the room at the end",
            rise_over_room(best, case.cold_temperature, end),
            "K",
            1,
            "What the run alone adds to the room's temperature.",
            also=(("degF_diff", 0),),
        )
    yield Result(
        "ohms_at_switch_off",
        "Winding resistance at switch-off" if len(case.times) > 1 else "Winding resistance as read hot",
        best.line.ohms,
        "ohm",
        3,
        "Leads taken off." if case.lead is not None else "The leads are still in it.",
    )
    if len(case.times) > 1:
        yield Result(
            "cooling",
            "Cooling after switch-off",
            _cooling(best),
            "K",
            1,
            "Kelvin in the first minute, by the line through the readings. It was faster still at the very first.",
        )
    yield Result(
        "band",
        "Band of the temperature",
        best.band,
        "K",
        1,
        "How far the temperature may be off, either way, by meter and thermometer.",
        also=(("degF_diff", 0),),
    )
    limit = case.insulation_limit
    if limit is not None:
        yield Result(
            "room_to_insulation",
            f"Room below {limit.text} for {case.insulation} insulation",
            limit.value - best.celsius,
            "K",
            1,
            "Below zero it is above the limit of its insulation.",
        )


def _cooling(best: Estimate) -> float:
    """Kelvin that the line falls in the first minute."""
    fall = (best.line.ohms - best.line.at(60.0)) / best.line.ohms
    return fall * (best.zero_resistance + best.celsius)


def working_of(case: Case, end: float | None) -> Iterator[Step]:
    """Every line of arithmetic, from the leads to the band."""
    best = case.best
    yield from _nulling(case, best)
    if len(case.times) > 1:
        yield _line_step(case, best)
    zero, cold = f"{best.zero_resistance:g}", rounded(case.cold_temperature, 1)
    metal = "copper" if case.metal == "unknown" else case.metal
    yield Step(
        f"Winding temperature ({metal}, k = {zero})",
        "T2 = (R0 / R1) · (k + T1) − k",
        f"({rounded(best.line.ohms, 3)} / {rounded(best.cold, 3)}) · ({zero} + {cold}) − {zero}",
        quantity(best.celsius, "degC", 1),
        IEC,
    )
    if end is not None:
        at_end = rounded(end, 1)
        yield Step(
            "Rise over the room",
            "Δt = (R0 − R1)/R1 · (k + t1) − (t2 − t1)",
            f"({rounded(best.line.ohms, 3)} − {rounded(best.cold, 3)})/{rounded(best.cold, 3)} · ({zero} + {cold}) −"
            f" ({at_end} − {cold})",
            quantity(rise_over_room(best, case.cold_temperature, end), "K", 1),
            IEC,
        )
    yield from _band_steps(case, best)


def _nulling(case: Case, best: Estimate) -> Iterator[Step]:
    if case.lead is None:
        return
    lead = rounded(case.lead, 3)
    readings = ", ".join(rounded(one, 3) for one in (case.cold_ohms, *case.hot_ohms))
    nulled = ", ".join(rounded(one - case.lead, 3) for one in (case.cold_ohms, *case.hot_ohms))
    yield Step(
        "Take the leads off, cold reading first",
        "R = reading − leads",
        f"{readings}, each − {lead}",
        f"{nulled} Ω",
        "derived",
    )


def _line_step(case: Case, best: Estimate) -> Step:
    lead = case.lead or 0.0
    points = ", ".join(
        f"{rounded(time, 0)} s {rounded(ohms - lead, 3)} Ω"
        for time, ohms in zip(case.times, case.hot_ohms, strict=True)
    )
    least = case.standards.limit("winding_temperature.least_readings").value
    fitted = "least squares" if len(case.times) >= least else f"a line through fewer than {least:g} readings"
    return Step(
        "Ohms at switch-off",
        f"ln R = ln R0 + b · t, {fitted}",
        points,
        f"R0 = {quantity(best.line.ohms, 'ohm', 3)}, b = {rounded(1e6 * best.line.slope, 0)} · 10⁻⁶ for each second",
        "derived",
    )


def _band_steps(case: Case, best: Estimate) -> Iterator[Step]:
    meter = case.meter
    resolution = f"{from_base(meter.resolution, 'ohm'):.6g} Ω"
    shared = (
        "one meter, one range: its percentage is shared and cancels in R0/R1; only the counts are independent"
        if case.same_meter
        else "not known to be one meter on one range: its percentage counts twice, as independent"
    )
    parts = ", ".join(f"{part.words} {rounded(part.kelvin, 2)}" for part in best.parts)
    yield Step(
        "Parts of the band",
        "(k + T2) · part of each ohms; (R0 / R1) · thermometer",
        f"ohmmeter {meter.percent:g} % + {meter.counts:g} · {resolution}, thermometer"
        f" {quantity(case.thermometer_band, 'K', 1)}; {shared}",
        f"{parts} K",
        "jcgm-100",
    )
    squares = " + ".join(f"{rounded(part.kelvin, 2)}²" for part in best.parts)
    yield Step(
        "Band of the temperature (in quadrature, independent parts)",
        "U = √(Σ part²)",
        f"√({squares})",
        f"±{quantity(best.band, 'K', 1)} (standard uncertainty U/√3 = {quantity(best.band / math.sqrt(3.0), 'K', 1)})",
        "jcgm-100",
    )
    if case.lead is None and not math.isinf(case.high):
        most = case.standards.limit("windings.lead_most")
        yield Step(
            "Upper end with leads still in the readings",
            "T2 once more with R − leads, and its band",
            f"leads of {most.text} taken off cold and hot",
            f"up to {quantity(case.high, 'degC', 1)}",
            "derived",
        )
    if case.metal == "unknown":
        yield Step(
            "Lower end with the metal not known",
            "T2 once more with k = 225 for aluminium, less its band",
            f"k = {best.zero_resistance:g} gives {quantity(best.celsius, 'degC', 1)}",
            f"down to {quantity(case.low, 'degC', 1)}",
            IEC,
        )
