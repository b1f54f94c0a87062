"""Saturation pressure and temperature: the tables against printed ones, reading between their lines against CoolProp,
the air against a printed atmosphere, and what the form refuses."""

from __future__ import annotations

import math
from datetime import date
from typing import Any

import pytest

from calculators.limits import Standards
from calculators.saturation_pressure import CALCULATOR
from calculators.saturation_pressure.air import standard_atmosphere
from calculators.saturation_pressure.fluid import TABLE, fluid_of
from tests.calculators.answers import finding, messages, result, value

SLUG = "saturation-pressure"
CHECKED = date(2026, 11, 25)
COOLPROP = {"r134a": "R134a", "r600a": "R600a", "r290": "R290", "r12": "R12", "r22": "R22", "r404a": "R404A"}


def absolute(ask: Any, refrigerant: str, degrees: float, line: str = "") -> float:
    name = f"saturation_{line}_absolute" if line else "saturation_absolute"
    return float(value(ask(SLUG, refrigerant=refrigerant, temperature=f"{degrees:g}"), name))


def boiling(ask: Any, refrigerant: str, kilopascal: float, line: str = "saturation") -> float:
    reply = ask(SLUG, refrigerant=refrigerant, absolute_pressure=f"{kilopascal:g}")
    return float(value(reply, f"{line}_temperature"))


# --- printed tables, each from another equation than the handbook's or from measurements ---------------


@pytest.mark.parametrize(
    ("degrees", "bar"),
    [
        (-50, 0.6451),
        (-45, 0.8290),
        (-40, 1.0522),
        (-36, 1.2627),
        (-32, 1.5049),
        (-30, 1.6389),
        (-28, 1.7819),
        (-26, 1.9345),
        (-22, 2.2698),
        (-18, 2.6482),
        (-12, 3.3044),
        (-8, 3.8062),
        (-4, 4.3638),
        (0, 4.9811),
    ],
)
@pytest.mark.source("moran-shapiro-table-a-7")
def test_r22_agrees_with_a_textbook_table(ask: Any, degrees: float, bar: float) -> None:
    # M. J. Moran and H. N. Shapiro, Fundamentals of Engineering Thermodynamics, Table A-7, saturated Refrigerant 22
    # (read in a public copy; its minus signs are printed as 2 there).
    assert absolute(ask, "r22", degrees) == pytest.approx(100 * bar, rel=0.001, abs=0.06)


@pytest.mark.parametrize(("bar", "degrees"), [(5, 15.68), (6, 21.54), (8, 31.35), (10, 39.41), (12, 46.36)])
@pytest.mark.source("kutz-handbook-table-14")
def test_r134a_agrees_with_an_engineering_handbook(ask: Any, bar: float, degrees: float) -> None:
    # M. Kutz (editor), Mechanical Engineers' Handbook, volume 4, Thermophysical Properties of Fluids, Table 14, saturated Refrigerant
    # 134a (secondary copy). An older equation: 0.06 K apart.
    assert boiling(ask, "r134a", 100 * bar) == pytest.approx(degrees, abs=0.1)


@pytest.mark.parametrize(
    ("megapascal", "degrees"), [(0.10, -26.43), (0.14, -18.80), (0.18, -12.73), (0.20, -10.09), (0.24, -5.37)]
)
@pytest.mark.source("thermodynamics-ebook-r134a")
def test_r134a_agrees_with_the_heads_of_a_superheat_table(ask: Any, megapascal: float, degrees: float) -> None:
    # M. Huang and K. Gramoll, Multimedia Engineering Thermodynamics, appendix, superheated Refrigerant-134a (public copy).
    assert boiling(ask, "r134a", 1000 * megapascal) == pytest.approx(degrees, abs=0.13)


@pytest.mark.source("r134a-print")
def test_r134a_boils_at_one_atmosphere_where_its_makers_table_says(ask: Any) -> None:
    # A manufacturer's SI table of HFC-134a, from NIST data by an MBWR equation: −26.06 °C at 101.325 kPa (public copy).
    assert boiling(ask, "r134a", 101.325) == pytest.approx(-26.06, abs=0.1)


@pytest.mark.parametrize(("degrees", "kilopascal"), [(30, 399.5), (40, 525.0), (50, 678.5), (60, 863.4)])
@pytest.mark.source("beattie-1949")
def test_isobutane_agrees_with_measured_vapour_pressures(ask: Any, degrees: float, kilopascal: float) -> None:
    # J. A. Beattie, D. G. Edwards and S. Marple, J. Chem. Phys. 17 (1949) 576: measured from 30 to 125 °C, "a fair
    # representation" is log10 p = 4.31269 − 1126.71 / (t + 273.13), p in atmospheres (abstract). At 50 °C:
    # 1126.71 / 323.13 = 3.48686; 10^0.82583 = 6.6963 atm = 678.5 kPa. The fit is 1.3 % low at its cold end.
    assert absolute(ask, "r600a", degrees) == pytest.approx(kilopascal, rel=0.015)


@pytest.mark.parametrize(("degrees", "kilopascal"), [(-40, 110.9), (-20, 244.3), (0, 473.8), (20, 832.3)])
@pytest.mark.source("propane-print")
def test_propane_agrees_with_a_printed_vapour_pressure_equation(ask: Any, degrees: float, kilopascal: float) -> None:
    # A dew-point analyser's manual prints log10 p = 6.82973 − 813.2 / (248 + t), p in mmHg, from a table of
    # measurements (public copy). At 0 °C: 10^3.55070 = 3553.8 mmHg = 473.8 kPa.
    assert absolute(ask, "r290", degrees) == pytest.approx(kilopascal, rel=0.006)


@pytest.mark.parametrize(("degrees", "bar"), [(-50, 0.827), (-45, 1.055), (-40, 1.330), (-35, 1.658)])
@pytest.mark.source("r404a-print")
def test_a_printed_pressure_of_r404a_lies_between_dew_and_bubble(ask: Any, degrees: float, bar: float) -> None:
    # A printed table of R404A with one pressure a temperature (public copy): the mean of the two lines, so it lies
    # between them. Which line a one-column table means has to be asked every time.
    dew, bubble = (absolute(ask, "r404a", degrees, line) for line in ("dew", "bubble"))
    assert dew < 100 * bar < bubble
    assert 100 * bar == pytest.approx((dew + bubble) / 2, rel=0.006)


@pytest.mark.parametrize(
    ("refrigerant", "degrees"), [("r12", -29.75), ("r22", -40.81), ("r290", -42.11), ("r600a", -11.7)]
)
@pytest.mark.source("ashrae-fundamentals")
def test_normal_boiling_points_are_those_of_the_handbooks(ask: Any, refrigerant: str, degrees: float) -> None:
    # From memory: ASHRAE Handbook, Fundamentals, boiling points at 101.325 kPa.
    assert boiling(ask, refrigerant, 101.325) == pytest.approx(degrees, abs=0.1)


@pytest.mark.parametrize(
    ("refrigerant", "degrees", "kilopascal"),
    [
        ("r12", -30, -1),
        ("r12", -10, 117),
        ("r12", 25, 549),
        ("r12", 55, 1262),
        ("r22", -25, 100),
        ("r22", 40, 1432),
        ("r134a", -25, 5),
        ("r134a", 25, 564),
        ("r600a", -25, -43),
        ("r600a", -10, 7),
        ("r600a", 50, 584),
        ("r290", 25, 851),
    ],
)
@pytest.mark.source("derived")
def test_gauge_values_are_the_ones_of_the_pocket_chart(
    ask: Any, refrigerant: str, degrees: float, kilopascal: int
) -> None:
    # A chart derived from published equations of state, whole kPa gauge at an atmosphere of 101.3 kPa.
    reply = ask(SLUG, refrigerant=refrigerant, temperature=f"{degrees}", altitude="0")
    assert float(value(reply, "saturation_gauge")) == pytest.approx(kilopascal, abs=0.6)


# --- reading between the lines: CoolProp referees this and nothing else --------------------------------


@pytest.mark.parametrize("key", COOLPROP)
@pytest.mark.source("coolprop-program")
def test_between_two_lines_of_the_table_the_error_stays_below_the_stated_one(standards: Standards, key: str) -> None:
    coolprop = pytest.importorskip("CoolProp.CoolProp")  # CoolProp 8.0.0, the equation of state itself
    in_force = standards.in_force(CHECKED)
    fluid, stated = fluid_of(key, in_force), in_force.value("pressures.table_error") / 100
    worst = 0.0
    for curve, quality in ((fluid.dew, 1.0), (fluid.bubble, 0.0)):
        for quarter in range(int(4 * fluid.coldest), int(4 * fluid.warmest) + 1):
            degrees = quarter / 4
            exact = coolprop.PropsSI("P", "T", degrees + 273.15, "Q", quality, COOLPROP[key]) / 1000
            worst = max(worst, abs(curve.pressure(degrees) / exact - 1))
    assert worst < stated
    assert worst < 0.0005  # what the recipe promises


@pytest.mark.parametrize(
    ("refrigerant", "degrees", "bar", "psi"),
    [
        ("r134a", -30, 0.8438, 12.238),
        ("r134a", -23.3, 1.1484, 16.657),
        ("r134a", 54.4, 14.6982, 213.180),
        ("r600a", -23.3, 0.6294, 9.128),
        ("r600a", 54.4, 7.6200, 110.519),
        ("r290", -25, 2.0343, 29.505),
        ("r290", -23.3, 2.1676, 31.438),
        ("r290", 54.4, 18.8310, 273.120),
    ],
)
@pytest.mark.source("coolprop-program")
def test_rating_points_between_the_lines_are_met(
    ask: Any, refrigerant: str, degrees: float, bar: float, psi: float
) -> None:
    # Reference values computed with CoolProp 8.0.0, dew line, absolute: they referee the interpolation, not the table.
    reply = ask(SLUG, refrigerant=refrigerant, temperature=f"{degrees}")
    assert float(value(reply, "saturation_absolute")) == pytest.approx(100 * bar, rel=0.001, abs=0.06)
    psi_said = next(one for one in result(reply, "saturation_absolute")["also"] if one.endswith("psi abs"))
    assert float(psi_said.removesuffix(" psi abs")) == pytest.approx(psi, rel=0.001, abs=0.06)


@pytest.mark.parametrize(("degrees", "dew", "bubble"), [(-25, 248, 254), (25, 1241, 1255), (50, 2296, 2311)])
def test_r404a_has_a_dew_and_a_bubble_pressure(ask: Any, degrees: float, dew: int, bubble: int) -> None:
    # Derived from the published pseudo-pure equation, whole kPa absolute.
    assert absolute(ask, "r404a", degrees, "dew") == pytest.approx(dew, abs=0.6)
    assert absolute(ask, "r404a", degrees, "bubble") == pytest.approx(bubble, abs=0.6)


def test_every_pressure_of_every_table_rises_with_temperature(standards: Standards) -> None:
    for row in standards.tables[TABLE].rows:
        curves = [row[key] for key in ("kPa_abs", "dew_kPa_abs", "bubble_kPa_abs") if key in row]
        assert len(curves) == (2 if row["kind"] == "blend" else 1)
        for curve in curves:
            assert all(math.isfinite(one) and one > 0 for one in curve)
            assert list(curve) == sorted(set(curve))
            assert curve[-1] < row["critical_kPa_abs"]
        assert row["at_degC"][-1] < row["critical_degC"]


# --- the air ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("feet", "psi"), [(-1000, 15.236), (500, 14.430), (1000, 14.175), (2000, 13.664), (5000, 12.230), (10000, 10.108)]
)
@pytest.mark.source("us-standard-atmosphere-print")
def test_the_air_by_altitude_is_that_of_the_standard_atmosphere(ask: Any, feet: int, psi: float) -> None:
    # U.S. Standard Atmosphere, psia by altitude in ft (read in a public table).
    reply = ask(SLUG, refrigerant="r134a", temperature="0", altitude=(f"{feet}", "ft"))
    said = next(one for one in result(reply, "air_pressure")["also"] if one.endswith("psi abs"))
    assert float(said.removesuffix(" psi abs")) == pytest.approx(psi, abs=0.0075)


@pytest.mark.source("us-standard-atmosphere-print")
def test_a_misprint_in_the_table_of_the_atmosphere_is_not_followed() -> None:
    # The same public table prints 12.682 psia at 4000 ft; the equation above it gives 14.696 (1 − 6.8754e-6 × 4000)^5.2559,
    # which is 12.692 psia = 87.51 kPa. The neighbours 13.173 and 12.230 agree with the equation.
    assert standard_atmosphere(1219.2) == pytest.approx(87.51, abs=0.01)


def test_without_altitude_gauge_values_say_that_they_are_for_sea_level(ask: Any) -> None:
    reply = ask(SLUG, refrigerant="r134a", temperature="0")
    assert result(reply, "saturation_gauge")["label"].endswith("gauge, at sea level")
    assert any("gauge values are for sea level" in note for note in reply["notes"])


def test_a_gauge_reading_needs_the_altitude_or_a_barometer(ask: Any) -> None:
    reply = ask(SLUG, refrigerant="r134a", gauge_pressure="450")
    ((field, message),) = messages(reply)
    assert field == "altitude"
    assert "0 at the sea" in message
    assert "problems" not in ask(SLUG, refrigerant="r134a", gauge_pressure="450", barometer=("1013", "hPa_abs"))


def test_the_same_gauge_reading_is_colder_in_the_mountains(ask: Any) -> None:
    # 12 kPa of air less for each 1000 m (common practice): 35 kPa on the gauge are 136.3 kPa at the sea, 114.5 at 2000 m.
    sea, high = (
        float(value(ask(SLUG, refrigerant="r134a", gauge_pressure="35", altitude=one), "saturation_temperature"))
        for one in ("0", "2000")
    )
    assert sea == pytest.approx(-19.4, abs=0.15)
    assert high == pytest.approx(-23.4, abs=0.15)


def test_a_barometer_brought_to_sea_level_is_refused_at_altitude(ask: Any) -> None:
    reply = ask(SLUG, refrigerant="r134a", temperature="0", altitude="1500", barometer=("1013", "hPa_abs"))
    ((field, message),) = messages(reply)
    assert field == "barometer"
    assert "does not fit an altitude of 1500 m" in message
    assert "weather report" in message
    fits = ask(SLUG, refrigerant="r134a", temperature="0", altitude="1500", barometer="84")
    assert value(fits, "air_pressure") == "84.0"


# --- both ways, both systems ---------------------------------------------------------------------------


def test_a_pressure_below_the_air_is_shown_as_inches_of_vacuum(ask: Any) -> None:
    # 43 kPa below the air are 12.7 inHg; 1 inHg is 3.38639 kPa.
    reply = ask(SLUG, refrigerant="r600a", temperature="-25", altitude="0")
    assert "12.7 inHg vacuum" in result(reply, "saturation_gauge")["also"]
    back = ask(SLUG, refrigerant="r600a", gauge_pressure=("12.67", "inHg_vacuum"), altitude="0")
    assert float(value(back, "saturation_temperature")) == pytest.approx(-25.0, abs=0.1)


@pytest.mark.parametrize("entry", [("-12.67", "inHg_vacuum"), "-12.67 inHg"])
def test_a_vacuum_with_a_minus_sign_is_refused_and_not_turned_into_pressure(ask: Any, entry: Any) -> None:
    ((field, message),) = messages(ask(SLUG, refrigerant="r600a", gauge_pressure=entry, altitude="0"))
    assert field == "gauge_pressure"
    assert "Enter it without the sign." in message


def test_a_blend_has_two_temperatures_and_a_glide(ask: Any) -> None:
    # 1241 kPa absolute is the dew pressure at 25 °C; the bubble line has it at 24.5 °C (13.35 kPa over some 33 kPa/K).
    reply = ask(SLUG, refrigerant="r404a", absolute_pressure="1241")
    assert value(reply, "dew_temperature") == "25.0"
    assert float(value(reply, "bubble_temperature")) == pytest.approx(24.6, abs=0.06)
    assert float(value(reply, "glide")) == pytest.approx(0.4, abs=0.03)


@pytest.mark.parametrize("degrees", ["-50", "-17.3", "0", "25", "70"])
@pytest.mark.parametrize("key", COOLPROP)
def test_what_goes_out_comes_back(ask: Any, key: str, degrees: str) -> None:
    line = "dew_" if key == "r404a" else ""
    # what is printed is to 0.05 kPa, and 0.85 kPa/K is the flattest of all lines
    pressure = value(ask(SLUG, refrigerant=key, temperature=degrees), f"saturation_{line}absolute")
    reply = ask(SLUG, refrigerant=key, absolute_pressure=pressure)
    if "problems" in reply:
        assert degrees in (
            "-50",
            "70",
        )  # rounded out of the table, or, at the cold end of a blend, below its bubble line
        return
    name = "dew_temperature" if line else "saturation_temperature"
    assert float(value(reply, name)) == pytest.approx(float(degrees), abs=0.11)


# --- what is refused -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "field", "words"),
    [
        ({"temperature": "20"}, "refrigerant", ("Choose the one that the plate",)),
        ({"refrigerant": "r134a"}, "temperature", ("and so is a pressure",)),
        ({"refrigerant": "r134a", "temperature": "80.1"}, "temperature", ("outside the table of R134a", "80.0 °C")),
        ({"refrigerant": "r134a", "temperature": "-51"}, "temperature", ("outside the table", "-50.0 °C (-58.0 °F)")),
        ({"refrigerant": "r134a", "temperature": "101.1"}, "temperature", ("above the critical temperature", "101.1")),
        ({"refrigerant": "r404a", "temperature": "75"}, "temperature", ("above the critical temperature of R404A",)),
        ({"refrigerant": "r404a", "temperature": "71"}, "temperature", ("outside the table of R404A", "70.0 °C")),
        (
            {"refrigerant": "r134a", "absolute_pressure": "4100"},
            "absolute_pressure",
            ("above the critical pressure of R134a, 4059 kPa abs",),
        ),
        (
            {"refrigerant": "r134a", "absolute_pressure": "3000"},
            "absolute_pressure",
            ("above the table of R134a", "29.5 to 2633.2 kPa abs"),
        ),
        (
            {"refrigerant": "r290", "gauge_pressure": "-40", "altitude": "0"},
            "gauge_pressure",
            ("61.3 kPa abs is below the table of R290", "has no liquid in it"),
        ),
        (
            {"refrigerant": "r134a", "gauge_pressure": "-105", "altitude": "0"},
            "gauge_pressure",
            ("perfect vacuum or less",),
        ),
        (
            {"refrigerant": "r134a", "gauge_pressure": "100", "absolute_pressure": "201", "altitude": "0"},
            "absolute_pressure",
            ("leave the other empty",),
        ),
        (
            {"refrigerant": "r134a", "absolute_pressure": "-20"},
            "absolute_pressure",
            ("below zero", "is a gauge pressure"),
        ),
    ],
)
def test_what_cannot_be_is_refused_at_its_field(
    ask: Any, typed: dict[str, str], field: str, words: tuple[str, ...]
) -> None:
    ((at, message),) = messages(ask(SLUG, **typed))
    assert at == field
    assert all(one in message for one in words), message


@pytest.mark.parametrize("typed", [{"temperature": "80"}, {"temperature": ("176", "degF")}, {"temperature": "-50"}])
def test_the_ends_of_the_table_are_taken(ask: Any, typed: Any) -> None:
    assert "problems" not in ask(SLUG, refrigerant="r134a", **typed)


# --- who may ------------------------------------------------------------------------------------------


def test_everything_it_says_begins_with_whose_work_it_is(ask: Any) -> None:
    assert CALCULATOR.level == "licensed"
    assert "licensed work" in CALCULATOR.purpose
    assert "no reason to open a circuit" in CALCULATOR.does_not_tell
    for example in CALCULATOR.examples:
        reply = ask(SLUG, **{name: (one.text, one.unit) for name, one in example.typed.items()})
        assert "work for a person licensed for it, and the last step" in reply["notes"][0]


@pytest.mark.parametrize(
    ("refrigerant", "burns"), [("r600a", True), ("r290", True), ("r134a", False), ("r404a", False)]
)
def test_a_refrigerant_that_burns_says_so(ask: Any, refrigerant: str, burns: bool) -> None:
    # ISO 817 / ASHRAE 34, from memory: R600a and R290 are A3.
    notes = ask(SLUG, refrigerant=refrigerant, temperature="20")["notes"]
    assert any("burns (class A3)" in note for note in notes) is burns


def test_the_first_example_has_findings_results_and_working(ask: Any) -> None:
    example = CALCULATOR.examples[0]
    reply = ask(SLUG, **{name: (one.text, one.unit) for name, one in example.typed.items()})
    assert finding(reply, "standing-pressure")["verdict"] == "watch"
    assert reply["results"]
    assert reply["working"]
    assert {one.source for one in CALCULATOR.examples} <= set(CALCULATOR.sources)


def test_a_refrigerant_is_taken_as_the_plate_prints_it(ask: Any) -> None:
    assert ask("saturation-pressure", refrigerant="R134A", temperature="25")["results"]
