"""How the parts of a path add up, which sizes and lengths pass, and how the volts are drawn."""

from __future__ import annotations

from typing import Any
from xml.etree import ElementTree

import pytest

from tests.calculators.answers import finding, result, value, verdict

SLUG = "voltage-drop"
CELLAR = {"plate_volts": "230", "idle_volts": "231", "start_amps": "20", "source_ohms": "0.9"}
STIFFNESS: dict[str, str] = {
    "plate_volts": "230",
    "idle_volts": "229",
    "loaded_volts": "226.5",
    "load_amps": "1.1",
    "start_amps": "12",
}


# --- the path ----------------------------------------------------------------------------------------


def test_a_branch_inside_the_source_reading_is_not_added_twice(ask: Any) -> None:
    branch = {"branch_conductor": "iec-1-2-2.5", "branch_length": "20"}
    typed = {"plate_volts": "230", "idle_volts": "230", "run_amps": "5", "source_ohms": "0.9"}
    at_outlet = ask(SLUG, **typed, **branch)
    at_panel = ask(SLUG, **typed, **branch, source_where="panel")
    # 2 x 20 x 7.41 / 1000 = 0.296 ohm.
    assert value(at_outlet, "branch_ohms") == value(at_panel, "branch_ohms") == "0.296"
    assert value(at_outlet, "total_ohms") == "0.900"
    assert value(at_panel, "total_ohms") == "1.196"
    assert any("not added a second time" in note for note in at_outlet["notes"])
    assert not any("not added a second time" in note for note in at_panel["notes"])


def test_a_source_that_is_less_than_its_branch_circuit_is_pointed_out(ask: Any) -> None:
    reply = ask(SLUG, plate_volts="230", source_ohms="0.1", branch_conductor="iec-1-2-2.5", branch_length="20")
    assert any("reads less than this branch circuit alone" in note for note in reply["notes"])


def test_what_the_supply_loses_before_the_panel_is_not_held_against_the_wiring(ask: Any) -> None:
    # 10 A: 0.6 ohm before the panel take 6 V, 0.296 ohm of branch circuit 2.96 V, 1.3 % of 230 V.
    reply = ask(
        SLUG,
        plate_volts="230",
        idle_volts="230",
        run_amps="10",
        source_ohms="0.6",
        source_where="panel",
        branch_conductor="iec-1-2-2.5",
        branch_length="20",
    )
    assert value(reply, "run_drop") == "8.96"
    assert value(reply, "wiring_drop") == "2.96"
    assert value(reply, "wiring_drop_percent") == "1.29"
    assert verdict(reply, "running-drop") == "within"


def test_a_measured_loop_takes_the_place_of_the_printed_one(ask: Any) -> None:
    cord = {"plate_volts": "230", "run_amps": "5", "cord_conductor": "iec-5-1.5", "cord_length": "10"}
    assert value(ask(SLUG, **cord), "run_drop") == "1.33"
    measured = ask(SLUG, **cord, cord_loop="0.30")
    assert value(measured, "run_drop") == "1.50"
    assert any("measured loop is used" in note for note in measured["notes"])


def test_a_loop_far_below_its_size_and_length_is_pointed_out(ask: Any) -> None:
    reply = ask(SLUG, plate_volts="230", cord_conductor="iec-5-0.75", cord_length="25", cord_loop="0.8")
    # a length entered there and back looks like that, and hides a bad joint: no verdict, and the length is asked again
    assert verdict(reply, "cord-loop") == "undecided"
    assert "far less than size and length say" in finding(reply, "cord-loop")["sentence"]
    assert finding(reply, "cord-loop")["decider"]["enter_in"] == "cord_length"


def test_a_measured_loop_is_enough_without_size_and_length(ask: Any) -> None:
    reply = ask(SLUG, plate_volts="230", run_amps="5", cord_loop="0.30")
    assert value(reply, "cord_ohms") == "0.300"
    assert [one["name"] for one in reply["findings"]] == ["running-drop"]


def test_nothing_live_follows_while_the_cord_has_a_bad_joint(ask: Any) -> None:
    reply = ask(
        SLUG, **CELLAR, run_amps="1.2", cord_conductor="iec-5-1.5", cord_length="10", cord_loop="0.52", joint_count="2"
    )
    assert [one["name"] for one in reply["findings"]] == ["cord-loop", "start-volts", "running-drop"]
    assert {one["next"]["procedure"] for one in reply["findings"]} == {"make-safe-prove-dead"}
    assert finding(reply, "cord-loop")["stop"]


def test_ohms_alone_are_told_without_any_amps(ask: Any) -> None:
    reply = ask(SLUG, plate_volts="230", cord_conductor="iec-5-0.75", cord_length="15")
    assert value(reply, "total_ohms") == "0.780"
    assert result(reply, "total_ohms")["also"] == ["780 mΩ"]
    assert reply["findings"] == []
    assert reply["figures"] == []
    assert any("ohms only, no volts" in note for note in reply["notes"])


def test_a_power_factor_without_amps_is_not_dropped_in_silence(ask: Any) -> None:
    reply = ask(SLUG, plate_volts="230", joint_count="1", run_power_factor="0.7", start_power_factor="0.7")
    assert sum("power factor is not used" in note for note in reply["notes"]) == 2


def test_ohms_of_a_joint_without_joints_are_not_dropped_in_silence(ask: Any) -> None:
    reply = ask(SLUG, plate_volts="230", cord_loop="0.3", joint_ohms="0.05")
    assert any("no plug joints were counted" in note for note in reply["notes"])


def test_a_size_without_a_length_is_not_dropped_in_silence(ask: Any) -> None:
    reply = ask(SLUG, plate_volts="230", cord_loop="0.3", cord_conductor="iec-5-1.5")
    assert any("not compared with the size of the cord" in note for note in reply["notes"])


def test_the_worst_and_the_independent_are_told_apart(ask: Any) -> None:
    reply = ask(SLUG, **STIFFNESS)
    assert any("add in quadrature" in note and "at their worst" in note for note in reply["notes"])


# --- sizes and lengths -------------------------------------------------------------------------------


def test_the_thinnest_cord_for_the_cellar(ask: Any) -> None:
    # By hand at 25 m with 0.9 ohm of source: 1.5 mm2, 1.565 ohm, 203.3 V, 88.4 %; 2.5 mm2, 1.299 ohm, 207.6 V, 90.2 %.
    reply = ask(SLUG, **CELLAR, cord_conductor="iec-5-0.75", cord_length="25")
    assert result(reply, "thinnest_cord")["text"] == "2.5 mm² flexible cord (class 5)"


def test_the_longest_cord_for_the_cellar(ask: Any) -> None:
    # By hand: 231 / 207 - 1 = 0.11594, times 11.5 ohm is 1.3333 ohm in all, 0.4333 of it cord, over 0.052 ohm/m 8.33 m.
    reply = ask(SLUG, **CELLAR, cord_conductor="iec-5-0.75", cord_length="25")
    assert result(reply, "longest_cord")["text"] == "8.3 m"
    assert result(reply, "longest_cord")["also"] == ["27.2 ft"]


def test_no_size_helps_where_the_outlet_takes_it_all(ask: Any) -> None:
    reply = ask(SLUG, **{**CELLAR, "source_ohms": "2.5"}, cord_conductor="iec-5-0.75", cord_length="25")
    assert result(reply, "thinnest_cord")["text"] == "none in the table"
    assert "Not even 16 mm² flexible cord (class 5)" in result(reply, "thinnest_cord")["plain"]
    assert result(reply, "longest_cord")["text"] == "none"


def test_a_length_beyond_the_form_is_told_as_such(ask: Any) -> None:
    reply = ask(SLUG, plate_volts="230", run_amps="0.1", branch_conductor="iec-1-2-16", branch_length="10")
    assert result(reply, "longest_branch")["text"] == "more than 1000 m"


def test_a_branch_inside_the_source_reading_gets_no_size(ask: Any) -> None:
    reply = ask(SLUG, **CELLAR, branch_conductor="iec-1-2-2.5", branch_length="20")
    assert not any(one["name"].startswith(("thinnest", "longest")) for one in reply["results"])


def test_sizes_stay_in_their_family(ask: Any) -> None:
    typed = {"plate_volts": "120", "run_amps": "12", "branch_length": ("100", "ft"), "conductor_temperature": "75"}
    aluminium = ask(SLUG, **typed, branch_conductor="nec-8-aluminium-stranded-12")
    assert result(aluminium, "thinnest_branch")["text"] == "8 AWG aluminium, stranded"
    assert any("What a wire may carry" in note for note in aluminium["notes"])


# --- the drawing -------------------------------------------------------------------------------------


def test_the_drawing_names_its_lines_and_needs_no_colour(ask: Any) -> None:
    reply = ask(SLUG, **CELLAR, run_amps="2", cord_conductor="iec-5-0.75", cord_length="25", joint_count="2")
    figure = reply["figures"][0]
    root = ElementTree.fromstring(figure["svg"])
    texts = [node.text or "" for node in root.iter("{http://www.w3.org/2000/svg}text")]
    for wanted in ("supply", "outlet", "plugs", "machine", "idle 231.0 V", "90 % of plate", "85 % of plate"):
        assert wanted in texts
    assert any(text.startswith("running ") for text in texts)
    assert any(text.startswith("start ") for text in texts)
    painted = {node.get(key) for node in root.iter() for key in ("fill", "stroke")}
    assert painted <= {None, "currentColor", "none"}
    dashes = {node.get("stroke-dasharray") for node in root.iter("{http://www.w3.org/2000/svg}line")}
    assert len(dashes) == 2


@pytest.mark.parametrize(
    "typed",
    [
        {"plate_volts": "230", "idle_volts": "230", "run_amps": "10", "cord_loop": "0.07"},
        {"plate_volts": "115", "idle_volts": "230", "start_amps": "20", "cord_loop": "0.3", "source_ohms": "0.3"},
        {"plate_volts": "115", "idle_volts": "98", "start_amps": "20", "run_amps": "2", "cord_loop": "0.01"},
    ],
)
def test_no_words_of_the_drawing_lie_on_others_or_run_out_of_it(ask: Any, typed: dict[str, str]) -> None:
    root = ElementTree.fromstring(ask(SLUG, **typed)["figures"][0]["svg"])
    boxes = []
    for node in root.iter("{http://www.w3.org/2000/svg}text"):
        size, text = float(node.get("font-size", "")), node.text or ""
        wide = size * len(text) * (0.68 if node.get("font-weight") else 0.6)  # a wide font
        left = (
            float(node.get("x", ""))
            - {"start": 0.0, "middle": 0.5, "end": 1.0}[node.get("text-anchor", "start")] * wide
        )
        boxes.append((text, left, left + wide, float(node.get("y", "")) - 0.75 * size, float(node.get("y", ""))))
    assert all(left >= 0.0 and right <= 360.0 for _, left, right, _, _ in boxes), boxes
    for number, (one, left, right, top, bottom) in enumerate(boxes):
        for other, begin, end, high, low in boxes[number + 1 :]:
            assert right <= begin or end <= left or bottom <= high or low <= top, (one, other)


def test_the_drawing_is_told_in_words(ask: Any) -> None:
    reply = ask(SLUG, **CELLAR, cord_conductor="iec-5-0.75", cord_length="25")
    assert reply["figures"][0]["words"] == (
        "Volts along the path. idle 231.0 V all along; start: supply 231.0 V, outlet 215.8 V, machine 193.9 V; "
        "90 % of plate is 207.0 V; 85 % of plate is 195.5 V."
    )
