"""Insulation to the shell: how numbers are said, how far a reading fell, and what would show that it is steady."""

from __future__ import annotations

from typing import Any

import pytest

from tests.calculators.answers import finding, messages, result, value
from tests.calculators.test_insulation_resistance import PROPER, SHARP, SLUG, alike, names, step

OFF_SCALE = {"pin1_first": "OL", "top_range": "200"}


def with_tester(percent: str, counts: str, resolution: str) -> dict[str, str]:
    fields = ("percent", "counts", "resolution")
    return {f"insulation_tester_{one}": text for one, text in zip(fields, (percent, counts, resolution), strict=True)}


# --- units and figures ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("0", "0.00 MΩ"),
        ("9.5 ohm", "9.50 Ω"),
        ("10.4 ohm", "10.4 Ω"),
        ("95 ohm", "95.0 Ω"),
        ("104 ohm", "104 Ω"),
        ("950 ohm", "950 Ω"),
        ("1.04 kohm", "1.04 kΩ"),
        ("95 kohm", "95.0 kΩ"),
        ("104 kohm", "0.10 MΩ"),
        ("1.04", "1.04 MΩ"),
        ("9.5", "9.50 MΩ"),
        ("10.4", "10.4 MΩ"),
        ("95", "95.0 MΩ"),
        ("104", "104 MΩ"),
        ("950", "950 MΩ"),
        ("1040", "1.04 GΩ"),
    ],
)
def test_a_reading_is_said_in_the_unit_that_shows_its_figures(ask: Any, typed: str, said: str) -> None:
    assert result(ask(SLUG, **PROPER, **SHARP, pin1=typed), "pin1")["text"] == said


@pytest.mark.source("derived")
@pytest.mark.parametrize(
    ("volts", "ohms", "said"),
    # I = U / R, three figures of it.
    [
        ("95", "95 ohm", "1.00 A"),
        ("104", "100 ohm", "1.04 A"),
        ("95", "100 ohm", "950 mA"),
        ("104", "1 kohm", "104 mA"),
        ("95", "1 kohm", "95.0 mA"),
        ("95", "10 kohm", "9.50 mA"),
        ("104", "100 kohm", "1.04 mA"),
        ("95", "100 kohm", "0.950 mA"),
        ("104", "1", "0.104 mA"),
        ("95", "1", "0.0950 mA"),
        ("104", "10", "0.0104 mA"),
        ("95", "10", "0.00950 mA"),
        ("104", "100", "0.00104 mA"),
        ("95", "100", "0.000950 mA"),
        ("104", "1000", "0.000104 mA"),
        ("95", "1000", "0.0000950 mA"),
    ],
)
def test_a_current_is_said_with_three_figures(ask: Any, volts: str, ohms: str, said: str) -> None:
    assert result(ask(SLUG, **PROPER, **SHARP, pin1=ohms, plate_volts=volts), "leakage")["text"] == said


@pytest.mark.source("derived")
def test_a_current_carries_the_band_of_its_reading(ask: Any) -> None:
    # 200 V through 2 MΩ ± 10 %: 200 / 2.2 = 90.9 µA and 200 / 1.8 = 111 µA.
    reply = ask(SLUG, **PROPER, **with_tester("10", "0", "0.01"), pin1="2", plate_volts="200")
    assert result(reply, "leakage")["band"] == "0.091 to 0.111 mA"
    assert result(reply, "pin1")["band"] == "1.80 to 2.20 MΩ"


def test_a_band_that_reaches_to_zero_ends_there_and_leaves_the_current_open(ask: Any) -> None:
    reply = ask(SLUG, **PROPER, **with_tester("0", "5", "0.01"), pin1="20 kohm", plate_volts="120")
    assert "(band 0.00 MΩ to 70.0 kΩ)" in finding(reply, "insulation")["sentence"]
    assert result(reply, "leakage")["band"] == ""
    assert value(reply, "gfci") == "this reading may explain the trip"


def test_a_dead_short_lets_through_what_the_supply_gives(ask: Any) -> None:
    reply = ask(SLUG, **PROPER, **SHARP, pin1="0", plate_volts="120")
    assert value(reply, "leakage") == "a dead short: as much as the supply gives"
    assert step(reply, "Current")["result"] == "no limit but the supply"
    assert value(reply, "rcd") == "this reading alone is enough to trip it"


def test_over_range_lets_through_less_than_its_least(ask: Any) -> None:
    # 200 MΩ less nothing: 100 V / 200 MΩ = 0.5 µA.
    reply = ask(SLUG, **PROPER, **SHARP, pin1="OL", top_range="200", plate_volts="100")
    assert value(reply, "leakage") == "less than 0.000500 mA"
    assert value(reply, "gfci") == "this reading does not explain the trip"


@pytest.mark.source("ul-943")
@pytest.mark.parametrize(("kilohms", "told"), [("30.9", True), ("29.9", False)])
def test_a_trip_that_the_reading_does_not_explain_points_elsewhere(ask: Any, kilohms: str, told: bool) -> None:
    # UL 943 (secondary copy): a GFCI may trip from 4 mA on. 120 V / 30.9 kΩ is 3.88 mA, 120 V / 29.9 kΩ is 4.01 mA.
    reply = ask(SLUG, **PROPER, **SHARP, whole=f"{kilohms} kohm", plate_volts="120")
    assert any("points to heaters, cord, board" in note for note in reply["notes"]) is told


@pytest.mark.parametrize(("typed", "problems"), [("0.95 ohm", ["pin1"]), ("1.05 ohm", []), ("0", [])])
def test_less_than_an_ohm_that_is_not_zero_has_its_unit_wrong(ask: Any, typed: str, problems: list[str]) -> None:
    reply = ask(SLUG, **PROPER, pin1=typed)
    assert [one for one, _ in messages(reply)] == problems if problems else reply["findings"]


@pytest.mark.source("ieee-43-thermosetting")
@pytest.mark.parametrize(("celsius", "steepness"), [("39.9", "1245"), ("40", "4230"), ("42", "4230")])
def test_the_working_shows_the_steepness_that_the_formula_has_there(ask: Any, celsius: str, steepness: str) -> None:
    reply = ask(SLUG, **PROPER, **alike("50"), shell_temperature=celsius)
    assert step(reply, "thermosetting")["formula"] == f"R40 = R · exp(−{steepness} · (1/(T + 273) − 1/313))"
    assert f"exp(−{steepness} ·" in step(reply, "thermosetting")["put_in"]


# --- how far it fell --------------------------------------------------------------------------------


@pytest.mark.source("derived")
def test_a_fall_is_said_as_a_part_of_the_first_reading(ask: Any) -> None:
    # (100 − 80) / 100 = 20 %; with one count of 1 MΩ on both: 1 − 81/99 = 18.2 % and 1 − 79/101 = 21.8 %.
    reply = ask(SLUG, **PROPER, **with_tester("0", "1", "1"), **alike("80"), pin1_first="100")
    assert value(reply, "pin1_fall") == "20.0"
    assert step(reply, "fall during")["result"].startswith("20.0 %, at most 10 %")
    assert (
        "from 100 MΩ to 80.0 MΩ during the test, 20.0 % down (band 18.2 % to 21.8 %), more than 10 %"
        in (finding(reply, "falling")["sentence"])
    )


@pytest.mark.source("derived")
def test_a_fall_from_over_range_is_counted_from_the_least_it_can_have_been(ask: Any) -> None:
    # At least 200 MΩ at first: 1 − 50/200 = 75 %. How far above 200 MΩ it was nobody knows.
    reply = ask(SLUG, **PROPER, **SHARP, **alike("50"), **OFF_SCALE)
    assert value(reply, "pin1_fall") == "75.0"
    assert "75.0 % down (band 75.0 % to 100.0 %)" in finding(reply, "falling")["sentence"]


@pytest.mark.parametrize(
    ("last", "top", "percent", "counts"),
    # 195 MΩ ± 5 % reaches 204.8, and over-range was no less than 190; a top of 20 with an error of 20 is no less than 0.
    [("195", "200", "5", "0"), ("15", "20", "0", "20")],
)
def test_a_fall_from_over_range_into_the_band_is_not_told_from_none(
    ask: Any, last: str, top: str, percent: str, counts: str
) -> None:
    reply = ask(SLUG, **PROPER, **with_tester(percent, counts, "1"), **alike(last), pin1_first="OL", top_range=top)
    assert value(reply, "pin1_fall") == "0.0"
    assert ("falling", "undecided") in names(reply)


def test_a_fall_between_counts_has_no_least_and_is_never_more_than_all(ask: Any) -> None:
    # 2 to 1.8 MΩ, and each may be off by 2 MΩ: from 0 to anything, or from 4 to 0.
    reply = ask(SLUG, **PROPER, **with_tester("0", "20", "0.1"), **alike("1.8"), pin1_first="2")
    assert "10.0 % down (band a rise of any size to 100.0 %)" in finding(reply, "falling")["sentence"]
    # 10 MΩ to 9 MΩ, each ± 8: from 2 to 17 is a rise to more than eight times, from 18 to 1 a fall by 94.4 %.
    reply = ask(SLUG, **PROPER, **with_tester("0", "80", "0.1"), **alike("9"), pin1_first="10")
    assert "10.0 % down (band -750.0 % to 94.4 %)" in finding(reply, "falling")["sentence"]


# --- what would show that it is steady --------------------------------------------------------------


def test_over_range_at_the_end_too_shows_that_nothing_fell(ask: Any) -> None:
    reply = ask(SLUG, **PROPER, **alike("195"), **OFF_SCALE)
    decider = finding(reply, "falling")["decider"]
    assert (decider["enter_in"], decider["entry"]) == ("pin1", "OL")
    assert "falling" not in dict(names(ask(SLUG, **PROPER, **alike("195") | {"pin1": "OL"}, **OFF_SCALE)))


def test_two_falls_are_not_settled_by_one_entry(ask: Any) -> None:
    reply = ask(SLUG, **PROPER, **alike("195"), **OFF_SCALE, pin2_first="OL")
    assert [one["decider"]["entry"] for one in reply["findings"] if one["name"] == "falling"] == ["", ""]


@pytest.mark.source("derived")
def test_the_least_end_that_shows_a_steady_reading_is_asked_for_and_not_much_more(ask: Any) -> None:
    # First 20 MΩ, each reading off by 100 counts of 0.001 MΩ, which no finer step mends. Steady is (x − 0.1) / 20.1 of
    # 0.90 or more, so x is 18.19 MΩ or more.
    blunt = with_tester("0", "100", "0.001")
    reply = ask(SLUG, **PROPER, **blunt, **alike("18.1"), pin1_first="20")
    entry = finding(reply, "falling")["decider"]["entry"]
    assert 18.19 <= float(entry.removesuffix(" MΩ")) <= 18.22
    assert "falling" in dict(names(ask(SLUG, **PROPER, **blunt, **alike("18.1") | {"pin1": "18.18"}, pin1_first="20")))
    assert "falling" not in dict(
        names(ask(SLUG, **PROPER, **blunt, **alike("18.1") | {"pin1": entry}, pin1_first="20"))
    )


@pytest.mark.source("ieee-43-2000-5-4", "ieee-43-thermosetting")
def test_both_corrections_are_said_with_their_factors(ask: Any) -> None:
    # 70 °C is three halvings above 40 °C: a factor of 8. By the formula exp(4230 · (1/313 − 1/343)) = 3.26.
    reply = ask(SLUG, **PROPER, **SHARP, **alike("3"), shell_temperature="70")
    told = "To 40 °C the halving rule multiplies by 8.00, the thermosetting formula by 3.26."
    assert any(note.startswith(told) for note in reply["notes"])
    assert step(reply, "halving")["put_in"] == "3.00 MΩ · 0.5^((40 − 70.0) / 10)"
    assert step(reply, "thermosetting")["put_in"] == "3.00 MΩ · exp(−4230 · (1/(70.0 + 273) − 1/313)), T = 70.0 °C"


def test_a_current_is_said_with_its_volts(ask: Any) -> None:
    reply = ask(SLUG, **PROPER, **SHARP, **alike("2"), plate_volts="230")
    assert "lets through at 230 V, by ohms alone" in result(reply, "leakage")["plain"]
    assert step(reply, "Current")["put_in"] == "230 V / 2.00 MΩ"
