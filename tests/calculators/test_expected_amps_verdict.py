"""Expected running amps: the verdict on both sides of every limit, and what would decide an undecided one."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.expected_amps import CALCULATOR
from calculators.expected_amps.evidence import EVIDENCE_FIELDS
from calculators.inputs import ChoiceInput, MeterInput, NumberInput

SLUG = "expected-amps"
EXACT = {"clamp_percent": "0", "clamp_counts": "0", "voltmeter_percent": "0", "voltmeter_counts": "0"}
STEADY = {"plate_volts": "115", "running_volts": "115", "run_time": "30"}
STRENGTH = {"undecided": 0, "within": 0, "watch": 1, "outside": 2}


def first(reply: dict[str, Any]) -> dict[str, Any]:
    finding: dict[str, Any] = reply["findings"][0]
    return finding


def judged(ask: Any, **typed: str) -> tuple[str, bool]:
    finding = first(ask(SLUG, **{**STEADY, **EXACT, **typed}))
    return finding["verdict"], finding["stop"]


# --- both sides of every limit ----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("evidence", "amps", "verdict", "stop"),
    [
        # ±10 %, lower edge 0.55; 1.15/0.9 = 1.278, 1.40/0.9 = 1.556, 0.55/1.1 = 0.50
        ({"rated_load_amps": "1"}, "0.49", "outside", False),
        ({"rated_load_amps": "1"}, "0.50", "undecided", False),
        ({"rated_load_amps": "1"}, "0.54", "undecided", False),
        ({"rated_load_amps": "1"}, "0.55", "within", False),
        ({"rated_load_amps": "1"}, "1.15", "within", False),
        ({"rated_load_amps": "1"}, "1.16", "undecided", False),
        ({"rated_load_amps": "1"}, "1.27", "undecided", False),
        ({"rated_load_amps": "1"}, "1.28", "watch", False),
        ({"rated_load_amps": "1"}, "1.40", "watch", False),
        ({"rated_load_amps": "1"}, "1.41", "watch", True),
        ({"rated_load_amps": "1"}, "1.55", "watch", True),
        ({"rated_load_amps": "1"}, "1.56", "outside", True),
        # ±15 %, lower edge 0.70; 0.70/1.15 = 0.609, 1.15/0.85 = 1.353, 1.40/0.85 = 1.647
        ({"data_sheet_amps": "1"}, "0.60", "outside", False),
        ({"data_sheet_amps": "1"}, "0.61", "undecided", False),
        ({"data_sheet_amps": "1"}, "0.69", "undecided", False),
        ({"data_sheet_amps": "1"}, "0.70", "within", False),
        ({"data_sheet_amps": "1"}, "1.35", "undecided", False),
        ({"data_sheet_amps": "1"}, "1.36", "watch", False),
        ({"data_sheet_amps": "1"}, "1.64", "watch", False),
        ({"data_sheet_amps": "1"}, "1.65", "outside", True),
        # −25/+50 %: 0.70/1.25 = 0.56, 1.15/0.5 = 2.30, 1.40/0.5 = 2.80
        ({"locked_rotor_amps": "6"}, "0.55", "outside", False),
        ({"locked_rotor_amps": "6"}, "0.56", "undecided", False),
        ({"locked_rotor_amps": "6"}, "1.00", "undecided", False),
        ({"locked_rotor_amps": "6"}, "2.30", "undecided", False),
        ({"locked_rotor_amps": "6"}, "2.31", "outside", False),
        ({"locked_rotor_amps": "6"}, "2.80", "outside", False),
        ({"locked_rotor_amps": "6"}, "2.81", "outside", True),
        # 3.327 A ±45 %: 0.70/1.45 is 1.606 A, 1.15/0.55 is 6.956 A
        ({"horsepower": "1/3"}, "1.60", "outside", False),
        ({"horsepower": "1/3"}, "1.61", "undecided", False),
        ({"horsepower": "1/3"}, "6.95", "undecided", False),
        ({"horsepower": "1/3"}, "6.96", "outside", False),
        # an upper bound is never undercut
        ({"cabinet_amps": "1"}, "0.10", "undecided", False),
        ({"cabinet_amps": "1"}, "1.15", "undecided", False),
        ({"cabinet_amps": "1"}, "1.16", "outside", False),
        ({"cabinet_amps": "1"}, "1.40", "outside", False),
        ({"cabinet_amps": "1"}, "1.41", "outside", True),
    ],
)
def test_a_reading_is_judged_on_both_sides_of_each_limit(
    ask: Any, evidence: dict[str, str], amps: str, verdict: str, stop: bool
) -> None:
    assert judged(ask, **evidence, running_amps=amps) == (verdict, stop)


@pytest.mark.parametrize(
    ("amps", "begins"),
    [
        ("1.00", "As expected: 1.00 A is 1.00 times the expected 1.00 A by data-sheet amps (band 0.85 to 1.15)"),
        ("1.01", "Not shown abnormal: "),
        ("0.82", "As expected: "),  # 0.82 × 0.85 = 0.697 reaches past 0.70
        ("0.83", "As expected: "),
    ],
)
def test_a_reading_inside_is_only_as_expected_with_its_whole_band(ask: Any, amps: str, begins: str) -> None:
    sentence = first(ask(SLUG, **STEADY, **EXACT, data_sheet_amps="1", running_amps=amps))["sentence"]
    assert sentence.startswith("Not shown abnormal: " if amps == "0.82" else begins)


@pytest.mark.parametrize(("percent", "weak"), [("18", False), ("18.1", True)])
def test_a_band_above_35_percent_is_called_weak_evidence(ask: Any, percent: str, weak: bool) -> None:
    # 20 % for watts and 10 % for 107 V on a 100 V plate are 30 %; √(30² + 18²) = 34.99, √(30² + 18.1²) = 35.04
    typed = {**STEADY, **EXACT, "plate_volts": "100", "running_volts": "107", "clamp_percent": percent}
    finding = first(ask(SLUG, **typed, watts="120", power_factor="0.6", running_amps="2"))
    assert finding["verdict"] == "within"
    assert ("Not shown abnormal (weak evidence)" in finding["sentence"]) is weak
    assert ("but the band is ±35 % in all." in finding["sentence"]) is weak


@pytest.mark.parametrize(
    ("volts", "half_band"),
    [("100", "15.0 %"), ("105", "15.0 %"), ("105.1", "25.0 %"), ("95", "15.0 %"), ("94.9", "25.0 %")],
)
def test_volts_more_than_5_percent_off_the_plate_widen_the_band(ask: Any, volts: str, half_band: str) -> None:
    reply = ask(SLUG, plate_volts="100", running_volts=volts, data_sheet_amps="2")
    assert next(one["text"] for one in reply["results"] if one["name"] == "half_band") == half_band


@pytest.mark.parametrize(
    ("volts", "names"),
    [
        ("110", ["running-amps"]),
        ("110.1", ["running-volts"]),
        ("90", ["running-amps"]),
        ("89.9", ["running-volts"]),
        ("", ["running-volts"]),
    ],
)
def test_there_is_no_verdict_with_the_volts_unknown_or_more_than_10_percent_off(
    ask: Any, volts: str, names: list[str]
) -> None:
    typed = {**EXACT, "plate_volts": "100", "run_time": "30", "running_volts": volts}
    reply = ask(SLUG, **typed, rated_load_amps="2", running_amps="1.8")
    assert [finding["name"] for finding in reply["findings"]] == names
    if names == ["running-volts"]:
        assert first(reply)["verdict"] == "undecided"
        assert first(reply)["next"]["procedure"] == "supply-check"
        assert first(reply)["decider"]["enter_in"] == "running_volts"
        assert "between 90.0 and 110.0 V" in first(reply)["decider"]["condition"]


@pytest.mark.parametrize(
    ("minutes", "sentence"),
    [
        ("", "the minutes since the start are not known"),
        ("19.9", "19.9 min after the start is less than 20 min"),
        ("10 s", "0.2 min after the start is less than 20 min"),
        ("9 s", "this was read within 10 s of the start"),
    ],
)
def test_there_is_no_verdict_before_the_run_has_settled(ask: Any, minutes: str, sentence: str) -> None:
    finding = first(ask(SLUG, **{**STEADY, "run_time": minutes}, rated_load_amps="2", running_amps="1.8"))
    assert finding["verdict"] == "undecided"
    assert sentence in finding["sentence"]
    assert finding["decider"]["enter_in"] == "run_time"
    assert "20 min or longer" in finding["decider"]["condition"]


def test_twenty_minutes_are_long_enough(ask: Any) -> None:
    assert judged(ask, run_time="20", rated_load_amps="2", running_amps="1.8") == ("within", False)


@pytest.mark.parametrize(
    ("plate", "supply", "verdict"),
    [
        ("60", "50", "undecided"),
        ("50", "60", "undecided"),
        ("50/60", "50", "within"),
        ("50/60", "60", "within"),
        ("60", "60", "within"),
        ("60", "", "within"),
        ("", "50", "within"),
    ],
)
def test_a_motor_on_the_wrong_frequency_is_not_judged(ask: Any, plate: str, supply: str, verdict: str) -> None:
    typed = {**STEADY, "plate_frequency": plate, "supply_frequency": supply}
    finding = first(ask(SLUG, **typed, rated_load_amps="2", running_amps="1.8"))
    assert finding["verdict"] == verdict
    if verdict == "undecided":
        assert f"the plate says {plate} Hz and the supply is {supply} Hz" in finding["sentence"]
        assert f"on a supply of {plate} Hz" in finding["decider"]["condition"]


def test_everything_that_stands_in_the_way_is_told_at_once(ask: Any) -> None:
    typed = {"plate_volts": "115", "plate_frequency": "60", "supply_frequency": "50"}
    reply = ask(SLUG, **typed, rated_load_amps="2", locked_rotor_amps="30", running_amps="1.8")
    names = [finding["name"] for finding in reply["findings"]]
    assert names == ["evidence", "supply-frequency", "running-volts", "run-time"]


# --- the stop flag ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "missing",
    [{"running_volts": ""}, {"run_time": ""}, {"run_time": "10 s"}, {"running_volts": "140"}, {"clamp_percent": "50"}],
)
def test_more_than_1_40_times_the_rated_load_amps_stops_whatever_else_is_missing(
    ask: Any, missing: dict[str, str]
) -> None:
    finding = first(ask(SLUG, **{**STEADY, **missing}, rated_load_amps="2", running_amps="2.81"))
    assert finding["stop"]
    assert "above 1.4. Unplug it." in finding["sentence"]
    assert finding["next"]["procedure"] == "make-safe-prove-dead"
    assert ("unless this was caught during the start" in finding["sentence"]) is (missing == {"run_time": ""})


def test_the_stop_stands_on_the_first_finding_and_hides_none(ask: Any) -> None:
    typed = {**STEADY, "running_volts": "126.7", "run_time": "12"}
    reply = ask(SLUG, **typed, rated_load_amps="2.345", running_amps="3.456")
    assert [(finding["name"], finding["stop"]) for finding in reply["findings"]] == [
        ("running-volts", True),
        ("run-time", False),
    ]
    assert first(reply)["sentence"] == (
        "No verdict: 126.7 V is 10.2 % off the plate's 115 V, more than the 10 % at which amps are judged. "
        "Stop: 3.46 A is 1.47 times the rated-load amps on the compressor, above 1.4. Unplug it."
    )


def test_start_current_is_not_a_reason_to_stop_before_it_can_fall(ask: Any) -> None:
    finding = first(ask(SLUG, **{**STEADY, "run_time": "9 s"}, rated_load_amps="2", running_amps="9"))
    assert not finding["stop"]
    assert "If it does not fall by then, unplug it." in finding["sentence"]


def test_evidence_in_conflict_stops_only_by_the_rated_load_amps(ask: Any) -> None:
    assert judged(ask, map_amps="1", data_sheet_amps="3", running_amps="5") == ("undecided", False)
    assert judged(ask, map_amps="1", rated_load_amps="3", running_amps="5") == ("undecided", True)


def test_a_reading_that_data_expect_and_the_plate_forbids_is_not_called_within(ask: Any) -> None:
    finding = first(ask(SLUG, **STEADY, data_sheet_amps="2.5", rated_load_amps="2", running_amps="2.85"))
    assert (finding["verdict"], finding["stop"]) == ("undecided", True)
    assert finding["decider"]["enter_in"] == "rated_load_amps"


# --- what would decide ------------------------------------------------------------------------------


def typed_again(ask: Any, typed: dict[str, str]) -> tuple[dict[str, Any], dict[str, Any]]:
    """The undecided finding, and the one after its decider's entry was typed where it says."""
    before = first(ask(SLUG, **typed))
    decider = before["decider"]
    return before, first(ask(SLUG, **{**typed, decider["enter_in"]: decider["entry"]}))


@pytest.mark.parametrize(
    ("changed", "field", "entry"),
    [
        ({"clamp_percent": "2", "clamp_counts": "2", "clamp_resolution": "0.1"}, "clamp_resolution", "0.01 A"),
        ({"clamp_percent": "2", "clamp_counts": "2", "clamp_resolution": "1"}, "clamp_resolution", "0.01 A"),
        ({"clamp_percent": "2", "clamp_counts": "50", "clamp_resolution": "0.01"}, "clamp_resolution", "0.001 A"),
        ({"clamp_percent": "1", "clamp_counts": "0.5", "clamp_resolution": "1"}, "clamp_resolution", "0.1 A"),
        ({"clamp_percent": "15", "clamp_counts": "0"}, "clamp_percent", "2"),
        ({"clamp_percent": "15", "clamp_counts": "10"}, "clamp_percent", "2"),
    ],
)
def test_a_finer_clamp_is_named_where_it_would_decide_and_does(
    ask: Any, changed: dict[str, str], field: str, entry: str
) -> None:
    before, after = typed_again(ask, {**STEADY, "data_sheet_amps": "1", "running_amps": "1.4", **changed})
    assert before["verdict"] == "undecided"
    assert (before["decider"]["enter_in"], before["decider"]["entry"]) == (field, entry)
    assert before["decider"]["condition"] == "same conductor, steady, 20 min or longer after the start"
    assert before["decider"]["resolution"].endswith("or turns of the lead through the clamp")
    assert f"{entry} {'%' if field == 'clamp_percent' else 'on a meter'}" in before["decider"]["resolution"]
    assert after["verdict"] == "watch"


@pytest.mark.parametrize("amps", ["1.3532", "1.3536", "1.3545", "1.356"])
def test_the_coarsest_percentage_that_decides_is_named(ask: Any, amps: str) -> None:
    # 1.15/(1 − √(0.15² + u²)) is 1.35307, 1.35347, 1.35413 and 1.35506 for u of 0.5, 1, 1.5 and 2 %.
    typed = {**STEADY, "data_sheet_amps": "1", "running_amps": amps, "clamp_percent": "5", "clamp_counts": "0"}
    before, after = typed_again(ask, typed)
    wanted = {"1.3532": "0.5", "1.3536": "1", "1.3545": "1.5", "1.356": "2"}[amps]
    assert before["decider"]["entry"] == wanted
    assert after["verdict"] == "watch"


def test_a_finer_voltmeter_is_named_where_it_would_decide_and_does(ask: Any) -> None:
    typed = {**STEADY, "plate_volts": "100", "running_volts": "109.4", "rated_load_amps": "2", "running_amps": "1.8"}
    before, after = typed_again(ask, typed)
    assert "with the meter's band it may be more than the 10 %" in before["sentence"]
    assert (before["decider"]["enter_in"], before["decider"]["entry"]) == ("voltmeter_resolution", "0.01 V")
    assert before["decider"]["resolution"] == "0.01 V on a meter of 0.5 % + 2 counts or finer"
    assert after["verdict"] == "within"


def test_a_better_supply_is_named_where_it_would_decide(ask: Any) -> None:
    typed = {"data_sheet_amps": "2", "running_amps": "2.8"}
    before = first(ask(SLUG, **{**STEADY, "running_volts": "123"}, **typed))
    assert "within 5 % of the plate" in before["decider"]["condition"]
    assert before["decider"]["enter_in"] == "running_volts"
    assert first(ask(SLUG, **{**STEADY, "running_volts": "120"}, **typed))["verdict"] == "watch"


@pytest.mark.parametrize(
    ("typed", "field", "better", "band", "verdict"),
    [
        ({"watts": "69", "power_factor": "0.6", "running_amps": "1.4"}, "rated_load_amps", "1", "10 %", "watch"),
        ({"locked_rotor_amps": "12", "running_amps": "2"}, "rated_load_amps", "2", "10 %", "within"),
        ({"horsepower": "1/3", "running_amps": "3.3"}, "rated_load_amps", "3.33", "10 %", "within"),
        ({"cabinet_amps": "2", "running_amps": "1.9"}, "rated_load_amps", "2", "10 %", "within"),
        ({"map_amps": "1", "running_amps": "1.29"}, "data_sheet_amps", "1", "10 %", "watch"),
        ({"data_sheet_amps": "1", "running_amps": "1.29"}, "map_amps", "1", "10 %", "watch"),
        (
            {"data_sheet_amps": "1", "rated_load_amps": "1", "running_amps": "1.335", "power_factor": "0.6"},
            "map_amps",
            "1",
            "10 %",
            "watch",
        ),
    ],
)
def test_better_evidence_is_named_with_its_band_and_decides(
    ask: Any, typed: dict[str, str], field: str, better: str, band: str, verdict: str
) -> None:
    before = first(ask(SLUG, **STEADY, **typed))
    assert before["verdict"] == "undecided"
    assert before["decider"]["enter_in"] == field
    assert f"±{band} or better" in before["decider"]["resolution"]
    expected = next(one["text"] for one in ask(SLUG, **STEADY, **typed)["results"] if one["name"] == "expected_amps")
    assert before["decider"]["condition"].endswith(f"where it also comes to about {expected}")
    assert first(ask(SLUG, **STEADY, **typed, **{field: better}))["verdict"] == verdict


@pytest.mark.parametrize(
    ("typed", "needed", "there", "next_words"),
    [
        ({"rated_load_amps": "2.5", "running_amps": "3.1"}, "±7.3 %", "±10.1 %", "airflow"),  # 1 − 1.15/1.24
        ({"data_sheet_amps": "2", "running_amps": "1.3"}, "±7.7 %", "±15.1 %", "watts"),  # 0.70/0.65 − 1
    ],
)
def test_watts_are_named_where_no_amps_can_decide(
    ask: Any, typed: dict[str, str], needed: str, there: str, next_words: str
) -> None:
    finding = first(ask(SLUG, **STEADY, **typed))
    assert finding["verdict"] == "undecided"
    assert finding["decider"]["reading"].startswith("Watts and power factor")
    assert f"a band of {needed} in all and have {there}:" in finding["decider"]["resolution"]
    assert finding["decider"]["enter_in"] == ""
    assert next_words in finding["next"]["text"]


def test_a_clamp_that_must_be_better_in_both_ways_is_told_in_words(ask: Any) -> None:
    clamp = {"clamp_percent": "15", "clamp_counts": "2", "clamp_resolution": "0.1"}
    typed = {**STEADY, "data_sheet_amps": "1", "running_amps": "1.4"}
    decider = first(ask(SLUG, **typed, **clamp))["decider"]
    assert decider["resolution"].startswith("0.01 A on a meter of 2 % + 2 counts or better")
    assert (decider["enter_in"], decider["entry"]) == ("", "")
    assert first(ask(SLUG, **typed, clamp_percent="2", clamp_counts="2"))["verdict"] == "watch"


def test_better_evidence_and_a_finer_clamp_are_named_where_only_both_decide(ask: Any) -> None:
    typed = {**STEADY, "watts": "69", "power_factor": "0.6", "running_amps": "1.4", "clamp_percent": "20"}
    finding = first(ask(SLUG, **typed))
    assert finding["decider"]["resolution"] == (
        "evidence good to ±10 % or better, and a clamp of 0.001 A on a meter of 0.5 % + 2 counts"
    )
    typed |= {"rated_load_amps": "1", "clamp_percent": "0.5", "clamp_resolution": "0.001"}
    assert first(ask(SLUG, **typed))["verdict"] == "watch"


def test_a_better_supply_and_a_finer_clamp_are_named_where_only_both_decide(ask: Any) -> None:
    typed = {**STEADY, "running_volts": "123", "data_sheet_amps": "2", "running_amps": "2.8", "clamp_percent": "20"}
    decider = first(ask(SLUG, **typed))["decider"]
    assert decider["resolution"] == "as now, and a clamp of 0.001 A on a meter of 0.5 % + 2 counts"
    assert "within 5 % of the plate" in decider["condition"]
    typed |= {"running_volts": "120", "clamp_percent": "0.5", "clamp_resolution": "0.001"}
    assert first(ask(SLUG, **typed))["verdict"] == "watch"


def test_low_amps_are_not_blamed_on_anything(ask: Any) -> None:
    finding = first(ask(SLUG, **STEADY, data_sheet_amps="2", running_amps="1.1"))
    assert finding["verdict"] == "outside"
    assert "Measure watts; amps alone can't say why." in finding["sentence"]
    assert finding["limit"]["key"] == "amps.low_ratio"


@pytest.mark.parametrize(
    ("typed", "key"),
    [
        ({"rated_load_amps": "1", "running_amps": "0.4"}, "amps.low_ratio_on_rated_load"),
        ({"rated_load_amps": "1", "running_amps": "1.35"}, "amps.high_ratio"),
        ({"rated_load_amps": "1", "running_amps": "2"}, "amps.stop_ratio"),
        ({"locked_rotor_amps": "6", "running_amps": "4"}, "amps.high_ratio"),
    ],
)
def test_a_finding_names_the_limit_it_rests_on(ask: Any, typed: dict[str, str], key: str) -> None:
    assert first(ask(SLUG, **STEADY, **typed))["limit"]["key"] == key


def test_without_a_reading_the_clamp_that_is_enough_is_named(ask: Any) -> None:
    finding = first(ask(SLUG, plate_volts="115", rated_load_amps="2"))
    assert finding["verdict"] == "undecided"
    assert finding["decider"]["enter_in"] == "running_amps"
    assert "0.01 A (at the expected amps this clamp is good to ±1.5 %)" in finding["decider"]["resolution"]
    assert "20 min or longer" in finding["decider"]["condition"]


# --- properties -------------------------------------------------------------------------------------

NAMES = [
    name
    for one in CALCULATOR.inputs
    for name in ([field.name for field in one.fields()] if isinstance(one, MeterInput) else [one.name])
]
STRONG = ("map_amps", "data_sheet_amps", "rated_load_amps")
WEAK = ("locked_rotor_amps", "cabinet_amps")
MILLIAMPS = st.integers(min_value=300, max_value=8000)
TEXT = st.one_of(
    st.text(max_size=45),
    st.sampled_from(["4.4", "4,4", "12k", "OL", "1/3", "0", "-1", "1e9", "resistance", "60", "2.5 A", ".", "٣"]),
    st.floats(min_value=-1e4, max_value=1e4).map(lambda number: f"{number:g}"),
)


@given(typed=st.dictionaries(st.sampled_from(NAMES), TEXT, max_size=8))
@settings(max_examples=150, deadline=None)
def test_whatever_is_typed_an_answer_comes_back_and_every_problem_names_its_field(
    ask: Any, typed: dict[str, str]
) -> None:
    reply = ask(SLUG, **{"plate_volts": "115", "rated_load_amps": "2", **typed})
    if "problems" in reply:
        assert all(problem["input"] in NAMES and problem["message"] for problem in reply["problems"])
    else:
        assert reply["findings"]


@given(amps=MILLIAMPS, rated=MILLIAMPS, watts=st.integers(min_value=20, max_value=900))
@settings(max_examples=60, deadline=None)
def test_the_unit_a_number_is_typed_in_changes_nothing(ask: Any, amps: int, rated: int, watts: int) -> None:
    same = {"plate_volts": "115", "running_volts": "115", "motor_type": "resistance"}
    one = ask(
        SLUG,
        **same,
        running_amps=(f"{amps}", "mA"),
        rated_load_amps=f"{rated} mA",
        watts=(f"{watts}", "W"),
        run_time=("30", "min"),
    )
    other = ask(
        SLUG,
        **same,
        running_amps=(f"{amps / 1000:.3f}", "A"),
        rated_load_amps=f"{rated / 1000:.3f} A",
        watts=(f"{watts / 1000:.3f}", "kW"),
        run_time=("0.5", "h"),
    )
    assert [(one["verdict"], one["stop"]) for one in one["findings"]] == [
        (one["verdict"], one["stop"]) for one in other["findings"]
    ]
    for mine, theirs in zip(one["results"], other["results"], strict=True):
        assert float(mine["value"]) == pytest.approx(float(theirs["value"]), abs=0.011)


@given(
    field=st.sampled_from(STRONG + WEAK),
    amps=MILLIAMPS,
    expected=MILLIAMPS,
    percents=st.tuples(st.integers(0, 50), st.integers(0, 50)),
    counts=st.integers(0, 20),
)
@settings(max_examples=120, deadline=None)
def test_a_wider_band_of_the_clamp_never_makes_or_strengthens_a_verdict(
    ask: Any, field: str, amps: int, expected: int, percents: tuple[int, int], counts: int
) -> None:
    typed = {**STEADY, field: f"{expected} mA", "running_amps": f"{amps} mA", "clamp_counts": str(counts)}
    fine = first(ask(SLUG, **typed, clamp_percent=str(min(percents))))["verdict"]
    coarse = first(ask(SLUG, **typed, clamp_percent=str(max(percents))))["verdict"]
    assert STRENGTH[coarse] <= STRENGTH[fine]
    assert fine != "undecided" or coarse == "undecided"


@given(
    field=st.sampled_from(STRONG + WEAK),
    amps=st.lists(MILLIAMPS, min_size=2, max_size=2).map(sorted),
    expected=MILLIAMPS,
    resolution=st.sampled_from(["0.001", "0.01", "0.1", "1"]),
)
@settings(max_examples=120, deadline=None)
def test_more_amps_never_turn_a_high_reading_into_a_lesser_one(
    ask: Any, field: str, amps: list[int], expected: int, resolution: str
) -> None:
    typed = {**STEADY, field: f"{expected} mA", "clamp_resolution": resolution}
    low, high = (first(ask(SLUG, **typed, running_amps=f"{one} mA")) for one in amps)
    if low["sentence"].startswith("High") or low["stop"]:
        assert STRENGTH[high["verdict"]] >= STRENGTH[low["verdict"]]
        assert high["stop"] or not low["stop"]


@given(
    field=st.sampled_from(STRONG + WEAK),
    amps=MILLIAMPS,
    expected=MILLIAMPS,
    clamp=st.tuples(st.integers(0, 40), st.integers(0, 20), st.sampled_from(["0.01", "0.1", "1"])),
)
@settings(max_examples=150, deadline=None)
def test_an_entry_that_is_said_to_decide_does(
    ask: Any, field: str, amps: int, expected: int, clamp: tuple[int, int, str]
) -> None:
    typed = {**STEADY, field: f"{expected} mA", "running_amps": f"{amps} mA"}
    typed |= dict(zip(("clamp_percent", "clamp_counts", "clamp_resolution"), map(str, clamp), strict=True))
    finding = first(ask(SLUG, **typed))
    if finding["verdict"] != "undecided":
        return
    decider = finding["decider"]
    assert decider["reading"]
    assert decider["resolution"]
    assert decider["condition"]
    if decider["entry"]:
        assert first(ask(SLUG, **{**typed, decider["enter_in"]: decider["entry"]}))["verdict"] != "undecided"


@given(
    field=st.sampled_from(STRONG + WEAK),
    amps=MILLIAMPS,
    expected=MILLIAMPS,
    minutes=st.sampled_from(["", "5 s", "10", "30"]),
)
@settings(max_examples=80, deadline=None)
def test_nothing_is_ever_called_safe_and_every_undecided_says_what_would_decide(
    ask: Any, field: str, amps: int, expected: int, minutes: str
) -> None:
    reply = ask(SLUG, **{**STEADY, field: f"{expected} mA", "running_amps": f"{amps} mA", "run_time": minutes})
    for finding in reply["findings"]:
        decider = finding["decider"]
        said = [finding["sentence"], finding["plain"], finding["next"]["text"], *(decider or {}).values()]
        assert "safe" not in " ".join(said).lower()
        assert (finding["verdict"] == "undecided") is (decider is not None)


@given(
    evidence=st.fixed_dictionaries(
        {},
        optional={
            "locked_rotor_amps": MILLIAMPS.map(lambda one: f"{one / 200:.2f}"),
            "horsepower": st.sampled_from(["1/8", "1/4", "1/2"]),
            "cabinet_amps": MILLIAMPS.map(lambda one: f"{one} mA"),
        },
    ).filter(bool),
    amps=MILLIAMPS,
)
@settings(max_examples=100, deadline=None)
def test_weak_evidence_alone_is_outside_or_undecided(ask: Any, evidence: dict[str, str], amps: int) -> None:
    reply = ask(SLUG, **STEADY, **evidence, running_amps=f"{amps} mA")
    assert all(finding["verdict"] in ("outside", "undecided") for finding in reply["findings"])


def test_every_field_says_what_goes_in() -> None:
    assert set(EVIDENCE_FIELDS) <= set(NAMES)
    for one in CALCULATOR.inputs:
        assert one.label
        if isinstance(one, NumberInput | ChoiceInput):
            assert one.group
            assert one.name == "motor_type" or one.help
