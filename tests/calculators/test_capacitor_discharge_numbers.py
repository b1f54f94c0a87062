"""Capacitor discharge: how numbers are said, and which are not said at all."""

from __future__ import annotations

from typing import Any

import pytest

from tests.calculators.answers import finding, result

SLUG = "capacitor-discharge"
TYPED = {"capacitance": "100", "volts_before": "325"}


@pytest.mark.parametrize(("held_for", "said"), [("9.99", "9.99 s"), ("10", "10.0 s"), ("30", "30.0 s")])
def test_a_time_below_ten_seconds_is_told_in_hundredths(ask: Any, held_for: str, said: str) -> None:
    # Common practice, no source: a watch tells tenths, and a short time is worth one digit more.
    assert result(ask(SLUG, **TYPED, held_for=held_for), "volts_left")["label"] == f"Volts left after {said}"


@pytest.mark.parametrize(("volts", "noted"), [("0", True), ("0.1", False), ("1", False), ("325", False)])
def test_nothing_from_the_start_may_be_a_tip_without_contact(ask: Any, volts: str, noted: bool) -> None:
    # Common practice, no source: a voltmeter that touches nothing shows zero too.
    notes = ask(SLUG, **{**TYPED, "volts_before": volts})["notes"]
    assert any("a tip without contact" in note for note in notes) is noted


@pytest.mark.parametrize(
    "tool", [{"tool_ohms": "0.2"}, {"tool_ohms": "4.99"}, {"tool_ohms": "8", "ohmmeter_percent": "50"}]
)
def test_no_watts_are_told_for_a_tool_that_is_not_to_be_used(ask: Any, tool: dict[str, str]) -> None:
    # The ohms may be anything down to the low end of the band, which may be none at all: no number would be true.
    reply = ask(SLUG, **TYPED, **tool, ohmmeter_counts="100")
    assert finding(reply, "tool")["stop"]
    assert not {"peak_power", "peak_current"} & {one["name"] for one in reply["results"]}
    assert "Power in the tool at first contact" not in [one["label"] for one in reply["working"]]


def test_a_tool_that_may_have_no_ohms_at_all_is_refused_and_answered(ask: Any) -> None:
    # 50 % of 100 ohm and 100 counts of 0.1 kohm leave nothing of it.
    reply = ask(SLUG, **TYPED, tool_ohms="0.1", ohmmeter_percent="50", ohmmeter_counts="100", ohmmeter_resolution="100")
    assert finding(reply, "tool")["verdict"] == "undecided"


@pytest.mark.source("derived")
def test_the_volts_and_ohms_in_a_sentence_are_those_of_the_reading(ask: Any) -> None:
    # 708 V · √2 are 1001.26 V. 8 s with 150 µF on 15 kΩ leave 327.0 V · e^(−8/2.25), 9.3 V; 0.5 % of 9.8 V and two
    # counts are 0.249 V.
    said = finding(ask(SLUG, capacitance="10", rated_volts="708"), "meter-rating")["sentence"]
    assert said.startswith("It may hold 1001 V, more than")
    said = finding(ask(SLUG, **TYPED, tool_ohms="4.9"), "tool")["sentence"]
    assert said.startswith("Do not use this tool: 4.90 kΩ from tip to tip; it is less than")
    reply = ask(SLUG, **TYPED, held_for="8", volts_after="318")
    said = finding(reply, "tool-open")["sentence"]
    assert said.endswith(": 318.0 V left, where no more than 9.3 V should be after 8.0 s.")
    said = finding(ask(SLUG, **TYPED, volts_after="9.8"), "after-discharge")["sentence"]
    assert said.startswith("9.8 V, up to 10.0 V with the meter's band")
    hold = next(one for one in reply["working"] if one["label"] == "Hold time")
    assert hold["formula"] == "the longest of 1.5 · t, 5 · τ and 5 s, in whole seconds upward"
