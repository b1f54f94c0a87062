"""What cannot be used in a voltage-drop form, and the sentence for each."""

from __future__ import annotations

from typing import Any

import pytest

from tests.calculators.answers import messages

SLUG = "voltage-drop"
Typed = str | tuple[str, str]


CORD: dict[str, Typed] = {"plate_volts": "230", "cord_conductor": "iec-5-0.75", "cord_length": "10"}


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        (
            {**CORD, "plate_volts": "60"},
            "plate_volts",
            "Plate voltage: 60 is outside what this check takes, 70 to 270 V. Check the number and its unit.",
        ),
        ({**CORD, "plate_volts": ""}, "plate_volts", "Plate voltage is missing. Enter a number, 70 to 270 V."),
        (
            {**CORD, "idle_volts": "400"},
            "idle_volts",
            "Idle volts: 400 is outside what this check takes, 70 to 270 V. Check the number and its unit.",
        ),
        (
            {**CORD, "run_power_factor": "1.2"},
            "run_power_factor",
            "Running power factor: 1.2 is outside what this check takes, 0.05 to 1. Check the number and its unit.",
        ),
        (
            {**CORD, "start_power_factor": "1.03"},
            "start_power_factor",
            "Start power factor: 1.03 is outside what this check takes, 0.05 to 1. Check the number and its unit.",
        ),
        (
            {**CORD, "cord_loop": "-0.1"},
            "cord_loop",
            "Measured loop of the cord: -0.1 is below zero. Enter a number, 0 to 50 Ω. "
            "Ohms below zero mean that the leads were zeroed on a worse contact: zero them again.",
        ),
        (
            {**CORD, "source_ohms": "-0.2"},
            "source_ohms",
            "Source resistance, if known: -0.2 is below zero. Enter a number, 0 to 20 Ω. "
            "Loaded volts above the idle volts give this: take both again.",
        ),
        (
            {**CORD, "joint_count": "1.5"},
            "joint_count",
            "Plug joints: 1.5 is not a whole number. Enter a number, 0 to 20.",
        ),
        (
            {**CORD, "cord_length": ""},
            "cord_length",
            "Cord length is missing. Enter its length one way, from end to end.",
        ),
        (
            {"plate_volts": "230", "branch_conductor": "iec-1-2-2.5"},
            "branch_length",
            "Branch circuit length is missing. Enter its length one way, from end to end.",
        ),
        (
            {"plate_volts": "230", "cord_length": "10"},
            "cord_conductor",
            "Cord conductor is missing. Choose the size printed on the jacket; a size that is not listed is not in the "
            "table: take the next thinner one, or measure the loop.",
        ),
        (
            {**CORD, "branch_length": "10"},
            "branch_conductor",
            "Branch circuit conductor is missing. Choose the size printed on the jacket; a size that is not listed is "
            "not in the table: take the next thinner one, or measure the loop.",
        ),
        (
            {"plate_volts": "230", "run_amps": "3"},
            "cord_conductor",
            "Cord conductor: nothing of the path is entered yet. Choose the cord or the branch circuit with its "
            "length, or enter a measured loop or source resistance.",
        ),
        (
            {**CORD, "loaded_volts": "226", "load_amps": "8"},
            "idle_volts",
            "Idle volts are missing. A source resistance needs the volts without and with the known load.",
        ),
        (
            {**CORD, "idle_volts": "230", "loaded_volts": "226"},
            "load_amps",
            "Amps of the known load are missing. Enter what the clamp shows while it is on.",
        ),
        (
            {**CORD, "idle_volts": "230", "load_amps": "8"},
            "loaded_volts",
            "Volts with the known load are missing. Enter what the meter shows while it is on.",
        ),
        (
            {**CORD, "idle_volts": "230", "loaded_volts": "231", "load_amps": "8"},
            "loaded_volts",
            "Volts with the known load: 231.00 V is more than the idle 230.00 V. A load cannot raise the volts: "
            "something else on the circuit was switched between the readings. Take both again, one right after the "
            "other.",
        ),
        (
            {**CORD, "idle_volts": "230", "loaded_volts": "226", "load_amps": "8", "source_ohms": "0.5"},
            "source_ohms",
            "Source resistance is typed, and also follows from the readings with a known load. Empty one of the two.",
        ),
        (
            {**CORD, "run_amps": "12", "start_amps": "2"},
            "start_amps",
            "Start amps: 2.00 A is less than the running amps, 12.00 A. A motor takes its most while it does not turn: "
            "check that the two are not swapped.",
        ),
        (
            {**CORD, "run_amps": "3", "idle_volts": "121", "voltmeter_resolution": "100", "voltmeter_percent": "0"},
            "voltmeter_resolution",
            "Voltmeter: with this percentage, counts and resolution it is good to ±200.0 V only, and cannot tell "
            "121.0 V from nothing. Copy the three from its data sheet, for the range in use.",
        ),
        (
            {**CORD, "cord_length": ("10", "V")},
            "cord_length",
            "Cord length: the unit V does not fit. It takes m or ft.",
        ),
        (
            {**CORD, "run_amps": "3 V"},
            "run_amps",
            "Running amps: “3 V” is volts, but this field takes amps in A or mA.",
        ),
    ],
)
def test_each_entry_that_cannot_be_used_is_refused_with_a_reason(
    ask: Any, typed: dict[str, Typed], field: str, sentence: str
) -> None:
    assert messages(ask(SLUG, **typed)) == [(field, sentence)]


def test_a_size_that_the_table_lacks_cannot_be_chosen(ask: Any) -> None:
    [(field, sentence)] = messages(ask(SLUG, **{**CORD, "cord_conductor": "1.25 mm²"}))
    assert field == "cord_conductor"
    assert sentence.startswith("Cord conductor: “1.25 mm²” is not in the list. Choose one of: (empty), iec-5-0.5, ")


def test_before_the_first_limit_nothing_is_judged(ask: Any) -> None:
    reply = ask(SLUG, date="2020-01-01", **CORD, run_amps="3")
    assert reply["problems"][0]["message"].startswith("No value of the limit ")
