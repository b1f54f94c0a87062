"""What was read of one supply, and what cannot be true together."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from calculators.contract import quantity
from calculators.inputs import Entered, Problem, RefusedError
from calculators.limits import InForce
from calculators.readings import Meter, Reading
from calculators.units import to_base
from calculators.voltage_drop.contradictions import meter_blind, source_readings
from calculators.voltage_drop.path_volts import Span, constant_current_volts, stalled_volts
from calculators.voltage_drop.source import Source, source_from_loads


@dataclass(frozen=True)
class Plate:
    """The volts that the plate prints: one, or the two ends of a range."""

    low: float
    high: float

    @property
    def ranged(self) -> bool:
        """Whether the plate prints two different ends."""
        return self.high > self.low

    @property
    def text(self) -> str:
        """As it is printed."""
        return f"{self.low:g}–{self.high:g} V" if self.ranged else f"{self.low:g} V"


@dataclass(frozen=True)
class Case:
    """One supply: the plate it has to serve, and everything read of it."""

    entered: Entered
    standards: InForce

    @property
    def plate(self) -> Plate:
        """The plate's volts."""
        low = self.entered.needed("plate_volts")
        return Plate(low, self.entered.number("plate_volts_high") or low)

    @property
    def idle(self) -> Reading:
        """Volts with nothing on the outlet."""
        return self.entered.needed_reading("idle_volts")

    @property
    def wrong_frequency(self) -> bool:
        """Whether plate and supply are known to differ in frequency; then no volts are judged."""
        plate, supply = self.entered.choice("plate_frequency"), self.entered.choice("supply_frequency")
        return bool(plate and supply) and plate not in (supply, "50/60")

    @property
    def caught(self) -> bool:
        """Whether the meter is quick enough for its lowest reading to be the lowest there was."""
        hold, limit = self.entered.number("hold_time"), self.standards.limit("start_volts.hold_time")
        return hold is not None and hold <= to_base(limit.value, limit.unit)

    @property
    def source(self) -> Source | None:
        """The resistance of everything behind the outlet, where a known load was read."""
        loaded, amps = self.entered.reading("loaded_volts"), self.entered.reading("load_amps")
        if loaded is None or amps is None:
            return None
        return source_from_loads(self.idle, loaded, amps, "outlet", self.standards)

    @property
    def start_source(self) -> Span | None:
        """The same resistance from the start itself: (U0 - Umin) / I.

        The gain error of the one voltmeter goes with the difference; its counts and the clamp are taken at their worst.
        """
        lowest, amps = self.entered.reading("lowest_volts"), self.entered.reading("inrush_amps")
        if lowest is None or amps is None or not self.caught:
            return None
        difference = self.idle.value - lowest.value
        band = lowest.meter.gain_band(difference) + 2.0 * lowest.meter.counts_band
        least = max(difference - band, 0.0) / amps.high
        most = (difference + band) / amps.low if amps.low > 0.0 else float("inf")
        return Span(difference / amps.value, least, most)

    @property
    def predicted(self) -> Span | None:
        """Volts while the motor does not turn, as a fixed impedance on this source; without a power factor the least.

        Of a range the low end is taken for the volts that the start amps belong to, which is the pessimistic one.
        """
        source, amps = self.source, self.entered.number("start_amps")
        if source is None or amps is None:
            return None
        ohms, below, above = source.part.ohms.real, source.part.below, source.part.above
        idle, factor = self.idle, self.entered.number("start_power_factor")

        def left(supply: float, path: float) -> float:
            return stalled_volts(supply, complex(path), self.plate.low, amps, factor)

        return Span(left(idle.value, ohms), left(idle.low, ohms + above), left(idle.high, ohms - below))

    @property
    def predicted_bound(self) -> float | None:
        """The pessimistic bound: as if the motor took its start amps whatever the volts."""
        source, amps, predicted = self.source, self.entered.number("start_amps"), self.predicted
        if source is None or amps is None or predicted is None:
            return None
        return min(constant_current_volts(self.idle.value, source.part.ohms, amps), predicted.value)

    def with_meter(self, name: str, meter: Meter) -> Case:
        """The same readings by another meter."""
        return Case(replace(self.entered, meters={**self.entered.meters, name: meter}), self.standards)

    def with_number(self, name: str, value: float) -> Case:
        """The same readings with one number typed anew, in base units."""
        return Case(replace(self.entered, numbers={**self.entered.numbers, name: value}), self.standards)

    def with_choice(self, name: str, value: str) -> Case:
        """The same readings with another pick."""
        return Case(replace(self.entered, choices={**self.entered.choices, name: value}), self.standards)


def case_of(entered: Entered, standards: InForce) -> Case:
    """Put together what was entered; raises RefusedError when it contradicts itself."""
    problems = tuple(_contradictions(entered, standards))
    if problems:
        raise RefusedError(*problems)
    return Case(entered, standards)


def _contradictions(entered: Entered, standards: InForce) -> Iterator[Problem]:
    yield from ranged_plate(entered, standards)
    yield from source_readings(entered)
    yield from meter_blind(entered)
    idle = entered.needed("idle_volts")
    lowest = entered.number("lowest_volts")
    if lowest is not None and lowest > idle:
        yield Problem(
            "lowest_volts",
            f"Lowest volts during the start: {quantity(lowest, 'V', 2)} is more than the idle "
            f"{quantity(idle, 'V', 2)}. A start cannot raise the volts: the hold began after the start, or the supply "
            "changed. Take both again.",
        )
    if entered.number("second_lowest_volts") is not None and entered.number("lowest_volts") is None:
        yield Problem(
            "lowest_volts",
            "Lowest volts during the start are missing. A second place says something only beside the first.",
        )
    if entered.number("inrush_amps") is not None and entered.number("lowest_volts") is None:
        yield Problem(
            "lowest_volts",
            "Lowest volts during the start are missing. Enter what the meter held in the start that the clamp held.",
        )


def ranged_plate(entered: Entered, standards: InForce) -> Iterator[Problem]:
    """What cannot be true of a plate that prints a range, in any form that asks for its two ends."""
    low, high = entered.needed("plate_volts"), entered.number("plate_volts_high")
    if high is None:
        return
    if high < low:
        yield Problem(
            "plate_volts_high",
            f"Plate voltage, high end of a range: {high:g} V is below the low end, {low:g} V. "
            "Enter the larger number here, and the smaller one as the plate voltage.",
        )
    elif high * standards.value("supply.low") > low * standards.value("supply.high"):
        yield Problem(
            "plate_volts_high",
            f"Plate voltage, high end of a range: {low:g} and {high:g} V are too far apart for one range; such a plate "
            "names two ways to connect the motor. Enter the one it is connected for, and leave the high end empty.",
        )
