"""Both sides of every limit of the voltage drop, what is undecided, and what decides it."""

from __future__ import annotations

from typing import Any

import pytest

from tests.calculators.answers import finding, result, verdict

SLUG = "voltage-drop"
Typed = str | tuple[str, str]
# A meter without error, so that a reading lies exactly where it is typed.
SHARP = {
    "voltmeter_percent": "0",
    "voltmeter_counts": "0",
    "clamp_percent": "0",
    "clamp_counts": "0",
    "loop_meter_percent": "0",
    "loop_meter_counts": "0",
}
CELLAR = {"plate_volts": "230", "idle_volts": "231", "start_amps": "20", "source_ohms": "0.9"}


# --- both sides of every limit -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("joint", "expected"),
    [("0.6", "within"), ("0.602", "watch"), ("1.0", "watch"), ("1.002", "outside")],
)
def test_running_loss_on_both_sides_of_3_and_5_percent(ask: Any, joint: str, expected: str) -> None:
    # 5 A through 0.6 ohm is 3.00 V of 100 V, through 1.0 ohm 5.00 V.
    reply = ask(SLUG, plate_volts="100", run_amps="5", joint_count="1", joint_ohms=joint, **SHARP)
    assert verdict(reply, "running-drop") == expected


@pytest.mark.parametrize(
    ("idle", "expected"),
    [("90.0", "within"), ("89.9", "watch"), ("85.0", "watch"), ("84.9", "outside")],
)
def test_start_volts_on_both_sides_of_90_and_85_percent(ask: Any, idle: str, expected: str) -> None:
    # Nothing in the path: the machine gets the idle volts.
    reply = ask(SLUG, plate_volts="100", idle_volts=idle, start_amps="10", source_ohms="0", **SHARP)
    assert verdict(reply, "start-volts") == expected


@pytest.mark.parametrize(("loop", "expected", "stop"), [("0.506", "within", False), ("0.508", "outside", True)])
def test_a_measured_loop_on_both_sides_of_its_limit(ask: Any, loop: str, expected: str, stop: bool) -> None:
    # 10 m of 1.0 mm2: 0.390 ohm, times 1.3 is 0.507 ohm.
    cord = {"cord_conductor": "iec-5-1.0", "cord_length": "10"}
    reply = ask(SLUG, plate_volts="230", cord_loop=loop, **cord, **SHARP)
    assert (verdict(reply, "cord-loop"), finding(reply, "cord-loop")["stop"]) == (expected, stop)


@pytest.mark.parametrize(("loaded", "expected"), [("228.8", "undecided"), ("228.7", "within")])
def test_two_steps_of_the_display_are_too_few_and_three_are_enough(ask: Any, loaded: str, expected: str) -> None:
    typed = {"plate_volts": "230", "idle_volts": "229.0", "load_amps": "2", "start_amps": "4"}
    assert verdict(ask(SLUG, loaded_volts=loaded, **typed), "start-volts") == expected


@pytest.mark.parametrize(("idle", "noted"), [("126.5", False), ("126.6", True), ("103.5", False), ("103.4", True)])
def test_idle_volts_beyond_ten_percent_of_the_plate_are_a_finding_of_their_own(
    ask: Any, idle: str, noted: bool
) -> None:
    # 103.5 to 126.5 V is 115 V give or take 10 %; this close to the edge the meter cannot tell.
    reply = ask(SLUG, plate_volts="115", idle_volts=idle, run_amps="1", joint_count="1")
    assert [one["verdict"] for one in reply["findings"] if one["name"] == "idle-volts"] == ["undecided"] * noted


@pytest.mark.parametrize(("plate", "idle", "side"), [("115", "230", "above"), ("230", "115", "below")])
def test_a_plate_on_the_wrong_supply_stops_before_the_path_is_judged(
    ask: Any, plate: str, idle: str, side: str
) -> None:
    for source in ("", "0.3"):
        typed = {"plate_volts": plate, "idle_volts": idle, "start_amps": "20", "cord_loop": "0.3"}
        reply = ask(SLUG, **typed, source_ohms=source)
        first = reply["findings"][0]
        assert (first["name"], first["verdict"], first["stop"]) == ("idle-volts", "outside", True)
        assert f"{side} " in first["sentence"]
        assert "known load" not in finding(reply, "start-volts")["next"]["text"]


def test_too_many_volts_do_not_send_anybody_on_to_the_machine(ask: Any) -> None:
    reply = ask(SLUG, plate_volts="115", idle_volts="240", start_amps="20", source_ohms="0.2", run_amps="3")
    assert {one["next"]["procedure"] for one in reply["findings"]} == {"supply-check"}
    assert "the supply does not fit the plate" in finding(reply, "start-volts")["plain"]


def test_volts_that_are_low_before_the_path_begins_send_one_to_the_supply(ask: Any) -> None:
    # 97 of 115 V is 84.3 %, with nothing in the path.
    reply = ask(SLUG, plate_volts="115", idle_volts="97", start_amps="20", source_ohms="0", cord_loop="0")
    assert verdict(reply, "start-volts") == "outside"
    assert finding(reply, "start-volts")["next"]["procedure"] == "supply-check"


def test_joints_that_nobody_measured_take_the_handbooks_range(ask: Any) -> None:
    # Common practice, no source: 0.02 to 0.05 ohm a plug joint, 0.03 taken.
    reply = ask(SLUG, plate_volts="230", joint_count="2")
    assert result(reply, "joints_ohms")["text"] == "0.060 Ω"
    assert result(reply, "joints_ohms")["band"] == "0.040 to 0.100 Ω"
    typed = ask(SLUG, plate_volts="230", joint_count="2", joint_ohms=("45", "milliohm"))
    assert (result(typed, "joints_ohms")["text"], result(typed, "joints_ohms")["band"]) == ("0.090 Ω", "")


# --- what is undecided, and what decides it ----------------------------------------------------------


def entered_again(ask: Any, typed: dict[str, Typed], name: str, **also: Typed) -> dict[str, Any]:
    """Enter what the finding asks for, as a reader would, and answer again."""
    decider = finding(ask(SLUG, **typed), name)["decider"]
    assert decider["enter_in"]
    assert decider["entry"]
    reply: dict[str, Any] = ask(SLUG, **{**typed, decider["enter_in"]: decider["entry"]}, **also)
    return reply


STIFFNESS: dict[str, Typed] = {
    "plate_volts": "230",
    "idle_volts": "229",
    "loaded_volts": "226.5",
    "load_amps": "1.1",
    "start_amps": "12",
}


def test_a_band_across_a_start_limit_is_decided_by_a_finer_voltmeter(ask: Any) -> None:
    assert verdict(ask(SLUG, **STIFFNESS), "start-volts") == "undecided"
    assert verdict(entered_again(ask, STIFFNESS, "start-volts"), "start-volts") == "watch"


def test_a_small_difference_is_decided_by_a_finer_voltmeter(ask: Any) -> None:
    typed = {**STIFFNESS, "loaded_volts": "228.8", "load_amps": "0.5"}
    first = finding(ask(SLUG, **typed), "start-volts")
    assert first["verdict"] == "undecided"
    assert "0.2 V, less than 3 steps of the display" in first["sentence"]
    assert first["decider"]["resolution"] == "0.01 V"
    assert verdict(entered_again(ask, typed, "start-volts"), "start-volts") == "within"


def test_a_small_difference_is_decided_by_a_bigger_load(ask: Any) -> None:
    # Three steps of 0.1 V at 0.4 ohm want 0.75 A; a kettle of 8 A moves the display by 3.2 V.
    typed = {**STIFFNESS, "loaded_volts": "228.8", "load_amps": "0.5"}
    condition = finding(ask(SLUG, **typed), "start-volts")["decider"]["condition"]
    assert condition == "or the same meter with a bigger load, 0.8 A or more, such as a kettle or an iron"
    reply = ask(SLUG, **{**typed, "loaded_volts": "225.8", "load_amps": "8"})
    assert verdict(reply, "start-volts") == "within"


def test_a_load_that_moves_nothing_asks_for_a_bigger_one(ask: Any) -> None:
    found = finding(ask(SLUG, **{**STIFFNESS, "loaded_volts": "229"}), "start-volts")
    assert found["verdict"] == "undecided"
    assert "many times these amps" in found["decider"]["condition"]


def test_a_start_is_not_passed_while_idle_volts_are_not_measured(ask: Any) -> None:
    typed = {"plate_volts": "230", "start_amps": "20", "source_ohms": "0.2"}
    found = finding(ask(SLUG, **typed), "start-volts")
    assert (found["verdict"], found["decider"]["enter_in"]) == ("undecided", "idle_volts")
    assert verdict(ask(SLUG, **typed, idle_volts="231"), "start-volts") == "within"


def test_a_start_is_not_passed_while_the_source_is_not_measured(ask: Any) -> None:
    typed = {
        "plate_volts": "230",
        "idle_volts": "231",
        "start_amps": "20",
        "cord_conductor": "iec-5-2.5",
        "cord_length": "5",
    }
    found = finding(ask(SLUG, **typed), "start-volts")
    assert (found["verdict"], found["decider"]["enter_in"]) == ("undecided", "loaded_volts")
    assert "at most 229.4 V" in found["sentence"]
    assert verdict(ask(SLUG, **typed, loaded_volts="228.0", load_amps="8"), "start-volts") == "within"


def test_a_start_is_not_passed_while_the_branch_circuit_is_missing(ask: Any) -> None:
    typed = {**CELLAR, "source_ohms": "0.3", "source_where": "panel"}
    found = finding(ask(SLUG, **typed), "start-volts")
    assert (found["verdict"], found["decider"]["enter_in"]) == ("undecided", "branch_conductor")
    whole = ask(SLUG, **typed, branch_conductor="iec-1-2-2.5", branch_length="20")
    assert verdict(whole, "start-volts") == "within"


def test_a_start_that_fails_without_the_source_fails(ask: Any) -> None:
    # 40 m of 0.75 mm2, 2.08 ohm: 231 / (1 + 2.08 x 20 / 230) = 195.6 V; 50 m, 2.6 ohm: 188.4 V, 81.9 %.
    typed = {"plate_volts": "230", "idle_volts": "231", "start_amps": "20", "cord_conductor": "iec-5-0.75"}
    assert verdict(ask(SLUG, **typed, cord_length="40"), "start-volts") == "undecided"
    assert verdict(ask(SLUG, **typed, cord_length="50"), "start-volts") == "outside"


def test_a_start_that_fails_at_the_highest_supply_fails_unmeasured(ask: Any) -> None:
    # At 253 V, the most that belongs to a 230 V plate, 3.9 ohm of cord leave 253 / (1 + 3.9 x 20 / 230) = 188.9 V.
    typed = {"plate_volts": "230", "start_amps": "20", "cord_conductor": "iec-5-0.75"}
    assert verdict(ask(SLUG, **typed, cord_length="75"), "start-volts") == "outside"
    assert verdict(ask(SLUG, **typed, cord_length="50"), "start-volts") == "undecided"


def test_a_coarse_clamp_on_the_running_limit_is_undecided_until_a_finer_one_is_used(ask: Any) -> None:
    # 1.6 A give or take 0.21 A through 2 ohm: 3.2 V of 100 V, 2.8 to 3.6; on a 0.01 A display 3.1 to 3.3 V.
    typed: dict[str, Typed] = {
        "plate_volts": "100",
        "run_amps": "1.6",
        "joint_count": "2",
        "joint_ohms": "1.0",
        "clamp_resolution": "0.1",
    }
    assert verdict(ask(SLUG, **typed), "running-drop") == "undecided"
    assert verdict(entered_again(ask, typed, "running-drop"), "running-drop") == "watch"


OUTLET: dict[str, Typed] = {"plate_volts": "230", "idle_volts": "230", "run_amps": "9", "source_ohms": "0.9"}


def test_a_loss_read_at_the_outlet_may_be_the_supplys_until_it_is_read_at_the_panel(ask: Any) -> None:
    # 9 A through 0.9 ohm and 0.266 ohm of cord: 10.5 V, 4.6 %; the cord alone takes 2.4 V.
    typed = {**OUTLET, "cord_conductor": "iec-5-1.5", "cord_length": "10"}
    found = finding(ask(SLUG, **typed), "running-drop")
    assert found["verdict"] == "undecided"
    assert (found["decider"]["enter_in"], found["decider"]["entry"]) == ("source_where", "panel")
    assert verdict(entered_again(ask, typed, "running-drop"), "running-drop") == "within"


def test_a_cord_that_loses_too_much_alone_is_outside_whatever_the_outlet(ask: Any) -> None:
    # 9 A through 30 m of 0.75 mm2, 1.56 ohm: 14 V, 6.1 %.
    typed = {**OUTLET, "cord_conductor": "iec-5-0.75", "cord_length": "30"}
    found = finding(ask(SLUG, **typed), "running-drop")
    assert found["verdict"] == "outside"
    assert "Most of it is lost in the cord" in found["sentence"]


def test_a_coarse_ohmmeter_on_a_loop_is_decided_by_a_finer_one(ask: Any) -> None:
    typed: dict[str, Typed] = {
        "plate_volts": "230",
        "cord_conductor": "iec-5-1.0",
        "cord_length": "10",
        "cord_loop": "0.6",
        "loop_meter_resolution": "0.1",
    }
    first = finding(ask(SLUG, **typed), "cord-loop")
    assert (first["verdict"], first["stop"]) == ("undecided", False)
    assert verdict(entered_again(ask, typed, "cord-loop"), "cord-loop") == "outside"


def test_a_reading_inside_with_a_band_across_is_not_shown_abnormal(ask: Any) -> None:
    reply = ask(SLUG, plate_volts="100", run_amps="2.95", joint_count="1", joint_ohms="1.0", clamp_percent="5")
    assert verdict(reply, "running-drop") == "within"
    assert "not shown abnormal" in finding(reply, "running-drop")["sentence"]
