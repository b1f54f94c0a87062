"""Start devices: the figures that a reader takes away, worked by hand, and where one answer turns into the next."""

from __future__ import annotations

from typing import Any

import pytest

from tests.calculators.answers import finding, messages, result, verdict

SLUG = "start-device-check"
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
HUMS = {
    "kind": "ptc",
    "with_device": "hums",
    "with_substitute": "started_released",
    "start_rest": "12",
    "start_volts": "106",
    "plate_volts": "115",
}
LEFT = {"kind": "current", "start_lead_first": "5.3", "start_lead_time": "8"}
EXACT = {"voltmeter_percent": "0", "voltmeter_counts": "0"}


def step(reply: dict[str, Any], label: str) -> dict[str, Any]:
    return next(one for one in reply["working"] if one["label"] == label)


# --- ohms -------------------------------------------------------------------------------------------


@pytest.mark.source("derived")
def test_no_ohms_are_told_to_be_less_than_nothing(ask: Any) -> None:
    # Reading and leads are 0.2 ohm, each ±(0.5 % + 2 counts of 0.1), 0.201: in quadrature 0.284.
    reply = ask(SLUG, kind="current", relay_coil_ohms="0.2", lead="0.2")
    assert result(reply, "relay_coil_ohms")["band"] == "0.00 to 0.28 Ω"


@pytest.mark.parametrize(
    ("ohms", "said"),
    [("999", "999.00 Ω"), ("1000", "1.00 kΩ"), ("999 kohm", "999.00 kΩ"), ("1 Mohm", "1.00 MΩ")],
)
def test_ohms_are_said_in_the_unit_that_a_technician_says_them_in(ask: Any, ohms: str, said: str) -> None:
    # Common practice, no source: 1000 ohm are a kilohm, 1000 kilohm a megohm.
    assert result(ask(SLUG, kind="potential", coil_ohms=ohms, lead="0"), "coil_ohms")["text"] == said


# --- the PTC ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("first", "again", "said"),
    [
        ("200", "160", "20.0 %"),
        ("160", "200", "20.0 %"),
        ("22", "22", "0.0 %"),
        ("0", "0", "0.0 %"),
        ("OL", "OL", "0.0 %"),
        ("OL", "22", "they do not agree"),
    ],
)
@pytest.mark.source("derived")
def test_two_readings_differ_by_a_share_of_the_larger(ask: Any, first: str, again: str, said: str) -> None:
    reply = ask(SLUG, **{**PTC, "ptc_ohms": first, "ptc_ohms_again": again})
    assert step(reply, "Two readings of a cold disc")["result"] == said


@pytest.mark.parametrize(("band", "entry"), [("10", "25 °C"), ("10.1", "")])
def test_no_temperature_is_offered_to_a_thermometer_wider_than_the_room(ask: Any, band: str, entry: str) -> None:
    # 15 to 35 °C hold a thermometer of ±10 K at 25 °C, and no coarser one at any temperature.
    found = finding(ask(SLUG, **{**PTC, "ptc_ohms": "OL", "ptc_ohms_again": "OL"}, thermometer_band=band), "device")
    if entry:
        assert found["verdict"] == "undecided"
    assert (found["decider"]["enter_in"], found["decider"]["entry"]) == ("ptc_temperature", entry)


@pytest.mark.parametrize(("rest", "said"), [("10", "undecided"), ("9.9", "within")])
def test_only_a_rested_open_disc_speaks_against_a_start(ask: Any, rest: str, said: str) -> None:
    # Common practice, no source: ten minutes without power, and it is cold; a hot one reads open and has started it.
    typed = {**PTC, "ptc_ohms": "OL", "ptc_ohms_again": "OL", "ptc_rest": rest, "with_device": "started_released"}
    found = finding(ask(SLUG, **typed), "device")
    assert found["verdict"] == said
    assert ("contradict" in found["sentence"]) is (said == "undecided")


@pytest.mark.parametrize(("rest", "hot"), [("4.9", True), ("5", False), ("5.4", False)])
@pytest.mark.source("trade-memory")
def test_a_ptc_counts_as_hot_for_five_minutes(ask: Any, rest: str, hot: bool) -> None:
    # From memory: at least 5 min unplugged before a start with a PTC.
    found = finding(ask(SLUG, **{**HUMS, "start_rest": rest, "with_substitute": ""}), "device")
    assert ("is hot and starts nothing" in found["sentence"]) is hot


# --- the start --------------------------------------------------------------------------------------


@pytest.mark.parametrize(("volts", "said"), [("103.5", "outside"), ("103.4", "undecided")])
@pytest.mark.source("common-practice")
def test_humming_accuses_at_nine_tenths_of_the_plate_and_above(ask: Any, volts: str, said: str) -> None:
    # Common practice, no source: 90 % of 115 V are 103.5 V.
    assert verdict(ask(SLUG, **{**HUMS, **EXACT, "start_volts": volts}), "device") == said


@pytest.mark.source("derived")
def test_what_is_left_in_the_start_lead_is_told_with_the_band_of_its_counts(ask: Any) -> None:
    # 2 A of 10 A, each ±0.02 A: 1.98 / 10.02 and 2.02 / 9.98. 0.01 A may be nothing at all.
    typed = {**LEFT, "start_lead_first": "10", "clamp_counts": "2", "clamp_resolution": "0.01"}
    left = result(ask(SLUG, **typed, start_lead_later="2"), "left")
    assert (left["value"], left["band"]) == ("20.0", "19.8 to 20.2 %")
    left = result(ask(SLUG, **typed, start_lead_later="0.01"), "left")
    assert (left["value"], left["band"]) == ("0.1", "0.0 to 0.3 %")


@pytest.mark.parametrize("first", ["0.1", "1"])
def test_few_amps_in_the_start_lead_are_amps(ask: Any, first: str) -> None:
    assert verdict(ask(SLUG, **{**LEFT, "start_lead_first": first}, start_lead_later="0"), "start-lead") == "within"


@pytest.mark.parametrize(
    ("later", "entry"),
    [
        # 5 % of 5.3 A are 0.265 A; two counts of each step are taken off and added to the start.
        ("0.6", "0.1 A"),  # 0.4 / 5.5 is 7.3 %
        ("0.3", "0.01 A"),  # 0.1 / 5.5 is 1.8 %, 0.28 / 5.32 is 5.26 %
        ("0.27", "0.001 A"),  # 0.25 / 5.32 is 4.7 %, 0.268 / 5.302 is 5.05 %
    ],
)
def test_the_least_finer_clamp_that_decides_is_named(ask: Any, later: str, entry: str) -> None:
    typed = {**LEFT, "start_lead_later": later, "clamp_counts": "2", "clamp_resolution": "1"}
    found = finding(ask(SLUG, **typed), "start-lead")
    assert (found["decider"]["enter_in"], found["decider"]["entry"]) == ("clamp_resolution", entry)
    assert found["decider"]["resolution"].startswith(entry)
    assert verdict(ask(SLUG, **{**typed, "clamp_resolution": entry}), "start-lead") == "outside"


@pytest.mark.parametrize(
    ("seconds", "entry"),
    [("3.1", "0.1 s"), ("3.4", "0.1 s"), ("3.05", "0.01 s"), ("3.01", "0.01 s")],
)
def test_the_least_finer_stopwatch_that_decides_is_named(ask: Any, seconds: str, entry: str) -> None:
    # Common practice, no source: a start current that is there after 3 s stays. A thumb is good to half a second.
    typed = {**LEFT, "start_lead_later": "5.2", "start_lead_time": seconds}
    found = finding(ask(SLUG, **typed), "start-lead")
    assert (found["decider"]["enter_in"], found["decider"]["entry"]) == ("stopwatch_resolution", entry)
    assert verdict(ask(SLUG, **{**typed, "stopwatch_resolution": entry}), "start-lead") == "outside"


# --- figures of the relay ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("changed", "name", "said"),
    [
        ({"drop_out_volts": "210"}, "drop-out", None),
        ({"drop_out_volts": "211"}, "drop-out", "outside"),
        ({"coil_rating_volts": "210"}, "coil-rating", None),
        ({"coil_rating_volts": "209"}, "coil-rating", "outside"),
    ],
)
def test_the_running_volts_of_a_coil_are_held_against_its_figures_as_they_are(
    ask: Any, changed: dict[str, str], name: str, said: str | None
) -> None:
    reply = ask(SLUG, kind="potential", coil_volts_running="210", **EXACT, **changed)
    assert [one["verdict"] for one in reply["findings"] if one["name"] == name] == ([said] if said else [])


@pytest.mark.parametrize(
    ("typed", "drawn"),
    [
        ({"run_amps": "2", "drop_out_amps": "4"}, True),  # runs at, drop-out, drop-out above
        ({"locked_rotor_amps": "13", "pick_up_amps": "6.5"}, True),
        ({"drop_out_amps": "4", "pick_up_amps": "6.5"}, False),  # nothing of the motor to hold them against
        ({"run_amps": "2", "locked_rotor_amps": "13"}, False),  # nothing of the relay
    ],
)
def test_the_amps_of_motor_and_relay_are_drawn_where_both_are_known(
    ask: Any, typed: dict[str, str], drawn: bool
) -> None:
    reply = ask(SLUG, kind="current", **typed)
    assert ("relay-amps" in [one["name"] for one in reply["figures"]]) is drawn


@pytest.mark.parametrize(
    ("typed", "name", "said"),
    [
        # Common practice, no source: 1.2 times the running amps; 0.8 times 90 % of the locked-rotor amps.
        (
            {"kind": "current", "run_amps": "2", "drop_out_amps": "2.4"},
            "drop-out",
            "The relay drops out at 2.40 A, not above 2.40 A: ",
        ),
        (
            {"kind": "current", "locked_rotor_amps": "13", "pick_up_amps": "9.4"},
            "pick-up",
            "The relay pulls in at 9.40 A, not below 9.36 A: ",
        ),
        (
            {
                "kind": "potential",
                "coil_volts_start": "190",
                "start_volts": "115",
                "plate_volts": "115",
                "pick_up_volts": "180",
            },
            "pick-up",
            "The relay's pick up is 180 V and the coil's volts, brought from 115.0 V to 90 % of the plate, are 171 V: ",
        ),
    ],
)
@pytest.mark.source("common-practice")
def test_a_misfit_is_told_with_both_of_its_figures(ask: Any, typed: dict[str, str], name: str, said: str) -> None:
    assert finding(ask(SLUG, **typed), name)["sentence"].startswith(said)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"kind": "current", "drop_out_amps": "9", "pick_up_amps": "9"}, "9.0 A is not below the pick-up amps"),
        ({"kind": "potential", "drop_out_volts": "90", "pick_up_volts": "90"}, "volts of the potential relay, 90.0 V."),
        ({"kind": "ptc", "ptc_ohms": "22", "ptc_data_least": "20", "ptc_data_most": "20"}, "20.0 Ω is not more than"),
        ({"kind": "ptc", "ptc_ohms": "22", "ptc_data_least": "20", "ptc_data_most": "20"}, "the least, 20.0 Ω."),
    ],
)
def test_a_refusal_names_the_figures_that_contradict_each_other(ask: Any, typed: dict[str, str], said: str) -> None:
    ((_, message),) = messages(ask(SLUG, **typed))
    assert said in message


@pytest.mark.source("derived")
def test_the_volts_of_a_coil_are_brought_to_the_least_good_volts_in_one_line(ask: Any) -> None:
    # 201 V · 0.9 · 115 / 120 are 173.4 V.
    typed = {"kind": "potential", "coil_volts_start": "201", "start_volts": "120", "plate_volts": "115"}
    line = step(ask(SLUG, **typed), "Coil volts on the least good volts")
    assert (line["put_in"], line["result"]) == ("201.0 V · 90 % · 115 V / 120.0 V", "173 V")
