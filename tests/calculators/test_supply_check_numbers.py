"""The supply check: ends of bands, the working by hand, and which readings to earth make which pattern."""

from __future__ import annotations

from typing import Any

import pytest

from tests.calculators.answers import finding, messages, result, value, verdict
from tests.calculators.test_supply_check import QUICK, SHARP, SLUG

PLATE = {"plate_volts": "230", "idle_volts": "231"}


# --- shares of the plate ----------------------------------------------------------------------------


def test_shares_of_the_plate_are_percent_in_the_number_the_sentence_and_the_working(ask: Any) -> None:
    # By hand: 231 / 230 = 1.0043, 194 / 230 = 0.8435 and its square 0.7115.
    reply = ask(SLUG, **PLATE, lowest_volts="194", **QUICK)
    assert (value(reply, "idle_percent"), value(reply, "lowest_percent")) == ("100.4", "84.3")
    assert "Idle, 231.0 V is 100.4 % of the plate's 230 V" in finding(reply, "idle-volts")["sentence"]
    assert "194.0 V, 84.3 % of the plate's 230 V" in finding(reply, "start-volts")["sentence"]
    assert [one["result"] for one in reply["working"]][:3] == ["100.4 %", "84.3 %", "0.71"]


def test_the_foretold_start_is_told_in_percent_of_the_plate_too(ask: Any) -> None:
    # By hand: 229 / (1 + 2.2727 · 12 / 230) = 204.72 V, and that is 89.0 % of 230 V; its square is 0.79.
    reply = ask(SLUG, plate_volts="230", idle_volts="229", loaded_volts="226.5", load_amps="1.1", start_amps="12")
    assert (value(reply, "predicted_start_percent"), value(reply, "predicted_torque")) == ("89.0", "0.79")
    assert "204.7 V, 89.0 % of the plate's 230 V" in finding(reply, "predicted-start")["sentence"]


def test_no_share_is_less_than_nought_however_coarse_the_voltmeter(ask: Any) -> None:
    # By hand: 23 V on two counts of 20 V is 23 ±40 V, and 63 V of 230 V is 27.4 %.
    coarse = {"voltmeter_percent": "0", "voltmeter_counts": "2", "voltmeter_resolution": "20"}
    assert result(ask(SLUG, **PLATE, **coarse, lowest_volts="23"), "lowest_percent")["band"] == "0.0 to 27.4 %"


# --- the source by the start itself -----------------------------------------------------------------


@pytest.mark.parametrize(
    ("lowest", "amps", "band"),
    [
        # By hand: 20 V fall, good to 0.5 % of it and two counts of 0.1 V, each of two readings: 0.5 V; 20 A are good to
        # 0.12 A: 19.5 / 20.12 and 20.5 / 19.88.
        ("211", "20", "0.969 to 1.031 Ω"),
        # 0.1 V is good to 0.4005 V, and less than nought it is not; 0.3 A are good to 0.0215 A: 0.5005 / 0.2785.
        ("230.9", "0.3", "0.000 to 1.797 Ω"),
    ],
)
def test_the_source_by_the_start_carries_the_bands_of_both_meters_at_their_worst(
    ask: Any, lowest: str, amps: str, band: str
) -> None:
    reply = ask(SLUG, **PLATE, lowest_volts=lowest, inrush_amps=amps, **QUICK)
    assert result(reply, "start_source_ohms")["band"] == band


def test_the_source_is_told_in_whole_milliohms_too(ask: Any) -> None:
    # By hand: 20 V at 19 A are 1.0526 ohm, and 5 V at 4.8 A are 1.0417 ohm.
    reply = ask(SLUG, **PLATE, lowest_volts="211", inrush_amps="19", loaded_volts="226", load_amps="4.8", **QUICK)
    assert (result(reply, "start_source_ohms")["also"], result(reply, "source_ohms")["also"]) == (
        ["1053 mΩ"],
        ["1042 mΩ"],
    )


# --- readings to earth ------------------------------------------------------------------------------


@pytest.mark.parametrize(("line", "wanted"), [("118.41", "within"), ("118.40", "undecided")])
def test_the_difference_of_two_readings_carries_the_counts_of_both(ask: Any, line: str, wanted: str) -> None:
    # By hand: 1.59 V + 0.5 % of it + twice two counts of 0.1 V is 1.998 V, 1.60 V with the same is 2.008 V; 2 V pass.
    reply = ask(SLUG, plate_volts="120", idle_volts="120", line_earth_volts=line, neutral_earth_idle="0")
    assert verdict(reply, "earth") == wanted


@pytest.mark.parametrize(
    ("line", "neutral", "says"),
    [
        # Half way, on 120 V: from none at all to half on both; from line and neutral as they belong to half on both.
        ("29.9", "29.9", "neither pole shows volts to earth"),
        ("30.1", "30.1", "the earth floats between the poles"),
        ("90.2", "29.8", "neutral to earth and the difference"),
        ("89.8", "30.2", "the earth floats between the poles"),
        ("29.8", "90.2", "line and neutral are exchanged"),
        ("30.2", "89.8", "the earth floats between the poles"),
        ("59.8", "0.1", "neither pole shows volts to earth"),
        ("60.2", "0.1", "neutral to earth and the difference"),
        ("0.1", "60.2", "line and neutral are exchanged"),
        ("0.1", "59.8", "neither pole shows volts to earth"),
    ],
)
def test_readings_to_earth_are_named_after_the_pattern_that_they_are_nearest_to(
    ask: Any, line: str, neutral: str, says: str
) -> None:
    reply = ask(SLUG, **SHARP, plate_volts="120", idle_volts="120", line_earth_volts=line, neutral_earth_idle=neutral)
    assert verdict(reply, "earth") == "outside"
    assert says in finding(reply, "earth")["sentence"]


@pytest.mark.source("derived")
@pytest.mark.parametrize(
    ("line", "neutral", "wanted"),
    [
        # Volts add up as arrows do: two sides of a triangle are never shorter than the third. Three times two counts of
        # 0.1 V and 0.5 % of the difference leave 1.39 V of the 2 V: 240 − 238.61 is within, 240 − 238.60 is not.
        ("120", "118.61", "within"),
        ("120", "118.60", "undecided"),
        ("120", "208", "within"),
        ("80", "80", "undecided"),
    ],
)
def test_on_two_lines_the_volts_to_a_whole_earth_come_to_no_less_than_those_between_the_lines(
    ask: Any, line: str, neutral: str, wanted: str
) -> None:
    typed = {"plate_volts": "230", "idle_volts": "240", "polarity": "two_lines", "earth_test": "good"}
    found = finding(ask(SLUG, **typed, line_earth_volts=line, neutral_earth_idle=neutral), "earth")
    assert (found["verdict"], found["stop"]) == (wanted, wanted == "undecided")
    if wanted == "undecided":
        assert "where the last two together have to come to the first or more, within 2 V" in found["sentence"]
        assert (found["decider"]["enter_in"], found["decider"]["entry"]) == ("line_earth_volts", "")


# --- with which decimals it is said -----------------------------------------------------------------


def test_the_source_by_the_start_is_worked_to_hundredths_of_a_volt(ask: Any) -> None:
    working = ask(SLUG, **PLATE, lowest_volts="211", inrush_amps="20", **QUICK)["working"]
    assert [(one["put_in"], one["result"]) for one in working][-1] == ("(231.00 − 211.00) / 20.00", "1.000 Ω")


def test_the_foretold_start_with_a_power_factor_is_worked_with_the_motors_ohms(ask: Any) -> None:
    # By hand: M = 220 / 22 = 10 Ω, R = 10 V / 10 A; 230 · 10 / |10 · (0.7 + 0.714 j) + 1| = 2300 / 10.724 = 214.5 V.
    typed = {"plate_volts": "220", "idle_volts": "230", "loaded_volts": "220", "load_amps": "10", "start_amps": "22"}
    working = {one["label"]: one for one in ask(SLUG, **typed, **SHARP, start_power_factor="0.7")["working"]}
    step = working["Volts foretold for the start"]
    assert (step["put_in"], step["result"]) == ("U0 230.0, M 10.00, R 1.000, cos φ 0.70", "214.5 V")


def test_what_is_left_of_the_torque_is_said_to_hundredths(ask: Any) -> None:
    # By hand: 92 / 115 = 0.80, squared 0.64; R = 1.77 ohm leave 100 / 1.177 = 84.96 V of 100 V, squared 0.72.
    read = ask(SLUG, plate_volts="115", idle_volts="121", lowest_volts="92", **QUICK)
    assert "Too little to start on: 0.64 of the torque is left" in finding(read, "start-volts")["plain"]
    loads = {"idle_volts": "100", "loaded_volts": "82.3", "load_amps": "10", "start_amps": "10"}
    assert "On paper 0.72 of the torque" in finding(ask(SLUG, **SHARP, plate_volts="100", **loads), "predicted-start")["plain"]  # fmt: skip


def test_a_foretold_start_that_is_not_tellable_says_its_ends_to_tenths_of_a_volt(ask: Any) -> None:
    # By hand: 0.2 V at 0.5 A are 0.4 ohm, and by two readings of ±0.2 V no more than 0.97 ohm; 227.655 / (1 + 0.968 · 2 / 230)
    # = 225.8 V, and nothing lost of 230.345 V.
    typed = {"plate_volts": "230", "idle_volts": "229", "loaded_volts": "228.8", "load_amps": "0.5", "start_amps": "2"}
    assert "somewhere from 225.8 to 230.3 V: not tellable" in finding(ask(SLUG, **typed), "predicted-start")["sentence"]


def test_volts_that_contradict_are_quoted_to_hundredths_and_the_system_to_whole_volts(ask: Any) -> None:
    ((_, message),) = messages(ask(SLUG, plate_volts="230", idle_volts="230", lowest_volts="231"))
    assert "231.00 V is more than the idle 230.00 V" in message
    notes = ask(SLUG, plate_volts="115", idle_volts="112", system_volts="120")["notes"]
    assert any("deliver 114 V to 126 V; 112.0 V is a matter for the supplier" in note for note in notes)
