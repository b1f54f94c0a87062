"""Overload, cold and hot: what it did by itself, at a standstill and running; deciders, bands and any text at all."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from calculators.inputs import MeterInput
from calculators.overload_check import CALCULATOR
from tests.calculators.answers import finding, messages, result, value, verdict

SLUG = "overload-check"
EXACT = {
    f"{meter}_{part}": "0"
    for meter in ("ohmmeter", "clamp", "voltmeter", "stopwatch")
    for part in ("percent", "counts")
}
STALLED = {
    "seen": "stalled_trip",
    "trip_time": "8",
    "trip_amps": "12.0",
    "trip_volts": "108",
    "plate_volts": "115",
    "locked_rotor_amps": "13",
}
TRIPPED = {
    "seen": "running_trip",
    "trip_time": "4 min",
    "trip_amps": "1.55",
    "expected_amps": "1.6",
    "expected_band": "10",
    "trip_volts": "118",
    "plate_volts": "115",
    "trip_shell_temperature": "62",
}
INSIDE = {**TRIPPED, "kind": "internal", "winding_temperature": "95", "trip_repeated": "yes"}
RUNS_ON = {"seen": "runs_on", "rated_load_amps": "2.0", "trip_time": "25 min"}


# --- a motor at a standstill ------------------------------------------------------------------------


@pytest.mark.source("common-practice")
def test_the_current_at_a_standstill_goes_with_the_volts(ask: Any) -> None:
    # Common practice, no source: LRA 24 A at 115 V is 19.8 A at 95 V.
    reply = ask(SLUG, **{**STALLED, "locked_rotor_amps": "24", "trip_volts": "95", "trip_amps": "19.5"})
    assert value(reply, "stalled_amps") == "19.83"


@pytest.mark.source("uncertainties-program")
def test_the_band_of_the_ratio_is_that_of_clamp_and_voltmeter_together(ask: Any) -> None:
    # Referee: uncertainties. Clamp 0.5 % + 2 counts of 0.01 A, voltmeter 0.5 % + 2 counts of 0.1 V.
    amps, volts = ufloat(12.0, 0.005 * 12.0 + 0.02), ufloat(108.0, 0.005 * 108.0 + 0.2)
    ratio = amps / (13.0 * volts / 115.0)
    assert result(ask(SLUG, **STALLED), "stalled_ratio")["band"] == (
        f"{ratio.nominal_value - ratio.std_dev:.2f} to {ratio.nominal_value + ratio.std_dev:.2f}"
    )


@pytest.mark.source("common-practice")
@pytest.mark.parametrize(
    ("seconds", "said", "stop"),
    [
        # Common practice, no source: at locked-rotor amps it trips in about 3 to 15 s.
        ("2.9", "watch", False),
        ("3", "within", False),
        ("8", "within", False),
        ("15", "within", False),
        ("15.1", "outside", True),
        ("60", "outside", True),
    ],
)
def test_a_trip_at_a_standstill_is_judged_on_both_sides_of_its_times(
    ask: Any, seconds: str, said: str, stop: bool
) -> None:
    found = finding(ask(SLUG, **{**STALLED, **EXACT, "trip_time": seconds}), "trip")
    assert (found["verdict"], found["stop"]) == (said, stop)


def test_no_trip_in_sixteen_seconds_at_a_standstill_is_a_dangerous_overload(ask: Any) -> None:
    found = finding(ask(SLUG, **{**STALLED, "seen": "stalled_no_trip", "trip_time": "16"}), "trip")
    assert (found["verdict"], found["stop"]) == ("outside", True)
    assert "does not protect this motor" in found["sentence"]
    assert found["next"]["procedure"] == "make-safe-prove-dead"


def test_no_trip_in_three_seconds_says_nothing_about_the_overload(ask: Any) -> None:
    found = finding(ask(SLUG, **{**STALLED, "seen": "stalled_no_trip", "trip_time": "3"}), "trip")
    assert found["verdict"] == "undecided"
    assert "never power left on to see it" in found["decider"]["condition"]
    assert not found["stop"]


@pytest.mark.parametrize(
    "missing",
    [
        {"trip_amps": ""},
        {"locked_rotor_amps": ""},
        {"plate_volts": ""},
        {"trip_volts": ""},
        {"trip_volts": "103"},  # 89.6 % of the plate
        {"trip_volts": "127"},  # 110.4 %
        {"trip_amps": "9.0"},  # 0.74 of the locked-rotor amps at 108 V
    ],
)
@pytest.mark.parametrize("seconds", ["8", "20"])
def test_a_trip_is_not_judged_on_a_current_or_on_volts_that_are_not_proved(
    ask: Any, missing: dict[str, str], seconds: str
) -> None:
    found = finding(ask(SLUG, **{**STALLED, "trip_time": seconds, **missing}), "trip")
    assert found["verdict"] == "undecided"
    assert found["stop"] is (seconds == "20")  # to be unplugged, whatever else is known
    assert found["decider"]["enter_in"] in {*missing, "trip_volts", "trip_amps"}


@pytest.mark.parametrize(("amps", "said"), [("9.80", "undecided"), ("9.90", "within")])
def test_the_current_of_a_standstill_is_proved_only_with_the_meters_whole_band(ask: Any, amps: str, said: str) -> None:
    # By hand: 13 A at 108 of 115 V is 12.21 A; 9.80 A is 0.803 of it and its band reaches to 0.795, 9.90 A to 0.803.
    assert verdict(ask(SLUG, **{**STALLED, "trip_amps": amps}), "trip") == said


def test_the_time_alone_is_not_enough(ask: Any) -> None:
    found = finding(ask(SLUG, seen="stalled_trip"), "trip")
    assert found["verdict"] == "undecided"
    assert found["decider"]["enter_in"] == "trip_time"
    assert "locked-rotor amps" in found["decider"]["condition"]


def test_a_time_the_thumb_cannot_tell_is_decided_by_a_finer_stopwatch(ask: Any) -> None:
    typed = {**STALLED, "trip_time": "14.7"}
    found = finding(ask(SLUG, **typed), "trip")
    assert found["verdict"] == "undecided"
    assert (found["decider"]["enter_in"], found["decider"]["entry"]) == ("stopwatch_resolution", "0.1 s")
    assert verdict(ask(SLUG, **typed, stopwatch_resolution="0.1"), "trip") == "within"


# --- a motor that ran -------------------------------------------------------------------------------


@pytest.mark.source("common-practice")
def test_a_trip_at_normal_amps_heat_and_volts_is_the_overloads_own_fault(ask: Any) -> None:
    # Common practice, no source: trips at 1.15 times the expected amps or less with the shell below 80 °C.
    found = finding(ask(SLUG, **TRIPPED), "trip")
    assert found["verdict"] == "outside"
    assert "it opens without cause" in found["sentence"]


@pytest.mark.parametrize(
    ("amps", "said"), [("1.04", "outside"), ("1.05", "undecided"), ("1.27", "undecided"), ("1.28", "within")]
)
def test_the_amps_are_normal_or_high_only_with_their_whole_band(ask: Any, amps: str, said: str) -> None:
    # ±10 % of 1 A: 1.15/1.1 = 1.045, 1.15/0.9 = 1.278
    assert verdict(ask(SLUG, **{**TRIPPED, **EXACT, "expected_amps": "1", "trip_amps": amps}), "trip") == said


@pytest.mark.parametrize(
    ("degrees", "said"), [("77.9", "outside"), ("78", "undecided"), ("81.9", "undecided"), ("82", "within")]
)
def test_the_shell_is_cool_or_hot_only_with_the_thermometers_band(ask: Any, degrees: str, said: str) -> None:
    assert verdict(ask(SLUG, **{**TRIPPED, "trip_shell_temperature": degrees}), "trip") == said


@pytest.mark.parametrize(
    ("degrees", "said"), [("119", "outside"), ("120", "undecided"), ("139", "undecided"), ("140", "within")]
)
def test_one_inside_the_shell_is_judged_by_the_copper(ask: Any, degrees: str, said: str) -> None:
    # From memory: windings of 130 °C and more; band 10 K.
    assert verdict(ask(SLUG, **{**INSIDE, "winding_temperature": degrees}), "trip") == said


def test_one_inside_the_shell_is_not_condemned_by_a_single_trip(ask: Any) -> None:
    found = finding(ask(SLUG, **{**INSIDE, "trip_repeated": "no"}), "trip")
    assert found["verdict"] == "undecided"
    assert (found["decider"]["enter_in"], found["decider"]["entry"]) == ("trip_repeated", "yes")


def test_a_cool_shell_does_not_stand_for_the_copper_inside(ask: Any) -> None:
    found = finding(ask(SLUG, **{**INSIDE, "winding_temperature": ""}), "trip")
    assert found["verdict"] == "undecided"
    assert found["decider"]["enter_in"] == "winding_temperature"


@pytest.mark.parametrize(
    "missing",
    [
        {"trip_amps": ""},
        {"expected_amps": ""},
        {"trip_volts": ""},
        {"plate_volts": ""},
        {"trip_shell_temperature": ""},
        {"trip_volts": "100"},
    ],
)
def test_a_trip_is_not_blamed_on_the_overload_while_something_is_not_proved(ask: Any, missing: dict[str, str]) -> None:
    found = finding(ask(SLUG, **{**TRIPPED, **missing}), "trip")
    assert found["verdict"] == "undecided"
    assert found["decider"]["enter_in"] in missing


@pytest.mark.source("nec-440-52")
def test_the_printed_ceilings_are_140_and_156_percent_of_rated_load(ask: Any) -> None:
    # NFPA 70 (NEC) 440.52(A) and (B): 140 % and 156 % of rated-load current; 2.0 A gives 2.8 A and 3.12 A.
    reply = ask(SLUG, contact_ohms="0.1", rated_load_amps="2.0")
    assert (value(reply, "relay_ceiling"), value(reply, "integral_ceiling")) == ("2.80", "3.12")


@pytest.mark.parametrize(
    ("amps", "minutes", "said", "stop"),
    [
        ("2.80", "25 min", "within", False),
        ("2.81", "25 min", "watch", True),
        ("3.12", "25 min", "watch", True),
        ("3.13", "25 min", "outside", True),
        ("3.13", "19 min", "undecided", True),
        ("3.13", "", "undecided", True),
        ("2.81", "5 min", "undecided", True),
        ("1.00", "1 min", "within", False),
    ],
)
def test_a_motor_that_runs_on_is_held_against_both_ceilings(
    ask: Any, amps: str, minutes: str, said: str, stop: bool
) -> None:
    found = finding(ask(SLUG, **{**RUNS_ON, **EXACT, "trip_amps": amps, "trip_time": minutes}), "trip")
    assert (found["verdict"], found["stop"]) == (said, stop)
    assert (found["next"]["procedure"] == "make-safe-prove-dead") is stop
    if said == "undecided":
        assert "never one left on to see" in found["decider"]["condition"]
        assert found["decider"]["entry"] == ""


def test_an_overload_that_was_not_called_on_is_not_called_good(ask: Any) -> None:
    found = finding(ask(SLUG, **RUNS_ON, trip_amps="1.7"), "trip")
    assert found["verdict"] == "within"
    assert "That it would open is not shown" in found["plain"]


def test_a_clamp_that_shows_zero_is_refused(ask: Any) -> None:
    ((field, message),) = messages(ask(SLUG, **{**STALLED, "trip_amps": "0"}))
    assert field == "trip_amps"
    assert "0 is no current" in message


# --- closing again ----------------------------------------------------------------------------------


@pytest.mark.source("trade-memory")
@pytest.mark.parametrize(
    ("kind", "time", "said"),
    [
        # From memory: 20 to 600 s outside the shell, 20 min to 4 h inside it.
        ("external", "19 s", "watch"),
        ("external", "20 s", "within"),
        ("external", "10 min", "within"),
        ("external", "601 s", "watch"),
        ("internal", "19 min", "watch"),
        ("internal", "20 min", "within"),
        ("internal", "4 h", "within"),
        ("internal", "4.1 h", "watch"),
    ],
)
def test_the_time_to_close_again_is_only_ever_watched(ask: Any, kind: str, time: str, said: str) -> None:
    assert verdict(ask(SLUG, **EXACT, kind=kind, reset="yes", reset_time=time), "reset") == said


def test_one_that_has_not_closed_again_wants_a_cold_reading(ask: Any) -> None:
    found = finding(ask(SLUG, reset="no"), "reset")
    assert (found["verdict"], found["decider"]["enter_in"]) == ("undecided", "contact_ohms")
    typed = {"part_temperature": "22", "hours_rest": "1", "repeated": "yes"}
    assert [one["verdict"] for one in ask(SLUG, reset="no", contact_ohms="OL", **typed)["findings"]] == ["outside"]


# --- the declaration --------------------------------------------------------------------------------


def test_every_worked_example_is_answered_with_declared_sources_and_limits(ask: Any) -> None:
    assert len({example.id for example in CALCULATOR.examples}) >= 3
    for example in CALCULATOR.examples:
        reply = ask(SLUG, **{name: one.text for name, one in example.typed.items()})
        assert reply["findings"]
        assert reply["results"]
        assert reply["working"]
        assert example.source in CALCULATOR.sources
        named = {one["limit"]["key"] for one in reply["findings"] if one["limit"]}
        assert named <= set(CALCULATOR.limits)


def test_with_nothing_entered_nothing_is_judged(ask: Any) -> None:
    for kind, field in (("external", "contact_ohms"), ("internal", "common_run_ohms")):
        (found,) = ask(SLUG, kind=kind)["findings"]
        assert (found["verdict"], found["decider"]["enter_in"]) == ("undecided", field)


def test_entries_that_do_not_belong_to_the_kind_are_named_as_unused(ask: Any) -> None:
    notes = " ".join(ask(SLUG, kind="internal", contact_ohms="OL", part_temperature="20")["notes"])
    assert "Not used for an overload inside the shell: across the contact, temperature of the part." in notes


# --- properties -------------------------------------------------------------------------------------

NAMES = [
    name
    for one in CALCULATOR.inputs
    for name in ([field.name for field in one.fields()] if isinstance(one, MeterInput) else [one.name])
]
TEXT = st.one_of(
    st.text(max_size=45),
    st.sampled_from(
        ["4.4", "4,4", "12k", "OL", "0", "-1", "1e9", "internal", "yes", "runs_on", "stalled_trip", ".", "٣"]
    ),
    st.sampled_from(["running_trip", "no", "90 C", "0.1", "1000", "0.000001", "150", "3600000", "external_heater"]),
    st.floats(min_value=-1e4, max_value=1e4).map(lambda number: f"{number:g}"),
)


@pytest.mark.source("common-practice")
@pytest.mark.parametrize(
    ("time", "wanted"), [("", "undecided"), ("5", "undecided"), ("10", "undecided"), ("11", "outside")]
)
def test_a_trip_so_soon_that_the_start_may_have_caused_it_condemns_no_overload(
    ask: Any, time: str, wanted: str
) -> None:
    # common practice, no source: up to 10 s after the start the amps are those of the start; the watch is good to 0.5 s
    typed = {**TRIPPED, "trip_time": time}
    one = finding(ask(SLUG, **typed), "trip")
    assert one["verdict"] == wanted
    if wanted == "undecided":
        assert (one["decider"]["enter_in"], one["decider"]["entry"]) == ("trip_time", "12 s")
        assert verdict(ask(SLUG, **{**typed, "trip_time": "12 s"}), "trip") == "outside"


PROCEDURES = {"overload-cold-and-hot", "make-safe-prove-dead", "identify-the-windings", "running-amps"}


@given(typed=st.dictionaries(st.sampled_from(NAMES), TEXT, max_size=12))
def test_whatever_is_typed_an_answer_comes_back_and_every_problem_names_its_field(
    ask: Any, typed: dict[str, str]
) -> None:
    reply = ask(SLUG, **typed)
    if "problems" in reply:
        assert all(problem["input"] in NAMES and problem["message"] for problem in reply["problems"])
        return
    assert reply["findings"]
    for one in reply["findings"]:
        assert one["next"]["procedure"] in PROCEDURES
        said = [one["sentence"], one["plain"], one["next"]["text"], *(one["decider"] or {}).values()]
        assert "safe" not in " ".join(said).lower()


SCENES = st.fixed_dictionaries(
    {"seen": st.sampled_from(["stalled_trip", "stalled_no_trip", "running_trip", "runs_on"])},
    optional={
        "kind": st.sampled_from(["external", "internal"]),
        "trip_time": st.integers(1, 4000).map(lambda one: f"{one / 2:g}"),
        "trip_amps": st.integers(300, 20000).map(lambda one: f"{one} mA"),
        "trip_volts": st.integers(80, 140).map(str),
        "plate_volts": st.just("115"),
        "locked_rotor_amps": st.integers(5, 25).map(str),
        "rated_load_amps": st.integers(300, 5000).map(lambda one: f"{one} mA"),
        "expected_amps": st.integers(300, 5000).map(lambda one: f"{one} mA"),
        "trip_shell_temperature": st.integers(20, 120).map(str),
        "winding_temperature": st.integers(20, 180).map(str),
        "trip_repeated": st.sampled_from(["yes", "no"]),
        "reset": st.sampled_from(["", "yes", "no"]),
        "reset_time": st.integers(1, 40000).map(lambda one: f"{one} s"),
        "clamp_resolution": st.sampled_from(["0.01", "0.1", "1"]),
    },
)


@given(typed=SCENES, coarse=st.integers(0, 30), meter=st.sampled_from(["clamp", "voltmeter", "stopwatch"]))
def test_a_wider_band_of_any_meter_never_makes_or_turns_a_verdict(
    ask: Any, typed: dict[str, str], coarse: int, meter: str
) -> None:
    fine = ask(SLUG, **{**typed, f"{meter}_percent": "0"})
    wide = ask(SLUG, **{**typed, f"{meter}_percent": str(coarse)})
    for one, other in zip(fine["findings"], wide["findings"], strict=True):
        assert one["name"] == other["name"] or one["stop"] != other["stop"]
    for name in ("trip", "reset"):
        before = [one["verdict"] for one in fine["findings"] if one["name"] == name]
        after = [one["verdict"] for one in wide["findings"] if one["name"] == name]
        assert after in (before, ["undecided"]) or (before, after) == (["outside"], ["watch"])


@given(typed=SCENES, kelvin=st.tuples(st.integers(0, 20), st.integers(0, 20)))
def test_a_wider_band_of_the_thermometer_never_makes_or_turns_a_verdict(
    ask: Any, typed: dict[str, str], kelvin: tuple[int, int]
) -> None:
    fine, wide = (verdict(ask(SLUG, **typed, thermometer_band=str(one)), "trip") for one in sorted(kelvin))
    assert wide in (fine, "undecided")


@given(typed=SCENES)
def test_an_entry_that_is_said_to_decide_does(ask: Any, typed: dict[str, str]) -> None:
    for found in ask(SLUG, **typed)["findings"]:
        decider = found["decider"]
        assert (found["verdict"] == "undecided") is (decider is not None)
        if decider is None:
            continue
        assert decider["reading"]
        assert decider["resolution"]
        assert decider["condition"]
        if decider["entry"]:
            again = ask(SLUG, **{**typed, decider["enter_in"]: decider["entry"]})
            assert verdict(again, found["name"]) != "undecided"


@given(
    ohms=st.integers(0, 5000),
    lead=st.sampled_from(["", "0", "0.1"]),
    degrees=st.integers(10, 60),
    minutes=st.integers(0, 30),
    repeated=st.sampled_from(["yes", "no"]),
    resolution=st.sampled_from(["0.001", "0.01", "0.1", "1"]),
)
def test_an_entry_that_decides_a_dead_reading_does(
    ask: Any, ohms: int, lead: str, degrees: int, minutes: int, repeated: str, resolution: str
) -> None:
    typed = {"contact_ohms": f"{ohms + 100} mohm", "lead": lead, "part_temperature": str(degrees)}
    typed |= {"hours_rest": f"{minutes} min", "repeated": repeated, "ohmmeter_resolution": resolution}
    found = finding(ask(SLUG, **typed), "contact")
    if found["verdict"] == "undecided" and found["decider"]["entry"]:
        again = ask(SLUG, **{**typed, found["decider"]["enter_in"]: found["decider"]["entry"]})
        assert verdict(again, "contact") != "undecided"


@given(ohms=st.integers(0, 5000), coarser=st.sampled_from([("0.001", "0.1"), ("0.01", "1"), ("0.1", "0.1")]))
def test_a_coarser_ohmmeter_never_makes_or_turns_a_verdict(ask: Any, ohms: int, coarser: tuple[str, str]) -> None:
    typed = {
        "contact_ohms": f"{ohms} mohm",
        "lead": "0",
        "part_temperature": "20",
        "hours_rest": "1",
        "repeated": "yes",
    }
    fine, coarse = (verdict(ask(SLUG, **typed, ohmmeter_resolution=one), "contact") for one in coarser)
    assert coarse in (fine, "undecided")


@given(milliohms=st.integers(0, 9000), kelvin=st.integers(10, 60))
def test_the_unit_a_number_is_typed_in_changes_nothing(ask: Any, milliohms: int, kelvin: int) -> None:
    one = ask(SLUG, contact_ohms=(str(milliohms), "milliohm"), part_temperature=str(kelvin), hours_rest="0.5 h")
    other = ask(
        SLUG,
        contact_ohms=(f"{milliohms / 1000:.3f}", "ohm"),
        part_temperature=(f"{kelvin * 9 / 5 + 32:.1f}", "degF"),
        hours_rest="30 min",
    )
    assert one["findings"] == other["findings"]
    assert one["results"] == other["results"]


@given(seconds=st.lists(st.integers(1, 400), min_size=2, max_size=2).map(sorted))
def test_a_longer_time_at_a_standstill_is_never_judged_milder(ask: Any, seconds: list[int]) -> None:
    strength = {"watch": 0, "within": 0, "undecided": 1, "outside": 2}
    short, long = (verdict(ask(SLUG, **{**STALLED, "trip_time": f"{one / 10:g}"}), "trip") for one in seconds)
    if seconds[0] > 40:
        assert strength[long] >= strength[short]
    assert math.isfinite(strength[long])
