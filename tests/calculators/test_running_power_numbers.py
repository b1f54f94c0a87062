"""Running watts and power factor: ends of bands, the working by hand, the meters that are named, and what is said."""

from __future__ import annotations

from typing import Any

import pytest

from tests.calculators.answers import finding, messages, result, value, verdict
from tests.calculators.test_running_power import RSIR, SHARP, SLUG, STEADY


def step(reply: dict[str, Any], label: str) -> str:
    return next(str(one["result"]) for one in reply["working"] if one["label"] == label)


# --- what cannot be below nought --------------------------------------------------------------------


@pytest.mark.parametrize(("name", "start"), [("compressor_watts", "0.0"), ("watts_ratio", "0.00")])
def test_no_watts_are_less_than_nought_however_coarse_the_wattmeter(ask: Any, name: str, start: str) -> None:
    # By hand: 15 W on two counts of 10 W is 15 ±20 W.
    typed = {**STEADY, **SHARP, "wattmeter_counts": "2", "wattmeter_resolution": "10", "watts": "20"}
    assert result(ask(SLUG, **typed, running_watts="15"), name)["band"].startswith(f"{start} to ")


def test_no_power_factor_is_less_than_nought_however_coarse_the_wattmeter(ask: Any) -> None:
    # By hand: 15 W of 115 V · 0.2 A is 0.652, and its band is four thirds of it: 0 to 1.522.
    typed = {**STEADY, **SHARP, "wattmeter_counts": "2", "wattmeter_resolution": "10"}
    reply = ask(SLUG, **typed, running_watts="15", running_amps="0.2")
    assert result(reply, "power_factor")["band"] == "0.000 to 1.522"


def test_less_than_a_watt_that_is_left_for_the_compressor_is_no_contradiction(ask: Any) -> None:
    assert value(ask(SLUG, **STEADY, running_watts="60", other_watts="59.5"), "compressor_watts") == "0.5"


# --- the working ------------------------------------------------------------------------------------


def test_the_bands_in_the_working_are_those_of_the_meter_sheets(ask: Any) -> None:
    # By hand: wattmeter 2 % of 150 W + 2 counts of 0.1 W = 3.2 W, of 125 W 2.56 %; clamp 0.5 % of 1.8 A + 0.02 A =
    # 0.029 A, 1.61 %; voltmeter 0.5 % of 115 V + 0.2 V = 0.775 V, 0.67 %. The data sheet is good to 15 %.
    reply = ask(SLUG, **RSIR, watts="120", running_watts="150", other_watts="25", running_amps="1.8")
    assert step(reply, "Band of the wattmeter") == "±3.2 W (±2.6 % of P)"
    put_in = [one["put_in"] for one in reply["working"]]
    assert "0.604 · √(2.6² + 1.6² + 0.7²) %" in put_in
    assert "1.04 · (1 ± √(15.0² + 2.6²) %)" in put_in


def test_the_working_shows_the_band_of_watts_brought_to_other_temperatures(ask: Any) -> None:
    # By hand: 1.5 % of spread for each of 10 K on 65 % that are left is 23 %; √(15² + 23²) % = 27.5 %.
    typed = {"data_sheet_evaporating": "-23.3", "evaporating_now": "-33.3", "refrigerant": "r134a_r600a"}
    reply = ask(SLUG, **STEADY, watts="150", **typed, running_watts="98")
    assert step(reply, "Data-sheet watts brought to it") == "98 W ±28 %"
    assert "150 W × 0.650" in [one["put_in"] for one in reply["working"]]


# --- what would decide ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("watts", "entry"),
    [
        # By hand, below 0.60 of 100 W by a data sheet good to 15 %: 50 W ±2 W is 0.50 · (1 + √(15² + 4²) %) = 0.578;
        # 52.1 W ±2 W reaches 0.602, ±0.2 W 0.599.
        ("50", "1 W"),
        ("52.1", "0.1 W"),
    ],
)
def test_the_coarsest_display_of_a_wattmeter_that_decides_is_named(ask: Any, watts: str, entry: str) -> None:
    typed = {**STEADY, **SHARP, "wattmeter_counts": "2", "wattmeter_resolution": "5", "watts": "100"}
    found = finding(ask(SLUG, **typed, running_watts=watts), "running-watts")
    assert (found["decider"]["enter_in"], found["decider"]["entry"]) == ("wattmeter_resolution", entry)
    assert verdict(ask(SLUG, **{**typed, "wattmeter_resolution": entry}, running_watts=watts), "running-watts") == (
        "outside"
    )


@pytest.mark.parametrize(("watts", "decides"), [("54.5", True), ("54.6", False)])
def test_an_earlier_record_is_named_only_where_its_own_band_decides(ask: Any, watts: str, decides: bool) -> None:
    # By hand: a record is good to 10 %, and 0.60 / 1.10 = 0.5455.
    typed = {**STEADY, **SHARP, "watts": "100", "running_watts": watts}
    decider = finding(ask(SLUG, **typed), "running-watts")["decider"]
    assert (decider["enter_in"] == "record_watts") is decides
    assert (verdict(ask(SLUG, **typed, record_watts="100"), "running-watts") == "outside") is decides


# --- what is said -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("percent", "said"),
    [
        # By hand, beside the 15 % of the data sheet: √(15² + 31.6²) = 34.98, √(15² + 31.7²) = 35.07, √(15² + 40²) = 42.7.
        ("31.6", "the band reaches past a limit"),
        ("31.7", "(weak evidence)"),
        ("40", "but the band is ±43 % in all"),
    ],
)
def test_watts_with_a_band_of_more_than_35_percent_are_weak_evidence(ask: Any, percent: str, said: str) -> None:
    typed = {**STEADY, **SHARP, "watts": "100", "running_watts": "100", "wattmeter_percent": percent}
    found = finding(ask(SLUG, **typed), "running-watts")
    assert found["verdict"] == "within"
    assert said in found["sentence"]


@pytest.mark.parametrize(
    ("amps", "factor", "said"),
    [
        # By hand: 220 W of 115 V · 3.1 A is 0.617, of 115 V · 3.3 A 0.580.
        ("3.1", "0.60", "power factor 0.62, 0.02 above the expected"),
        ("3.3", "0.60", "power factor 0.58, 0.02 below the expected"),
    ],
)
def test_the_power_factor_is_said_to_be_below_or_above_the_expected(
    ask: Any, amps: str, factor: str, said: str
) -> None:
    typed = {**RSIR, **SHARP, "watts": "150", "winding_ohms": "on_data", "power_factor": factor}
    assert said in finding(ask(SLUG, **typed, running_watts="220", running_amps=amps), "tight-or-loaded")["sentence"]


@pytest.mark.parametrize(("amps", "wanted"), [("0.25", "within"), ("0.251", "undecided")])
def test_a_ptc_may_leave_up_to_five_percent_of_the_current_at_the_start(ask: Any, amps: str, wanted: str) -> None:
    typed = {**RSIR, "start_device": "ptc", "start_lead_first": "5", "start_lead_amps": amps}
    found = finding(ask(SLUG, **typed, watts="150", running_watts="150", running_amps="2.2"), "start-lead")
    assert found["verdict"] == wanted
    assert "5.0 % of the 5.00 A at the start" in found["sentence"]


@pytest.mark.parametrize(
    ("typed", "name", "said"),
    [
        # By hand: 228 W of 115 V · 2 A is 0.99, 57.5 W of it 0.25; 400 / 150 = 2.67, ±15 % of it is 2.27 to 3.07; 90 W ±10 %
        # and 150 W ±15 % do not meet.
        (
            {**RSIR, "running_watts": "228", "running_amps": "2"},
            "watts-or-volt-amps",
            "228.0 W makes a power factor of 0.99,",
        ),
        ({**RSIR, "running_watts": "9.94"}, "weak-watts", "9.9 W is less than 10 W"),
        (
            {**RSIR, "running_watts": "57.5", "running_amps": "2"},
            "weak-watts",
            "a power factor of 0.25 is less than 0.3",
        ),
        (
            {**RSIR, "watts": "150", "running_watts": "400", "running_amps": "6", "expected_amps": "2"},
            "running-amps",
            "6.00 A is 3.00 times the expected amps",
        ),
        (
            {**STEADY, **SHARP, "watts": "150", "running_watts": "400"},
            "running-watts",
            "400.0 W is 2.67 times the expected 150 W by the data sheet (band 2.27 to 3.07)",
        ),
        (
            {**STEADY, "watts": "150", "record_watts": "90", "running_watts": "140"},
            "running-watts",
            "The earlier record says 81 to 99 W; the data sheet says 128 to 172 W",
        ),
        (
            {**RSIR, "running_watts": "150", "start_lead_amps": "0.114", "start_device": "relay"},
            "start-lead",
            "the start lead carries 0.11 A, above 0.1 A",
        ),
    ],
)
def test_watts_amps_and_ratios_are_said_with_the_decimals_that_meters_show(
    ask: Any, typed: dict[str, str], name: str, said: str
) -> None:
    assert said in finding(ask(SLUG, **typed), name)["sentence"]


def test_watts_above_the_volt_amps_are_refused_with_both_figures(ask: Any) -> None:
    # By hand: 115 V · 2 A = 230 VA, and 400 W are 1.74 times as much.
    ((field, message),) = messages(ask(SLUG, **STEADY, running_watts="400", running_amps="2"))
    assert field == "running_watts"
    assert message.startswith("Running watts: 400.0 W is 1.74 times the 230.0 VA of these volts and amps")


def test_a_record_that_would_decide_is_asked_for_in_whole_watts(ask: Any) -> None:
    found = finding(ask(SLUG, **STEADY, **SHARP, watts="104.4", running_watts="56.7"), "running-watts")
    assert found["decider"]["condition"].endswith("where it also comes to about 104 W")
