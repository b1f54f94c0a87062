"""Numbers of the voltage drop that nothing else holds: bands, bounds at nothing, words and lines of working.

All worked by hand from the readings shown; no source.
"""

from __future__ import annotations

from typing import Any

import pytest

from calculators.voltage_drop.path_volts import constant_current_volts, running_volts
from tests.calculators.answers import finding, messages, result, value

SLUG = "voltage-drop"
SHARP = {"voltmeter_percent": "0", "voltmeter_counts": "0", "clamp_percent": "0", "clamp_counts": "0"}
CORD = {"cord_conductor": "iec-5-1.0", "cord_length": "10"}


def step(reply: dict[str, Any], label: str) -> dict[str, str]:
    return next(one for one in reply["working"] if one["label"] == label)


def test_volts_never_fall_below_nothing() -> None:
    # 10 V less 10 A through 2 ohm is less than nothing, in phase, out of phase and by ohms alone.
    assert running_volts(10.0, 10.0, complex(2.0), None) == 0.0
    assert running_volts(10.0, 10.0, complex(2.0), 1.0) == 0.0
    assert running_volts(10.0, 10.0, complex(0.0, 2.0), 1.0) == 0.0
    assert constant_current_volts(10.0, complex(2.0), 10.0) == 0.0


def test_a_running_loss_that_is_not_tellable_says_its_band_and_what_it_is_made_of(ask: Any) -> None:
    # 9.93 A · (0.6765 + 0.01) ohm / 231.35 V = 2.95 %; 10.07 A · (0.7235 + 0.01) ohm / 228.65 V = 3.23 %.
    reply = ask(
        SLUG,
        plate_volts="230",
        idle_volts="230",
        run_amps="10",
        cord_loop="0.7",
        joint_count="1",
        joint_ohms="0.01",
        source_ohms="0",
        source_where="panel",
    )
    sentence = finding(reply, "running-drop")["sentence"]
    assert sentence.startswith("Running, the volts lost in 1 plug joint and cord are 7.10 V, 3.09 % of the idle volts")
    assert "somewhere from 2.95 to 3.23 %: not tellable yet" in sentence


def test_unmeasured_idle_volts_may_be_ten_percent_off_the_plate_either_way(ask: Any) -> None:
    # 207 / (1 + 0.9 · 20 / 230) = 192.0 V, 253 V of supply give 234.6 V.
    reply = ask(SLUG, plate_volts="230", start_amps="20", source_ohms="0.9")
    assert result(reply, "start_volts")["band"] == "192.0 to 234.6 V"
    assert step(reply, "Torque left")["result"] == "0.86"  # (213.3 / 230)²


def test_too_little_to_start_on_says_how_much_torque_is_left(ask: Any) -> None:
    # 231 / (1 + 2.03 · 40 / 230) = 170.7 V, 74.2 %; 0.742² = 0.55.
    reply = ask(
        SLUG, plate_volts="230", idle_volts="231", start_amps="40", source_ohms="1.5", cord_loop="0.5", joint_count="1"
    )
    assert "0.55 of the torque is left" in finding(reply, "start-volts")["plain"]


def test_a_measured_loop_without_a_size_has_no_reactance(ask: Any) -> None:
    assert value(ask(SLUG, plate_volts="230", cord_loop="0.5"), "total_ohms") == "0.500"


@pytest.mark.parametrize(("factor", "sine"), [("0.8", "0.600"), ("1", "0.000"), ("0.6", "0.800")])
def test_the_sine_of_the_angle_stands_in_the_working(ask: Any, factor: str, sine: str) -> None:
    reply = ask(SLUG, plate_volts="230", run_amps="10", run_power_factor=factor, source_ohms="0.7")
    assert step(reply, "Running loss, exact")["put_in"].endswith(f"sin φ {sine}")


def test_a_voltmeter_is_blind_only_where_its_band_reaches_down_to_nothing(ask: Any) -> None:
    # 50 % of 100 V and 50 counts of 1 V are 100 V; half a count less leaves 0.5 V.
    typed = {"plate_volts": "100", "idle_volts": "100", "source_ohms": "0.1", "run_amps": "1"}
    typed |= {"voltmeter_percent": "50", "voltmeter_resolution": "1"}
    assert messages(ask(SLUG, **typed, voltmeter_counts="50"))[0][0] == "voltmeter_resolution"
    assert "problems" not in ask(SLUG, **typed, voltmeter_counts="49.5")


def test_low_idle_and_running_volts_are_told_as_parts_of_the_plate(ask: Any) -> None:
    # 200 / 230 = 87.0 %; 200 − 10 · 0.7 = 193 V, 83.9 %; 213 − 7 = 206 V, 89.6 %; 215 − 7 = 208 V, 90.4 %.
    typed = {"plate_volts": "230", "run_amps": "10", "source_ohms": "0.7", **SHARP}
    low = ask(SLUG, **typed, idle_volts="200")
    notes = " ".join(low["notes"])
    assert low["findings"][0]["sentence"].startswith("Idle, 200.0 V is 87.0 % of the plate's 230 V: below 90 %")
    assert "Running, the machine gets 83.9 % of its plate, less than 90 %." in notes
    assert "gets 89.6 % of its plate" in " ".join(ask(SLUG, **typed, idle_volts="213")["notes"])
    assert "of its plate, less" not in " ".join(ask(SLUG, **typed, idle_volts="215")["notes"])


def test_a_loop_is_only_called_far_too_low_below_the_inverse_of_its_limit(ask: Any) -> None:
    # 0.390 ohm by size and length; 1 / 1.3 of it is 0.300 ohm.
    sharp = {"loop_meter_percent": "0", "loop_meter_counts": "0"}
    for loop, low in (("0.299", True), ("0.301", False), ("0.33", False)):
        said = ask(SLUG, plate_volts="230", cord_loop=loop, **CORD, **sharp)["findings"][0]["sentence"]
        assert ("far less than size and length say" in said) is low


def test_a_loop_that_is_not_tellable_says_its_band(ask: Any) -> None:
    # 0.520 ± (0.5 % + 2 counts of 0.01) is 0.4974 to 0.5426 ohm, 1.28 to 1.39 times 0.390.
    found = finding(ask(SLUG, plate_volts="230", cord_loop="0.52", **CORD), "cord-loop")
    assert "1.33 times the 0.390 Ω of its size and length, from 1.28 to 1.39: not tellable" in found["sentence"]
    assert (found["decider"]["enter_in"], found["decider"]["entry"]) == ("loop_meter_resolution", "0.001 ohm")


def test_the_longest_cord_may_be_less_than_a_metre(ask: Any) -> None:
    # As in the cellar, 1.3333 ohm in all; 0.0433 of it cord over 0.052 ohm/m is 0.83 m.
    cellar = {"plate_volts": "230", "idle_volts": "231", "start_amps": "20", "source_ohms": "1.29"}
    reply = ask(SLUG, **cellar, cord_conductor="iec-5-0.75", cord_length="5")
    assert result(reply, "longest_cord")["text"] == "0.8 m"


@pytest.mark.parametrize(
    ("loaded", "moved", "bigger"),
    # Three steps of 0.1 V are needed: 0.2 V at 0.5 A, so 0.75 A; from no fall at all no amps follow.
    [
        ("229.8", "0.2 V", "a bigger load, 0.8 A or more"),
        ("230", "0 V", "a bigger load, many times these amps or more"),
    ],
)
def test_a_known_load_that_hardly_moves_the_display_says_how_big_it_would_have_to_be(
    ask: Any, loaded: str, moved: str, bigger: str
) -> None:
    typed = {"plate_volts": "230", "idle_volts": "230", "loaded_volts": loaded, "load_amps": "0.5", "start_amps": "2"}
    found = finding(ask(SLUG, **typed, source_where="outlet"), "start-volts")
    assert f"moved the volts by {moved}, less than 3 steps" in found["sentence"]
    assert bigger in found["decider"]["condition"]


@pytest.mark.parametrize(("resolution", "counts", "entry"), [("1", "3", "0.1 V"), ("0.01", "50", "0.001 V")])
def test_the_coarsest_finer_display_that_decides_is_asked_for(
    ask: Any, resolution: str, counts: str, entry: str
) -> None:
    # 10 V at 10 A is 1.0 ohm; 26.2 A at the start leave 89.8 %, undecided with this band.
    typed = {"plate_volts": "230", "idle_volts": "230", "loaded_volts": "220", "load_amps": "10", "start_amps": "30"}
    typed |= {**SHARP, "voltmeter_resolution": resolution, "voltmeter_counts": counts}
    if resolution == "0.01":
        typed["start_amps"] = "26.2"
    decider = finding(ask(SLUG, **typed), "start-volts")["decider"]
    assert (decider["enter_in"], decider["entry"]) == ("voltmeter_resolution", entry)


def test_a_loss_with_a_power_factor_is_told_to_hundredths_of_a_volt(ask: Any) -> None:
    # 10 A · 0.8 · 1.2 ohm is 9.60 V. Exactly: √(230² − 7.2²) − 9.6 = 220.287 V at the machine, |220.287 + 4 − 3 j| = 224.307
    # at the panel.
    typed = {"plate_volts": "230", "run_amps": "10", "run_power_factor": "0.8", "source_ohms": "0.7"}
    reply = ask(SLUG, **typed, source_where="panel", cord_loop="0.5")
    assert (value(reply, "run_drop_approximate"), value(reply, "wiring_drop")) == ("9.60", "4.02")


def test_a_start_with_a_power_factor_is_worked_with_the_motors_ohms(ask: Any) -> None:
    # M = 230 / 20 = 11.5 ohm; 231 · 11.5 / |11.5 · (0.6 + 0.8 j) + 0.5| = 2656.5 / 11.807 = 225.0 V.
    reply = ask(SLUG, plate_volts="230", idle_volts="231", start_amps="20", start_power_factor="0.6", source_ohms="0.5")
    found = step(reply, "Volts at the start")
    assert (found["put_in"], found["result"]) == ("U0 231.0, M 11.50, R 0.500, X 0.0000, cos φ 0.60", "225.0 V")


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        (
            {"source_ohms": "0.1", "start_amps": "5", "run_amps": "6"},
            "Start amps: 5.00 A is less than the running amps, 6.00 A.",
        ),
        ({"loaded_volts": "101", "load_amps": "5"}, "101.00 V is more than the idle 100.00 V."),
        (
            {"source_ohms": "0.1", "voltmeter_percent": "0", "voltmeter_counts": "50", "voltmeter_resolution": "2"},
            "good to ±100.0 V only, and cannot tell 100.0 V from nothing.",
        ),
    ],
)
def test_what_contradicts_is_quoted_with_the_decimals_that_meters_show(
    ask: Any, typed: dict[str, str], said: str
) -> None:
    ((_, message),) = messages(ask(SLUG, plate_volts="100", idle_volts="100", **typed))
    assert said in message


def test_a_length_beyond_any_that_is_asked_for_is_told_in_whole_metres(ask: Any) -> None:
    reply = ask(SLUG, plate_volts="230", idle_volts="230", run_amps="0.05", **CORD)
    assert value(reply, "longest_cord") == "more than 1000 m"
