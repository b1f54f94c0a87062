"""Saturation pressure: the figures that a reader takes away, worked by hand, and where one answer turns into the next."""

from __future__ import annotations

from typing import Any

import pytest

from tests.calculators.answers import finding, messages, result

SLUG = "saturation-pressure"
EXACT = {"gauge_percent": "0", "gauge_counts": "0", "thermometer_percent": "0", "thermometer_counts": "0"}
REST = {"refrigerant": "r134a", "ambient_temperature": "25", "hours_rest": "10"}
STANDING = "standing-pressure"


# --- the air ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("degrees", "vacuum"), [("-25.97", False), ("-26.2", True)])
@pytest.mark.source("r134a-print")
def test_a_vacuum_is_told_from_the_airs_pressure_down(ask: Any, degrees: str, vacuum: bool) -> None:
    # R134a boils at −26.06 °C at 101.325 kPa, and has 4.8 kPa more for each kelvin there.
    said = result(ask(SLUG, refrigerant="r134a", temperature=degrees, altitude="0"), "saturation_gauge")
    assert abs(float(said["value"])) < 1.0
    assert any("inHg vacuum" in one for one in said["also"]) is vacuum
    assert ("a vacuum on the gauge" in said["plain"]) is vacuum


@pytest.mark.source("iso-2533")
def test_the_airs_pressure_is_worked_as_handbooks_print_it(ask: Any) -> None:
    # p = 101.325 (1 − 2.25577·10⁻⁵ h)^5.2559, as handbooks of air conditioning print it.
    for altitude, said in (("", "0"), ("0", "0"), ("1500", "1500")):
        step = ask(SLUG, refrigerant="r134a", temperature="0", altitude=altitude)["working"][0]
        assert step["formula"] == "p = 101.325 kPa × (1 − 2.25577·10⁻⁵ h)^5.2559"
        assert step["put_in"] == f"h = {said} m"


@pytest.mark.source("trade-memory")
def test_the_airs_pressure_has_the_band_of_the_weather_or_of_a_barometer(ask: Any) -> None:
    # From memory: weather moves it by 4 %, 4.053 kPa of 101.325; an ordinary barometer is off by 0.3 %.
    typed = {"refrigerant": "r134a", "temperature": "0"}
    assert result(ask(SLUG, **typed, altitude="0"), "air_pressure")["band"] == "97.3 to 105.4 kPa abs"
    assert result(ask(SLUG, **typed, barometer="52"), "air_pressure")["band"] == "51.8 to 52.2 kPa abs"


@pytest.mark.parametrize(
    ("gauge", "says"),
    [
        ("-101.4", ": -101.4 kPa gauge is perfect vacuum or less where the air has 101.3 kPa abs."),
        ("-101.3", ": -101.3 kPa gauge is perfect vacuum or less where the air has 101.3 kPa abs."),
        ("-101.2", "0.1 kPa abs is below the table of R134a"),
        ("-100.8", "0.5 kPa abs is below the table of R134a"),
    ],
)
def test_nothing_below_perfect_vacuum_is_taken_for_a_pressure(ask: Any, gauge: str, says: str) -> None:
    ((field, message),) = messages(ask(SLUG, refrigerant="r134a", gauge_pressure=gauge, barometer="101.3"))
    assert field == "gauge_pressure"
    assert says in message


@pytest.mark.source("derived")
def test_between_two_lines_of_the_table_it_is_read_in_kelvin(ask: Any) -> None:
    # 0 °C are 273.15 K, by definition.
    reply = ask(SLUG, refrigerant="r134a", temperature="22.5")
    step = next(one for one in reply["working"] if one["label"] == "Saturation pressure")
    assert step["put_in"].endswith("T = 295.65 K")


@pytest.mark.source("iso-2533")
def test_a_barometer_that_does_not_fit_is_told_beside_what_would(ask: Any) -> None:
    # 101.325 (1 − 2.25577·10⁻⁵ · 1500)^5.2559 is 84.56 kPa.
    ((_, message),) = messages(ask(SLUG, refrigerant="r134a", temperature="0", altitude="1500", barometer="101.3"))
    assert "101.3 kPa abs does not fit an altitude of 1500 m, where the air has about 84.6 kPa abs." in message


# --- a machine at rest --------------------------------------------------------------------------------


@pytest.mark.source("derived")
def test_a_pressure_that_may_be_nothing_is_no_share_below_nothing(ask: Any) -> None:
    # 40 kPa ±50 of 665.4 kPa; at 24 °C, with 0.1 % of table, 644.9 kPa: 90 of that are 14.0 %.
    typed = {**EXACT, "gauge_counts": "50", "thermometer_counts": "10"}
    reply = ask(SLUG, **REST, **typed, absolute_pressure="40")
    assert result(reply, "share_of_saturation")["band"] == "0.0 to 14.0 %"
    assert "somewhere from 0.0 to 14.0 %" in finding(reply, STANDING)["sentence"]


@pytest.mark.source("derived")
def test_a_share_is_open_where_the_thermometer_reaches_out_of_the_table(ask: Any) -> None:
    # −20 °C ±50 K: at 30 °C R134a has 770.2 kPa, and 60 of them are 7.8 %; at −70 °C the table has nothing.
    typed = {**EXACT, "thermometer_resolution": "1", "thermometer_counts": "50"}
    reply = ask(SLUG, **{**REST, "ambient_temperature": "-20"}, **typed, absolute_pressure="60")
    assert result(reply, "share_of_saturation")["band"] == ""
    assert "somewhere from 7.8 % up" in finding(reply, STANDING)["sentence"]


@pytest.mark.parametrize(
    ("kilopascal", "entry"),
    [
        # R134a at 25 °C: below 631.48 kPa with the whole band it is below 95 %, table error and all.
        ("615", "1 kPa gauge"),  # and ten counts of 1 kPa, 625
        ("628", "0.1 kPa gauge"),  # 638 by 1 kPa, 629 by 0.1 kPa
        ("631.3", "0.01 kPa gauge"),  # 632.3 by 0.1 kPa, 631.4 by 0.01 kPa
    ],
)
def test_the_least_finer_gauge_that_decides_is_named(ask: Any, kilopascal: str, entry: str) -> None:
    typed = {**REST, **EXACT, "absolute_pressure": kilopascal, "gauge_counts": "10", "gauge_resolution": "10"}
    decider = finding(ask(SLUG, **typed), STANDING)["decider"]
    assert (decider["enter_in"], decider["entry"]) == ("gauge_resolution", entry)
    assert finding(ask(SLUG, **{**typed, "gauge_resolution": entry}), STANDING)["verdict"] == "watch"


@pytest.mark.parametrize(
    ("kilopascal", "entry"),
    [
        # It has about 20 kPa less for each kelvin: 95 % of 644.9 kPa at 24 °C are 612.6, of 663.3 kPa at 24.9 °C 630.2.
        ("590", "0.1 K"),
        ("620", "0.01 K"),
    ],
)
def test_the_least_finer_thermometer_that_decides_is_named(ask: Any, kilopascal: str, entry: str) -> None:
    typed = {
        **REST,
        **EXACT,
        "absolute_pressure": kilopascal,
        "thermometer_counts": "10",
        "thermometer_resolution": "1",
    }
    decider = finding(ask(SLUG, **typed), STANDING)["decider"]
    assert (decider["enter_in"], decider["entry"]) == ("thermometer_resolution", entry)
    assert finding(ask(SLUG, **{**typed, "thermometer_resolution": entry}), STANDING)["verdict"] == "watch"


@pytest.mark.source("ashrae-fundamentals")
def test_the_critical_temperature_is_told_in_tenths(ask: Any) -> None:
    # From memory: ASHRAE Handbook, Fundamentals, critical temperature of R134a, 101.06 °C.
    ((_, message),) = messages(ask(SLUG, refrigerant="r134a", temperature="110"))
    assert "the critical temperature of R134a, 101.1 °C: there is no saturation" in message


def test_a_glide_is_told_with_the_pressure_it_is_at(ask: Any) -> None:
    reply = ask(SLUG, refrigerant="r404a", absolute_pressure="1241")
    assert result(reply, "glide")["label"] == "Glide at 1241.0 kPa abs"
