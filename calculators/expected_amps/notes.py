"""What stands beside the numbers of the running-amps check: what was not used, and what amps do not show."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.expected_amps.evidence import Piece, power_factor_of
from calculators.expected_amps.ratio import Case
from calculators.expected_amps.reference import Reference
from calculators.expected_amps.shift import SHIFTED, temperatures_entered
from calculators.inputs import Entered
from calculators.limits import InForce
from calculators.running_condition import Supply


def notes_of(
    pieces: tuple[Piece, ...],
    reference: Reference,
    supply: Supply,
    case: Case | None,
    entered: Entered,
    standards: InForce,
) -> Iterator[str]:
    """Everything that stands beside the numbers."""
    yield from _unused_notes(pieces, reference, entered, standards)
    if case is not None and not (supply.plate_frequency and supply.frequency):
        yield "Plate and supply frequency were not both read: this holds only if they are the same."
    if any(piece.rank == "C" for piece in reference.pieces):
        yield "Rated-load amps are a heavy-load figure. A settled cabinet draws less, so the lower edge is its own."
    if entered.choice("motor_type") != "run_capacitor":
        yield (
            "Without a run capacitor amps hide a change of load: most of the current is magnetising current. "
            "Watts show it."
        )
    yield "A compressor that does not pump can draw amps that look normal. Watts, power factor and frost tell."
    yield (
        "A dirty condenser on a cold freezer shows as heat more than as amps; on a pull-down or a bottle cooler it "
        "shows in amps. A warm cabinet draws more until it has pulled down."
    )
    yield _general_table_note(entered.choice("horsepower"), standards)


def _unused_notes(
    pieces: tuple[Piece, ...], reference: Reference, entered: Entered, standards: InForce
) -> Iterator[str]:
    checked = [piece.words for piece in pieces if piece not in reference.pieces]
    if checked:
        yield f"Only looked at for contradictions, not part of the expected amps: {', '.join(checked)}."
    if entered.number("watts") is not None and power_factor_of(entered, standards) is None:
        yield "The watts were not used: choose the motor type or enter the power factor of the data sheet."
    shifts = any(piece.field in SHIFTED for piece in pieces) and temperatures_entered(entered)
    if temperatures_entered(entered) and not shifts:
        yield "The temperatures were not used: they only shift data-sheet amps and watts."
    if entered.number("power_factor") is not None and entered.number("watts") is None and not shifts:
        yield "The power factor was not used: it belongs to watts."


def _general_table_note(size: str, standards: InForce) -> str:
    rule = "is for ordinary motors and deliberately high: never judge a hermetic motor by it"
    if not size:
        return f"The general motor table, {standards.cite('nec-430-248')}, {rule}."
    row = standards.table("general-motor-full-load").row(size)
    if row is None:
        return f"The general motor table, {standards.cite('nec-430-248')}, has no row for {size} hp, and it {rule}."
    return (
        f"The general motor table, {standards.cite('nec-430-248')}, prints {row['amps_115']:g} A at 115 V and "
        f"{row['amps_230']:g} A at 230 V for {size} hp. It {rule}."
    )
