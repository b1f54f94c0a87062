"""How typed text is understood, and the sentence for what cannot be used."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.inputs import NumberInput, Typed, understand_number
from calculators.units import UNITS, find_spelling

OHMS = NumberInput(
    "r", "Reading 1–2", ("ohm", "kilohm", "milliohm"), 0.0, 300.0, open_line=True, negative_hint="Prove it dead first."
)
OPTIONAL = NumberInput("t", "Shell temperature", ("degC", "degF"), -10.0, 120.0, required=False)
FACTOR = NumberInput("c", "C4", ("plain",), -1e5, 1e5, power_of_ten=True)
WHOLE = NumberInput("n", "Turns", ("turn",), 1.0, 100.0, whole=True)


def refused(one: NumberInput, text: str, unit: str = "") -> str:
    with pytest.raises(ValueError, match=r".+"):
        understand_number(one, Typed(text, unit))
    try:
        understand_number(one, Typed(text, unit))
    except ValueError as why:
        return str(why)
    raise AssertionError


@pytest.mark.parametrize(
    ("text", "base"),
    [
        ("4.4", 4.4),
        ("4,4", 4.4),
        (" 4.4 ", 4.4),
        ("+4.4", 4.4),
        (".5", 0.5),
        ("5.", 5.0),
        ("0,234", 0.234),
        ("4.4 ohm", 4.4),
        ("4.4Ω", 4.4),
        ("440 mΩ", 0.44),
        ("0.2k", 200.0),
        ("0.2 kΩ", 200.0),
        ("0", 0.0),
        ("-0", 0.0),
    ],
)
def test_a_number_is_read_as_it_was_meant(text: str, base: float) -> None:
    assert understand_number(OHMS, Typed(text)) == pytest.approx(base, rel=1e-12)


@pytest.mark.parametrize("text", ["OL", "ol", "O.L", "0L", "open", "∞"])
def test_an_open_line_is_a_reading(text: str) -> None:
    value = understand_number(OHMS, Typed(text))
    assert value is not None
    assert math.isinf(value)


def test_the_unit_picked_beside_the_number_is_used() -> None:
    assert understand_number(OHMS, Typed("0.2", "kilohm")) == 200.0
    assert understand_number(OPTIONAL, Typed("77", "degF")) == pytest.approx(25.0)


def test_a_unit_typed_behind_the_number_wins_over_the_picked_one() -> None:
    assert understand_number(OPTIONAL, Typed("77 F", "degC")) == pytest.approx(25.0)


def test_an_empty_optional_field_is_nothing() -> None:
    assert understand_number(OPTIONAL, Typed("  ")) is None


@pytest.mark.parametrize(
    ("one", "text", "unit", "sentence"),
    [
        (OHMS, "", "", "Reading 1–2 is missing. Enter a number, 0 to 300 Ω, or OL for an open line."),
        (OHMS, "abc", "", "Reading 1–2: “abc” is not a number. Enter a number, 0 to 300 Ω, or OL for an open line."),
        (
            OHMS,
            "4x4",
            "",
            (
                "Reading 1–2: “4x4” has letters that are not a unit here. Enter a number, 0 to 300 Ω, or OL for an open"
                " line."
            ),
        ),
        (
            OHMS,
            "1.2.3",
            "",
            "Reading 1–2: “1.2.3” has two decimal marks. Enter one number with one mark, such as 4.4 or 4,4.",
        ),
        (
            OHMS,
            "1,234.5",
            "",
            "Reading 1–2: “1,234.5” has two decimal marks. Enter one number with one mark, such as 4.4 or 4,4.",
        ),
        (OHMS, "1,234", "", "Reading 1–2: “1,234” could be 1.234 or 1234. Enter it as 1.234 or as 1234."),
        (
            OHMS,
            "-3",
            "",
            "Reading 1–2: -3 is below zero. Enter a number, 0 to 300 Ω, or OL for an open line. Prove it dead first.",
        ),
        (
            OHMS,
            "−3",
            "",
            "Reading 1–2: -3 is below zero. Enter a number, 0 to 300 Ω, or OL for an open line. Prove it dead first.",
        ),
        (
            OHMS,
            "12k",
            "",
            (
                "Reading 1–2: 12k is outside what this check takes, 0 to 0.3 kΩ. Check the number and its unit, or"
                " enter OL for an open line."
            ),
        ),
        (OHMS, "4.2 V", "", "Reading 1–2: “4.2 V” is volts, but this field takes resistance in Ω or kΩ or mΩ."),
        (OHMS, "4.2", "V", "Reading 1–2: the unit V does not fit. It takes Ω or kΩ or mΩ."),
        (OHMS, ".", "", "Reading 1–2: “.” is not a number. Enter a number, 0 to 300 Ω, or OL for an open line."),
        (OPTIONAL, "OL", "", "Shell temperature: an open line cannot be used here. Enter a number, -10 to 120 °C."),
        (
            OPTIONAL,
            "-40",
            "",
            "Shell temperature: -40 is outside what this check takes, -10 to 120 °C. Check the number and its unit.",
        ),
        (
            OPTIONAL,
            "300 F",
            "",
            "Shell temperature: 300 F is outside what this check takes, 14 to 248 °F. Check the number and its unit.",
        ),
        (WHOLE, "2.5", "", "Turns: 2.5 is not a whole number. Enter a number, 1 to 100 turns."),
        (
            OHMS,
            "9" * 41,
            "",
            "Reading 1–2: the entry is longer than 40 characters. Enter a number, 0 to 300 Ω, or OL for an open line.",
        ),
    ],
)
def test_what_cannot_be_used_gets_one_sentence(one: NumberInput, text: str, unit: str, sentence: str) -> None:
    assert refused(one, text, unit) == sentence


@pytest.mark.parametrize("text", ["1e3", "nan", "inf V", "٤", "4 4", "0x10", "½", "1_000", "--4", "4-", "=4"])
def test_odd_spellings_are_refused_not_guessed(text: str) -> None:
    assert refused(OHMS, text).startswith("Reading 1–2")


@pytest.mark.parametrize(
    ("text", "base"),
    [
        ("1.2e-3", 0.0012),
        ("-4.38E-02", -0.0438),
        ("−2,14E-02", -0.0214),
        ("2.25e-4", 0.000225),
        ("7E2", 700.0),
        ("7e+2", 700.0),
        (".5e1", 5.0),
        ("-561.3615705", -561.3615705),
        ("0e5", 0.0),
        ("1e-999", 0.0),
    ],
)
def test_a_coefficient_may_be_typed_with_a_power_of_ten(text: str, base: float) -> None:
    assert understand_number(FACTOR, Typed(text)) == base


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "C4 is missing. Enter a number such as 1.2e-3, -100000 to 100000."),
        ("1e6", "C4: 1e6 is outside what this check takes, -100000 to 100000. Check the number and its unit."),
        ("-1e999", "C4: -1e999 is outside what this check takes, -100000 to 100000. Check the number and its unit."),
        ("1,234e-2", "C4: “1,234e-2” could be 1.234e-2 or 1234e-2. Enter it as 1.234e-2 or as 1234e-2."),
        ("-1,234", "C4: “-1,234” could be -1.234 or -1234. Enter it as -1.234 or as -1234."),
        ("1.2.3e4", "C4: “1.2.3e4” has two decimal marks. Enter one number with one mark, such as 4.4 or 4,4."),
        ("1.2e", "C4: “1.2e” has letters that are not a unit here. Enter a number such as 1.2e-3, -100000 to 100000."),
        ("1.2e-3.5", "C4: “1.2e-3.5” has letters that are not a unit here. Enter a number such as 1.2e-3, -100000 to 100000."),
        (".e4", "C4: “.e4” is not a number. Enter a number such as 1.2e-3, -100000 to 100000."),
        ("e4", "C4: “e4” is not a number. Enter a number such as 1.2e-3, -100000 to 100000."),
        ("2 A", "C4: “2 A” is amps, but this field takes a plain number."),
    ],
)  # fmt: skip
def test_a_coefficient_that_cannot_be_used_gets_one_sentence(text: str, sentence: str) -> None:
    assert refused(FACTOR, text) == sentence


def test_a_unit_that_was_picked_for_a_plain_number_is_refused() -> None:
    assert refused(FACTOR, "1", "V") == "C4: the unit V does not fit. It takes a plain number."


def test_a_negative_number_that_could_be_two_is_offered_with_its_sign() -> None:
    assert refused(OHMS, "-1,234") == (
        "Reading 1–2: “-1,234” could be -1.234 or -1234. Enter it as -1.234 or as -1234."
    )


@given(st.floats(min_value=-1e5, max_value=1e5, allow_subnormal=False))
def test_any_number_as_printed_by_a_spreadsheet_comes_back(number: float) -> None:
    assert understand_number(FACTOR, Typed(f"{number:.16E}")) == number


@given(st.text(max_size=60), st.text(max_size=8))
def test_any_text_is_a_number_or_a_sentence(text: str, unit: str) -> None:
    try:
        value = understand_number(OHMS, Typed(text, unit))
    except ValueError as why:
        sentence = str(why)
    else:
        assert value is not None
        assert value >= 0.0
        return
    assert sentence.startswith("Reading 1–2")
    assert len(sentence) < 400


GAUGE = NumberInput("gauge", "Gauge", ("kPa_gauge", "psi_gauge", "inHg_vacuum"), -110.0, 20000.0)


@pytest.mark.parametrize(
    ("text", "unit", "kilopascal"),
    [("12", "inHg_vacuum", -40.637), ("12 inHg", "", -40.637), ("-5", "kPa_gauge", -5.0), ("10 psig", "", 68.948)],
)
def test_inches_of_vacuum_count_below_the_air(text: str, unit: str, kilopascal: float) -> None:
    # 1 inHg is 3.38639 kPa, 1 psi 6.894757 kPa
    assert understand_number(GAUGE, Typed(text, unit)) == pytest.approx(kilopascal, abs=0.001)


@pytest.mark.parametrize(("text", "unit"), [("-12", "inHg_vacuum"), ("-12 inHg", ""), ("−0.5", "inHg_vacuum")])
def test_a_vacuum_below_zero_is_refused_and_never_becomes_a_pressure(text: str, unit: str) -> None:
    assert refused(GAUGE, text, unit).endswith(
        "has a minus sign, but inHg vacuum already counts below the air's pressure. Enter it without the sign."
    )


@pytest.mark.parametrize(
    "name", ["kPa_gauge", "bar_gauge", "psi_gauge", "inHg_vacuum", "kPa_abs", "hPa_abs", "inHg_abs"]
)
def test_a_pressure_as_it_is_printed_can_be_typed_again(name: str) -> None:
    unit = UNITS[name]
    assert find_spelling(unit.symbol, unit.quantity) is unit


GAUGE = NumberInput("p", "Gauge pressure", ("kPa_gauge", "inHg_vacuum"), -110.0, 2000.0)
LENGTH = NumberInput("l", "Length", ("m", "ft"), 0.0, 100.0)


def test_a_vacuum_counts_downward_and_takes_no_minus_sign() -> None:
    # 1 inHg is 3.386 kPa (from memory).
    assert understand_number(GAUGE, Typed("0.5", "inHg_vacuum")) == pytest.approx(-1.693, abs=0.0005)
    assert "has a minus sign, but inHg vacuum already counts below" in refused(GAUGE, "-0.5", "inHg_vacuum")
    assert understand_number(GAUGE, Typed("-0.5", "kPa_gauge")) == -0.5
    assert refused(LENGTH, "-0.5", "ft") == "Length: -0.5 is below zero. Enter a number, 0 to 100 m."


def test_a_comma_with_three_digits_behind_more_than_three_is_a_decimal_mark() -> None:
    assert understand_number(FACTOR, Typed("1234,567")) == 1234.567


def test_an_entry_that_is_too_long_to_repeat_is_cut_where_it_is_quoted() -> None:
    assert refused(OHMS, "1", "v" * 60) == f"Reading 1–2: the unit {'v' * 39}… does not fit. It takes Ω or kΩ or mΩ."
    assert refused(OHMS, "1", "v" * 40) == f"Reading 1–2: the unit {'v' * 40} does not fit. It takes Ω or kΩ or mΩ."
