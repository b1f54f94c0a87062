"""Where amps and volts of an attempt lie, and whether they could carry a word against the motor."""

from __future__ import annotations

from calculators.findings import Placement, Verdict, judge, judge_pair, judge_side
from calculators.locked_rotor.case import Attempt, Case
from calculators.supply_check.placing import in_volts, together
from calculators.voltage_drop.path_volts import Span


def place_ratio(case: Case, ratio: Span) -> Placement:
    """The ratio against both ends of its window. Inside means: what a rotor that stands still takes."""
    limits = (case.standards.limit("locked_rotor.low_ratio"), case.standards.limit("locked_rotor.high_ratio"))
    return together(*(judge(ratio.value, ratio.low, ratio.high, limit) for limit in limits))


def place_amps(case: Case, attempt: Attempt) -> Placement:
    """The amps of one attempt: by the plate where it prints them, by the code letter else, which never passes."""
    if attempt.volts is None or case.wrong_frequency:
        return Placement(Verdict.UNDECIDED, crossing=True)
    ratio = case.ratio(attempt)
    if ratio is not None:
        return place_ratio(case, ratio)
    if _beyond_the_letter(case, attempt):
        return Placement(Verdict.OUTSIDE)
    return Placement(Verdict.UNDECIDED, crossing=True)


def _beyond_the_letter(case: Case, attempt: Attempt) -> bool:
    """Whether the amps lie outside all that the code letter allows, window and band included."""
    letter = case.letter
    if letter is None or attempt.volts is None:
        return False
    low, high = case.standards.value("locked_rotor.low_ratio"), case.standards.value("locked_rotor.high_ratio")
    below = bool(letter.least) and letter_ratio(case, attempt, letter.least).high < low
    above = letter.most is not None and letter_ratio(case, attempt, letter.most).low > high
    return below or above


def letter_ratio(case: Case, attempt: Attempt, plate_amps: float) -> Span:
    """The ratio as if the plate printed these amps."""
    ratio = case.with_number("locked_rotor_amps", plate_amps).ratio(attempt)
    if ratio is None:
        raise ValueError("an attempt without volts has no ratio")
    return ratio


def place_volts(case: Case, attempt: Attempt) -> Placement:
    """The volts of one attempt against what a start needs, on the low end of the plate."""
    if attempt.volts is None:
        return Placement(Verdict.UNDECIDED, crossing=True)
    warn = in_volts(case.standards.limit("start_volts.warn"), case.plate.low)
    fail = in_volts(case.standards.limit("start_volts.min"), case.plate.low)
    volts = attempt.volts
    return judge_pair(volts.value, volts.low, volts.high, warn=warn, fail=fail)


def volts_carry(case: Case, attempt: Attempt) -> bool:
    """Whether the volts are proved good: the whole band at the warning limit or above."""
    if attempt.volts is None:
        return False
    warn = in_volts(case.standards.limit("start_volts.warn"), case.plate.low).value
    volts = attempt.volts
    placed = judge_side(volts.value, volts.low, volts.high, limit=warn, side="least", guard="accept")
    return placed.verdict is Verdict.WITHIN


def amps_carry(case: Case, attempt: Attempt) -> bool:
    """Whether the amps are proved to be those of a rotor that stands still: the whole band inside the window."""
    ratio = case.ratio(attempt)
    if ratio is None or case.wrong_frequency:
        return False
    placed = place_ratio(case, ratio)
    return placed.verdict is Verdict.WITHIN and not placed.crossing
