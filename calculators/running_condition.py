"""May a reading of a running motor be judged at all: right frequency, volts near the plate, run long enough?

Amps and watts of a running compressor are read under one condition, so the reasons why there is no verdict yet,
and what would mend them, are the same for both. `read` is the word for what was read: amps, or watts.
"""

from __future__ import annotations

from dataclasses import dataclass

from calculators.contract import quantity, rounded
from calculators.findings import Decider, Finding, NextStep, Verdict, judge
from calculators.finer_meter import finer_meter
from calculators.limits import InForce
from calculators.readings import Reading
from calculators.units import to_base

FLOAT_DIGITS = 9  # volts typed on a limit stay on it, in whatever unit they were typed
_SUPPLY = NextStep("Check the supply first, idle and running.", "supply-check")


@dataclass(frozen=True)
class Supply:
    """The plate's volts against the running volts, and whether the frequencies agree.

    whose: what states those volts and that frequency, in a sentence: "plate", or another rating's word.
    """

    plate: float
    running: Reading | None
    plate_frequency: str
    frequency: str
    standards: InForce
    whose: str = "plate"

    def departure(self, volts: float) -> float:
        """How far volts are from the plate, in percent of it."""
        return round(100.0 * abs(volts - self.plate) / self.plate, FLOAT_DIGITS)

    @property
    def wrong_frequency(self) -> bool:
        """True when both frequencies are known and differ."""
        return bool(self.plate_frequency and self.frequency) and self.frequency not in self.plate_frequency.split("/")

    @property
    def judged_range(self) -> tuple[float, float]:
        """The volts between which amps are judged."""
        part = self.standards.value("amps.voltage.no_verdict") / 100.0
        return self.plate * (1.0 - part), self.plate * (1.0 + part)

    def passes(self, reading: Reading) -> bool:
        """True when the whole band of the volts lies where amps are judged."""
        middle = self.departure(reading.value)
        band = round(100.0 * reading.band / self.plate, FLOAT_DIGITS)
        limit = self.standards.limit("amps.voltage.no_verdict")
        return judge(middle, middle - band, middle + band, limit).verdict is Verdict.WITHIN

    @property
    def extra_band(self) -> float:
        """What the half-band of the expected amps grows by, as a part, for volts off the plate."""
        if self.running is None or self.departure(self.running.value) <= self.standards.value(
            "amps.voltage.uncorrected"
        ):
            return 0.0
        return self.standards.value("amps.voltage.extra_band") / 100.0


def is_starting(run_seconds: float | None, standards: InForce) -> bool:
    """True when a reading is known to be from the first seconds, so that it is start current."""
    limit = standards.limit("amps.start_over")
    return run_seconds is not None and run_seconds < to_base(limit.value, limit.unit)


def wrong_frequency(supply: Supply, read: str) -> Finding:
    """No verdict: the plate's frequency is another one."""
    return Finding(
        "supply-frequency",
        Verdict.UNDECIDED,
        f"No verdict: the {supply.whose} says {supply.plate_frequency} Hz and the supply is {supply.frequency} Hz.",
        f"A motor on the wrong frequency draws {read} that its {supply.whose} says nothing about, and it runs hot.",
        _SUPPLY,
        decider=Decider(
            f"Running {read}",
            "as now",
            f"on a supply of {supply.plate_frequency} Hz at the {supply.whose}'s volts",
            "supply_frequency",
        ),
    )


def volts_missing(supply: Supply, read: str) -> Finding:
    """No verdict: nobody has read the volts."""
    low, high = supply.judged_range
    return Finding(
        "running-volts",
        Verdict.UNDECIDED,
        "No verdict: the volts at the plug while it runs are not known.",
        f"Low or high volts change the {read} of a good motor.",
        _SUPPLY,
        supply.standards.limit("amps.voltage.no_verdict"),
        Decider(
            "Volts at the machine's plug",
            "0.1 V, a meter of 0.5 % + 2 counts is enough",
            f"while it runs and the {read} are read, between {rounded(low, 1)} and {quantity(high, 'V', 1)}",
            "running_volts",
        ),
    )


def volts_off(supply: Supply, reading: Reading, read: str) -> Finding:
    """No verdict: the volts are too far off the plate, or their band reaches there."""
    limit = supply.standards.limit("amps.voltage.no_verdict")
    low, high = supply.judged_range
    off = quantity(supply.departure(reading.value), "percent", 1)
    stated = f"the {supply.whose}'s {quantity(supply.plate, 'V', 0)}"
    needed = f"between {rounded(low, 1)} and {quantity(high, 'V', 1)} with the meter's whole band"
    decider = Decider(
        "Volts at the machine's plug",
        "as now: the volts themselves must change",
        f"while it runs, {needed}",
        "running_volts",
    )
    finer = finer_meter(
        reading.meter, lambda meter: supply.passes(Reading.taken(reading.value, meter)), "voltmeter", "V"
    )
    if finer is not None:
        decider = Decider(
            "Volts at the machine's plug", finer.words, f"while it runs, {needed}", finer.enter_in, finer.entry
        )
    beyond = supply.departure(reading.value) > limit.value
    return Finding(
        "running-volts",
        Verdict.UNDECIDED,
        f"No verdict: {quantity(reading.value, 'V', 1)} is {off} off {stated}, "
        + (
            f"more than the {limit.text} at which {read} are judged."
            if beyond
            else f"and with the meter's band it may be more than the {limit.text} at which {read} are judged."
        ),
        "Mend the supply first. A motor cannot be judged on volts it was not made for.",
        _SUPPLY,
        limit,
        decider,
    )


def is_settled(run_seconds: float | None, standards: InForce) -> bool:
    """True when it is known to have run long enough for a verdict."""
    settle = standards.limit("amps.run_settle_minutes")
    return run_seconds is not None and run_seconds >= to_base(settle.value, settle.unit)


def not_settled(run_seconds: float | None, standards: InForce, read: str, next_step: NextStep) -> Finding:
    """No verdict: start current, or a run too short or of unknown length."""
    settle = standards.limit("amps.run_settle_minutes")
    if run_seconds is None:
        said = "No verdict: the minutes since the start are not known."
    elif is_starting(run_seconds, standards):
        first = standards.limit("amps.start_over").text
        said = (
            f"No verdict: this was read within {first} of the start, so it is start current. "
            f"If it does not fall by then, unplug it."
        )
    else:
        said = f"No verdict: {quantity(run_seconds, 'min', 1)} after the start is less than {settle.text}."
    return Finding(
        "run-time",
        Verdict.UNDECIDED,
        said,
        "A motor draws more while it starts and while the cabinet pulls down. Wait, then read again.",
        next_step,
        settle,
        Decider(
            f"Running {read}",
            "as now",
            f"steady, {settle.text} or longer after the start, the cabinet near its set temperature",
            "run_time",
            settle.text,
        ),
    )
