"""What holds for every winding, every meter and every text typed into the winding-temperature form."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.inputs import MeterInput
from calculators.winding_temperature import CALCULATOR
from tests.calculators.answers import finding, result

SLUG = "winding-temperature"
FIELDS = [one.name for one in CALCULATOR.inputs if not isinstance(one, MeterInput)] + [
    field.name for one in CALCULATOR.inputs if isinstance(one, MeterInput) for field in one.fields()
]
PROCEDURES = {"winding-temperature-after-a-run", "make-safe-prove-dead", "airflow-and-heat-exchange"}
RANK = {"within": 0, "watch": 1, "undecided": 2, "outside": 3}
BASE = {"cold_ohms": "10", "cold_temperature": "22", "hot1_time": "30", "hot1_ohms": "13"}
ENTRIES = st.one_of(
    st.text(max_size=12),
    st.sampled_from(
        ["", "0", "OL", "-1", "1e9", "4,4", "2 min", "12k", "300", "180", "0.001", "77 F", "copper", "yes"]
    ),
    st.floats(0, 200).map(lambda number: f"{number:.4f}"),
)


@st.composite
def runs(draw: st.DrawFn) -> dict[str, str]:
    """A cold reading and one to five hot readings that cool, with all that may be known or not."""
    cold = draw(st.integers(1000, 60000))
    ohms = cold * draw(st.integers(1100, 1650)) // 1000
    seconds = draw(st.integers(10, 70))
    typed = {"cold_ohms": f"{cold / 1000:.3f}", "cold_temperature": str(draw(st.integers(5, 40)))}
    for number in range(1, draw(st.integers(1, 5)) + 1):
        typed |= {f"hot{number}_time": str(seconds), f"hot{number}_ohms": f"{ohms / 1000:.3f}"}
        seconds += draw(st.integers(10, 25))
        ohms -= draw(st.integers(0, ohms // 150))
    typed["hours_rest"] = draw(st.sampled_from(["", "2", "12", "12", "12"]))
    typed["lead"] = draw(st.sampled_from(["", "0", "0.12", "0.4"]))
    typed["metal"] = draw(st.sampled_from(["unknown", "copper", "aluminium"]))
    typed["insulation"] = draw(st.sampled_from(["unknown", "synthetic", "cellulosic"]))
    typed["same_meter"] = draw(st.sampled_from(["no", "yes"]))
    typed["thermometer_band"] = draw(st.sampled_from(["0", "1", "2", "5"]))
    return typed


METER = st.tuples(
    st.sampled_from(["0", "0.2", "0.5", "1", "5"]), st.integers(0, 10), st.sampled_from(["0.001", "0.01", "0.1"])
)


def ohmmeter(percent: str, counts: int, resolution: str) -> dict[str, str]:
    return {"ohmmeter_percent": percent, "ohmmeter_counts": str(counts), "ohmmeter_resolution": resolution}


def verdicts(reply: dict[str, Any]) -> dict[str, str]:
    return {one["name"]: one["verdict"] for one in reply["findings"]}


@given(typed=st.dictionaries(st.sampled_from(FIELDS), ENTRIES, max_size=16))
def test_whatever_is_typed_an_answer_comes_back_and_every_problem_names_its_field(
    ask: Any, typed: dict[str, str]
) -> None:
    reply = ask(SLUG, **{**BASE, **typed})
    if "problems" in reply:
        assert all(one["input"] in FIELDS and one["message"] for one in reply["problems"])
        return
    assert reply["results"]
    assert reply["working"]
    for one in reply["findings"]:
        assert one["next"]["procedure"] in PROCEDURES
        assert one["limit"]["key"] in {limit["key"] for limit in reply["limits"]}
        assert (one["verdict"] == "undecided") is (one["decider"] is not None)
        if one["decider"]:
            assert all(one["decider"][part] for part in ("reading", "resolution", "condition"))
    said = [one[part] for one in reply["findings"] for part in ("sentence", "plain")] + reply["notes"]
    said += [one["plain"] for one in reply["results"]] + [one["next"]["text"] for one in reply["findings"]]
    assert "safe" not in " ".join(said).lower()
    assert "nan" not in " ".join(one["text"] for one in reply["results"])
    assert not any(one["text"] == "OL" or "OL" in one["band"] for one in reply["results"])


@pytest.mark.parametrize("resolution", ["0.000001", "1000"])
@pytest.mark.parametrize("ohms", ["0.000001", "0.01", "300"])
def test_the_ends_of_every_range_are_answered(ask: Any, ohms: str, resolution: str) -> None:
    for percent, counts in (("0", "0"), ("50", "100")):
        for lead in ("", "0"):
            typed = {"cold_ohms": ohms, "cold_temperature": "60", "lead": lead, "thermometer_band": "20"}
            typed |= {f"hot{number}_time": str(171 + number) for number in range(1, 9)}
            typed |= {f"hot{number}_ohms": ohms for number in range(1, 9)}
            meter = {"ohmmeter_percent": percent, "ohmmeter_counts": counts, "ohmmeter_resolution": resolution}
            reply = ask(SLUG, **typed, **meter)
            assert reply.get("findings") or reply["problems"]


@given(typed=runs(), meter=METER)
def test_the_unit_a_number_is_typed_in_changes_nothing(
    ask: Any, typed: dict[str, str], meter: tuple[str, int, str]
) -> None:
    one = ask(SLUG, **typed, **ohmmeter(*meter))
    other = dict(typed)
    for name, text in typed.items():
        if name.endswith("_ohms") or (name == "lead" and text):
            other[name] = f"{float(text) * 1000:.0f} mΩ"
        elif name.endswith("_time"):
            other[name] = f"{float(text) / 60:.12f} min"
        elif name == "cold_temperature":
            other[name] = f"{float(text) * 1.8 + 32:.1f} F"
        elif name == "thermometer_band":
            other[name] = f"{float(text) * 1.8:.1f} F"
    again = ask(SLUG, **other, **ohmmeter(*meter))
    assert one == again


@given(typed=runs(), meter=METER, more=st.integers(1, 100))
def test_hotter_ohms_are_never_a_cooler_winding(
    ask: Any, typed: dict[str, str], meter: tuple[str, int, str], more: int
) -> None:
    hotter = {
        name: f"{float(text) * (1 + more / 1000):.3f}" if name.startswith("hot") and name.endswith("_ohms") else text
        for name, text in typed.items()
    }
    cool, warm = (ask(SLUG, **one, **ohmmeter(*meter)) for one in (typed, hotter))
    if "problems" in cool or "problems" in warm:
        return
    low, high = (float(result(one, "winding_temperature")["value"]) for one in (cool, warm))
    assert high >= low
    before, after = (finding(one, "winding-temperature")["verdict"] for one in (cool, warm))
    if before == "outside":
        assert after == "outside"
    if after == "within":
        assert before in ("within", "undecided")


@given(
    typed=runs(),
    percents=st.tuples(st.integers(0, 20), st.integers(0, 20)).map(sorted),
    counts=st.tuples(st.integers(0, 10), st.integers(0, 10)).map(sorted),
    bands=st.tuples(st.integers(0, 10), st.integers(0, 10)).map(sorted),
)
def test_a_wider_band_never_makes_or_flips_a_verdict(
    ask: Any, typed: dict[str, str], percents: list[int], counts: list[int], bands: list[int]
) -> None:
    fine, coarse = (
        ask(SLUG, **typed | {"thermometer_band": str(bands[end])}, **ohmmeter(str(percents[end]), counts[end], "0.01"))
        for end in (0, 1)
    )
    if "problems" in fine:
        return
    before, after = verdicts(fine), verdicts(coarse)
    for name, verdict in after.items():
        if verdict in ("within", "outside"):
            assert before.get(name) == verdict
        if before.get(name) == "undecided":
            assert verdict == "undecided"


@given(typed=runs(), meter=METER)
def test_an_entry_that_is_said_to_decide_does(ask: Any, typed: dict[str, str], meter: tuple[str, int, str]) -> None:
    typed = typed | ohmmeter(*meter)
    reply = ask(SLUG, **typed)
    for found in reply.get("findings", ()):
        decider = found["decider"]
        if decider and decider["entry"]:
            again = ask(SLUG, **typed | {decider["enter_in"]: decider["entry"]})
            assert "problems" not in again
            assert verdicts(again).get(found["name"]) != "undecided"


@given(typed=runs(), meter=METER)
def test_leads_that_are_taken_off_make_the_winding_hotter_and_lie_within_the_band_of_those_left_in(
    ask: Any, typed: dict[str, str], meter: tuple[str, int, str]
) -> None:
    left_in = ask(SLUG, **typed | {"lead": ""}, **ohmmeter(*meter))
    taken_off = ask(SLUG, **typed | {"lead": "0.4"}, **ohmmeter(*meter))
    if "problems" in left_in or "problems" in taken_off:
        return
    before, after = (result(one, "winding_temperature") for one in (left_in, taken_off))
    assert float(after["value"]) >= float(before["value"])
    if before["band"]:
        assert float(after["value"]) <= float(before["band"].split(" to ")[1].removesuffix(" °C"))


@given(typed=runs(), meter=METER, weak=st.sampled_from([{"hours_rest": "1"}, {"hours_rest": ""}]))
def test_a_lower_bound_alone_is_outside_or_undecided(
    ask: Any, typed: dict[str, str], meter: tuple[str, int, str], weak: dict[str, str]
) -> None:
    reply = ask(SLUG, **typed | weak, **ohmmeter(*meter))
    if "problems" not in reply:
        assert finding(reply, "winding-temperature")["verdict"] in ("outside", "undecided")


def test_the_verdicts_are_ordered_by_heat(ask: Any) -> None:
    sharp = {"ohmmeter_percent": "0", "ohmmeter_counts": "0", "thermometer_band": "1"}
    known = {"hours_rest": "9", "lead": "0", "metal": "copper", "cold_ohms": "10", "cold_temperature": "22"}
    seen = []
    for ohms in range(11000, 15500, 50):
        points = {f"hot{n}_ohms": f"{ohms / 1000:.3f}" for n in (1, 2, 3)} | {
            f"hot{n}_time": f"{20 * n}" for n in (1, 2, 3)
        }
        seen.append(RANK[finding(ask(SLUG, **sharp, **known, **points), "winding-temperature")["verdict"]])
    assert seen == sorted(seen)
    assert set(seen) == set(RANK.values())


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
