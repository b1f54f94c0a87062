"""Winding temperature: the parts of the band and the cooling by hand, the ends of what is taken, and what is offered."""

from __future__ import annotations

from typing import Any

import pytest

from tests.calculators.answers import finding, messages, result, value, verdict
from tests.calculators.test_winding_temperature import EXACT, GOOD, SLUG, at, hot, part

TEN = {"cold_ohms": "10", "cold_temperature": "22", **GOOD, **EXACT}
# 13.4 ohm at switch-off, falling by 400 millionths of itself each second
FALLING = hot(("30", "13.2402"), ("60", "13.0822"), ("90", "12.9262"))
COUNTS = {"ohmmeter_counts": "2", "ohmmeter_resolution": "0.01"}


# --- the working ------------------------------------------------------------------------------------


def test_the_cooling_is_that_of_the_first_minute(ask: Any) -> None:
    # By hand: 1 − exp(−0.0004 · 60) = 0.02371 of 234.5 + 109.2 = 343.7 K is 8.15 K.
    reply = ask(SLUG, **TEN, **FALLING)
    assert value(reply, "cooling") == "8.2"
    assert part(reply, "Ohms at switch-off")["result"] == "R0 = 13.400 Ω, b = -400 · 10⁻⁶ for each second"


@pytest.mark.parametrize(
    ("readings", "parts"),
    [
        # By hand: 12.5 over 10 ohm at 22 °C is 86.1 °C, so k + T2 is 320.6 K. Two counts of 0.01 ohm: cold 320.6 · 0.02 / 10
        # = 0.64; hot by weights of 4/3, 1/3 and −2/3 that is √21 / 3 · 320.6 · 0.02 / 12.5 = 0.78; leads, that both
        # readings share, 320.6 · 0.02 · (1/10 − 1/12.5) = 0.13.
        (
            at("12.5"),
            "counts of the cold reading 0.64, counts of the hot readings 0.78, scatter about the line, twice 0.00,"
            " thermometer 0.00, counts of the leads, shared 0.13",
        ),
        # One reading weighs 1: 320.6 · 0.02 / 12.5 = 0.51.
        (
            hot(("30", "12.5")),
            "counts of the cold reading 0.64, counts of the hot readings 0.51, scatter about the line, twice 0.00,"
            " thermometer 0.00, counts of the leads, shared 0.13",
        ),
        # Two readings at 30 and 60 s weigh 2 and −1, and lie on every line: √5 · 0.51 = 1.15.
        (
            hot(("30", "12.5"), ("60", "12.5")),
            "counts of the cold reading 0.64, counts of the hot readings 1.15, scatter about the line, twice 0.00,"
            " thermometer 0.00, counts of the leads, shared 0.13",
        ),
    ],
)
def test_the_parts_of_the_band_are_those_of_the_readings(ask: Any, readings: dict[str, str], parts: str) -> None:
    reply = ask(SLUG, **{**TEN, **COUNTS}, **readings)
    assert part(reply, "Parts of the band")["result"].startswith(parts)


def test_scatter_counts_twice(ask: Any) -> None:
    # By hand: ln R off the line by 0.001, −0.002 and 0.001 scatters by √(6 / 1) · 0.001 = 0.00245; by weights of 4/3, 1/3
    # and −2/3 that is 0.00374 at switch-off, twice 0.00748, and of 320.6 K 2.40 K.
    reply = ask(SLUG, **TEN, **hot(("30", "12.512506"), ("60", "12.475025"), ("90", "12.512506")))
    assert "scatter about the line, twice 2.40" in part(reply, "Parts of the band")["result"]


def test_the_standard_uncertainty_is_the_band_over_the_root_of_three(ask: Any) -> None:
    # By hand: 5 K of the thermometer times 13.0 / 10 is 6.5 K, and 6.5 / 1.732 = 3.75.
    reply = ask(SLUG, **TEN | {"thermometer_band": "5"}, **at("13.0"))
    assert part(reply, "Band of the temperature")["result"] == "±6.5 K (standard uncertainty U/√3 = 3.8 K)"


def test_two_hot_readings_are_reckoned_back_and_one_is_not(ask: Any) -> None:
    two, one = ask(SLUG, **TEN, **hot(("30", "13.2"), ("60", "13.0"))), ask(SLUG, **TEN, **hot(("30", "13.2")))
    assert result(two, "ohms_at_switch_off")["label"] == "Winding resistance at switch-off"
    assert result(one, "ohms_at_switch_off")["label"] == "Winding resistance as read hot"
    assert [any(found["name"] == "cooling" for found in reply["results"]) for reply in (two, one)] == [True, False]
    assert "a line through fewer than 3 readings" in part(two, "Ohms at switch-off")["formula"]
    assert any(note.startswith("Reckoned back") for note in two["notes"])
    assert "at switch-off" in finding(two, "winding-temperature")["sentence"]
    assert "30 s after switch-off, not reckoned back" in finding(one, "winding-temperature")["sentence"]


def test_without_leads_nothing_is_taken_off_in_the_working_and_the_note(ask: Any) -> None:
    # By hand: 1.34 · 256.5 − 234.5 = 109.2 °C, by a line of ohms as by one of their logarithms.
    reply = ask(SLUG, **TEN | {"lead": ""}, **at("13.4"))
    assert part(reply, "Ohms at switch-off")["put_in"] == "30 s 13.400 Ω, 60 s 13.400 Ω, 90 s 13.400 Ω"
    assert any("a straight line of ohms gives 109.2 °C" in note for note in reply["notes"])


# --- leads left in ----------------------------------------------------------------------------------


@pytest.mark.parametrize(("cold", "banded"), [("1.00", False), ("1.01", True), ("1.05", True)])
def test_leads_left_in_leave_an_upper_end_above_twice_what_they_may_be(ask: Any, cold: str, banded: bool) -> None:
    # Leads of 0.5 ohm are the most that the limits reckon with, and half of 1 ohm.
    reply = ask(SLUG, **TEN | {"lead": "", "cold_ohms": cold}, **at("1.1"))
    assert (result(reply, "winding_temperature")["band"] != "") is banded


@pytest.mark.parametrize(
    ("cold", "ohms", "kelvin"),
    [
        # By hand: 4.9 / 3.9 is 87.8 °C and 4.4 / 3.4 97.4 °C; 10.1 / 10 is 24.6 °C and 9.6 / 9.5 24.7 °C.
        ("3.9", "4.9", "9.7 K"),
        ("10", "10.1", "0.1 K"),
    ],
)
def test_leads_left_in_are_said_to_hide_what_half_an_ohm_would(ask: Any, cold: str, ohms: str, kelvin: str) -> None:
    reply = ask(SLUG, **TEN | {"lead": "", "cold_ohms": cold}, **at(ohms))
    assert f"leads of 0.5 Ω hide {kelvin}" in finding(reply, "leads")["sentence"]


# --- what would decide ------------------------------------------------------------------------------


def test_a_better_thermometer_is_named_where_half_a_kelvin_decides(ask: Any) -> None:
    # By hand: 14.18 ohm is 129.2 °C; 2 K times 1.418 reach past 130 °C, 0.5 K times 1.418 do not.
    typed = {**TEN, "thermometer_band": "2", **at("14.18")}
    decider = finding(ask(SLUG, **typed), "winding-temperature")["decider"]
    assert (decider["enter_in"], decider["entry"]) == ("thermometer_band", "0.5 K")
    assert verdict(ask(SLUG, **typed | {"thermometer_band": "0.5"}), "winding-temperature") == "watch"


def test_zeroed_leads_are_named_where_they_decide(ask: Any) -> None:
    # By hand, with 5 K of the thermometer times 1.39 as the band: 27.75 over 20 ohm is 121.4 °C, no more than 128.4 °C;
    # leads of 0.5 ohm would make it 124.0 °C and reach past 130 °C.
    typed = {**TEN, "cold_ohms": "20", "thermometer_band": "5", "lead": "", **at("27.75")}
    decider = finding(ask(SLUG, **typed), "winding-temperature")["decider"]
    assert (decider["enter_in"], decider["entry"]) == ("lead", "0")
    assert verdict(ask(SLUG, **typed | {"lead": "0"}), "winding-temperature") == "watch"


@pytest.mark.parametrize(
    ("readings", "field"), [((("30", "12.6"),), "hot2_time"), ((("30", "12.6"), ("60", "12.5")), "hot3_time")]
)
def test_too_few_readings_ask_for_the_next_one(ask: Any, readings: tuple[tuple[str, str], ...], field: str) -> None:
    assert finding(ask(SLUG, **TEN, **hot(*readings)), "winding-temperature")["decider"]["enter_in"] == field


# --- what is taken ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        # Readings a second apart are two; 20.83 over 10 ohm is 299.8 °C and 20.85 is 300.3 °C; 8.01 over 10 is above four fifths.
        ({"hot2_time": "31"}, ""),
        ({"hot2_time": "30.9"}, "Hot reading 2: another reading has the same time"),
        (at("20.83"), ""),
        (at("20.85"), "Hot reading 1: hot over cold ohms would make the winding 300 °C"),
        (at("8.01"), ""),
        (at("7.99"), "Hot reading 1: hot over cold ohms would make the winding -30 °C"),
        ({"hot3_time": "181"}, "Hot reading 3: 181 s after switch-off is later than 180 s"),
        ({"hot2_ohms": "0"}, "Hot reading 2: 0.00 Ω is zero"),
    ],
)
def test_readings_are_taken_up_to_what_a_winding_can_be_and_refused_by_their_number(
    ask: Any, changed: dict[str, str], says: str
) -> None:
    reply = ask(SLUG, **TEN | at("12.6") | changed)
    said = [message for _, message in messages(reply)] if "problems" in reply else []
    assert len(said) == (1 if says else 0)
    assert all(message.startswith(says) for message in said)


def test_eight_hot_readings_are_asked_for_and_no_ninth(ask: Any) -> None:
    for number in (1, 2, 8):
        ((field, message),) = messages(ask(SLUG, **TEN | at("12.6") | {f"hot{number}_time": "601"}))
        assert field == f"hot{number}_time"
        assert message.startswith(f"Hot reading {number}: time since switch-off: 601 is outside")
    eight = hot(*((f"{20 * number}", "12.6") for number in range(1, 9)))
    assert part(ask(SLUG, **TEN, **eight), "Ohms at switch-off")["put_in"].endswith("140 s 12.600 Ω, 160 s 12.600 Ω")
    assert "There is no field called hot9_time" in messages(ask(SLUG, **TEN, **at("12.6"), hot9_time="150"))[0][1]


# --- with which decimals it is said -----------------------------------------------------------------


def test_an_unknown_metal_is_told_in_tenths_of_a_degree_in_the_working(ask: Any) -> None:
    # By hand: 1.34 · 256.5 − 234.5 = 109.2 °C for copper, 1.34 · 247 − 225 = 106.0 °C for aluminium; 140 − 109.2 = 30.8 K.
    reply = ask(SLUG, **TEN | {"metal": "unknown", "insulation": "synthetic"}, **at("13.4"))
    assert part(reply, "metal not known")["put_in"] == "k = 234.5 gives 109.2 °C"
    assert part(reply, "metal not known")["result"] == "down to 106.0 °C"
    assert value(reply, "room_to_insulation") == "30.8"


def test_a_band_without_an_upper_end_is_told_in_tenths_of_a_degree(ask: Any) -> None:
    # By hand: 1.1 / 0.9 · 256.5 − 234.5 = 79.0 °C.
    reply = ask(SLUG, **TEN | {"lead": "", "cold_ohms": "0.9"}, **at("1.1"))
    assert "(at least 79.0 °C, and no upper end)" in finding(reply, "winding-temperature")["sentence"]


def test_one_meter_on_one_range_is_named_where_it_decides(ask: Any) -> None:
    # By hand: 14.2 ohm is 129.7 °C; 5 % each way of 364.2 K are 25.8 K, and 0.5 % still 2.6 K.
    typed = {**TEN, "ohmmeter_percent": "5", **at("14.2")}
    decider = finding(ask(SLUG, **typed), "winding-temperature")["decider"]
    assert (decider["enter_in"], decider["entry"]) == ("same_meter", "yes")
    assert decider["resolution"] == "as now, the band is ±25.8 K"
    assert verdict(ask(SLUG, **typed, same_meter="yes"), "winding-temperature") == "watch"


def test_scatter_that_is_most_of_the_band_is_told_in_kelvin(ask: Any) -> None:
    # By hand: ln R off the line by 0.0943, −0.1885 and 0.0943 scatters by 0.2309, at switch-off by 0.7053 twice over, and
    # of 330.3 K that is 233.0 K.
    typed = {"cold_ohms": "5", "cold_temperature": "21", **GOOD, **hot(("30", "7.0"), ("60", "5.2"), ("90", "6.8"))}
    decider = finding(ask(SLUG, **typed), "winding-temperature")["decider"]
    assert "of the band ±233.0 K is scatter about the line" in decider["resolution"]
