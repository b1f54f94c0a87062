"""Capacitor value: the figures that a reader takes away, worked by hand, and the units that ohms are said in."""

from __future__ import annotations

from typing import Any

import pytest

from tests.calculators.answers import finding, result, value, verdict

SLUG = "capacitor-value"
RUN = {"kind": "run", "connection": "alone"}
LIVE = {"capacitor_volts": "240", "supply_frequency": "50"}
EXACT = {
    f"{name}_{part}": "0"
    for name in ("capacitance_meter", "ohmmeter", "clamp", "voltmeter")
    for part in ("percent", "counts")
}


# --- microfarads ------------------------------------------------------------------------------------


@pytest.mark.source("derived")
def test_how_far_a_value_is_off_is_told_in_percent_of_the_marking(ask: Any) -> None:
    # 4.71 of 5 is 94.2 %. 2.10 A at 240 V and 50 Hz are 27.85 µF, 92.84 % of 30.
    assert value(ask(SLUG, **RUN, marked="5", measured="4.71"), "off_the_mark") == "-5.8"
    assert value(ask(SLUG, **RUN, marked="30", **LIVE, capacitor_amps="2.10"), "live_off_the_mark") == "-7.2"


@pytest.mark.source("derived")
def test_no_capacitance_is_told_to_be_less_than_nothing(ask: Any) -> None:
    # 2 % of 0.05 µF and 5 counts of 0.1 µF are ±0.501; 0.06 A at 240 V and 50 Hz are 0.7958 µF, ±1.33 by 0.1 A.
    reply = ask(SLUG, **RUN, marked="10", measured="0.05")
    assert result(reply, "measured")["band"] == "0.00 to 0.55 µF"
    assert "(band 0.00 to 0.55 µF)" in finding(reply, "capacitance")["sentence"]
    clamp = {"clamp_percent": "0", "clamp_counts": "1", "clamp_resolution": "0.1"}
    reply = ask(SLUG, **RUN, marked="10", **LIVE, **clamp, capacitor_amps="0.06")
    assert result(reply, "live_capacitance")["band"] == "0.00 to 2.12 µF"


@pytest.mark.parametrize(("marked", "least"), [("5", "4.70"), ("19", "17.86"), ("20", "18.8"), ("21", "19.7")])
def test_microfarads_are_told_in_hundredths_below_twenty(ask: Any, marked: str, least: str) -> None:
    # Common practice, no source: the digits that meters show; 6 % below each marking.
    reply = ask(SLUG, **RUN, marked=marked)
    assert value(reply, "least") == least
    assert reply["working"][0]["result"] == f"{least} µF"


@pytest.mark.source("derived")
def test_the_share_of_the_printed_volts_is_told(ask: Any) -> None:
    # 240 V of 219 V are 109.59 %.
    reply = ask(SLUG, **RUN, **EXACT, marked="30", **LIVE, capacitor_amps="2.26", rated_volts="219")
    assert "240.0 V across it is 109.6 % of the 219 V printed" in finding(reply, "volts")["sentence"]


# --- what would decide ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("measured", "percent"),
    [
        ("9.45", "0.5"),  # 9.5 is the low end: 0.05 short, and 0.5 % of it is 0.047
        ("9.48", "0.2"),  # 0.02 short, 0.2 % is 0.019
        ("9.49", "0.1"),  # 0.01 short, 0.1 % is 0.0095
    ],
)
def test_the_least_better_bridge_is_named_and_decides(ask: Any, measured: str, percent: str) -> None:
    # Common practice, no source: handheld meters promise down to 0.5 %, bench bridges 0.2 and 0.1 %.
    typed = {**RUN, **EXACT, "marked": "10", "tolerance": "5", "measured": measured}
    reply = ask(SLUG, **{**typed, "capacitance_meter_percent": "2"})
    decider = finding(reply, "capacitance")["decider"]
    assert (decider["enter_in"], decider["entry"]) == ("capacitance_meter_percent", percent)
    assert f"a meter of {percent} % + 0 counts" in decider["resolution"]
    assert verdict(ask(SLUG, **{**typed, "capacitance_meter_percent": percent}), "capacitance") == "outside"


def test_nearer_than_a_bridge_can_tell_asks_for_a_new_one_beside_it(ask: Any) -> None:
    typed = {**RUN, **EXACT, "marked": "10", "tolerance": "5", "measured": "9.495"}
    decider = finding(ask(SLUG, **{**typed, "capacitance_meter_percent": "2"}), "capacitance")["decider"]
    assert decider["entry"] == ""
    assert "beside a new capacitor" in decider["reading"]


@pytest.mark.parametrize(
    ("amps", "percent"),
    [
        # 28.2 µF, the low end of 30, carry 2.1262 A: 2.113 A are 0.62 % short and 2.12 A 0.29 %
        ("2.113", "0.5"),
        ("2.12", "0.1"),
    ],
)
def test_a_better_known_frequency_is_asked_for_where_it_alone_decides(ask: Any, amps: str, percent: str) -> None:
    # Common practice, no source: the hertz of a meter are good to 0.5 %, of a better one to 0.1 %.
    typed = {**RUN, **EXACT, **LIVE, "marked": "30", "capacitor_amps": amps}
    decider = finding(ask(SLUG, **typed, frequency_band="1"), "capacitance")["decider"]
    assert (decider["enter_in"], decider["entry"]) == ("frequency_band", percent)
    assert decider["resolution"] == f"measured, good to {percent} %"
    assert verdict(ask(SLUG, **typed, frequency_band=percent), "live-capacitance") == "outside"


# --- ohms -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("ohms", "said"),
    [
        ("0.99 ohm", "0.99 Ω"),
        ("1 ohm", "1.0 Ω"),
        ("999 ohm", "999.0 Ω"),
        ("1000 ohm", "1.0 kΩ"),
        ("1.06k", "1.1 kΩ"),
        ("999k", "999.0 kΩ"),
        ("1M", "1.00 MΩ"),
        ("1.05M", "1.05 MΩ"),
    ],
)
def test_ohms_are_said_in_the_unit_that_a_technician_says_them_in(ask: Any, ohms: str, said: str) -> None:
    # Common practice, no source: 1000 ohm are a kilohm, 1000 kilohm a megohm. 10 % make 1.05 MΩ undecided.
    reply = ask(SLUG, **RUN, **{**EXACT, "ohmmeter_percent": "10"}, marked="10", case_ohms=ohms)
    assert finding(reply, "case")["sentence"].startswith((f"A path to the case: {said}, ", f"{said} to the case "))


@pytest.mark.parametrize(
    ("ohms", "bleed", "found"),
    [
        # alone, 100 kΩ is the least
        ("99k", "OL", "outside"),
        ("100k", "OL", None),
        ("101k", "OL", None),
        # beside 15 kΩ ±10 %: a leak is sure where 1/R − 1/13.5 is more than 1/100, so below 11.894 kΩ, and there is
        # none where 1/R − 1/15 is no more than 1/100, so from 13.043 kΩ
        ("11.89k", "15", "outside"),
        ("11.9k", "15", "undecided"),
        ("13.04k", "15", "undecided"),
        ("13.05k", "15", None),
    ],
)
@pytest.mark.source("derived")
def test_a_leak_is_held_against_its_limit_as_conductance(ask: Any, ohms: str, bleed: str, found: str | None) -> None:
    reply = ask(SLUG, **RUN, **EXACT, marked="10", bleed_resistor=bleed, ohms=ohms)
    assert [one["verdict"] for one in reply["findings"] if one["name"] == "ohms"] == ([found] if found else [])


@pytest.mark.parametrize(
    ("ohms", "found"),
    [("16.5k", None), ("16.51k", "outside"), ("17k", "outside")],  # 15 kΩ and a tenth
)
@pytest.mark.source("derived")
def test_a_bleed_resistor_may_read_a_tenth_more_than_its_marking(ask: Any, ohms: str, found: str | None) -> None:
    reply = ask(SLUG, **RUN, **EXACT, marked="10", bleed_resistor="15", ohms=ohms)
    assert [one["verdict"] for one in reply["findings"] if one["name"] == "bleed-resistor"] == (
        [found] if found else []
    )


@pytest.mark.source("derived")
def test_the_ohms_beside_the_bleed_resistor_are_those_of_resistors_side_by_side(ask: Any) -> None:
    # 10 kΩ are 15 kΩ and 30 kΩ side by side.
    reply = ask(SLUG, **RUN, **EXACT, marked="10", bleed_resistor="15", ohms="10k")
    step = next(one for one in reply["working"] if one["label"] == "Ohms beside the bleed resistor")
    assert step["result"].startswith("30.0 kΩ; ")
    reply = ask(SLUG, **RUN, **EXACT, marked="10", bleed_resistor="15", ohms="15k")
    step = next(one for one in reply["working"] if one["label"] == "Ohms beside the bleed resistor")
    assert step["result"].startswith("the bleed resistor explains all of it; ")


@pytest.mark.parametrize(("ohms", "told"), [("0", False), ("1", True), ("OL", False)])
def test_no_ohms_are_worked_out_beside_the_bleed_resistor_where_none_or_no_end_was_read(
    ask: Any, ohms: str, told: bool
) -> None:
    reply = ask(SLUG, **RUN, **EXACT, marked="10", bleed_resistor="15", ohms=ohms)
    assert ("Ohms beside the bleed resistor" in [one["label"] for one in reply["working"]]) is told
