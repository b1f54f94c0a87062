"""Hold points and gates on screen, without scripts, and on paper; and pages past their review date."""

from __future__ import annotations

import re

from playwright.sync_api import expect

DEAD = "/procedures/make-safe-prove-dead.html"
DISCHARGE = "/procedures/discharge-capacitors.html"


def holds(page):
    return page.locator("li.step.hold")


def tick(place) -> None:
    place.locator(".tick input").check()


def open_gates(page) -> None:
    for gate in page.locator(".gate").all():
        tick(gate)


def test_steps_after_an_unticked_hold_point_are_folded(visit, address):
    page = visit(address + DEAD)
    open_gates(page)
    first = holds(page).first
    expect(first).to_be_visible()
    later = page.locator("li.step.hold ~ li.step")
    assert later.count() > 3
    expect(later.first).to_be_hidden()
    expect(later.last).to_be_hidden()
    expect(first.locator(".fold-words")).to_contain_text("folded until this is ticked")
    tick(first)
    expect(later.first).to_be_visible()
    expect(later.last).to_be_hidden()


def test_all_steps_show_when_every_hold_point_is_ticked(visit, served):
    page = visit(served + DEAD)
    open_gates(page)
    for place in holds(page).all():
        tick(place)
    for step in page.locator("li.step").all():
        expect(step).to_be_visible()


def test_a_gate_keeps_everything_up_to_the_common_mistakes_folded(visit, served):
    page = visit(served + DEAD)
    expect(page.locator(".gate-otherwise")).to_be_visible()
    for folded in ("#steps", "#readings", "#what-they-mean"):
        expect(page.locator(folded)).to_be_hidden()
    for shown in ("#why", "#before-you-start", "#common-mistakes", "#stop-if"):
        expect(page.locator(shown)).to_be_visible()
    open_gates(page)
    expect(page.locator("#readings")).to_be_visible()


def test_ticks_hold_for_this_visit_and_this_page_only(visit, served):
    page = visit(served + DEAD)
    open_gates(page)
    tick(holds(page).first)
    page.reload()
    expect(holds(page).first.locator(".tick input")).to_be_checked()
    page.goto(served + DISCHARGE)
    expect(page.locator(".tick input:checked")).to_have_count(0)
    again = page.context.new_page()
    again.goto(served + DEAD)
    expect(again.locator(".tick input:checked")).to_have_count(0)


def test_ticks_can_be_cleared_for_the_next_machine(visit, served):
    page = visit(served + DEAD)
    open_gates(page)
    tick(holds(page).first)
    page.get_by_role("button", name="Clear all ticks and begin again").click()
    expect(page.locator(".tick input:checked")).to_have_count(0)
    expect(page.locator("#steps")).to_be_hidden()


def test_a_link_into_a_folded_step_opens_it_and_shows_the_unticked_hold_points(visit, served):
    page = visit(served + DEAD)
    last = page.locator("li.step").last
    number = last.get_attribute("id")
    page.goto(f"{served}{DEAD}#{number}")
    page.reload()
    expect(last).to_be_visible()
    warning = page.locator(".hold-warning")
    expect(warning).to_contain_text("Not yet")
    words = holds(page).first.locator("p:not(.step-marks):not(.fold-words)").first.inner_text()
    expect(warning).to_contain_text(re.sub(r"\s+", " ", words))
    assert last.evaluate("(step) => step.value") == int(number.removeprefix("step-"))
    open_gates(page)
    expect(warning).to_have_count(0)
    expect(last).to_be_hidden()


def test_without_scripts_every_step_shows(visit, served):
    page = visit(served + DEAD, java_script_enabled=False)
    for step in page.locator("li.step").all():
        expect(step).to_be_visible()
    expect(page.locator("#readings")).to_be_visible()


def test_on_paper_every_step_shows_with_level_and_hazards(visit, served):
    page = visit(served + DEAD)
    page.emulate_media(media="print")
    for step in page.locator("li.step").all():
        expect(step).to_be_visible()
    for shown in (".page-level", ".page-hazards", "#readings", ".gate-otherwise"):
        expect(page.locator(shown).first).to_be_visible()
    expect(page.locator(".tick").first).to_be_hidden()


def test_level_and_hazards_stand_above_the_first_step_on_a_narrow_phone(visit, served):
    page = visit(served + DEAD)
    page.set_viewport_size({"width": 360, "height": 740})
    open_gates(page)
    first = page.locator("li.step").first.bounding_box()["y"]
    for shown in (".page-level", ".page-hazards"):
        expect(page.locator(shown)).to_be_visible()
        assert page.locator(shown).bounding_box()["y"] < first
    assert page.evaluate("() => document.documentElement.scrollWidth") <= 360


def test_a_page_past_its_review_date_says_so_by_the_readers_clock(visit, served):
    page = visit(served + "/index.html")
    page.clock.set_fixed_time("2031-05-01T09:00:00")
    page.goto(served + DEAD)
    expect(page.locator(".past-review")).to_contain_text("past its review date")


def test_a_page_within_its_review_date_says_nothing(visit, served, built_on):
    page = visit(served + "/index.html")
    page.clock.set_fixed_time(f"{built_on}T09:00:00")
    page.goto(served + DEAD)
    expect(page.locator(".tick").first).to_be_visible()
    expect(page.locator(".past-review")).to_have_count(0)
