"""Capacitor value: what has to hold for any entry, and that what is said to decide does."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from calculators.capacitor_value import CALCULATOR
from calculators.inputs import ChoiceInput, MeterInput, NumberInput
from tests.calculators.answers import value, verdict

SLUG = "capacitor-value"
STRENGTH = {"undecided": 0, "within": 0, "watch": 1, "outside": 2}
NAMES = [
    name
    for one in CALCULATOR.inputs
    for name in ([field.name for field in one.fields()] if isinstance(one, MeterInput) else [one.name])
]
TEXT = st.one_of(
    st.text(max_size=45),
    st.sampled_from(
        ["10", "4,4", "15k", "OL", "88", "0", "-1", "1e9", "run", "start", "alone", "60", "2.5 A", ".", "٣"]
    ),
    st.floats(min_value=-1e4, max_value=1e4).map(lambda number: f"{number:g}"),
)
PICKS = {
    one.name: [choice.value for choice in one.choices] for one in CALCULATOR.inputs if isinstance(one, ChoiceInput)
}
EDGES = {
    field.name: [f"{field.least:.12g} {field.units[0]}", f"{field.most:.12g}", "OL" if field.open_line else "1"]
    for one in CALCULATOR.inputs
    for field in (one.fields() if isinstance(one, MeterInput) else (one,))
    if isinstance(field, NumberInput)
}
NANOFARADS = st.integers(min_value=500, max_value=300_000)
METERS = st.tuples(st.integers(0, 40), st.integers(0, 60), st.sampled_from(["0.001", "0.01", "0.1", "1"]))


def can(**typed: str) -> dict[str, str]:
    return {"kind": "run", "marked": "10", "connection": "alone", **typed}


def meter(name: str, parts: tuple[int, int, str]) -> dict[str, str]:
    return dict(zip((f"{name}_percent", f"{name}_counts", f"{name}_resolution"), map(str, parts), strict=True))


ENTRIES = st.fixed_dictionaries(
    {"kind": st.sampled_from(["run", "start"]), "marked": NANOFARADS.map(lambda one: f"{one} nF")},
    optional={
        "tolerance": st.sampled_from(["5", "10"]),
        "rated_volts": st.sampled_from(["220", "250", "400"]),
        "can": st.sampled_from(PICKS["can"]),
        "connection": st.sampled_from(PICKS["connection"]),
        "measured": st.one_of(NANOFARADS.map(lambda one: f"{one} nF"), st.just("OL")),
        "bleed_resistor": st.sampled_from(["1", "4.9", "15", "OL"]),
        "ohms": st.sampled_from(["0", "0.9", "300", "4.95k", "10k", "13k", "15k", "16.6k", "60k", "99k", "120k", "OL"]),
        "case_ohms": st.sampled_from(["0", "0.9", "1", "1.01", "5", "OL"]),
        "capacitance_meter_percent": st.sampled_from(["0.5", "2", "10", "40"]),
        "capacitance_meter_resolution": st.sampled_from(["0.001", "0.01", "1"]),
        "ohmmeter_percent": st.sampled_from(["0.1", "2", "20"]),
    },
)
LIVE_ENTRIES = st.one_of(
    st.just({}),
    st.fixed_dictionaries(
        {
            "capacitor_amps": st.integers(0, 8000).map(lambda one: f"{one} mA"),
            "capacitor_volts": st.integers(150, 450).map(str),
            "supply_frequency": st.sampled_from(["50", "60"]),
        },
        optional={
            "clamp_percent": st.sampled_from(["0.5", "3", "20"]),
            "clamp_resolution": st.sampled_from(["0.001", "0.1"]),
            "voltmeter_percent": st.sampled_from(["0.1", "3", "20"]),
            "frequency_band": st.sampled_from(["0", "2"]),
        },
    ),
)


@given(
    kind=st.sampled_from(["run", "start"]),
    typed=st.dictionaries(st.sampled_from(NAMES), TEXT, max_size=8),
)
def test_whatever_is_typed_an_answer_comes_back_and_every_problem_names_its_field(
    ask: Any, kind: str, typed: dict[str, str]
) -> None:
    reply = ask(SLUG, **can(kind=kind, **{name: text for name, text in typed.items() if name != "kind"}) | typed)
    if "problems" in reply:
        assert all(problem["input"] in NAMES and problem["message"] for problem in reply["problems"])
    else:
        assert reply["findings"]


@given(data=st.data())
def test_the_ends_of_every_range_are_answered_too(ask: Any, data: Any) -> None:
    typed = {name: data.draw(st.sampled_from(options)) for name, options in PICKS.items()}
    chosen = data.draw(st.sets(st.sampled_from(sorted(EDGES)), max_size=len(EDGES)))
    typed |= {name: data.draw(st.sampled_from(EDGES[name])) for name in sorted(chosen)}
    reply = ask(SLUG, **{"marked": "10", **typed})
    assert reply.get("findings") or all(problem["message"] for problem in reply["problems"])
    assert "nan" not in str(reply).lower()


@given(typed=ENTRIES, live=LIVE_ENTRIES)
@example(
    typed={"kind": "run", "marked": "500 nF", "ohms": "10k", "measured": "OL", "connection": "alone"},
    live={"capacitor_amps": "3 mA", "capacitor_volts": "150", "supply_frequency": "50"},
)
def test_every_undecided_finding_says_what_would_decide_it_and_the_entry_does(
    ask: Any, typed: dict[str, str], live: dict[str, str]
) -> None:
    reply = ask(SLUG, **typed, **live)
    for one in reply["findings"]:
        decider = one["decider"]
        assert (one["verdict"] == "undecided") is (decider is not None)
        if decider is None:
            continue
        assert decider["reading"]
        assert decider["resolution"]
        assert decider["condition"]
        assert not decider["enter_in"] or decider["enter_in"] in NAMES
        if decider["entry"]:
            again = ask(SLUG, **{**typed, **live, decider["enter_in"]: decider["entry"]})
            left = [
                (other["name"], other["sentence"]) for other in again["findings"] if other["verdict"] == "undecided"
            ]
            assert (one["name"], one["sentence"]) not in left
            assert one["name"] not in [name for name, _ in left]


@given(marked=NANOFARADS, share=st.integers(300, 1700), parts=METERS)
def test_one_entry_turns_an_undecided_value_into_a_verdict(
    ask: Any, marked: int, share: int, parts: tuple[int, int, str]
) -> None:
    typed = can(marked=f"{marked} nF", measured=f"{marked * share // 1000} nF", **meter("capacitance_meter", parts))
    reply = ask(SLUG, **typed)
    decider = reply["findings"][0]["decider"]
    if decider and decider["entry"]:
        assert verdict(ask(SLUG, **{**typed, decider["enter_in"]: decider["entry"]}), "capacitance") == "outside"


@given(typed=ENTRIES, live=LIVE_ENTRIES)
def test_nothing_is_ever_called_safe_and_every_next_step_is_there(
    ask: Any, typed: dict[str, str], live: dict[str, str]
) -> None:
    reply = ask(SLUG, **typed, **live)
    assert "safe" not in str(reply).replace("make-safe-prove-dead", "").lower()
    assert all(one["next"]["text"] and one["next"]["procedure"] for one in reply["findings"])


@given(marked=NANOFARADS, measured=NANOFARADS, volts=st.integers(100, 450), amps=st.integers(0, 9000))
def test_the_unit_a_number_is_typed_in_changes_nothing(
    ask: Any, marked: int, measured: int, volts: int, amps: int
) -> None:
    same = {"kind": "run", "connection": "alone", "supply_frequency": "60", "capacitor_volts": str(volts)}
    small = {
        "marked": (f"{marked}", "nF"),
        "measured": f"{measured} nF",
        "capacitor_amps": (f"{amps}", "mA"),
        "bleed_resistor": ("15000", "ohm"),
        "ohms": ("15", "kilohm"),
        "case_ohms": ("5000", "kilohm"),
        "capacitance_meter_resolution": ("10", "nF"),
    }
    large = {
        "marked": f"{marked / 1000:.3f}",
        "measured": f"{measured / 1000:.3f} µF",
        "capacitor_amps": f"{amps / 1000:.3f}",
        "bleed_resistor": "15",
        "ohms": "15000",
        "case_ohms": "5",
        "capacitance_meter_resolution": "0.01",
    }
    one, other = ask(SLUG, **same, **small), ask(SLUG, **same, **large)
    assert one["findings"] == other["findings"]
    assert one["results"] == other["results"]


@given(typed=ENTRIES, live=LIVE_ENTRIES, name=st.sampled_from(["capacitance_meter", "ohmmeter", "clamp", "voltmeter"]))
def test_a_wider_band_of_any_meter_never_makes_or_strengthens_a_verdict(
    ask: Any, typed: dict[str, str], live: dict[str, str], name: str
) -> None:
    fine = ask(SLUG, **{**typed, **live, f"{name}_percent": "0.5"})
    coarse = ask(SLUG, **{**typed, **live, f"{name}_percent": "30"})
    before = {one["name"]: one for one in fine["findings"]}
    for one in coarse["findings"]:
        was = before.get(one["name"])
        if was is None:  # a note until now, because the reading passed; never more than undecided
            assert one["verdict"] == "undecided"
            continue
        assert STRENGTH[one["verdict"]] <= STRENGTH[was["verdict"]]
        assert was["verdict"] != "undecided" or one["verdict"] == "undecided"


@given(marked=NANOFARADS, readings=st.lists(NANOFARADS, min_size=2, max_size=2).map(sorted), parts=METERS)
def test_more_microfarads_never_turn_a_high_reading_into_a_lesser_one(
    ask: Any, marked: int, readings: list[int], parts: tuple[int, int, str]
) -> None:
    typed = can(marked=f"{marked} nF", **meter("capacitance_meter", parts))
    low, high = (ask(SLUG, **typed, measured=f"{one} nF")["findings"][0] for one in readings)
    if low["sentence"].startswith("High"):
        assert high["sentence"].startswith("High")
    if high["sentence"].startswith(("Low", "Open")):
        assert low["sentence"].startswith(("Low", "Open"))


@given(volts=st.integers(100, 450), amps=st.lists(st.integers(0, 9000), min_size=2, max_size=2).map(sorted))
def test_more_amps_at_the_same_volts_are_more_microfarads(ask: Any, volts: int, amps: list[int]) -> None:
    typed = {"kind": "run", "marked": "10", "supply_frequency": "50", "capacitor_volts": str(volts)}
    low, high = (float(value(ask(SLUG, **typed, capacitor_amps=f"{one} mA"), "live_capacitance")) for one in amps)
    assert low <= high


@given(typed=ENTRIES)
def test_good_ohms_and_a_good_look_alone_are_never_within(ask: Any, typed: dict[str, str]) -> None:
    reply = ask(SLUG, **{name: text for name, text in typed.items() if name != "measured"})
    assert all(one["verdict"] != "within" for one in reply["findings"])


def test_every_field_says_what_goes_in() -> None:
    for one in CALCULATOR.inputs:
        assert one.label
        if isinstance(one, NumberInput | ChoiceInput):
            assert one.group
            assert one.help or one.name in ("can", "connection")


@pytest.mark.parametrize("example", CALCULATOR.examples, ids=lambda one: one.id)
def test_every_example_has_a_finding_results_and_working(ask: Any, example: Any) -> None:
    reply = ask(SLUG, **{name: one.text for name, one in example.typed.items()})
    assert reply["findings"]
    assert reply["results"]
    assert reply["working"]
    assert reply["figures"]
