"""The results of a voltage-drop case, and their arithmetic as a trainee would write it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from calculators.conductors import ZERO_RESISTANCE_BELOW, feet
from calculators.contract import Named, Result, Step, quantity, rounded
from calculators.inputs import Entered
from calculators.limits import InForce
from calculators.units import from_base, symbol
from calculators.voltage_drop.case import Case, Wire
from calculators.voltage_drop.findings import loop_ratio
from calculators.voltage_drop.path_volts import Part, approximate_loss, size
from calculators.voltage_drop.sizes import size_results
from calculators.voltage_drop.source import Source

# --- results ----------------------------------------------------------------------------------------


def results(case: Case, standards: InForce) -> Iterator[Result | Named]:
    """Every number that follows from what was entered."""
    yield from _ohms(case)
    yield from _running(case)
    yield from _starting(case)
    yield from size_results(case, standards)


def _ohms(case: Case) -> Iterator[Result]:
    plain = {
        "source": "What the supply itself puts in the way, before the place where it was read.",
        "branch": "Both conductors of the branch circuit together.",
        "joints": "All plug joints together.",
        "cord": "Both conductors of the cord together.",
    }
    for part in case.parts:
        yield _part_result(part, plain[part.name])
    counted = {part.name for part in case.parts}
    if "branch" in case.wires and "branch" not in counted:
        inside = Part("branch", "Branch circuit", "outlet", case.wires["branch"].loop)
        yield _part_result(inside, "Inside the source resistance that was taken at the outlet; not added again.")
    path = case.path
    low, high = (path.low.real, path.high.real) if path.low != path.high else (None, None)
    plain_total = "All of the path, there and back. The volts are lost in this."
    ohms = path.value.real
    yield Result("total_ohms", "Whole path", ohms, "ohm", 3, plain_total, low, high, (("milliohm", 0),))
    if path.value.imag:
        yield Result("total_reactance", "Reactance of the path", path.value.imag, "ohm", 4, "At 60 Hz, as printed.")


def _part_result(part: Part, plain: str) -> Result:
    low, high = part.ohms.real - part.below, part.ohms.real + part.above
    band = (low, high) if part.below or part.above else (None, None)
    name, ohms = f"{part.name}_ohms", part.ohms.real
    return Result(name, part.label, ohms, "ohm", 3, plain, band[0], band[1], (("milliohm", 0),))


def _running(case: Case) -> Iterator[Result]:
    running = case.running
    if running is None:
        return
    idle = case.idle.value
    which = (
        "the most it can be, for want of a power factor"
        if running.power_factor is None
        else "exact for the power factor"
    )
    yield Result("run_drop", "Running: volts lost", running.loss, "V", 2, f"From the supply to the machine; {which}.")
    share = 100.0 * running.loss / idle
    of_what = "idle" if case.idle_measured else "plate"
    yield Result(
        "run_drop_percent", "Running: lost of the volts", share, "percent", 2, f"In percent of the {of_what} volts."
    )
    if running.power_factor is not None:
        loss = approximate_loss(running.amps.value, case.path.value, running.power_factor)
        plain = "R cos + X sin, as tables and handbooks reckon it; the exact figure stands above."
        yield Result("run_drop_approximate", "Running: volts lost, approximately", loss, "V", 2, plain)
    if case.source is not None and not case.at_outlet:
        plain = "Without the supply's own resistance before the panel; this is what the limits look at."
        yield Result("wiring_drop", "Running: lost from panel to machine", running.judged_loss, "V", 2, plain)
        share = running.judged_percent.value
        yield Result(
            "wiring_drop_percent", "Running: lost from panel to machine, of the volts", share, "percent", 2, plain
        )
    yield Result("run_volts", "Running: volts at the machine", running.volts, "V", 2, "What the motor runs on.")


def _starting(case: Case) -> Iterator[Result]:
    starting = case.starting
    if starting is None:
        return
    volts, percent = starting.volts, starting.percent
    which = (
        "the least they can be, for want of a power factor"
        if starting.power_factor is None
        else "with its power factor"
    )
    plain = f"The stalled motor as a fixed impedance, {which}."
    yield Result("start_volts", "Start: volts at the machine", volts.value, "V", 1, plain, volts.low, volts.high)
    plain = "In percent of the plate voltage."
    yield Result("start_percent", "Start: of the plate", percent.value, "percent", 1, plain, percent.low, percent.high)
    plain = (
        "As if the motor took its start amps whatever the volts. It takes less when it gets less, so it gets no less."
    )
    bound = starting.constant_current
    yield Result("start_volts_bound", "Start: pessimistic bound, constant current", bound, "V", 1, plain)
    torque = (percent.value / 100.0) ** 2
    yield Result("torque_factor", "Start: torque left", torque, "ratio", 2, "Volts over plate volts, squared.")


# --- working ----------------------------------------------------------------------------------------


def working(case: Case, entered: Entered) -> Iterator[Step]:
    """The arithmetic, line by line."""
    for name, label in (("branch", "Branch circuit"), ("cord", "Cord")):
        if name in case.wires:
            yield _wire_step(label, case.wires[name], case.temperature)
    yield from source_steps(case.source, entered)
    if len(case.parts) > 1:
        put_in = " + ".join(rounded(part.ohms.real, 3) for part in case.parts)
        yield Step("Whole path", "sum of its parts", put_in, quantity(case.path.value.real, "ohm", 3), "derived")
    ratio = loop_ratio(case)
    if ratio is not None and case.cord_measured is not None:
        put_in = f"{rounded(case.cord_measured.value, 3)} / {rounded(case.wires['cord'].loop.real, 3)}"
        yield Step("Measured loop over calculated", "measured / calculated", put_in, rounded(ratio.value, 2), "derived")
    yield from _running_steps(case)
    yield from _starting_steps(case)


def _wire_step(label: str, wire: Wire, temperature: float) -> Step:
    conductor, below = wire.conductor, ZERO_RESISTANCE_BELOW[wire.conductor.metal]
    unit, length = ("ohm_per_km", wire.metres) if "iec" in conductor.id else ("ohm_per_kft", feet(wire.metres))
    per = from_base(conductor.ohm_per_km, unit)
    formula = f"R = 2 × L × r × (k + T) / (k + {conductor.printed_at:g}), k = {below:g}"
    put_in = (
        f"2 × {rounded(length, 1)} × {per:.3g} / 1000 × ({below:g} + {rounded(temperature, 0)}) / "
        f"({below:g} + {conductor.printed_at:g}), r in {symbol(unit)}"
    )
    return Step(f"{label} loop", formula, put_in, quantity(wire.loop.real, "ohm", 3), conductor.source)


def source_steps(source: Source | None, entered: Entered) -> Iterator[Step]:
    """The supply's own resistance from the readings with a known load."""
    if source is None or source.difference is None:
        return
    part, amps = source.part, entered.needed("load_amps")
    idle, loaded = (rounded(entered.needed(name), 2) for name in ("idle_volts", "loaded_volts"))
    put_in = f"({idle} − {loaded}) / {rounded(amps, 2)}"
    yield Step("Source resistance", "R = (U0 − U1) / I1", put_in, quantity(part.ohms.real, "ohm", 3), "derived")
    uncertainty = quantity(part.above / math.sqrt(3.0), "ohm", 3)
    yield Step(
        "Its band, and the standard uncertainty",
        "gain on U0 − U1, counts of both and clamp in quadrature; u = a / √3",
        f"a = {quantity(part.above, 'ohm', 3)}",
        f"± {quantity(part.above, 'ohm', 3)}, u = {uncertainty}",
        "jcgm-100",
    )


def _running_steps(case: Case) -> Iterator[Step]:
    running = case.running
    if running is None:
        return
    amps, path, idle = running.amps.value, case.path.value, case.idle.value
    put_in = f"{rounded(amps, 2)} × {rounded(size(path), 3)}"
    if running.power_factor is None:
        yield Step("Running loss, upper bound", "I × Z", put_in, quantity(running.loss, "V", 2), "derived")
    else:
        cosine = running.power_factor
        sine = math.sqrt(max(1.0 - cosine * cosine, 0.0))
        exact = "U = √(U0² − (I (X cos φ − R sin φ))²) − I (R cos φ + X sin φ); loss = U0 − U"
        put_in = (
            f"U0 {rounded(idle, 2)}, I {rounded(amps, 2)}, R {rounded(path.real, 3)}, X {rounded(path.imag, 4)}, "
            f"cos φ {rounded(cosine, 2)}, sin φ {rounded(sine, 3)}"
        )
        yield Step("Running loss, exact", exact, put_in, quantity(running.loss, "V", 2), "derived")
        put_in = (
            f"{rounded(amps, 2)} × ({rounded(path.real, 3)} × {rounded(cosine, 2)} + "
            f"{rounded(path.imag, 4)} × {rounded(sine, 3)})"
        )
        loss = quantity(approximate_loss(amps, path, cosine), "V", 2)
        yield Step("Running loss, approximation", "I (R cos φ + X sin φ)", put_in, loss, "ufc-3-520-01")
    put_in = f"100 × {rounded(running.judged_loss, 2)} / {rounded(idle, 1)}"
    share = quantity(running.judged_percent.value, "percent", 2)
    yield Step("Running loss that is judged", "100 × loss / volts", put_in, share, "derived")


def _starting_steps(case: Case) -> Iterator[Step]:
    starting = case.starting
    if starting is None:
        return
    idle, ohms, amps = rounded(case.idle.value, 1), rounded(size(case.path.value), 3), rounded(starting.amps, 2)
    volts = quantity(starting.volts.value, "V", 1)
    if starting.power_factor is None:
        put_in = f"{idle} / (1 + {ohms} × {amps} / {rounded(case.plate, 0)})"
        yield Step("Volts at the start", "U = U0 / (1 + Z × LRA / Un)", put_in, volts, "derived")
    else:
        formula = "U = U0 × M / |M (cos φ + j sin φ) + R + jX|, M = Un / LRA"
        motor, path = rounded(case.plate / starting.amps, 2), case.path.value
        put_in = (
            f"U0 {idle}, M {motor}, R {rounded(path.real, 3)}, X {rounded(path.imag, 4)}, "
            f"cos φ {rounded(starting.power_factor, 2)}"
        )
        yield Step("Volts at the start", formula, put_in, volts, "derived")
    bound = quantity(starting.constant_current, "V", 1)
    yield Step(
        "Pessimistic bound",
        "U0 − Z × LRA, or the volts above where they are less",
        f"{idle} − {ohms} × {amps}",
        bound,
        "derived",
    )
    put_in = f"({rounded(starting.volts.value, 1)} / {rounded(case.plate, 0)})²"
    yield Step("Torque left", "(U / Un)²", put_in, rounded((starting.percent.value / 100.0) ** 2, 2), "derived")
