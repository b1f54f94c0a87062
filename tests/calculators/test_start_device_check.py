"""Start devices: what a dead test condemns, what it leaves plausible, and the traps of the bench."""

from __future__ import annotations

from typing import Any

import pytest

from calculators.start_device_check import CALCULATOR
from tests.calculators.answers import finding, messages, result, value, verdict

SLUG = "start-device-check"
RELAY = {
    "kind": "current",
    "relay_coil_ohms": "0.8",
    "lead": "0.2",
    "contact_upright_ohms": "OL",
    "contact_inverted_ohms": "0.4",
    "turns": "3",
    "sticks": "0",
    "look": "whole",
    "repeated": "yes",
}
PTC = {
    "kind": "ptc",
    "ptc_ohms": "22",
    "ptc_ohms_again": "22",
    "lead": "0",
    "ptc_temperature": "24",
    "ptc_rest": "12",
    "ptc_class": "230",
    "look": "whole",
    "repeated": "yes",
}
POTENTIAL = {
    "kind": "potential",
    "contact_ohms": "0.3",
    "lead": "0",
    "coil_ohms": "5 kohm",
    "position": "arrow",
    "look": "whole",
    "repeated": "yes",
}
PROVED = "started_released"


def device(ask: Any, typed: dict[str, str], **changed: str) -> dict[str, Any]:
    return finding(ask(SLUG, **{**typed, **changed}), "device")


# --- a dead test that is passed is plausible, never more --------------------------------------------


@pytest.mark.parametrize("typed", [RELAY, PTC, POTENTIAL], ids=["current", "ptc", "potential"])
@pytest.mark.source("common-practice")
def test_a_dead_test_that_is_passed_is_plausible_and_a_start_proves_it(ask: Any, typed: dict[str, str]) -> None:
    # Common practice, no source: plausible is the best that a dead test may give; proved only by a start.
    found = device(ask, typed)
    assert found["verdict"] == "undecided"
    assert found["sentence"].startswith("Plausible, not proved: ")
    assert found["next"]["procedure"] == "start-with-a-substitute"
    decider = found["decider"]
    assert "90 % of the plate volts or more" in decider["condition"]
    assert (decider["enter_in"], decider["entry"]) == ("with_device", PROVED)
    after = device(ask, typed, with_device=PROVED)
    assert after["verdict"] == "within"
    assert after["sentence"].startswith("Proved by a start")


@pytest.mark.parametrize(
    ("typed", "missing"),
    [
        (RELAY, "relay_coil_ohms"),
        (RELAY, "contact_upright_ohms"),
        (RELAY, "contact_inverted_ohms"),
        (RELAY, "turns"),
        (RELAY, "sticks"),
        (PTC, "ptc_ohms"),
        (PTC, "ptc_ohms_again"),
        (PTC, "ptc_temperature"),
        (PTC, "ptc_rest"),
        (PTC, "ptc_class"),
        (POTENTIAL, "contact_ohms"),
        (POTENTIAL, "coil_ohms"),
        (POTENTIAL, "position"),
        (PTC, "look"),
    ],
)
def test_a_dead_test_with_a_part_missing_is_not_even_plausible(ask: Any, typed: dict[str, str], missing: str) -> None:
    found = device(ask, typed, **{missing: ""})
    assert found["verdict"] == "undecided"
    assert "Plausible" not in found["sentence"]
    assert found["decider"]["enter_in"] in {missing, "turns"}


def test_two_turns_are_not_enough(ask: Any) -> None:
    assert "Plausible" not in device(ask, RELAY, turns="2")["sentence"]


def test_with_nothing_read_nothing_is_judged(ask: Any) -> None:
    for kind in ("current", "ptc", "potential"):
        found = device(ask, {"kind": kind})
        assert found["verdict"] == "undecided"
        assert "nothing is judged" in found["sentence"]


# --- the current relay ------------------------------------------------------------------------------


@pytest.mark.source("common-practice")
def test_a_contact_that_is_open_both_ways_never_closes(ask: Any) -> None:
    # Common practice, no source: upright open, inverted still open, the motor hums and trips: the start device failed.
    found = device(ask, RELAY, contact_inverted_ohms="OL")
    assert found["verdict"] == "outside"
    assert "the contact does not close" in found["sentence"]


@pytest.mark.source("common-practice")
def test_a_contact_that_is_closed_both_ways_is_welded(ask: Any) -> None:
    # Common practice, no source: upright contact 0.2 ohm and start current that never goes away: welded.
    found = device(ask, RELAY, contact_upright_ohms="0.4", contact_inverted_ohms="0.4")
    assert found["verdict"] == "outside"
    assert "welded" in found["sentence"]


def test_a_good_relay_held_the_wrong_way_round_is_not_condemned(ask: Any) -> None:
    # The trap of the angle: upside down a gravity contact is closed; the two readings have only changed places.
    found = device(ask, RELAY, contact_upright_ohms="0.4", contact_inverted_ohms="OL")
    assert found["verdict"] == "undecided"
    assert "held the wrong way" in found["sentence"]


@pytest.mark.parametrize("one", [{"contact_inverted_ohms": "OL"}, {"contact_upright_ohms": "0.4"}])
def test_one_position_alone_condemns_no_contact(ask: Any, one: dict[str, str]) -> None:
    typed = {**RELAY, "contact_upright_ohms": "", "contact_inverted_ohms": "", **one}
    assert device(ask, typed)["verdict"] == "undecided"


@pytest.mark.parametrize(
    ("ohms", "said"), [("1.2", "undecided"), ("1.4", "undecided"), ("1.6", "outside"), ("40", "outside")]
)
def test_a_burnt_contact_is_condemned_only_with_the_whole_band(ask: Any, ohms: str, said: str) -> None:
    # Common practice, no source: a closed contact is below 1 ohm. Leads 0.2; ±(0.5 % + 2 counts of 0.1, twice) is ±0.29.
    found = device(ask, RELAY, contact_inverted_ohms=ohms)
    assert found["verdict"] == said
    assert ("Plausible" in found["sentence"]) is (ohms == "1.2")


def test_a_path_of_some_kilohms_upright_is_neither_open_nor_closed(ask: Any) -> None:
    found = device(ask, RELAY, contact_upright_ohms="300 kohm")
    assert found["verdict"] == "undecided"
    assert "no fingers on the probes" in found["decider"]["condition"]


def test_ten_megohms_upright_are_open(ask: Any) -> None:
    assert device(ask, RELAY, contact_upright_ohms="10 Mohm")["sentence"].startswith("Plausible")


def test_an_open_coil_leaves_the_motor_silent(ask: Any) -> None:
    found = device(ask, RELAY, relay_coil_ohms="OL")
    assert found["verdict"] == "outside"
    assert "silent" in found["plain"]


def test_a_coil_of_five_ohms_is_a_doubt_and_no_fault(ask: Any) -> None:
    assert device(ask, RELAY, relay_coil_ohms="5.2")["verdict"] == "undecided"


@pytest.mark.source("common-practice")
def test_one_stick_is_a_fault(ask: Any) -> None:
    # Common practice, no source: repeat three times; one stick = fail.
    assert device(ask, RELAY, turns="10", sticks="1")["verdict"] == "outside"


def test_nothing_is_condemned_on_one_reading(ask: Any) -> None:
    for changed in ({"contact_inverted_ohms": "OL"}, {"relay_coil_ohms": "OL"}, {"sticks": "2"}):
        found = device(ask, RELAY, repeated="no", **changed)
        assert found["verdict"] == "undecided"
        assert (found["decider"]["enter_in"], found["decider"]["entry"]) == ("repeated", "yes")
        assert device(ask, RELAY, repeated="yes", **changed)["verdict"] == "outside"


def test_more_sticks_than_turns_are_refused(ask: Any) -> None:
    assert messages(ask(SLUG, **{**RELAY, "turns": "2", "sticks": "3"})) == [
        (
            "sticks",
            "Times it stuck, open or closed: 3 is more than the 2 times it was turned over. Count both again.",
        )
    ]


def test_a_relay_that_clicks_when_shaken_is_not_a_broken_ptc(ask: Any) -> None:
    reply = ask(SLUG, **{**RELAY, "look": "rattles"})
    assert verdict(reply, "device") == "undecided"
    assert any("that is its plunger" in note for note in reply["notes"])


# --- the PTC ----------------------------------------------------------------------------------------


@pytest.mark.source("common-practice")
def test_a_ptc_that_rattles_has_failed_whatever_its_ohms(ask: Any) -> None:
    # Common practice, no source: a rattle is a fail whatever the ohms.
    for ohms in ("OL", "22", ""):
        assert device(ask, PTC, look="rattles", ptc_ohms=ohms)["verdict"] == "outside"


@pytest.mark.source("common-practice")
def test_a_whole_ptc_of_22_ohms_after_12_minutes_is_plausible(ask: Any) -> None:
    # Common practice, no source: 22 ohm at 24 °C after 12 min; the restart after a rest is normal, 3 of 3.
    assert device(ask, PTC)["sentence"] == "Plausible, not proved: disc 22.00 Ω."


@pytest.mark.parametrize(
    ("ohms", "data", "said"),
    [
        # Common practice, no source: open above 100 ohm, shorted below 1 ohm. Classes 3-20 and 10-60 ohm from memory.
        ("OL", {}, "outside"),
        ("101", {}, "outside"),
        ("100", {}, "undecided"),
        ("61", {}, "undecided"),
        ("1.0", {}, "undecided"),
        ("0.9", {}, "outside"),
        ("61", {"ptc_data_least": "20", "ptc_data_most": "30"}, "outside"),
        ("19", {"ptc_data_least": "20", "ptc_data_most": "30"}, "outside"),
        ("120", {"ptc_data_least": "90", "ptc_data_most": "150"}, "undecided"),
        ("OL", {"ptc_data_least": "90", "ptc_data_most": "150"}, "outside"),
    ],
)
def test_a_cold_ptc_is_held_against_its_limits(ask: Any, ohms: str, data: dict[str, str], said: str) -> None:
    exact = {"ohmmeter_percent": "0", "ohmmeter_counts": "0"}
    found = device(ask, PTC, ptc_ohms=ohms, ptc_ohms_again=ohms, **data, **exact)
    assert found["verdict"] == said


@pytest.mark.parametrize(
    ("picked", "ohms", "plausible"),
    [
        ("115", "2.9", False),
        ("115", "3", True),
        ("115", "20", True),
        ("115", "21", False),
        ("230", "9.9", False),
        ("230", "10", True),
        ("230", "60", True),
        ("230", "60.1", False),
    ],
)
@pytest.mark.source("trade-memory")
def test_the_class_table_is_a_hint_on_both_of_its_sides(ask: Any, picked: str, ohms: str, plausible: bool) -> None:
    # From memory: cold 3-20 ohm in the 115 V class, 10-60 ohm in the 230 V class.
    found = device(ask, PTC, ptc_class=picked, ptc_ohms=ohms, ptc_ohms_again=ohms)
    assert found["verdict"] == "undecided"
    assert ("Plausible" in found["sentence"]) is plausible
    if not plausible:
        assert found["decider"]["enter_in"] == "ptc_data_least"


@pytest.mark.source("service-literature")
def test_the_figures_of_service_prints_are_plausible_in_their_class(ask: Any) -> None:
    # Public service literature, several prints: 3 to 10 ohm at 115 V, and 25 ohm.
    for picked, ohms in (("115", "3"), ("115", "10"), ("230", "25")):
        found = device(ask, PTC, ptc_class=picked, ptc_ohms=ohms, ptc_ohms_again=ohms)
        assert found["sentence"].startswith("Plausible")


@pytest.mark.parametrize(
    ("changed", "field", "entry"),
    [
        ({"ptc_temperature": "80"}, "ptc_temperature", "25 °C"),
        ({"ptc_temperature": "34"}, "ptc_temperature", "25 °C"),  # 34 + 2 K reaches past 35
        ({"ptc_temperature": "16"}, "ptc_temperature", "25 °C"),
        ({"ptc_temperature": ""}, "ptc_temperature", "25 °C"),
        ({"ptc_rest": "9"}, "ptc_rest", "10 min"),
        ({"ptc_rest": ""}, "ptc_rest", "10 min"),
        ({"ptc_ohms_again": ""}, "ptc_ohms_again", "OL"),
        ({"repeated": "no"}, "repeated", "yes"),
    ],
)
def test_a_hot_or_once_read_ptc_is_never_condemned(ask: Any, changed: dict[str, str], field: str, entry: str) -> None:
    typed = {**PTC, "ptc_ohms": "OL", "ptc_ohms_again": "OL", **changed}
    found = device(ask, typed)
    assert found["verdict"] == "undecided"
    assert (found["decider"]["enter_in"], found["decider"]["entry"]) == (field, entry)
    assert device(ask, typed, **{field: entry})["verdict"] == "outside"


@pytest.mark.parametrize(
    ("again", "said"), [("180", "outside"), ("160", "outside"), ("159", "undecided"), ("40", "undecided")]
)
def test_two_readings_that_differ_by_more_than_a_fifth_are_not_cold(ask: Any, again: str, said: str) -> None:
    assert device(ask, PTC, ptc_ohms="200", ptc_ohms_again=again)["verdict"] == said


def test_half_of_the_parts_data_is_refused(ask: Any) -> None:
    ((field, message),) = messages(ask(SLUG, **PTC, ptc_data_least="20"))
    assert field == "ptc_data_most"
    assert "enter both ends" in message
    ((field, message),) = messages(ask(SLUG, **PTC, ptc_data_least="20", ptc_data_most="20"))
    assert "Enter the smaller figure as the least." in message


def test_a_ptc_from_another_unit_reads_the_same(ask: Any) -> None:
    one = ask(SLUG, **PTC)
    other = ask(SLUG, **{**PTC, "ptc_ohms": "0.022 kohm", "ptc_rest": "0.2 h", "ptc_temperature": "75.2 °F"})
    assert one["findings"] == other["findings"]
    assert value(one, "ptc_ohms") == value(other, "ptc_ohms") == "22.00"


# --- the potential relay ----------------------------------------------------------------------------


@pytest.mark.source("common-practice")
def test_an_open_coil_never_lets_the_start_capacitor_out(ask: Any) -> None:
    # Common practice, no source: 1-2 0.3 ohm, 2-5 OL, start capacitor vent popped twice.
    found = device(ask, POTENTIAL, coil_ohms="OL")
    assert found["verdict"] == "outside"
    assert "start capacitor stays in" in found["plain"]


def test_an_open_contact_at_rest_gives_no_start(ask: Any) -> None:
    found = device(ask, POTENTIAL, contact_ohms="OL")
    assert found["verdict"] == "outside"
    assert "hums" in found["plain"]


@pytest.mark.parametrize(
    ("ohms", "plausible"), [("900", False), ("1000", True), ("5 kohm", True), ("20 kohm", True), ("20.1 kohm", False)]
)
def test_a_coil_outside_the_usual_is_a_doubt_and_no_fault(ask: Any, ohms: str, plausible: bool) -> None:
    # From memory: 1 to 20 kilohm.
    found = device(ask, POTENTIAL, coil_ohms=ohms)
    assert found["verdict"] == "undecided"
    assert ("Plausible" in found["sentence"]) is plausible


def test_a_relay_mounted_another_way_is_not_judged_as_it_hangs(ask: Any) -> None:
    found = device(ask, POTENTIAL, position="other")
    assert found["verdict"] == "undecided"
    assert found["decider"]["enter_in"] == "position"


# --- eyes, marking, refusals ------------------------------------------------------------------------


@pytest.mark.parametrize("typed", [RELAY, PTC, POTENTIAL], ids=["current", "ptc", "potential"])
def test_what_is_burnt_has_failed_even_if_it_still_starts_the_motor(ask: Any, typed: dict[str, str]) -> None:
    assert device(ask, typed, look="burnt", with_device=PROVED)["verdict"] == "outside"


def test_a_plunger_that_does_not_move_has_failed(ask: Any) -> None:
    assert device(ask, RELAY, look="stuck")["verdict"] == "outside"
    assert device(ask, PTC, look="stuck")["verdict"] == "undecided"


def test_one_stick_is_told_in_the_singular(ask: Any) -> None:
    assert "It stuck 1 time:" in device(ask, RELAY, sticks="1")["sentence"]


def test_a_part_that_the_list_does_not_name_stops_the_work(ask: Any) -> None:
    reply = ask(SLUG, **RELAY, marking="differs")
    assert (reply["findings"][0]["name"], reply["findings"][0]["stop"]) == ("marking", True)


def test_a_coil_that_reads_a_count_less_than_the_leads_is_nought_and_no_mistake(ask: Any) -> None:
    reply = ask(SLUG, kind="current", relay_coil_ohms="0.1", lead="0.2", contact_inverted_ohms="0.2")
    assert "problems" not in reply


def test_a_reading_smaller_than_its_leads_is_refused_at_its_field(ask: Any) -> None:
    ((field, message),) = messages(ask(SLUG, kind="ptc", ptc_ohms="0.1", lead="0.4"))
    assert field == "ptc_ohms"
    assert "less than the leads alone" in message


def test_the_leads_are_taken_off(ask: Any) -> None:
    assert value(ask(SLUG, **RELAY), "relay_coil_ohms") == "0.60"
    assert result(ask(SLUG, **POTENTIAL), "coil_ohms")["text"] == "5.00 kΩ"


def test_every_worked_example_is_answered_with_declared_sources_and_limits(ask: Any) -> None:
    for example in CALCULATOR.examples:
        reply = ask(SLUG, **{name: one.text for name, one in example.typed.items()})
        assert reply["findings"]
        assert reply["figures"]
        assert example.source in CALCULATOR.sources
        named = {one["limit"]["key"] for one in reply["findings"] if one["limit"]}
        assert named <= set(CALCULATOR.limits)
