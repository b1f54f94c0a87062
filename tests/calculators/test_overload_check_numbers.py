"""Overload, cold and hot: ends of bands, the finer meters and better figures that are named, and how times are said."""

from __future__ import annotations

from typing import Any

import pytest

from tests.calculators.answers import finding, result, verdict
from tests.calculators.test_overload_check_live import EXACT, INSIDE, RUNS_ON, STALLED, TRIPPED

SLUG = "overload-check"
COARSE_CLAMP = {"clamp_resolution": "1", "clamp_counts": "2"}
COARSE_VOLTS = {"voltmeter_resolution": "1", "voltmeter_counts": "2"}


# --- what cannot be below nought --------------------------------------------------------------------


@pytest.mark.parametrize("kind", ["external", "internal"])
def test_no_part_reads_less_than_nought_ohms_however_coarse_the_meter(ask: Any, kind: str) -> None:
    # By hand: 0.1 ohm on ±(0.5 % + 2 counts of 0.1 ohm, twice) is 0.1 ±0.283, and less than nought there is not.
    pairs = {"common_run_ohms": "0.1", "common_start_ohms": "9", "run_start_ohms": "9.1"}
    typed = {"contact_ohms": "0.1"} if kind == "external" else pairs
    name = "contact" if kind == "external" else "common_run_ohms"
    assert result(ask(SLUG, kind=kind, lead="0", **typed), name)["band"] == "0.00 to 0.38 Ω"


@pytest.mark.parametrize(
    ("typed", "working"),
    [
        ({"seen": "stalled_trip", "trip_time": "0.2"}, "0.0 to 0.7 s"),
        ({"reset": "yes", "reset_time": "0.2"}, "0.0 to 0.7 s"),
    ],
)
def test_no_time_is_less_than_nought_seconds(ask: Any, typed: dict[str, str], working: str) -> None:
    # By hand: 0.2 s on a thumb of half a second.
    assert ask(SLUG, **typed)["working"][-1]["result"] == working


def test_the_time_that_is_printed_starts_at_nought_where_the_thumb_allows_it(ask: Any) -> None:
    assert result(ask(SLUG, seen="stalled_trip", trip_time="0.2"), "trip_time")["band"] == "0.0 to 0.7 s"


@pytest.mark.parametrize(
    ("typed", "name", "band"),
    [
        # By hand: 1 A ±2 A over 13 A · 108/115 = 12.21 A is 0.08 ±0.16.
        ({**STALLED, "trip_amps": "1"}, "stalled_ratio", "0.00 to 0.25"),
        # 1 A ±2 A over 1.6 A is 0.625 ±1.25 (the 10 % of the expected amps vanish beside it: 0.625 · √(2² + 0.1²)).
        ({**TRIPPED, "trip_amps": "1"}, "ratio", "0.00 to 1.88"),
        # 1 A ±2 A over 2 A is 0.5 ±1.
        ({**RUNS_ON, "trip_amps": "1"}, "ratio", "0.00 to 1.50"),
    ],
)
def test_no_current_is_less_than_nought_however_coarse_the_clamp(
    ask: Any, typed: dict[str, str], name: str, band: str
) -> None:
    reply = ask(SLUG, **{**EXACT, **typed, **COARSE_CLAMP})
    assert result(reply, name)["band"] == band
    assert any(f"(band {band})" in one["result"] for one in reply["working"])


# --- the working ------------------------------------------------------------------------------------


def test_volts_and_bands_are_put_into_the_working_in_percent(ask: Any) -> None:
    # By hand: 108 V of 115 V is 93.9 %. Clamp 2 % of 12 A + 0.02 A = 0.26 A, 2.17 %; voltmeter 0.5 % of 108 V + 0.2 V
    # = 0.74 V, 0.69 %. At 1.55 A a clamp of 0.5 % is good to 0.02775 A, 1.79 %.
    stalled, tripped = ask(SLUG, **STALLED, clamp_percent="2")["working"], ask(SLUG, **TRIPPED)["working"]
    assert stalled[0]["result"] == "93.9 %"
    assert "12.00 A / 12.21 A, √(2.2² + 0.7²) %" in [one["put_in"] for one in stalled]
    assert "1.55 A / 1.60 A, √(1.8² + 10.0²) %" in [one["put_in"] for one in tripped]


def test_the_working_shows_both_ends_of_the_cooling_time_in_minutes(ask: Any) -> None:
    # By hand: ln(65 / 25) = 0.9555; times 45, 30 and 60 min that is 43, 29 and 57 min.
    typed = {"kind": "internal", "shell_temperature": "90", "room_temperature": "25", "thermometer_band": "0"}
    assert ask(SLUG, **typed)["working"][0]["result"] == "43 min (from 30 min to 60 min: 29 to 57 min)"


# --- what would decide ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "field", "entry"),
    [
        # By hand, each: the coarser display leaves the reading across its limit, the named one does not.
        # At most 15 s: 14.95 ±0.1 s reaches past it, ±0.01 s does not.
        ({**STALLED, "trip_time": "14.95", "stopwatch_counts": "1"}, "stopwatch_resolution", "0.01 s"),
        ({**STALLED, "trip_time": "14.7", "stopwatch_counts": "1"}, "stopwatch_resolution", "0.1 s"),
        # 156 % of 2.0 A is 3.12 A: 3.35 −0.2, 3.20 −0.02 and 3.13 −0.002 lie above it, with ten times that band none.
        ({**RUNS_ON, **COARSE_CLAMP, "trip_amps": "3.35"}, "clamp_resolution", "0.1 A"),
        ({**RUNS_ON, **COARSE_CLAMP, "trip_amps": "3.20"}, "clamp_resolution", "0.01 A"),
        ({**RUNS_ON, **COARSE_CLAMP, "trip_amps": "3.13"}, "clamp_resolution", "0.001 A"),
        # 90 % of 115 V is 103.5 V: 104 −0.2 and 103.6 −0.02 lie above it.
        ({**STALLED, **COARSE_VOLTS, "trip_volts": "104"}, "voltmeter_resolution", "0.1 V"),
        ({**STALLED, **COARSE_VOLTS, "trip_volts": "103.6"}, "voltmeter_resolution", "0.01 V"),
        # 1.15 times 1 A: 1.04 · 1.10 = 1.144 and 1.09 · 1.05 = 1.1445 lie below it; 1.04 · 1.15 and 1.09 · 1.10 do not.
        ({**TRIPPED, "expected_amps": "1", "expected_band": "15", "trip_amps": "1.04"}, "expected_band", "10 %"),
        ({**TRIPPED, "expected_amps": "1", "expected_band": "15", "trip_amps": "1.09"}, "expected_band", "5 %"),
        # Below 80 °C: 78.5 + 1 and 79.3 + 0.5 are.
        ({**TRIPPED, "trip_shell_temperature": "78.5"}, "thermometer_band", "1 K"),
        ({**TRIPPED, "trip_shell_temperature": "79.3"}, "thermometer_band", "0.5 K"),
        # Below 130 °C: 123 + 5 and 126 + 2 are.
        ({**INSIDE, "winding_temperature": "123"}, "winding_band", "5 K"),
        ({**INSIDE, "winding_temperature": "126"}, "winding_band", "2 K"),
    ],
)
def test_the_coarsest_meter_or_figure_that_decides_is_named_and_decides(
    ask: Any, typed: dict[str, str], field: str, entry: str
) -> None:
    typed = {**EXACT, **typed}
    found = finding(ask(SLUG, **typed), "trip")
    assert found["verdict"] == "undecided"
    assert (found["decider"]["enter_in"], found["decider"]["entry"]) == (field, entry)
    assert verdict(ask(SLUG, **{**typed, field: entry}), "trip") != "undecided"


def test_a_trip_late_enough_after_the_start_is_named_for_a_poor_stopwatch(ask: Any) -> None:
    # By hand: 10 s have to lie below the time less 50 % of it and half a second: 10.5 / 0.5 = 21 s, and one more.
    typed = {**TRIPPED, "trip_time": "10", "stopwatch_percent": "50"}
    assert finding(ask(SLUG, **typed), "trip")["decider"]["entry"] == "22 s"
    assert verdict(ask(SLUG, **{**typed, "trip_time": "22"}), "trip") == "outside"


# --- how times are said -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("time", "said"),
    [
        # Seconds up to two minutes, minutes up to two hours, hours from there on.
        ("119", "after 119.0 s"),
        ("120", "after 2.0 min"),
        ("125", "after 2.1 min"),
        ("119 min", "after 119.0 min"),
        ("120 min", "after 2.0 h"),
        ("126 min", "after 2.1 h"),
    ],
)
def test_a_time_is_said_in_seconds_minutes_or_hours_by_its_length(ask: Any, time: str, said: str) -> None:
    assert said in finding(ask(SLUG, **EXACT, kind="internal", reset="yes", reset_time=time), "reset")["sentence"]


def test_ohms_are_said_to_hundredths_and_the_time_to_close_again_to_tenths(ask: Any) -> None:
    cold = {"part_temperature": "22", "hours_rest": "1", "repeated": "yes"}
    found = finding(ask(SLUG, contact_ohms="5", lead="0", **cold), "contact")
    assert "Across the contact: 5.00 Ω, more than 1 Ω" in found["sentence"]
    reply = ask(SLUG, kind="internal", reset="yes", reset_time="25 min")  # 1500 s, by a thumb
    assert (result(reply, "reset_time")["text"], result(reply, "reset_time")["also"]) == ("25.0 min", ["1500 s"])
    assert reply["working"][-1]["put_in"] == "1500.0 s ±0.5 s"
