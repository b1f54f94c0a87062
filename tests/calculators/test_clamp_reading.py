"""What a clamp reading is worth: turns, other loads, bands, traps, and what would make it good enough."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.answer import answer
from calculators.clamp_reading import CALCULATOR
from calculators.inputs import ChoiceInput, MeterInput, NumberInput
from calculators.limits import Standards
from tests.calculators.answers import finding, messages, result, value, verdict

SLUG = "clamp-reading"
COARSE = {"clamp_percent": "2", "clamp_counts": "5", "clamp_resolution": "0.1"}
FINE = {"clamp_percent": "2", "clamp_counts": "5", "clamp_resolution": "0.01"}
SHARP = {"clamp_percent": "0", "clamp_counts": "0"}
STEADY = {"clamp_place": "common", "run_time": "30"}
CORD = {"clamp_place": "cord", "run_time": "30"}


def band(reply: dict[str, Any], name: str = "compressor_amps") -> str:
    return str(result(reply, name)["band"])


# --- facts of the trade and printed examples ---------------------------------------------------------


@pytest.mark.source("common-practice")
def test_0_9_amps_on_a_coarse_clamp_are_more_than_half_doubt(ask: Any) -> None:
    # Common practice, no source: 0.9 A on a 0.1 A resolution clamp of 2 % + 5 digits is 0.52 A or 58 % off.
    reply = ask(SLUG, **STEADY, **COARSE, shown_amps="0.9")
    assert band(reply) == "0.382 to 1.418 A"
    assert round(float(value(reply, "band_percent"))) == 58
    assert verdict(reply, "clamp-band") == "undecided"


@pytest.mark.source("common-practice")
@pytest.mark.parametrize(
    ("clamp", "shown", "turns", "percent"),
    [
        # Common practice, no source: 1.2 A on 2 % + 5 digits is 6.2 % off with 0.01 A, 44 % off with 0.1 A
        # resolution, and 6.2 % off with ten turns on the latter.
        (FINE, "1.2", "1", 6.2),
        (COARSE, "1.2", "1", 43.7),
        (COARSE, "12", "10", 6.2),
    ],
)
def test_the_band_of_1_2_amps_is_that_of_the_trade(
    ask: Any, clamp: dict[str, str], shown: str, turns: str, percent: float
) -> None:
    reply = ask(SLUG, **STEADY, **clamp, shown_amps=shown, turns=turns)
    assert value(reply, "line_amps") == "1.200"
    assert float(value(reply, "band_percent")) == pytest.approx(percent, abs=0.05)


def test_ten_turns_that_show_11_2_amps_are_1_12_amps(ask: Any) -> None:
    # Common practice, no source.
    assert value(ask(SLUG, **STEADY, shown_amps="11.2", turns="10"), "compressor_amps") == "1.120"


@pytest.mark.source("kuphaldt-parallel")
def test_a_resistor_and_a_coil_leave_the_coil_at_one_end(ask: Any) -> None:
    # Kuphaldt, Lessons In Electric Circuits, AC ch. 3, parallel R-L (digits from memory): 2 A and 2.6526 A are 3.3221 A.
    typed = {**CORD, **SHARP, "shown_amps": "3.3221", "heater_amps": "2", "load_percent": "0"}
    reply = ask(SLUG, **typed, motor_type="resistance")
    assert band(reply) == "1.322 to 2.653 A"
    assert value(reply, "plain_difference") == "1.322"


@pytest.mark.source("bird-circuits-16")
def test_the_coil_of_a_textbook_lies_between_the_ends_although_its_neighbour_leads(ask: Any) -> None:
    # Bird, Electrical Circuit Theory and Technology, ch. 16: 2.43 A in all, 2.26 A of it leading; the coil takes 3.75 A.
    reply = ask(
        SLUG, **CORD, **SHARP, shown_amps="2.43", other_amps="2.26", load_percent="0", run_power_factor="0.6245"
    )
    low, high = (float(part) for part in band(reply).removesuffix(" A").split(" to "))
    assert low <= 3.75 <= high


@pytest.mark.source("euramet-cg-15")
def test_the_accuracy_form_is_the_printed_one(ask: Any) -> None:
    # EURAMET cg-15 practice, a printed multimeter example: 0.7 % + 2 counts at 120.0 is +-1.04.
    clamp = {"clamp_percent": "0.7", "clamp_counts": "2", "clamp_resolution": "0.1"}
    assert band(ask(SLUG, **STEADY, **clamp, shown_amps="120.0"), "line_amps") == "118.960 to 121.040 A"


# --- other loads --------------------------------------------------------------------------------------


def test_a_fan_of_unknown_power_factor_leaves_a_span_and_not_the_difference(ask: Any) -> None:
    # 1.45 A with 0.20 A in step is 1.25 A; a quarter turn apart it is the root of 1.45² - 0.20², 1.436 A.
    reply = ask(SLUG, **CORD, **SHARP, shown_amps="1.45", fan_amps="0.2", load_percent="0", motor_type="resistance")
    assert band(reply) == "1.250 to 1.436 A"
    assert value(reply, "plain_difference") == "1.250"


def test_without_the_motor_type_the_current_may_lead_and_the_span_is_wider(ask: Any) -> None:
    reply = ask(SLUG, **CORD, **SHARP, shown_amps="1.45", fan_amps="0.2", load_percent="0")
    assert band(reply) == "1.250 to 1.650 A"


def test_known_power_factors_close_the_span(ask: Any) -> None:
    # 1 A at 0.6 lagging beside 1 A of heater is the root of 1.6² + 0.8², 1.789 A.
    typed = {**CORD, **SHARP, "shown_amps": "1.7889", "heater_amps": "1", "load_percent": "0"}
    wide = ask(SLUG, **typed, motor_type="resistance")
    close = ask(SLUG, **typed, motor_type="resistance", run_power_factor="0.6")
    assert band(wide) == "0.789 to 1.483 A"
    assert band(close) == "0.969 to 1.032 A"  # −0.65 + √(0.65² + 1.789² − 1), −0.55 + √(0.55² + 1.789² − 1)


def test_the_other_loads_are_only_as_good_as_their_plates(ask: Any) -> None:
    typed = {**CORD, **SHARP, "shown_amps": "2", "heater_amps": "1", "run_power_factor": "1"}
    assert band(ask(SLUG, **typed, load_percent="0")) == "1.000 to 1.025 A"  # −0.95 + √(0.95² + 3)
    assert band(ask(SLUG, **typed, load_percent="20")) == "0.800 to 1.224 A"  # −1.2 + 2, −0.76 + √(0.76² + 4 − 0.64)


def test_a_load_of_nothing_changes_nothing(ask: Any) -> None:
    reply = ask(SLUG, **CORD, shown_amps="1.45", fan_amps="0")
    assert value(reply, "compressor_amps") == "1.450"
    assert verdict(reply, "clamp-band") == "within"


@pytest.mark.parametrize("field", ["fan_amps", "heater_amps"])
def test_more_other_amps_than_amps_in_all_are_refused(ask: Any, field: str) -> None:
    reply = ask(SLUG, **CORD, shown_amps="1", motor_type="resistance", **{field: "2"})
    assert [name for name, _ in messages(reply)] == [field]
    assert "2.000 A in all, and the conductor carries 1.000 ±0.025 A" in messages(reply)[0][1]


def test_other_loads_on_the_lead_to_common_are_refused(ask: Any) -> None:
    reply = ask(SLUG, **STEADY, shown_amps="1", fan_amps="0.2")
    assert messages(reply)[0][0] == "fan_amps"
    assert "the compressor alone, so nothing is taken off" in messages(reply)[0][1]


def test_a_power_factor_without_its_amps_is_told(ask: Any) -> None:
    notes = ask(SLUG, **CORD, shown_amps="1", heater_amps="0.1", fan_power_factor="0.6")["notes"]
    assert "The power factor of fans was not used: no amps were entered for it." in notes


# --- traps --------------------------------------------------------------------------------------------


def test_the_whole_cord_in_the_jaw_is_no_reading(ask: Any) -> None:
    reply = ask(SLUG, shown_amps="0.05", clamp_place="whole", run_time="30")
    assert [one["name"] for one in reply["findings"]] == ["clamp-place"]
    assert "the current out and the current back cancel" in finding(reply, "clamp-place")["sentence"]
    assert finding(reply, "clamp-place")["next"]["procedure"] == "windings-to-shell"
    assert [one["name"] for one in reply["results"]] == ["line_amps"]


@pytest.mark.parametrize("shown", ["0", "0.02"])
def test_a_clamp_that_shows_nothing_points_at_the_whole_cord(ask: Any, shown: str) -> None:
    one = finding(ask(SLUG, **STEADY, shown_amps=shown), "clamp-band")
    assert one["verdict"] == "undecided"
    assert "no more than the clamp's own error, ±0.020 A" in one["sentence"]
    assert "one conductor and not the whole cord" in one["plain"]


def test_a_reading_at_the_plug_includes_everything_until_it_is_named(ask: Any) -> None:
    reply = ask(SLUG, **CORD, shown_amps="1.45")
    assert verdict(reply, "other-loads") == "undecided"
    assert finding(reply, "other-loads")["decider"]["enter_in"] == "fan_amps"


def test_a_place_that_was_not_noted_is_asked_for(ask: Any) -> None:
    assert verdict(ask(SLUG, shown_amps="1.45", run_time="30"), "clamp-place") == "undecided"


@pytest.mark.parametrize(
    ("minutes", "sentence"),
    [
        ("5 s", "this was read within 10 s of the start, so it is start current"),
        ("19", "19.0 min after the start is less than 20 min"),
        ("", "the minutes since the start are not known"),
    ],
)
def test_the_first_seconds_and_a_short_run_carry_no_verdict(ask: Any, minutes: str, sentence: str) -> None:
    one = finding(ask(SLUG, clamp_place="common", shown_amps="4.5", run_time=minutes), "run-time")
    assert one["verdict"] == "undecided"
    assert sentence in one["sentence"]


def test_an_empty_jaw_that_shows_something_is_added_to_the_band(ask: Any) -> None:
    reply = ask(SLUG, **STEADY, shown_amps="1", zero_amps="0.05")
    assert band(reply) == "0.925 to 1.075 A"  # 0.005 + 0.02 + 0.05


def test_low_amps_are_not_called_low_gas(ask: Any) -> None:
    assert any("not yet low gas" in note for note in ask(SLUG, **STEADY, shown_amps="0.4")["notes"])


# --- limits and what would be enough ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("percent", "wanted"),
    [("10", "within"), ("10.1", "watch"), ("35", "watch"), ("35.1", "undecided")],
)
def test_the_band_is_judged_on_both_sides_of_both_limits(ask: Any, percent: str, wanted: str) -> None:
    reply = ask(SLUG, **STEADY, shown_amps="2", clamp_percent=percent, clamp_counts="0")
    assert verdict(reply, "clamp-band") == wanted


def test_the_fewest_turns_that_would_be_enough_are_named_and_are_enough(ask: Any) -> None:
    # 2 % + 0.5 A / (0.9 A x N) is 10 % at N = 6.94.
    reply = ask(SLUG, **STEADY, **COARSE, shown_amps="0.9")
    assert value(reply, "turns_for_good") == "7"
    assert "With 7 turns through the jaw it would show about 6.30 A" in finding(reply, "clamp-band")["sentence"]
    assert verdict(ask(SLUG, **STEADY, **COARSE, shown_amps="6.3", turns="7"), "clamp-band") == "within"
    assert verdict(ask(SLUG, **STEADY, **COARSE, shown_amps="5.4", turns="6"), "clamp-band") == "watch"
    assert "2 turns through this jaw" in finding(reply, "clamp-band")["decider"]["resolution"]
    assert verdict(ask(SLUG, **STEADY, **COARSE, shown_amps="1.8", turns="2"), "clamp-band") == "watch"


def test_turns_are_not_offered_where_the_other_loads_blur_the_reading(ask: Any) -> None:
    reply = ask(SLUG, **CORD, **FINE, shown_amps="1.5", heater_amps="1")
    assert "Turns do not help: it is the other loads" in finding(reply, "clamp-band")["sentence"]


@pytest.mark.parametrize(
    ("typed", "name", "field"),
    [
        ({**STEADY, **COARSE, "shown_amps": "0.9"}, "clamp-band", "clamp_resolution"),
        ({**STEADY, "shown_amps": "3", "clamp_percent": "40"}, "clamp-band", "clamp_percent"),
        ({**STEADY, "shown_amps": "1", "zero_amps": "0.6"}, "clamp-band", "zero_amps"),
        ({**CORD, "shown_amps": "1.5", "other_amps": "1.2"}, "clamp-band", "other_amps"),
        ({**CORD, "shown_amps": "1.5"}, "other-loads", "fan_amps"),
        ({"shown_amps": "1.5", "run_time": "30"}, "clamp-place", "clamp_place"),
        ({"shown_amps": "0.05", "run_time": "30", "clamp_place": "whole"}, "clamp-place", "clamp_place"),
        ({"shown_amps": "1.5", "clamp_place": "common"}, "run-time", "run_time"),
        ({"shown_amps": "9", "clamp_place": "common", "run_time": "4 s"}, "run-time", "run_time"),
    ],
)
def test_what_would_decide_does_when_it_is_entered(ask: Any, typed: dict[str, str], name: str, field: str) -> None:
    before = finding(ask(SLUG, **typed), name)
    assert before["verdict"] == "undecided"
    assert before["decider"]["enter_in"] == field
    after = ask(SLUG, **{**typed, field: before["decider"]["entry"]})
    assert {one["name"]: one["verdict"] for one in after["findings"]}.get(name) != "undecided"


def test_two_loads_have_to_go_together_so_no_one_entry_is_offered(ask: Any) -> None:
    decider = finding(ask(SLUG, **CORD, shown_amps="1.5", other_amps="0.7", heater_amps="0.7"), "clamp-band")["decider"]
    assert decider["enter_in"] == ""
    assert "heater and filament lamp and anything else switched off" in decider["condition"]


def test_what_is_carried_over_holds_the_whole_span(ask: Any) -> None:
    reply = ask(SLUG, **STEADY, **COARSE, shown_amps="12", turns="10")
    assert value(reply, "carry_over") == "1.200 A, clamp 6.2 % and 0 counts"
    typed = {"plate_volts": "115", "rated_load_amps": "1.2", "running_volts": "115", "run_time": "30"}
    other = ask("expected-amps", **typed, running_amps="1.2", clamp_percent="6.2", clamp_counts="0")
    assert value(other, "clamp_band") == "6.2"


# --- properties -----------------------------------------------------------------------------------------

NAMES = [
    name
    for one in CALCULATOR.inputs
    for name in ([field.name for field in one.fields()] if isinstance(one, MeterInput) else [one.name])
]
TEXT = st.one_of(
    st.text(max_size=45),
    st.sampled_from(["0", "1", "0.05", "50", "OL", "-1", "1e9", "common", "cord", "whole", "resistance", "4 s", "٣"]),
    st.floats(min_value=0.0, max_value=1100.0).map(lambda number: f"{number:.4f}"),
)


def asked(standards: Standards, typed: dict[str, Any]) -> dict[str, Any]:
    inputs = {
        name: {"text": entry} if isinstance(entry, str) else {"text": entry[0], "unit": entry[1]}
        for name, entry in typed.items()
    }
    request = json.dumps({"calculator": SLUG, "date": "2026-11-25", "inputs": inputs})
    reply: dict[str, Any] = json.loads(answer(request, standards))
    return reply


@given(typed=st.dictionaries(st.sampled_from(NAMES), TEXT, max_size=9), shown=TEXT)
def test_whatever_is_typed_is_answered(standards: Standards, typed: dict[str, str], shown: str) -> None:
    reply = asked(standards, {"shown_amps": shown, **typed})
    if "problems" in reply:
        assert all(one["message"] for one in reply["problems"])
        return
    assert reply["results"]
    assert reply["working"]
    assert reply["figures"]
    assert "nan" not in json.dumps(reply)
    assert not any("OL" in one["text"] for one in reply["results"])


MILLIAMPS = st.integers(min_value=50, max_value=9000)


@given(MILLIAMPS, st.integers(0, 2000))
def test_the_same_amps_in_milliamps_give_the_same_answer(standards: Standards, shown: int, fan: int) -> None:
    in_amps = {"shown_amps": f"{shown / 1000:.3f}", "fan_amps": f"{fan / 1000:.3f}"}
    in_milliamps = {"shown_amps": (str(shown), "mA"), "fan_amps": (str(fan), "mA")}
    assert asked(standards, {**CORD, **in_amps}) == asked(standards, {**CORD, **in_milliamps})


@given(MILLIAMPS, st.integers(1, 49), st.sampled_from(["0.1", "0.01", "0.001"]))
def test_more_turns_of_the_same_current_never_widen_the_band(
    standards: Standards, milliamps: int, turns: int, step: str
) -> None:
    bands = [
        float(
            value(
                asked(
                    standards,
                    {
                        **STEADY,
                        **COARSE,
                        "clamp_resolution": step,
                        "shown_amps": f"{milliamps * number / 1000:.3f}",
                        "turns": str(number),
                    },
                ),
                "band_percent",
            )
        )
        for number in (turns, turns + 1)
    ]
    assert bands[1] <= bands[0]


def test_every_number_and_choice_is_explained() -> None:
    assert all(one.help for one in CALCULATOR.inputs if isinstance(one, NumberInput | ChoiceInput))


def test_an_empty_display_asks_for_no_share_of_nothing(ask: Any) -> None:
    reply = ask(SLUG, **STEADY, shown_amps="0")
    assert finding(reply, "clamp-band")["decider"]["resolution"].endswith("that shows more than its own error")
