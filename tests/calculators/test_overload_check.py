"""Overload, cold and hot: the dead readings, the cooling estimate, and that nothing is ever condemned hot."""

from __future__ import annotations

import math
from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.calculators.answers import finding, messages, result, value, verdict

SLUG = "overload-check"
COLD_PART = {"part_temperature": "22", "hours_rest": "1", "repeated": "yes"}
COMMON_OPEN = {"kind": "internal", "common_run_ohms": "OL", "common_start_ohms": "OL", "run_start_ohms": "13.9"}
COLD_SHELL = {
    "shell_temperature": "34",
    "hours_cool": "2.5",
    "hours_rest": "4",
    "repeated": "yes",
    "pins_proved": "yes",
}


# --- the cooling estimate ---------------------------------------------------------------------------


@pytest.mark.source("derived")
def test_a_shell_of_90_degrees_is_at_50_after_43_minutes(ask: Any) -> None:
    # Derived, with the digits of the derivation: 45 min × ln(65 / 25) = 43 min, in a room of 25 °C.
    reply = ask(SLUG, **COMMON_OPEN, shell_temperature="90", room_temperature="25", thermometer_band="0")
    assert value(reply, "cooling_time") == "43"
    # Derived: 30 min × ln(65/25) = 28.7 and 60 min × ln(65/25) = 57.3.
    assert result(reply, "cooling_time")["band"] == "29 to 57 min"


def test_a_body_cools_as_the_law_of_cooling_says(ask: Any) -> None:
    # Worked by hand from T = Ta + (T0 - Ta) e^(-t/tau): from 110 °C in 20 °C to 50 °C with tau 45 min is 45 ln 3 = 49.4.
    reply = ask(SLUG, **COMMON_OPEN, shell_temperature="110", room_temperature="20", thermometer_band="0")
    assert value(reply, "cooling_time") == "49"


@pytest.mark.source("pint-program")
def test_fahrenheit_gives_the_same_estimate(ask: Any) -> None:
    # Referee: pint. 90 °C is 194 °F, 25 °C is 77 °F.
    registry = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
    shell, room = (registry.Quantity(one, "degC").to("degF").magnitude for one in (90, 25))
    one = ask(SLUG, **COMMON_OPEN, shell_temperature="90", room_temperature="25")
    other = ask(
        SLUG, **COMMON_OPEN, shell_temperature=(f"{shell:.1f}", "degF"), room_temperature=(f"{room:.1f}", "degF")
    )
    assert one["results"] == other["results"]


def test_the_cold_reading_comes_after_cooling_and_two_hours_and_never_before_the_rest_is_over(ask: Any) -> None:
    # Derived: 43 min + 2 h = 2.7 h, but 4 h since the last run less the 0.5 h passed = 3.5 h.
    warm = {**COMMON_OPEN, "shell_temperature": "90", "room_temperature": "25", "thermometer_band": "0"}
    assert value(ask(SLUG, **warm, hours_rest="0.5"), "earliest_cold_reading") == "3.5"
    assert value(ask(SLUG, **warm, hours_rest="3"), "earliest_cold_reading") == "2.7"


def test_hours_that_a_cool_shell_has_had_already_count(ask: Any) -> None:
    reply = ask(SLUG, **COMMON_OPEN, shell_temperature="30", hours_cool="0.5", hours_rest="3")
    assert value(reply, "earliest_cold_reading") == "1.5"


def test_a_room_as_warm_as_the_limit_never_cools_a_shell(ask: Any) -> None:
    reply = ask(SLUG, **COMMON_OPEN, shell_temperature="60", room_temperature="50")
    assert value(reply, "cooling_time") == "never in this room"


@given(
    shell=st.integers(53, 150), room=st.integers(-10, 49), warmer=st.integers(0, 20), band=st.sampled_from(["0", "2"])
)
def test_a_hotter_shell_or_a_warmer_room_never_cools_sooner(
    ask: Any, shell: int, room: int, warmer: int, band: str
) -> None:
    def minutes(degrees: int, around: int) -> float:
        typed = {"shell_temperature": str(degrees), "room_temperature": str(around), "thermometer_band": band}
        text = value(ask(SLUG, **COMMON_OPEN, **typed), "cooling_time")
        return math.inf if text.startswith("never") else float(text)

    assert minutes(min(shell + warmer, 150), room) >= minutes(shell, room)
    assert minutes(shell, min(room + warmer, 50)) >= minutes(shell, room)


# --- an overload outside the shell ------------------------------------------------------------------


@pytest.mark.source("common-practice")
def test_an_open_contact_cold_rested_and_repeated_is_a_failed_overload(ask: Any) -> None:
    # Common practice, no source: open cold is a fault.
    reply = ask(SLUG, contact_ohms="OL", **COLD_PART)
    assert verdict(reply, "contact") == "outside"
    assert "The overload has failed" in finding(reply, "contact")["sentence"]


@pytest.mark.parametrize(
    ("changed", "field", "entry"),
    [
        ({"part_temperature": "39"}, "part_temperature", "38 °C"),  # 39 + 2 K reaches past 40
        ({"part_temperature": ""}, "part_temperature", "38 °C"),
        ({"part_temperature": "90"}, "part_temperature", "38 °C"),
        ({"hours_rest": "9 min"}, "hours_rest", "10 min"),
        ({"hours_rest": ""}, "hours_rest", "10 min"),
        ({"repeated": "no"}, "repeated", "yes"),
    ],
)
@pytest.mark.parametrize("ohms", ["OL", "5"])
def test_an_open_or_high_contact_is_not_condemned_while_one_condition_is_missing(
    ask: Any, ohms: str, changed: dict[str, str], field: str, entry: str
) -> None:
    typed = {"contact_ohms": ohms, "lead": "0", **COLD_PART, **changed}
    found = finding(ask(SLUG, **typed), "contact")
    assert found["verdict"] == "undecided"
    assert (found["decider"]["enter_in"], found["decider"]["entry"]) == (field, entry)
    assert verdict(ask(SLUG, **{**typed, field: entry}), "contact") == "outside"


def test_an_open_contact_at_10_minutes_and_38_degrees_may_be_judged(ask: Any) -> None:
    typed = {"part_temperature": "38", "hours_rest": "10 min", "repeated": "yes"}
    assert verdict(ask(SLUG, contact_ohms="OL", **typed), "contact") == "outside"


@given(
    degrees=st.integers(-10, 150),
    minutes=st.integers(0, 300),
    repeated=st.sampled_from(["yes", "no"]),
    band=st.integers(0, 20),
    ohms=st.sampled_from(["OL", "0.2", "3", "900", "12 kohm"]),
)
def test_nothing_outside_the_shell_is_condemned_hot_or_unrested_or_once(
    ask: Any, degrees: int, minutes: int, repeated: str, band: int, ohms: str
) -> None:
    reply = ask(
        SLUG,
        contact_ohms=ohms,
        part_temperature=str(degrees),
        thermometer_band=str(band),
        hours_rest=f"{minutes} min",
        repeated=repeated,
    )
    if degrees + band > 40 or minutes < 10 or repeated == "no":
        assert verdict(reply, "contact") != "outside"


@pytest.mark.source("common-practice")
@pytest.mark.parametrize(("ohms", "said"), [("0.00", "within"), ("0.70", "within"), ("1.00", "within")])
def test_a_contact_that_conducts_is_within_hot_or_cold_and_no_more_is_claimed(ask: Any, ohms: str, said: str) -> None:
    # Common practice, no source: a cold overload reads from 0 to 1 ohm.
    found = finding(ask(SLUG, contact_ohms=ohms, lead="0", part_temperature="90"), "contact")
    assert found["verdict"] == said
    assert "does not show that it opens" in found["plain"]


def test_a_reading_on_a_coarse_meter_is_decided_by_a_finer_one(ask: Any) -> None:
    # 1.1 ohm on ±(0.5 % + 2 counts of 0.1, twice) is 0.81 to 1.39 and lies across 1 ohm.
    typed = {"contact_ohms": "1.1", "lead": "0", **COLD_PART}
    found = finding(ask(SLUG, **typed), "contact")
    assert found["verdict"] == "undecided"
    assert (found["decider"]["enter_in"], found["decider"]["entry"]) == ("ohmmeter_resolution", "0.01 Ω")
    assert verdict(ask(SLUG, **typed, ohmmeter_resolution="0.01"), "contact") == "outside"


def test_leads_are_taken_off_the_contact(ask: Any) -> None:
    reply = ask(SLUG, contact_ohms="320 mohm", lead="0.2")
    assert value(reply, "contact") == "0.12"
    assert result(reply, "contact")["also"] == ["120 mΩ"]


def test_a_contact_that_reads_less_than_the_leads_is_refused_at_its_field(ask: Any) -> None:
    assert messages(ask(SLUG, contact_ohms="0.1", lead="0.4")) == [
        (
            "contact_ohms",
            "Across the contact: 0.10 Ω is less than the leads alone, 0.40 Ω. Short the probes, read the leads again, then "
            "the part.",
        )
    ]


def test_a_contact_that_reads_a_count_less_than_the_leads_is_nought_and_no_mistake(ask: Any) -> None:
    reply = ask(SLUG, contact_ohms="0.1", lead="0.2")
    assert (verdict(reply, "contact"), value(reply, "contact")) == ("within", "0.00")
    assert "0.10 − 0.20, below 0 by no more than the counts of the two" in [one["put_in"] for one in reply["working"]]
    # a finer meter has finer counts: there the same difference is a mistake
    assert messages(ask(SLUG, contact_ohms="0.1", lead="0.2", ohmmeter_resolution="0.01"))[0][0] == "contact_ohms"


def test_an_open_heater_cold_is_a_failed_overload_though_the_contact_conducts(ask: Any) -> None:
    reply = ask(SLUG, kind="external_heater", contact_ohms="0.1", heater_ohms="OL", **COLD_PART)
    assert (verdict(reply, "contact"), verdict(reply, "heater")) == ("within", "outside")


def test_the_heater_is_not_looked_at_on_a_part_without_one(ask: Any) -> None:
    reply = ask(SLUG, contact_ohms="0.1", heater_ohms="OL", **COLD_PART)
    assert [one["name"] for one in reply["findings"]] == ["contact"]


def test_a_part_that_the_motors_list_does_not_name_is_a_finding_that_stops(ask: Any) -> None:
    reply = ask(SLUG, contact_ohms="0.1", marking="differs")
    assert verdict(reply, "marking") == "outside"
    assert reply["findings"][0]["name"] == "marking"
    assert reply["findings"][0]["stop"]


# --- an overload inside the shell -------------------------------------------------------------------


@pytest.mark.source("common-practice")
def test_common_open_on_a_hot_shell_is_no_finding_yet(ask: Any) -> None:
    # Common practice, no source: C–R OL, C–S OL, R–S 21 ohm, shell 82 °C: the overload is doing its work.
    typed = {**COMMON_OPEN, "run_start_ohms": "21", "shell_temperature": "82"}
    found = finding(ask(SLUG, **typed), "overload")
    assert found["verdict"] == "undecided"
    assert "doing its work" in found["sentence"]
    assert found["next"]["procedure"] == "overload-cold-and-hot"


@pytest.mark.source("common-practice")
def test_the_same_motor_cold_reads_through_and_the_overload_is_cleared(ask: Any) -> None:
    # Common practice, no source: 2.5 h later at 34 °C it reads 2.4, 9.0 and 11.4 ohm.
    typed = {"kind": "internal", "common_run_ohms": "2.4", "common_start_ohms": "9.0", "run_start_ohms": "11.4"}
    assert verdict(ask(SLUG, **typed, shell_temperature="34"), "overload") == "within"


def test_common_open_cold_rested_repeated_and_named_is_a_failed_overload(ask: Any) -> None:
    found = finding(ask(SLUG, **COMMON_OPEN, **COLD_SHELL), "overload")
    assert found["verdict"] == "outside"
    assert "the overload inside the shell has failed, or the lead to common is broken" in found["sentence"]


@pytest.mark.parametrize(
    ("changed", "field", "entry"),
    [
        ({"shell_temperature": "49"}, "shell_temperature", "48 °C"),
        ({"shell_temperature": "90"}, "shell_temperature", "48 °C"),
        ({"hours_cool": "1.9"}, "hours_cool", "2 h"),
        ({"hours_rest": "3.9"}, "hours_rest", "4 h"),
        ({"repeated": "no"}, "repeated", "yes"),
        ({"pins_proved": "no"}, "pins_proved", "yes"),
    ],
)
def test_a_common_that_is_open_is_not_condemned_while_one_condition_is_missing(
    ask: Any, changed: dict[str, str], field: str, entry: str
) -> None:
    typed = {**COMMON_OPEN, **COLD_SHELL, **changed}
    found = finding(ask(SLUG, **typed), "overload")
    assert found["verdict"] == "undecided"
    assert (found["decider"]["enter_in"], found["decider"]["entry"]) == (field, entry)
    assert verdict(ask(SLUG, **{**typed, field: entry}), "overload") == "outside"


@given(
    degrees=st.integers(-10, 150),
    band=st.integers(0, 20),
    cool=st.integers(0, 600),
    rest=st.integers(0, 600),
    repeated=st.sampled_from(["yes", "no"]),
    proved=st.sampled_from(["yes", "no"]),
    across=st.sampled_from(["OL", "13.9"]),
)
def test_nothing_inside_the_shell_is_condemned_hot_or_unrested_or_once(
    ask: Any, degrees: int, band: int, cool: int, rest: int, repeated: str, proved: str, across: str
) -> None:
    typed = {**COMMON_OPEN, "run_start_ohms": across, "repeated": repeated, "pins_proved": proved}
    typed |= {"shell_temperature": str(degrees), "thermometer_band": str(band)}
    said = verdict(ask(SLUG, **typed, hours_cool=f"{cool} min", hours_rest=f"{rest} min"), "overload")
    ready = degrees + band <= 50 and cool >= 120 and rest >= 240 and repeated == "yes"
    assert (said == "outside") is (ready and (proved == "yes" or across == "OL"))


def test_all_three_pairs_open_cold_is_more_than_one_break(ask: Any) -> None:
    found = finding(ask(SLUG, **{**COMMON_OPEN, **COLD_SHELL, "run_start_ohms": "OL"}), "overload")
    assert found["verdict"] == "outside"
    assert "more than one path is open" in found["sentence"]


@pytest.mark.parametrize(
    ("opens", "whole"),
    [(("common_run_ohms", "run_start_ohms"), "start"), (("common_start_ohms", "run_start_ohms"), "run")],
)
def test_an_open_winding_is_not_called_an_open_overload(ask: Any, opens: tuple[str, str], whole: str) -> None:
    typed = {"kind": "internal", "common_run_ohms": "3", "common_start_ohms": "9", "run_start_ohms": "12", **COLD_SHELL}
    found = finding(ask(SLUG, **{**typed, **dict.fromkeys(opens, "OL")}), "overload")
    assert found["verdict"] == "undecided"
    assert f"common reads through to {whole}" in found["sentence"]
    assert found["next"]["procedure"] == "identify-the-windings"


@pytest.mark.parametrize("field", ["common_run_ohms", "common_start_ohms", "run_start_ohms"])
def test_one_open_pair_beside_two_that_conduct_is_a_contradiction(ask: Any, field: str) -> None:
    typed = {"kind": "internal", "common_run_ohms": "3", "common_start_ohms": "9", "run_start_ohms": "12", **COLD_SHELL}
    found = finding(ask(SLUG, **{**typed, field: "OL"}), "overload")
    assert found["verdict"] == "undecided"
    assert "contradict" in found["sentence"]


def test_run_and_start_may_change_places_without_changing_what_is_said(ask: Any) -> None:
    typed = {"kind": "internal", "run_start_ohms": "12", **COLD_SHELL}
    for run, start in (("3", "9"), ("OL", "OL"), ("OL", "9")):
        one = ask(SLUG, **typed, common_run_ohms=run, common_start_ohms=start)
        other = ask(SLUG, **typed, common_run_ohms=start, common_start_ohms=run)
        assert verdict(one, "overload") == verdict(other, "overload")


def test_a_pattern_with_a_pair_missing_is_refused_at_the_pair(ask: Any) -> None:
    assert messages(ask(SLUG, kind="internal", common_run_ohms="OL", run_start_ohms="12")) == [
        (
            "common_start_ohms",
            "Common to start: the pattern needs all three pairs. Enter this one too, or clear the others.",
        )
    ]
