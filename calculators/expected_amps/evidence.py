"""What should this motor draw, by each piece of evidence, and how far do the pieces agree?

Seven ranks, best first: A performance map, B data-sheet amps, C printed rated-load amps, D watts,
E locked-rotor amps, F trade horsepower, G the amps of the whole cabinet (an upper bound).
A, B and D that overlap are combined; C stands alone, because it is a heavy-load figure; E, F and G
are used only where there is nothing better, and then never to call a motor normal.

Sources: I = P / (U PF) is the definition of the power factor; weights by JCGM 100:2008 (independent pieces);
746 W to the electric horsepower from NIST SP 811; bands and ratios are the standards' own, with their basis.
Valid for fixed-speed single-phase motors at the plate's voltage and frequency.

>>> round(amps_from_watts(185.0, 115.0, 0.60), 2)
2.68
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from fractions import Fraction

from calculators.contract import Step, quantity, rounded
from calculators.inputs import Entered, Problem, RefusedError
from calculators.limits import InForce

WATTS_PER_HORSEPOWER = 746.0  # the electric horsepower, by definition; NIST SP 811 B.8
FLOAT_DIGITS = 9  # a number typed on a limit stays on it, in whatever unit it was typed

EVIDENCE_FIELDS = {
    "map_amps": "amps from a performance map",
    "data_sheet_amps": "data-sheet amps",
    "rated_load_amps": "printed rated-load amps",
    "watts": "data-sheet watts",
    "locked_rotor_amps": "locked-rotor amps",
    "horsepower": "trade horsepower",
    "cabinet_amps": "cabinet amps",
}
_RANK = dict(zip(EVIDENCE_FIELDS, "ABCDEFG", strict=True))
_BAND = {"map_amps": "map", "data_sheet_amps": "data_sheet", "rated_load_amps": "rated_load", "watts": "watts"}


def amps_from_watts(watts: float, volts: float, power_factor: float) -> float:
    """Current of a single-phase load: I = P / (U PF)."""
    return watts / (volts * power_factor)


def amps_from_horsepower(horsepower: float, volts: float, power_factor: float) -> float:
    """Current by a trade size, which stands for input power and not for shaft power."""
    return amps_from_watts(horsepower * WATTS_PER_HORSEPOWER, volts, power_factor)


def current_factor(watts_ratio: float, power_factor: float) -> float:
    """How the current follows the watts: active part in proportion, reactive part unchanged."""
    return math.sqrt((power_factor * watts_ratio) ** 2 + 1.0 - power_factor**2)


@dataclass(frozen=True)
class Piece:
    """What one piece of evidence says: amps, and how far below and above them the truth may lie, as parts of them."""

    field: str
    amps: float
    below: float
    above: float
    steps: tuple[Step, ...] = ()

    @property
    def rank(self) -> str:
        """The letter of the rank, A the best."""
        return _RANK[self.field]

    @property
    def words(self) -> str:
        """What it is called in a sentence."""
        return EVIDENCE_FIELDS[self.field]

    @property
    def low(self) -> float:
        """The least amps it allows."""
        return round(self.amps * (1.0 - self.below), FLOAT_DIGITS)

    @property
    def high(self) -> float:
        """The most amps it allows."""
        return round(self.amps * (1.0 + self.above), FLOAT_DIGITS)

    def overlaps(self, low: float, high: float) -> bool:
        """True when its band and low..high have a value in common."""
        return self.low <= high and low <= self.high


def pieces_of(entered: Entered, standards: InForce) -> tuple[Piece, ...]:
    """Every usable piece of evidence, best rank first; RefusedError when none can be used."""
    found = [
        _plain_piece("map_amps", "ahri-540", entered, standards),
        _plain_piece("data_sheet_amps", "ashrae-23", entered, standards),
        _plain_piece("rated_load_amps", "nec-440-2", entered, standards),
        _watts_piece(entered, standards),
        _locked_rotor_piece(entered, standards),
        _horsepower_piece(entered, standards),
        _cabinet_piece(entered),
    ]
    pieces = tuple(piece for piece in found if piece is not None)
    if pieces:
        return pieces
    if entered.number("watts") is not None:
        raise RefusedError(
            Problem(
                "motor_type",
                "Motor type: watts become amps only by a power factor. Choose with or without run capacitor, "
                "or enter the power factor of the data sheet.",
            )
        )
    raise RefusedError(
        Problem(
            "rated_load_amps",
            "There is nothing to compare with yet. Enter at least one piece of evidence: "
            + ", ".join(EVIDENCE_FIELDS.values())
            + ".",
        )
    )


def power_factor_of(entered: Entered, standards: InForce) -> float | None:
    """The power factor of the data sheet, or the usual one of the motor type; None when neither is known."""
    given = entered.number("power_factor")
    if given is not None:
        return given
    usual = {"resistance": "resistance_start", "run_capacitor": "run_capacitor"}.get(entered.choice("motor_type"))
    return None if usual is None else standards.value(f"amps.power_factor.{usual}")


def rated_load_of(pieces: tuple[Piece, ...]) -> float | None:
    """The rated-load amps printed on the compressor, if they are among the pieces."""
    return next((piece.amps for piece in pieces if piece.rank == "C"), None)


def half_band(field: str, standards: InForce) -> float:
    """The half-band of ranks A to D as a part of the amps."""
    return standards.value(f"amps.band.{_BAND[field]}") / 100.0


def piece_with(field: str, amps: float, standards: InForce) -> Piece:
    """A piece of rank A to D that names these amps."""
    band = half_band(field, standards)
    return Piece(field, amps, band, band)


def _plain_piece(field: str, source: str, entered: Entered, standards: InForce) -> Piece | None:
    amps = entered.number(field)
    if amps is None:
        return None
    piece = piece_with(field, amps, standards)
    return replace(piece, steps=(evidence_step(piece, "as printed", quantity(amps, "A", 2), source),))


def _watts_piece(entered: Entered, standards: InForce) -> Piece | None:
    watts, power_factor = entered.number("watts"), power_factor_of(entered, standards)
    if watts is None or power_factor is None:
        return None
    volts = entered.needed("plate_volts")
    piece = piece_with("watts", amps_from_watts(watts, volts, power_factor), standards)
    put_in = f"{quantity(watts, 'W', 0)} / ({quantity(volts, 'V', 0)} · {power_factor:g})"
    source = "trade-memory" if entered.number("power_factor") is None else "derived"
    return replace(piece, steps=(evidence_step(piece, "I = P / (U · PF)", put_in, source),))


def _locked_rotor_piece(entered: Entered, standards: InForce) -> Piece | None:
    stalled = entered.number("locked_rotor_amps")
    if stalled is None:
        return None
    ratio = standards.limit("amps.locked_rotor_ratio")
    piece = Piece(
        "locked_rotor_amps",
        stalled / ratio.value,
        standards.value("amps.band.locked_rotor_low") / 100.0,
        standards.value("amps.band.locked_rotor_high") / 100.0,
    )
    return replace(
        piece,
        steps=(
            evidence_step(
                piece, f"I = LRA / {ratio.text}", f"{quantity(stalled, 'A', 2)} / {ratio.text}", ratio.source.key
            ),
        ),
    )


def _horsepower_piece(entered: Entered, standards: InForce) -> Piece | None:
    size = entered.choice("horsepower")
    if not size:
        return None
    volts, power_factor = entered.needed("plate_volts"), standards.value("amps.power_factor.horsepower")
    band = standards.value("amps.band.horsepower") / 100.0
    piece = Piece("horsepower", amps_from_horsepower(float(Fraction(size)), volts, power_factor), band, band)
    put_in = f"{size} · {WATTS_PER_HORSEPOWER:g} W / ({power_factor:g} · {quantity(volts, 'V', 0)})"
    return replace(piece, steps=(evidence_step(piece, "I = hp · 746 W / (PF · U)", put_in, "nist-sp-811"),))


def _cabinet_piece(entered: Entered) -> Piece | None:
    amps = entered.number("cabinet_amps")
    if amps is None:
        return None
    step = Step(
        "Rank G, cabinet amps",
        "I of the compressor ≤ I of the cabinet",
        quantity(amps, "A", 2),
        f"at most {quantity(amps, 'A', 2)}",
        "common-practice",
    )
    return Piece("cabinet_amps", amps, 0.0, 0.0, (step,))


def evidence_step(piece: Piece, formula: str, put_in: str, source: str) -> Step:
    """The line of working of a piece, with its band."""
    return Step(
        f"Rank {piece.rank}, {piece.words}",
        formula,
        put_in,
        f"{quantity(piece.amps, 'A', 2)} {_band_words(piece.below, piece.above)} "
        f"({rounded(piece.low, 2)} to {quantity(piece.high, 'A', 2)})",
        source,
    )


def _band_words(below: float, above: float) -> str:
    down, up = rounded(100.0 * below, 0), rounded(100.0 * above, 0)
    return f"±{up} %" if down == up else f"−{down} +{up} %"
