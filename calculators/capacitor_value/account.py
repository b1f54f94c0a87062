"""The numbers of the capacitor check, the arithmetic behind them, and the picture."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.capacitor_value.case import Case, Live, amps_through
from calculators.capacitor_value.conduction import conduction_steps
from calculators.contract import Figure, Result, Step, quantity, rounded
from calculators.drawing import Mark, scale_figure
from calculators.readings import Reading


def results_of(case: Case) -> Iterator[Result]:
    """What it may measure, what it measured, and what it carries while it runs."""
    marking, digits = case.marking, case.marking.digits
    why = f"Of {marking.between}."
    yield Result("least", "Called low below", marking.least, "uF", digits, f"{why} The whole band has to be below.")
    yield Result("most", "Called high above", marking.most, "uF", digits, f"{why} The whole band has to be above.")
    measured = case.measured
    if measured is not None and not measured.open_line:
        yield Result(
            "measured",
            "Measured capacitance",
            measured.value,
            "uF",
            digits,
            "What the meter showed; the true value lies somewhere in the band.",
            max(measured.low, 0.0),
            measured.high,
        )
        if marking.single:
            yield _off_the_mark("off_the_mark", "Off the marked value", case, measured.value)
    if case.live is not None:
        yield from _live_results(case, case.live)


def _off_the_mark(name: str, label: str, case: Case, value: float) -> Result:
    percent = 100.0 * (value - case.marking.marked) / case.marking.marked
    return Result(name, label, percent, "percent", 1, "A minus sign means that it has less than the can says.")


def _live_results(case: Case, live: Live) -> Iterator[Result]:
    marking = case.marking
    yield Result(
        "live_capacitance",
        "Capacitance by amps and volts",
        live.value,
        "uF",
        marking.digits,
        "What carries this current at these volts; clamp, voltmeter and frequency are in the band.",
        max(live.low, 0.0),
        live.high,
    )
    if marking.single:
        yield _off_the_mark("live_off_the_mark", "By amps and volts, off the marked value", case, live.value)
    ends = [amps_through(one, live.volts.value, live.hertz) for one in (marking.marked, marking.least, marking.most)]
    yield Result(
        "expected_amps",
        "Amps of the marked value at these volts" if marking.single else "Amps of the low end at these volts",
        ends[0],
        "A",
        2,
        "What it should carry at the volts across it; the band is what the marking allows.",
        ends[1],
        ends[2],
    )


def working_of(case: Case) -> Iterator[Step]:
    """Every line of arithmetic, from the marking to the band."""
    marking = case.marking
    yield from marking.steps
    if not marking.single:
        both = (marking.text(one) for one in (marking.least, marking.most))
        yield Step("What the marking allows", "the range as printed", " and ".join(both), marking.between, "derived")
    if case.measured is not None and not case.measured.open_line:
        yield from _meter_steps(case, case.measured)
    if case.live is not None:
        yield from _live_steps(case, case.live)
    yield from conduction_steps(case)


def _meter_steps(case: Case, measured: Reading) -> Iterator[Step]:
    marking, meter = case.marking, measured.meter
    shown = marking.text(measured.value)
    yield Step(
        "Band of the capacitance meter",
        "a = % · C + counts · resolution",
        f"{meter.percent:g} % · {shown} + {meter.counts:g} · {meter.resolution:g} µF",
        f"±{quantity(measured.band, 'uF', 2)}, so {marking.band_text(measured.low, measured.high)} "
        f"(standard uncertainty a/√3 = {quantity(measured.standard_uncertainty, 'uF', 3)})",
        "jcgm-100",
    )


def _live_steps(case: Case, live: Live) -> Iterator[Step]:
    marking = case.marking
    amps, volts = quantity(live.amps.value, "A", 3), quantity(live.volts.value, "V", 1)
    yield Step(
        "Capacitance by amps and volts",
        "C = I · 10⁶ / (2π · f · U)",
        f"{amps} · 10⁶ / (2π · {live.hertz:g} Hz · {volts})",
        marking.text(live.value),
        "derived",
    )
    put_in = (
        f"clamp ±{quantity(live.amps.band, 'A', 3)}, voltmeter ±{quantity(live.volts.band, 'V', 2)}, "
        f"frequency ±{live.frequency_percent:g} %"
    )
    yield Step(
        "Band of it, in quadrature",
        "a = C · √((a of I / I)² + (a of U / U)² + (a of f / f)²)",
        put_in,
        f"±{quantity(live.band, 'uF', 2)}, so {marking.band_text(live.low, live.high)}",
        "jcgm-100",
    )
    yield Step(
        "Amps of the marked value" if marking.single else "Amps of the low end",
        "I = 2π · f · C · U",
        f"2π · {live.hertz:g} Hz · {rounded(marking.marked, marking.digits)}·10⁻⁶ F · {volts}",
        quantity(amps_through(marking.marked, live.volts.value, live.hertz), "A", 2),
        "derived",
    )


def figures_of(case: Case) -> Iterator[Figure]:
    """The reading on what the marking allows: by meter, and by amps and volts where they were taken."""
    measured, live = case.measured, case.live
    if measured is not None and not measured.open_line:
        yield _figure(case, "capacitance", "Measured capacitance", measured.value, measured.low, measured.high)
    if live is not None:
        yield _figure(case, "live-capacitance", "Capacitance by amps and volts", live.value, live.low, live.high)


def _figure(case: Case, name: str, title: str, value: float, low: float, high: float) -> Figure:
    marking = case.marking
    marks = (Mark(marking.least, "least"), Mark(marking.most, "most"))
    low = max(low, 0.0)
    return scale_figure(name, title, value=value, low=low, high=high, marks=marks, unit="µF", digits=marking.digits)
