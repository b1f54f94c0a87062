"""The numbers of a discharge, the arithmetic behind them, and what goes with them."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.capacitor_discharge.case import PEAK, Case, seconds_to, volts_after
from calculators.capacitor_discharge.verdict import bled, more_than_its_peak, tool_refused
from calculators.contract import Result, Step, quantity, rounded


def seconds_text(seconds: float) -> str:
    """A time as a technician reads it off a watch, finer where it is short."""
    return quantity(seconds, "s", 1 if seconds >= 10.0 else 2)


def results_of(case: Case) -> Iterator[Result]:
    """What to do first, then what it rests on."""
    touch = case.standards.limit("capacitors.touch_volts").text
    if not tool_refused(case):
        yield Result(
            "hold",
            "Hold the tool on for",
            case.hold,
            "s",
            0,
            f"Then measure: it {case.must_be}. Waiting without the tool discharges nothing.",
        )
    yield Result("start_volts", "Reckoned from", case.start, "V", 0, _start_words(case))
    yield Result(
        "time_constant",
        "Time constant",
        case.time_constant,
        "s",
        3,
        "In each of these times the volts fall to a little over a third.",
    )
    yield Result(
        "time_to_touch", f"Computed time to {touch}", case.computed, "s", 2, "By the marking; the tool is held longer."
    )
    if case.target is not None:
        down = seconds_to(case.target, case.start, case.ohms, case.microfarads)
        label = f"Computed time to {case.target:g} V"
        yield Result("time_to_target", label, down, "s", 3, "By the marking, for a figure of your own.")
    if case.held_for is not None:
        left = volts_after(case.held_for, case.start, case.ohms, case.microfarads)
        label = f"Volts left after {seconds_text(case.held_for)}"
        yield Result("volts_left", label, left, "V", 2, "Reckoned, not measured: measure it.")
    yield Result("energy", "Energy it may hold", case.energy, "J", 2, "What a short would let go in an instant.")
    if not tool_refused(case):
        yield Result(
            "peak_power",
            "Power in the tool at first contact",
            case.peak_watts,
            "W",
            1,
            "It fades with the volts; a wire-wound resistor takes such a pulse, a small film resistor may not.",
        )
        yield Result("peak_current", "Current at first contact", case.start / case.least_ohms, "mA", 1, "At the tips.")
    if bled(case) and case.bleed is not None:
        alone = seconds_to(case.touch, case.start, case.bleed, case.microfarads)
        label = f"By its bleed resistor alone, to {touch}"
        yield Result("bleed_time", label, alone, "s", 1, "If the resistor is whole, which only the voltmeter tells.")


def _start_words(case: Case) -> str:
    if case.before is not None:
        return "Measured, at the high end of the voltmeter's band."
    return "Not measured: the peak of the volts printed on the can is taken. Measure before you begin."


def working_of(case: Case) -> Iterator[Step]:
    """Every line of arithmetic, from the start volts to the hold time."""
    farads = f"{case.microfarads:g} µF"
    ohms, start = quantity(case.ohms, "kilohm", 2), quantity(case.start, "V", 1)
    touch = case.standards.limit("capacitors.touch_volts")
    yield from _start_step(case)
    if case.tool is not None:
        yield Step(
            "Ohms of the tool, worst case for the time",
            "R + % · R + counts · resolution",
            f"{quantity(case.tool.value, 'kilohm', 2)} + {quantity(case.tool.band, 'kilohm', 3)}",
            ohms,
            "jcgm-100",
        )
    yield Step("Time constant", "τ = R · C", f"{ohms} · {farads}", quantity(case.time_constant, "s", 3), "derived")
    yield Step(
        f"Time to {touch.text}",
        "t = τ · ln(U0 / U), 0 when it is below already",
        f"{quantity(case.time_constant, 's', 3)} · ln({start} / {touch.text})",
        quantity(case.computed, "s", 2),
        "derived",
    )
    longer, constants, least = case.hold_candidates
    factor, count = (case.standards.limit(f"capacitors.{name}").text for name in ("hold_factor", "time_constants"))
    if not tool_refused(case):
        yield Step(
            "Hold time",
            f"the longest of {factor} · t, {count} · τ and {quantity(least, 's', 0)}, in whole seconds upward",
            f"{seconds_text(longer)}, {seconds_text(constants)}, {seconds_text(least)}",
            quantity(case.hold, "s", 0),
            "common-practice",
        )
    yield Step("Energy", "E = ½ · C · U0²", f"½ · {farads} · ({start})²", quantity(case.energy, "J", 2), "derived")
    if not tool_refused(case):
        yield Step(
            "Power in the tool at first contact",
            "P = U0² / R, R at the low end of its band",
            f"({start})² / {quantity(case.least_ohms, 'kilohm', 2)}",
            quantity(case.peak_watts, "W", 1),
            "derived",
        )


def _start_step(case: Case) -> Iterator[Step]:
    if case.before is not None:
        meter = case.before.meter
        shown = quantity(case.before.value, "V", 1)
        yield Step(
            "Start volts, worst case",
            "U + % · U + counts · resolution",
            f"{shown} + {meter.percent:g} % · {shown} + {meter.counts:g} · {meter.resolution:g} V",
            quantity(case.start, "V", 1),
            "jcgm-100",
        )
    elif case.rated_volts is not None:
        yield Step(
            "Start volts, worst case",
            "U0 = √2 · printed volts",
            f"{rounded(PEAK, 3)} · {quantity(case.rated_volts, 'V', 0)}",
            quantity(case.start, "V", 1),
            "derived",
        )


def notes_of(case: Case) -> Iterator[str]:
    """What stands beside the numbers."""
    volts, time = (case.standards.limit(f"capacitors.published_{name}") for name in ("volts", "time"))
    if bled(case) and case.bleed is not None:
        by_bleed = seconds_to(volts.value, case.start, case.bleed, case.microfarads)
        yield (
            f"The bleed resistor, if it is whole, brings it to {volts.text} in {seconds_text(by_bleed)}. "
            f"{case.standards.cite('nec-460-6')} asks for {volts.text} in {time.text} of capacitors of installations; "
            "parts of other apparatus are left out of it, so this proves nothing of yours."
        )
        yield "The bleed resistor is not counted in the hold time, for it may be broken."
    else:
        yield "Without a bleed resistor it keeps its charge for hours: waiting is no discharging."
    if more_than_its_peak(case):
        yield "It held more than the peak of the volts printed on it: see whether it is the right part."
    if case.before is None and case.rated_volts is not None:
        yield "In service a run capacitor stands above the supply, so the supply's peak is not taken for it."
    if case.before is not None and case.before.value == 0.0:
        yield "Zero from the start may be an empty can or a tip without contact: do every step all the same."
    yield "A double can: each section to common, the outer terminals to each other, and each terminal to the case."
    yield "Through a resistor, never through a screwdriver or a wire; meter and tool proved before and after."
