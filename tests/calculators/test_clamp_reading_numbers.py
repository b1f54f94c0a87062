"""What a clamp reading is worth: the figures that a reader takes away, worked by hand, and where they end."""

from __future__ import annotations

from typing import Any

import pytest

from tests.calculators.answers import finding, messages, result, value

SLUG = "clamp-reading"
COARSE = {"clamp_percent": "2", "clamp_counts": "5", "clamp_resolution": "0.1"}
SHARP = {"clamp_percent": "0", "clamp_counts": "0"}
STEADY = {"clamp_place": "common", "run_time": "30"}
CORD = {"clamp_place": "cord", "run_time": "30"}


def names(reply: dict[str, Any]) -> list[str]:
    return [one["name"] for one in reply["results"]]


@pytest.mark.parametrize("place", ["common", "cord", "whole"])
def test_amps_are_never_told_to_be_less_than_nothing(ask: Any, place: str) -> None:
    # 0.5 % of 0.01 A and 2 counts of 0.01 A are ±0.02005 A.
    reply = ask(SLUG, clamp_place=place, run_time="30", shown_amps="0.01")
    for name in ("line_amps",) if place == "whole" else ("line_amps", "compressor_amps"):
        assert result(reply, name)["band"] == "0.000 to 0.030 A"


@pytest.mark.source("kuphaldt-lessons")
def test_the_current_that_may_be_none_is_reckoned_with_as_none(ask: Any) -> None:
    # The conductor carries 0 to 0.030 A, and 0.005 A of it at any angle is another load: at most 0.035 A are left.
    reply = ask(SLUG, **CORD, shown_amps="0.01", other_amps="0.005", load_percent="0")
    assert [one["put_in"].split(", ")[1] for one in reply["working"] if "amps of the compressor" in one["label"]] == [
        "I = 0.000 A",
        "I = 0.030 A",
    ]
    assert result(reply, "compressor_amps")["band"] == "0.000 to 0.035 A"


@pytest.mark.source("kuphaldt-lessons")
def test_less_than_an_ampere_is_taken_apart_like_more(ask: Any) -> None:
    # 0.5 A with 0.3 A of heater: in step 0.2 A are left, a quarter turn apart the root of 0.25 - 0.09, 0.4 A.
    typed = {**CORD, **SHARP, "shown_amps": "0.5", "heater_amps": "0.3", "load_percent": "0"}
    reply = ask(SLUG, **typed, motor_type="resistance")
    assert result(reply, "compressor_amps")["band"] == "0.200 to 0.400 A"
    assert value(reply, "compressor_amps") == "0.300"  # the middle
    assert value(reply, "band_percent") == "33.3"  # 0.1 of 0.3


def test_a_better_clamp_is_not_asked_for_where_it_would_show_less_than_the_other_loads(ask: Any) -> None:
    # 1 A ±34 % may be 1.2 A of heater and a motor; 1 A ±2 % can not.
    reply = ask(
        SLUG,
        **{**CORD, "clamp_percent": "34", "clamp_counts": "0"},
        shown_amps="1",
        heater_amps="1.2",
        load_percent="0",
        motor_type="resistance",
    )
    assert finding(reply, "clamp-band")["decider"]["enter_in"] == "heater_amps"


def test_a_plain_difference_below_nothing_is_nothing(ask: Any) -> None:
    # 1 A in all beside a load of 1.5 A that may lead: the compressor draws from 0.5 to 2.5 A.
    reply = ask(SLUG, **CORD, **SHARP, shown_amps="1", other_amps="1.5", load_percent="0")
    assert result(reply, "compressor_amps")["band"] == "0.500 to 2.500 A"
    assert value(reply, "plain_difference") == "0.000"


@pytest.mark.parametrize(
    ("percent", "carried"),
    [("6.2", "6.2"), ("6.21", "6.3"), ("6.29", "6.3"), ("8.7", "8.7"), ("49.9", "49.9"), ("50", "50.0")],
)
def test_the_band_is_carried_over_in_tenths_of_a_percent_upward(ask: Any, percent: str, carried: str) -> None:
    reply = ask(SLUG, **STEADY, shown_amps="2", clamp_percent=percent, clamp_counts="0")
    assert value(reply, "carry_over") == f"2.000 A, clamp {carried} % and 0 counts"


def test_nothing_is_carried_over_that_the_other_form_does_not_take(ask: Any) -> None:
    # An empty jaw that shows 0.002 A adds 0.1 % of 2 A.
    typed = {**STEADY, "shown_amps": "2", "clamp_percent": "50", "clamp_counts": "0"}
    assert "carry_over" in names(ask(SLUG, **typed))
    assert "carry_over" not in names(ask(SLUG, **typed, zero_amps="0.002"))
    other = {"plate_volts": "115", "rated_load_amps": "2", "running_amps": "2", "clamp_counts": "0"}
    assert "problems" not in ask("expected-amps", **other, clamp_percent="50.0")
    assert [name for name, _ in messages(ask("expected-amps", **other, clamp_percent="50.1"))] == ["clamp_percent"]


@pytest.mark.source("common-practice")
def test_one_turn_more_is_named_where_it_is_enough(ask: Any) -> None:
    # 2 % + 0.5 A / (0.9 A x N) is 10 % at N = 6.94.
    reply = ask(SLUG, **STEADY, **COARSE, shown_amps="5.4", turns="6")
    assert value(reply, "turns_for_good") == "7"


@pytest.mark.parametrize(("shown", "turns"), [("0.125", "50"), ("0.124", None)])
def test_no_more_turns_are_named_than_the_form_takes(ask: Any, shown: str, turns: str | None) -> None:
    # 2 % + 0.5 A / (I x 50) is 10 % at I = 0.125 A.
    reply = ask(SLUG, **STEADY, **COARSE, shown_amps=shown)
    if turns:
        assert value(reply, "turns_for_good") == turns
    else:
        assert "turns_for_good" not in names(reply)
        assert "Turns alone do not make it good enough" in finding(reply, "clamp-band")["sentence"]
