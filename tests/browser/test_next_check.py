"""The walk through the decision map on a phone: one question after the other, down to a finding, and without Python."""

from __future__ import annotations

import json

import pytest
from playwright.sync_api import Page, expect

WALK = "/calculators/next-check.html"


def field(page: Page, name: str):
    return page.locator(f"[data-field={name}]")


def pick(page: Page, name: str, answer: str) -> None:
    expect(field(page, name)).to_be_visible()
    page.locator(f"form [name={name}]").select_option(answer)


def asked(page: Page) -> list[str]:
    return [str(one.get_attribute("data-field")) for one in page.locator("[data-field]").all() if one.is_visible()]


def sentence(page: Page):
    return page.locator("[data-part=outcome] .finding .sentence").first


def expect_answered(page: Page) -> None:
    expect(page.locator("[data-part=state]")).to_have_attribute("data-state", "answered")


def walk_the_cord(page: Page) -> None:
    for name, answer in (
        ("complaint", "hums"),
        ("rested_retry", "hums"),
        ("on_a_cord", "cord"),
        ("straight_to_wall", "starts"),
    ):
        pick(page, name, answer)


def test_questions_come_one_after_the_other_down_to_a_finding(visit, address):
    page = visit(address + WALK)
    expect_answered(page)
    assert asked(page) == ["stop_now", "complaint"]
    walk_the_cord(page)
    expect(field(page, "evidence_cord_unsuitable")).to_be_visible()
    expect(sentence(page)).to_contain_text("It is not written yet.")
    assert asked(page) == [
        "stop_now",
        "complaint",
        "rested_retry",
        "on_a_cord",
        "straight_to_wall",
        "evidence_cord_unsuitable",
    ]
    pick(page, "evidence_cord_unsuitable", "all")
    expect(page.locator("[data-part=outcome] .finding").first).to_have_attribute("data-verdict", "outside")
    expect(sentence(page)).to_have_text("The cord between the outlet and the machine is not fit for it.")


def test_the_next_question_stands_below_the_last_answer_whatever_its_place_in_the_map(visit, served):
    page = visit(served + WALK)
    expect_answered(page)
    for name, answer in (
        ("complaint", "hums"),
        ("rested_retry", "hums"),
        ("on_a_cord", "wall"),
        ("lowest_volts", "good"),
        ("dead_tests", "device"),
    ):
        pick(page, name, answer)
    expect(field(page, "start_device_dead")).to_be_visible()
    assert asked(page)[-2:] == ["dead_tests", "start_device_dead"]
    above = field(page, "dead_tests").bounding_box()
    below = field(page, "start_device_dead").bounding_box()
    assert above["y"] + above["height"] <= below["y"]
    expect(field(page, "start_device_dead").locator(".field-who")).to_contain_text("Helper")


def test_an_answer_keeps_the_focus_when_the_next_question_appears(visit, served):
    page = visit(served + WALK)
    expect_answered(page)
    page.locator("form [name=complaint]").focus()
    pick(page, "complaint", "silent")
    expect(field(page, "outlet_alive")).to_be_visible()
    expect(page.locator("form [name=complaint]")).to_be_focused()


def test_another_answer_takes_its_questions_back(visit, served):
    page = visit(served + WALK)
    walk_the_cord(page)
    expect(field(page, "evidence_cord_unsuitable")).to_be_visible()
    pick(page, "complaint", "silent")
    expect(field(page, "outlet_alive")).to_be_visible()
    assert asked(page) == ["stop_now", "complaint", "outlet_alive"]


def test_a_reason_to_stop_leaves_it_isolated_at_once(visit, served):
    page = visit(served + WALK)
    walk_the_cord(page)
    pick(page, "stop_now", "gas")
    finding = page.locator("[data-part=outcome] .finding").first
    expect(finding).to_have_attribute("data-stop", "")
    expect(sentence(page)).to_contain_text("a licensed person comes first")


def test_a_walk_comes_back_with_its_questions_and_cleared_it_begins_anew(visit, address):
    page = visit(address + WALK)
    walk_the_cord(page)
    expect(field(page, "evidence_cord_unsuitable")).to_be_visible()
    page.reload()
    expect(field(page, "evidence_cord_unsuitable")).to_be_visible()
    page.get_by_role("button", name="Clear all entries").click()
    expect_answered(page)
    assert asked(page) == ["stop_now", "complaint"]


def test_without_scripts_the_whole_map_is_a_list(browser, served):
    context = browser.new_context(viewport={"width": 390, "height": 844}, java_script_enabled=False)
    page = context.new_page()
    page.goto(served + WALK)
    listed = page.locator("[data-part=map]")
    expect(listed.locator("#next-check-map-lowest-volts")).to_be_visible()
    expect(listed.locator("#next-check-map-seized")).to_contain_text("two attempts, and no third")
    expect(page.locator(".no-script")).to_contain_text("Follow the map by hand")
    context.close()


def test_when_python_cannot_start_the_whole_map_is_a_list(visit, served, watch):
    page = visit("about:blank", alone=True)
    page.context.route("**/python-wasm-*.bin", lambda route: route.fulfill(status=404, body="gone"))
    page.goto(served + WALK)
    expect(page.locator("[data-part=state]")).to_have_attribute("data-state", "failed")
    expect(page.locator("#next-check-map-lowest-volts")).to_be_visible()
    watch.starts.clear()


def test_the_list_is_folded_while_python_walks(visit, served):
    page = visit(served + WALK)
    expect_answered(page)
    expect(page.locator("#next-check-map-lowest-volts")).to_be_hidden()
    page.locator("[data-part=map] summary").click()
    expect(page.locator("#next-check-map-lowest-volts")).to_be_visible()


def test_a_complaint_of_the_start_page_opens_the_walk_at_its_first_question(visit, address):
    page = visit(f"{address}/index.html")
    page.locator("[data-begin='next-check complaint=hums']").click()
    expect(field(page, "rested_retry")).to_be_visible()
    expect(page.locator("form [name=complaint]")).to_have_value("hums")
    assert asked(page) == ["stop_now", "complaint", "rested_retry"]


def test_another_complaint_begins_anew_and_the_walk_before_it_can_be_brought_back(visit, served):
    page = visit(served + WALK)
    walk_the_cord(page)
    expect(field(page, "evidence_cord_unsuitable")).to_be_visible()
    page.goto(served + "/index.html")
    page.locator("[data-begin='next-check complaint=silent']").click()
    expect(field(page, "outlet_alive")).to_be_visible()
    expect(page.locator("[data-part=kept]")).to_contain_text("This begins anew.")
    page.get_by_role("button", name="Bring the cleared entries back").click()
    expect(field(page, "evidence_cord_unsuitable")).to_be_visible()


def test_the_same_complaint_goes_on_where_the_walk_stood(visit, served):
    page = visit(served + WALK)
    walk_the_cord(page)
    expect(field(page, "evidence_cord_unsuitable")).to_be_visible()
    page.goto(served + "/index.html")
    page.locator("[data-begin='next-check complaint=hums']").click()
    expect(field(page, "evidence_cord_unsuitable")).to_be_visible()


@pytest.mark.parametrize("number", range(4))
def test_a_worked_walk_answers_in_the_page_as_it_stands_printed(visit, served, built_on, number):
    page = visit(served + "/index.html")
    page.clock.set_fixed_time(f"{built_on}T12:00:00")
    page.goto(served + WALK)
    expect_answered(page)
    example = page.locator(".worked-example").nth(number)
    for entry in example.locator("[data-entry]").all():
        pick(page, str(entry.get_attribute("data-entry")), str(entry.get_attribute("data-text")))
    printed = [one.text_content() for one in example.locator(".findings, .results, figcaption, .working").all()]
    page.wait_for_function(
        "(wanted) => document.querySelector('[data-part=outcome] figcaption')?.textContent === wanted",
        arg=printed[-2] if len(printed) > 3 else None,
    )
    live = page.locator("[data-part=outcome]").locator(".findings, .results, figcaption, .working")
    assert json.dumps([squeezed(one.text_content()) for one in live.all()]) == json.dumps(
        [squeezed(one) for one in printed]
    )


def squeezed(text: str | None) -> str:
    return "".join((text or "").split())
