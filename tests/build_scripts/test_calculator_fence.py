"""The calculator fence in plain Python-Markdown, without any site generator."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from datetime import date
from pathlib import Path

import markdown
import pytest

from build_scripts.calculator_fence import (
    PAGES_VARIABLE,
    SET_ASIDE,
    SET_ASIDE_VARIABLE,
    FenceError,
    PageData,
    calculator_fence,
    render_calculator,
    set_aside_part,
)
from build_scripts.errors import HandbookError
from build_scripts.read_standards import read_standards
from calculators import CALCULATORS
from calculators.inputs import Choice, ChoiceInput, Input, MeterInput, NumberInput
from calculators.limits import Standards

HANDBOOK = Path(__file__).resolve().parents[2] / "handbook"
EVERY_PROCEDURE = {
    file.stem: {"title": file.stem.capitalize(), "level": "helper"} for file in (HANDBOOK / "procedures").glob("*.md")
}
SLUG = "winding-identification"


@pytest.fixture(scope="module")
def data() -> PageData:
    standards = Standards.from_json(read_standards(HANDBOOK).as_json("7"))
    return PageData(standards, EVERY_PROCEDURE, date(2026, 11, 25), "7")


@pytest.fixture
def pages(tmp_path, monkeypatch):
    folder = tmp_path / "assets" / "data"
    folder.mkdir(parents=True)
    (folder / "standards.json").write_text(read_standards(HANDBOOK).as_json("7"), encoding="utf-8")
    (folder / "procedures.json").write_text(json.dumps(EVERY_PROCEDURE), encoding="utf-8")
    (folder / "build.json").write_text(json.dumps({"date": "2026-11-25", "revision": "7"}), encoding="utf-8")
    monkeypatch.setenv(PAGES_VARIABLE, str(tmp_path))
    return tmp_path


def as_html(text: str) -> str:
    fences = [{"name": "calculator", "class": "calculator", "format": calculator_fence}]
    return markdown.markdown(
        text,
        extensions=["pymdownx.superfences"],
        extension_configs={"pymdownx.superfences": {"custom_fences": fences}},
    )


def fence(slug: str) -> str:
    return f"Before.\n\n```calculator\n{slug}\n```\n\nAfter.\n"


def with_input(added: Input):
    return replace(CALCULATORS[SLUG], inputs=(*CALCULATORS[SLUG].inputs, added))


def test_a_fence_becomes_a_form_and_the_first_worked_example_with_a_link_to_the_others(pages):
    html = as_html(fence(SLUG))
    assert f'<section class="calculator" data-module="calculator" data-calculator="{SLUG}"' in html
    assert html.count('<details class="worked-example"') == 1
    assert f'data-example="{CALCULATORS[SLUG].examples[0].id}"' in html
    others = len(CALCULATORS[SLUG].examples) - 1
    assert f'{others} more worked examples: <a href="../calculators/{SLUG}.html">Winding identification</a>' in html
    assert 'data-part="state"' in html
    assert 'data-part="outcome" aria-live="polite"' in html
    assert "<p>Before.</p>" in html
    assert "<p>After.</p>" in html


def test_a_fence_with_a_second_line_brings_every_worked_example(pages):
    html = as_html(fence(f"{SLUG}\nevery example"))
    assert html.count('<details class="worked-example"') == len(CALCULATORS[SLUG].examples)
    assert "more worked example" not in html


def test_another_second_line_stops_the_build_and_says_what_is_allowed(pages):
    with pytest.raises(
        FenceError, match=r"“all of them” says nothing here. Under winding-.* may stand “every example”"
    ):
        as_html(fence(f"{SLUG}\nall of them"))


def test_parts_that_are_set_aside_and_put_back_make_the_same_calculator(pages, monkeypatch):
    whole = as_html(fence(SLUG))
    monkeypatch.setenv(SET_ASIDE_VARIABLE, "yes")
    short = as_html(fence(SLUG))
    assert "<form" not in short
    assert len(short) < len(whole) / 5
    assert SET_ASIDE.sub(set_aside_part, short) == whole


def test_limits_that_change_between_two_renderings_change_the_examples(pages):
    file = pages / "assets" / "data" / "build.json"
    assert "with handbook revision 7." in as_html(fence(SLUG))
    file.write_text(json.dumps({"date": "2026-11-25", "revision": "8"}), encoding="utf-8")
    assert "with handbook revision 8." in as_html(fence(SLUG))


@pytest.mark.parametrize("slug", list(CALCULATORS))
def test_every_calculator_can_be_put_into_a_page(pages, slug):
    assert f'data-calculator="{slug}"' in as_html(fence(slug))


@pytest.mark.parametrize("slug", list(CALCULATORS))
def test_every_field_has_its_label_and_a_place_for_its_problem(data, slug):
    html = render_calculator(CALCULATORS[slug], data)
    names = re.findall(r'data-field="([^"]+)"', html)
    assert len(names) == len(set(names)) > 3
    for name in names:
        assert f'<label for="{slug}-{name}">' in html
        assert f'id="{slug}-{name}-problem"' in html
        assert re.search(rf'aria-describedby="[^"]*{slug}-{name}-problem"', html)


def test_the_example_stands_in_the_page_with_its_answer_and_its_source(data):
    html = render_calculator(CALCULATORS[SLUG], data)
    assert "Pin 1 is common, pin 2 is run, pin 3 is start" in html
    assert "Computed on 2026-11-25 with handbook revision 7." in html
    assert '<div data-entry="r12" data-text="4.2" data-unit=""><dt>Reading 1–2</dt><dd>4.2 Ω</dd></div>' in html
    assert '<a href="../procedures/windings-to-shell.html">' in html
    assert "<svg" in html
    assert '<table class="working">' in html
    assert "Limits used (" in html


def test_the_same_data_gives_the_same_bytes(data):
    assert render_calculator(CALCULATORS[SLUG], data) == render_calculator(CALCULATORS[SLUG], data)


def test_a_keypad_of_digits_is_offered_only_where_a_minus_or_open_line_cannot_be_wanted(data):
    number = NumberInput("added", "Added", ("V",), 0.0, 300.0, required=False)
    plain = render_calculator(with_input(number), data)
    below = render_calculator(with_input(replace(number, least=-5.0)), data)
    opened = render_calculator(with_input(replace(number, open_line=True)), data)
    pattern = r'<input id="winding-identification-added"[^>]*inputmode="decimal"'
    assert re.search(pattern, plain)
    assert not re.search(pattern, below)
    assert not re.search(pattern, opened)


def test_words_of_a_declaration_stay_words(data):
    hostile = "<b>&\"'{{ 1 }}"
    choice = ChoiceInput("added", hostile, (Choice("a", hostile),), "a", help=hostile, group=hostile)
    html = render_calculator(with_input(choice), data)
    assert "<b>" not in html
    assert html.count("&lt;b&gt;&amp;&#34;&#39;{{ 1 }}") >= 4


def test_a_meter_is_one_line_that_opens_into_three_fields(data):
    html = render_calculator(with_input(MeterInput("added", "Second meter", "V", 0.1)), data)
    assert 'Second meter: <span data-part="meter-words">±(0.5 % + 2 counts), resolution 0.1 V</span>' in html
    for part in ("percent", "counts", "resolution"):
        assert f'data-field="added_{part}"' in html


def test_an_unknown_calculator_stops_the_build_and_names_the_nearest(pages):
    with pytest.raises(
        HandbookError, match=r"there is no calculator called “winding-identity”. Did you mean winding-ide"
    ):
        as_html(fence("winding-identity"))


def test_a_missing_standards_file_stops_the_build_and_says_what_to_do(tmp_path, monkeypatch):
    monkeypatch.setenv(PAGES_VARIABLE, str(tmp_path / "nothing"))
    with pytest.raises(FenceError, match=r"standards\.json is not there.*Assemble the handbook first"):
        as_html(fence(SLUG))


def test_an_example_that_leads_to_a_procedure_that_is_not_there_stops_the_build(data):
    without = {key: value for key, value in EVERY_PROCEDURE.items() if key != "windings-to-shell"}
    with pytest.raises(
        FenceError, match=r"leads to the procedure “windings-to-shell”, which the handbook does not have"
    ):
        render_calculator(CALCULATORS[SLUG], replace(data, procedures=without))


def test_an_example_that_does_not_compute_stops_the_build(data):
    calculator = CALCULATORS[SLUG]
    broken = replace(calculator.examples[0], typed={})
    with pytest.raises(FenceError, match=r"its worked example three-pins does not compute. Reading 1–2 is missing"):
        render_calculator(replace(calculator, examples=(broken,)), data)


def test_without_a_date_of_the_build_the_limits_of_today_are_used(pages):
    (pages / "assets" / "data" / "build.json").unlink()
    assert f"Computed on {date.today().isoformat()} with handbook revision 7." in as_html(fence(SLUG))
