"""What a tech sees who types readings into a calculator, on a served page and on one opened from disk."""

from __future__ import annotations

import json

import pytest
from playwright.sync_api import Page, expect

from tests.browser.drawn import TREE, enter_example

WINDINGS = "/calculators/winding-identification.html"
DROP = "/calculators/voltage-drop.html"
AMPS = "/calculators/expected-amps.html"

# The largest pair is 2-3, so pin 1 is common; 4.2 is the run winding and 13.8 the start winding: common practice.
THREE_PINS = {"r12": "4.2", "r23": "17.9", "r13": "13.8", "lead": "0"}


def state(page: Page):
    return page.locator("[data-part=state]")


def outcome(page: Page):
    return page.locator("[data-part=outcome]")


def field(page: Page, name: str):
    return page.locator(f"[data-field={name}]")


def type_in(page: Page, entries: dict[str, str]) -> None:
    for name, text in entries.items():
        page.locator(f"form [name={name}]").fill(text)


def expect_state(page: Page, name: str) -> None:
    expect(state(page)).to_have_attribute("data-state", name)


def entries_of(page: Page) -> dict[str, str]:
    return page.evaluate(
        """() => {
          const fields = [...document.querySelectorAll(".calculator-form [name]")];
          return Object.fromEntries(fields.map((field) => [field.name, field.value]));
        }"""
    )


def kill_python(page: Page) -> None:
    """End the worker from inside, which tells the page nothing, just as a crash of its process does."""
    (worker,) = [one for one in page.workers if "search" not in one.url]
    with page.expect_event("worker", timeout=20_000) as started_again:
        worker.evaluate("() => void setTimeout(() => self.close(), 0)")
        type_in(page, {"r12": "4.3"})
    assert started_again.value is not worker


def test_three_readings_name_the_pins(visit, address):
    page = visit(address + WINDINGS)
    type_in(page, THREE_PINS)
    expect_state(page, "answered")
    expect(outcome(page).locator(".finding .sentence").first).to_contain_text(
        "Pin 1 is common, pin 2 is run, pin 3 is start"
    )
    expect(outcome(page).locator("[data-result] .value").first).to_have_text("1")


def test_the_page_is_useful_while_python_starts(visit, served):
    page = visit(served + WINDINGS)
    assert "Python" in state(page).inner_text()
    assert "MB" in state(page).inner_text()
    type_in(page, THREE_PINS)
    expect(page.locator(".worked-example .sentence").first).to_be_attached()
    expect_state(page, "answered")
    assert entries_of(page) | THREE_PINS == entries_of(page)


def test_a_calculator_without_entries_says_what_it_still_needs(visit, served):
    page = visit(served + WINDINGS)
    expect_state(page, "waiting")
    expect(state(page)).to_contain_text("Still to enter: Reading 1–2; Reading 2–3; Reading 1–3")
    expect(page.locator(".field-problem:visible")).to_have_count(0)


# What is typed into Reading 1-2, and words of the one sentence that must come back.
REFUSED = {
    "letters": ("abc", "is not a number"),
    "two decimal marks": ("4.4.4", "two decimal marks"),
    "an ambiguous comma": ("1,234", "could be 1.234 or 1234"),
    "below zero": ("-3", "is below zero"),
    "far too large": ("9999", "outside what this check takes"),
    "volts for ohms": ("12 V", "is volts, but this field takes resistance"),
    "too many characters": ("4" * 50, "longer than 40 characters"),
    "markup": ("<img src=x onerror=alert(1)>", "is not a number"),
}


@pytest.fixture(scope="module")
def answered_page(browser, served):
    """One page with an answer on it, for the tests that only change one entry and mend it again."""
    context = browser.new_context(viewport={"width": 390, "height": 844}, service_workers="block")
    page = context.new_page()
    page.goto(served + WINDINGS)
    type_in(page, THREE_PINS)
    expect_state(page, "answered")
    yield page
    context.close()


@pytest.mark.parametrize("kind", REFUSED)
def test_a_bad_entry_gets_one_sentence_at_its_field_and_the_others_stay(answered_page, kind):
    page = answered_page
    text, words = REFUSED[kind]
    type_in(page, {"r12": text})
    expect_state(page, "problems")
    expect(page.locator(".field-problem:visible")).to_have_count(1)
    expect(field(page, "r12").locator(".field-problem")).to_contain_text(words)
    expect(field(page, "r12").locator(".field-problem")).to_contain_text("Reading 1–2")
    expect(page.locator("form [name=r12]")).to_have_attribute("aria-invalid", "true")
    expect(outcome(page)).to_be_empty()
    assert entries_of(page) | THREE_PINS | {"r12": text} == entries_of(page)
    type_in(page, THREE_PINS)
    expect_state(page, "answered")
    expect(page.locator(".field-problem:visible")).to_have_count(0)


def test_problems_leave_nothing_of_the_old_result_on_the_page(answered_page):
    page = answered_page
    type_in(page, {"r12": "abc"})
    page.wait_for_function("() => document.querySelector('[data-part=outcome]').childElementCount === 0", timeout=2000)
    type_in(page, THREE_PINS)
    expect_state(page, "answered")


def test_the_summary_of_problems_takes_the_focus_and_leads_to_the_fields(answered_page):
    page = answered_page
    type_in(page, {"r12": "abc", "r13": "-1"})
    page.get_by_role("button", name="Show the result").click()
    summary = page.locator("[data-part=problems]")
    expect(summary).to_be_focused()
    expect(summary.locator("li")).to_have_count(2)
    summary.locator("a").nth(1).click()
    expect(page.locator("form [name=r13]")).to_be_focused()
    type_in(page, THREE_PINS)
    expect_state(page, "answered")
    expect(summary).to_be_hidden()


def test_enter_goes_to_what_is_missing(visit, served):
    page = visit(served + WINDINGS)
    expect_state(page, "waiting")
    page.locator("form [name=r12]").fill("4.2")
    page.locator("form [name=r12]").press("Enter")
    expect(page.locator("form [name=r23]")).to_be_focused()
    expect(page.locator(".field-problem:visible")).to_have_count(0)


def test_asking_for_the_result_of_an_empty_form_names_every_missing_entry(visit, served):
    page = visit(served + WINDINGS)
    expect_state(page, "waiting")
    page.get_by_role("button", name="Show the result").click()
    expect(page.locator("[data-part=problems] li")).to_have_count(3)
    expect(field(page, "r23").locator(".field-problem")).to_contain_text("Reading 2–3 is missing")


def test_a_finer_meter_is_shown_in_its_one_line(visit, served):
    page = visit(served + WINDINGS)
    meter = page.locator("details[data-meter=ohmmeter]")
    expect(meter.locator("summary")).to_contain_text("±(0.5 % + 2 counts), resolution 0.1 Ω")
    meter.locator("summary").click()
    page.locator("form [name=ohmmeter_resolution]").fill("1")
    page.locator("form [name=ohmmeter_resolution__unit]").select_option("milliohm")
    expect(meter.locator("summary")).to_contain_text("resolution 1 mΩ")


def test_entries_come_back_as_they_were_typed_and_only_to_their_calculator(visit, address):
    page = visit(address + WINDINGS)
    type_in(page, THREE_PINS | {"r12": "4,2", "r13": "0.0138"})
    page.locator("form [name=r13__unit]").select_option("kilohm")
    expect_state(page, "answered")
    page.reload()
    expect(page.locator("form [name=r12]")).to_have_value("4,2")
    expect(page.locator("form [name=r13__unit]")).to_have_value("kilohm")
    expect(page.locator("[data-part=kept]")).to_contain_text("are back")
    expect_state(page, "answered")
    page.goto(address + DROP)
    expect(page.locator("[data-part=kept]")).to_be_hidden()
    assert page.locator("form [name=idle_volts]").input_value() == ""


def test_a_default_that_was_erased_and_a_unit_beside_an_empty_field_come_back_so(visit, served):
    page = visit(served + WINDINGS)
    page.locator("details[data-meter=ohmmeter] summary").click()
    type_in(page, {"ohmmeter_percent": ""})
    page.locator("form [name=r13__unit]").select_option("kilohm")
    page.reload()
    expect(page.locator("[data-part=kept]")).to_contain_text("are back")
    expect(page.locator("form [name=ohmmeter_percent]")).to_have_value("")
    expect(page.locator("form [name=r13__unit]")).to_have_value("kilohm")


def test_a_form_with_a_field_called_reset_is_cleared_too(visit, served):
    page = visit(f"{served}/calculators/overload-check.html")
    page.locator("details:has([name=reset]) > summary").first.click()
    page.locator("form [name=reset]").select_option(index=1)
    page.get_by_role("button", name="Clear all entries").click()
    expect(page.locator("form [name=reset]")).to_have_value("")


def test_cleared_entries_are_gone_and_can_be_brought_back(visit, served):
    page = visit(served + WINDINGS)
    type_in(page, THREE_PINS)
    expect_state(page, "answered")
    page.get_by_role("button", name="Clear all entries").click()
    expect_state(page, "waiting")
    assert page.locator("form [name=r12]").input_value() == ""
    expect(outcome(page)).to_be_empty()
    page.get_by_role("button", name="Bring the cleared entries back").click()
    expect_state(page, "answered")
    assert entries_of(page) | THREE_PINS == entries_of(page)
    page.get_by_role("button", name="Clear all entries").click()
    page.reload()
    expect_state(page, "waiting")
    assert page.locator("form [name=r12]").input_value() == ""


def test_a_browser_that_keeps_nothing_is_said_to_keep_nothing_and_computes(visit, served):
    page = visit(served + "/index.html")
    page.context.add_init_script(
        "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError') }"
    )
    page.goto(served + WINDINGS)
    type_in(page, THREE_PINS)
    expect_state(page, "answered")
    expect(page.locator("[data-part=kept]")).to_contain_text("gone when the page is closed")


def test_a_python_that_dies_is_started_again_with_the_entries_intact(visit, address):
    page = visit(address + WINDINGS, alone=True)
    type_in(page, THREE_PINS)
    expect_state(page, "answered")
    kill_python(page)
    expect(outcome(page)).to_be_empty()
    expect_state(page, "answered")
    expect(outcome(page).locator(".finding .sentence").first).to_contain_text("Pin 1 is common")
    assert entries_of(page) | THREE_PINS | {"r12": "4.3"} == entries_of(page)


def test_a_python_that_hangs_is_ended_and_started_again(visit, served):
    page = visit(served + WINDINGS, alone=True)
    type_in(page, THREE_PINS)
    expect_state(page, "answered")
    (worker,) = [one for one in page.workers if "/scripts/worker-" in one.url]
    with page.expect_event("worker", timeout=20_000):
        worker.evaluate("() => void setTimeout(() => { for (;;); }, 0)")
        type_in(page, {"r12": "4.3"})
    expect_state(page, "answered")


def test_a_python_that_cannot_start_says_why_and_starts_when_asked_again(visit, served, watch):
    page = visit("about:blank", alone=True)
    page.context.route("**/python-wasm-*.bin", lambda route: route.fulfill(status=404, body="gone"))
    page.goto(served + WINDINGS)
    type_in(page, THREE_PINS)
    expect_state(page, "failed")
    expect(state(page)).to_contain_text("could not be fetched (status 404)")
    expect(state(page)).to_contain_text("Your entries stay")
    assert entries_of(page) | THREE_PINS == entries_of(page)
    assert len(watch.starts) == 2, "from the snapshot, and then the ordinary way"
    watch.starts.clear()
    page.context.unroute("**/python-wasm-*.bin")
    page.get_by_role("button", name="Try again").click()
    expect_state(page, "answered")


@pytest.mark.parametrize("path", [WINDINGS, AMPS, DROP])
def test_a_worked_example_answers_in_the_page_as_it_stands_printed(visit, served, built_on, path):
    page = visit(served + "/index.html")
    page.clock.set_fixed_time(f"{built_on}T12:00:00")
    page.goto(served + path)
    expect_state(page, "waiting")
    examples = page.locator(".worked-example")
    assert examples.count() >= 3
    for number in range(examples.count()):
        example = examples.nth(number)
        page.get_by_role("button", name="Clear all entries").click()
        enter_example(example)
        expect_state(page, "answered")
        expect(outcome(page).locator(".outcome")).to_be_visible()
        printed = example.locator(".outcome").evaluate(TREE)
        live = outcome(page).locator(".outcome").evaluate(TREE)
        assert json.dumps(live, ensure_ascii=False) == json.dumps(printed, ensure_ascii=False)


def test_the_picture_is_drawn_in_the_page(visit, address):
    page = visit(address + WINDINGS)
    type_in(page, THREE_PINS)
    expect_state(page, "answered")
    drawing = outcome(page).locator("svg.drawing")
    assert drawing.evaluate("(svg) => svg.namespaceURI") == "http://www.w3.org/2000/svg"
    assert drawing.bounding_box()["height"] > 100


def test_on_paper_an_answer_stands_with_its_entries_and_the_books_own_examples_stay_away(visit, served):
    page = visit(served + WINDINGS)
    type_in(page, THREE_PINS)
    expect_state(page, "answered")
    page.emulate_media(media="print")
    page.evaluate("() => window.dispatchEvent(new Event('beforeprint'))")
    expect(page.locator("form [name=r23]")).to_be_visible()
    expect(outcome(page).locator(".limits-used li").first).to_be_visible()
    expect(page.locator("form [name=ohmmeter_percent]")).to_be_visible()
    expect(state(page)).to_contain_text("with handbook revision")
    expect(page.get_by_role("button", name="Show the result")).to_be_hidden()
    expect(page.locator(".worked-example").first).to_be_hidden()
    page.evaluate("() => window.dispatchEvent(new Event('afterprint'))")
    expect(page.locator("form [name=ohmmeter_percent]")).to_be_hidden()


def test_on_paper_a_page_without_an_answer_shows_its_worked_examples_unfolded(visit, served):
    page = visit(served + WINDINGS)
    expect_state(page, "waiting")
    page.emulate_media(media="print")
    page.evaluate("() => window.dispatchEvent(new Event('beforeprint'))")
    for sentence in page.locator(".worked-example .sentence").all():
        expect(sentence).to_be_visible()
