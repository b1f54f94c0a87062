"""Winding temperature by resistance: printed examples, both limits, what reads low, and the band beside a referee."""

from __future__ import annotations

import math
from typing import Any
from xml.etree import ElementTree

import pytest
from uncertainties import ufloat, umath

from calculators import CALCULATORS
from calculators.winding_temperature.case import METALS, temperature_by_resistance
from calculators.winding_temperature.cooling import cooling_line
from tests.calculators.answers import finding, messages, result, value, verdict

SLUG = "winding-temperature"
EXACT = {"ohmmeter_percent": "0", "ohmmeter_counts": "0", "thermometer_band": "0"}
GOOD = {"hours_rest": "12", "lead": "0", "metal": "copper"}


def hot(*points: tuple[str, str]) -> dict[str, str]:
    typed = {}
    for number, (seconds, ohms) in enumerate(points, start=1):
        typed |= {f"hot{number}_time": seconds, f"hot{number}_ohms": ohms}
    return typed


def at(ohms: str) -> dict[str, str]:
    """Three readings that all show the same ohms: no cooling, so the temperature at switch-off is theirs."""
    return hot(("30", ohms), ("60", ohms), ("90", ohms))


def temperature(ask: Any, **typed: str) -> float:
    return float(value(ask(SLUG, **typed), "winding_temperature"))


def part(reply: dict[str, Any], words: str) -> dict[str, str]:
    return next(step for step in reply["working"] if words in step["label"])


# --- printed examples -------------------------------------------------------------------------------


@pytest.mark.source("winding-temperature-print")
def test_eighty_ohms_at_20_degrees_and_100_after_a_run_are_83_63_degrees(ask: Any) -> None:
    # Public printed solution: 83.63 °C, a rise of 63.63 °C (computed 83.625 and 63.625, a tie).
    ratio = 100.0 / 80.0
    assert temperature_by_resistance(ratio, 20.0, METALS["copper"]) == pytest.approx(83.63, abs=0.0051)
    reply = ask(SLUG, cold_ohms="80", cold_temperature="20", end_temperature="20", **GOOD, **at("100"))
    assert value(reply, "winding_temperature") == "83.6"
    assert value(reply, "rise_over_room") == "63.6"


@pytest.mark.source("kulshreshtha-2")
def test_a_textbook_rise_is_59_53_kelvin_and_not_the_59_59_that_is_printed(ask: Any) -> None:
    # Kulshreshtha, Basic Electrical Engineering, ch. 2: 3.42 ohm at 20 °C, 4.22 ohm hot, printed rise 59.59 °C. The book
    # uses 0.00426 at 0 °C, which is k = 234.74; with 234.5 the rise is 59.53 K.
    ratio = 4.22 / 3.42
    assert temperature_by_resistance(ratio, 20.0, METALS["copper"]) - 20.0 == pytest.approx(59.53, abs=0.005)
    assert temperature_by_resistance(ratio, 20.0, 1.0 / 0.00426) - 20.0 == pytest.approx(59.59, abs=0.005)
    reply = ask(SLUG, cold_ohms="3.42", cold_temperature="20", end_temperature="20", **GOOD, **at("4.22"))
    assert value(reply, "rise_over_room") == "59.5"


@pytest.mark.source("alpha-trap-print")
def test_a_coefficient_for_0_degrees_is_not_used_on_ohms_at_20(ask: Any) -> None:
    # A printed solution puts 0.0043, which belongs to 0 °C, on 50 ohm at 20 °C and gets 57 °C for 58 ohm. That is wrong:
    # the ratio form gives 60.41 °C with 1/0.0043 and 60.72 °C with 234.5.
    assert pytest.approx(57, abs=0.5) == 20.0 + (58.0 / 50.0 - 1.0) / 0.0043
    assert temperature_by_resistance(58.0 / 50.0, 20.0, 1.0 / 0.0043) == pytest.approx(60.41, abs=0.005)
    assert temperature(ask, cold_ohms="50", cold_temperature="20", **GOOD, **at("58")) == 60.7


@pytest.mark.source("iec-60034-1", "iec-60335-1-clause-11")
def test_the_other_standard_s_235_changes_the_result_by_0_13_kelvin() -> None:
    # IEC 60034-1 (from memory) prints 235, IEC 60335-1 234.5: 83.75 against 83.63 °C for a ratio of 1.25 at 20 °C.
    assert temperature_by_resistance(1.25, 20.0, 235.0) == pytest.approx(83.75, abs=0.005)
    assert temperature_by_resistance(1.25, 20.0, 234.5) == pytest.approx(83.63, abs=0.0051)


@pytest.mark.source("iec-60335-1-clause-11")
def test_aluminium_is_reckoned_with_225(ask: Any) -> None:
    # IEC 60335-1 clause 11 (secondary copy): k = 225. By hand 1.34 × (225 + 22) − 225 = 105.98.
    typed = {"cold_ohms": "10", "cold_temperature": "22", **GOOD, **at("13.4")}
    assert temperature(ask, **typed | {"metal": "aluminium"}) == 106.0


@pytest.mark.source("derived")
def test_ten_ohms_at_22_degrees_and_13_4_hot_are_109_degrees(ask: Any) -> None:
    # A practice question of the trade: 109 °C. By hand 1.34 × 256.5 − 234.5 = 109.21.
    assert temperature(ask, cold_ohms="10.0", cold_temperature="22", **GOOD, **at("13.4")) == 109.2


@pytest.mark.source("derived")
def test_leads_that_are_left_in_read_five_kelvin_low(ask: Any) -> None:
    # Derived in the trade: 3.6 to 4.6 ohm at 22 °C is 93 °C; with 0.3 ohm of leads 3.9 to 4.9 reads 88 °C.
    nulled = temperature(ask, cold_ohms="3.9", cold_temperature="22", **GOOD | {"lead": "0.3"}, **at("4.9"))
    left_in = ask(SLUG, cold_ohms="3.9", cold_temperature="22", **GOOD | {"lead": ""}, **at("4.9"))
    assert round(nulled) == 93
    assert round(float(value(left_in, "winding_temperature"))) == 88
    assert verdict(left_in, "leads") == "watch"
    low, high = result(left_in, "winding_temperature")["band"].split(" to ")
    assert float(low) < 88 < 93 < float(high.removesuffix(" °C"))


# --- the band ---------------------------------------------------------------------------------------


@pytest.mark.source("derived")
@pytest.mark.parametrize(("percent", "kelvin"), [("1", 4.9), ("5", 24)])
def test_one_percent_each_way_is_a_band_of_4_9_kelvin_at_110_degrees(ask: Any, percent: str, kelvin: float) -> None:
    # Derived in the trade: (k + T2) √(u1² + u2²) with 1 % each at 110 °C is ±4.9 K, with 5 % each ±24 K.
    # 10 ohm at 22 °C and 13.431 ohm are 110.0 °C. Not known to be one meter, so both percentages count.
    typed = {"cold_ohms": "10", "cold_temperature": "22", **GOOD, **at("13.431"), **EXACT}
    band = value(ask(SLUG, **typed | {"ohmmeter_percent": percent}), "band")
    assert float(band) == pytest.approx(kelvin, abs=0.5 if kelvin > 10 else 0.05)


def test_five_percent_each_way_cannot_tell(ask: Any) -> None:
    typed = {"cold_ohms": "10", "cold_temperature": "22", **GOOD, **at("13.431"), **EXACT, "ohmmeter_percent": "5"}
    assert verdict(ask(SLUG, **typed), "winding-temperature") == "undecided"


def test_one_meter_on_one_range_takes_its_percentage_out_of_the_ratio(ask: Any) -> None:
    typed = {"cold_ohms": "10", "cold_temperature": "22", **GOOD, **at("13.4"), **EXACT, "ohmmeter_percent": "5"}
    assert value(ask(SLUG, **typed, same_meter="yes"), "band") == "0.0"
    reply = ask(SLUG, **typed | {"ohmmeter_counts": "2"}, same_meter="yes")
    assert float(value(reply, "band")) > 0.3
    assert "its percentage is shared and cancels" in part(reply, "Parts of the band")["put_in"]


@pytest.mark.source("uncertainties-program")
@pytest.mark.parametrize("same_meter", ["no", "yes"])
@pytest.mark.parametrize("lead", ["0.2", "0"])
def test_the_band_is_that_of_an_independent_program(ask: Any, same_meter: str, lead: str) -> None:
    # The uncertainties package propagates every correlation by itself; the readings lie on a line, so nothing scatters.
    percent, counts, thermometer = 0.01, 0.02, 1.5
    times = [30.0, 60.0, 90.0]
    shown = [12.0 * math.exp(-0.0003 * one) + float(lead) for one in times]
    typed = {name: f"{ohms:.9f}" for name, ohms in zip(("hot1_ohms", "hot2_ohms", "hot3_ohms"), shown, strict=True)}
    reply = ask(
        SLUG,
        cold_ohms="9",
        cold_temperature="22",
        hours_rest="12",
        lead=lead,
        metal="copper",
        same_meter=same_meter,
        thermometer_band="1.5",
        ohmmeter_percent="1",
        ohmmeter_counts="2",
        ohmmeter_resolution="0.01",
        hot1_time="30",
        hot2_time="60",
        hot3_time="90",
        **typed,
    )
    gain_cold, gain_hot = ufloat(1, percent), ufloat(1, percent)
    if same_meter == "yes":
        gain_hot = gain_cold
    leads = ufloat(float(lead), counts)
    cold = (ufloat(9.0, counts) - leads) * gain_cold
    hots = [(ufloat(one, counts) - leads) * gain_hot for one in shown]
    mean = sum(times) / 3
    spread = sum((one - mean) ** 2 for one in times)
    logs = [umath.log(one) for one in hots]
    slope = sum((one - mean) * log for one, log in zip(times, logs, strict=True)) / spread
    at_zero = umath.exp(sum(logs) / 3 - slope * mean)
    wanted = at_zero / cold * (234.5 + ufloat(22.0, thermometer)) - 234.5
    assert float(value(reply, "winding_temperature")) == pytest.approx(wanted.nominal_value, abs=0.051)
    assert float(value(reply, "band")) == pytest.approx(wanted.std_dev, abs=0.051)
    assert float(value(reply, "band")) > 2.0


def test_scatter_about_the_line_widens_the_band(ask: Any) -> None:
    smooth = hot(("30", "13.4"), ("60", "13.3"), ("90", "13.2"), ("120", "13.1"))
    rough = hot(("30", "13.5"), ("60", "13.2"), ("90", "13.3"), ("120", "13.0"))
    typed = {"cold_ohms": "10", "cold_temperature": "22", **GOOD, **EXACT}
    assert float(value(ask(SLUG, **typed, **rough), "band")) > float(value(ask(SLUG, **typed, **smooth), "band")) + 3.0


def test_an_unknown_metal_reaches_down_to_aluminium_and_is_printed_as_copper(ask: Any) -> None:
    typed = {"cold_ohms": "10", "cold_temperature": "22", **GOOD | {"metal": "unknown"}, **EXACT, **at("13.4")}
    found = result(ask(SLUG, **typed), "winding_temperature")
    assert (found["value"], found["band"]) == ("109.2", "106.0 to 109.2 °C")


# --- reckoning back ---------------------------------------------------------------------------------


@pytest.mark.source("derived")
def test_readings_on_an_exponential_are_reckoned_back_to_its_beginning(ask: Any) -> None:
    # By hand: 13.4 · exp(−0.0004 t) is 13.2402, 13.0822 and 12.9262 ohm at 30, 60 and 90 s, and 13.4 at switch-off.
    points = hot(("30", "13.2402"), ("60", "13.0822"), ("90", "12.9262"))
    reply = ask(SLUG, cold_ohms="10", cold_temperature="22", **GOOD, **EXACT, **points)
    assert float(value(reply, "ohms_at_switch_off")) == pytest.approx(13.4, abs=0.0011)
    assert value(reply, "winding_temperature") == "109.2"


@pytest.mark.source("numpy-program")
def test_the_line_is_that_of_an_independent_program() -> None:
    numpy = pytest.importorskip("numpy")
    times, ohms = [28.0, 47.0, 61.0, 95.0, 118.0], [13.61, 13.55, 13.47, 13.38, 13.27]
    slope, at_zero = numpy.polyfit(times, numpy.log(ohms), 1)
    line = cooling_line(times, ohms)
    assert line.ohms == pytest.approx(float(numpy.exp(at_zero)), rel=1e-12)
    assert line.slope == pytest.approx(float(slope), rel=1e-9)


def test_the_order_of_the_hot_readings_does_not_matter(ask: Any) -> None:
    points = [("30", "13.4"), ("60", "13.3"), ("90", "13.1"), ("120", "13.05")]
    typed = {"cold_ohms": "10", "cold_temperature": "22", **GOOD}
    assert ask(SLUG, **typed, **hot(*points)) == ask(SLUG, **typed, **hot(*points[::-1]))


# --- the two limits ---------------------------------------------------------------------------------


@pytest.mark.source("common-practice")
@pytest.mark.parametrize(
    ("ohms", "wanted"),
    # The shop's own limits: 110 and 130 °C. 25.65 K for each ohm over 10 ohm at 22 °C: 13.43 is 109.98, 13.44 is
    # 110.24, 14.21 is 129.99 and 14.22 is 130.24 °C.
    [("13.43", "within"), ("13.44", "watch"), ("14.21", "watch"), ("14.22", "outside")],
)
def test_a_temperature_is_judged_on_both_sides_of_each_limit(ask: Any, ohms: str, wanted: str) -> None:
    reply = ask(SLUG, cold_ohms="10", cold_temperature="22", **GOOD, **EXACT, **at(ohms))
    assert [(one["name"], one["verdict"]) for one in reply["findings"]] == [("winding-temperature", wanted)]
    assert reply["findings"][0]["stop"] is (wanted == "outside")


@pytest.mark.parametrize(
    ("celsius_ohms", "wanted"),
    # ±5 K of the thermometer alone, times the ratio: 13.0 ohm is 98.95 ± 6.5; 13.3 is 106.65 ± 6.65; 13.9 is 122.0 ± 6.95;
    # 14.1 is 127.2 ± 7.05; 14.6 is 140.0 ± 7.3 °C.
    [("13.0", "within"), ("13.3", "watch"), ("13.9", "watch"), ("14.1", "undecided"), ("14.6", "outside")],
)
def test_the_whole_band_has_to_be_on_one_side_of_a_limit(ask: Any, celsius_ohms: str, wanted: str) -> None:
    typed = {"cold_ohms": "10", "cold_temperature": "22", **GOOD, **EXACT, "thermometer_band": "5"}
    found = ask(SLUG, **typed, **at(celsius_ohms))["findings"][0]
    assert found["verdict"] == wanted
    assert found["stop"] is (wanted in ("undecided", "outside"))


@pytest.mark.source("iec-60335-2-34")
@pytest.mark.parametrize(
    ("insulation", "ohms", "wanted"),
    # IEC 60335-2-34 (from memory): 140 °C for synthetic, 130 °C for cellulosic insulation. 14.60 ohm is 139.99 °C and
    # 14.61 ohm 140.25 °C.
    [
        ("synthetic", "14.60", None),
        ("synthetic", "14.61", "outside"),
        ("cellulosic", "14.21", None),
        ("cellulosic", "14.22", "outside"),
        ("unknown", "14.61", None),
    ],
)
def test_the_insulation_s_own_limit_is_a_finding_of_its_own(
    ask: Any, insulation: str, ohms: str, wanted: str | None
) -> None:
    reply = ask(SLUG, cold_ohms="10", cold_temperature="22", **GOOD, **EXACT, **at(ohms), insulation=insulation)
    found = {one["name"]: one["verdict"] for one in reply["findings"]}
    assert found.get("winding-insulation") == wanted


# --- what reads low never clears a winding ----------------------------------------------------------

THREE = (("30", "12.6"), ("60", "12.5"), ("90", "12.4"))


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"hours_rest": ""}, "it is not known how long it had rested"),
        ({"hours_rest": "3.9"}, "it had rested only 3.9 h before the cold reading, less than 4 h"),
        ({"hot1_time": "61", "hot2_time": "80"}, "the first hot reading came 61 s after switch-off, later than 60 s"),
        ({"hot3_time": "", "hot3_ohms": ""}, "2 hot readings cannot show how fast it cooled; 3 can"),
        (dict.fromkeys(("hot2_time", "hot2_ohms", "hot3_time", "hot3_ohms"), ""), "1 hot reading cannot show"),
        ({"hot3_ohms": "12.9"}, "the ohms rise after switch-off"),
        ({"cold_ohms": "13.5"}, "that is colder than the winding was before the run"),
    ],
)
def test_what_makes_the_result_read_low_leaves_it_undecided(ask: Any, changed: dict[str, str], words: str) -> None:
    typed = {"cold_ohms": "10", "cold_temperature": "22", **GOOD, **EXACT, **hot(*THREE)}
    assert verdict(ask(SLUG, **typed), "winding-temperature") == "within"
    found = finding(ask(SLUG, **typed | changed), "winding-temperature")
    assert found["verdict"] == "undecided"
    assert words in found["sentence"]
    assert "too low" in found["plain"]


def test_a_single_late_reading_can_still_be_too_hot(ask: Any) -> None:
    reply = ask(SLUG, cold_ohms="10", cold_temperature="22", metal="copper", **EXACT, **hot(("170", "15")))
    assert verdict(reply, "winding-temperature") == "outside"
    assert finding(reply, "winding-temperature")["stop"]


def test_leads_left_in_on_small_ohms_have_no_upper_end(ask: Any) -> None:
    reply = ask(SLUG, cold_ohms="0.9", cold_temperature="22", **GOOD | {"lead": ""}, **at("1.1"))
    found = finding(reply, "winding-temperature")
    assert found["verdict"] == "undecided"
    assert "could hide any heat" in found["sentence"]
    assert result(reply, "winding_temperature")["band"] == ""
    assert "OL" not in str(reply)


# --- refusals ---------------------------------------------------------------------------------------

BASE = {"cold_ohms": "10", "cold_temperature": "22", "lead": "0.2", **hot(*THREE)}


@pytest.mark.parametrize(
    ("changed", "field", "words"),
    [
        ({"hot3_time": "181"}, "hot3_time", "181 s after switch-off is later than 180 s"),
        ({"hot3_time": "4 min"}, "hot3_time", "240 s after switch-off is later than 180 s"),
        ({"hot2_time": "30"}, "hot2_time", "another reading has the same time, 30 s"),
        ({"hot3_time": "11 min"}, "hot3_time", "is outside what this check takes"),
        ({"hot1_time": "", "hot1_ohms": ""}, "hot1_time", "is missing"),
        ({"cold_ohms": "0.2"}, "cold_ohms", "is no more than the leads alone, 0.20 Ω"),
        ({"cold_ohms": "0", "lead": "0"}, "cold_ohms", "is zero"),
        ({"hot2_ohms": "0.1"}, "hot2_ohms", "is no more than the leads alone"),
        ({"cold_ohms": "OL"}, "cold_ohms", "take the pair run–start, cold and hot"),
        ({"hot1_ohms": "OL"}, "hot1_ohms", "take the pair run–start, cold and hot"),
        ({"cold_ohms": "-1"}, "cold_ohms", "prove it dead, discharge it"),
        ({"cold_ohms": "2"}, "hot1_ohms", "not the same pair of pins"),
        ({"cold_ohms": "40"}, "hot1_ohms", "not the same pair of pins"),
        (
            {"hot1_ohms": "300", "hot2_ohms": "0.3", "hot2_time": "31", "hot3_time": "", "hot3_ohms": ""},
            "hot1_ohms",
            "far from any winding",
        ),
    ],
)
def test_what_cannot_be_used_is_refused_at_its_field(ask: Any, changed: dict[str, str], field: str, words: str) -> None:
    found = dict(messages(ask(SLUG, **BASE | changed)))
    assert field in found
    assert words in found[field]


@pytest.mark.parametrize(
    ("half", "words"),
    [
        ({"hot4_time": "120"}, "Hot reading 4 was not used: its ohms are missing."),
        ({"hot4_ohms": "12.3"}, "Hot reading 4 was not used: its time is missing."),
    ],
)
def test_half_a_hot_reading_takes_no_part_and_is_told(ask: Any, half: dict[str, str], words: str) -> None:
    without, reply = ask(SLUG, **BASE), ask(SLUG, **BASE | half)
    assert reply["notes"] == [words, *without["notes"]]
    assert reply["findings"] == without["findings"]
    assert reply["results"] == without["results"]


# --- what is shown ----------------------------------------------------------------------------------


def test_the_first_example_prints_findings_results_and_working(ask: Any) -> None:
    typed = CALCULATORS[SLUG].examples[0].typed
    reply = ask(SLUG, **{name: one.text for name, one in typed.items()})
    assert reply["findings"]
    assert reply["results"]
    assert reply["working"]


def test_the_figure_says_in_words_what_it_draws(ask: Any) -> None:
    (figure,) = ask(SLUG, cold_ohms="10", cold_temperature="22", **GOOD, **EXACT, **at("13.4"))["figures"]
    assert figure["words"] == (
        "Winding temperature over time: 30 s 109.2 °C, 60 s 109.2 °C, 90 s 109.2 °C; at switch-off 109.2 °C, "
        "109.2 to 109.2 °C; warning 110 °C, stop 130 °C."
    )
    drawn = ElementTree.fromstring(figure["svg"])
    texts = {one.text for one in drawn.iter("{http://www.w3.org/2000/svg}text")}
    assert {"110 °C", "130 °C", "stop", "warning", "at switch-off: 109.2 °C"} <= texts


def test_both_ways_of_reckoning_back_are_told(ask: Any) -> None:
    notes = ask(SLUG, **BASE)["notes"]
    assert any("least squares of ln R; a straight line of ohms gives" in note for note in notes)


def test_a_band_over_the_stop_sends_nobody_to_run_it_again_before_the_cause_is_looked_for(ask: Any) -> None:
    # 13.431 ohm is 110 °C; 14.16 ohm is about 130 °C
    reply = ask(SLUG, cold_ohms="10", cold_temperature="22", insulation="cellulosic", **GOOD, **at("14.1"))
    found = finding(reply, "winding-temperature")
    assert (found["verdict"], found["stop"]) == ("undecided", True)
    for one in reply["findings"]:
        assert one["next"]["procedure"] == "make-safe-prove-dead"
        assert one["next"]["text"].startswith("Leave it unplugged and proved dead")


def test_a_warm_winding_leads_to_airflow_before_anything_live(ask: Any) -> None:
    reply = ask(SLUG, cold_ohms="10", cold_temperature="22", **GOOD, **at("13.8"))
    found = finding(reply, "winding-temperature")
    assert (found["verdict"], found["next"]["procedure"]) == ("watch", "airflow-and-heat-exchange")


def test_leads_are_said_to_hide_no_heat_where_there_is_none(ask: Any) -> None:
    for ohms in ("9", "10"):
        reply = ask(SLUG, cold_ohms="10", cold_temperature="22", **GOOD | {"lead": ""}, **at(ohms))
        assert [one["name"] for one in reply["findings"]] == ["winding-temperature"]


def test_readings_that_jump_about_ask_for_steady_figures_and_not_for_a_finer_meter(ask: Any) -> None:
    jumping = hot(("30", "7.0"), ("60", "5.2"), ("90", "6.8"))
    reply = ask(SLUG, cold_ohms="5", cold_temperature="21", **GOOD, **jumping)
    assert "clips instead of hand-held probes" in finding(reply, "winding-temperature")["decider"]["resolution"]
