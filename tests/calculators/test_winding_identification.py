"""Winding identification against textbook motors, printed examples and facts of the trade."""

from __future__ import annotations

import itertools
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.winding_identification.readings import ALUMINIUM, COPPER, resistance_at

SLUG = "winding-identification"
COLD = {"lead": "0", "shell_temperature": "21", "hours_cool": "8", "hours_rest": "9", "repeated": "yes"}


def named(reply: dict[str, Any]) -> dict[str, str]:
    return {one["name"]: one["text"] for one in reply["results"] if one["name"] in ("common", "run", "start")}


def finding(reply: dict[str, Any], name: str = "pins") -> dict[str, Any]:
    return next(one for one in reply["findings"] if one["name"] == name)


def value(reply: dict[str, Any], name: str) -> str:
    return next(one["value"] for one in reply["results"] if one["name"] == name)


# --- published and trade checks ---------------------------------------------------------------------


@pytest.mark.source("training-print-three-terminals")
def test_a_training_print_is_named_as_it_says(ask: Any) -> None:
    # Public training article on naming the three terminals: 1-2 6.0, 1-3 2.0, 2-3 4.0 gives R = 1; C = 3 and S = 2
    # follow.
    reply = ask(SLUG, r12="6.0", r13="2.0", r23="4.0", lead="0")
    assert named(reply) == {"common": "3", "run": "1", "start": "2"}
    assert value(reply, "start to run") == "2.0"


@pytest.mark.source("fitzgerald-chapter-9")
def test_a_textbook_capacitor_start_motor_is_named(ask: Any) -> None:
    # Fitzgerald, Kingsley, Umans, Electric Machinery, ch. 9: main 4.5 ohm, auxiliary 9.5 ohm; the series reading must
    # be 14.0.
    reply = ask(SLUG, r12="4.5", r13="9.5", r23="14.0", lead="0")
    assert named(reply) == {"common": "1", "run": "2", "start": "3"}


@pytest.mark.source("guru-hiziroglu-chapter-10")
def test_a_ratio_of_forty_is_legal(ask: Any) -> None:
    # Guru and Hiziroglu, ch. 10: main 2.5 ohm, auxiliary 100 ohm. A large ratio is never a fault by itself.
    reply = ask(SLUG, r12="2.5", r13="100", r23="102.5", lead="0", ohmmeter_resolution="0.01")
    assert named(reply) == {"common": "1", "run": "2", "start": "3"}
    assert [one["verdict"] for one in reply["findings"]] == ["within"]


@pytest.mark.source("goodheart-willcox-25-8")
def test_the_pin_outside_the_highest_pair_is_common(ask: Any) -> None:
    # Goodheart-Willcox, Heating and Cooling Essentials (2022), 25.8: highest pair 18 ohm, the third terminal is common.
    for pair, common in (("r12", "3"), ("r13", "2"), ("r23", "1")):
        others = [name for name in ("r12", "r13", "r23") if name != pair]
        reply = ask(SLUG, **{pair: "18", others[0]: "4", others[1]: "14"}, lead="0")
        assert named(reply)["common"] == common


@pytest.mark.source("common-practice")
def test_three_unmarked_pins_of_the_bench_are_named(ask: Any) -> None:
    # Common practice, no source: 4.2, 17.9, 13.8 ohm; 4.2 + 13.8 = 18.0 against 17.9.
    reply = ask(SLUG, r12="4.2", r23="17.9", r13="13.8")
    assert named(reply) == {"common": "1", "run": "2", "start": "3"}
    assert finding(reply)["verdict"] == "within"
    assert finding(reply)["next"]["procedure"] == "windings-to-shell"


@pytest.mark.source("common-practice")
def test_pins_named_by_ohms_not_by_position(ask: Any) -> None:
    # Common practice, no source: 17.0 / 4.0 / 13.2 gives C = 3, R = 2, S = 1.
    reply = ask(SLUG, r12="17.0", r23="4.0", r13="13.2", lead="0")
    assert named(reply) == {"common": "3", "run": "2", "start": "1"}


@pytest.mark.source("winding-temperature-print")
def test_copper_resistance_follows_the_printed_temperature_example() -> None:
    # Printed solution: a motor winding of 80 ohm at 20 °C reads 100 ohm at 83.63 °C (k = 234.5).
    assert resistance_at(80.0, 20.0, 83.63, COPPER) == pytest.approx(100.0, abs=0.005)


@pytest.mark.source("kulshreshtha-2")
def test_copper_rise_of_a_textbook_winding() -> None:
    # Kulshreshtha, Basic Electrical Engineering, ch. 2: 3.42 ohm at 20 °C, 4.22 ohm hot. The book prints a rise of
    # 59.59 K
    # because it uses k = 234.74; with k = 234.5 the rise is 59.53 K.
    assert resistance_at(3.42, 20.0, 20.0 + 59.53, COPPER) == pytest.approx(4.22, abs=0.0005)
    assert resistance_at(3.42, 20.0, 20.0 + 59.59, COPPER) != pytest.approx(4.22, abs=0.0005)


@pytest.mark.source("iec-60335-1-clause-11")
def test_aluminium_needs_its_own_constant() -> None:
    # UL appliance standards, clause on temperature by resistance: K = 225.0 for aluminium. (225+50)/(225+20) = 1.12245.
    assert resistance_at(10.0, 20.0, 50.0, ALUMINIUM) == pytest.approx(11.2245, abs=0.0001)


@pytest.mark.source("common-practice")
def test_readings_are_brought_to_25_degrees(ask: Any) -> None:
    # 10 K warmer is +3.9 % on copper (common practice, no source): 3.9 % of 10.00 off at 35 °C gives 9.63.
    reply = ask(SLUG, r12="10.0", r13="30.0", r23="40.0", lead="0", shell_temperature="35")
    assert value(reply, "ohms at reference C–R") == "9.63"


@pytest.mark.source("common-practice")
def test_a_lead_reading_is_taken_off_and_shown(ask: Any) -> None:
    # Common practice, no source: 0.3 ohm of leads on a 1.6 ohm winding is an error of 19 %.
    reply = ask(SLUG, r12="1.9", r13="5.5", r23="6.8", lead="0.3", ohmmeter_resolution="0.01")
    assert value(reply, "ohms C–R") == "1.60"
    assert any(step["put_in"] == "1.90 − 0.30" for step in reply["working"])


def test_the_largest_falls_short_by_exactly_one_lead(ask: Any) -> None:
    # Derived: (CR + L) + (CS + L) − (RS + L) = L. True 1.6, 5.2, 6.8 read with 0.4 ohm of leads.
    reply = ask(SLUG, r12="2.0", r13="5.6", r23="7.2", ohmmeter_resolution="0.01")
    assert finding(reply)["verdict"] == "undecided"
    assert "leads of 0.40 Ω would explain it" in finding(reply)["sentence"]
    assert (
        finding(ask(SLUG, r12="2.0", r13="5.6", r23="7.2", lead="0.4", ohmmeter_resolution="0.01"))["verdict"]
        == "within"
    )


# --- patterns ---------------------------------------------------------------------------------------


@pytest.mark.source("common-practice")
def test_a_hot_open_overload_is_never_condemned(ask: Any) -> None:
    # Common practice, no source: C–R and C–S OL, R–S 13.9 at a shell of 88 °C; cold it reads 2.4 / 9.0 / 11.4.
    reply = ask(SLUG, r12="OL", r13="OL", r23="13.9", lead="0", shell_temperature="88", diagram="CRS")
    assert finding(reply, "open line")["verdict"] == "undecided"
    assert "whole" in finding(reply, "open line")["sentence"]
    assert named(ask(SLUG, r12="2.4", r13="9.0", r23="11.4", lead="0", shell_temperature="34")) == {
        "common": "1",
        "run": "2",
        "start": "3",
    }


@pytest.mark.parametrize(
    ("short", "what"),
    [
        ({"shell_temperature": "49"}, "band of the thermometer reaches over the limit"),
        ({"hours_cool": "1.9"}, "cool for too short a time"),
        ({"hours_rest": "3.9"}, "ran too lately"),
        ({"repeated": "no"}, "read once only"),
        ({"hours_rest": ""}, "time not entered"),
    ],
)
def test_an_open_line_is_undecided_until_every_condition_holds(ask: Any, short: dict[str, str], what: str) -> None:
    entries = {**COLD, "r12": "OL", "r13": "OL", "r23": "13.9", "diagram": "CRS"}
    assert finding(ask(SLUG, **entries), "open line")["verdict"] == "outside"
    assert finding(ask(SLUG, **{**entries, **short}), "open line")["verdict"] == "undecided", what


@pytest.mark.parametrize(
    ("diagram", "words"), [("CRS", "common is open"), ("RCS", "run winding is open"), ("SCR", "start winding is open")]
)
def test_a_cold_open_pin_is_named_by_the_diagram(ask: Any, diagram: str, words: str) -> None:
    reply = ask(SLUG, **COLD, r12="OL", r13="OL", r23="13.9", diagram=diagram)
    assert finding(reply, "open line")["verdict"] == "outside"
    assert words in finding(reply, "open line")["sentence"]


def test_one_finite_pair_says_only_which_pin_is_isolated(ask: Any) -> None:
    # Common practice, no source: by ohms alone the finite pair may be any of the three.
    reply = ask(SLUG, **COLD, r12="3.3", r13="OL", r23="OL")
    assert finding(reply, "open line")["verdict"] == "undecided"
    assert finding(reply, "open line")["decider"]["enter_in"] == "diagram"


def test_one_finite_pair_is_named_by_data_that_fit_one_winding_only(ask: Any) -> None:
    # Common practice, no source: run 3.2 and start 11 ohm by data; 3.3 ohm between pins 1 and 2 is the run winding,
    # so S is isolated.
    reply = ask(SLUG, **COLD, r12="3.3", r13="OL", r23="OL", data_run="3.2", data_start="11")
    assert "start winding is open" in finding(reply, "open line")["sentence"]
    alike = ask(SLUG, **COLD, r12="3.3", r13="OL", r23="OL", data_run="3.2", data_start="3.4")
    assert finding(alike, "open line")["verdict"] == "undecided"


def test_all_three_open_and_cold_is_more_than_one_open_path(ask: Any) -> None:
    reply = ask(SLUG, **COLD, r12="OL", r13="OL", r23="OL")
    assert finding(reply, "open line")["verdict"] == "outside"
    assert "more than one path" in finding(reply, "open line")["sentence"]


def test_one_open_pair_contradicts_the_other_two(ask: Any) -> None:
    reply = ask(SLUG, **COLD, r12="OL", r13="4.0", r23="9.0", diagram="CRS")
    assert finding(reply, "open line")["verdict"] == "undecided"
    assert "contradict" in finding(reply, "open line")["sentence"]


def test_three_equal_readings_stop_at_the_drive_motor(ask: Any) -> None:
    reply = ask(SLUG, r12="8.0", r13="8.1", r23="8.0", lead="0")
    assert finding(reply, "three equal")["stop"] is True
    assert named(reply) == {}


def test_equal_windings_leave_run_and_start_to_the_diagram(ask: Any) -> None:
    reply = ask(SLUG, r12="5.0", r13="5.1", r23="10.1", lead="0")
    assert named(reply) == {"common": "1"}
    assert finding(reply)["verdict"] == "undecided"
    by_diagram = ask(SLUG, r12="5.0", r13="5.1", r23="10.1", lead="0", diagram="CSR")
    assert named(by_diagram) == {"common": "1", "start": "2", "run": "3"}


def test_near_zero_asks_for_a_finer_meter(ask: Any) -> None:
    reply = ask(SLUG, r12="0.1", r13="0.1", r23="0.2", lead="0")
    assert finding(reply, "near zero")["verdict"] == "undecided"


def test_a_parallel_path_makes_the_largest_fall_short(ask: Any) -> None:
    reply = ask(SLUG, r12="4.2", r13="13.8", r23="12.0", lead="0")
    assert "joined across two pins" in finding(reply)["sentence"]


def test_a_largest_reading_over_the_sum_is_a_contact(ask: Any) -> None:
    reply = ask(SLUG, r12="4.2", r13="13.8", r23="22.0", lead="0")
    assert "pin is dirty" in finding(reply)["sentence"]


def test_readings_already_zeroed_are_recognised(ask: Any) -> None:
    reply = ask(SLUG, r12="2.0", r13="4.0", r23="6.0", lead="0.5", ohmmeter_resolution="0.01")
    assert "already" in finding(reply)["sentence"]


def test_a_diagram_that_contradicts_the_ohms_is_shown_not_followed(ask: Any) -> None:
    reply = ask(SLUG, r12="4.2", r23="17.9", r13="13.8", lead="0", diagram="RCS")
    assert named(reply) == {"common": "1", "run": "2", "start": "3"}
    assert finding(reply, "diagram")["verdict"] == "undecided"


@pytest.mark.parametrize(
    ("layout", "roles", "says"),
    [
        ("single pin above", {"r12": "13.8", "r13": "4.2", "r23": "17.9"}, "agrees"),
        ("single pin above", {"r12": "4.2", "r13": "13.8", "r23": "17.9"}, "overrule"),
        ("single pin below", {"r12": "17.9", "r13": "4.2", "r23": "13.8"}, "agrees"),
    ],
)
@pytest.mark.source("common-practice")
def test_position_is_a_hint_that_ohms_overrule(ask: Any, layout: str, roles: dict[str, str], says: str) -> None:
    # Common practice, no source: single pin above is common, run right, start left; single pin below is common, run
    # left, start right.
    reply = ask(SLUG, **roles, lead="0", layout=layout)
    assert any(says in note for note in reply["notes"])


# --- the meter --------------------------------------------------------------------------------------


def test_both_sides_of_the_sum_tolerance(ask: Any) -> None:
    # 5 % of 20.00 is 1.00: 19.00 and 21.00 hold, 18.99 does not (derived).
    fine = {"r23": "20.00", "lead": "0", "ohmmeter_resolution": "0.001", "ohmmeter_percent": "0"}
    assert finding(ask(SLUG, r12="5", r13="14.00", **fine))["verdict"] == "within"
    assert finding(ask(SLUG, r12="5", r13="13.99", **fine))["verdict"] == "undecided"
    assert finding(ask(SLUG, r12="5", r13="16.00", **fine))["verdict"] == "within"
    assert finding(ask(SLUG, r12="5", r13="16.01", **fine))["verdict"] == "undecided"


def test_a_coarse_meter_does_not_pass_a_bad_sum(ask: Any) -> None:
    reply = ask(SLUG, r12="1.2", r13="3.1", r23="4.0", lead="0")
    assert finding(reply)["verdict"] == "undecided"
    assert "finer meter" in finding(reply)["sentence"]


def test_too_coarse_a_meter_names_the_pins_but_does_not_judge_the_winding(ask: Any) -> None:
    # 1.9 ohm on ±(0.5 % + 2 counts of 0.1 ohm) is ±0.21 ohm, 11 % of itself (derived).
    reply = ask(SLUG, r12="1.9", r13="5.2", r23="7.1")
    weak = finding(reply, "meter")
    assert weak["verdict"] == "undecided"
    assert "11 % of itself" in weak["sentence"]
    decided = ask(SLUG, r12="1.9", r13="5.2", r23="7.1", **{weak["decider"]["enter_in"]: weak["decider"]["entry"]})
    assert [one["verdict"] for one in decided["findings"]] == ["within"]


@pytest.mark.parametrize(
    "entries",
    [
        {"r12": "0.3", "r13": "5.1", "r23": "5.4"},
        {"r12": "5.0", "r13": "5.1", "r23": "10.1"},
    ],
)
def test_the_resolution_it_asks_for_decides(ask: Any, entries: dict[str, str]) -> None:
    asked = finding(ask(SLUG, **entries))["decider"]
    decided = ask(SLUG, **entries, **{asked["enter_in"]: asked["entry"]})
    assert finding(decided)["verdict"] == "within"


def test_the_repeat_reading_it_asks_for_decides(ask: Any) -> None:
    asked = finding(ask(SLUG, r12="4.2", r13="13.8", r23="12.0", lead="0.2"))["decider"]
    decided = ask(
        SLUG, **{"r12": "4.2", "r13": "13.8", "r23": "12.0", "lead": "0.2", asked["enter_in"]: asked["entry"]}
    )
    assert finding(decided)["verdict"] == "within"


# --- data -------------------------------------------------------------------------------------------

DATA = {
    "lead": "0",
    "ohmmeter_resolution": "0.01",
    "ohmmeter_percent": "0.2",
    "shell_temperature": "25",
    "thermometer_band": "0",
    "data_run": "10.0",
    "data_start": "30.0",
}


@pytest.mark.parametrize(
    ("run", "verdict"),
    [
        ("9.00", "within"),
        ("11.00", "within"),
        ("8.98", "undecided"),
        ("8.95", "outside"),
        ("11.02", "undecided"),
        ("11.06", "outside"),
    ],
)
def test_both_sides_of_the_data_tolerance(ask: Any, run: str, verdict: str) -> None:
    # ±10 % of 10.0 ohm; the band at 9 ohm is 0.2 % + 2 counts in quadrature with the lead's: 0.018 + 0.028 = 0.046
    # ohm (derived).
    reply = ask(SLUG, r12=run, r13="30.00", r23=f"{float(run) + 30.0:.2f}", **DATA)
    assert finding(reply, "run winding data")["verdict"] == verdict


def test_a_low_run_winding_with_a_right_start_winding_fits_shorted_turns(ask: Any) -> None:
    # Common practice, no source: run 4.90 against 5.6 ohm at 25 °C is 12.5 % low with a 0.01 ohm meter.
    reply = ask(SLUG, r12="4.90", r13="14.0", r23="18.9", **{**DATA, "data_run": "5.6", "data_start": "14.0"})
    assert finding(reply, "run winding data")["verdict"] == "outside"
    assert "12.5 % below" in finding(reply, "run winding data")["sentence"]
    assert "shorted turns" in finding(reply, "run winding data")["sentence"]
    assert "never prove" in finding(reply, "run winding data")["plain"]


def test_data_without_temperature_or_leads_stay_undecided(ask: Any) -> None:
    entries = {"r12": "10", "r13": "30", "r23": "40", "data_run": "10"}
    assert finding(ask(SLUG, **entries, lead="0"), "data")["decider"]["enter_in"] == "shell_temperature"
    assert finding(ask(SLUG, **entries, shell_temperature="25"), "data")["decider"]["enter_in"] == "lead"
    assert finding(ask(SLUG, **entries, lead="0", shell_temperature="25"), "run winding data")["verdict"] == "within"


def test_a_reading_below_its_leads_is_refused_at_its_field(ask: Any) -> None:
    reply = ask(SLUG, r12="0.2", r13="5", r23="5.2", lead="0.3")
    assert reply["problems"] == [
        {
            "input": "r12",
            "message": (
                "Reading 1–2: 0.20 Ω is less than the leads alone, 0.30 Ω. "
                "Short the probes, read the leads again, then this pair."
            ),
        }
    ]


# --- properties -------------------------------------------------------------------------------------

ohms = st.floats(min_value=0.5, max_value=60.0).map(lambda number: f"{number:.2f}")
STRENGTH = {"within": 1, "outside": 1, "watch": 1, "undecided": 0}


@settings(max_examples=150, deadline=None)
@given(run=ohms, start=ohms, order=st.permutations(["1", "2", "3"]))
def test_swapping_pin_numbers_permutes_the_names(ask: Any, run: str, start: str, order: list[str]) -> None:
    pairs = {("1", "2"): run, ("1", "3"): start, ("2", "3"): f"{float(run) + float(start):.2f}"}
    plain = ask(SLUG, lead="0", **{f"r{a}{b}": text for (a, b), text in pairs.items()})
    renamed = dict(zip("123", order, strict=True))
    swapped = ask(
        SLUG, lead="0", **{"r" + "".join(sorted((renamed[a], renamed[b]))): text for (a, b), text in pairs.items()}
    )
    assert named(swapped) == {role: renamed[pin] for role, pin in named(plain).items()}


@settings(max_examples=150, deadline=None)
@given(r12=ohms, r13=ohms, r23=ohms, wider=st.sampled_from(["1", "3", "10"]))
def test_a_wider_band_never_makes_a_verdict(ask: Any, r12: str, r13: str, r23: str, wider: str) -> None:
    readings = {"r12": r12, "r13": r13, "r23": r23, "lead": "0"}
    narrow = ask(SLUG, **readings, ohmmeter_resolution="0.01")
    wide = ask(SLUG, **readings, ohmmeter_resolution="0.01", ohmmeter_percent=wider, ohmmeter_counts="40")
    assert STRENGTH[wide["findings"][0]["verdict"]] <= STRENGTH[narrow["findings"][0]["verdict"]]


@settings(max_examples=100, deadline=None)
@given(r12=ohms, r13=ohms, r23=ohms)
def test_kilohm_and_ohm_give_the_same_text(ask: Any, r12: str, r13: str, r23: str) -> None:
    plain = ask(SLUG, r12=r12, r13=r13, r23=r23, lead="0")
    milli = ask(
        SLUG, r12=(f"{round(float(r12) * 1000)}", "milliohm"), r13=f"{round(float(r13) * 1000)} mΩ", r23=r23, lead="0"
    )
    assert milli["findings"] == plain["findings"]


@settings(max_examples=300, deadline=None)
@given(
    entries=st.dictionaries(
        st.sampled_from(
            [
                "r12",
                "r23",
                "r13",
                "lead",
                "ohmmeter_percent",
                "ohmmeter_counts",
                "ohmmeter_resolution",
                "shell_temperature",
                "hours_cool",
                "hours_rest",
                "repeated",
                "layout",
                "diagram",
                "data_run",
                "data_start",
                "data_temperature",
                "metal",
                "thermometer_band",
            ]
        ),
        st.one_of(
            st.text(max_size=60),
            st.sampled_from(["OL", "0", "4,2", "12k", "1e9", "-0", "99999", "yes", "CRS", "0.000001"]),
        ),
    )
)
def test_any_text_gives_an_outcome_or_problems_at_fields(ask: Any, entries: dict[str, str]) -> None:
    reply = ask(SLUG, **{"r12": "4.2", "r13": "13.8", "r23": "17.9", **entries})
    if "problems" in reply:
        assert all(one["input"] in entries and one["message"] for one in reply["problems"])
    else:
        assert reply["findings"]
        for one in reply["findings"]:
            assert (one["verdict"] == "undecided") == (one["decider"] is not None)


def test_every_order_of_three_pins_is_found(ask: Any) -> None:
    for common, run, start in itertools.permutations("123"):
        pair = {frozenset((common, run)): "4.2", frozenset((common, start)): "13.8", frozenset((run, start)): "17.9"}
        reply = ask(SLUG, lead="0", **{f"r{a}{b}": pair[frozenset((a, b))] for a, b in ("12", "13", "23")})
        assert named(reply) == {"common": common, "run": run, "start": start}


def test_the_sum_is_shown_as_finely_as_a_fine_meter_reads(ask: Any) -> None:
    reply = ask("winding-identification", r12="0.41", r23="1.22", r13="1.63", lead="0", ohmmeter_resolution="0.01")
    assert "1.63 Ω against a sum of 1.63 Ω" in reply["findings"][0]["sentence"]


def test_an_open_winding_that_is_proved_leads_to_the_record(ask: Any) -> None:
    typed = {"shell_temperature": "21", "hours_cool": "12", "hours_rest": "12", "repeated": "yes", "diagram": "CRS"}
    reply = ask("winding-identification", r12="3.3", r23="OL", r13="OL", **typed)
    assert reply["findings"][0]["verdict"] == "outside"
    assert reply["findings"][0]["next"]["procedure"] == "record-and-report"
