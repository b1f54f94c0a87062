"""What a reader must know beside the numbers of a supply check."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.contract import quantity
from calculators.supply_check.case import Case
from calculators.supply_check.system import system_of


def notes(case: Case) -> Iterator[str]:
    """What a reader must know beside the numbers."""
    yield from _about_the_plate(case)
    yield from _about_the_start(case)
    yield from _about_the_foretold(case)
    yield from _unused(case)
    if case.entered.number("running_volts") is None and not case.wrong_frequency:
        yield "Running volts were not read; a supply is called good or bad on two readings, idle and running."


def _about_the_plate(case: Case) -> Iterator[str]:
    if case.plate.ranged:
        yield f"The plate prints {case.plate.text}: the low end judges the least volts, the high end the most."
    system = system_of(case)
    if system is not None and not system.least <= case.idle.value <= system.most:
        yield (
            f"A {system.volts:g} V system is meant to deliver {quantity(system.least, 'V', 0)} to"
            f" {quantity(system.most, 'V', 0)}; {quantity(case.idle.value, 'V', 1)} is a matter for the supplier, or"
            " the system is another one."
        )


def _about_the_start(case: Case) -> Iterator[str]:
    lowest, running = case.entered.number("lowest_volts"), case.entered.number("running_volts")
    if running is not None and running > case.idle.value:
        yield "The running volts are above the idle volts: something else on the circuit changed. Take both again."
    if lowest is not None and running is not None and lowest > running:
        yield (
            "The lowest volts of the start are above the running volts: the hold missed the start, or another load was "
            "switched on since. Take both again."
        )
    if case.entered.number("hold_time") is not None and not case.caught:
        limit = case.standards.limit("start_volts.hold_time")
        yield f"This meter needs a dip longer than {limit.text}: it reads a start too high, never too low."


def _about_the_foretold(case: Case) -> Iterator[str]:
    predicted, lowest = case.predicted, case.entered.reading("lowest_volts")
    if predicted is None:
        return
    if case.entered.number("start_power_factor") is None:
        yield (
            "Without a start power factor the stalled motor counts as a plain resistance: its true volts are somewhat "
            "higher than foretold. The known load has to be one: a kettle, an iron."
        )
    yield "Bands: volts of one meter share its gain; idle volts and ohms are then taken at their worst together."
    if case.plate.ranged:
        yield (
            f"The start amps are taken to belong to {case.plate.low:g} V, the low end, which foretells the fewest"
            " volts."
        )
    if lowest is not None and case.caught and lowest.high < predicted.low:
        yield (
            "The start took more volts than two loads foretell: a joint that gives way under current, a start current "
            "above the plate's, or another load in the same moment."
        )


def _unused(case: Case) -> Iterator[str]:
    """What was entered and has no part in the answer, so that nothing is dropped in silence."""
    entered = case.entered
    if entered.number("start_amps") is not None and case.source is None:
        yield "The start amps are not used: they need the volts with a known load and its amps."
    if entered.number("start_power_factor") is not None and case.predicted is None:
        yield "The start power factor is not used: it needs the start amps and a known load."
    if entered.number("inrush_amps") is not None and not case.caught:
        yield "The amps at the start are not used: the meter is not known to hold the volts of so short a dip."
    if entered.number("neutral_earth_running") is not None and entered.choice("polarity") == "two_lines":
        yield "Neutral to earth while running is not used: two lines have no neutral."
    if case.wrong_frequency:
        yield "Volts are shown and not judged while the frequency is wrong; earth and neutral are judged all the same."
