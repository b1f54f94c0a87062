"""Python is ended, runs away or runs out of memory: the entries stay, an answer comes, and other tabs are not harmed."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import ALONE, Watch
from tests.browser.pythons import EATS_MEMORY, HANGS_WHERE_SHARED, RUNS_AWAY, SharedPythons, make_trouble, own_python

WINDINGS = "/calculators/winding-identification.html"
DIAGNOSTICS = "/reference/diagnostics.html"
THREE_PINS = {"r12": "4.2", "r23": "17.9", "r13": "13.8", "lead": "0"}


@pytest.fixture(scope="module")
def troubled(site: Path, serve_folder, tmp_path_factory) -> Iterator[str]:
    """The address of a site whose Python does what the entries in pythons.py say."""
    copy = tmp_path_factory.mktemp("troubled") / "site"
    shutil.copytree(site, copy)
    make_trouble(copy)
    with serve_folder(copy) as address:
        yield address


def state(page: Page):
    return page.locator("[data-part=state]")


def expect_state(page: Page, name: str) -> None:
    expect(state(page)).to_have_attribute("data-state", name)


def type_in(page: Page, text: str) -> None:
    page.locator("form [name=r12]").fill(text)


def answer(page: Page) -> None:
    for name, text in THREE_PINS.items():
        page.locator(f"form [name={name}]").fill(text)
    expect_answer_to(page, "4.2")


def expect_answer_to(page: Page, text: str) -> None:
    """The answer to what is in the form now, and everything else in it as it was typed."""
    expect_state(page, "answered")
    expect(page.locator("[data-part=outcome] .working")).to_contain_text(text)
    for name, typed in (THREE_PINS | {"r12": text}).items():
        expect(page.locator(f"form [name={name}]")).to_have_value(typed)


@dataclass(frozen=True)
class Seat:
    """A page with a Python of its own, and all that its diagnostics say."""

    page: Page
    watch: Watch


@pytest.fixture(scope="module")
def seat(browser, troubled) -> Iterator[Seat]:
    """One for several tests, each of which brings Python down and finds it answering again."""
    context = browser.new_context(viewport={"width": 390, "height": 844}, service_workers="block")
    context.add_init_script(ALONE)
    watch = Watch()
    watch.over(context)
    page = context.new_page()
    page.goto(troubled + WINDINGS)
    answer(page)
    yield Seat(page, watch)
    context.close()
    assert (watch.errors, watch.fallbacks, watch.elsewhere) == ([], [], [])


@contextmanager
def starts_again(seat: Seat, times: int) -> Iterator[None]:
    """Python starts so many times in here, each time from the snapshot and in a worker of this page's own."""
    before = len(seat.watch.starts)
    yield
    new = seat.watch.starts[before:]
    assert len(new) == times, new
    assert all(one.startswith("Python started from the snapshot of its memory in ") for one in new), new


def test_a_runaway_is_given_up_for_the_next_keystroke(seat):
    with starts_again(seat, 1):
        type_in(seat.page, RUNS_AWAY)
        type_in(seat.page, "4.3")
        expect_answer_to(seat.page, "4.3")


def test_a_runaway_that_nobody_overtakes_is_given_up_with_a_sentence(seat):
    page = seat.page
    with starts_again(seat, 1):
        type_in(page, RUNS_AWAY)
        expect_state(page, "broken")
        expect(state(page)).to_contain_text("stopped on these entries (it took too long)")
        expect(state(page)).to_contain_text("Your entries stay")
        expect(page.locator("[data-part=outcome]")).to_be_empty()
        expect(page.locator("form [name=r12]")).to_have_value(RUNS_AWAY)
        type_in(page, "4.4")
        expect_answer_to(page, "4.4")


def test_memory_that_is_not_there_is_said_and_the_next_entries_are_answered(seat):
    with starts_again(seat, 2):
        type_in(seat.page, EATS_MEMORY)
        expect_state(seat.page, "broken")
        expect(state(seat.page)).to_contain_text("stopped on these entries (it ran out of memory, twice)")
        expect(seat.page.locator("form [name=r12]")).to_have_value(EATS_MEMORY)
        type_in(seat.page, "4.5")
        expect_answer_to(seat.page, "4.5")


def test_other_tabs_keep_the_shared_python_that_one_tab_has_left(visit, troubled, browser, watch):
    one = visit(troubled + WINDINGS)
    answer(one)
    other = one.context.new_page()
    other.goto(troubled + WINDINGS)
    expect_answer_to(other, "4.2")
    type_in(one, RUNS_AWAY)
    expect_state(one, "broken")
    type_in(one, "4.3")
    expect_answer_to(one, "4.3")
    assert own_python(one)
    started = len(watch.starts)
    type_in(other, "4.4")
    expect_answer_to(other, "4.4")
    assert len(watch.starts) == started, "and has started none of its own"
    other.goto(troubled + DIAGNOSTICS)
    expect(other.locator("[data-module=diagnostics]")).to_have_attribute("data-python", "found")


def test_a_shared_python_that_the_browser_ends_while_it_works_is_replaced_in_every_tab(visit, troubled, browser):
    one = visit(troubled + WINDINGS)
    answer(one)
    other = one.context.new_page()
    other.goto(troubled + WINDINGS)
    expect_answer_to(other, "4.2")
    pythons = SharedPythons(browser, troubled)
    assert len(pythons.running()) == 1
    type_in(one, RUNS_AWAY)
    type_in(other, "4.4")
    pythons.end()
    type_in(one, "4.3")
    expect_answer_to(one, "4.3")
    expect_answer_to(other, "4.4")


# The shared worker holds its lock, so the page can know that it runs.
RUNS_SOMEWHERE = "async () => (await navigator.locks.query()).held.some(({ name }) => name.endsWith('hanging'))"
PATIENCE_FOR_A_GREETING = 5_000


def test_a_page_does_not_wait_for_a_shared_python_that_hangs(visit, site, serve_folder, tmp_path, watch):
    shutil.copytree(site, tmp_path / "site")
    make_trouble(tmp_path / "site", HANGS_WHERE_SHARED)
    with serve_folder(tmp_path / "site") as address:
        page = visit("about:blank")
        page.clock.install()
        page.goto(address + WINDINGS)
        expect_state(page, "starting")
        page.wait_for_function(RUNS_SOMEWHERE)
        page.clock.fast_forward(PATIENCE_FOR_A_GREETING)
        answer(page)
        assert own_python(page)
        left, started = watch.starts
        assert left.endswith("the worker that pages share does not answer.")
        assert started.startswith("Python started from the snapshot of its memory in ")
        watch.starts.clear()
        page.context.close()


# Stands before the worker's script: the first worker ends itself at the moment when it is asked for the fifth time.
ENDS_AT_WORK = """
let asked = 0;
self.addEventListener("message", (event) => {
  if (event.data.verb === "answer" && (asked += 1) === 5) { event.stopImmediatePropagation(); self.close(); }
});
"""


def test_a_python_that_is_ended_while_it_works_comes_back_and_answers(visit, served):
    page = visit("about:blank", alone=True)
    workers = []

    def with_an_end(route) -> None:
        workers.append(route.request.url)
        script = route.fetch().text()
        if len(workers) == 1:
            script = ENDS_AT_WORK + script
        route.fulfill(body=script, content_type="text/javascript")

    page.context.route("**/scripts/worker-*.js", with_an_end)
    page.goto(served + WINDINGS)
    answer(page)
    for text in ("4.3", "4.4", "4.5", "4.6", "4.7"):
        type_in(page, text)
        expect_answer_to(page, text)
    assert len(workers) == 2


def test_a_page_loaded_anew_while_python_starts_answers_all_the_same(visit, served):
    page = visit(served + WINDINGS, alone=True)
    for name, text in THREE_PINS.items():
        page.locator(f"form [name={name}]").fill(text)
    for _ in range(3):
        page.reload(wait_until="commit")
        page.locator("[data-part=state][data-state=starting]").wait_for()
    expect_answer_to(page, "4.2")
    expect(page.locator("[data-part=kept]")).to_contain_text("are back")


def test_a_page_loaded_anew_while_the_shared_python_starts_answers_all_the_same(visit, served, browser):
    page = visit(served + WINDINGS)
    for name, text in THREE_PINS.items():
        page.locator(f"form [name={name}]").fill(text)
    for _ in range(3):
        page.reload(wait_until="commit")
        page.locator("form [name=r12]").wait_for()
    expect_answer_to(page, "4.2")
    assert len(SharedPythons(browser, served).running()) == 1
