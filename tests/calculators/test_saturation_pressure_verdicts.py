"""The pressure of a machine at rest: both sides of each limit, the traps of the trade, what would decide, and what
holds for every refrigerant, every instrument and every text typed."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from calculators.inputs import MeterInput
from calculators.saturation_pressure import CALCULATOR
from tests.calculators.answers import finding, value, verdict

SLUG = "saturation-pressure"
EXACT = {"gauge_percent": "0", "gauge_counts": "0", "thermometer_percent": "0", "thermometer_counts": "0"}
REST = {"ambient_temperature": "25", "hours_rest": "10"}
STANDING = "standing-pressure"


def standing(ask: Any, **typed: Any) -> dict[str, Any]:
    return finding(ask(SLUG, **{"refrigerant": "r134a", **REST, **EXACT, **typed}), STANDING)


# --- both sides of every limit -------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("kilopascal", "expected", "stop"),
    [
        # R134a at 25 °C is 665.38 kPa. The table's 0.1 % is the only band left: p / 0.999 < 95 % is p < 631.48,
        # 95 % is 632.11; 105 % is 698.65, and p / 1.001 > 105 % is p > 699.35.
        ("631.4", "watch", False),
        ("631.6", "undecided", False),
        ("632.0", "undecided", False),
        ("632.2", "within", False),
        ("665.4", "within", False),
        ("698.6", "within", False),
        ("698.7", "undecided", False),
        ("699.3", "undecided", False),
        ("699.4", "outside", True),
    ],
)
def test_a_standing_pressure_is_judged_on_both_sides_of_each_limit(
    ask: Any, kilopascal: str, expected: str, stop: bool
) -> None:
    one = standing(ask, absolute_pressure=kilopascal)
    assert (one["verdict"], one["stop"]) == (expected, stop)


@pytest.mark.parametrize(("hours", "expected"), [("8", "within"), ("480 min", "within"), ("7.9", "undecided")])
def test_a_pressure_counts_as_standing_after_a_night(ask: Any, hours: str, expected: str) -> None:
    one = standing(ask, absolute_pressure="665", hours_rest=hours)
    assert one["verdict"] == expected
    if expected == "undecided":
        assert "it has rested 7.9 h" in one["sentence"]
        assert (one["decider"]["enter_in"], one["decider"]["entry"]) == ("hours_rest", "8 h")


@pytest.mark.parametrize(
    ("counts", "expected"), [("49", "within"), ("50", "within"), ("99", "within"), ("100", "undecided")]
)
def test_a_band_wider_than_30_percent_of_saturation_gives_no_verdict(ask: Any, counts: str, expected: str) -> None:
    # 2 × 99 kPa of 665.38 kPa are 29.8 % and, with the table's 0.1 % at both ends, 29.96 %; 2 × 100 kPa are 30.3 %.
    one = standing(ask, absolute_pressure="665", gauge_counts=counts)
    assert one["verdict"] == expected
    if expected == "undecided":
        assert one["limit"]["key"] == "pressures.weak_band"
        assert one["decider"]["entry"] == "0.1 kPa gauge"


# --- what the trade knows ------------------------------------------------------------------------------


@pytest.mark.source("common-practice")
def test_450_kpa_on_an_r134a_machine_at_25_degrees_is_suspicious_and_no_proof(ask: Any) -> None:
    # Common practice, no source: saturation is 564 kPa on the gauge; below it no free liquid is left, and a small
    # charge can be all vapour or dissolved in the oil.
    reply = ask(SLUG, refrigerant="r134a", gauge_pressure="450", altitude="0", **REST)
    one = finding(reply, STANDING)
    assert (one["verdict"], one["stop"]) == ("watch", False)
    assert "by itself no proof of a low charge" in one["sentence"]
    assert "all vapour, or dissolved in the oil" in one["sentence"]
    assert float(value(reply, "ambient_saturation_gauge")) == pytest.approx(564, abs=0.6)


def test_a_pressure_at_saturation_does_not_say_how_much_there_is(ask: Any) -> None:
    one = standing(ask, absolute_pressure="665.4")
    assert one["sentence"].startswith("As saturation:")
    assert "not how much" in one["sentence"]
    assert "no proof that the charge is right" in one["plain"]


@pytest.mark.source("common-practice")
def test_more_than_saturation_stops_until_the_gas_is_identified(ask: Any) -> None:
    # Common practice, no source: air in the circuit adds its own pressure; 95 kPa above saturation.
    one = standing(ask, refrigerant="r12", absolute_pressure="661", ambient_temperature="20")
    assert (one["verdict"], one["stop"]) == ("outside", True)
    assert "air or another gas is with it" in one["sentence"]


@pytest.mark.parametrize(("gauge", "stop"), [("0", True), ("-20", True), ("10", True), ("10.1", False), ("60", False)])
@pytest.mark.source("common-practice")
def test_a_machine_at_rest_at_the_airs_pressure_is_not_to_be_run(ask: Any, gauge: str, stop: bool) -> None:
    # Common practice, no source: a circuit with a hole stands at the pressure of the room.
    reply = ask(SLUG, refrigerant="r134a", gauge_pressure=gauge, altitude="0", **REST, **EXACT)
    one = finding(reply, STANDING)
    assert (one["verdict"], one["stop"]) == ("watch", stop)
    assert ("the circuit may be open" in one["sentence"]) is stop
    if stop:
        assert [each["name"] for each in reply["findings"]] == [STANDING]  # nothing beside it calls that normal


@pytest.mark.source("common-practice")
def test_an_isobutane_low_side_in_vacuum_is_normal_and_stays_shut(ask: Any) -> None:
    # Common practice, no source: R600a at −25 °C is 58 kPa absolute; opening it for a look lets air in.
    reply = ask(SLUG, refrigerant="r600a", gauge_pressure="-43", altitude="0")
    one = finding(reply, "below-air")
    assert (one["verdict"], one["stop"]) == ("watch", False)
    assert "with R600a nearly always" in one["sentence"]
    assert "draws air in" in one["sentence"]
    assert value(reply, "saturation_temperature") == "-25.0"


def test_a_warm_circuit_is_not_said_to_stand_below_the_air(ask: Any) -> None:
    assert ask(SLUG, refrigerant="r600a", temperature="-11", altitude="0")["findings"] == []
    assert ask(SLUG, refrigerant="r600a", temperature="-12.5", altitude="0")["findings"][0]["name"] == "below-air"


@pytest.mark.parametrize(
    ("kilopascal", "expected"), [("1241.5", "within"), ("1254", "within"), ("1179", "undecided"), ("1177", "watch")]
)
def test_a_blend_is_low_below_its_dew_line(ask: Any, kilopascal: str, expected: str) -> None:
    # R404A at 25 °C: dew 1241.2, bubble 1254.6; 95 % of dew is 1179.14.
    assert standing(ask, refrigerant="r404a", absolute_pressure=kilopascal)["verdict"] == expected


@pytest.mark.parametrize(("kilopascal", "expected"), [("1304", "within"), ("1317", "within"), ("1320", "outside")])
def test_a_blend_is_high_above_its_bubble_line(ask: Any, kilopascal: str, expected: str) -> None:
    # 105 % of the dew pressure is 1303.3, of the bubble pressure 1317.3: the bubble line is the one that counts.
    assert standing(ask, refrigerant="r404a", absolute_pressure=kilopascal)["verdict"] == expected


def test_the_wrong_altitude_would_make_a_full_machine_look_empty(ask: Any) -> None:
    # R600a at 10 °C is 220.6 kPa absolute: 119.3 on the gauge at the sea, 141.1 at 2000 m, where the air has 79.5.
    typed = {"refrigerant": "r600a", "gauge_pressure": "141", "ambient_temperature": "10", "hours_rest": "10"}
    fine = {**EXACT, "gauge_counts": "1"}
    here = ask(SLUG, **typed, **fine, altitude="2000", barometer="79.5")
    assert verdict(here, STANDING) == "within"
    assert verdict(ask(SLUG, **typed, **fine, altitude="0", barometer="101.3"), STANDING) == "outside"


# --- what would decide ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "field", "entry"),
    [
        # 617.3 kPa absolute is 92.8 %: a dial of ±16 kPa reaches over 95 %
        (
            {"gauge_pressure": "516", "gauge_counts": "16", "barometer": "101.3", "altitude": ""},
            "gauge_resolution",
            "0.1 kPa gauge",
        ),
        # 615 kPa absolute without error is 92.4 %, and ±2 K of thermometer are ±6 %
        ({"absolute_pressure": "615", "thermometer_counts": "20"}, "thermometer_resolution", "0.01 K"),
        # R600a at 10 °C is 220.6 kPa: 205 kPa are 92.9 %, and the weather alone is ±4 kPa, 1.8 %
        (
            {
                "refrigerant": "r600a",
                "ambient_temperature": "10",
                "gauge_pressure": "104.2",
                "gauge_counts": "1",
                "altitude": "0",
            },
            "barometer",
            "101.325 kPa",
        ),
    ],
)
def test_the_least_change_that_decides_is_named_and_does(
    ask: Any, typed: dict[str, str], field: str, entry: str
) -> None:
    one = standing(ask, **typed)
    assert one["verdict"] == "undecided"
    assert (one["decider"]["enter_in"], one["decider"]["entry"]) == (field, entry)
    assert "the gauge's zero set to the air" in one["decider"]["condition"]
    assert standing(ask, **{**typed, field: entry})["verdict"] == "watch"


def test_where_no_single_instrument_decides_it_is_said_in_words(ask: Any) -> None:
    one = standing(ask, absolute_pressure="631.9", thermometer_counts="20", gauge_counts="30")
    assert one["verdict"] == "undecided"
    assert one["decider"]["enter_in"] == ""
    assert "all together" in one["decider"]["resolution"]


def test_rest_alone_is_not_said_to_decide_where_the_band_reaches_over_a_limit(ask: Any) -> None:
    one = standing(ask, absolute_pressure="625", gauge_counts="16", hours_rest="")
    assert "how long it has been at rest is not known" in one["sentence"]
    assert (one["decider"]["enter_in"], one["decider"]["entry"]) == ("hours_rest", "")
    assert "the band reaches over a limit as well" in one["decider"]["resolution"]


# --- properties -----------------------------------------------------------------------------------------

FLUIDS = st.sampled_from(["r134a", "r600a", "r290", "r12", "r22", "r404a"])
AMBIENT = st.integers(-15, 45)
SHARE = st.integers(40, 160)  # percent of a saturation pressure that the test looks up itself
BAND = st.tuples(st.integers(0, 20), st.integers(0, 100), st.integers(0, 60))
FIELDS = [one.name for one in CALCULATOR.inputs if not isinstance(one, MeterInput)] + [
    field.name for one in CALCULATOR.inputs if isinstance(one, MeterInput) for field in one.fields()
]
ENTRIES = st.one_of(
    st.text(max_size=12),
    st.sampled_from(["", "0", "OL", "-1", "1e9", "4,4", "12 inHg", "-101.325", "r404a", "25 °F", "1013 hPa", "٣"]),
    st.floats(-120, 4000).map(lambda number: f"{number:.3f}"),
)


def pressure_at(ask: Any, fluid: str, ambient: int, share: int) -> str:
    reply = ask(SLUG, refrigerant=fluid, ambient_temperature=str(ambient))
    name = "ambient_saturation_dew_absolute" if fluid == "r404a" else "ambient_saturation_absolute"
    return f"{float(value(reply, name)) * share / 100:.1f}"


def instruments(band: tuple[int, int, int]) -> dict[str, str]:
    return {
        "gauge_percent": str(band[0]),
        "gauge_counts": str(band[1]),
        "thermometer_percent": "0",
        "thermometer_counts": str(band[2]),
    }


@given(st.dictionaries(st.sampled_from(FIELDS), ENTRIES, max_size=12))
def test_whatever_is_typed_is_answered(ask: Any, typed: dict[str, str]) -> None:
    reply = ask(SLUG, **{"refrigerant": "r134a", "temperature": "20", "altitude": "0", **typed})
    if "problems" in reply:
        assert all(one["input"] in FIELDS and one["message"] for one in reply["problems"])
        return
    assert reply["results"]
    assert reply["working"]
    said = [one[part] for one in reply["findings"] for part in ("sentence", "plain")] + reply["notes"]
    said += [one["plain"] for one in reply["results"]] + [one["next"]["text"] for one in reply["findings"]]
    assert "safe" not in " ".join(said).lower()


@given(FLUIDS, AMBIENT, SHARE, BAND, st.sampled_from(["", "5", "12"]))
def test_an_entry_that_is_said_to_decide_does(
    ask: Any, fluid: str, ambient: int, share: int, band: tuple[int, int, int], hours: str
) -> None:
    typed = {
        "refrigerant": fluid,
        "ambient_temperature": str(ambient),
        "absolute_pressure": pressure_at(ask, fluid, ambient, share),
        "hours_rest": hours,
        **instruments(band),
    }
    reply = ask(SLUG, **typed)
    assume("problems" not in reply)
    one = finding(reply, STANDING)
    if one["verdict"] != "undecided":
        return
    decider = one["decider"]
    assert decider["reading"]
    assert decider["resolution"]
    assert decider["condition"]
    if decider["entry"]:
        assert verdict(ask(SLUG, **{**typed, decider["enter_in"]: decider["entry"]}), STANDING) != "undecided"


@given(FLUIDS, AMBIENT, SHARE, BAND, BAND)
def test_wider_bands_only_weaken_a_verdict(
    ask: Any, fluid: str, ambient: int, share: int, one: tuple[int, int, int], other: tuple[int, int, int]
) -> None:
    typed = {
        "refrigerant": fluid,
        "ambient_temperature": str(ambient),
        "absolute_pressure": pressure_at(ask, fluid, ambient, share),
        "hours_rest": "12",
    }
    narrow = tuple(min(pair) for pair in zip(one, other, strict=True))
    wide = tuple(max(pair) for pair in zip(one, other, strict=True))
    fine, coarse = (ask(SLUG, **typed, **instruments((each[0], each[1], each[2]))) for each in (narrow, wide))
    assume("problems" not in fine)
    assert verdict(coarse, STANDING) in {verdict(fine, STANDING), "undecided"}


@given(FLUIDS, st.lists(st.integers(-480, 690), min_size=2, max_size=2, unique=True).map(sorted))
def test_a_warmer_refrigerant_has_more_pressure_and_the_other_way_round(
    ask: Any, fluid: str, tenths: list[int]
) -> None:
    line = "dew_" if fluid == "r404a" else ""
    cold, warm = (
        value(ask(SLUG, refrigerant=fluid, temperature=f"{one / 10}"), f"saturation_{line}absolute") for one in tenths
    )
    assert float(cold) <= float(warm)
    back = [ask(SLUG, refrigerant=fluid, absolute_pressure=one) for one in (cold, warm)]
    assume(all("problems" not in one for one in back))
    degrees = [float(value(one, "dew_temperature" if line else "saturation_temperature")) for one in back]
    assert degrees[0] <= degrees[1]


@given(FLUIDS, st.integers(0, 2000), AMBIENT, st.integers(0, 3000))
def test_units_change_nothing(ask: Any, fluid: str, tenths: int, ambient: int, altitude: int) -> None:
    # 1 psi is 6.894757 kPa, 1 bar 100 kPa; F = 1.8 C + 32
    metric = ask(
        SLUG,
        refrigerant=fluid,
        gauge_pressure=(f"{tenths / 10}", "psi_gauge"),
        ambient_temperature=str(ambient),
        hours_rest="9",
        altitude=(f"{altitude}", "m"),
    )
    other = ask(
        SLUG,
        refrigerant=fluid,
        gauge_pressure=(f"{tenths / 10 * 6.894757293168361:.9f}", "kPa_gauge"),
        ambient_temperature=(f"{ambient * 1.8 + 32:.4f}", "degF"),
        hours_rest=("540", "min"),
        altitude=(f"{altitude / 0.3048:.7f}", "ft"),
    )
    assert ("problems" in metric) == ("problems" in other)
    if "problems" in metric:
        return
    assert [one["verdict"] for one in metric["findings"]] == [one["verdict"] for one in other["findings"]]
    for mine, theirs in zip(metric["results"], other["results"], strict=True):
        assert float(mine["value"]) == pytest.approx(float(theirs["value"]), abs=0.11)
