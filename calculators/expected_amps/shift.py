"""Brings data-sheet amps and watts from the sheet's temperatures to those the compressor runs at.

Watts change with the evaporating and the condensing temperature, by so much a kelvin for each refrigerant; the
current follows the watts with its active part, while its reactive part stays (derived). What the rule may be off
by is added to the half-band. Printed rated-load amps, rules of thumb and maps are not shifted: the first state no
temperatures, the second are too coarse, and the third is read at the temperatures themselves.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from calculators.contract import Step, quantity, rounded
from calculators.expected_amps.evidence import Piece, current_factor, evidence_step, power_factor_of
from calculators.inputs import Entered, Problem, RefusedError
from calculators.limits import InForce, Limit
from calculators.readings import in_quadrature

SHIFTED = ("data_sheet_amps", "watts")


@dataclass(frozen=True)
class Side:
    """One of the two temperatures: its fields, and the limits of its rule."""

    name: str
    prefix: str

    @property
    def then_field(self) -> str:
        """The field of the temperature that the data sheet states."""
        return f"data_sheet_{self.name}"

    @property
    def now_field(self) -> str:
        """The field of the temperature that was measured."""
        return f"{self.name}_now"

    def limit(self, word: str, standards: InForce) -> Limit:
        """A limit of the rule: a refrigerant's change for each kelvin, its spread, or how far the rule goes."""
        return standards.limit(f"amps.shift.{self.prefix}{word}")


SIDES = (Side("evaporating", ""), Side("condensing", "condensing_"))


@dataclass(frozen=True)
class Change:
    """How far one temperature is from the sheet's, and what that does to the watts."""

    side: Side
    kelvin: float
    slope: Limit
    spread: Limit


def shifted(pieces: tuple[Piece, ...], entered: Entered, standards: InForce) -> tuple[Piece, ...]:
    """The pieces with data-sheet amps and watts brought to the temperatures now, where both are known."""
    if not any(piece.field in SHIFTED for piece in pieces):
        return pieces
    problems = list(_problems(entered, standards))
    if problems:
        raise RefusedError(*problems)
    changes, power_factor = _changes(entered, standards), power_factor_of(entered, standards)
    if not changes or power_factor is None:
        return pieces
    return tuple(_moved(piece, changes, power_factor) if piece.field in SHIFTED else piece for piece in pieces)


def temperatures_entered(entered: Entered) -> bool:
    """True when any of the four temperatures was entered."""
    return any(entered.number(field) is not None for side in SIDES for field in (side.then_field, side.now_field))


@dataclass(frozen=True)
class WattsChange:
    """The watts now as a part of those of the data sheet, how far that may be off either way, and its working."""

    ratio: float
    off: tuple[float, ...]
    step: Step


def watts_change(entered: Entered, standards: InForce) -> WattsChange | None:
    """What the temperatures do to data-sheet watts; None without any, RefusedError when one cannot be used."""
    problems = list(_problems(entered, standards, current=False))
    if problems:
        raise RefusedError(*problems)
    changes = _changes(entered, standards)
    if not changes:
        return None
    ratio = _watts_ratio(changes)
    off = tuple(abs(one.spread.value / 100.0 * one.kelvin) for one in changes)
    return WattsChange(ratio, off, _watts_step(changes, ratio))


def _watts_ratio(changes: tuple[Change, ...]) -> float:
    return 1.0 + math.fsum(one.slope.value / 100.0 * one.kelvin for one in changes)


def _kelvin(side: Side, entered: Entered) -> float | None:
    then, now = entered.number(side.then_field), entered.number(side.now_field)
    return None if then is None or now is None else now - then


def _problems(entered: Entered, standards: InForce, *, current: bool = True) -> Iterator[Problem]:
    if not temperatures_entered(entered):
        return
    for side in SIDES:
        fields = {
            side.then_field: f"{side.name.capitalize()} temperature of the data sheet",
            side.now_field: f"{side.name.capitalize()} temperature now",
        }
        missing = [field for field in fields if entered.number(field) is None]
        if len(missing) == 1:
            yield Problem(
                missing[0],
                f"{fields[missing[0]]}: to shift the data-sheet figures enter both {side.name} temperatures, "
                "or clear both.",
            )
        kelvin, most = _kelvin(side, entered), side.limit("most", standards)
        if kelvin is not None and abs(kelvin) > most.value:
            yield Problem(
                side.now_field,
                f"{fields[side.now_field]}: it is {rounded(abs(kelvin), 1)} K from the data sheet's, and the shift is "
                f"good for {most.text} at most. Take a rating point that is nearer, or clear both temperatures.",
            )
    if entered.choice("refrigerant") == "other":
        yield Problem(
            "refrigerant",
            "Refrigerant: choose the refrigerant to shift the data-sheet figures by temperature, "
            "or clear the temperatures.",
        )
    if current and power_factor_of(entered, standards) is None:
        yield Problem(
            "motor_type",
            "Motor type: choose with or without run capacitor to shift the data-sheet figures by temperature, "
            "or clear the temperatures.",
        )


def _changes(entered: Entered, standards: InForce) -> tuple[Change, ...]:
    found = []
    for side in SIDES:
        kelvin = _kelvin(side, entered)
        if kelvin is not None:
            slope = side.limit(entered.choice("refrigerant"), standards)
            found.append(Change(side, kelvin, slope, side.limit("spread", standards)))
    return tuple(found)


def _moved(piece: Piece, changes: tuple[Change, ...], power_factor: float) -> Piece:
    watts_ratio = _watts_ratio(changes)
    factor = current_factor(watts_ratio, power_factor)
    spreads = []
    for one in changes:
        off = one.spread.value / 100.0 * one.kelvin
        ends = [current_factor(watts_ratio + sign * off, power_factor) for sign in (-1.0, 1.0)]
        spreads.append((ends[1] - ends[0]) / (2.0 * factor))
    band = in_quadrature(piece.below, *spreads)
    moved = replace(piece, amps=piece.amps * factor, below=band, above=band)
    amps = evidence_step(
        moved,
        "I = I data × √((PF·p)² + 1 − PF²)",
        f"{quantity(piece.amps, 'A', 2)} × √(({power_factor:g}·{rounded(watts_ratio, 3)})² + 1 − {power_factor:g}²)",
        "derived",
    )
    return replace(moved, steps=(*piece.steps, _watts_step(changes, watts_ratio), amps))


def _watts_step(changes: tuple[Change, ...], watts_ratio: float) -> Step:
    names = " and ".join(one.side.name for one in changes)
    parts = [f"{rounded(one.slope.value, 1)} % × {rounded(one.kelvin, 1)}" for one in changes]
    return Step(
        f"Watts at this {names} temperature",
        "p = 1 + change for each kelvin × (T now − T data)",
        " + ".join(["1", *parts]),
        f"p = {rounded(watts_ratio, 3)}",
        changes[0].slope.source.key,
    )
