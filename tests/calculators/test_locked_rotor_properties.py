"""What holds for every motor, every meter and every text typed into the locked-rotor check."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from calculators.inputs import MeterInput
from calculators.locked_rotor import CALCULATOR
from tests.calculators.answers import finding, value, verdict
from tests.calculators.conftest import ROOT

SLUG = "locked-rotor"
STRENGTH = {"undecided": 0, "within": 0, "watch": 1, "outside": 2}
PROCEDURES = {file.stem for file in (ROOT / "handbook" / "procedures").glob("*.md")}
NAMES = [
    name
    for one in CALCULATOR.inputs
    for name in ([field.name for field in one.fields()] if isinstance(one, MeterInput) else [one.name])
]
TEXT = st.one_of(
    st.text(max_size=45),
    st.sampled_from(
        [
            "",
            "0",
            "OL",
            "-1",
            "1e9",
            "4,4",
            "12",
            "20 A",
            "L",
            "V",
            "A",
            "1/2",
            "1-1/2",
            "good",
            "equal",
            "seen",
            "no",
            "2",
        ]
    ),
    st.floats(min_value=0, max_value=500).map(lambda number: f"{number:.3f}"),
)
AMPS = st.integers(40, 400).map(lambda tenths: f"{tenths / 10:.1f}")
VOLTS = st.integers(850, 1250).map(lambda tenths: f"{tenths / 10:.1f}")
METER = st.fixed_dictionaries(
    {
        "clamp_percent": st.sampled_from(["0", "0.5", "2", "10"]),
        "clamp_counts": st.sampled_from(["0", "2", "5"]),
        "clamp_resolution": st.sampled_from(["0.01", "0.1", "1"]),
        "voltmeter_percent": st.sampled_from(["0", "0.5", "3"]),
        "voltmeter_counts": st.sampled_from(["0", "2", "5"]),
        "voltmeter_resolution": st.sampled_from(["0.01", "0.1", "1"]),
    }
)
TIMED = {"longest_attempt": "3", "rest_between": "5"}
READY = {"dead_tests": "good", "pressures": "equal", "start_lead": "seen", "turned": "no", **TIMED}
TRIED = st.fixed_dictionaries(
    {"stalled_amps": AMPS, "stalled_volts": VOLTS},
    optional={
        "second_amps": AMPS,
        "second_volts": VOLTS,
        "plate_volts_high": st.sampled_from(["120", "127"]),
        "dead_tests": st.sampled_from(["", "good"]),
        "pressures": st.sampled_from(["", "equal"]),
        "start_lead": st.sampled_from(["", "seen", "none"]),
        "turned": st.sampled_from(["", "no", "first", "second"]),
        "locked_rotor_amps": st.sampled_from(["", "20"]),
        "attempts": st.sampled_from(["1", "2", "3"]),
        "longest_attempt": st.sampled_from(["2", "4"]),
        "rest_between": st.sampled_from(["4", "6"]),
        "supply_frequency": st.sampled_from(["50", "60"]),
    },
)
PLATE = {"plate_volts": "115", "locked_rotor_amps": "20", "plate_frequency": "60"}


@given(typed=st.dictionaries(st.sampled_from(NAMES), TEXT, max_size=16))
@example(typed={"clamp_percent": "50", "clamp_counts": "100", "clamp_resolution": "1000", "stalled_amps": "0.05"})
@example(
    typed={"stalled_amps": "500", "stalled_volts": "1", "locked_rotor_amps": "0.3", "voltmeter_resolution": "1000"}
)
@example(typed={"stalled_amps": "12", "stalled_volts": "230", "code_letter": "V", "horsepower": "5"})
@example(typed={"attempts": "50", "longest_attempt": "3600", "rest_between": "0"})
def test_whatever_is_typed_an_answer_comes_back_and_every_problem_names_its_field(
    ask: Any, typed: dict[str, str]
) -> None:
    reply = ask(SLUG, **{"plate_volts": "230", **typed})
    if "problems" in reply:
        assert all(one["input"] in NAMES and one["message"] for one in reply["problems"])
        return
    assert reply["results"]
    assert reply["working"]
    assert "nan" not in str(reply)
    assert reply["findings"][0]["name"] == "rotor"
    for one in reply["findings"]:
        assert one["next"]["procedure"] in PROCEDURES
        assert (one["verdict"] == "undecided") is (one["decider"] is not None)
        if one["decider"]:
            assert all(one["decider"][part] for part in ("reading", "resolution", "condition"))
    said = [one[part] for one in reply["findings"] for part in ("sentence", "plain")] + reply["notes"]
    said += [one["plain"] for one in reply["results"]] + [one["next"]["text"] for one in reply["findings"]]
    assert "safe" not in " ".join(said).lower()


@given(tried=TRIED, meter=METER)
def test_an_entry_that_is_said_to_decide_does(ask: Any, tried: dict[str, str], meter: dict[str, str]) -> None:
    typed = {**PLATE, **READY, **tried, **meter}
    reply = ask(SLUG, **typed)
    for one in reply.get("findings", ()):
        decider = one["decider"]
        if decider is not None and decider["entry"]:
            again = ask(SLUG, **{**typed, decider["enter_in"]: decider["entry"]})
            assert verdict(again, one["name"]) != "undecided", one


@given(tried=TRIED, meter=METER, wider=METER)
def test_a_wider_band_never_makes_or_strengthens_a_verdict(
    ask: Any, tried: dict[str, str], meter: dict[str, str], wider: dict[str, str]
) -> None:
    wider = {name: max(meter[name], wider[name], key=float) for name in meter}
    typed = {**PLATE, **READY, **tried}
    fine, coarse = ask(SLUG, **typed, **meter), ask(SLUG, **typed, **wider)
    assume("findings" in fine)
    for one in fine["findings"]:
        after = verdict(coarse, one["name"])
        assert STRENGTH[after] <= STRENGTH[one["verdict"]]
        assert one["verdict"] != "undecided" or after == "undecided"


@given(tried=TRIED, meter=METER)
def test_a_motor_is_condemned_only_with_everything_there(
    ask: Any, tried: dict[str, str], meter: dict[str, str]
) -> None:
    typed = {**PLATE, **READY, **tried, **meter}
    reply = ask(SLUG, **typed)
    assume("findings" in reply)
    if verdict(reply, "rotor") != "outside":
        return
    assert all(typed[name] == wanted for name, wanted in READY.items() if name not in TIMED)
    assert (float(typed["longest_attempt"]) <= 3, float(typed["rest_between"]) >= 5) == (True, True)
    assert typed["locked_rotor_amps"] == "20"
    assert typed.get("attempts", "2") != "3"
    assert typed.get("supply_frequency") != "50"
    for number in ("first", "second"):
        low, high = (float(end) for end in _band(reply, f"{number}_ratio"))
        assert low >= 0.795  # as printed to two digits
        assert high <= 1.205
        assert float(_band(reply, f"{number}_percent")[0]) >= 89.95
    assert finding(reply, "rotor")["stop"]


def _band(reply: dict[str, Any], name: str) -> tuple[str, str]:
    low, _, high = next(one["band"] for one in reply["results"] if one["name"] == name).partition(" to ")
    return low, high.removesuffix(" %")


@given(amps=AMPS, volts=VOLTS, plate=st.integers(100, 130), lra=st.integers(5, 60))
def test_expected_amps_go_with_the_volts_and_the_ratio_does_not(
    ask: Any, amps: str, volts: str, plate: int, lra: int
) -> None:
    typed = {"plate_volts": str(plate), "locked_rotor_amps": str(lra)}
    one = ask(SLUG, **typed, stalled_amps=amps, stalled_volts=volts)
    two = ask(SLUG, **typed, stalled_amps=f"{float(amps) * 2:.1f}", stalled_volts=f"{float(volts) * 2:.1f}")
    assert value(one, "first_ratio") == value(two, "first_ratio")
    assert float(value(two, "first_expected")) == pytest.approx(2 * float(value(one, "first_expected")), abs=0.011)


@given(amps=st.lists(AMPS, min_size=2, max_size=2).map(lambda two: sorted(two, key=float)), volts=VOLTS)
def test_more_amps_are_never_placed_lower(ask: Any, amps: list[str], volts: str) -> None:
    low, high = (ask(SLUG, **PLATE, stalled_amps=one, stalled_volts=volts) for one in amps)
    assert float(value(low, "first_ratio")) <= float(value(high, "first_ratio"))
    if "more than a rotor" in finding(low, "stalled-amps")["sentence"]:
        assert "more than a rotor" in finding(high, "stalled-amps")["sentence"]


@given(tried=TRIED)
def test_the_unit_a_number_is_typed_in_changes_nothing(ask: Any, tried: dict[str, str]) -> None:
    typed = {**PLATE, **READY, **tried}
    seconds = {"rest_between": (f"{60 * int(tried['rest_between'])}", "s")} if "rest_between" in tried else {}
    assert ask(SLUG, **typed) == ask(SLUG, **{**typed, **seconds, "clamp_resolution": ("10", "mA")})


@given(first=st.tuples(AMPS, VOLTS), second=st.tuples(AMPS, VOLTS), meter=METER)
def test_the_order_of_two_attempts_changes_no_verdict_on_the_rotor(
    ask: Any, first: tuple[str, str], second: tuple[str, str], meter: dict[str, str]
) -> None:
    def asked(one: tuple[str, str], two: tuple[str, str]) -> str:
        tried = {"stalled_amps": one[0], "stalled_volts": one[1], "second_amps": two[0], "second_volts": two[1]}
        return verdict(ask(SLUG, **PLATE, **READY, **tried, **meter), "rotor")

    assert asked(first, second) == asked(second, first)


@pytest.mark.parametrize("one", CALCULATOR.examples, ids=lambda one: one.id)
def test_every_worked_example_prints_findings_results_and_working(ask: Any, one: Any) -> None:
    reply = ask(SLUG, **{name: (typed.text, typed.unit) for name, typed in one.typed.items()})
    assert reply["findings"]
    assert reply["results"]
    assert reply["working"]
    assert all(step["source"] for step in reply["working"])
    assert one.source in CALCULATOR.sources
    declared = {limit["key"] for limit in reply["limits"]}
    assert {found["limit"]["key"] for found in reply["findings"] if found["limit"]} <= declared
