"""Locked rotor: the printed tables, worked cases, and everything that has to be there before a motor is accused."""

from __future__ import annotations

from typing import Any

import pytest

from calculators.limits import Standards
from calculators.locked_rotor.case import horsepower_of
from calculators.locked_rotor.heating import heating_rate
from tests.calculators.answers import finding, messages, result, value, verdict

SLUG = "locked-rotor"
SHARP = {"voltmeter_percent": "0", "voltmeter_counts": "0", "clamp_percent": "0", "clamp_counts": "0"}
TIMED = {"longest_attempt": "3", "rest_between": "5"}
READY = {"dead_tests": "good", "pressures": "equal", "start_lead": "seen", "turned": "no", **TIMED}
PLATE = {"plate_volts": "100", "locked_rotor_amps": "10"}
ONCE = {"stalled_amps": "9.5", "stalled_volts": "95"}
TWICE = {**ONCE, "second_amps": "9.4", "second_volts": "94"}


def names(reply: dict[str, Any]) -> list[str]:
    return [one["name"] for one in reply["findings"]]


# --- the printed tables -------------------------------------------------------------------------------


@pytest.mark.source("nec-430-7-b")
def test_the_code_letters_are_as_printed(standards: Standards) -> None:
    # NEC Table 430.7(B), seen in three copies. One public copy prints H as 7.1-7.99, which is J; another prints the top
    # of B as 3.55: both are slips, the letters join without overlapping.
    printed = {
        "A": (0, 3.14),
        "B": (3.15, 3.54),
        "C": (3.55, 3.99),
        "D": (4.0, 4.49),
        "E": (4.5, 4.99),
        "F": (5.0, 5.59),
        "G": (5.6, 6.29),
        "H": (6.3, 7.09),
        "J": (7.1, 7.99),
        "K": (8.0, 8.99),
        "L": (9.0, 9.99),
        "M": (10.0, 11.19),
        "N": (11.2, 12.49),
        "P": (12.5, 13.99),
        "R": (14.0, 15.99),
        "S": (16.0, 17.99),
        "T": (18.0, 19.99),
        "U": (20.0, 22.39),
        "V": (22.4, None),
    }
    rows = standards.tables["locked-rotor-code-letters"].rows
    assert {str(row["id"]): (row["least"], row.get("most")) for row in rows} == printed


@pytest.mark.source("nec-430-7-b")
@pytest.mark.parametrize("letter", ["I", "O", "Q"])
def test_letters_that_do_not_exist_cannot_be_picked(ask: Any, letter: str) -> None:
    # NEC Table 430.7(B): the letters I, O and Q are not used
    reply = ask(SLUG, plate_volts="115", horsepower="1/2", code_letter=letter)
    ((field, message),) = messages(reply)
    assert field == "code_letter"
    assert f"“{letter}” is not in the list" in message


@pytest.mark.source("nec-430-7-b")
@pytest.mark.parametrize(
    ("volts", "least", "most"),
    [
        ("115", "39.13", "43.43"),  # 1/2 hp, 115 V, letter L: 39.13-43.43 A (computed from the printed letter)
        ("230", "19.57", "21.72"),  # 1/2 hp, 230 V, letter L: 19.57-21.72 A (computed from the printed letter)
    ],
)
def test_half_a_horsepower_of_letter_l_takes_so_many_amps(ask: Any, volts: str, least: str, most: str) -> None:
    reply = ask(SLUG, plate_volts=volts, horsepower="1/2", code_letter="L")
    assert (value(reply, "letter_least"), value(reply, "letter_most")) == (least, most)


@pytest.mark.source("nfpa-handbook-code-letter")
def test_twenty_horsepower_of_letter_g_are_125_8_kva(standards: Standards) -> None:
    # NFPA handbook example: 20 hp, 460 V, three-phase, letter G: 125.8 kVA at the most. The letter's upper end times hp.
    row = standards.tables["locked-rotor-code-letters"].row("G")
    assert row is not None
    assert float(row["most"]) * 20 == pytest.approx(125.8, abs=0.05)


def test_the_last_letter_has_no_upper_end_and_the_first_no_lower_one(ask: Any) -> None:
    reply = ask(SLUG, plate_volts="115", horsepower="1/4", code_letter="V")
    assert value(reply, "letter_most") == "no upper end"
    # by hand: 22.4 * 0.25 * 1000 / 115 = 48.70
    assert value(reply, "letter_least") == "48.70"
    assert value(ask(SLUG, plate_volts="115", horsepower="1/4", code_letter="A"), "letter_least") == "0.00"


@pytest.mark.parametrize(
    ("amps", "letter"),
    # on 1 hp and 100 V ten amps are 1 kVA per hp; the ends of L are 9.0 and 9.99, of V 22.4 and up, of A 3.14
    [
        ("89.9", "K"),
        ("90", "L"),
        ("99.9", "L"),
        ("100", "M"),
        ("223.9", "U"),
        ("224", "V"),
        ("31.4", "A"),
        ("31.5", "B"),
    ],
)
def test_the_plate_is_read_back_as_a_letter(ask: Any, amps: str, letter: str) -> None:
    reply = ask(SLUG, plate_volts="100", horsepower="1", locked_rotor_amps=amps)
    assert value(reply, "letter_of_plate") == letter


@pytest.mark.source("nec-430-251")
def test_the_table_of_disconnects_is_as_printed(standards: Standards) -> None:
    # NEC Table 430.251(A), 2008
    printed = {
        "1/2": (58.8, 32.5, 29.4),
        "3/4": (82.8, 45.8, 41.4),
        "1": (96, 53, 48),
        "1-1/2": (120, 66, 60),
        "2": (144, 80, 72),
        "3": (204, 113, 102),
        "5": (336, 186, 168),
    }
    rows = standards.tables["locked-rotor-single-phase"].rows
    assert {row["id"]: (row["amps_115"], row["amps_208"], row["amps_230"]) for row in rows} == printed


@pytest.mark.source("nec-430-251", "nec-430-248")
@pytest.mark.parametrize(
    ("size", "full_115", "full_230"),
    # NEC Table 430.248: full-load amps at 115 and 230 V; six times these are the locked-rotor table's
    [
        ("1/2", 9.8, 4.9),
        ("3/4", 13.8, 6.9),
        ("1", 16, 8),
        ("1-1/2", 20, 10),
        ("2", 24, 12),
        ("3", 34, 17),
        ("5", 56, 28),
    ],
)
def test_the_table_of_disconnects_is_six_times_the_full_load_table(
    standards: Standards, size: str, full_115: float, full_230: float
) -> None:
    row = standards.tables["locked-rotor-single-phase"].row(size)
    assert row is not None
    assert row["amps_115"] == pytest.approx(6 * full_115)
    assert row["amps_230"] == pytest.approx(6 * full_230)


@pytest.mark.source("nec-430-251")
@pytest.mark.parametrize(
    ("plate", "size", "said"),
    [
        ({"plate_volts": "115"}, "1/2", "58.8 A at 115 V"),
        ({"plate_volts": "208", "plate_volts_high": "230"}, "3/4", "45.8 A at 208 V, 41.4 A at 230 V"),
        ({"plate_volts": "115"}, "1/3", "no row for 1/3 hp; it begins at 1/2 hp"),
        ({"plate_volts": "230"}, "1/12", "no row for 1/12 hp; it begins at 1/2 hp"),
        ({"plate_volts": "120"}, "1/2", "no column for 120 V"),
        ({"plate_volts": "220", "plate_volts_high": "240"}, "1", "48 A at 230 V"),
        ({"plate_volts": "200"}, "1", "no column for 200 V"),
    ],
)
def test_what_the_table_does_not_print_is_not_put_between_its_rows(
    ask: Any, plate: dict[str, str], size: str, said: str
) -> None:
    reply = ask(SLUG, **plate, horsepower=size)
    assert value(reply, "table_amps") == said
    # shown, and judged by nothing
    assert "stalled-amps" not in names(reply)


def test_every_size_on_offer_is_a_number() -> None:
    assert horsepower_of("1-1/2") == 1.5
    assert horsepower_of("3/8") == 0.375
    assert horsepower_of("5") == 5.0


# --- worked cases -------------------------------------------------------------------------------------


@pytest.mark.source("common-practice")
def test_19_5_amps_at_95_volts_fit_24_amps_at_115_but_the_supply_comes_first(ask: Any) -> None:
    # common practice, no source: 24 x 95/115 = 19.8 A: locked, but 95 V is 83 %: mend the supply before condemning
    reply = ask(SLUG, plate_volts="115", locked_rotor_amps="24", stalled_amps="19.5", stalled_volts="95", **READY)
    assert value(reply, "first_expected") == "19.83"
    assert value(reply, "first_percent") == "82.6"
    assert verdict(reply, "stalled-amps") == "within"
    assert verdict(reply, "stalled-volts") == "outside"
    assert verdict(reply, "rotor") == "undecided"
    assert "the volts of the first attempt are not proved" in finding(reply, "rotor")["sentence"]


@pytest.mark.source("common-practice")
def test_two_attempts_at_96_percent_with_the_plates_amps_are_consistent_with_a_seized_motor(ask: Any) -> None:
    # common practice, no source: LRA 21 at 115 V, 19.6 A at 110 V twice, 5 min apart: expected 20.1 A, 0.98 of it
    typed = {"plate_volts": "115", "locked_rotor_amps": "21", "stalled_amps": "19.6", "stalled_volts": "110", **READY}
    once = ask(SLUG, **typed)
    assert result(once, "first_expected")["text"] == "20.09 A"
    assert value(once, "first_ratio") == "0.98"
    assert verdict(once, "rotor") == "watch"
    assert "not yet seized" in finding(once, "rotor")["sentence"]
    twice = ask(SLUG, **typed, second_amps="19.6", second_volts="110")
    assert (verdict(twice, "rotor"), finding(twice, "rotor")["stop"]) == ("outside", True)
    assert (verdict(twice, "attempts"), finding(twice, "attempts")["stop"]) == ("within", True)


@pytest.mark.source("derived")
@pytest.mark.parametrize(("density", "rate"), [(20, "2.4"), (30, "5.4"), (40, "9.6"), (60, "21.5"), (80, "38")])
def test_a_standing_winding_heats_so_fast(density: int, rate: str) -> None:
    # derived, no heat lost, copper at 70 °C: 20 A/mm2 2.4 K/s; 30 5.4; 40 9.6; 60 21.5; 80 38
    digits = len(rate.partition(".")[2])
    assert f"{heating_rate(float(density)):.{digits}f}" == rate


def test_the_heat_of_three_seconds_is_in_the_notes(ask: Any) -> None:
    reply = ask(SLUG, plate_volts="115")
    assert any("7, 29, 115 K in 3 s" in note for note in reply["notes"])


# --- the window, on both sides ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("amps", "wanted", "stop"),
    [("7.9", "outside", False), ("8", "within", False), ("12", "within", False), ("12.1", "outside", True)],
)
def test_the_amps_are_judged_on_both_sides_of_the_window(ask: Any, amps: str, wanted: str, stop: bool) -> None:
    reply = ask(SLUG, **PLATE, **SHARP, **READY, stalled_amps=amps, stalled_volts="100")
    assert (verdict(reply, "stalled-amps"), finding(reply, "stalled-amps")["stop"]) == (wanted, stop)
    assert verdict(reply, "rotor") == ("watch" if wanted == "within" else "undecided")
    # and in the second attempt
    reply = ask(SLUG, **PLATE, **SHARP, **READY, **ONCE, second_amps=amps, second_volts="100")
    assert verdict(reply, "second-stalled-amps") == wanted
    assert verdict(reply, "rotor") == ("outside" if wanted == "within" else "undecided")


@pytest.mark.parametrize(
    ("volts", "wanted"), [("84.9", "outside"), ("85", "watch"), ("89.9", "watch"), ("90", "within")]
)
def test_the_volts_are_judged_on_both_sides_of_both_limits(ask: Any, volts: str, wanted: str) -> None:
    amps = f"{float(volts) / 10:.2f}"
    reply = ask(SLUG, **PLATE, **SHARP, **READY, stalled_amps=amps, stalled_volts=volts)
    assert verdict(reply, "stalled-volts") == wanted
    assert verdict(reply, "rotor") == ("watch" if wanted == "within" else "undecided")


def test_less_than_the_window_is_no_seized_motor(ask: Any) -> None:
    reply = ask(SLUG, **PLATE, **READY, stalled_amps="4", stalled_volts="100")
    assert "That is no seized motor" in finding(reply, "stalled-amps")["plain"]
    assert finding(reply, "stalled-amps")["next"]["procedure"] == "identify-the-windings"


def test_more_than_the_window_names_no_short_without_data(ask: Any) -> None:
    reply = ask(SLUG, **PLATE, **READY, stalled_amps="15", stalled_volts="100")
    assert "named only on data-sheet ohms" in finding(reply, "stalled-amps")["sentence"]


def test_the_volts_judged_are_those_of_the_weaker_attempt(ask: Any) -> None:
    typed = {**PLATE, **SHARP, **READY, **ONCE, "second_amps": "8.6", "second_volts": "86"}
    assert verdict(ask(SLUG, **typed), "stalled-volts") == "watch"


# --- what has to be there -----------------------------------------------------------------------------


@pytest.mark.source("common-practice")
@pytest.mark.parametrize(
    ("missing", "field", "entry"),
    [
        ({"dead_tests": ""}, "dead_tests", "good"),
        ({"pressures": ""}, "pressures", "equal"),
        ({"start_lead": ""}, "start_lead", "seen"),
        ({"start_lead": "none"}, "start_lead", "seen"),
        ({"turned": ""}, "turned", "no"),
        ({"locked_rotor_amps": ""}, "locked_rotor_amps", ""),
        ({"second_volts": ""}, "second_volts", ""),
        ({"supply_frequency": "50", "plate_frequency": "60"}, "supply_frequency", ""),
        ({"second_amps": "7", "second_volts": "95"}, "", ""),
        ({"second_volts": "80", "second_amps": "8"}, "", ""),
        ({"longest_attempt": "4"}, "", ""),
        ({"longest_attempt": ""}, "longest_attempt", "3 s"),
        ({"rest_between": ""}, "rest_between", "5 min"),
        ({"start_capacitor": "fitted"}, "start_capacitor", "renewed"),
        ({"rest_between": "4"}, "", ""),
        ({"attempts": "3"}, "", ""),
    ],
)
def test_no_motor_is_condemned_while_one_thing_is_missing(
    ask: Any, missing: dict[str, str], field: str, entry: str
) -> None:
    # common practice, no source: seized needs dead tests good, equal pressures, 90 % volts, start-lead current,
    # 0.8-1.2 of the plate's LRA x U/Un, in two attempts only
    typed = {**PLATE, **SHARP, **READY, **TWICE}
    assert verdict(ask(SLUG, **typed), "rotor") == "outside"
    reply = ask(SLUG, **{**typed, **missing})
    one = finding(reply, "rotor")
    assert one["verdict"] == "undecided"
    assert (one["decider"]["enter_in"], one["decider"]["entry"]) == (field, entry)
    if entry:
        assert verdict(ask(SLUG, **{**typed, **missing, field: entry}), "rotor") == "outside"


def test_everything_that_is_missing_is_told_at_once(ask: Any) -> None:
    reply = ask(SLUG, plate_volts="115", stalled_amps="12")
    sentence = finding(reply, "rotor")["sentence"]
    for words in ("dead tests", "if it turned", "locked-rotor amps", "volts of the first", "start lead", "pressures"):
        assert words in sentence
    assert finding(reply, "rotor")["decider"]["entry"] == ""
    assert finding(reply, "rotor")["stop"]


def test_without_good_dead_tests_no_power_is_put_on(ask: Any) -> None:
    reply = ask(SLUG, **PLATE)
    assert finding(reply, "rotor")["stop"]
    assert finding(reply, "rotor")["next"]["procedure"] == "make-safe-prove-dead"


@pytest.mark.source("common-practice")
def test_a_start_circuit_that_is_open_is_found_and_the_rotor_is_not_blamed(ask: Any) -> None:
    # common practice, no source: open start: amps like a locked rotor's on the run winding only, start lead 0 A
    reply = ask(SLUG, **PLATE, **{**READY, "start_lead": "none"}, **ONCE)
    assert verdict(reply, "stalled-amps") == "within"
    assert verdict(reply, "start-lead") == "outside"
    assert verdict(reply, "rotor") == "undecided"


def test_a_motor_that_turns_is_not_locked(ask: Any) -> None:
    assert verdict(ask(SLUG, **PLATE, **ONCE, turned="first"), "rotor") == "within"


@pytest.mark.parametrize(("fitted", "says"), [("fitted", True), ("none", False), ("", False)])
def test_a_motor_that_starts_the_second_time_only_is_not_seized(ask: Any, fitted: str, says: bool) -> None:
    reply = ask(SLUG, **PLATE, **{**READY, "turned": "second"}, **TWICE, start_capacitor=fitted)
    assert verdict(reply, "rotor") == "watch"
    assert ("the old one was the fault" in finding(reply, "rotor")["sentence"]) is says


@pytest.mark.parametrize(("fitted", "says"), [("fitted", True), ("none", False)])
def test_the_second_attempt_is_with_a_new_start_capacitor_where_one_is_fitted(
    ask: Any, fitted: str, says: bool
) -> None:
    reply = ask(SLUG, **PLATE, **READY, **ONCE, start_capacitor=fitted)
    assert ("new start capacitor of the rated value" in finding(reply, "rotor")["sentence"]) is says


def test_one_measured_attempt_of_two_condemns_nothing(ask: Any) -> None:
    reply = ask(SLUG, **PLATE, **READY, **ONCE, attempts="2")
    assert (verdict(reply, "rotor"), finding(reply, "rotor")["stop"]) == ("watch", True)
    assert "none is left" in finding(reply, "rotor")["sentence"]


# --- attempts -----------------------------------------------------------------------------------------


@pytest.mark.source("common-practice")
@pytest.mark.parametrize(
    ("typed", "wanted", "stop", "left"),
    [
        # common practice, no source: 3 s, two attempts, 5 min between them
        ({"attempts": "1", "longest_attempt": "3"}, "within", True, "1"),
        ({**READY, "attempts": "1", "rest_between": ""}, "within", False, "1"),
        ({"attempts": "1", "longest_attempt": "3.1"}, "outside", True, "1"),
        ({"attempts": "2", "longest_attempt": "3", "rest_between": "5"}, "within", True, "0"),
        ({"attempts": "2", "longest_attempt": "3", "rest_between": "4.9"}, "outside", True, "0"),
        ({"attempts": "2", "rest_between": ("299", "s")}, "outside", True, "0"),
        ({"attempts": "3"}, "outside", True, "0"),
        ({"attempts": "1", "rest_between": "1"}, "undecided", True, "1"),
        ({"attempts": "2", "longest_attempt": "3"}, "undecided", True, "0"),
    ],
)
def test_attempts_keep_to_three_seconds_twice_and_five_minutes_apart(
    ask: Any, typed: dict[str, Any], wanted: str, stop: bool, left: str
) -> None:
    reply = ask(SLUG, **PLATE, **typed)
    assert (verdict(reply, "attempts"), finding(reply, "attempts")["stop"]) == (wanted, stop)
    assert value(reply, "attempts_left") == left


@pytest.mark.parametrize(
    ("changed", "reason"),
    [
        ({"dead_tests": ""}, "the dead tests are not all good"),
        ({"pressures": ""}, "the pressures are not known to be equal"),
        ({"start_lead": "none"}, "the start lead carries no current"),
        ({"stalled_amps": "15", "stalled_volts": "100"}, "the amps are not those of a standing rotor"),
        ({"stalled_amps": "4", "stalled_volts": "100"}, "the amps are not those of a standing rotor"),
        ({"stalled_amps": "8.6", "stalled_volts": "86"}, "the volts are not proved to be 90 % of the plate"),
        ({"plate_frequency": "60", "supply_frequency": "50"}, "plate and supply differ in frequency"),
    ],
)
def test_no_other_attempt_is_offered_while_something_forbids_it(ask: Any, changed: dict[str, str], reason: str) -> None:
    reply = ask(SLUG, **{**PLATE, **READY, **ONCE, "rest_between": ""})
    assert "one more at most" in finding(reply, "attempts")["sentence"]
    reply = ask(SLUG, **{**PLATE, **READY, **ONCE, "rest_between": "", **changed})
    one = finding(reply, "attempts")
    assert reason in one["sentence"]
    assert "one more" not in one["sentence"]
    assert (one["stop"], one["next"]["procedure"]) == (True, "make-safe-prove-dead")


def test_a_motor_that_turned_gets_no_other_attempt(ask: Any) -> None:
    reply = ask(SLUG, **{**PLATE, **READY, **ONCE, "rest_between": "", "turned": "first"})
    assert "nothing to repeat" in finding(reply, "attempts")["sentence"]


def test_amps_far_above_the_plate_ask_whether_running_amps_were_taken_for_locked_rotor_amps(ask: Any) -> None:
    reply = ask(SLUG, **{**PLATE, **READY, **ONCE, "locked_rotor_amps": "1.6"})
    assert "running amps" in finding(reply, "stalled-amps")["plain"]


def test_before_the_first_attempt_none_is_judged(ask: Any) -> None:
    reply = ask(SLUG, **PLATE)
    assert "attempts" not in names(reply)
    assert value(reply, "attempts_left") == "2"


# --- weaker evidence ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("amps", "wanted"),
    # 1 hp, 100 V, letter L: 90 to 99.9 A; 0.8 x 90 = 72 A, 1.2 x 99.9 = 119.88 A
    [("71.9", "outside"), ("72", "undecided"), ("95", "undecided"), ("119.8", "undecided"), ("119.9", "outside")],
)
def test_a_code_letter_alone_never_passes_amps(ask: Any, amps: str, wanted: str) -> None:
    typed = {"plate_volts": "100", "horsepower": "1", "code_letter": "L", **SHARP, **READY}
    reply = ask(SLUG, **typed, stalled_amps=amps, stalled_volts="100")
    assert verdict(reply, "stalled-amps") == wanted
    assert verdict(reply, "rotor") == "undecided"


def test_the_open_ends_of_the_letters_judge_nothing_on_their_open_side(ask: Any) -> None:
    typed = {"plate_volts": "100", "horsepower": "1", **SHARP, **READY, "stalled_volts": "100"}
    assert verdict(ask(SLUG, **typed, code_letter="V", stalled_amps="450"), "stalled-amps") == "undecided"
    assert verdict(ask(SLUG, **typed, code_letter="A", stalled_amps="1"), "stalled-amps") == "undecided"


def test_plate_and_letter_that_contradict_each_other_are_noted(ask: Any) -> None:
    typed = {"plate_volts": "115", "horsepower": "1/2", "code_letter": "L"}
    contradict = "Plate and letter do not agree"
    assert any(contradict in note for note in ask(SLUG, **typed, locked_rotor_amps="13")["notes"])
    assert not any(contradict in note for note in ask(SLUG, **typed, locked_rotor_amps="41")["notes"])


def test_a_plate_with_a_range_widens_the_ratio_by_its_ends(ask: Any) -> None:
    typed = {"plate_volts": "220", "plate_volts_high": "240", "locked_rotor_amps": "23", **SHARP}
    reply = ask(SLUG, **typed, stalled_amps="22", stalled_volts="230")
    # by hand: 22/23 = 0.957; taken for 220 V 22 / (23 x 230/220) = 0.915, for 240 V 22 / (23 x 230/240) = 0.998
    assert result(reply, "first_ratio")["text"] == "0.96"
    assert result(reply, "first_ratio")["band"] == "0.91 to 1.00"


# --- what would decide, and what is refused -----------------------------------------------------------


def test_a_finer_clamp_is_named_where_it_would_decide_and_does(ask: Any) -> None:
    typed = {
        **PLATE,
        **READY,
        "stalled_amps": "7.8",
        "stalled_volts": "100",
        "clamp_resolution": "0.1",
        "clamp_counts": "5",
    }
    one = finding(ask(SLUG, **typed), "stalled-amps")
    assert one["verdict"] == "undecided"
    assert (one["decider"]["enter_in"], one["decider"]["entry"]) == ("clamp_resolution", "0.01 A")
    assert verdict(ask(SLUG, **typed, clamp_percent="0.5") | {}, "stalled-amps") == "undecided"
    assert verdict(ask(SLUG, **{**typed, "clamp_resolution": "0.01 A"}), "stalled-amps") == "outside"


def test_volts_across_the_limit_name_the_finer_voltmeter(ask: Any) -> None:
    typed = {**PLATE, **READY, "stalled_amps": "8.9", "stalled_volts": "89", "voltmeter_resolution": "1"}
    one = finding(ask(SLUG, **typed), "stalled-volts")
    assert one["verdict"] == "undecided"
    assert one["decider"]["entry"] == "0.1 V"
    assert verdict(ask(SLUG, **{**typed, "voltmeter_resolution": "0.1 V"}), "stalled-volts") == "watch"


@pytest.mark.parametrize(
    ("typed", "field", "says"),
    [
        ({"code_letter": "L"}, "horsepower", "kVA per horsepower"),
        ({"second_amps": "9", "second_volts": "95"}, "stalled_amps", "first attempt"),
        ({"stalled_volts": "95"}, "stalled_amps", "Enter both or neither"),
        ({**TWICE, "turned": "first"}, "turned", "amps of a second one"),
        ({**ONCE, "turned": "second", "attempts": "1"}, "attempts", "two or more"),
        ({"plate_volts": "115", "plate_volts_high": "230"}, "plate_volts_high", "two ways"),
        ({"stalled_amps": "0", "stalled_volts": "100"}, "stalled_amps", "outside what this check takes"),
        ({"horsepower": "1/7"}, "horsepower", "not in the list"),
        ({"attempts": "1.5"}, "attempts", "not a whole number"),
    ],
)
def test_what_cannot_be_true_is_refused_at_its_field(ask: Any, typed: dict[str, str], field: str, says: str) -> None:
    reply = ask(SLUG, **{**PLATE, **typed})
    assert [(name, says in message) for name, message in messages(reply)] == [(field, True)]


def test_the_drawing_shows_the_attempts_at_the_plates_volts(ask: Any) -> None:
    reply = ask(SLUG, **PLATE, **TWICE)
    (figure,) = reply["figures"]
    for words in (
        "plate, with its window 10.00 A",
        "first attempt, brought to the plate 10.00 A",
        "low 8.00 A",
        "high 12.00 A",
    ):
        assert words in figure["words"]
    assert ask(SLUG, plate_volts="115")["figures"] == []
