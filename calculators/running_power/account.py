"""The numbers of running watts and power factor, the arithmetic behind them, and what stands beside them."""

from __future__ import annotations

import math
from collections.abc import Iterator

from calculators.contract import Result, Step, quantity, rounded
from calculators.expected_amps.shift import temperatures_entered
from calculators.inputs import Entered
from calculators.limits import InForce
from calculators.running_power.case import Case
from calculators.running_power.inputs import RUN_CAPACITOR


def results_of(case: Case) -> Iterator[Result]:
    """The numbers, in the order they are printed."""
    yield Result(
        "compressor_watts",
        "Watts of the compressor",
        case.watts,
        "W",
        1,
        "What the meter shows, less the other loads.",
        max(case.watts - case.watts_band, 0.0),
        case.watts + case.watts_band,
    )
    yield from _factor_results(case)
    best, ratio = case.best, case.ratio
    if best is not None and case.conflict is None:
        yield Result(
            "expected_watts",
            "Expected watts",
            best.watts,
            "W",
            0,
            f"What it should take, by {best.words}.",
            best.low,
            best.high,
        )
        if ratio is not None:
            yield Result(
                "watts_ratio",
                "Measured over expected watts",
                ratio.value,
                "ratio",
                2,
                "1 is exactly what was expected; the band says how far that can be trusted.",
                ratio.low,
                ratio.high,
            )
    if case.amps_ratio is not None:
        yield Result(
            "amps_ratio",
            "Measured over expected amps",
            case.amps_ratio.value,
            "ratio",
            2,
            "Beside the watts: amps can look right while watts do not.",
            case.amps_ratio.low,
            case.amps_ratio.high,
        )


def _factor_results(case: Case) -> Iterator[Result]:
    factor, volt_amps = case.power_factor, case.volt_amps
    if factor is None or volt_amps is None:
        return
    yield Result(
        "power_factor",
        "Power factor",
        factor.value,
        "ratio",
        3,
        "The part of the volt-amps that does work; it falls when a motor has little to do.",
        factor.low,
        factor.high,
    )
    yield Result("volt_amps", "Volt-amps", volt_amps, "VA", 1, "Volts times amps; not watts.")
    if volt_amps >= case.watts:
        reactive = math.sqrt(volt_amps**2 - case.watts**2)
        yield Result("reactive", "Reactive power", reactive, "var", 1, "What only magnetises, and comes back.")
    usual = case.usual_power_factor
    if usual is not None and case.drop is not None:
        origin = "of the sheet or record" if case.sheet_power_factor is not None else "usual for the motor type"
        yield Result(
            "power_factor_drop",
            "Power factor below the expected",
            case.drop.value,
            "ratio",
            2,
            f"Against {usual[0]:g}, {origin}; below zero it is higher than expected.",
            case.drop.low,
            case.drop.high,
        )


def working_of(case: Case) -> Iterator[Step]:
    """Every line of arithmetic."""
    meter, shown = case.wattmeter, quantity(case.shown, "W", 1)
    yield Step(
        "Watts of the compressor",
        "P = shown − other loads",
        f"{shown} − {quantity(case.others, 'W', 1)}",
        quantity(case.watts, "W", 1),
        "common-practice",
    )
    yield Step(
        "Band of the wattmeter",
        "u = % · shown + counts · resolution",
        f"{meter.percent:g} % · {shown} + {meter.counts:g} · {meter.resolution:g} W",
        f"±{quantity(case.watts_band, 'W', 1)} (±{quantity(100.0 * case.watts_band / case.watts, 'percent', 1)} of P)",
        "euramet-cg-15",
    )
    yield from _factor_steps(case)
    best, ratio = case.best, case.ratio
    if best is not None and ratio is not None and case.conflict is None:
        yield from best.steps
        yield Step(
            "Measured over expected watts",
            "r = P / P expected",
            f"{quantity(case.watts, 'W', 1)} / {quantity(best.watts, 'W', 0)}",
            rounded(ratio.value, 2),
            "derived",
        )
        half, own = rounded(100.0 * best.band, 1), rounded(100.0 * case.watts_band / case.watts, 1)
        yield Step(
            "Its band (root of the sum of squares)",
            "r · (1 ± √(h² + u²))",
            f"{rounded(ratio.value, 2)} · (1 ± √({half}² + {own}²) %)",
            f"{rounded(ratio.low, 2)} to {rounded(ratio.high, 2)}",
            "jcgm-100",
        )


def _factor_steps(case: Case) -> Iterator[Step]:
    factor, volt_amps, amps, volts = case.power_factor, case.volt_amps, case.amps, case.volts
    if factor is None or volt_amps is None or amps is None or volts is None:
        return
    yield Step(
        "Volt-amps",
        "S = U · I",
        f"{quantity(volts, 'V', 1)} · {quantity(amps, 'A', 3)}",
        quantity(volt_amps, "VA", 1),
        "derived",
    )
    yield Step(
        "Power factor",
        "PF = P / S",
        f"{quantity(case.watts, 'W', 1)} / {quantity(volt_amps, 'VA', 1)}",
        rounded(factor.value, 3),
        "derived",
    )
    parts = (case.watts_band / case.watts, case.clamp.band(amps) / amps, case.voltmeter.band(volts) / volts)
    yield Step(
        "Its band (root of the sum of squares)",
        "PF · √(u_P² + u_I² + u_U²)",
        f"{rounded(factor.value, 3)} · √({'² + '.join(rounded(100.0 * one, 1) for one in parts)}²) %",
        f"±{rounded(factor.high - factor.value, 3)}",
        "jcgm-100",
    )
    usual = case.usual_power_factor
    if usual is not None and case.drop is not None:
        yield Step(
            "Power factor below the expected",
            "PF expected − PF",
            f"{usual[0]:g} ±{usual[1]:g} − {rounded(factor.value, 3)}",
            f"{rounded(case.drop.value, 2)} ({rounded(case.drop.low, 2)} to {rounded(case.drop.high, 2)})",
            "derived" if case.sheet_power_factor is not None else "trade-memory",
        )


def notes_of(case: Case, entered: Entered, standards: InForce) -> Iterator[str]:
    """What was not used, and what watts do not show."""
    if case.best is not None and len(case.evidence) > 1:
        yield f"The watts were compared with {case.best.words}, the figure with the smallest band."
    if not temperatures_entered(entered) and any(one.field == "watts" for one in case.evidence):
        change = standards.limit("amps.shift.r134a_r600a").text
        yield (
            "Data-sheet watts hold at the sheet's own temperatures. For each kelvin that the evaporator is colder they"
            f" are about {change} less with R134a or R600a; enter the temperatures to reckon with it."
        )
    if entered.number("start_lead_amps") is not None and case.motor_type == RUN_CAPACITOR:
        yield (
            "The start lead was not judged: in a motor with run capacitor it carries the capacitor's current all the"
            " time."
        )
    if case.amps_unclear:
        yield (
            "Other loads were taken off the watts. If the amps hold them too, as on a plug-in meter, the power factor"
            " is really higher than this one."
        )
    if case.power_factor is None:
        yield "Without amps of the compressor in the same moment there is no power factor, and watts alone show half."
    if not (case.supply.plate_frequency and case.supply.frequency):
        yield "Plate and supply frequency were not both read: this holds only if they are the same."
    yield "Watts that look right do not clear a compressor; low watts condemn none. A licensed pump test comes last."
