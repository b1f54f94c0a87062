"""What the print on a can allows: a printed range, a printed tolerance, or the default where neither is printed."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.contract import Step, quantity, rounded
from calculators.findings import Placement, Verdict, judge_side
from calculators.inputs import Entered, Problem, RefusedError
from calculators.limits import InForce, Limit

FLOAT_DIGITS = 9  # below any display: a reading on a limit is on it, whatever the unit it was typed in
WIDEST_RANGE = 2.0  # a range that spans more than this is two values, or a slip of the pen


@dataclass(frozen=True)
class Placed:
    """Where a capacitance lies, on which side, and the handbook's limit that said so if the can did not."""

    placement: Placement
    low: bool
    limit: Limit | None

    @property
    def verdict(self) -> Verdict:
        """The verdict alone."""
        return self.placement.verdict


@dataclass(frozen=True)
class Marking:
    """The least and the most microfarads that the can allows, and what says so."""

    kind: str
    marked: float
    least: float
    most: float
    below: Limit | None
    above: Limit | None
    open_share: Limit
    printed: str
    steps: tuple[Step, ...]

    @property
    def single(self) -> bool:
        """False where the can prints a range."""
        return bool(self.steps)

    @property
    def digits(self) -> int:
        """Decimals that microfarads of this size are printed with."""
        return _digits(self.marked)

    @property
    def open_below(self) -> float:
        """The capacitance below which it is called open."""
        return self.open_share.value / 100.0 * self.marked

    def text(self, microfarads: float) -> str:
        """A capacitance as printed."""
        return quantity(microfarads, "uF", self.digits)

    def band_text(self, low: float, high: float) -> str:
        """The two ends of a band, as printed."""
        return f"{rounded(max(low, 0.0), self.digits)} to {self.text(high)}"

    @property
    def between(self) -> str:
        """The two ends, with what says so."""
        return f"{self.band_text(self.least, self.most)} {self.printed}"

    def is_open(self, high: float) -> bool:
        """Whether the whole band lies below the share at which it is called open."""
        return round(high, FLOAT_DIGITS) < round(self.open_below, FLOAT_DIGITS)

    def place(self, value: float, low: float, high: float) -> Placed:
        """Against both ends. They condemn a part, so outside needs the whole band outside."""
        value, low, high = (round(one, FLOAT_DIGITS) for one in (value, low, high))
        under = judge_side(value, low, high, limit=self.least, side="least", guard="reject")
        over = judge_side(value, low, high, limit=self.most, side="most", guard="reject")
        if under.verdict is not Verdict.WITHIN:
            return Placed(under, True, self.below)
        if over.verdict is not Verdict.WITHIN:
            return Placed(over, False, self.above)
        nearer_low = value - self.least < self.most - value
        crossing = Placement(Verdict.WITHIN, under.crossing or over.crossing)
        return Placed(crossing, nearer_low, self.below if nearer_low else self.above)


def _digits(marked: float) -> int:
    return 2 if marked < 20.0 else 1


def marking_of(entered: Entered, standards: InForce) -> Marking:
    """The ends that the can allows; refuses what cannot be printed on one capacitor."""
    kind, marked, high = entered.choice("kind"), entered.needed("marked"), entered.number("marked_high")
    _refuse_what_contradicts(entered, kind, marked, high)
    open_share = standards.limit("capacitors.open_share")
    if high is not None:
        return Marking(kind, marked, marked, high, None, None, open_share, "as printed", ())
    down, up = entered.number("tolerance"), entered.number("tolerance_above")
    below: Limit | None = None
    above: Limit | None = None
    if down is not None:
        up, printed, source = down if up is None else up, "by the printed tolerance", "derived"
    else:
        names = ("run_tolerance", "run_tolerance") if kind == "run" else ("start_below", "start_above")
        below, above = (standards.limit(f"capacitors.{name}") for name in names)
        down, up, source = below.value, above.value, below.source.key
        printed = "by the handbook's default, as the can prints no tolerance"
    least, most = (round(marked * (1.0 + part / 100.0), FLOAT_DIGITS) for part in (-down, up))
    digits = _digits(marked)
    steps = tuple(
        Step(
            f"{name} that the marking allows",
            f"C · (1 {sign} t)",
            f"{quantity(marked, 'uF', digits)} · (1 {sign} {part:g} %)",
            quantity(end, "uF", digits),
            source,
        )
        for name, sign, part, end in (("Least", "−", down, least), ("Most", "+", up, most))
    )
    return Marking(kind, marked, least, most, below, above, open_share, printed, steps)


def _refuse_what_contradicts(entered: Entered, kind: str, marked: float, high: float | None) -> None:
    problems = []
    if not kind:
        problems.append(Problem("kind", "Kind of capacitor: choose start or run. The page of each says how to tell."))
    down, up = entered.number("tolerance"), entered.number("tolerance_above")
    if high is not None and high <= marked:
        problems.append(
            Problem(
                "marked_high",
                "High end of a marked range: it must be above the marked value. Two values on a dual capacitor are "
                "not a range: enter one section at a time and leave this empty.",
            )
        )
    elif high is not None and high > WIDEST_RANGE * marked:
        problems.append(
            Problem(
                "marked_high",
                f"High end of a marked range: more than {WIDEST_RANGE:g} times the low end is not one capacitor's "
                "range. Check both figures; two values on a dual capacitor are entered one section at a time.",
            )
        )
    if high is not None and (down is not None or up is not None):
        field = "tolerance" if down is not None else "tolerance_above"
        label = "Printed tolerance" if down is not None else "Printed tolerance upward"
        problems.append(Problem(field, f"{label}: a printed range already holds it. Leave it empty, or the range."))
    elif up is not None and down is None:
        problems.append(
            Problem("tolerance", "Printed tolerance is missing. Enter the downward one too, 0 where the can says -0 %.")
        )
    elif down == 0.0 and not up:
        problems.append(
            Problem(
                "tolerance",
                "Printed tolerance: 0 in both directions leaves no room for any capacitor. Enter what is printed, "
                "or leave it empty where nothing is.",
            )
        )
    if problems:
        raise RefusedError(*problems)
