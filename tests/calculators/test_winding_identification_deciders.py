"""What is said to decide is offered as an entry only where that entry alone does decide."""

from __future__ import annotations

from typing import Any

import pytest

SLUG = "winding-identification"
COLD = {"lead": "0", "shell_temperature": "21", "hours_cool": "8", "hours_rest": "9"}


def decider(reply: dict[str, Any], name: str) -> dict[str, Any]:
    found = next(one for one in reply["findings"] if one["name"] == name)
    assert found["verdict"] == "undecided"
    return found["decider"]


def offered(found: dict[str, Any]) -> tuple[str, str]:
    return found["enter_in"], found["entry"]


def test_a_finer_meter_is_offered_where_its_readings_would_add_up(ask: Any) -> None:
    adds_up = {"r12": "6.0", "r13": "5.82", "r23": "0.3", "lead": "0", "ohmmeter_resolution": "0.05"}
    reply = ask(SLUG, **adds_up)
    assert offered(decider(reply, "pins")) == ("ohmmeter_resolution", "0.01")
    named = ask(SLUG, **adds_up | {"ohmmeter_resolution": "0.01"})
    assert [one["verdict"] for one in named["findings"] if one["name"] == "pins"] == ["within"]


def test_a_finer_meter_is_asked_for_but_not_offered_as_the_end_where_the_readings_do_not_add_up(ask: Any) -> None:
    found = decider(ask(SLUG, r12="6.0", r13="5.82", r23="3.0", lead="0", ohmmeter_resolution="0.1"), "pins")
    assert found["resolution"] == "0.01 ohm or finer"
    assert offered(found) == ("", "")


def test_an_entry_that_would_add_up_is_offered_only_as_it_would_be_typed(ask: Any) -> None:
    # The meter tells apart what differs by more than 0.04 ohm: 8.0401 and 8 it does, 8.040 as typed it does not.
    meter = {"ohmmeter_percent": "0", "ohmmeter_counts": "2", "ohmmeter_resolution": "0.01"}
    assert offered(decider(ask(SLUG, **meter, r12="8", r23="0.0401", r13="12"), "pins")) == ("", "")
    assert offered(decider(ask(SLUG, **meter, r12="8", r23="0.042", r13="12"), "pins")) == ("r13", "8.042")


@pytest.mark.parametrize(
    ("typed", "reading", "entry"),
    [
        ({"lead": "0"}, "shell temperature", ("shell_temperature", "25")),
        ({"shell_temperature": "21"}, "leads shorted together", ("lead", "0")),
        ({}, "shell temperature and leads shorted together", ("", "")),
    ],
)
def test_data_that_cannot_be_held_yet_name_everything_that_is_missing(ask: Any, typed, reading, entry) -> None:
    found = decider(ask(SLUG, r12="22.1", r13="17.9", r23="4.2", data_run="4.2", data_start="17.9", **typed), "data")
    assert found["reading"] == reading
    assert offered(found) == entry


def test_saying_that_it_was_read_again_is_offered_only_where_the_open_pin_has_its_name(ask: Any) -> None:
    once = {**COLD, "r12": "OL", "r13": "OL", "r23": "13.9", "repeated": "no"}
    unnamed = decider(ask(SLUG, **once), "open line")
    assert offered(unnamed) == ("", "")
    assert "diagram" in unnamed["condition"]
    assert offered(decider(ask(SLUG, **once, diagram="CRS"), "open line")) == ("repeated", "yes")
    assert offered(decider(ask(SLUG, **once | {"r23": "OL"}), "open line")) == ("repeated", "yes")


def test_a_resolution_that_no_bench_meter_has_is_never_asked_for(ask: Any) -> None:
    # A gain of as many percent as the limit leaves no room for digits at all, however fine.
    reply = ask(SLUG, r12="4.2", r23="17.9", r13="13.8", lead="0", ohmmeter_percent="9.9999999")
    found = decider(reply, "meter")
    assert found["resolution"] == "finer than bench meters have"
    assert offered(found) == ("", "")
    near = ask(SLUG, r12="4.2", r23="17.9", r13="13.8", lead="0", ohmmeter_percent="9")
    assert offered(decider(near, "meter")) == ("ohmmeter_resolution", "0.01")


def test_what_a_field_takes_is_said_without_powers_of_ten(ask: Any) -> None:
    reply = ask(SLUG, r12="4.2", r23="17.9", r13="13.8", ohmmeter_resolution="0.0000001")
    (problem,) = reply["problems"]
    assert "0.000001 to 1000 Ω" in problem["message"]
