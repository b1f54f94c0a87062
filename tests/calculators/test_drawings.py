"""What matters in a picture, whatever its layout: everything stands inside, and marks stand in the order of their values.

Where exactly a line or a word stands is free; these hold it together.
"""

from __future__ import annotations

import itertools
import json
import math
import re
from datetime import date
from typing import Any
from xml.etree import ElementTree

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from calculators import CALCULATORS
from calculators.answer import answer
from calculators.drawing import Mark, scale_figure
from calculators.rows_drawing import Row, rows_figure
from tests.same_text.random_requests import example_requests, random_requests

AREA = re.compile(r"\{http://www.w3.org/2000/svg\}")
SIZES = st.floats(0.1, 1000.0)


def shapes(svg: str, kind: str) -> list[dict[str, Any]]:
    """Every shape of a kind, its numbers as numbers and its words as text."""
    found = []
    for one in ElementTree.fromstring(svg).iter():
        if AREA.sub("", one.tag) == kind:
            found.append({name: _number(value) for name, value in one.attrib.items()} | {"words": one.text or ""})
    return found


def _number(text: str) -> float | str:
    try:
        return float(text)
    except ValueError:
        return text


def size(svg: str) -> tuple[float, float]:
    _, _, width, height = map(float, ElementTree.fromstring(svg).attrib["viewBox"].split())
    return width, height


def points(svg: str) -> list[tuple[float, float]]:
    """Every corner, end, rim and anchor of a drawing."""
    found = []
    for one in shapes(svg, "line"):
        found += [(one["x1"], one["y1"]), (one["x2"], one["y2"])]
    for one in shapes(svg, "rect"):
        found += [(one["x"], one["y"]), (one["x"] + one["width"], one["y"] + one["height"])]
    for one in shapes(svg, "circle"):
        found += [(one["cx"] - one["r"], one["cy"] - one["r"]), (one["cx"] + one["r"], one["cy"] + one["r"])]
    return found + [(one["x"], one["y"]) for one in shapes(svg, "text")]


@pytest.mark.parametrize("slug", list(CALCULATORS))
def test_everything_in_a_picture_stands_inside_it(slug, standards, seed, long_run) -> None:
    in_force = standards.in_force(date(2026, 11, 25))
    requests = [
        *example_requests(CALCULATORS[slug]),
        *random_requests(CALCULATORS[slug], in_force, seed, 500 if long_run else 40),
    ]
    for request in requests:
        for figure in json.loads(answer(request, standards)).get("figures", ()):
            width, height = size(figure["svg"])
            assert all(math.isfinite(x) and math.isfinite(y) for x, y in points(figure["svg"])), request
            outside = [(x, y) for x, y in points(figure["svg"]) if not (0 <= x <= width and 0 <= y <= height)]
            assert outside == [], (figure["name"], width, height, request)


@given(SIZES, st.floats(0.0, 0.5), SIZES, SIZES)
@example(0.1, 0.0, 0.1, 0.10000000000000002)  # a last bit is no distance
@example(886.0, 0.5, 214.0, 108.25)  # a band many times as wide as the marks are apart
def test_on_a_scale_the_reading_its_band_and_the_limits_stand_in_the_order_of_their_values(
    value: float, band: float, one: float, other: float
) -> None:
    low, high = value * (1.0 - band), value * (1.0 + band)
    marks = (Mark(min(one, other), "least"), Mark(max(one, other), "most"))
    svg = scale_figure("x", "A scale", value=value, low=low, high=high, marks=marks, unit="A", digits=2).svg
    axis, *dashed = (line for line in shapes(svg, "line") if line["stroke-width"] != 4.0)
    (reading,) = (line for line in shapes(svg, "line") if line["stroke-width"] == 4.0)
    (rect,) = shapes(svg, "rect")
    stand = [line["x1"] for line in dashed] + [reading["x1"], rect["x"]]
    for (a, mine), (b, theirs) in zip_pairs(
        list(zip([mark.value for mark in marks] + [value, low], stand, strict=True))
    ):
        assert (b - a) * (theirs - mine) >= -0.1 * abs(b - a)
    assert axis["x1"] < min(stand) <= max(stand) < axis["x2"]
    # The value is as far along the axis between the two limits as it is between them on paper.
    if abs(one - other) > 0.05 * max(one, other, high):
        part = (value - marks[0].value) / (marks[1].value - marks[0].value)
        drawn = (reading["x1"] - dashed[0]["x1"]) / (dashed[1]["x1"] - dashed[0]["x1"])
        assert drawn == pytest.approx(part, abs=0.03 * (1 + abs(part)))
        band_part = (value - low) / (marks[1].value - marks[0].value)
        # Both ends are drawn to a tenth of a unit, and what that leaves of the marks' distance grows with the part.
        assert reading["x1"] - rect["x"] == pytest.approx(
            band_part * (dashed[1]["x1"] - dashed[0]["x1"]), abs=0.15 * (1 + band_part)
        )
    assert reading["y1"] < axis["y1"] < reading["y2"]
    assert rect["y"] < axis["y1"] < rect["y"] + rect["height"]
    names = [text["words"] for text in shapes(svg, "text")]
    assert [name.split()[0] for name in names] == ["reading", "least", "most"]
    for text, line in zip(shapes(svg, "text")[1:], dashed, strict=True):
        assert abs(text["x"] - line["x1"]) < 10.0
        assert line["y1"] < text["y"] < line["y2"]


def zip_pairs(found: list[Any]) -> list[tuple[Any, Any]]:
    return [(one, other) for place, one in enumerate(found) for other in found[place + 1 :]]


@given(st.lists(st.tuples(SIZES, st.floats(0.0, 0.5)), min_size=1, max_size=5), st.lists(SIZES, min_size=1, max_size=3))
def test_rows_stand_one_below_the_other_on_one_scale_with_every_limit_across_each(
    bands: list[tuple[float, float]], limits: list[float]
) -> None:
    rows = tuple(
        Row(f"row {place}", value, value * (1 - part), value * (1 + part)) for place, (value, part) in enumerate(bands)
    )
    svg = rows_figure("x", "Rows", rows, [Mark(one, "limit") for one in limits], unit="A", digits=2).svg
    boxes = shapes(svg, "rect")
    values = [line for line in shapes(svg, "line") if "stroke-dasharray" not in line]
    dashed = [line for line in shapes(svg, "line") if "stroke-dasharray" in line]
    assert len(boxes) == len(values) == len(rows)
    assert len(dashed) == len(limits) * (len(rows) + 1)
    for (box, line), (below, _) in zip(
        zip(boxes, values, strict=True), zip(boxes[1:], values[1:], strict=True), strict=False
    ):
        assert box["y"] + box["height"] < below["y"]
        assert line["y1"] < box["y"] < line["y2"]
    for row, box, line in zip(rows, boxes, values, strict=True):
        assert box["x"] - 0.06 <= line["x1"] <= box["x"] + box["width"] + 0.06
        label = next(text for text in shapes(svg, "text") if text["words"].startswith(f"{row.label}: "))
        assert box["y"] - 16.0 < label["y"] < box["y"]
    ordered = sorted((row.value, line["x1"]) for row, line in zip(rows, values, strict=True))
    assert all(one[1] <= other[1] + 0.11 for one, other in itertools.pairwise(ordered))
    stand = sorted({line["x1"] for line in dashed})
    assert len(stand) <= len(limits)
    for limit, x in zip(sorted(limits), sorted(line["x1"] for line in dashed[: len(limits)]), strict=True):
        for row, line in zip(rows, values, strict=True):
            assert (row.value - limit) * (line["x1"] - x) >= -0.11 * abs(row.value - limit)


@pytest.mark.parametrize(("value", "marks"), [(0.3, (11.4, 12.6)), (30.0, (1.0, 2.0)), (1.0, (0.5, 1.2))])
def test_no_line_of_a_limit_runs_through_the_words_of_another(value: float, marks: tuple[float, float]) -> None:
    listed = [Mark(marks[0], "least"), Mark(marks[1], "most")]
    root = ElementTree.fromstring(
        scale_figure("x", "A scale", value=value, low=value, high=value, marks=listed, unit="µF", digits=1).svg
    )
    space = "{http://www.w3.org/2000/svg}"
    lines = [one for one in root.iter(f"{space}line") if one.get("stroke-dasharray")]
    for text in root.iter(f"{space}text"):
        if text.get("font-size") != "12":
            continue
        x, y, width = float(text.get("x", "")), float(text.get("y", "")), 7.0 * len(text.text or "")
        near, far = (x, x + width) if text.get("text-anchor") == "start" else (x - width, x)
        for one in lines:
            runs = float(one.get("y1", "")) <= y <= float(one.get("y2", ""))
            assert not (runs and near < float(one.get("x1", "")) < far)


def test_the_field_of_the_map_lets_the_lines_of_the_reading_show_through(standards) -> None:
    (request, *_) = example_requests(CALCULATORS["performance-map"])
    figures = json.loads(answer(request, standards))["figures"]
    (svg,) = [one["svg"] for one in figures if one["name"] == "map-limits"]
    (field,) = ElementTree.fromstring(svg).iter("{http://www.w3.org/2000/svg}rect")
    assert field.get("fill-opacity") == "0.25"
