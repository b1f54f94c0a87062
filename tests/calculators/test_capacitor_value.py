"""Capacitor value: published numbers, both sides of every limit, and the traps of the trade."""

from __future__ import annotations

from typing import Any

import pytest
from uncertainties import ufloat

from calculators.capacitor_value.case import amps_through, microfarads_from
from tests.calculators.answers import finding, messages, result, value, verdict

SLUG = "capacitor-value"
ALONE = {"connection": "alone"}
EXACT_METER = {"capacitance_meter_percent": "0", "capacitance_meter_counts": "0"}
FINE_METER = {"capacitance_meter_resolution": "0.01"}  # 2 % + 5 counts
RUN = {"kind": "run", **ALONE}
START = {"kind": "start", **ALONE}
EXACT_LIVE = {
    "clamp_percent": "0",
    "clamp_counts": "0",
    "voltmeter_percent": "0",
    "voltmeter_counts": "0",
    "frequency_band": "0",
}


def names(reply: dict[str, Any]) -> list[tuple[str, str]]:
    return [(one["name"], one["verdict"]) for one in reply["findings"]]


# --- published numbers ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("marked", "volts", "hertz", "amps"),
    [
        ("60", "110", "60", "2.49"),  # NCERT, Physics, Class XII, exercise: 2.49 A (secondary copy)
        ("25", "200", "60", "1.88"),  # Thyagarajan, Engineering Basics, chapter 4: 1.88 A (textbook companion)
        ("30", "240", "50", "2.26"),  # Bird, Electrical Circuit Theory and Technology, chapter 16: 2.26 A (companion)
    ],
)
@pytest.mark.source("ncert-physics-12", "thyagarajan-basics-4", "bird-circuits-16")
def test_the_amps_of_a_marked_value_are_those_of_the_textbooks(
    ask: Any, marked: str, volts: str, hertz: str, amps: str
) -> None:
    typed = {"capacitor_amps": amps, "capacitor_volts": volts, "supply_frequency": hertz}
    reply = ask(SLUG, **RUN, marked=marked, **typed)
    assert value(reply, "expected_amps") == amps
    assert verdict(reply, "capacitance") == "within"


@pytest.mark.source("thyagarajan-basics-4")
def test_twice_the_frequency_carries_twice_the_amps_and_half_of_it_half() -> None:
    # Thyagarajan, Engineering Basics, chapter 4: 25 µF at 200 V carries 3.77 A at 120 Hz and 0.94 A at 30 Hz.
    assert f"{amps_through(25.0, 200.0, 120.0):.2f}" == "3.77"
    assert f"{amps_through(25.0, 200.0, 30.0):.2f}" == "0.94"


@pytest.mark.source("bird-circuits-16")
def test_the_printed_amps_of_a_textbook_give_back_its_capacitor(ask: Any) -> None:
    # Bird, chapter 16, turned round: 2.26 A at 240 V and 50 Hz is 29.97 µF; the book has 30 µF.
    typed = {"capacitor_amps": "2.26", "capacitor_volts": "240", "supply_frequency": "50"}
    assert value(ask(SLUG, **RUN, marked="19", **typed), "live_capacitance") == "29.97"


@pytest.mark.source("kuphaldt-lessons")
def test_the_capacitor_that_cancels_a_load_has_its_vars() -> None:
    # Kuphaldt, Lessons In Electric Circuits, AC, power factor: 119.998 var at 120 V and 60 Hz takes 22.105 µF
    # (printed through a reactance rounded to 120.002 ohm; the exact figure is 22.1045).
    assert microfarads_from(119.998 / 120.0, 120.0, 60.0) == pytest.approx(22.105, abs=0.001)


@pytest.mark.parametrize(("hertz", "constant"), [("60", "2652.6"), ("50", "3183.1")])
@pytest.mark.source("common-practice")
def test_the_constants_of_the_trade_stand_behind_amps_and_volts(hertz: str, constant: str) -> None:
    # Common practice, no source: 2650 at 60 Hz and 3180 at 50 Hz; computed 2652.6 and 3183.1.
    assert f"{microfarads_from(1.0, 1.0, float(hertz)):.1f}" == constant


@pytest.mark.source("uncertainties-program")
def test_the_band_of_amps_and_volts_agrees_with_a_general_uncertainty_library(ask: Any) -> None:
    # Referee: uncertainties. 8.3 A ±0.1 and 240 V ±2 at 60 Hz are 91.7 µF ±1.3; with a frequency good to 1 % ±1.6.
    typed = {
        "kind": "run",
        "marked": "92",
        "capacitor_amps": "8.3",
        "capacitor_volts": "240",
        "supply_frequency": "60",
        "clamp_percent": "0",
        "clamp_counts": "1",
        "clamp_resolution": "0.1",
        "voltmeter_percent": "0",
        "voltmeter_counts": "2",
        "voltmeter_resolution": "1",
    }
    for percent, hertz in (("0", 60.0), ("1", ufloat(60.0, 0.6))):
        known = 1e6 * ufloat(8.3, 0.1) / (2.0 * 3.141592653589793 * hertz * ufloat(240.0, 2.0))
        reply = result(ask(SLUG, **typed, frequency_band=percent), "live_capacitance")
        assert reply["value"] == "91.7"
        low, high = reply["band"].removesuffix(" µF").split(" to ")
        assert (float(high) - float(low)) / 2.0 == pytest.approx(1.3 if percent == "0" else 1.6, abs=0.06)
        assert float(low) == pytest.approx(known.n - known.s, abs=0.051)
        assert float(high) == pytest.approx(known.n + known.s, abs=0.051)


@pytest.mark.source("eia-463-a")
def test_an_american_range_is_taken_as_it_is_printed(ask: Any) -> None:
    # EIA-463-A, from memory: 88-108 µF, the low end and a fifth to a quarter above it.
    reply = ask(SLUG, **START, marked="88", marked_high="108", measured="95")
    assert (value(reply, "least"), value(reply, "most")) == ("88.0", "108.0")


# --- the trade's own worked cases -------------------------------------------------------------------


@pytest.mark.source("common-practice")
def test_seventy_one_microfarads_are_out_of_88_to_108_with_the_whole_band(ask: Any) -> None:
    # Common practice, no source: 71 + 1.9 = 72.9 < 88.
    reply = ask(SLUG, **START, marked="88", marked_high="108", measured="71.0", bleed_resistor="15", ohms="14.9k")
    assert names(reply) == [("capacitance", "outside")]
    assert "with the whole band below 88.0 µF as printed" in finding(reply, "capacitance")["sentence"]
    assert result(reply, "measured")["band"] == "69.1 to 72.9 µF"


@pytest.mark.source("derived")
def test_four_point_seven_one_straddles_the_low_end_of_five_microfarads(ask: Any) -> None:
    # Derived: 4.75 is the low end of 5 µF −5 %; 2 % + 5 counts of 0.01 is ±0.14, so 4.57 to 4.85.
    reply = ask(SLUG, **RUN, **FINE_METER, marked="5", tolerance="5", measured="4.71")
    assert names(reply) == [("capacitance", "undecided")]
    assert result(reply, "measured")["band"] == "4.57 to 4.85 µF"
    assert value(reply, "least") == "4.75"


@pytest.mark.source("common-practice")
def test_a_twelve_microfarad_capacitor_that_reads_three_tenths_is_open(ask: Any) -> None:
    # Common practice, no source: less than 5 % of the marking is open; 5 % of 12 is 0.6.
    reply = ask(SLUG, **RUN, **FINE_METER, marked="12", tolerance="5", measured="0.3")
    said = finding(reply, "capacitance")
    assert said["sentence"].startswith("Open: 0.30 µF")
    assert said["limit"]["key"] == "capacitors.open_share"
    assert any("parted inside by itself" in note for note in reply["notes"])


# --- both sides of every limit ----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "measured", "expected"),
    [
        # nothing printed: run ±6 %
        ({**RUN, "marked": "10"}, "9.39", "outside"),
        ({**RUN, "marked": "10"}, "9.40", "within"),
        ({**RUN, "marked": "10"}, "10.60", "within"),
        ({**RUN, "marked": "10"}, "10.61", "outside"),
        # nothing printed: start −10/+20 %
        ({**START, "marked": "100"}, "89.9", "outside"),
        ({**START, "marked": "100"}, "90.0", "within"),
        ({**START, "marked": "100"}, "120.0", "within"),
        ({**START, "marked": "100"}, "120.1", "outside"),
        # printed ±5 %
        ({**RUN, "marked": "45", "tolerance": "5"}, "42.7", "outside"),
        ({**RUN, "marked": "45", "tolerance": "5"}, "42.75", "within"),
        ({**RUN, "marked": "45", "tolerance": "5"}, "47.25", "within"),
        ({**RUN, "marked": "45", "tolerance": "5"}, "47.3", "outside"),
        # printed −0/+20 %
        ({**START, "marked": "100", "tolerance": "0", "tolerance_above": "20"}, "99.9", "outside"),
        ({**START, "marked": "100", "tolerance": "0", "tolerance_above": "20"}, "100", "within"),
        ({**START, "marked": "100", "tolerance": "0", "tolerance_above": "20"}, "120", "within"),
        # a printed range, on a run capacitor too
        ({**RUN, "marked": "88", "marked_high": "108"}, "108", "within"),
        ({**RUN, "marked": "88", "marked_high": "108"}, "108.1", "outside"),
    ],
)
def test_a_reading_is_judged_on_both_sides_of_each_end(
    ask: Any, typed: dict[str, str], measured: str, expected: str
) -> None:
    assert verdict(ask(SLUG, **typed, **EXACT_METER, measured=measured), "capacitance") == expected


@pytest.mark.parametrize(("measured", "opens"), [("0.49", "Open: "), ("0.50", "Low: "), ("0", "Open: ")])
def test_open_is_less_than_a_twentieth_of_the_marking(ask: Any, measured: str, opens: str) -> None:
    said = finding(ask(SLUG, **RUN, **EXACT_METER, marked="10", measured=measured), "capacitance")
    assert said["sentence"].startswith(opens)
    assert said["verdict"] == "outside"


def test_open_asks_for_the_low_end_of_a_printed_range(ask: Any) -> None:
    typed = {**START, **EXACT_METER, "marked": "88", "marked_high": "108"}
    assert finding(ask(SLUG, **typed, measured="4.3"), "capacitance")["sentence"].startswith("Open: ")
    assert finding(ask(SLUG, **typed, measured="4.4"), "capacitance")["sentence"].startswith("Low: ")


def test_a_reading_inside_whose_band_crosses_is_only_not_shown_abnormal(ask: Any) -> None:
    said = finding(ask(SLUG, **RUN, **FINE_METER, marked="5", tolerance="5", measured="4.80"), "capacitance")
    assert said["sentence"].startswith("Not shown abnormal: 4.80 µF")
    assert said["verdict"] == "within"
    clear = finding(ask(SLUG, **RUN, **FINE_METER, marked="5", tolerance="5", measured="5.00"), "capacitance")
    assert clear["sentence"].startswith("In value: ")


@pytest.mark.parametrize(("percent", "weak"), [("34", False), ("36", True)])
def test_a_very_wide_band_is_called_weak_evidence(ask: Any, percent: str, weak: bool) -> None:
    typed = {"capacitance_meter_percent": percent, "capacitance_meter_counts": "0"}
    said = finding(ask(SLUG, **RUN, **typed, marked="10", measured="10"), "capacitance")["sentence"]
    assert ("(weak evidence)" in said) is weak


def test_a_limit_of_the_handbook_is_named_where_the_can_prints_none(ask: Any) -> None:
    low = finding(ask(SLUG, **START, **EXACT_METER, marked="100", measured="80"), "capacitance")
    high = finding(ask(SLUG, **START, **EXACT_METER, marked="100", measured="130"), "capacitance")
    run = finding(ask(SLUG, **RUN, **EXACT_METER, marked="10", measured="8"), "capacitance")
    printed = finding(ask(SLUG, **RUN, **EXACT_METER, marked="10", tolerance="5", measured="8"), "capacitance")
    assert [one["limit"]["key"] for one in (low, high, run)] == [
        "capacitors.start_below",
        "capacitors.start_above",
        "capacitors.run_tolerance",
    ]
    assert printed["limit"] is None
    assert "by the printed tolerance" in printed["sentence"]


# --- traps ------------------------------------------------------------------------------------------


def test_an_electrolytic_in_value_is_not_proved_under_voltage(ask: Any) -> None:
    said = finding(ask(SLUG, **START, marked="88", marked_high="108", measured="98"), "capacitance")
    assert said["sentence"].startswith("In value, not proved under voltage: ")
    assert "leaks at full voltage passes it" in said["plain"]


@pytest.mark.parametrize("connection", ["unknown", "in_circuit"])
@pytest.mark.parametrize(
    "read", [{"measured": "98"}, {"measured": "40"}, {"ohms": "5"}, {"measured": "98", "ohms": "0"}]
)
def test_nothing_read_in_circuit_is_judged(ask: Any, connection: str, read: dict[str, str]) -> None:
    reply = ask(SLUG, kind="start", marked="88", marked_high="108", connection=connection, **read)
    assert {one["verdict"] for one in reply["findings"]} == {"undecided"}
    assert finding(reply, "connection")["decider"]["entry"] == "alone"


@pytest.mark.parametrize(("bleed", "judged"), [("4.9", False), ("5", True), ("15", True), ("OL", True)])
def test_a_bleed_resistor_of_few_ohms_fools_the_meter(ask: Any, bleed: str, judged: bool) -> None:
    reply = ask(SLUG, **START, marked="88", marked_high="108", measured="71", bleed_resistor=bleed)
    expected = [("capacitance", "outside")] if judged else [("bleed-across", "undecided")]
    assert names(reply) == expected


def test_the_ohms_of_a_bleed_resistor_are_not_leakage(ask: Any) -> None:
    reply = ask(SLUG, **START, marked="88", marked_high="108", measured="98", bleed_resistor="15", ohms="14.9k")
    assert names(reply) == [("capacitance", "within")]
    assert any("are its bleed resistor's, not leakage" in note for note in reply["notes"])


def test_fifteen_kilohms_without_a_word_of_a_bleed_resistor_are_undecided(ask: Any) -> None:
    reply = ask(SLUG, **START, marked="88", marked_high="108", measured="98", ohms="15k")
    assert ("ohms", "undecided") in names(reply)
    assert "may be its bleed resistor, or a leak" in finding(reply, "ohms")["sentence"]


@pytest.mark.parametrize(
    ("ohms", "bleed", "found"),
    [
        ("0.2", "15", ("ohms", "outside")),
        ("0", "", ("ohms", "outside")),
        ("300", "", ("ohms", "outside")),  # no bleed resistor has so few ohms
        ("60k", "OL", ("ohms", "outside")),  # 100 kΩ is the least alone
        ("120k", "OL", None),
        ("OL", "OL", None),
        ("10k", "15", ("ohms", "outside")),  # 1/(1/10 − 1/15) = 30 kΩ beside the resistor
        ("13k", "15", ("ohms", "undecided")),  # 97.5 kΩ beside it, but a resistor of 13.5 kΩ would leave 351 kΩ
        ("14k", "15", None),  # 210 kΩ beside it
        ("OL", "15", ("bleed-resistor", "outside")),
        ("16.4k", "15", None),
        ("20k", "15", ("bleed-resistor", "outside")),
    ],
)
def test_the_settled_ohms_show_a_short_a_leak_or_an_open_bleed_resistor(
    ask: Any, ohms: str, bleed: str, found: tuple[str, str] | None
) -> None:
    reply = ask(SLUG, **START, marked="88", marked_high="108", bleed_resistor=bleed, ohms=ohms)
    assert [one for one in names(reply) if one[0] != "capacitance"] == ([found] if found else [])


@pytest.mark.parametrize(("ohms", "word"), [("0.9", "It conducts"), ("0.5", "Shorted"), ("1.2", "It conducts")])
def test_a_short_is_only_called_that_with_the_whole_band(ask: Any, ohms: str, word: str) -> None:
    said = finding(ask(SLUG, **RUN, marked="10", bleed_resistor="OL", ohms=ohms), "ohms")
    assert said["sentence"].startswith(word)
    assert said["verdict"] == "outside"


def test_a_capacitor_that_conducts_is_not_called_in_value(ask: Any) -> None:
    reply = ask(SLUG, **START, marked="88", marked_high="108", measured="98", bleed_resistor="15", ohms="0.3")
    assert names(reply) == [("ohms", "outside")]
    assert any("microfarads are not judged" in note for note in reply["notes"])


def test_good_ohms_alone_give_no_verdict(ask: Any) -> None:
    reply = ask(SLUG, **START, marked="88", marked_high="108", bleed_resistor="15", ohms="15k")
    assert names(reply) == [("capacitance", "undecided")]
    assert finding(reply, "capacitance")["decider"]["enter_in"] == "measured"


def test_a_meter_that_shows_open_line_asks_for_the_ohms_and_then_for_the_range(ask: Any) -> None:
    typed = {**START, "marked": "88", "marked_high": "108", "measured": "OL"}
    assert finding(ask(SLUG, **typed), "over-range")["decider"]["enter_in"] == "ohms"
    again = ask(SLUG, **typed, ohms="OL", bleed_resistor="OL")
    assert finding(again, "over-range")["decider"]["enter_in"] == "measured"
    assert names(ask(SLUG, **typed, ohms="0.3", bleed_resistor="OL")) == [("ohms", "outside")]


@pytest.mark.parametrize(
    ("ohms", "connection", "found"),
    [
        ("OL", "alone", None),
        ("1.01", "alone", None),
        ("1.00", "alone", "undecided"),  # its band reaches below, and this limit protects a person
        ("0.99", "alone", "outside"),
        ("0.99", "in_circuit", "undecided"),
    ],
)
def test_a_path_to_the_case_stops_and_its_absence_is_only_a_note(
    ask: Any, ohms: str, connection: str, found: str | None
) -> None:
    reply = ask(SLUG, kind="run", marked="10", connection=connection, case_ohms=ohms)
    case = [one for one in reply["findings"] if one["name"] == "case"]
    assert [one["verdict"] for one in case] == ([found] if found else [])
    assert all(one["stop"] for one in case)
    assert any("to the case that an ohmmeter can see" in note for note in reply["notes"]) is (found is None)


def test_a_damaged_can_stops_whatever_it_reads(ask: Any) -> None:
    reply = ask(SLUG, **RUN, marked="10", measured="10", can="damaged")
    assert names(reply) == [("can", "outside")]
    assert reply["findings"][0]["stop"]
    assert reply["findings"][0]["next"]["procedure"] == "discharge-capacitors"


@pytest.mark.parametrize(
    "typed",
    [
        {},
        {"measured": "5"},
        {"measured": "10", "connection": "unknown"},
        {"ohms": "0.2"},
        {"capacitor_amps": "0.1", "capacitor_volts": "240", "supply_frequency": "50"},
    ],
)
def test_nobody_is_sent_to_measure_a_can_that_can_burst(ask: Any, typed: dict[str, str]) -> None:
    reply = ask(SLUG, **{**RUN, "marked": "10", "can": "damaged", **typed})
    assert [one["next"]["text"] for one in reply["findings"]] == [
        "Leave it alone to cool; a technician discharges it from a distance."
    ]


@pytest.mark.parametrize(
    ("kind", "marked", "noted"),
    [
        ("run", "88", "see whether this is a start capacitor"),
        ("start", "5", "see whether this is a run capacitor"),
        ("run", "35", ""),
        ("start", "88", ""),
    ],
)
def test_an_unusual_size_asks_whether_it_is_the_other_kind(ask: Any, kind: str, marked: str, noted: str) -> None:
    notes = " ".join(ask(SLUG, kind=kind, marked=marked)["notes"])
    assert ("see whether this is a" in notes) is bool(noted)
    assert noted in notes


# --- while it runs ----------------------------------------------------------------------------------

LIVE = {"capacitor_volts": "240", "supply_frequency": "50"}


@pytest.mark.parametrize(
    ("amps", "expected"),
    [
        # 30 µF ±6 % is 28.2 to 31.8 µF, which carry 2.1262 to 2.3977 A at 240 V and 50 Hz
        ("2.12", "outside"),
        ("2.13", "within"),
        ("2.39", "within"),
        ("2.40", "outside"),
    ],
)
def test_running_amps_are_held_against_the_marking_at_their_own_volts(ask: Any, amps: str, expected: str) -> None:
    reply = ask(SLUG, kind="run", marked="30", **LIVE, **EXACT_LIVE, capacitor_amps=amps)
    assert {one["verdict"] for one in reply["findings"]} == {expected}


def test_no_amps_at_running_volts_are_an_open_capacitor(ask: Any) -> None:
    reply = ask(SLUG, kind="run", marked="30", **LIVE, capacitor_amps="0")
    assert reply["findings"][0]["sentence"].startswith("Open: 0.00 A at 240.0 V and 50 Hz make 0.0 µF")
    assert reply["findings"][0]["next"]["procedure"] == "make-safe-prove-dead"


def test_the_amps_of_a_start_do_not_judge_a_start_capacitor(ask: Any) -> None:
    for amps in ("0", "7.5", "20"):
        reply = ask(SLUG, kind="start", marked="88", marked_high="108", **LIVE, capacitor_amps=amps)
        assert names(reply) == [("capacitance", "undecided")]
        assert finding(reply, "capacitance")["decider"]["enter_in"] == "measured"


def test_the_meter_decides_where_both_were_read(ask: Any) -> None:
    typed = {**RUN, "marked": "30", "measured": "30", **LIVE}
    assert names(ask(SLUG, **typed, capacitor_amps="2.26")) == [("capacitance", "within")]
    assert names(ask(SLUG, **typed, capacitor_amps="2.10")) == [("capacitance", "within")]


def test_amps_that_contradict_a_good_measurement_off_the_circuit_condemn_nothing(ask: Any) -> None:
    # common practice, no source: two readings of one part that cannot both be right are both read again
    typed = {**RUN, "marked": "30", **LIVE, "capacitor_amps": "1.5"}
    reply = ask(SLUG, **typed, measured="30")
    assert names(reply) == [("live-capacitance", "undecided"), ("capacitance", "within")]
    assert "contradict each other" in finding(reply, "live-capacitance")["sentence"]
    assert "connectors tight" in finding(reply, "live-capacitance")["decider"]["condition"]
    assert names(ask(SLUG, **typed, measured="20")) == [("capacitance", "outside"), ("live-capacitance", "outside")]


@pytest.mark.parametrize(
    ("rated", "expected"),
    [("240", None), ("239", "watch"), ("219", "watch"), ("218", "outside")],  # 240/218 is 110.1 %
)
def test_more_volts_than_printed_are_watched_and_then_outside(ask: Any, rated: str, expected: str | None) -> None:
    reply = ask(SLUG, kind="run", marked="30", **LIVE, **EXACT_LIVE, capacitor_amps="2.26", rated_volts=rated)
    found = [one["verdict"] for one in reply["findings"] if one["name"] == "volts"]
    assert found == ([expected] if expected else [])


# --- refusals ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "field", "says"),
    [
        ({"kind": ""}, "kind", "choose start or run"),
        ({"marked": ""}, "marked", "Marked value is missing"),
        ({"marked": "-5"}, "marked", "is below zero"),
        ({"marked_high": "10"}, "marked_high", "it must be above the marked value"),
        ({"marked": "45", "marked_high": "5"}, "marked_high", "Two values on a dual capacitor are not a range"),
        ({"marked": "5", "marked_high": "45"}, "marked_high", "more than 2 times the low end"),
        ({"marked_high": "12", "tolerance": "5"}, "tolerance", "a printed range already holds it"),
        ({"marked_high": "12", "tolerance_above": "5"}, "tolerance_above", "a printed range already holds it"),
        ({"tolerance_above": "20"}, "tolerance", "Enter the downward one too"),
        ({"tolerance": "0"}, "tolerance", "leaves no room for any capacitor"),
        ({"measured": "-3"}, "measured", "means charge: discharge it"),
        ({"ohms": "-3"}, "ohms", "means charge: discharge it"),
        ({"measured": "5 V"}, "measured", "this field takes a capacitance"),
        (
            {"capacitor_amps": "2", "supply_frequency": "60"},
            "capacitor_volts",
            "Volts across the capacitor are missing",
        ),
        (
            {"capacitor_volts": "240", "supply_frequency": "60"},
            "capacitor_amps",
            "Amps through the capacitor are missing",
        ),
        ({"capacitor_amps": "2", "capacitor_volts": "240"}, "supply_frequency", "Pick 60 Hz or 50 Hz"),
        (
            {"capacitor_amps": "2", "capacitor_volts": "240", "supply_frequency": "400"},
            "supply_frequency",
            "not in the",
        ),
        ({"capacitor_amps": "2", "capacitor_volts": "0", "supply_frequency": "60"}, "capacitor_volts", "20 to 1000 V"),
    ],
)
def test_what_cannot_be_true_is_refused_at_its_field(ask: Any, typed: dict[str, str], field: str, says: str) -> None:
    found = messages(ask(SLUG, **{"kind": "run", "marked": "10", **typed}))
    assert [one for one, _ in found] == [field]
    assert says in found[0][1]


def test_a_reading_of_a_twentieth_of_an_ohm_is_said_as_it_was_read(ask: Any) -> None:
    reply = ask(SLUG, **RUN, marked="10", ohms="0.05", ohmmeter_resolution="0.01")
    assert finding(reply, "ohms")["sentence"].startswith("Shorted: 0.05 Ω across it")
