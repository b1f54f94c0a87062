"""The amps in one conductor, what is left for the compressor, and how far both may be off.

Everything here is a worst case: percentage, counts and what an empty jaw shows are added up, not as the root of
the sum of squares, and the other loads are taken off at every angle that they may have (calculators.phasors).
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property

from calculators.clamp_reading.inputs import COMMON, LOAD_FIELDS, MOST_TURNS
from calculators.contract import quantity, rounded
from calculators.inputs import Entered, Problem, RefusedError
from calculators.limits import InForce
from calculators.phasors import Branch, Lags, Left, lag_of, remaining
from calculators.readings import Meter

FLOAT_DIGITS = 9  # a band typed on a limit stays on it, in whatever unit it was typed
LABELS = {
    "fan_amps": "Fan amps",
    "heater_amps": "Heater and filament lamp amps",
    "other_amps": "Amps of anything else",
}
WORDS = {"fan_amps": "fans", "heater_amps": "heater and filament lamp", "other_amps": "anything else"}


@dataclass(frozen=True)
class Load:
    """One other load on the same conductor: the field it was entered in, its amps, and the span it may have."""

    field: str
    amps: float
    branch: Branch


@dataclass(frozen=True)
class Case:
    """One clamp reading with everything that was said about it."""

    shown: float
    turns: float
    clamp: Meter
    zero: float
    place: str
    run_seconds: float | None
    loads: tuple[Load, ...] | None
    own: Lags
    standards: InForce

    @property
    def line(self) -> float:
        """Amps in the conductor: what the clamp shows, divided by the turns."""
        return self.shown / self.turns

    @property
    def line_band(self) -> float:
        """How far they may be off: percentage, counts and empty jaw, added up, divided by the turns."""
        return (self.clamp.band(self.shown) + self.zero) / self.turns

    @property
    def line_low(self) -> float:
        """The least amps in the conductor."""
        return max(self.line - self.line_band, 0.0)

    @property
    def line_high(self) -> float:
        """The most amps in the conductor."""
        return self.line + self.line_band

    @property
    def counted(self) -> tuple[Load, ...]:
        """The other loads that drew something."""
        return tuple(one for one in self.loads or () if one.amps > 0.0)

    @cached_property
    def left(self) -> Left | None:
        """What is left for the compressor; None when the other loads alone are more than the clamp showed."""
        return remaining(self.line_low, self.line_high, self.own, [one.branch for one in self.counted])

    @property
    def low(self) -> float:
        """The least amps of the compressor."""
        return self.left.least if self.left else 0.0

    @property
    def high(self) -> float:
        """The most amps of the compressor."""
        return self.left.most if self.left else self.low

    @property
    def amps(self) -> float:
        """The amps of the compressor: the reading itself, or the middle of the span where loads were taken off."""
        return (self.low + self.high) / 2.0 if self.counted else self.line

    @property
    def percent(self) -> float:
        """The half-band of those amps in percent of them; infinite where nothing was measured."""
        band = (self.high - self.low) / 2.0 if self.counted else self.line_band
        return round(100.0 * band / self.amps, FLOAT_DIGITS) if self.amps > 0.0 else math.inf

    @property
    def nothing_shown(self) -> bool:
        """True when the clamp shows no more than its own error."""
        return self.line <= self.line_band

    def with_turns(self, turns: int) -> Case:
        """The same current with another number of turns: the clamp then shows more, or less."""
        return replace(self, shown=self.line * turns, turns=float(turns))

    def turns_for(self, percent: float) -> int | None:
        """The fewest turns that bring the band to this percentage; None when the jaw's most would not."""
        tried = range(int(self.turns) + 1, MOST_TURNS + 1)
        return next((one for one in tried if self.with_turns(one).percent <= percent), None)


def case_of(entered: Entered, standards: InForce) -> Case:
    """Put one case together; RefusedError where the entries contradict each other."""
    spread = standards.value("clamp.power_factor_spread")
    case = Case(
        shown=entered.needed("shown_amps"),
        turns=entered.needed("turns"),
        clamp=entered.meters["clamp"],
        zero=entered.number("zero_amps") or 0.0,
        place=entered.choice("clamp_place"),
        run_seconds=entered.number("run_time"),
        loads=_loads(entered, spread),
        own=_own(entered, spread),
        standards=standards,
    )
    _refuse_contradictions(case)
    return case


def _loads(entered: Entered, spread: float) -> tuple[Load, ...] | None:
    """The loads that were entered, or None when nobody said anything about them."""
    spans = {
        "fan_amps": _lagging(entered.number("fan_power_factor"), spread),
        "heater_amps": (0.0, 0.0),
        "other_amps": _either_way(entered.number("other_power_factor"), spread),
    }
    part = entered.needed("load_percent") / 100.0
    found = []
    for field in LOAD_FIELDS:
        amps = entered.number(field)
        if amps is not None:
            found.append(Load(field, amps, Branch(amps * (1.0 - part), amps * (1.0 + part), *spans[field])))
    return tuple(found) or None


def _own(entered: Entered, spread: float) -> Lags:
    """The angles the compressor's current may have; only without a run capacitor it certainly lags."""
    span = _lagging if entered.choice("motor_type") == "resistance" else _either_way
    return span(entered.number("run_power_factor"), spread)


def _lagging(power_factor: float | None, spread: float) -> Lags:
    if power_factor is None:
        return 0.0, 90.0
    return lag_of(min(power_factor + spread, 1.0)), lag_of(max(power_factor - spread, 0.0))


def _either_way(power_factor: float | None, spread: float) -> Lags:
    most = _lagging(power_factor, spread)[1]
    return -most, most


def _refuse_contradictions(case: Case) -> None:
    fields = [one.field for one in case.counted]
    if case.place == COMMON and fields:
        raise RefusedError(
            *(
                Problem(
                    field,
                    f"{LABELS[field]}: in the lead to common there is the compressor alone, so nothing is taken off. "
                    "Clear this, or choose one conductor of the cord.",
                )
                for field in fields
            )
        )
    if fields and case.left is None:
        raise RefusedError(Problem(fields[0], _too_much(case, fields)))


def _too_much(case: Case, fields: Iterable[str]) -> str:
    total = math.fsum(one.amps for one in case.counted)
    named = " and ".join(LABELS[field] for field in fields)
    return (
        f"{named}: {quantity(total, 'A', 3)} in all, and the conductor carries "
        f"{rounded(case.line, 3)} ±{quantity(case.line_band, 'A', 3)}. Enter only loads that ran while it was read."
    )
