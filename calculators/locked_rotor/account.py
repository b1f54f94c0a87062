"""The numbers of a locked-rotor check, and their arithmetic as a trainee would write it."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.contract import Named, Result, Step, quantity, rounded
from calculators.locked_rotor.case import Attempt, Case
from calculators.locked_rotor.heating import DENSITIES, WARM, heating_rate
from calculators.locked_rotor.inputs import CODE_LETTERS, SINGLE_PHASE
from calculators.supply_check.placing import in_volts

_COLUMNS = (115.0, 208.0, 230.0)


def results(case: Case) -> Iterator[Result | Named]:
    """Every number that follows from what was entered."""
    yield from _by_the_plate(case)
    for attempt in case.attempts:
        yield from _attempt(case, attempt)
    left = case.standards.value("starting.most_attempts") - case.count
    plain = "Of all attempts on this visit, the ones that were not measured included."
    yield Result("attempts_left", "Attempts left", max(left, 0.0), "count", 0, plain)
    yield from _letter(case)
    yield from _table(case)


def _by_the_plate(case: Case) -> Iterator[Result]:
    if case.locked_rotor_amps is None:
        return
    warn = in_volts(case.standards.limit("start_volts.warn"), case.plate.low).value
    for name, volts, plain in (
        ("expected_at_plate", case.nominal, "The plate's own amps, at its own volts."),
        ("expected_at_least_volts", warn, "At the fewest volts at which a rotor is judged at all."),
    ):
        expected = case.expected(volts)
        if expected is not None:
            yield _expected(case, name, f"Expected at {quantity(volts, 'V', 1)}", volts, plain)


def _expected(case: Case, name: str, label: str, volts: float, plain: str) -> Result:
    low, high = case.standards.value("locked_rotor.low_ratio"), case.standards.value("locked_rotor.high_ratio")
    expected = case.expected(volts)
    if expected is None:
        raise ValueError("no amps are expected without the plate's own")
    plain = f"{plain} The span is the window in which amps count as those of a standing rotor."
    return Result(name, label, expected.value, "A", 2, plain, low * expected.low, high * expected.high)


def _attempt(case: Case, attempt: Attempt) -> Iterator[Result]:
    stem, words = ("first", "First attempt") if attempt.number == "first" else ("second", "Second attempt")
    volts = attempt.volts
    if volts is None:
        return
    share = tuple(100.0 * value / case.plate.low for value in (volts.value, max(volts.low, 0.0), volts.high))
    plain = "In percent of the plate, of its low end where it is a range."
    yield Result(f"{stem}_percent", f"{words}: volts of the plate", share[0], "percent", 1, plain, share[1], share[2])
    torque = (volts.value / case.plate.low) ** 2
    yield Result(f"{stem}_torque", f"{words}: torque left", torque, "ratio", 2, "Volts over plate volts, squared.")
    at_plate = attempt.amps.value * case.nominal / volts.value
    plain = "What the reading comes to at the plate's volts."
    yield Result(f"{stem}_at_plate", f"{words}: brought to the plate", at_plate, "A", 2, plain)
    ratio = case.ratio(attempt)
    if ratio is not None:
        label = f"{words}: expected at {quantity(volts.value, 'V', 1)}"
        yield _expected(case, f"{stem}_expected", label, volts.value, "LRA times volts over plate volts.")
        plain = "Measured over expected amps."
        yield Result(f"{stem}_ratio", f"{words}: ratio", ratio.value, "ratio", 2, plain, ratio.low, ratio.high)


def _letter(case: Case) -> Iterator[Result | Named]:
    letter, size = case.letter, case.horsepower
    if letter is not None:
        plain = f"Code letter {letter.letter} at {quantity(case.nominal, 'V', 0)}, its lower end."
        yield Result("letter_least", "By code letter, least", letter.least, "A", 2, plain)
        if letter.most is None:
            plain = "The last letter has no upper end."
            yield Named("letter_most", "By code letter, most", "no upper end", plain)
        else:
            plain = "Its upper end; printed letters end a hundredth below the next."
            yield Result("letter_most", "By code letter, most", letter.most, "A", 2, plain)
    if case.locked_rotor_amps is not None and size is not None:
        per = kva_per_horsepower(case.locked_rotor_amps, case.nominal, size)
        plain = "The plate's amps as a code letter is reckoned. Trade horsepower makes it a rough figure."
        yield Result("kva_per_hp", "Locked-rotor kVA per hp", per, "ratio", 2, plain)
        yield Named("letter_of_plate", "Code letter that this comes to", _letter_of(case, per), plain)


def kva_per_horsepower(amps: float, volts: float, size: float) -> float:
    """V x A / 1000 / hp."""
    return volts * amps / 1000.0 / size


def _letter_of(case: Case, per: float) -> str:
    printed = round(per, 2)  # the table is printed to a hundredth
    rows = case.standards.table(CODE_LETTERS).rows
    return next(str(row["id"]) for row in reversed(rows) if printed >= float(row["least"]))


def _table(case: Case) -> Iterator[Named]:
    """What the table for disconnects prints for this size; said, where it prints nothing. Nothing is interpolated."""
    size = case.entered.choice("horsepower")
    if not size:
        return
    label, plain = (
        "Table for choosing disconnects",
        "High on purpose; no motor is judged by it, and nothing is put between its rows.",
    )
    row = case.standards.table(SINGLE_PHASE).row(size)
    if row is None:
        first = case.standards.table(SINGLE_PHASE).rows[0]["label"]
        yield Named("table_amps", label, f"no row for {size} hp; it begins at {first}", plain)
        return
    columns = [volts for volts in _COLUMNS if case.plate.low <= volts <= case.plate.high]
    printed = ", ".join(f"{float(row[f'amps_{volts:.0f}']):g} A at {volts:g} V" for volts in columns)
    yield Named("table_amps", label, printed or f"no column for {case.plate.text}", plain)


# --- working ----------------------------------------------------------------------------------------


def working(case: Case) -> Iterator[Step]:
    """The arithmetic, line by line."""
    amps = case.locked_rotor_amps
    for attempt in case.attempts:
        if amps is not None and attempt.volts is not None:
            yield from _attempt_steps(case, attempt, amps)
    letter, size = case.letter, case.entered.choice("horsepower")
    if letter is not None:
        row = case.standards.table(CODE_LETTERS).row(letter.letter) or {}
        ends = f"{row['least']:g}" if letter.most is None else f"{row['least']:g} to {row['most']:g}"
        result = quantity(letter.least, "A", 2)
        result = (
            f"{result} and up"
            if letter.most is None
            else f"{rounded(letter.least, 2)} to {quantity(letter.most, 'A', 2)}"
        )
        put_in = f"{ends} × {size} × 1000 / {case.nominal:g}"
        yield Step(f"Amps by code letter {letter.letter}", "kVA per hp × hp × 1000 / V", put_in, result, "nec-430-7-b")
    if amps is not None and case.horsepower is not None:
        put_in = f"{case.nominal:g} × {rounded(amps, 2)} / 1000 / {size}"
        per = rounded(kva_per_horsepower(amps, case.nominal, case.horsepower), 2)
        yield Step("Locked-rotor kVA per hp", "V × A / 1000 / hp", put_in, per, "nec-430-7-b")
    if amps is not None:
        warn = in_volts(case.standards.limit("start_volts.warn"), case.plate.low).value
        put_in = f"{rounded(amps, 2)} × {rounded(warn, 1)} / {case.nominal:g}"
        result = quantity(amps * warn / case.nominal, "A", 2)
        yield Step("Expected at the fewest volts that count", "LRA × U / Un", put_in, result, "derived")
    density = DENSITIES[-1]
    put_in = f"({density:g} A/mm²)² × copper at {WARM:g} °C"
    result = f"{rounded(heating_rate(density), 0)} K each second"
    yield Step("A start winding that stands still", "J² ρ / (c d), no heat lost", put_in, result, "iec-60028")


def _attempt_steps(case: Case, attempt: Attempt, amps: float) -> Iterator[Step]:
    words = "First attempt" if attempt.number == "first" else "Second attempt"
    ratio = case.ratio(attempt)
    if attempt.volts is None or ratio is None:
        return
    volts = attempt.volts.value
    expected = amps * volts / case.nominal
    put_in = f"{rounded(amps, 2)} × {rounded(volts, 1)} / {case.nominal:g}"
    yield Step(f"{words}: expected", "LRA × U / Un", put_in, quantity(expected, "A", 2), "derived")
    put_in = f"{rounded(attempt.amps.value, 2)} / {rounded(expected, 2)}"
    yield Step(f"{words}: ratio", "I / (LRA × U / Un)", put_in, rounded(ratio.value, 2), "derived")
    formula = "clamp and voltmeter in quadrature; the ends of a range on top, in full"
    put_in = (
        f"{quantity(100.0 * attempt.amps.relative_band, 'percent', 1)} and "
        f"{quantity(100.0 * attempt.volts.relative_band, 'percent', 1)}"
    )
    yield Step(f"{words}: band", formula, put_in, f"{rounded(ratio.low, 2)} to {rounded(ratio.high, 2)}", "jcgm-100")
