"""An answer that changes is redrawn where it has changed, and looks in the end as if it had been drawn anew."""

from __future__ import annotations

import json

import pytest
from playwright.sync_api import Page, expect

from tests.browser.drawn import TREE, enter_example

WINDINGS = "/calculators/winding-identification.html"


def expect_answered(page: Page) -> None:
    expect(page.locator("[data-part=state]")).to_have_attribute("data-state", "answered")
    expect(page.locator("[data-module=calculator]")).not_to_have_attribute("aria-busy", "true")


@pytest.mark.parametrize("slug", ["expected-amps", "winding-identification", "next-check"])
def test_an_answer_redrawn_through_every_example_is_the_one_that_a_fresh_page_draws(visit, served, slug):
    page = visit(f"{served}/calculators/{slug}.html")
    for example in page.locator(".worked-example").all():
        enter_example(example)
        page.locator("[data-module=calculator]:not([aria-busy])").wait_for()
    expect_answered(page)
    drawn = page.locator("[data-part=outcome]")
    redrawn = drawn.evaluate(TREE)
    assert len(json.dumps(redrawn)) > 2000, "there is an answer to compare"
    page.reload()
    expect_answered(page)
    assert drawn.evaluate(TREE) == redrawn


def test_what_stays_the_same_in_an_answer_is_not_touched_and_stays_open(visit, served):
    page = visit(served + WINDINGS)
    enter_example(page.locator(".worked-example").first)
    expect_answered(page)
    page.locator("[data-part=outcome] .limits-used summary").click()
    drawn = page.locator("[data-part=outcome] *")
    drawn.evaluate_all("(all) => all.forEach((one) => { one.drawnBefore = true; })")
    before = page.locator("[data-part=outcome]").inner_text()
    field = page.locator("form [name=r12]")
    field.fill(field.input_value() + "1")
    expect(page.locator("[data-part=outcome]")).not_to_have_text(before, use_inner_text=True)
    stayed = """(all) => all.every((one) => one.drawnBefore)"""
    assert page.locator("[data-part=outcome] .limits-used[open] li").count() > 1
    assert page.locator("[data-part=outcome] .limits-used li").evaluate_all(stayed)
    assert not page.locator("[data-part=outcome] .working tr").evaluate_all(stayed)


def test_an_answer_that_comes_back_after_a_problem_is_whole(visit, served):
    page = visit(served + WINDINGS)
    enter_example(page.locator(".worked-example").first)
    expect_answered(page)
    whole = page.locator("[data-part=outcome]").evaluate(TREE)
    field = page.locator("form [name=r12]")
    text = field.input_value()
    field.fill("abc")
    expect(page.locator("[data-part=outcome]")).to_be_empty()
    field.fill(text)
    expect_answered(page)
    assert page.locator("[data-part=outcome]").evaluate(TREE) == whole
