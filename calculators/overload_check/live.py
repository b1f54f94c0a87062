"""What readings of a trip have in common: amps, volts and time with their bands, and what is missing of them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from calculators.contract import Step, quantity, rounded
from calculators.inputs import Entered, Problem, RefusedError
from calculators.limits import InForce
from calculators.parts import Missing
from calculators.readings import Reading, in_quadrature

LABELS = {
    "trip_time": "the time until it tripped or was unplugged",
    "trip_amps": "the amps just before",
    "trip_volts": "the volts at the plug just before",
    "plate_volts": "the plate's volts",
    "locked_rotor_amps": "the locked-rotor amps on the plate",
    "rated_load_amps": "the rated-load amps on the plate",
    "expected_amps": "the expected running amps",
    "trip_shell_temperature": "the shell temperature when it tripped",
    "winding_temperature": "the winding temperature right after the trip",
}


@dataclass(frozen=True)
class Ratio:
    """Measured amps over the amps they are held against, with the band of both (in quadrature: separate sources)."""

    value: float
    part: float  # the half-band as a part of the value

    @property
    def low(self) -> float:
        """The least it can be."""
        return self.value * (1.0 - self.part)

    @property
    def high(self) -> float:
        """The most it can be."""
        return self.value * (1.0 + self.part)

    @property
    def text(self) -> str:
        """The ratio with its band, as printed."""
        return f"{rounded(self.value, 2)} times (band {rounded(max(self.low, 0.0), 2)} to {rounded(self.high, 2)})"


def amps_of(entered: Entered) -> Reading | None:
    """The amps just before; refuses zero, which is no current of a motor that was on."""
    amps = entered.reading("trip_amps")
    if amps is not None and amps.value == 0.0:
        raise RefusedError(
            Problem(
                "trip_amps",
                "Amps just before: 0 is no current of a motor that hums or runs. See that the clamp is round one "
                "conductor only, then enter what it shows, or clear the field.",
            )
        )
    return amps


def ratio_to(amps: Reading, reference: float, *parts: float) -> Ratio:
    """Amps over a reference; parts are the relative bands of whatever else goes into the reference."""
    return Ratio(amps.value / reference, in_quadrature(amps.relative_band, *parts))


def missing_fields(entered: Entered, *fields: str) -> Iterator[Missing]:
    """Everything that was left empty."""
    for field in fields:
        if field not in entered.numbers:
            yield Missing(LABELS[field], field)


def volts_fit(entered: Entered, standards: InForce) -> bool | None:
    """Whether the volts, with their whole band, lie within the supply's limits; None when they are not known."""
    volts, plate = entered.reading("trip_volts"), entered.number("plate_volts")
    if volts is None or plate is None:
        return None
    low, high = standards.value("supply.low") / 100.0 * plate, standards.value("supply.high") / 100.0 * plate
    return low <= volts.low and volts.high <= high


def volts_missing(entered: Entered, standards: InForce) -> Iterator[Missing]:
    """What stands in the way of trusting the amps, as far as the volts go."""
    yield from missing_fields(entered, "plate_volts", "trip_volts")
    if volts_fit(entered, standards) is False:
        low, high = standards.limit("supply.low"), standards.limit("supply.high")
        yield Missing(f"the volts between {low.text} and {high.text} of the plate with the meter's band", "trip_volts")


def volts_step(entered: Entered) -> Iterator[Step]:
    """The volts in percent of the plate."""
    volts, plate = entered.number("trip_volts"), entered.number("plate_volts")
    if volts is not None and plate is not None:
        yield Step(
            "Volts against the plate",
            "U / Un",
            f"{quantity(volts, 'V', 1)} / {quantity(plate, 'V', 1)}",
            quantity(100.0 * volts / plate, "percent", 1),
            "derived",
        )


def seconds_words(seconds: float) -> str:
    """A time as it is said: seconds, from two minutes on minutes, from two hours on hours."""
    if seconds < 120.0:
        return quantity(seconds, "s", 1)
    return quantity(seconds, "min", 1) if seconds < 7200.0 else quantity(seconds, "h", 1)
