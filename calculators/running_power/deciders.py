"""What would decide watts that cannot be judged: a finer meter, better volts, better evidence, or another quantity."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from calculators.contract import quantity
from calculators.findings import Decider
from calculators.finer_meter import FINER_STEPS, Finer, finer_meter
from calculators.readings import Meter
from calculators.running_power.case import WORDS, Case, Evidence

_WATT_STEPS = (1.0, 0.1)
_BETTER = (("record_watts", "power.band.record"), ("map_watts", "power.band.map"), ("watts", "power.band.data_sheet"))
_CALLED = {"wattmeter": "Running watts", "clamp": "Running amps", "voltmeter": "Running volts"}
Decides = Callable[[Case], bool]


def steady(case: Case) -> str:
    """How the watts are to be read again."""
    settle = case.standards.limit("amps.run_settle_minutes").text
    return f"watts, volts and amps in one moment, steady, {settle} or longer after the start"


def decider_for(case: Case, decides: Decides, otherwise: Decider) -> Decider:
    """The first of these that would decide; else another quantity."""
    return (
        _finer(case, decides)
        or _better_supply(case, decides)
        or _better_watts(case, decides)
        or _better_factor(case, decides)
        or otherwise
    )


def other_quantity(case: Case, low: bool) -> Decider:
    """What tells more where no reading of watts can decide."""
    if low:
        return Decider(
            "Frost pattern and line temperatures",
            "a contact thermometer that reads to 1 °C (2 °F)",
            f"{steady(case)}, both fans turning, the condenser clean",
        )
    return Decider(
        "Winding temperature by resistance, and the amps against the expected ones",
        "0.01 Ω, and a clamp good to a few percent",
        f"{steady(case)}, after the condenser is clean and the fan turns",
    )


def _finer(case: Case, decides: Decides) -> Decider | None:
    for name, unit, steps in (
        ("wattmeter", "W", _WATT_STEPS),
        ("clamp", "A", FINER_STEPS),
        ("voltmeter", "V", FINER_STEPS),
    ):
        found = _finer_one(case, decides, name, unit, steps)
        if found is not None:
            turns = ", or turns of the lead through the clamp" if name == "clamp" else ""
            return Decider(_CALLED[name], f"{found.words}{turns}", steady(case), found.enter_in, found.entry)
    return None


def _finer_one(case: Case, decides: Decides, name: str, unit: str, steps: tuple[float, ...]) -> Finer | None:
    meters = {"wattmeter": case.wattmeter, "clamp": case.clamp, "voltmeter": case.voltmeter}

    def tried(meter: Meter) -> bool:
        if name == "wattmeter":
            return decides(replace(case, wattmeter=meter))
        return decides(replace(case, clamp=meter) if name == "clamp" else replace(case, voltmeter=meter))

    return finer_meter(meters[name], tried, name, unit, steps=steps)


def _better_supply(case: Case, decides: Decides) -> Decider | None:
    running = case.supply.running
    if running is None or not case.supply.extra_band:
        return None
    on_plate = replace(case.supply, running=replace(running, value=case.supply.plate))
    if not decides(replace(case, supply=on_plate)):
        return None
    near = case.standards.limit("amps.voltage.uncorrected").text
    return Decider(
        "Running watts, volts and amps",
        "as now",
        f"{steady(case)}, the volts within {near} of the plate",
        "running_volts",
    )


def _better_watts(case: Case, decides: Decides) -> Decider | None:
    best = case.best
    if best is None:
        return None
    for field, key in _BETTER:
        limit = case.standards.limit(key)
        piece = Evidence(field, best.watts, limit.value / 100.0)
        if any(one.field == field for one in case.evidence) or not decides(
            replace(case, evidence=(*case.evidence, piece))
        ):
            continue
        return Decider(
            f"Expected watts by {WORDS[field]}",
            f"evidence good to ±{limit.text}",
            f"for this very compressor, where it also comes to about {quantity(best.watts, 'W', 0)}",
            field,
        )
    return None


def _better_factor(case: Case, decides: Decides) -> Decider | None:
    usual = case.usual_power_factor
    if usual is None or case.sheet_power_factor is not None:
        return None
    if not decides(replace(case, sheet_power_factor=usual[0])):
        return None
    spread = case.standards.limit("power.factor_spread.data_sheet").text
    return Decider(
        "Power factor of the data sheet or of an earlier record",
        f"good to ±{spread}",
        f"for this very compressor, where it also comes to about {usual[0]:g}",
        "power_factor",
    )
