"""The performance map: the polynomial against published values and a referee, its refusals, and its verdicts."""

from __future__ import annotations

import itertools
import re
from datetime import date
from typing import Any
from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from calculators.answer import evaluate
from calculators.contract import Outcome
from calculators.inputs import MeterInput
from calculators.limits import Standards
from calculators.performance_map import CALCULATOR
from calculators.performance_map.inputs import COEFFICIENT_NAMES
from calculators.performance_map.polynomial import Polynomial
from tests.calculators.answers import finding, messages, result, value

SLUG = "performance-map"

# Test of a compressor component in an open-source heat pump simulation library: two sets of ten coefficients in °F,
# mass flow in lbm/h and power in W.
MASS_FLOW = (217.3163128, 5.094492028, -0.593170311, 4.38e-02, -2.14e-02, 1.04e-02, 7.90e-05, -5.73e-05, 1.79e-04, -8.08e-05)  # fmt: skip
POWER = (-561.3615705, -15.62601841, 46.92506685, -0.217949552, 0.435062616, -0.442400826, 2.25e-04, 2.37e-03, -3.32e-03, 2.50e-03)  # fmt: skip
POWER_TEXTS = [
    "-561.3615705",
    "-15.62601841",
    "46.92506685",
    "-0.217949552",
    "0.435062616",
    "-0.442400826",
    "2.25E-04",
    "2.37E-03",
    "-3.32E-03",
    "2.50E-03",
]

# Invented, of the size of a household compressor: amps and °C, 1.60 A at −23.3 and 54.4 °C.
SMALL = [
    "0.9748",
    "-3.609e-2",
    "3.139e-2",
    "-8.533e-4",
    "1.317e-3",
    "-1.422e-4",
    "-5.899e-6",
    "1.308e-5",
    "-3.624e-6",
    "-5.026e-7",
]
MAP = {
    "map_gives": "A",
    "map_temperature_unit": "degC",
    "map_volts": "115",
    "map_frequency": "60",
    "evaporating_least": "-35",
    "evaporating_most": "-10",
    "condensing_least": "35",
    "condensing_most": "60",
    **dict(zip(COEFFICIENT_NAMES, SMALL, strict=True)),
}
HERE = {"evaporating_now": "-23.3", "condensing_now": "54.4"}
STEADY = {"running_volts": "115", "run_time": "30", "supply_frequency": "60"}
EXACT = {"clamp_percent": "0", "clamp_counts": "0", "voltmeter_percent": "0", "voltmeter_counts": "0"}
# C1 alone is 1 A everywhere: ratios can be read off the amps.
FLAT = {**MAP, **dict.fromkeys(COEFFICIENT_NAMES, "0"), "c1": "1", **HERE}


def referee(coefficients: tuple[float, ...], s: float, d: float) -> float:
    """The same polynomial by numpy.polynomial.polynomial.polyval2d; its matrix holds the power of S by row."""
    c = coefficients
    matrix = [[c[0], c[2], c[5], c[9]], [c[1], c[4], c[8], 0], [c[3], c[7], 0, 0], [c[6], 0, 0, 0]]
    return float(np.polynomial.polynomial.polyval2d(s, d, matrix))


def first(reply: dict[str, Any]) -> dict[str, Any]:
    return reply["findings"][0]


# --- the polynomial ---------------------------------------------------------------------------------


@pytest.mark.source("compressor-component-test")
@pytest.mark.parametrize(
    ("s", "d", "mass_flow", "power"),
    # Computed outside this project from the published coefficients (no independent print of the values is known).
    [
        (45, 130, 459.4479, 3074.966),
        (45, 110, 474.2807, 2324.568),
        (50, 115, 516.6946, 2476.043),
        (40, 105, 434.5056, 2184.307),
        (30, 100, 359.9300, 2070.765),
    ],
)
def test_a_published_set_gives_its_values(s: float, d: float, mass_flow: float, power: float) -> None:
    assert Polynomial(MASS_FLOW).at(s, d) == pytest.approx(mass_flow, abs=5.1e-5)
    assert Polynomial(POWER).at(s, d) == pytest.approx(power, abs=5.1e-4)


@pytest.mark.source("compressor-component-test")
@pytest.mark.parametrize(
    ("s", "d", "printed"),
    [("45", "130", "3075.0"), ("45", "110", "2324.6"), ("50", "115", "2476.0"), ("40", "105", "2184.3"), ("30", "100", "2070.8")],
)  # fmt: skip
def test_the_published_set_comes_through_the_door_as_it_is_printed(ask: Any, s: str, d: str, printed: str) -> None:
    typed = {"map_gives": "W", "map_temperature_unit": "degF", "map_volts": "230", "map_frequency": "60"}
    edges = {"evaporating_least": "20 F", "evaporating_most": "55 F", "condensing_least": "90 F", "condensing_most": "140 F"}  # fmt: skip
    coefficients = dict(zip(COEFFICIENT_NAMES, POWER_TEXTS, strict=True))
    reply = ask(SLUG, **typed, **edges, **coefficients, evaporating_now=f"{s} F", condensing_now=(d, "degF"))
    assert value(reply, "map_watts") == printed


@pytest.mark.source("polynomial-regression-test")
@pytest.mark.parametrize(
    ("condensing", "row"),
    # Regression test of an open-source thermal library: power in kW of an R134a compressor at evaporating temperatures
    # of 10, 7.5, 5, 0, −5 and −10 °C. Its own test asks for 1e-3.
    [
        (30.0, (62.0, 61.8, 61.8, 61.8, 61.7, 61.3)),
        (40.0, (78.0, 78.0, 78.0, 78.0, 77.7, 76.8)),
        (50.0, (99.2, 99.2, 99.2, 98.9, 98.1, 96.5)),
    ],
)
def test_a_published_table_comes_back_out_of_ten_coefficients(condensing: float, row: tuple[float, ...]) -> None:
    table = {30.0: (62.0, 61.8, 61.8, 61.8, 61.7, 61.3), 40.0: (78.0, 78.0, 78.0, 78.0, 77.7, 76.8), 50.0: (99.2, 99.2, 99.2, 98.9, 98.1, 96.5)}  # fmt: skip
    evaporating = (10.0, 7.5, 5.0, 0.0, -5.0, -10.0)
    points = [(s, d, power) for d, powers in table.items() for s, power in zip(evaporating, powers, strict=True)]
    columns = [[s**i * d**j for i, j in [(0, 0), (1, 0), (0, 1), (2, 0), (1, 1), (0, 2), (3, 0), (2, 1), (1, 2), (0, 3)]] for s, d, _ in points]  # fmt: skip
    fitted, *_ = np.linalg.lstsq(np.array(columns), np.array([power for *_, power in points]), rcond=None)
    polynomial = Polynomial(tuple(float(one) for one in fitted))
    for s, printed in zip(evaporating, row, strict=True):
        assert polynomial.at(s, condensing) == pytest.approx(printed, rel=1e-3)


COEFFICIENT_LISTS = st.tuples(*[st.floats(-10.0, 10.0)] * 10)


@pytest.mark.source("numpy-program")
@given(COEFFICIENT_LISTS, st.floats(-60, 60), st.floats(-60, 140))
def test_the_polynomial_agrees_with_a_numerical_library(c: tuple[float, ...], s: float, d: float) -> None:
    # Referee: numpy.polynomial.polynomial.polyval2d.
    scale = sum(abs(one) * 140.0**3 for one in c) + 1.0
    assert Polynomial(c).at(s, d) == pytest.approx(referee(c, s, d), abs=1e-12 * scale)


@given(COEFFICIENT_LISTS, st.floats(-40, 20), st.floats(0, 90))
def test_the_slopes_are_those_of_the_polynomial(c: tuple[float, ...], s: float, d: float) -> None:
    # Central differences are exact for cubics but for h² times the third derivative.
    h, scale = 1e-3, sum(map(abs, c)) * 90.0**3 + 1.0
    one, p = Polynomial(c), referee
    assert one.slope_evaporating(s, d) == pytest.approx((p(c, s + h, d) - p(c, s - h, d)) / (2 * h), abs=1e-9 * scale)
    assert one.slope_condensing(s, d) == pytest.approx((p(c, s, d + h) - p(c, s, d - h)) / (2 * h), abs=1e-9 * scale)


def in_fahrenheit(c: tuple[float, ...]) -> list[float]:
    """Coefficients for °F of a map whose coefficients are for °C, by putting S = (F − 32)·5/9 in and sorting."""
    powers = [(0, 0), (1, 0), (0, 1), (2, 0), (1, 1), (0, 2), (3, 0), (2, 1), (1, 2), (0, 3)]
    line = np.polynomial.Polynomial([-32 * 5 / 9, 5 / 9])
    found = dict.fromkeys(powers, 0.0)
    for one, (i, j) in zip(c, powers, strict=True):
        for (a, first), (b, second) in itertools.product(enumerate((line**i).coef), enumerate((line**j).coef)):
            found[a, b] += one * first * second
    return [found[pair] for pair in powers]


@given(
    st.integers(-350, -100).map(lambda one: one / 10),
    st.integers(350, 600).map(lambda one: one / 10),
    st.sampled_from(["", "0.5 K", "2 K"]),
)
def test_a_map_in_fahrenheit_says_the_same_as_the_same_map_in_celsius(ask: Any, s: float, d: float, band: str) -> None:
    there = in_fahrenheit(tuple(float(one) for one in SMALL))
    typed = {**MAP, "evaporating_now": f"{s}", "condensing_now": f"{d}", "temperature_band": band}
    typed |= {"running_amps": "1.9", **STEADY}
    fahrenheit = {
        **typed,
        "map_temperature_unit": "degF",
        **{name: f"{one:.14e}" for name, one in zip(COEFFICIENT_NAMES, there, strict=True)},
        **{name: (f"{float(typed[name]) * 1.8 + 32:.2f}", "degF") for name in (*HERE, "evaporating_least", "evaporating_most", "condensing_least", "condensing_most")},
    }  # fmt: skip
    one, other = ask(SLUG, **typed), ask(SLUG, **fahrenheit)
    assert [finding["sentence"] for finding in one["findings"]] == [
        finding["sentence"] for finding in other["findings"]
    ]
    for mine, theirs in zip(one["results"], other["results"], strict=True):
        assert float(mine["value"]) == pytest.approx(float(theirs["value"]), abs=0.0101)


@pytest.mark.source("ashrae-23", "numpy-program")
def test_the_rating_point_of_a_household_compressor_is_nearly_the_same_in_both_units(ask: Any) -> None:
    # ASHRAE 23 household rating point (from memory): −10 °F and 130 °F, printed as −23.3 °C and 54.4 °C.
    # By the referee 1.5989 A at −23.3333 and 54.4444 °C, and 1.5998 A at −23.3 and 54.4 °C.
    assert referee(tuple(map(float, SMALL)), -23.33333333, 54.44444444) == pytest.approx(1.5989, abs=5e-5)
    assert value(ask(SLUG, **MAP, evaporating_now="-10 F", condensing_now="130 F"), "map_amps") == "1.599"
    assert value(ask(SLUG, **MAP, **HERE), "map_amps") == "1.600"


# --- what the answer carries ------------------------------------------------------------------------


def test_the_amps_carry_the_maps_band_and_say_where_they_go(ask: Any) -> None:
    # By hand, with the referee: 1.5998 A; ±12 % is 1.408 to 1.792 A.
    reply = ask(SLUG, **MAP, **HERE)
    amps = result(reply, "map_amps")
    assert (amps["text"], amps["band"], amps["also"]) == ("1.600 A", "1.408 to 1.792 A", ["1600 mA"])
    assert result(reply, "half_band")["text"] == "12.0 %"
    assert reply["notes"][0] == (
        "Enter this as “Amps from the performance map” in expected amps: 1.600 A at plate volts 115 V (rank A)."
    )
    assert any("Enter how far they may be off" in note for note in reply["notes"])


def test_what_it_says_to_enter_is_taken_by_expected_amps_as_the_best_evidence(ask: Any) -> None:
    amps = value(ask(SLUG, **MAP, **HERE), "map_amps")
    reply = ask("expected-amps", plate_volts="115", map_amps=amps, locked_rotor_amps="9")
    assert result(reply, "expected_amps")["band"] == "1.41 to 1.79 A"
    assert any(step["label"].startswith("Rank A") for step in reply["working"])


def test_the_watts_of_a_map_are_taken_by_expected_amps_as_watts(ask: Any) -> None:
    reply = ask(SLUG, **{**FLAT, "c1": "110", "map_gives": "W", "motor_type": "resistance"})
    assert value(reply, "map_watts") == "110.0"
    # By hand: 110 / (115 · 0.60) = 1.594 A ±20 %.
    assert (result(reply, "amps")["text"], result(reply, "amps")["band"]) == ("1.59 A", "1.28 to 1.91 A")
    assert "“Watts of the compressor” in expected amps: 110.0 W at plate volts 115 V (rank D" in reply["notes"][0]
    assert "“Watts from the performance map” in running watts" in reply["notes"][1]
    assert reply["findings"][0]["next"]["procedure"] == "running-watts"
    again = ask("expected-amps", plate_volts="115", watts="110", motor_type="resistance")
    assert result(again, "expected_amps")["text"] == "1.59 A"


def test_amps_become_watts_by_the_power_factor(ask: Any) -> None:
    # By hand: 1.5998 A · 115 V · 0.6 = 110.4 W ±20 %.
    watts = result(ask(SLUG, **MAP, **HERE, power_factor="0.6"), "watts")
    assert (watts["text"], watts["band"]) == ("110 W", "88 to 132 W")
    assert not any(one["name"] == "watts" for one in ask(SLUG, **MAP, **HERE)["results"])


def test_a_map_of_watts_judges_no_amps_and_says_so(ask: Any) -> None:
    reply = ask(SLUG, **{**FLAT, "c1": "110", "map_gives": "W"}, running_amps="4", **STEADY)
    assert [(one["name"], one["verdict"]) for one in reply["findings"]] == [("map-watts", "undecided")]
    assert "The running amps were not compared: this map gives watts." in " ".join(reply["notes"])
    assert "at 115 V and 60 Hz" in first(reply)["decider"]["condition"]


def test_a_wrong_temperature_is_told_in_percent_for_each_kelvin_and_fahrenheit(ask: Any) -> None:
    # By hand: with C1 = 1 and C2 = 0.02 in °C the value at −10 is 0.8, and 1 K is 0.02/0.8 = 2.5 %, 1 °F is 1.39 %.
    flat = {**FLAT, "c2": "0.02", "c3": "0.0", "evaporating_now": "-10"}
    one = ask(SLUG, **flat)
    assert value(one, "change_evaporating") == "2.50"
    assert "1.39 % for each °F" in result(one, "change_evaporating")["plain"]
    assert value(one, "change_condensing") == "0.00"
    # The same in °F: C2 = 0.02/1.8, C1 = 1 − 0.02·32/1.8.
    other = ask(SLUG, **{**flat, "map_temperature_unit": "degF", "c1": "0.644444444444", "c2": "1.11111111111e-2"})
    assert value(other, "change_evaporating") == "2.50"


@pytest.mark.parametrize(
    ("band", "half_band"),
    # By hand: 2.5 % a kelvin by S and 1.25 % by D; √(12² + (ΔT · 3.75)²): 12.57 at 1 K, 14.15 at 2 K, 12.57 at 1.8 °F.
    [("", "12.0 %"), ("0", "12.0 %"), ("1", "12.6 %"), ("2 K", "14.2 %"), ("1.8 F", "12.6 %"), ("10", "39.4 %")],
)
def test_temperatures_that_may_be_off_widen_the_band(ask: Any, band: str, half_band: str) -> None:
    # 1 + 0.02·(−10) + 0.01·(60 − 60): C1 = 0.4 with C3 = 0.01.
    typed = {**FLAT, "c1": "0.4", "c2": "0.02", "c3": "0.01", "evaporating_now": "-10", "condensing_now": "60"}
    reply = ask(SLUG, **typed, temperature_band=band)
    assert value(reply, "map_amps") == "0.800"
    assert result(reply, "half_band")["text"] == half_band
    assert any("count as right" in note for note in reply["notes"]) is (band in ("", "0"))


def test_the_working_writes_out_the_ten_terms(ask: Any) -> None:
    reply = ask(
        SLUG, **{**FLAT, "c1": "3", "c2": "-0.01", "c5": "1e-3", "c7": "1e-6", "c10": "-1e-6"}, temperature_band="1"
    )
    steps = {step["label"]: step for step in reply["working"]}
    # By hand: 0.01 · 23.3 = 0.233; −23.3 · 54.4 / 1000 = −1.26752; −23.3³ / 10⁶ = −0.01265;
    # 54.4³ / 10⁶ = 0.16099.
    assert steps["Constant and first degree"]["result"] == "3.00000 + 0.23300 + 0.00000 = 3.23300"
    assert steps["Constant and first degree"]["put_in"] == "C1 3; C2 -0.01; C3 0"
    assert steps["Second degree"]["result"] == "0.00000 − 1.26752 + 0.00000 = -1.26752"
    assert steps["Third degree"]["result"] == "-0.01265 + 0.00000 + 0.00000 − 0.16099 = -0.17364"


def test_the_working_says_which_temperatures_were_put_in(ask: Any) -> None:
    step = ask(SLUG, **{**MAP, "map_temperature_unit": "degF", "c1": "40"}, **HERE)["working"][0]
    assert step["put_in"] == "S -23.3 °C (-9.9 °F), D 54.4 °C (129.9 °F)"
    assert step["result"] == "S = -9.94 °F, D = 129.92 °F"


def step(reply: dict[str, Any], label: str) -> dict[str, str]:
    return next(one for one in reply["working"] if one["label"] == label)


def test_the_bands_are_written_out_in_the_working(ask: Any) -> None:
    # By hand, as above: 2.5 % and 1.25 % a kelvin at 0.8 A; 2 K are 7.5 %; √(12² + 7.5²) = 14.2 %.
    reply = ask(SLUG, **SLOPED | {"running_volts": "123"}, temperature_band="2")
    assert step(reply, "Change for 1 K more")["result"] == "a = 2.50 %, b = 1.25 %"
    band = step(reply, "Half-band of the map")
    assert band["put_in"].startswith("√(12 %² + (2.0 · (|a| + |b|) = 7.5 %)²)")
    assert band["result"] == "±14.2 %"
    assert step(reply, "Running volts off the map")["result"] == "7.0 %: half-band + 10 %"
    assert step(ask(SLUG, **SLOPED), "Half-band of the map")["result"] == "±12 %"
    watts = first(ask(SLUG, **{**FLAT, "c1": "110", "map_gives": "W"}))
    assert "the map expects 110 W ±12 % at these temperatures" in watts["sentence"]


def test_a_band_wider_than_the_value_itself_reaches_down_to_nothing(ask: Any) -> None:
    # 2 + 0.1·S is 1 A at −10 °C, 10 % a kelvin: 10 K are 100 %.
    typed = {**FLAT, "c1": "2", "c2": "0.1", "evaporating_now": "-10", "temperature_band": "10"}
    assert result(ask(SLUG, **typed), "map_amps")["band"] == "0.000 to 2.007 A"


@pytest.mark.parametrize(
    ("amps", "entry"),
    # 1.15 times 0.8 A over 1 − √(12² + (ΔT · 3.75)²): 1.0720 A with 2 K, 1.0523 A with 1 K, 1.0472 A with 0.5 K.
    [("1.075", "2 K"), ("1.06", "1 K"), ("1.05", "0.5 K")],
)
def test_the_coarsest_temperatures_that_decide_are_asked_for(ask: Any, amps: str, entry: str) -> None:
    typed = {**SLOPED, **EXACT, "running_amps": amps, "temperature_band": "6"}
    decider = first(ask(SLUG, **typed))["decider"]
    assert (decider["enter_in"], decider["entry"]) == ("temperature_band", entry)
    assert first(ask(SLUG, **typed | {"temperature_band": entry}))["verdict"] == "watch"


def test_a_corner_of_the_map_that_makes_no_sense_is_pointed_out(ask: Any) -> None:
    # By hand: 2 + 0.05·S is 1.5 A at −10 and 0.25 A at −35; with 0.06 it is −0.1 A there.
    notes = " ".join(ask(SLUG, **{**FLAT, "c1": "2", "c2": "0.06"})["notes"])
    assert "At its own corner S -35.0, D 35.0 °C this map gives -0.10 A." in notes
    assert "At its own corner" not in " ".join(ask(SLUG, **{**FLAT, "c1": "2", "c2": "0.05"})["notes"])


# --- the verdict ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("amps", "verdict", "stop"),
    # ±12 %: 0.70/1.12 = 0.625, 1.15/0.88 = 1.307, 1.40/0.88 = 1.591.
    [
        ("0.62", "outside", False),
        ("0.63", "undecided", False),
        ("0.69", "undecided", False),
        ("0.70", "within", False),
        ("1.15", "within", False),
        ("1.16", "undecided", False),
        ("1.30", "undecided", False),
        ("1.31", "watch", False),
        ("1.59", "watch", False),
        ("1.60", "outside", True),
    ],
)
def test_running_amps_are_judged_on_both_sides_of_each_limit(ask: Any, amps: str, verdict: str, stop: bool) -> None:
    found = first(ask(SLUG, **FLAT, **STEADY, **EXACT, running_amps=amps))
    assert (found["verdict"], found["stop"]) == (verdict, stop)


def test_the_verdict_is_that_of_expected_amps_on_the_same_map(ask: Any) -> None:
    for amps in ("0.5", "0.66", "0.9", "1.2", "1.4", "1.7"):
        here = first(ask(SLUG, **FLAT, **STEADY, running_amps=amps))
        there = first(ask("expected-amps", plate_volts="115", map_amps="1", **STEADY, running_amps=amps))
        assert (here["verdict"], here["sentence"], here["stop"]) == (there["verdict"], there["sentence"], there["stop"])


@pytest.mark.parametrize(
    ("changed", "name", "words"),
    [
        ({"supply_frequency": "50"}, "supply-frequency", "the map says 60 Hz and the supply is 50 Hz"),
        ({"running_volts": "130"}, "running-volts", "13.0 % off the map's 115 V"),
        ({"running_volts": ""}, "running-volts", "the volts at the plug while it runs are not known"),
        ({"run_time": "10"}, "run-time", "10.0 min after the start is less than 20 min"),
    ],
)
def test_there_is_no_verdict_away_from_the_maps_conditions(ask: Any, changed: Any, name: str, words: str) -> None:
    reply = ask(SLUG, **{**FLAT, **STEADY, **changed}, running_amps="1")
    assert finding(reply, name)["verdict"] == "undecided"
    assert words in finding(reply, name)["sentence"]


@pytest.mark.parametrize(("volts", "half"), [("120.7", "12.0 %"), ("120.8", "22.0 %"), ("109.2", "22.0 %")])
def test_volts_more_than_5_percent_off_the_map_widen_the_band(ask: Any, volts: str, half: str) -> None:
    assert result(ask(SLUG, **FLAT, running_volts=volts), "half_band")["text"] == half


def test_without_a_reading_it_says_what_to_measure(ask: Any) -> None:
    found = first(ask(SLUG, **MAP, **HERE))
    assert (found["verdict"], found["decider"]["enter_in"]) == ("undecided", "running_amps")


SLOPED = {**FLAT, "c1": "0.4", "c2": "0.02", "c3": "0.01", "evaporating_now": "-10", "condensing_now": "60", **STEADY}


@pytest.mark.parametrize(
    ("changed", "field", "verdict"),
    [
        ({"running_amps": "1.1", "clamp_counts": "50"}, "clamp_resolution", "watch"),
        ({"running_amps": "1.1", "temperature_band": "5"}, "temperature_band", "watch"),
        ({"running_amps": "0.47", "temperature_band": "10 K"}, "temperature_band", "outside"),
    ],
)
def test_what_is_said_to_decide_does(ask: Any, changed: dict[str, str], field: str, verdict: str) -> None:
    before = first(ask(SLUG, **SLOPED, **changed))
    decider = before["decider"]
    assert (before["verdict"], decider["enter_in"]) == ("undecided", field)
    after = first(ask(SLUG, **{**SLOPED, **changed, field: decider["entry"]}))
    assert after["verdict"] == verdict


def test_better_temperatures_and_a_finer_clamp_are_named_where_only_both_decide(ask: Any) -> None:
    typed = {**SLOPED, "running_amps": "1.1", "temperature_band": "5", "clamp_percent": "20"}
    decider = first(ask(SLUG, **typed))["decider"]
    assert (decider["enter_in"], decider["entry"]) == ("", "")
    assert decider["resolution"] == (
        "good to 2.0 K (3.6 °F) or better, and a clamp of 0.001 A on a meter of 0.5 % + 2 counts"
    )
    typed |= {"temperature_band": "2", "clamp_percent": "0.5", "clamp_resolution": "0.001"}
    assert first(ask(SLUG, **typed))["verdict"] == "watch"


def test_a_better_supply_is_named_where_it_would_decide(ask: Any) -> None:
    typed = {**FLAT, **STEADY, "running_amps": "1.4"}
    before = first(ask(SLUG, **{**typed, "running_volts": "123"}))
    assert (before["verdict"], before["decider"]["enter_in"]) == ("undecided", "running_volts")
    assert "within 5 % of the map" in before["decider"]["condition"]
    assert first(ask(SLUG, **{**typed, "running_volts": "120"}))["verdict"] == "watch"


def test_watts_are_named_where_no_amps_can_decide(ask: Any) -> None:
    decider = first(ask(SLUG, **FLAT, **STEADY, running_amps="1.2"))["decider"]
    assert decider["reading"].startswith("Watts and power factor")


# --- what cannot be used ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "field", "words"),
    [
        ({"map_gives": ""}, "map_gives", "choose amps or watts"),
        ({"map_temperature_unit": ""}, "map_temperature_unit", "choose °C or °F"),
        ({"map_frequency": ""}, "map_frequency", "choose 50 Hz or 60 Hz"),
        ({"c7": ""}, "c7", "C7 is missing. Enter a number such as 1.2e-3, -100000 to 100000."),
        ({"c7": "1e6"}, "c7", "C7: 1e6 is outside what this check takes, -100000 to 100000."),
        ({"c7": "1e-"}, "c7", "has letters that are not a unit here"),
        ({"c7": "2 V"}, "c7", "“2 V” is volts, but this field takes a plain number."),
        ({"c2": "-3,609e-2"}, "c2", "“-3,609e-2” could be -3.609e-2 or -3609e-2."),
        ({"evaporating_least": "-10"}, "evaporating_most", "-10.0 °C (14.0 °F) is not above the lowest, -10.0 °C"),
        ({"condensing_most": "35"}, "condensing_most", "35.0 °C (95.0 °F) is not above the lowest, 35.0 °C"),
        ({"evaporating_now": "-35.1"}, "evaporating_now", "-35.1 °C (-31.2 °F) is outside the map, which goes from"),
        ({"evaporating_now": "-9.9"}, "evaporating_now", "is outside the map"),
        ({"condensing_now": "34.9"}, "condensing_now", "is outside the map, which goes from 35.0 °C (95.0 °F)"),
        ({"condensing_now": "60.1"}, "condensing_now", "is outside the map"),
        ({"running_amps": "0"}, "running_amps", "0 is no running current"),
        ({"c1": "-3"}, "c1", "C1 to C10: they give -2.375 A here"),
        ({"c1": "100"}, "c1", "they give 100.6 A here"),
        ({"map_gives": "W"}, "c1", "they give 1.6 W here"),
        ({"map_temperature_unit": "degF", "c3": "1"}, "c1", "the unit of its temperatures"),
    ],
)
def test_what_cannot_be_used_is_refused_at_its_field(ask: Any, typed: dict[str, str], field: str, words: str) -> None:
    reply = ask(SLUG, **{**MAP, **HERE, **typed})
    assert [one["input"] for one in reply["problems"]] == [field]
    assert words in messages(reply)[0][1]


def test_a_map_is_read_up_to_its_edges(ask: Any) -> None:
    for s, d in itertools.product(("-35", "-10", "-31 F", "14 F"), ("35", "60", "95 F", "140 F")):
        assert "problems" not in ask(SLUG, **MAP, evaporating_now=s, condensing_now=d)


def test_condensing_below_evaporating_is_refused(ask: Any) -> None:
    typed = {**FLAT, "evaporating_most": "20", "condensing_least": "0"}
    reply = ask(SLUG, **{**typed, "evaporating_now": "15", "condensing_now": "15"})
    assert [one["input"] for one in reply["problems"]] == ["condensing_now"]
    assert "Look whether the two are swapped" in messages(reply)[0][1]
    assert "problems" not in ask(SLUG, **{**typed, "evaporating_now": "15", "condensing_now": "15.1"})


def test_everything_that_is_missing_is_told_at_once(ask: Any) -> None:
    reply = ask(SLUG, **{**MAP, **HERE, "map_gives": "", "map_frequency": "", "evaporating_least": "0"})
    assert [one["input"] for one in reply["problems"]] == ["map_gives", "map_frequency", "evaporating_most"]


# --- properties -------------------------------------------------------------------------------------

NAMES = [
    name
    for one in CALCULATOR.inputs
    for name in ([field.name for field in one.fields()] if isinstance(one, MeterInput) else [one.name])
]
TEXT = st.one_of(
    st.text(max_size=45),
    st.sampled_from(["1e5", "-1e5", "1e-300", "1e999", "-1E+400", "OL", "0", "-40 F", "degF", "W", "A", "60", "٣e2"]),
    st.floats(min_value=-1e5, max_value=1e5).map(lambda number: f"{number:e}"),
    st.floats(min_value=-60, max_value=90).map(lambda number: f"{number:g}"),
)


@given(typed=st.dictionaries(st.sampled_from(NAMES), TEXT, max_size=8))
def test_whatever_is_typed_an_answer_comes_back_and_every_problem_names_its_field(
    ask: Any, typed: dict[str, str]
) -> None:
    reply = ask(SLUG, **{**MAP, **HERE, "running_amps": "1.5", **typed})
    if "problems" in reply:
        assert all(problem["input"] in NAMES and problem["message"] for problem in reply["problems"])
    else:
        assert reply["findings"]


@given(st.integers(40, 200), st.tuples(st.integers(0, 20), st.integers(0, 20)), st.tuples(st.integers(0, 40), st.integers(0, 40)))  # fmt: skip
def test_wider_bands_never_make_or_strengthen_a_verdict(ask: Any, amps: int, kelvins: Any, percents: Any) -> None:
    strength = {"undecided": 0, "within": 0, "watch": 1, "outside": 2}
    typed = {**SLOPED, "running_amps": f"{amps / 100}"}
    fine, coarse = (
        first(ask(SLUG, **typed, temperature_band=f"{pick(kelvins) / 2}", clamp_percent=f"{pick(percents)}"))["verdict"]
        for pick in (min, max)
    )
    assert strength[coarse] <= strength[fine]
    assert fine != "undecided" or coarse == "undecided"


@given(st.integers(40, 200), st.integers(0, 20), st.integers(0, 40), st.sampled_from(["115", "123"]))
def test_an_entry_that_is_said_to_decide_does(ask: Any, amps: int, kelvin: int, percent: int, volts: str) -> None:
    typed = {**SLOPED, "running_amps": f"{amps / 100}", "temperature_band": f"{kelvin / 2}"}
    typed |= {"clamp_percent": f"{percent}", "running_volts": volts}
    found = first(ask(SLUG, **typed))
    assume(found["verdict"] == "undecided")
    decider = found["decider"]
    assert decider["reading"]
    assert decider["resolution"]
    assert decider["condition"]
    if decider["entry"]:
        assert first(ask(SLUG, **{**typed, decider["enter_in"]: decider["entry"]}))["verdict"] != "undecided"


@given(st.lists(st.integers(-350, -100), min_size=2, max_size=2).map(sorted))
def test_warmer_evaporation_draws_more_where_the_map_rises(ask: Any, tenths: list[int]) -> None:
    low, high = (value(ask(SLUG, **SLOPED | {"evaporating_now": f"{one / 10}"}), "map_amps") for one in tenths)
    assert float(low) <= float(high)


# --- pictures and the declaration -------------------------------------------------------------------


def test_the_picture_of_the_map_has_the_reading_inside_its_field(ask: Any) -> None:
    for s, d in itertools.product(("-35", "-23.3", "-10"), ("35", "54.4", "60")):
        figure = ask(SLUG, **MAP, evaporating_now=s, condensing_now=d)["figures"][0]
        svg = ElementTree.fromstring(figure["svg"])
        _, _, width, height = map(float, svg.attrib["viewBox"].split())
        rect, circle = (next(one for one in svg if one.tag.endswith(tag)) for tag in ("rect", "circle"))
        x, y, wide, high = (float(rect.attrib[name]) for name in ("x", "y", "width", "height"))
        across, down = (float(circle.attrib[name]) for name in ("cx", "cy"))
        assert 0 < x < x + wide < width
        assert 0 < y < y + high < height
        # A quarter of the way from −35 to −10 is a quarter of the way across; D grows upward.
        assert (across - x) / wide == pytest.approx((float(s) + 35) / 25, abs=0.001)
        assert (y + high - down) / high == pytest.approx((float(d) - 35) / 25, abs=0.001)
    assert figure["words"].startswith("The map goes from -35.0 to -10.0 °C evaporating")


@pytest.mark.parametrize("example", CALCULATOR.examples, ids=lambda one: one.id)
def test_every_worked_example_works(standards: Standards, example: Any) -> None:
    outcome = evaluate(CALCULATOR, example.typed, standards.in_force(date(2026, 11, 25)))
    assert isinstance(outcome, Outcome)
    assert outcome.findings
    assert outcome.results
    assert outcome.working


def test_everything_it_names_is_in_the_handbook(standards: Standards) -> None:
    in_force = standards.in_force(date(2026, 11, 25))
    for key in CALCULATOR.limits:
        in_force.limit(key)
    for source in (*CALCULATOR.sources, *(example.source for example in CALCULATOR.examples)):
        in_force.source(source)


def test_no_sentence_calls_anything_safe(ask: Any) -> None:
    for amps in ("0.5", "1", "1.2", "2"):
        reply = ask(SLUG, **FLAT, **STEADY, running_amps=amps)
        said = " ".join(f"{one['sentence']} {one['plain']} {one['next']['text']}" for one in reply["findings"])
        assert not re.search(r"\bsafe", said)
