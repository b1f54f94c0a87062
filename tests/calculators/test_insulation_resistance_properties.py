"""What holds for every insulation reading, every tester and every text typed into the form."""

from __future__ import annotations

from itertools import permutations
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.inputs import MeterInput
from calculators.insulation_resistance import CALCULATOR
from tests.calculators.answers import result

SLUG = "insulation-resistance"
FIELDS = [one.name for one in CALCULATOR.inputs if not isinstance(one, MeterInput)] + [
    field.name for one in CALCULATOR.inputs if isinstance(one, MeterInput) for field in one.fields()
]
PROCEDURES = {"windings-to-shell", "make-safe-prove-dead"}
RANK = {"outside": 0, "undecided": 1, "watch": 2, "within": 3}
ENTRIES = st.one_of(
    st.text(max_size=12),
    st.sampled_from(
        ["", "0", "OL", "-1", "1e9", "4,4", "200m", "12k", "3 GΩ", "9 V", "bare", "joined", "yes", "10000000"]
    ),
    st.floats(0, 2000).map(lambda number: f"{number:.4f}"),
)
# A reading somewhere between a dead short and a gigohm, close to the limits as often as far away.
MEGOHMS = st.one_of(
    st.integers(0, 30000).map(lambda one: f"{one / 1000:.3f}"),
    st.integers(1, 1000).map(str),
    st.sampled_from(["0", "1", "10", "0.999", "1.001", "OL"]),
)
MAYBE = st.one_of(st.just(""), MEGOHMS)
TESTER = st.tuples(st.integers(0, 50), st.integers(0, 20), st.sampled_from(["0.001", "0.01", "0.1", "1"]))
CONDITION = st.fixed_dictionaries(
    {
        "test_volts": st.sampled_from(["", "9", "250", "500", "1000"]),
        "pin_state": st.sampled_from(["unknown", "bare", "dirty", "joined"]),
        "repeated": st.sampled_from(["no", "yes"]),
        "top_range": st.sampled_from(["2000", "4000"]),
    }
)
READINGS = st.fixed_dictionaries(dict.fromkeys(("pin1", "pin2", "pin3", "whole"), MAYBE)).filter(
    lambda typed: any(typed.values())
)


def instrument(percent: int, counts: int, resolution: str) -> dict[str, str]:
    return {
        "insulation_tester_percent": str(percent),
        "insulation_tester_counts": str(counts),
        "insulation_tester_resolution": resolution,
    }


@given(typed=st.dictionaries(st.sampled_from(FIELDS), ENTRIES, max_size=14))
def test_whatever_is_typed_an_answer_comes_back_and_every_problem_names_its_field(
    ask: Any, typed: dict[str, str]
) -> None:
    reply = ask(SLUG, **{"pin1": "20", "test_volts": "500", "top_range": "200", **typed})
    if "problems" in reply:
        assert all(one["input"] in FIELDS and one["message"] for one in reply["problems"])
        return
    assert reply["findings"]
    assert reply["results"]
    assert reply["working"]
    for one in reply["findings"]:
        assert one["next"]["procedure"] in PROCEDURES
        assert one["limit"]["key"] in {limit["key"] for limit in reply["limits"]}
        assert (one["verdict"] == "undecided") is (one["decider"] is not None)
        if one["decider"]:
            assert all(one["decider"][part] for part in ("reading", "resolution", "condition", "enter_in")) or (
                one["decider"]["reading"] and not one["decider"]["entry"]
            )
    said = [one[part] for one in reply["findings"] for part in ("sentence", "plain")] + reply["notes"]
    said += [one["plain"] for one in reply["results"]] + [one["next"]["text"] for one in reply["findings"]]
    assert "safe" not in " ".join(said).lower()
    assert "nan" not in str(reply).lower()
    assert "inf " not in " ".join(said).lower()


@pytest.mark.parametrize("volts", ["0.1", "5000"])
@pytest.mark.parametrize("megohms", ["0", "0.000001", "10000000", "OL"])
def test_the_ends_of_every_range_are_answered(ask: Any, volts: str, megohms: str) -> None:
    for meter in (instrument(0, 0, "0.000001"), instrument(50, 100, "1000")):
        for celsius in ("-10", "120"):
            typed = dict.fromkeys(("pin1", "pin2", "pin3", "whole", "pin1_first", "whole_first"), megohms)
            more = {"plate_volts": "270", "shell_temperature": celsius, "top_range": "10000000"}
            assert ask(SLUG, **typed, **meter, **more, test_volts=volts)["findings"]


@given(readings=READINGS, condition=CONDITION, first=st.integers(1, 500000))
def test_the_unit_a_number_is_typed_in_changes_nothing(
    ask: Any, readings: dict[str, str], condition: dict[str, str], first: int
) -> None:
    def kilohms(text: str) -> str:
        return text if text in ("", "OL") else f"{float(text) * 1000:.0f} kΩ"

    same = {"shell_temperature": "30 C", "plate_volts": "230"}
    one = ask(SLUG, **readings, **condition, **same, pin1_first=f"{first / 1000:.3f}" if readings["pin1"] else "")
    other = {name: kilohms(text) for name, text in readings.items()}
    other |= condition | {
        "top_range": kilohms(condition["top_range"]),
        "shell_temperature": "86 F",
        "plate_volts": "230",
    }
    assert one == ask(SLUG, **other, pin1_first=f"{first} kΩ" if readings["pin1"] else "")


@given(readings=st.tuples(MEGOHMS, MEGOHMS, MEGOHMS), condition=CONDITION)
def test_naming_the_pins_otherwise_changes_only_the_names(
    ask: Any, readings: tuple[str, str, str], condition: dict[str, str]
) -> None:
    wanted = ask(SLUG, **dict(zip(("pin1", "pin2", "pin3"), readings, strict=True)), **condition)
    for order in permutations(("pin1", "pin2", "pin3")):
        reply = ask(SLUG, **dict(zip(order, readings, strict=True)), **condition)
        assert [(one["name"], one["verdict"], one["stop"]) for one in reply["findings"]] == [
            (one["name"], one["verdict"], one["stop"]) for one in wanted["findings"]
        ]
        for mine, theirs in zip(order, ("pin1", "pin2", "pin3"), strict=True):
            assert result(reply, mine)["text"] == result(wanted, theirs)["text"]


@given(low=st.integers(0, 20000), more=st.integers(0, 20000), condition=CONDITION, meter=TESTER)
def test_a_higher_reading_is_never_judged_worse(
    ask: Any, low: int, more: int, condition: dict[str, str], meter: tuple[int, int, str]
) -> None:
    worse, better = (
        ask(SLUG, **dict.fromkeys(("pin1", "pin2", "pin3"), f"{one / 1000:.3f}"), **condition, **instrument(*meter))
        for one in (low, low + more)
    )
    assert RANK[better["findings"][0]["verdict"]] >= RANK[worse["findings"][0]["verdict"]]
    assert worse["findings"][0]["stop"] or not better["findings"][0]["stop"]


@given(
    readings=READINGS,
    condition=CONDITION,
    first=MAYBE,
    percents=st.tuples(st.integers(0, 50), st.integers(0, 50)).map(sorted),
    counts=st.tuples(st.integers(0, 20), st.integers(0, 20)).map(sorted),
    resolution=st.sampled_from(["0.001", "0.01", "0.1", "1"]),
)
def test_a_wider_band_of_the_tester_never_makes_or_flips_a_verdict(
    ask: Any,
    readings: dict[str, str],
    condition: dict[str, str],
    first: str,
    percents: list[int],
    counts: list[int],
    resolution: str,
) -> None:
    typed = {**readings, **condition, "pin1_first": first if readings["pin1"] else ""}
    fine = ask(SLUG, **typed, **instrument(percents[0], counts[0], resolution))
    coarse = ask(SLUG, **typed, **instrument(percents[1], counts[1], resolution))
    before = {one["name"]: one["verdict"] for one in fine["findings"]}
    after = {one["name"]: one["verdict"] for one in coarse["findings"]}
    for name, verdict in after.items():
        if verdict in ("within", "outside"):
            assert before.get(name) == verdict
    for name, verdict in before.items():
        if verdict == "undecided":
            assert after.get(name, "undecided") == "undecided"
    if "outside" not in before.values():
        assert "outside" not in after.values()


@given(readings=READINGS, condition=CONDITION, meter=TESTER, first=MAYBE)
def test_an_entry_that_is_said_to_decide_does(
    ask: Any, readings: dict[str, str], condition: dict[str, str], meter: tuple[int, int, str], first: str
) -> None:
    typed = {**readings, **condition, **instrument(*meter), "pin1_first": first if readings["pin1"] else ""}
    for found in ask(SLUG, **typed)["findings"]:
        decider = found["decider"]
        if decider and decider["entry"]:
            again = ask(SLUG, **{**typed, decider["enter_in"]: decider["entry"]})
            assert "problems" not in again
            left = [one["name"] for one in again["findings"] if one["verdict"] == "undecided"]
            assert found["name"] not in left


@given(megohms=st.integers(1, 10**9), condition=CONDITION)
def test_weak_evidence_alone_is_never_within(ask: Any, megohms: int, condition: dict[str, str]) -> None:
    weak = {**condition, "top_range": ""}
    reading = f"{megohms} ohm"
    from_the_plug = ask(SLUG, **weak, whole=reading)
    few_volts = ask(SLUG, **{**weak, "test_volts": "9"}, pin1=reading, pin2=reading, pin3=reading)
    for reply in (from_the_plug, few_volts):
        assert all(one["verdict"] != "within" for one in reply["findings"])
    assert all(one["verdict"] in ("outside", "undecided") for one in few_volts["findings"])


@given(readings=READINGS, condition=CONDITION, celsius=st.integers(-10, 120))
def test_the_shell_temperature_never_changes_a_finding(
    ask: Any, readings: dict[str, str], condition: dict[str, str], celsius: int
) -> None:
    cold = ask(SLUG, **readings, **condition)
    warm = ask(SLUG, **readings, **condition, shell_temperature=str(celsius))
    assert cold["findings"] == warm["findings"]
    assert cold["results"] == warm["results"]


def test_every_worked_example_is_answered_and_its_source_declared(ask: Any) -> None:
    ids = [example.id for example in CALCULATOR.examples]
    assert len(ids) == len(set(ids)) >= 3
    for example in CALCULATOR.examples:
        reply = ask(SLUG, **{name: one.text for name, one in example.typed.items()})
        assert reply["findings"]
        assert reply["results"]
        assert reply["working"]
        assert example.source in CALCULATOR.sources


def test_every_field_says_what_goes_in() -> None:
    for one in CALCULATOR.inputs:
        assert one.label
        assert one.help
        assert one.group
