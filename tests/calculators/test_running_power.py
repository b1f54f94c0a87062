"""Running watts and power factor: against textbooks, on both sides of each limit, and the pictures of faults."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from uncertainties import ufloat

from calculators.answer import answer
from calculators.inputs import MeterInput
from calculators.limits import Standards
from calculators.running_power import CALCULATOR
from tests.calculators.answers import finding, messages, result, value, verdict

SLUG = "running-power"
SHARP = {
    "wattmeter_percent": "0",
    "wattmeter_counts": "0",
    "clamp_percent": "0",
    "clamp_counts": "0",
    "voltmeter_percent": "0",
    "voltmeter_counts": "0",
}
STEADY = {"plate_volts": "115", "running_volts": "115", "run_time": "30"}
RSIR = {**STEADY, "motor_type": "resistance"}
PSC = {**STEADY, "motor_type": "run_capacitor"}


def names(reply: dict[str, Any]) -> list[str]:
    return [one["name"] for one in reply["findings"]]


# --- published examples -----------------------------------------------------------------------------------


@pytest.mark.source("kuphaldt-lessons")
def test_a_resistor_and_a_coil_have_the_printed_power(ask: Any) -> None:
    # Kuphaldt, Lessons In Electric Circuits, AC ch. 11: 120 V, 60 ohm + 160 mH: 1.410 A, P 119.365 W, Q 119.998 var,
    # S 169.256 VA, pf 0.705.
    typed = {"plate_volts": "120", "running_volts": "120", "run_time": "30"}
    reply = ask(SLUG, **typed, running_watts="119.365", running_amps="1.41046")
    assert value(reply, "power_factor") == "0.705"
    assert float(value(reply, "reactive")) == pytest.approx(119.998, abs=0.1)
    assert float(value(reply, "volt_amps")) == pytest.approx(169.256, abs=0.1)


@pytest.mark.source("storey-systems-16")
def test_a_textbook_motor_of_2000_volt_amps_has_the_printed_watts_and_var(ask: Any) -> None:
    # Storey, Electrical and Electronic Systems, ch. 16: 2000 VA at pf 0.75, 240 V: 8.33 A, 1500 W, 1322 var.
    typed = {"plate_volts": "240", "running_volts": "240", "run_time": "30"}
    reply = ask(SLUG, **typed, running_watts="1500", running_amps="8.33")
    assert float(value(reply, "power_factor")) == pytest.approx(0.75, abs=0.0005)
    assert float(value(reply, "volt_amps")) == pytest.approx(2000.0, abs=1.0)
    assert float(value(reply, "reactive")) == pytest.approx(1322.0, abs=1.5)


@pytest.mark.source("bird-circuits-16")
def test_a_coil_and_a_capacitor_have_the_printed_power(ask: Any) -> None:
    # Bird, Electrical Circuit Theory and Technology, ch. 16: 240 V, supply current 2.43 A lagging 15.85 degrees:
    # 561.76 W, 583.97 VA, 159.53 var. cos 15.85 is 0.962.
    typed = {"plate_volts": "240", "running_volts": "240", "run_time": "30"}
    reply = ask(SLUG, **typed, running_watts="561.76", running_amps="2.4332")
    assert float(value(reply, "volt_amps")) == pytest.approx(583.97, abs=0.05)
    assert float(value(reply, "reactive")) == pytest.approx(159.53, abs=0.1)
    assert value(reply, "power_factor") == "0.962"


@pytest.mark.source("kosow-machinery-10")
def test_a_third_horsepower_textbook_motor_has_the_printed_power_factor(ask: Any) -> None:
    # Kosow, Electric Machinery and Transformers, ch. 10: 1/3 hp, 115 V, 5.35 A, 400 W: pf 0.6501.
    reply = ask(SLUG, **RSIR, watts="400", running_watts="400", running_amps="5.35")
    assert float(value(reply, "power_factor")) == pytest.approx(0.6501, abs=0.0005)
    assert names(reply) == ["running-watts"]
    assert verdict(reply, "running-watts") == "within"


@pytest.mark.source("uncertainties-program")
def test_the_band_of_the_power_factor_is_that_of_an_independent_program(ask: Any) -> None:
    reply = ask(SLUG, **RSIR, running_watts="150", running_amps="2.1")
    referee = ufloat(150.0, 150 * 0.02 + 0.2) / (ufloat(115.0, 115 * 0.005 + 0.2) * ufloat(2.1, 2.1 * 0.005 + 0.02))
    low, high = (float(part) for part in result(reply, "power_factor")["band"].split(" to "))
    assert (high - low) / 2.0 == pytest.approx(referee.std_dev, abs=0.001)
    assert (high + low) / 2.0 == pytest.approx(referee.nominal_value, abs=0.001)


# --- facts of the trade --------------------------------------------------------------------------------------


@pytest.mark.source("common-practice")
def test_70_watts_at_115_volts_and_1_9_amps_spin_almost_free(ask: Any) -> None:
    # Common practice, no source: 70 / 218.5 = 0.32.
    reply = ask(SLUG, **RSIR, running_watts="70", running_amps="1.9")
    assert value(reply, "power_factor") == "0.320"
    assert value(reply, "volt_amps") == "218.5"


@pytest.mark.source("common-practice")
def test_normal_amps_with_few_watts_fit_a_motor_that_does_not_pump(ask: Any) -> None:
    # Common practice, no source: RSIR, expected 150 W; 116 V, 1.75 A, 68 W (0.45), pf 0.33 of a motor that ran unloaded.
    typed = {**RSIR, "running_volts": "116", "watts": "150", "expected_amps": "2.0"}
    reply = ask(SLUG, **typed, running_watts="68", running_amps="1.75")
    assert float(value(reply, "watts_ratio")) == 0.45
    assert value(reply, "power_factor")[:4] == "0.33"
    assert value(reply, "amps_ratio") in ("0.87", "0.88")
    assert verdict(reply, "running-watts") == "outside"
    assert verdict(reply, "not-pumping") == "outside"
    assert "pump test condemns, not this" in finding(reply, "not-pumping")["plain"]
    assert finding(reply, "not-pumping")["next"]["procedure"] == "airflow-and-heat-exchange"


@pytest.mark.source("common-practice")
def test_half_the_watts_with_a_usual_power_factor_only_lean_to_it(ask: Any) -> None:
    # Common practice, no source: RSIR, expected 150 W, 73 W (0.49), pf 0.37; a leak was found later.
    reply = ask(SLUG, **RSIR, watts="150", running_watts="73", running_amps="1.716")
    assert verdict(reply, "running-watts") == "outside"
    assert verdict(reply, "not-pumping") == "undecided"
    assert finding(reply, "not-pumping")["decider"]["enter_in"] == "power_factor"
    again = ask(SLUG, **RSIR, watts="150", running_watts="73", running_amps="1.716", power_factor="0.6")
    assert verdict(again, "not-pumping") == "outside"


@pytest.mark.source("common-practice")
def test_an_open_run_capacitor_shows_in_amps_and_power_factor(ask: Any) -> None:
    # Common practice, no source: 1.10 A, 118 W, pf 0.93 last year; now 1.50 A, 125 W, pf 0.72 with the capacitor open.
    typed = {**PSC, "record_watts": "118", "power_factor": "0.93", "expected_amps": "1.10"}
    reply = ask(SLUG, **typed, running_watts="125", running_amps="1.50")
    assert value(reply, "power_factor")[:4] == "0.72"
    assert value(reply, "power_factor_drop") == "0.21"
    assert value(reply, "amps_ratio") == "1.36"
    assert verdict(reply, "running-watts") == "within"
    assert verdict(reply, "run-capacitor") == "undecided"
    assert finding(reply, "run-capacitor")["decider"]["reading"] == "Microfarads of the run capacitor"
    assert finding(reply, "run-capacitor")["next"]["procedure"] == "discharge-capacitors"


@pytest.mark.source("common-practice")
def test_more_watts_on_fewer_ohms_lean_to_shorted_turns(ask: Any) -> None:
    # Common practice, no source: data 165 W; 116 V, 3.1 A, 212 W (1.28), pf 0.59, run winding 12.5 % low.
    typed = {**RSIR, "running_volts": "116", "watts": "165", "winding_ohms": "run_low"}
    reply = ask(SLUG, **typed, running_watts="212", running_amps="3.1")
    assert value(reply, "watts_ratio") == "1.28"
    assert value(reply, "power_factor") == "0.590"
    assert verdict(reply, "shorted-turns") == "undecided"
    assert "tight-or-loaded" not in names(reply)


@pytest.mark.source("common-practice")
def test_5_2_amps_in_the_start_lead_at_8_seconds_mean_that_the_relay_has_not_let_go(ask: Any) -> None:
    # Common practice, no source: RSIR with a welded relay contact, total 7.4 A, start lead 5.2 A at 8 s.
    typed = {**STEADY, "motor_type": "resistance", "run_time": "8 s", "start_lead_amps": "5.2", "start_device": "relay"}
    reply = ask(SLUG, **typed, running_watts="700", running_amps="7.4")
    first = reply["findings"][0]
    assert (first["name"], first["verdict"], first["stop"]) == ("start-lead", "outside", True)
    assert first["next"]["procedure"] == "make-safe-prove-dead"
    assert verdict(reply, "run-time") == "undecided"


# --- refusals and traps --------------------------------------------------------------------------------------


@pytest.mark.parametrize(("watts", "refused"), [("234.6", False), ("234.7", True), ("400", True)])
def test_more_watts_than_volt_amps_are_refused(ask: Any, watts: str, refused: bool) -> None:
    # 115 V · 2 A · 1.02 is 234.6 W.
    reply = ask(SLUG, **STEADY, running_watts=watts, running_amps="2")
    assert ("problems" in reply) is refused
    if refused:
        assert messages(reply)[0][0] == "running_watts"
        assert "watts are never more than volt-amps" in messages(reply)[0][1]


def test_volt_amps_read_as_watts_are_asked_about(ask: Any) -> None:
    reply = ask(SLUG, **RSIR, watts="150", running_watts="228", running_amps="2")
    assert names(reply) == ["watts-or-volt-amps"]
    assert finding(reply, "watts-or-volt-amps")["decider"]["enter_in"] == "running_watts"
    assert names(ask(SLUG, **RSIR, watts="150", running_watts="218", running_amps="2")) != ["watts-or-volt-amps"]


def test_a_motor_with_run_capacitor_may_have_a_power_factor_near_one(ask: Any) -> None:
    assert names(ask(SLUG, **PSC, watts="228", running_watts="228", running_amps="2")) == ["running-watts"]


@pytest.mark.parametrize(
    ("typed", "weak"),
    [
        ({"running_watts": "9.9"}, True),
        ({"running_watts": "10"}, False),
        ({"running_watts": "69", "running_amps": "2"}, False),  # 0.30
        ({"running_watts": "68.9", "running_amps": "2"}, True),
    ],
)
def test_few_watts_and_a_low_power_factor_are_too_weak_for_an_ordinary_wattmeter(
    ask: Any, typed: dict[str, str], weak: bool
) -> None:
    assert ("weak-watts" in names(ask(SLUG, **RSIR, watts="20", **typed))) is weak
    assert "weak-watts" not in names(ask(SLUG, **RSIR, watts="20", **typed, wattmeter_kind="low_power_factor"))


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        ({"running_watts": "0"}, "running_watts"),
        ({"running_watts": "100", "other_watts": "100"}, "other_watts"),
        ({"running_watts": "100", "running_amps": "0"}, "running_amps"),
        ({"running_watts": "100", "watts": "90", "evaporating_now": "-25"}, "data_sheet_evaporating"),
    ],
)
def test_what_cannot_be_is_refused_at_its_field(ask: Any, typed: dict[str, str], field: str) -> None:
    assert messages(ask(SLUG, **STEADY, **typed))[0][0] == field


def test_watts_of_other_loads_are_taken_off_plainly(ask: Any) -> None:
    reply = ask(SLUG, **RSIR, watts="120", running_watts="150", other_watts="25", running_amps="1.8")
    assert value(reply, "compressor_watts") == "125.0"
    assert value(reply, "power_factor") == "0.604"  # 125 / 207


@pytest.mark.parametrize(
    ("changed", "name", "entered"),
    [
        ({"running_volts": ""}, "running-volts", "running_volts"),
        ({"running_volts": "130"}, "running-volts", "running_volts"),
        ({"run_time": ""}, "run-time", "run_time"),
        ({"run_time": "10"}, "run-time", "run_time"),
        ({"plate_frequency": "60", "supply_frequency": "50"}, "supply-frequency", "supply_frequency"),
    ],
)
def test_there_is_no_verdict_outside_the_condition(ask: Any, changed: dict[str, str], name: str, entered: str) -> None:
    reply = ask(SLUG, **{**RSIR, **changed}, watts="150", running_watts="150", running_amps="2.2")
    assert names(reply) == [name]
    assert verdict(reply, name) == "undecided"
    assert finding(reply, name)["decider"]["enter_in"] == entered


def test_volts_five_percent_off_change_nothing_and_more_widen_the_band(ask: Any) -> None:
    typed = {"plate_volts": "100", "run_time": "30", "watts": "100", "running_watts": "100", **SHARP}
    assert result(ask(SLUG, **typed, running_volts="105"), "watts_ratio")["band"] == "0.85 to 1.15"
    assert result(ask(SLUG, **typed, running_volts="105.1"), "watts_ratio")["band"] == "0.75 to 1.25"


# --- both sides of each limit -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("watts", "wanted"),
    [
        # data sheet ±15 %: 0.60/1.15 = 0.5217, 1.20/0.85 = 1.4118
        ("52.1", "outside"),
        ("52.2", "undecided"),
        ("59.9", "undecided"),
        ("60", "within"),
        ("120", "within"),
        ("120.1", "undecided"),
        ("141.1", "undecided"),
        ("141.2", "outside"),
    ],
)
def test_watts_are_judged_on_both_sides_of_each_limit(ask: Any, watts: str, wanted: str) -> None:
    assert verdict(ask(SLUG, **STEADY, **SHARP, watts="100", running_watts=watts), "running-watts") == wanted


@pytest.mark.parametrize(
    ("factor", "wanted"),
    [
        # data-sheet power factor 0.60 ±0.05: certain above a drop of 0.20, leaning above 0.15
        ("0.399", "outside"),
        ("0.401", "undecided"),
        ("0.449", "undecided"),
        ("0.451", None),
    ],
)
def test_a_power_factor_is_down_on_both_sides_of_its_limit(ask: Any, factor: str, wanted: str | None) -> None:
    watts = 40.0
    amps = f"{watts / (115.0 * float(factor)):.6f}"
    reply = ask(SLUG, **RSIR, **SHARP, watts="100", power_factor="0.6", running_watts="40", running_amps=amps)
    found = {one["name"]: one["verdict"] for one in reply["findings"]}
    assert found.get("not-pumping") == wanted


@pytest.mark.parametrize(
    ("factor", "amps_expected", "wanted"),
    [
        # run capacitor, power factor 0.95 ±0.05: certain above a drop of 0.25; amps certain above 1.15/0.9 = 1.278
        ("0.69", "1.0", "outside"),
        ("0.71", "1.0", "undecided"),
        ("0.74", "1.0", "undecided"),
        ("0.76", "1.0", None),
        ("0.69", "1.3", None),
        ("0.69", "", "undecided"),
    ],
)
def test_an_open_run_capacitor_needs_power_factor_down_and_amps_up(
    ask: Any, factor: str, amps_expected: str, wanted: str | None
) -> None:
    watts = f"{115.0 * 1.4 * float(factor):.3f}"
    typed = {**PSC, **SHARP, "power_factor": "0.95", "expected_amps": amps_expected}
    reply = ask(SLUG, **typed, running_watts=watts, running_amps="1.4")
    assert {one["name"]: one["verdict"] for one in reply["findings"]}.get("run-capacitor") == wanted


@pytest.mark.parametrize(
    ("ohms", "amps_expected", "wanted"),
    [
        ("run_low", "", ("shorted-turns", "outside")),
        ("on_data", "", ("tight-or-loaded", "watch")),
        ("on_data", "2.0", ("tight-or-loaded", "watch")),
        ("", "", ("winding-ohms", "undecided")),
    ],
)
def test_high_watts_are_told_apart_by_the_ohms(
    ask: Any, ohms: str, amps_expected: str, wanted: tuple[str, str]
) -> None:
    typed = {**RSIR, **SHARP, "watts": "150", "winding_ohms": ohms, "expected_amps": amps_expected}
    reply = ask(SLUG, **typed, running_watts="220", running_amps="3.1")
    assert verdict(reply, "running-watts") == "outside"
    assert names(reply) == ["running-watts", wanted[0]]
    assert verdict(reply, wanted[0]) == wanted[1]


def test_high_watts_at_the_expected_amps_do_not_fit_tight_bearings(ask: Any) -> None:
    typed = {**RSIR, **SHARP, "watts": "150", "winding_ohms": "on_data", "expected_amps": "3.1"}
    assert names(ask(SLUG, **typed, running_watts="220", running_amps="3.1")) == ["running-watts"]


@pytest.mark.parametrize(
    ("typed", "wanted"),
    [
        ({"start_device": "relay", "start_lead_amps": "0.05"}, "within"),
        ({"start_device": "relay", "start_lead_amps": "0.11"}, "undecided"),
        ({"start_device": "relay", "start_lead_amps": "0.13"}, "outside"),
        ({"start_device": "relay", "start_lead_amps": "0"}, "within"),
        ({"start_device": "ptc", "start_lead_amps": "0.2", "start_lead_first": "5"}, "within"),  # 4 %
        ({"start_device": "ptc", "start_lead_amps": "0.26", "start_lead_first": "5"}, "undecided"),  # 5.2 %
        ({"start_device": "ptc", "start_lead_amps": "0.4", "start_lead_first": "5"}, "outside"),  # 8 %
        ({"start_device": "ptc", "start_lead_amps": "0.4"}, "undecided"),
        ({"start_device": "", "start_lead_amps": "0.4"}, "undecided"),
        ({"start_device": "relay", "start_lead_amps": "0.4", "run_time": "2 s"}, "undecided"),
        ({"start_device": "relay", "start_lead_amps": "0.4", "motor_type": "unknown"}, "undecided"),
    ],
)
def test_the_start_lead_is_judged_by_its_device(ask: Any, typed: dict[str, str], wanted: str) -> None:
    reply = ask(SLUG, **{**RSIR, **typed}, watts="150", running_watts="150", running_amps="2.2")
    assert verdict(reply, "start-lead") == wanted
    assert finding(reply, "start-lead")["stop"] is (wanted == "outside")


def test_a_start_lead_that_feeds_a_run_capacitor_is_not_judged(ask: Any) -> None:
    reply = ask(SLUG, **PSC, watts="150", running_watts="150", running_amps="1.5", start_lead_amps="0.8")
    assert "start-lead" not in names(reply)
    assert any("carries the capacitor's current" in note for note in reply["notes"])


# --- evidence ---------------------------------------------------------------------------------------------------


def test_the_figure_with_the_smallest_band_is_used(ask: Any) -> None:
    reply = ask(SLUG, **STEADY, watts="150", record_watts="140", running_watts="140")
    assert value(reply, "expected_watts") == "140"
    assert "The watts were compared with the earlier record, the figure with the smallest band." in reply["notes"]


def test_expected_watts_that_contradict_each_other_give_no_verdict(ask: Any) -> None:
    reply = ask(SLUG, **RSIR, watts="150", record_watts="90", running_watts="140", running_amps="2")
    assert names(reply) == ["running-watts"]
    assert "contradict each other" in finding(reply, "running-watts")["sentence"]
    assert not any(one["name"] == "watts_ratio" for one in reply["results"])


def test_a_colder_evaporator_lowers_the_expected_watts(ask: Any) -> None:
    # 3.5 % for each of 10 K: 0.65; with 1.5 % spread, 0.15/0.65 = 23 %, and √(15² + 23²) = 27.5 %.
    typed = {"data_sheet_evaporating": "-23.3", "evaporating_now": "-33.3", "refrigerant": "r134a_r600a"}
    reply = ask(SLUG, **STEADY, watts="150", **typed, running_watts="98")
    assert value(reply, "expected_watts") == "98"
    assert result(reply, "expected_watts")["band"] == "71 to 124 W"
    assert verdict(reply, "running-watts") == "within"


def test_without_expected_watts_the_power_factor_still_stands(ask: Any) -> None:
    reply = ask(SLUG, **RSIR, running_watts="150", running_amps="2.2")
    assert verdict(reply, "running-watts") == "undecided"
    assert finding(reply, "running-watts")["decider"]["enter_in"] == "watts"
    assert value(reply, "power_factor") == "0.593"


@pytest.mark.parametrize(
    ("typed", "name", "field"),
    [
        (
            {**RSIR, "watts": "100", "running_watts": "145", "wattmeter_percent": "20"},
            "running-watts",
            "wattmeter_percent",
        ),
        (
            {**RSIR, "watts": "100", "running_watts": "50", "wattmeter_resolution": "5"},
            "running-watts",
            "wattmeter_resolution",
        ),
        (
            {**RSIR, "watts": "100", "running_watts": "145", "winding_ohms": "", "running_amps": "2"},
            "winding-ohms",
            "winding_ohms",
        ),
        ({**RSIR, "watts": "20", "running_watts": "9"}, "weak-watts", "wattmeter_kind"),
        ({**RSIR, "run_time": "", "watts": "90", "running_watts": "90"}, "run-time", "run_time"),
        (
            {**RSIR, "running_watts": "90", "start_lead_amps": "0.11", "start_device": "relay"},
            "start-lead",
            "clamp_resolution",
        ),
        (
            {**RSIR, "run_time": "1 s", "running_watts": "90", "start_lead_amps": "0.4", "start_device": "relay"},
            "start-lead",
            "run_time",
        ),
    ],
)
def test_what_would_decide_does_when_it_is_entered(ask: Any, typed: dict[str, str], name: str, field: str) -> None:
    before = finding(ask(SLUG, **typed), name)
    assert before["verdict"] == "undecided"
    assert before["decider"]["enter_in"] == field
    after = ask(SLUG, **{**typed, field: before["decider"]["entry"]})
    assert {one["name"]: one["verdict"] for one in after["findings"]}.get(name) != "undecided"


@pytest.mark.parametrize(
    ("typed", "field", "entry"),
    [
        ({**STEADY, **SHARP, "watts": "100", "running_watts": "54"}, "record_watts", "100"),
        ({**STEADY, **SHARP, "watts": "100", "running_watts": "134"}, "record_watts", "100"),
    ],
)
def test_better_evidence_is_named_where_it_decides(ask: Any, typed: dict[str, str], field: str, entry: str) -> None:
    before = finding(ask(SLUG, **typed), "running-watts")
    assert (before["verdict"], before["decider"]["enter_in"]) == ("undecided", field)
    assert verdict(ask(SLUG, **typed, **{field: entry}), "running-watts") == "outside"


def test_volts_nearer_to_the_plate_are_named_where_they_decide(ask: Any) -> None:
    typed = {**STEADY, **SHARP, "plate_volts": "100", "running_volts": "107", "watts": "100", "running_watts": "50"}
    assert finding(ask(SLUG, **typed), "running-watts")["decider"]["enter_in"] == "running_volts"
    assert verdict(ask(SLUG, **{**typed, "running_volts": "100"}), "running-watts") == "outside"


# --- properties ------------------------------------------------------------------------------------------------

NAMES = [
    name
    for one in CALCULATOR.inputs
    for name in ([field.name for field in one.fields()] if isinstance(one, MeterInput) else [one.name])
]
TEXT = st.one_of(
    st.text(max_size=45),
    st.sampled_from(["0", "1", "115", "150 W", "0.15 kW", "OL", "-1", "1e9", "resistance", "relay", "8 s", "60", "٣"]),
    st.floats(min_value=0.0, max_value=2000.0).map(lambda number: f"{number:.4f}"),
)


def asked(standards: Standards, typed: dict[str, Any]) -> dict[str, Any]:
    inputs = {
        name: {"text": entry} if isinstance(entry, str) else {"text": entry[0], "unit": entry[1]}
        for name, entry in typed.items()
    }
    request = json.dumps({"calculator": SLUG, "date": "2026-11-25", "inputs": inputs})
    reply: dict[str, Any] = json.loads(answer(request, standards))
    return reply


@given(typed=st.dictionaries(st.sampled_from(NAMES), TEXT, max_size=9))
def test_whatever_is_typed_is_answered(standards: Standards, typed: dict[str, str]) -> None:
    reply = asked(standards, {"plate_volts": "115", "running_watts": "150", **typed})
    if "problems" in reply:
        assert all(one["message"] for one in reply["problems"])
        return
    assert reply["results"]
    assert reply["working"]
    assert reply["findings"]
    assert "nan" not in json.dumps(reply)


@given(milliwatts=st.integers(11_000, 400_000), expected=st.integers(50, 400))
@example(milliwatts=13_950, expected=50)  # a rounding tie: 13.95 W is printed alike from both
def test_the_same_watts_in_kilowatts_give_the_same_answer(standards: Standards, milliwatts: int, expected: int) -> None:
    in_watts = {"running_watts": f"{milliwatts / 1000:.3f}", "watts": str(expected)}
    in_kilowatts = {"running_watts": (f"{milliwatts / 1e6:.6f}", "kW"), "watts": (f"{expected / 1000:.3f}", "kW")}
    assert asked(standards, {**RSIR, **in_watts}) == asked(standards, {**RSIR, **in_kilowatts})


@given(st.integers(20, 200), st.integers(1, 40))
def test_more_watts_never_go_from_high_to_low(standards: Standards, watts: int, more: int) -> None:
    order = {"least": 0, "": 1, "most": 2}
    seen = []
    for shown in (watts, watts + more):
        one = finding(asked(standards, {**STEADY, "watts": "100", "running_watts": str(shown)}), "running-watts")
        side = "least" if one["limit"]["key"] == "power.low_ratio" else "most"
        seen.append(order[side if one["verdict"] in ("outside", "undecided") else ""])
    assert seen[0] <= seen[1]


# --- what stops the work, and amps that may be somebody else's --------------------------------------------


def test_three_times_the_expected_amps_stop_the_work_whatever_the_watts_say(ask: Any) -> None:
    # common practice, no source: the stop of the running amps, 1.40 with the whole band, holds here too
    typed = {**RSIR, "running_amps": "6", "expected_amps": "2"}
    reply = ask(SLUG, **typed, watts="150", running_watts="400")
    assert names(reply)[0] == "running-amps"
    assert reply["findings"][0]["stop"]
    assert reply["findings"][0]["next"]["procedure"] == "make-safe-prove-dead"
    early = ask(SLUG, **typed | {"run_time": "1"}, watts="150", running_watts="400")
    assert (names(early)[0], early["findings"][0]["verdict"]) == ("run-time", "undecided")
    assert early["findings"][0]["stop"]
    unknown = ask(SLUG, **typed | {"run_time": ""}, watts="150", running_watts="400")
    assert "unless this was caught during the start" in unknown["findings"][0]["sentence"]


@pytest.mark.parametrize(("amps", "seconds"), [("6", "5 s"), ("3", "30 min"), ("2.9", "30 min")])
def test_start_current_and_amps_with_a_band_under_the_stop_do_not_stop_it(ask: Any, amps: str, seconds: str) -> None:
    typed = {**RSIR, "run_time": seconds, "running_amps": amps, "expected_amps": "2"}
    reply = ask(SLUG, **typed, watts="150", running_watts="150")
    assert not any(one["stop"] for one in reply["findings"])


def test_amps_that_may_hold_the_other_loads_too_condemn_no_capacitor(ask: Any) -> None:
    # common practice, no source: 160 W of defrost heater in a plug-in meter that shows 300 W and 2.9 A of everything
    typed = {**PSC, "running_watts": "300", "other_watts": "160", "expected_amps": "1.4", "watts": "150"}
    everything = ask(SLUG, **typed, running_amps="2.9")
    assert verdict(everything, "run-capacitor") == "undecided"
    assert not any(one["stop"] for one in everything["findings"])
    assert any("as on a plug-in meter" in note for note in everything["notes"])
    alone = ask(SLUG, **typed, running_amps="2.2")  # 253 VA cannot hold 300 W: these amps are the compressor's alone
    assert verdict(alone, "run-capacitor") == "outside"


def test_a_start_lead_that_the_time_alone_would_not_decide_asks_for_more_than_the_time(ask: Any) -> None:
    typed = {**RSIR, "run_time": "", "running_watts": "90", "start_device": "relay"}
    near = finding(ask(SLUG, **typed, start_lead_amps="0.11"), "start-lead")
    assert (near["verdict"], near["decider"]["entry"]) == ("undecided", "")
    far = finding(ask(SLUG, **typed, start_lead_amps="0.4"), "start-lead")
    assert (far["decider"]["enter_in"], far["decider"]["entry"]) == ("run_time", "3 s")
