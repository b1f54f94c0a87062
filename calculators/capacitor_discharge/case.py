"""One capacitor and one resistor: volts, time, energy and the first moment.

U(t) = U0 e^(-t/RC), t = RC ln(U0/U), E = C U0^2 / 2, P0 = U0^2 / R. The worst case is reckoned throughout: the volts
and the ohms at the high end of their meters' bands, added up and not in quadrature.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from calculators.inputs import Entered, Problem, RefusedError
from calculators.limits import InForce
from calculators.readings import Reading
from calculators.units import to_base

MICRO = 1e6  # microfarads in a farad
PEAK = math.sqrt(2.0)  # peak of a sine over its rms value
FLOAT_DIGITS = 9


def seconds_to(volts: float, start: float, ohms: float, microfarads: float) -> float:
    """The time from start volts down to volts, t = RC ln(U0/U); none when it is there already.

    >>> round(seconds_to(50.0, 325.0, 15e3, 100.0), 1)
    2.8
    """
    return ohms * microfarads / MICRO * math.log(start / volts) if start > volts else 0.0


def volts_after(seconds: float, start: float, ohms: float, microfarads: float) -> float:
    """What is left after a time, U = U0 e^(-t/RC)."""
    return start * math.exp(-seconds * MICRO / (ohms * microfarads))


@dataclass(frozen=True)
class Case:
    """What one discharge is reckoned from. A bleed resistor is None where nothing was said of it, infinite for none."""

    microfarads: float
    start: float
    before: Reading | None
    rated_volts: float | None
    ohms: float
    tool: Reading | None
    bleed: float | None
    can: str
    held_for: float | None
    after: Reading | None
    after_wait: Reading | None
    target: float | None
    standards: InForce

    def in_base(self, name: str) -> float:
        """A limit of the handbook in its base unit."""
        limit = self.standards.limit(name)
        return to_base(limit.value, limit.unit)

    @property
    def touch(self) -> float:
        """The volts it has to be below."""
        return self.in_base("capacitors.touch_volts")

    @property
    def must_be(self) -> str:
        """What the measurement has to show, as every output says it."""
        return f"must be below {self.standards.limit('capacitors.touch_volts').text}"

    @property
    def time_constant(self) -> float:
        """RC, seconds."""
        return self.ohms * self.microfarads / MICRO

    @property
    def computed(self) -> float:
        """The time to the touch limit, seconds."""
        return seconds_to(self.touch, self.start, self.ohms, self.microfarads)

    @property
    def hold_candidates(self) -> tuple[float, float, float]:
        """The three times of which the longest is held: the computed one with its factor, time constants, least."""
        return (
            self.in_base("capacitors.hold_factor") * self.computed,
            self.in_base("capacitors.time_constants") * self.time_constant,
            self.in_base("capacitors.least_hold"),
        )

    @property
    def hold(self) -> float:
        """How long the tool is held on, whole seconds upward."""
        return float(math.ceil(round(max(self.hold_candidates), FLOAT_DIGITS)))

    @property
    def energy(self) -> float:
        """What it may hold, joules."""
        return 0.5 * self.microfarads / MICRO * self.start**2

    @property
    def least_ohms(self) -> float:
        """The fewest ohms the tool may have: for the first moment that is the worst case."""
        return self.ohms if self.tool is None else self.tool.low

    @property
    def peak_watts(self) -> float:
        """What the tool takes in the first moment."""
        return self.start**2 / self.least_ohms

    def slow_volts(self, held_for: float) -> float:
        """The most that should be left after the time held, with a capacitor as far off as the factor allows."""
        slow = self.in_base("capacitors.hold_factor") * self.microfarads
        return volts_after(held_for, self.start, self.ohms, slow)


def case_of(entered: Entered, standards: InForce) -> Case:
    """What was entered, put together; refuses a start from nothing."""
    before, rated = _dc(entered, "volts_before"), entered.number("rated_volts")
    tool = entered.reading("tool_ohms")
    handbook_tool = standards.limit("capacitors.discharge_resistor")
    return Case(
        microfarads=entered.needed("capacitance"),
        start=_start(before, rated),
        before=before,
        rated_volts=rated,
        ohms=tool.high if tool is not None else to_base(handbook_tool.value, handbook_tool.unit),
        tool=tool,
        bleed=entered.number("bleed_resistor"),
        can=entered.choice("can"),
        held_for=entered.number("held_for"),
        after=_dc(entered, "volts_after"),
        after_wait=_dc(entered, "volts_after_wait"),
        target=entered.number("target_volts"),
        standards=standards,
    )


def _start(before: Reading | None, rated: float | None) -> float:
    """The most volts that it may hold: measured, or the peak of the print."""
    if before is not None:
        return before.high
    if rated is not None:
        return PEAK * rated
    raise RefusedError(
        Problem(
            "volts_before",
            "Dc volts before discharge are missing. Measure them, or enter the printed volts of the can: the "
            "supply tells nothing, because the start winding lifts a capacitor above the supply's peak.",
        )
    )


def _dc(entered: Entered, name: str) -> Reading | None:
    """Volts without their sign, which is only the way round of the probes."""
    value = entered.number(name)
    return None if value is None else Reading.taken(abs(value), entered.meters["voltmeter"])
