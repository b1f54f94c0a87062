"""On a page with a calculator Python is on its way before the page's own script, and search does not get in its way."""

from __future__ import annotations

import shutil

from playwright.sync_api import Page, expect

from build_scripts.name_by_content import packed_file
from tests.browser.winding_entries import WINDINGS, compute

INDEX = "/search/search_index.json"


def workers_of(page: Page) -> list[str]:
    return [worker.url for worker in page.workers if "/worker-" in worker.url or worker.url.startswith("blob:")]


def test_python_is_asked_for_while_the_pages_own_script_is_still_awaited(visit, served):
    page = visit("about:blank", alone=True)
    held = []
    page.route("**/scripts/page-*.js", lambda route: held.append(route))
    page.goto(f"{served}/{WINDINGS}", wait_until="commit")
    while not held or not workers_of(page):
        page.wait_for_timeout(50)
    assert page.evaluate("Boolean(window.threepinOpenedAhead)")
    held[0].continue_()
    compute(page)
    assert len(workers_of(page)) == 1  # The page went on with the one that was on its way.
    assert not page.evaluate("Boolean(window.threepinOpenedAhead)")


def test_from_disk_the_worker_is_there_without_the_pages_own_script(visit, site, tmp_path, watch):
    copy = tmp_path / "site"
    shutil.copytree(site, copy)
    packed_file(copy, "assets/scripts/page.js").unlink()
    page = visit(f"{copy.as_uri()}/{WINDINGS}")
    while not workers_of(page):
        page.wait_for_timeout(50)
    watch.errors.clear()  # The missing script.


def test_from_disk_the_page_goes_on_with_the_worker_that_was_on_its_way(visit, site):
    page = visit("about:blank")
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url.rpartition("/")[2]))
    page.goto(f"{site.as_uri()}/{WINDINGS}")
    compute(page)
    assert [asked.count(name) for name in ("wasm.js", "snapshot.js", "data.js", "worker.js")] == [1, 1, 1, 1]
    assert len(workers_of(page)) == 1


def test_a_page_without_a_calculator_asks_for_python_only_when_it_stands(visit, served):
    page = visit("about:blank", alone=True)
    page.route("**/scripts/page-*.js", lambda route: None)
    page.goto(served + "/safety/safety-first.html", wait_until="commit")
    expect(page.locator("h1")).to_be_visible()
    assert page.evaluate("window.threepinOpenedAhead === undefined")
    assert workers_of(page) == []


def test_search_is_made_ready_once_python_is_up(visit, served):
    page = visit("about:blank", alone=True)
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    held = []
    page.context.route("**/python-wasm-*.bin", lambda route: held.append(route))
    page.goto(f"{served}/{WINDINGS}")
    expect(page.locator("[data-part=state]")).to_contain_text("Python is starting")
    while not held:
        page.wait_for_timeout(50)
    assert not any(url.endswith(INDEX) for url in asked)
    with page.expect_request(f"**{INDEX}"):
        held[0].continue_()
    expect(page.locator("[data-part=state]")).not_to_contain_text("Python is starting")


def test_somebody_who_turns_to_the_search_does_not_wait_for_python(visit, served):
    page = visit("about:blank", alone=True)
    held = []
    page.context.route("**/python-wasm-*.bin", lambda route: held.append(route))
    page.goto(f"{served}/{WINDINGS}")
    page.locator("label.md-header__button[for=__search]").click()
    page.locator("[data-md-component=search-query]").press_sequentially("capacitor")
    expect(page.locator(".md-search-result__item a").first).to_be_visible()
    expect(page.locator("[data-part=state]")).to_contain_text("Python is starting")
    held[0].continue_()


def test_a_page_without_a_calculator_makes_search_ready_at_once(visit, served):
    page = visit("about:blank", alone=True)
    page.context.route("**/python-wasm-*.bin", lambda route: None)
    with page.expect_request(f"**{INDEX}"):
        page.goto(served + "/safety/safety-first.html")
