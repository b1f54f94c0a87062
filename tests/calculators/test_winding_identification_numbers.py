"""Numbers of the winding check that nothing else holds: which meter is asked for, and on which side of each limit.

All worked by hand from the readings shown; no source.
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.calculators.answers import finding

SLUG = "winding-identification"
SHARP = {"ohmmeter_percent": "0", "ohmmeter_counts": "2"}


def decider(ask: Any, name: str, **typed: str) -> dict[str, str]:
    found: dict[str, str] = finding(ask(SLUG, **typed), name)["decider"]
    return found


@pytest.mark.parametrize(
    ("smallest", "counts", "resolution", "asked"),
    # Half the reading over the counts, and never over less than one count: 0.105, 0.095, 0.105 ohm.
    [("0.42", "2", "0.3", "0.1"), ("0.38", "2", "0.3", "0.01"), ("0.21", "0.5", "0.5", "0.1")],
)
def test_a_reading_near_zero_asks_for_a_meter_that_could_show_it(
    ask: Any, smallest: str, counts: str, resolution: str, asked: str
) -> None:
    typed = {"r12": smallest, "r13": "9", "r23": "9.4", "ohmmeter_percent": "0", "ohmmeter_counts": counts}
    found = decider(ask, "near zero", **typed, ohmmeter_resolution=resolution)
    assert found["resolution"] == f"{asked} ohm or finer"


@pytest.mark.parametrize(("other", "equal"), [("9.52", True), ("9.48", False)])
def test_three_pairs_are_alike_up_to_five_percent_of_the_largest(ask: Any, other: str, equal: bool) -> None:
    reply = ask(SLUG, r12="10.00", r13=other, r23=other, lead="0", **SHARP, ohmmeter_resolution="0.001")
    assert any(one["name"] == "three equal" for one in reply["findings"]) is equal


def test_three_equal_pairs_ask_for_a_tenth_of_the_resolution(ask: Any) -> None:
    found = decider(ask, "three equal", r12="10", r13="10", r23="10", lead="0", **SHARP)
    assert found["resolution"] == "0.01 ohm or finer"


@pytest.mark.parametrize(
    ("smallest", "weak"),
    # Two counts of 0.1 ohm are 10 % of 2.0 ohm and 10.5 % of 1.9 ohm.
    [("2.0", False), ("1.9", True)],
)
def test_a_smallest_reading_is_weak_above_ten_percent(ask: Any, smallest: str, weak: bool) -> None:
    reply = ask(SLUG, r12=smallest, r13="8", r23=f"{float(smallest) + 8:.1f}", **SHARP)
    assert any(one["name"] == "meter" for one in reply["findings"]) is weak


@pytest.mark.parametrize(
    ("smallest", "lead", "percent", "asked"),
    [
        # 0.99 · 10 % · R / 2 counts: 0.1040 and 0.0965 ohm; with nulled leads over √2 more: 0.1015 and 0.0980 ohm.
        ("2.1", "", "0", "0.1"),
        ("1.95", "", "0", "0.01"),
        ("2.9", "0", "0", "0.1"),
        ("2.8", "0", "0", "0.01"),
    ],
)
def test_a_weak_reading_asks_for_the_display_that_is_enough(
    ask: Any, smallest: str, lead: str, percent: str, asked: str
) -> None:
    typed = {"r12": smallest, "r13": "20", "r23": f"{float(smallest) + 20:.2f}", "lead": lead}
    typed |= {"ohmmeter_percent": percent, "ohmmeter_counts": "2", "ohmmeter_resolution": "0.3"}
    found = decider(ask, "meter", **typed)
    assert (found["enter_in"], found["entry"]) == ("ohmmeter_resolution", asked)


def test_a_weak_percentage_is_not_mended_by_any_display(ask: Any) -> None:
    typed = {"r12": "5", "r13": "20", "r23": "25", "ohmmeter_percent": "12", "ohmmeter_counts": "0"}
    found = decider(ask, "meter", **typed)
    assert found["resolution"] == "finer than bench meters have"
    assert (found["enter_in"], found["entry"]) == ("", "")


@pytest.mark.parametrize(
    ("r13", "r23", "counts", "asked"),
    # 0.99 · 5 % of the largest over twice the counts, and never over less than one count: 0.1015, 0.0990, 0.1005 ohm.
    [("4", "8.2", "2", "0.1"), ("4", "8.0", "2", "0.01"), ("2", "4.06", "0.5", "0.1")],
)
def test_a_failed_sum_asks_for_a_display_that_its_tolerance_needs(
    ask: Any, r13: str, r23: str, counts: str, asked: str
) -> None:
    typed = {"r12": "1", "r13": r13, "r23": r23, "ohmmeter_percent": "0", "ohmmeter_counts": counts}
    found = decider(ask, "pins", **typed, ohmmeter_resolution="0.01")
    assert found["resolution"] == f"{asked} ohm or finer"


@pytest.mark.parametrize(("lead", "entry"), [("", "14.000"), ("0.2", "13.800")])
def test_a_failed_sum_offers_what_the_largest_would_have_to_read(ask: Any, lead: str, entry: str) -> None:
    # 4.0 and 10.0 ohm add up to 14.0; with 0.2 ohm of leads 3.8 and 9.8 to 13.6, shown as 13.8.
    found = decider(ask, "pins", r12="4.0", r13="10.0", r23="18.0", lead=lead, **SHARP, ohmmeter_resolution="0.01")
    assert (found["enter_in"], found["entry"]) == ("r23", entry)


def test_a_sum_that_is_a_little_short_with_the_leads_taken_off_is_not_called_a_moved_probe(ask: Any) -> None:
    reply = ask(SLUG, r12="2.0", r13="4.0", r23="5.2", lead="0", **SHARP, ohmmeter_resolution="0.01")
    assert "A part is still joined across two pins" in finding(reply, "pins")["sentence"]


@pytest.mark.parametrize(("run", "side"), [("9.95", "above"), ("10.05", "below")])
def test_a_winding_half_a_percent_off_its_data_is_told_on_the_right_side(ask: Any, run: str, side: str) -> None:
    reply = ask(
        SLUG,
        r12="10.00",
        r13="30.00",
        r23="40.00",
        lead="0",
        shell_temperature="25",
        data_run=run,
        hours_rest="24",
        **SHARP,
        ohmmeter_resolution="0.01",
    )
    assert f"0.5 % {side} its data" in finding(reply, "run winding data")["sentence"]


@pytest.mark.parametrize(
    ("middle", "resolution", "counts", "asked"),
    [
        # 0.99 · gap / 2 / 2 counts: of 0.41 ohm 0.1015, of 0.40 ohm 0.0990, of 0.0042 ohm 0.00104, of 0.0040 ohm 0.00099:
        # and no bench meter shows less than 0.001 ohm. Two alike are told apart by none, whatever its counts.
        ("10.41", "0.3", "2", "0.1"),
        ("10.40", "0.3", "2", "0.01"),
        ("10.0042", "0.002", "2", "0.001"),
        ("10.0040", "0.002", "2", ""),
        ("10", "0.1", "2", ""),
        ("10", "0.1", "0", ""),
    ],
)
def test_two_windings_that_read_nearly_alike_ask_for_the_display_that_tells_them_apart(
    ask: Any, middle: str, resolution: str, counts: str, asked: str
) -> None:
    typed = {"r12": "10", "r13": middle, "r23": f"{10 + float(middle):.4f}", "ohmmeter_percent": "0"}
    found = decider(ask, "pins", **typed, ohmmeter_counts=counts, ohmmeter_resolution=resolution)
    assert found["resolution"] == (f"{asked} ohm or finer" if asked else "finer than bench meters have")
    assert (found["enter_in"], found["entry"]) == (("ohmmeter_resolution", asked) if asked else ("", ""))


@pytest.mark.parametrize(("largest", "leads"), [("2.461", True), ("2.458", False)])
def test_leads_explain_a_short_sum_up_to_half_an_ohm_and_the_counts_of_two_readings(
    ask: Any, largest: str, leads: bool
) -> None:
    # 1 and 2 ohm add up to 3 ohm: 0.539 and 0.542 ohm short; leads of 0.5 ohm and twice two counts of 0.01 are 0.54 ohm.
    typed = {"r12": "1", "r13": "2", "r23": largest, **SHARP, "ohmmeter_resolution": "0.01"}
    assert ("Leads that were not zeroed" in finding(ask(SLUG, **typed), "pins")["sentence"]) is leads


@pytest.mark.parametrize(("largest", "zeroed"), [("3.839", True), ("3.842", False), ("3.761", True), ("3.758", False)])
def test_a_sum_that_is_over_by_the_leads_and_no_more_than_the_counts_had_been_zeroed_already(
    ask: Any, largest: str, zeroed: bool
) -> None:
    # With leads of 0.4 ohm taken off, 1 and 2 ohm add up to 3 ohm, and the largest is over by 0.439, 0.442, 0.361 and
    # 0.358 ohm: off 0.4 ohm by more or less than twice two counts of 0.01 ohm.
    typed = {"r12": "1.4", "r13": "2.4", "r23": largest, "lead": "0.4", **SHARP}
    found = finding(ask(SLUG, **typed, ohmmeter_resolution="0.01"), "pins")
    assert ("over by one lead reading" in found["sentence"]) is zeroed


@pytest.mark.parametrize(("run", "named"), [("3.01", True), ("2.99", False)])
def test_an_open_pin_is_named_by_data_that_the_reading_fits_to_ten_percent(ask: Any, run: str, named: bool) -> None:
    # 3.3 ohm is 9.6 % more than 3.01 ohm and 10.4 % more than 2.99 ohm.
    typed = {"lead": "0", "shell_temperature": "25", "hours_cool": "8", "hours_rest": "9", "repeated": "yes"}
    reply = ask(SLUG, **typed, r12="3.3", r13="OL", r23="OL", data_run=run, data_start="11")
    assert ("start winding is open" in finding(reply, "open line")["sentence"]) is named


# --- the data sheet in the working ------------------------------------------------------------------


def test_readings_are_held_against_the_data_sheet_at_its_own_temperature(ask: Any) -> None:
    # 4.00 · 259.5 / 255.5 = 4.06 is 94.5 % of 4.30; (0.5 % + 2 counts of 0.1, times √2) of 4.00 are 7.57 %, 2 K of 255.5 K
    # 0.78 %, and together of 94.5 % 7.2 %. In the same way 12.00 gives 12.19, 97.5 % of 12.50, ±2.9 %.
    typed = {"r12": "4.1", "r13": "12.1", "r23": "16.0", "lead": "0.1", "shell_temperature": "21", "hours_rest": "24"}
    reply = ask(SLUG, **typed, data_run="4.3", data_start="12.5", data_temperature="25")
    working = {one["label"]: (one["put_in"], one["result"]) for one in reply["working"]}
    quadrature = "(meter and thermometer in quadrature)"
    assert working["Take the leads off 1–2"] == ("4.10 − 0.10", "4.00 Ω")
    assert working["C–R at 25 °C"] == ("4.00 × (234.5 + 25) / (234.5 + 21.0)", "4.06 Ω")
    assert working["Run winding against data at 25 °C"] == (
        "4.00 × (234.5 + 25.0) / (234.5 + 21.0) = 4.06, over 4.30",
        f"94.5 % of data, ±7.2 % {quadrature}",
    )
    assert working["Start winding against data at 25 °C"][1] == f"97.5 % of data, ±2.9 % {quadrature}"
    assert "5.5 % below its data, ±7.2 %" in finding(reply, "run winding data")["sentence"]
    reference = next(one for one in reply["results"] if one["name"] == "ohms at reference C–R")
    assert (reference["label"], reference["text"]) == ("C–R at 25 °C", "4.06 Ω")


def test_a_winding_that_may_be_off_its_data_says_how_good_the_meter_has_to_be(ask: Any) -> None:
    # 4.0626 of 4.65 ohm is 12.6 % below it, and 10 % are allowed.
    typed = {"r12": "4.1", "r13": "12.1", "r23": "16.0", "lead": "0.1", "shell_temperature": "21", "hours_rest": "24"}
    found = decider(ask, "run winding data", **typed, data_run="4.65", data_temperature="25")
    assert found["resolution"] == "meter and thermometer together better than 2.6 %"


def test_data_without_leads_ask_for_the_leads_to_the_display_of_the_meter(ask: Any) -> None:
    found = decider(ask, "data", r12="4", r13="12", r23="16", shell_temperature="21", data_run="4")
    assert (found["enter_in"], found["resolution"]) == ("lead", "0.10 Ω")


@pytest.mark.parametrize(
    ("name", "readings", "said"),
    [
        ("near zero", ("0.38", "9", "9.4"), "1–2 reads 0.38 Ω, which"),
        ("pins", ("10", "10.4", "20.4"), "The two windings differ by 0.40 Ω only"),
        # twice two counts of 0.3 ohm
        (
            "pins",
            ("10", "20.3", "20.4"),
            "differ by 0.10 Ω; this meter tells apart only what differs by more than 1.20 Ω",
        ),
    ],
)
def test_what_a_meter_cannot_tell_apart_is_said_to_a_hundredth_of_an_ohm(
    ask: Any, name: str, readings: tuple[str, str, str], said: str
) -> None:
    typed = dict(zip(("r12", "r13", "r23"), readings, strict=True))
    assert said in finding(ask(SLUG, **typed, **SHARP, ohmmeter_resolution="0.3"), name)["sentence"]


def test_a_failed_sum_is_told_to_a_hundredth_of_an_ohm(ask: Any) -> None:
    # 4.0 and 10.0 ohm add up to 14.00; 5 % of 18 ohm are 0.90.
    typed = {"r12": "4.0", "r13": "10.0", "r23": "18.0", **SHARP, "ohmmeter_resolution": "0.01"}
    found = finding(ask(SLUG, **typed), "pins")
    assert "2–3 reads 18.00 Ω but the other two add up to 14.00 Ω" in found["sentence"]
    assert "it reads within 0.90 Ω of 14.00 Ω" in found["decider"]["condition"]


def test_leads_that_would_explain_a_sum_within_tolerance_are_told_to_a_hundredth_of_an_ohm(ask: Any) -> None:
    # 4 and 12 ohm add up to 16 ohm, 0.30 more than 15.7; 5 % of 15.7 ohm are 0.79.
    notes = ask(SLUG, r12="4", r13="12", r23="15.7", **SHARP)["notes"]
    assert any("falls 0.30 Ω short" in note and "leads of 0.30 Ω that were not zeroed" in note for note in notes)
