"""What would decide a capacitor that is undecided: the least change of an instrument, each tried before it is named."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from calculators.capacitor_value.case import Case, Live
from calculators.findings import Decider, Verdict
from calculators.finer_meter import BETTER_PERCENTS, finer_meter
from calculators.readings import Meter, Reading

_BRIDGE_PERCENTS = (*BETTER_PERCENTS, 0.2, 0.1)  # a bench capacitance bridge promises the last two
_BETTER_FREQUENCY = (0.5, 0.1)  # percent; what a meter's hertz range promises
_STEADY = "one lead of this capacitor in the clamp, motor running steadily, both displays standing still"
_ALONE = "discharged, alone, at room temperature, read twice"


def meter_decider(case: Case, measured: Reading) -> Decider:
    """A finer or better capacitance meter; a bridge where no handheld one decides."""

    def decides(meter: Meter) -> bool:
        again = Reading.taken(measured.value, meter)
        return case.marking.place(again.value, again.low, again.high).verdict is not Verdict.UNDECIDED

    finer = finer_meter(measured.meter, decides, "capacitance_meter", "uF", percents=_BRIDGE_PERCENTS)
    if finer is not None:
        return Decider("Measured capacitance", finer.words, _ALONE, finer.enter_in, finer.entry)
    return Decider(
        "Measured capacitance, beside a new capacitor of the same marking",
        "a bench bridge; it is nearer to the end than a handheld meter can tell",
        _ALONE,
        "measured",
    )


def live_decider(case: Case, live: Live) -> Decider:
    """A finer clamp, voltmeter or frequency if one of them is enough; else the meter off the circuit."""
    return (
        _finer_live_meter(case, live, "clamp", "A", "Amps through the capacitor")
        or _finer_live_meter(case, live, "voltmeter", "V", "Volts across the capacitor")
        or _better_frequency(case, live)
        or Decider(
            "Capacitance by a capacitance meter",
            "2 % + 5 counts of 0.01 µF or better",
            "unplugged, proved dead, discharged, its leads off",
            "measured",
        )
    )


def _decided(case: Case, live: Live) -> bool:
    return case.marking.place(live.value, live.low, live.high).verdict is not Verdict.UNDECIDED


def _finer_live_meter(case: Case, live: Live, name: str, unit: str, reading: str) -> Decider | None:
    now = live.amps.meter if name == "clamp" else live.volts.meter
    finer = finer_meter(now, lambda meter: _decided(case, live.with_meter(name, meter)), name, unit)
    if finer is None or finer.entry is None:
        return None
    return Decider(reading, finer.words, _STEADY, finer.enter_in, finer.entry)


def _better_frequency(case: Case, live: Live) -> Decider | None:
    for percent in _BETTER_FREQUENCY:
        if percent < live.frequency_percent and _decided(case, replace(live, frequency_percent=percent)):
            words = f"measured, good to {percent:g} %"
            return Decider("Supply frequency", words, _STEADY, "frequency_band", f"{percent:g}")
    return None


def volts_decider(volts: Reading, placed: Callable[[Reading], Verdict]) -> Decider:
    """A finer voltmeter for the volts across it."""

    def decides(meter: Meter) -> bool:
        return placed(Reading.taken(volts.value, meter)) is not Verdict.UNDECIDED

    finer = finer_meter(volts.meter, decides, "voltmeter", "V")
    if finer is not None:
        return Decider("Volts across the capacitor", finer.words, _STEADY, finer.enter_in, finer.entry)
    words = "a bench voltmeter; it is too near to the print for a handheld one"
    return Decider("Volts across the capacitor", words, _STEADY, "capacitor_volts")
