"""Readings, verdicts, units and the door: the rules every calculator stands on."""

from __future__ import annotations

import json
from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.answer import answer
from calculators.contract import rounded
from calculators.findings import Finding, NextStep, Verdict, judge_pair, judge_side
from calculators.limits import Limit, NothingInForceError, Source, Standards
from calculators.readings import Meter, Reading, in_quadrature
from calculators.units import UNITS, find_spelling, from_base, to_base

RANK = {Verdict.OUTSIDE: 2, Verdict.WATCH: 1, Verdict.WITHIN: 2, Verdict.UNDECIDED: 0}


def limit(value: float, side: str = "most", guard: str = "reject") -> Limit:
    return Limit(
        "x.y",
        "a limit for a test",
        value,
        "ratio",
        side,
        guard,
        "shop",
        Source("s", "shop", "none"),
        "2026-01-01",
        "2026-01-01",
        "shop",
    )


# --- readings ---------------------------------------------------------------------------------------


def test_a_meter_band_is_percent_plus_counts() -> None:
    # A printed forum example of the common form: 0.7 % + 2 counts of 0.1 V at 120.0 V is ±1.04 V, 118.96 to 121.04 V.
    reading = Reading.taken(120.0, Meter(0.7, 2, 0.1))
    assert reading.band == pytest.approx(1.04)
    assert (reading.low, reading.high) == (pytest.approx(118.96), pytest.approx(121.04))


def test_a_coarse_ohmmeter_is_seven_percent_on_a_small_winding() -> None:
    # Derived: 4.2 ohm on ±(0.5 % + 3 counts of 0.1) is ±0.32 ohm, 7.6 %; on ±(0.2 % + 2 counts of 0.01) it is 0.7 %.
    assert Reading.taken(4.2, Meter(0.5, 3, 0.1)).relative_band == pytest.approx(0.076, abs=0.0005)
    assert Reading.taken(4.2, Meter(0.2, 2, 0.01)).relative_band == pytest.approx(0.007, abs=0.0005)


def test_a_standard_uncertainty_is_the_limit_over_root_three() -> None:
    # JCGM 100:2008, 4.3.7 with the digital voltmeter of 5.1.5: a = 15 µV gives 8.7 µV.
    assert Reading(1.0, 15.0, Meter(0, 0, 0)).standard_uncertainty == pytest.approx(8.7, abs=0.05)


def test_independent_bands_add_in_quadrature() -> None:
    # JCGM 100:2008, 5.1.5: 8.66 and 12 µV give 14.80 µV.
    assert in_quadrature(8.66, 12.0) == pytest.approx(14.80, abs=0.005)


# --- verdicts ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("value", "band", "guard", "verdict"),
    [
        (1.0, 0.1, "reject", "within"),
        (1.0, 0.3, "reject", "within"),
        (1.15, 0.0, "reject", "within"),
        (1.2, 0.1, "reject", "undecided"),
        (1.3, 0.1, "reject", "outside"),
        (1.0, 0.1, "accept", "within"),
        (1.0, 0.3, "accept", "undecided"),
        (1.2, 0.1, "accept", "undecided"),
        (1.3, 0.1, "accept", "outside"),
    ],
)
def test_the_guard_decides_what_a_crossing_band_means(value: float, band: float, guard: str, verdict: str) -> None:
    placed = judge_side(value, value - band, value + band, limit=1.15, side="most", guard=guard)
    assert placed.verdict.value == verdict


def test_a_reading_inside_a_condemning_limit_says_when_its_band_crosses() -> None:
    assert judge_side(1.1, 1.0, 1.2, limit=1.15, side="most", guard="reject").crossing
    assert not judge_side(1.0, 0.9, 1.1, limit=1.15, side="most", guard="reject").crossing


@pytest.mark.parametrize(
    ("value", "band", "guard", "verdict"),
    [
        (1.0, 0.0, "reject", "within"),
        (1.3, 0.05, "reject", "watch"),
        (1.45, 0.1, "reject", "watch"),
        (1.6, 0.1, "reject", "outside"),
        (1.2, 0.1, "reject", "undecided"),
        (1.1, 0.1, "reject", "within"),
        (1.0, 0.1, "accept", "within"),
        (1.1, 0.1, "accept", "watch"),
        (1.3, 0.05, "accept", "watch"),
        (1.38, 0.1, "accept", "undecided"),
        (1.6, 0.1, "accept", "outside"),
    ],
)
def test_between_a_warning_and_a_fail_limit_lies_watch(value: float, band: float, guard: str, verdict: str) -> None:
    placed = judge_pair(value, value - band, value + band, warn=limit(1.15, guard=guard), fail=limit(1.40, guard=guard))
    assert placed.verdict.value == verdict


def test_a_least_limit_is_the_mirror_of_a_most_limit() -> None:
    placed = judge_pair(0.87, 0.86, 0.88, warn=limit(0.90, "least"), fail=limit(0.85, "least"))
    assert placed.verdict is Verdict.WATCH
    assert judge_pair(0.80, 0.79, 0.81, warn=limit(0.90, "least"), fail=limit(0.85, "least")).verdict is Verdict.OUTSIDE


@given(
    value=st.floats(0.0, 3.0),
    band=st.floats(0.0, 1.0),
    more=st.floats(0.0, 1.0),
    guard=st.sampled_from(["reject", "accept"]),
    side=st.sampled_from(["most", "least"]),
)
def test_a_wider_band_never_strengthens_a_verdict(
    value: float, band: float, more: float, guard: str, side: str
) -> None:
    low, high = (1.15, 1.40) if side == "most" else (1.40, 1.15)
    pair = {"warn": limit(low, side, guard), "fail": limit(high, side, guard)}
    narrow = judge_pair(value, value - band, value + band, **pair)
    wide = judge_pair(value, value - band - more, value + band + more, **pair)
    assert RANK[wide.verdict] <= RANK[narrow.verdict]
    if narrow.verdict is Verdict.UNDECIDED:
        assert wide.verdict is Verdict.UNDECIDED


def test_an_undecided_finding_without_its_decider_cannot_be_made() -> None:
    with pytest.raises(ValueError, match="undecided"):
        Finding("x", Verdict.UNDECIDED, "a", "b", NextStep("c"))


# --- units and text ---------------------------------------------------------------------------------

PINT_NAMES = {
    "ohm": "ohm",
    "milliohm": "milliohm",
    "kilohm": "kiloohm",
    "megohm": "megaohm",
    "gigohm": "gigaohm",
    "V": "volt",
    "mV": "millivolt",
    "kV": "kilovolt",
    "A": "ampere",
    "mA": "milliampere",
    "W": "watt",
    "kW": "kilowatt",
    "m": "metre",
    "ft": "foot",
    "degC": "degC",
    "degF": "degF",
    "K": "delta_degC",
    "degF_diff": "delta_degF",
    "s": "second",
    "ms": "millisecond",
    "min": "minute",
    "h": "hour",
    "Hz": "hertz",
    "uF": "microfarad",
    "nF": "nanofarad",
    "J": "joule",
    "mm2": "millimeter**2",
    "kPa_abs": "kilopascal",
    "hPa_abs": "hectopascal",
    "bar_abs": "bar",
    "psi_abs": "psi",
    "kPa_gauge": "kilopascal",
    "bar_gauge": "bar",
    "psi_gauge": "psi",
    "ohm_per_km": "ohm/kilometer",
    "ohm_per_kft": "ohm/kilofoot",
}


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


@pytest.mark.parametrize("name", sorted(PINT_NAMES))
def test_conversions_agree_with_a_general_units_library(name: str, registry: pint.UnitRegistry) -> None:
    # Referee: pint.
    base = next(
        unit.name
        for unit in UNITS.values()
        if unit.quantity == UNITS[name].quantity and unit.factor == unit.divisor == 1.0 and unit.zero == 0.0
    )
    expected = registry.Quantity(37.5, PINT_NAMES[name]).to(PINT_NAMES[base]).magnitude
    assert to_base(37.5, name) == pytest.approx(expected, rel=1e-9)
    assert from_base(to_base(37.5, name), name) == pytest.approx(37.5, rel=1e-12)


@pytest.mark.parametrize("name", ["hp", "VA", "var", "ratio", "percent", "count", "plain", "turn"])
def test_a_quantity_with_one_unit_keeps_its_number(name: str) -> None:
    assert to_base(37.5, name) == 37.5
    assert from_base(37.5, name) == 37.5


def test_a_number_in_another_unit_is_the_same_number_to_the_last_bit() -> None:
    # IEEE 754: a double keeps 15 decimal digits; a product of two may miss the nearest one by its last bit.
    assert 0.01395 * 1000.0 != 13.95
    assert to_base(0.01395, "kW") == 13.95
    assert to_base(1.23456789012345, "kW") == 1234.56789012345


def test_inches_of_mercury_of_vacuum_count_down_from_the_atmosphere() -> None:
    # 29.92 inHg is one atmosphere, 101.3 kPa (standard atmosphere, from memory).
    assert to_base(29.92, "inHg_vacuum") == pytest.approx(-101.3, abs=0.05)


def test_milli_and_mega_are_never_confused() -> None:
    small, large = find_spelling("mΩ", "resistance"), find_spelling("MΩ", "resistance")
    assert small is not None
    assert large is not None
    assert (small.name, large.name) == ("milliohm", "megohm")
    assert find_spelling("mω", "resistance") is None


@pytest.mark.parametrize(
    ("value", "digits", "text"),
    [(2.675, 2, "2.67"), (-0.001, 2, "0.00"), (1e6, 0, "1000000"), (0.5, 0, "0"), (1.5, 0, "2")],
)
def test_numbers_are_rounded_once_and_never_minus_zero(value: float, digits: int, text: str) -> None:
    assert rounded(value, digits) == text


# --- dates and the door -----------------------------------------------------------------------------


def test_a_date_before_the_first_value_borrows_nothing(standards: Standards, ask: Any) -> None:
    reply = ask("winding-identification", date="1970-01-01", r12="4.2", r13="13.8", r23="17.9", lead="0")
    assert "in force on 1970-01-01" in reply["problems"][0]["message"]
    with pytest.raises(NothingInForceError):
        standards.in_force(__import__("datetime").date(1970, 1, 1)).limit("windings.sum_tolerance")


def test_a_later_value_takes_over_on_its_day() -> None:
    row = {
        "unit": "ratio",
        "side": "most",
        "guard": "reject",
        "meaning": "a limit for a test",
        "basis": "shop",
        "source": "s",
        "checked_on": "2026-01-01",
        "decided_by": "shop",
    }
    data = {
        "revision": "1",
        "tables": {},
        "sources": {"s": {"citation": "shop", "seen": "none"}},
        "limits": {
            "a.b": [
                {**row, "value": 1.0, "in_force_from": "2026-01-01"},
                {**row, "value": 2.0, "in_force_from": "2026-06-01"},
            ]
        },
    }
    standards = Standards.from_json(json.dumps(data))
    from datetime import date

    assert standards.in_force(date(2026, 5, 31)).value("a.b") == 1.0
    assert standards.in_force(date(2026, 6, 1)).value("a.b") == 2.0


@pytest.mark.parametrize(
    "request_text",
    [
        "",
        "nonsense",
        "[]",
        "{}",
        '{"calculator": 3}',
        '{"calculator":"x","date":"2026-13-01"}',
        '{"calculator":"x","date":"2026-01-01","inputs":[]}',
        "[" * 100000,
    ],
)
def test_an_unreadable_request_is_answered_in_words(standards: Standards, request_text: str) -> None:
    reply = json.loads(answer(request_text, standards))
    assert reply["problems"][0]["message"].startswith("The request could not be read")


def test_an_unknown_calculator_offers_the_nearest_name(ask: Any) -> None:
    assert "Did you mean winding-identification?" in ask("winding-identificaton")["problems"][0]["message"]


def test_an_unknown_field_is_named(ask: Any) -> None:
    reply = ask("winding-identification", r12="1", r13="2", r23="3", r99="4")
    assert reply["problems"][0]["input"] == "r99"
    assert "There is no field called r99" in reply["problems"][0]["message"]


def test_a_pick_outside_the_list_is_refused(ask: Any) -> None:
    reply = ask("winding-identification", r12="1", r13="2", r23="3", metal="gold")
    assert reply["problems"] == [
        {"input": "metal", "message": "Winding metal: “gold” is not in the list. Choose one of: copper, aluminium."}
    ]


@pytest.mark.source("nist-sp-811")
def test_an_inch_of_mercury_in_all_is_that_of_the_standard() -> None:
    # NIST SP 811, appendix B: a conventional inch of mercury is 3.386389 kPa; none of it is perfect vacuum.
    assert to_base(1.0, "inHg_abs") == pytest.approx(3.386389, abs=5e-7)
    assert to_base(0.0, "inHg_abs") == 0.0


def test_two_letters_are_understood_in_any_case_where_only_one_unit_is_meant() -> None:
    found = find_spelling("KV", "voltage")
    assert found is not None
    assert found.name == "kV"
