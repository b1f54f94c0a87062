"""The numbers of a supply check, and their arithmetic as a trainee would write it."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.contract import Result, Step, quantity, rounded
from calculators.readings import Reading
from calculators.supply_check.case import Case
from calculators.supply_check.system import system_of
from calculators.voltage_drop.account import source_steps

_READINGS = (("idle", "Idle", "idle_volts"), ("running", "Running", "running_volts"))
_LOWEST = (("lowest", "Start", "lowest_volts"), ("second_lowest", "Start at the second place", "second_lowest_volts"))


def results(case: Case) -> Iterator[Result]:
    """Every number that follows from what was entered."""
    system = system_of(case)
    if system is not None:
        against = case.plate.low if system.volts < case.plate.low else case.plate.high
        off = 100.0 * (system.volts - against) / against
        plain = "How far the system's own volts lie above the plate; below it where the figure is negative."
        yield Result("system_departure", "System against plate", off, "percent", 1, plain)
    for name, label, field in _READINGS:
        reading = case.entered.reading(field)
        if reading is not None:
            yield from _levels(case, name, label, reading)
    for name, label, field in _LOWEST:
        reading = case.entered.reading(field)
        if reading is not None:
            plain = "The lowest volts in percent of the plate, of its low end where it is a range."
            yield _percent(f"{name}_percent", f"{label}: of the plate", reading, case.plate.low, plain)
            torque = (reading.value / case.plate.low) ** 2
            plain = "Volts over plate volts, squared: what is left of the torque that it starts with."
            yield Result(f"{name}_torque", f"{label}: torque left", torque, "ratio", 2, plain)
    yield from _stiffness(case)


def _levels(case: Case, name: str, label: str, reading: Reading) -> Iterator[Result]:
    plate = case.plate
    if not plate.ranged:
        yield _percent(
            f"{name}_percent", f"{label}: of the plate", reading, plate.low, "In percent of the plate volts."
        )
        return
    for end, volts, word in (("low", plate.low, "least"), ("high", plate.high, "most")):
        plain = f"In percent of {volts:g} V, the {end} end, which judges the {word}."
        yield _percent(f"{name}_percent_{end}", f"{label}: of the plate's {end} end", reading, volts, plain)


def _percent(name: str, label: str, reading: Reading, plate_volts: float, plain: str) -> Result:
    low, value, high = (100.0 * volts / plate_volts for volts in (max(reading.low, 0.0), reading.value, reading.high))
    return Result(name, label, value, "percent", 1, plain, low, high)


def _stiffness(case: Case) -> Iterator[Result]:
    source, again, predicted = case.source, case.start_source, case.predicted
    if source is not None:
        part = source.part
        low, high = part.ohms.real - part.below, part.ohms.real + part.above
        plain = "Everything behind the outlet, there and back, by two loads."
        yield Result("source_ohms", "Source", part.ohms.real, "ohm", 3, plain, low, high, (("milliohm", 0),))
    if again is not None:
        plain = "The same by the start itself: the fall of the volts over the amps that the clamp held."
        also = (("milliohm", 0),)
        yield Result(
            "start_source_ohms", "Source, by the start", again.value, "ohm", 3, plain, again.low, again.high, also
        )
    bound = case.predicted_bound
    if predicted is None or bound is None:
        return
    exact = case.entered.number("start_power_factor") is not None
    which = "with its power factor" if exact else "the least they can be, for want of a power factor"
    plain = f"The stalled motor as a fixed impedance of plate volts over LRA, {which}."
    yield Result(
        "predicted_start_volts", "Foretold for the start", predicted.value, "V", 1, plain, predicted.low, predicted.high
    )
    share = predicted.times(100.0 / case.plate.low)
    plain = "The same in percent of the plate, of its low end where it is a range."
    yield Result(
        "predicted_start_percent", "Foretold: of the plate", share.value, "percent", 1, plain, share.low, share.high
    )
    plain = (
        "As if the motor took its start amps whatever the volts. It takes less when it gets less, so it gets no less."
    )
    yield Result("predicted_start_bound", "Foretold: pessimistic bound, constant current", bound, "V", 1, plain)
    plain = "Volts over plate volts, squared."
    yield Result(
        "predicted_torque", "Foretold: torque left", (predicted.value / case.plate.low) ** 2, "ratio", 2, plain
    )


# --- working ----------------------------------------------------------------------------------------


def working(case: Case) -> Iterator[Step]:
    """The arithmetic, line by line."""
    plate = case.plate
    for _, label, field in (*_READINGS, *_LOWEST):
        value = case.entered.number(field)
        if value is None:
            continue
        ends = (plate.low, plate.high) if plate.ranged and field in ("idle_volts", "running_volts") else (plate.low,)
        for volts in ends:
            put_in = f"100 × {rounded(value, 1)} / {volts:g}"
            yield Step(f"{label}: of {volts:g} V", "100 × U / Un", put_in, _share(value, volts), "derived")
    lowest = case.entered.number("lowest_volts")
    if lowest is not None:
        put_in = f"({rounded(lowest, 1)} / {plate.low:g})²"
        yield Step("Torque left at the start", "(U / Un)²", put_in, rounded((lowest / plate.low) ** 2, 2), "derived")
    yield from source_steps(case.source, case.entered)
    yield from _start_source_steps(case)
    yield from _predicted_steps(case)


def _share(value: float, volts: float) -> str:
    return quantity(100.0 * value / volts, "percent", 1)


def _start_source_steps(case: Case) -> Iterator[Step]:
    again, lowest, amps = case.start_source, case.entered.number("lowest_volts"), case.entered.number("inrush_amps")
    if again is None or lowest is None or amps is None:
        return
    put_in = f"({rounded(case.idle.value, 2)} − {rounded(lowest, 2)}) / {rounded(amps, 2)}"
    formula = "R = (U0 − Umin) / I; volts and clamp each at their worst for the band"
    yield Step("Source resistance by the start", formula, put_in, quantity(again.value, "ohm", 3), "derived")


def _predicted_steps(case: Case) -> Iterator[Step]:
    source, amps, predicted, bound = (
        case.source,
        case.entered.number("start_amps"),
        case.predicted,
        case.predicted_bound,
    )
    if source is None or amps is None or predicted is None or bound is None:
        return
    idle, ohms, start = rounded(case.idle.value, 1), rounded(source.part.ohms.real, 3), rounded(amps, 2)
    put_in = f"{idle} / (1 + {ohms} × {start} / {case.plate.low:g})"
    formula = "U = U0 / (1 + R × LRA / Un); for the band volts and ohms each at their worst"
    cosine = case.entered.number("start_power_factor")
    if cosine is not None:
        motor = rounded(case.plate.low / amps, 2)
        put_in = f"U0 {idle}, M {motor}, R {ohms}, cos φ {rounded(cosine, 2)}"
        formula = "U = U0 × M / |M (cos φ + j sin φ) + R|, M = Un / LRA"
    yield Step("Volts foretold for the start", formula, put_in, quantity(predicted.value, "V", 1), "derived")
    formula = "U0 − R × LRA, or the volts above where they are less"
    yield Step("Pessimistic bound", formula, f"{idle} − {ohms} × {start}", quantity(bound, "V", 1), "derived")
