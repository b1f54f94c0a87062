"""Locked rotor: the numbers beside the verdicts, each worked out by hand, on a plate of 100 V and 10 A."""

from __future__ import annotations

from typing import Any

import pytest

from tests.calculators.answers import finding, result, value
from tests.calculators.test_locked_rotor import ONCE, PLATE, READY, SHARP, SLUG, TWICE


def step(reply: dict[str, Any], label: str) -> dict[str, str]:
    return next(one for one in reply["working"] if one["label"] == label)


@pytest.mark.source("common-practice")
def test_the_window_stands_beside_what_is_expected(ask: Any) -> None:
    # 0.8 and 1.2 of the plate's, common practice, no source; judged from 90 % of the volts on: 9 A there.
    reply = ask(SLUG, **PLATE, **SHARP, stalled_amps="9", stalled_volts="95")
    for name, amps, window in (
        ("expected_at_plate", "10.00", "8.00 to 12.00 A"),
        ("expected_at_least_volts", "9.00", "7.20 to 10.80 A"),
        ("first_expected", "9.50", "7.60 to 11.40 A"),
    ):
        assert (value(reply, name), result(reply, name)["band"]) == (amps, window)
    least = step(reply, "Expected at the fewest volts that count")
    assert (least["put_in"], least["result"]) == ("10.00 × 90.0 / 100", "9.00 A")


@pytest.mark.source("common-practice")
@pytest.mark.parametrize(("volts", "torque"), [("100", "1.00"), ("90", "0.81"), ("80", "0.64"), ("50", "0.25")])
def test_torque_goes_with_the_square_of_the_volts(ask: Any, volts: str, torque: str) -> None:
    # Starting torque of an induction motor goes with the square of its volts, common practice, no source.
    reply = ask(SLUG, **PLATE, **SHARP, stalled_amps="5", stalled_volts=volts)
    assert value(reply, "first_torque") == torque
    if float(volts) < 90:
        assert f"With {torque} of its torque" in finding(reply, "stalled-volts")["plain"]


def test_a_reading_is_brought_to_the_plates_volts_in_a_straight_line(ask: Any) -> None:
    # 8.1 A at 90 V are 9 A at 100 V; 9 A expected there, so 0.90 of it.
    reply = ask(SLUG, **PLATE, **SHARP, stalled_amps="8.1", stalled_volts="90")
    assert (value(reply, "first_at_plate"), value(reply, "first_ratio")) == ("9.00", "0.90")


@pytest.mark.source("jcgm-100")
def test_the_bands_of_clamp_and_voltmeter_are_written_out_and_add_in_quadrature(ask: Any) -> None:
    # 4 % and 3 % are 5 % together: 0.90 to 1.00 times 0.95, so 0.9025 to 0.9975 of 10 A at 100 V for 9.5 A.
    meters = {**SHARP, "clamp_percent": "4", "voltmeter_percent": "3"}
    reply = ask(SLUG, **PLATE, **meters, stalled_amps="9.5", stalled_volts="100")
    band = step(reply, "First attempt: band")
    assert (band["put_in"], band["result"]) == ("4.0 % and 3.0 %", "0.90 to 1.00")
    assert result(reply, "first_ratio")["band"] == "0.90 to 1.00"
    assert result(reply, "first_percent")["band"] == "97.0 to 103.0 %"


def test_a_band_wider_than_its_reading_reaches_down_to_nothing(ask: Any) -> None:
    # 100 counts of 0.1 are 10 A and 10 V: 1 A and 5 V may be nothing at all, and never less than that.
    coarse = {
        "clamp_counts": "100",
        "clamp_resolution": "0.1",
        "voltmeter_counts": "100",
        "voltmeter_resolution": "0.1",
    }
    reply = ask(SLUG, **PLATE, **{**SHARP, **coarse}, stalled_amps="1", stalled_volts="5")
    assert result(reply, "first_ratio")["band"].startswith("0.00 to ")
    assert result(reply, "first_percent")["band"] == "0.0 to 15.0 %"


@pytest.mark.source("nec-430-7-b")
@pytest.mark.parametrize(("amps", "letter"), [("31.44", "A"), ("31.46", "B"), ("39.94", "C"), ("39.96", "D")])
def test_between_two_letters_the_nearer_hundredth_says_which(ask: Any, amps: str, letter: str) -> None:
    # NEC Table 430.7(B) prints A up to 3.14 and B from 3.15, C up to 3.99 and D from 4.0; on 1 hp and 100 V.
    reply = ask(SLUG, plate_volts="100", horsepower="1", locked_rotor_amps=amps)
    assert value(reply, "letter_of_plate") == letter
    assert value(reply, "kva_per_hp") == f"{float(amps) / 10:.2f}"


@pytest.mark.parametrize(
    ("typed", "words", "told"),
    [
        ({**ONCE}, "The rest is not used", False),
        ({**ONCE, "rest_between": "5"}, "The rest is not used", True),
        ({**TWICE, "rest_between": "5"}, "The rest is not used", False),
        ({**ONCE, "attempts": "1"}, "Only one of the attempts was measured", False),
        ({**ONCE, "attempts": "2"}, "Only one of the attempts was measured", True),
        ({**TWICE, "attempts": "2"}, "Only one of the attempts was measured", False),
        ({"attempts": "2"}, "Only one of the attempts was measured", False),
    ],
)
def test_what_two_attempts_take_is_noted_where_there_are_not_two(
    ask: Any, typed: dict[str, str], words: str, told: bool
) -> None:
    assert any(words in note for note in ask(SLUG, **PLATE, **typed)["notes"]) is told


@pytest.mark.parametrize(
    ("count", "said"), [("1", "1 attempt made"), ("2", "2 attempts made"), ("3", "3 attempts made")]
)
def test_attempts_are_counted_in_words(ask: Any, count: str, said: str) -> None:
    assert finding(ask(SLUG, **PLATE, attempts=count), "attempts")["sentence"].startswith(said)


def test_how_far_an_attempt_went_beyond_is_said(ask: Any) -> None:
    typed = {**PLATE, **READY, "attempts": "2", "longest_attempt": "4.5", "rest_between": "3.5"}
    sentence = finding(ask(SLUG, **typed), "attempts")["sentence"]
    assert "the longest took 4.5 s, more than 3 s" in sentence
    assert "only 3.5 min of rest, less than 5 min" in sentence


def test_the_share_of_the_plates_volts_is_said_in_percent(ask: Any) -> None:
    reply = ask(SLUG, **PLATE, **SHARP, stalled_amps="9", stalled_volts="95")
    assert "95.0 V while it hummed is 95.0 % of the plate's 100 V" in finding(reply, "stalled-volts")["sentence"]


def test_where_not_one_time_alone_is_missing_no_entry_is_named(ask: Any) -> None:
    both = finding(ask(SLUG, **PLATE, attempts="2"), "attempts")["decider"]
    assert (both["enter_in"], both["entry"]) == ("longest_attempt", "")
    one = finding(ask(SLUG, **PLATE, attempts="2", longest_attempt="3"), "attempts")["decider"]
    assert (one["enter_in"], one["entry"]) == ("rest_between", "5 min")


def test_what_is_open_besides_the_first_is_told_with_it(ask: Any) -> None:
    typed = {**PLATE, **SHARP, **READY, **TWICE, "pressures": ""}
    alone = finding(ask(SLUG, **typed), "rotor")["decider"]
    assert "still open after that" not in alone["condition"]
    both = finding(ask(SLUG, **typed | {"start_lead": ""}), "rotor")["decider"]
    assert both["condition"].endswith("; still open after that: the pressures are not known to be equal")
    assert (both["enter_in"], both["entry"]) == ("start_lead", "")


def test_a_finer_clamp_is_named_for_the_second_attempt_too_and_decides_it(ask: Any) -> None:
    # 7.8 A ± 5 counts of 0.1 A reach over 8 A; with 0.01 A they do not.
    typed = {**PLATE, **SHARP, **READY, **ONCE, "second_amps": "7.8", "second_volts": "100", "clamp_counts": "5"}
    one = finding(ask(SLUG, **typed, clamp_resolution="0.1"), "second-stalled-amps")
    assert (one["verdict"], one["decider"]["entry"]) == ("undecided", "0.01 A")
    again = finding(ask(SLUG, **typed, clamp_resolution=one["decider"]["entry"]), "second-stalled-amps")
    assert again["verdict"] == "outside"


def test_the_amps_are_said_with_what_they_are_held_against(ask: Any) -> None:
    # 10 A at 100 V are 9.5 A at 95 V.
    sentence = finding(ask(SLUG, **PLATE, **SHARP, **READY, **ONCE), "stalled-amps")["sentence"]
    assert sentence == (
        "9.5 A at 95.0 V is 1.00 times the 9.5 A that the plate's LRA comes to there (band 1.00 to 1.00): between 0.8 and"
        " 1.2."
    )
    unknown = ask(SLUG, plate_volts="100", **SHARP, **READY, **ONCE)
    assert finding(unknown, "stalled-amps")["sentence"].startswith("9.5 A at 95.0 V: the plate's locked-rotor amps are")
    letter = ask(SLUG, plate_volts="100", horsepower="1", code_letter="L", **SHARP, **READY, **ONCE)
    assert "9.5 A at 95.0 V, by code letter L alone, below 0.8" in finding(letter, "stalled-amps")["sentence"]
    other = ask(SLUG, **PLATE, **READY, **ONCE, plate_frequency="60", supply_frequency="50")
    assert finding(other, "stalled-amps")["sentence"].startswith("9.5 A: no verdict")
    assert "95.0 V stands without amps" in ask(SLUG, **PLATE, stalled_volts="95")["problems"][0]["message"]


def test_the_volts_that_are_needed_are_said_in_volts(ask: Any) -> None:
    # 90 % of 115 V is 103.5 V.
    typed = {"plate_volts": "115", "locked_rotor_amps": "10", **READY, "stalled_amps": "9", "stalled_volts": "103"}
    assert "103.5 V or more" in finding(ask(SLUG, **typed), "rotor")["decider"]["condition"]
    across = finding(ask(SLUG, **typed, voltmeter_resolution="1"), "stalled-volts")
    assert across["verdict"] == "undecided"
    assert "103.5 V or more" in across["decider"]["condition"]


@pytest.mark.source("nec-430-7-b")
def test_plate_and_letter_that_disagree_are_said_with_both_their_amps(ask: Any) -> None:
    # NEC Table 430.7(B): L is 9.0 to 9.99 kVA per hp; on 1/2 hp and 115 V that is 39.1 to 43.4 A.
    typed = {"plate_volts": "115", "horsepower": "1/2", "code_letter": "L", "locked_rotor_amps": "13"}
    assert any("LRA 13.0 A, by code letter L 39.1 to 43.4 A." in note for note in ask(SLUG, **typed)["notes"])
