"""Tabs and pages of one revision share a Python where the browser has a worker that outlives a page."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from build_scripts.browser_setup import ARGUMENTS
from build_scripts.name_by_content import content_digest, packed_file
from tests.browser.pythons import SharedPythons

WINDINGS = "/calculators/winding-identification.html"
DIAGNOSTICS = "/reference/diagnostics.html"
THREE_PINS = {"r12": "4.2", "r23": "17.9", "r13": "13.8", "lead": "0"}


def expect_python(page: Page, came: str, worker: str) -> None:
    """On a diagnostics page: kept, found or fresh, in the shared worker or in the tab's own, from the snapshot."""
    told = page.locator("[data-module=diagnostics]")
    expect(told).to_have_attribute("data-python", came)
    expect(told).to_have_attribute("data-worker", worker)
    expect(told).to_have_attribute("data-boot", "snapshot")


def state(page: Page):
    return page.locator("[data-part=state]")


def answer(page: Page) -> None:
    for name, text in THREE_PINS.items():
        page.locator(f"form [name={name}]").fill(text)
    expect(state(page)).to_have_attribute("data-state", "answered")


def test_a_page_loaded_anew_and_a_new_tab_find_python_running(visit, served, browser, watch):
    page = visit(served + DIAGNOSTICS)
    expect_python(page, "fresh", "shared")
    page.reload()
    expect_python(page, "found", "shared")
    tab = page.context.new_page()
    tab.goto(served + DIAGNOSTICS)
    expect_python(tab, "found", "shared")
    expect(tab.locator("[data-module=diagnostics]")).to_contain_text(
        "a shared worker, which every tab of this handbook uses"
    )
    assert len(SharedPythons(browser, served).running()) == 1
    first, *later = watch.starts
    assert "was found there" not in first
    assert [("for an earlier page" in one, "was found there" in one) for one in later] == [(True, True)] * 2


def test_a_browser_whose_workers_end_with_their_page_says_so_and_starts_python_again(visit, served, browser):
    page = visit(served + DIAGNOSTICS, alone=True)
    expect_python(page, "fresh", "own")
    expect(page.locator("[data-module=diagnostics]")).to_contain_text("ends when the page is loaded anew")
    page.reload()
    expect_python(page, "fresh", "own")
    assert SharedPythons(browser, served).running() == []


def renew(site: Path, revision: str) -> None:
    """What a later build would put in the place of this copy: other standards, and so another worker and other pages."""
    standards = packed_file(site, "assets/data/standards.json")
    data = json.loads(standards.read_text(encoding="utf-8")) | {"revision": revision}
    changed = [(standards, json.dumps(data, ensure_ascii=False, sort_keys=True))]
    for script in ("worker", "page"):
        file = packed_file(site, f"assets/scripts/{script}.js")
        before, text = changed[-1]
        named = re.sub(rf"\b{re.escape(before.name)}", renamed(before, text), file.read_text(encoding="utf-8"))
        changed.append((file, named))
    for file, text in changed:
        (file.parent / renamed(file, text)).write_text(text, encoding="utf-8")
        file.unlink()
    for page in site.rglob("*.html"):
        html = page.read_text(encoding="utf-8")
        for before, text in changed:  # The script in the head names the worker.
            html = html.replace(before.name, renamed(before, text))
        page.write_text(html, encoding="utf-8")


def renamed(file: Path, text: str) -> str:
    return re.sub(r"-[0-9a-f]{12}\.", f"-{content_digest(text.encode())}.", file.name)


def test_two_tabs_on_two_revisions_never_share_a_python(visit, site, serve_folder, tmp_path, browser):
    shutil.copytree(site, tmp_path / "site")
    with serve_folder(tmp_path / "site") as address:
        old = visit(address + WINDINGS)
        answer(old)
        revision = re.search(r"revision (\S+)\.", state(old).inner_text())[1]
        renew(tmp_path / "site", "of-tomorrow")
        new = old.context.new_page()
        new.goto(address + WINDINGS)
        expect(state(new)).to_contain_text("with handbook revision of-tomorrow.")
        old.locator("form [name=r12]").fill("4.3")
        expect(old.locator("[data-part=outcome] .working")).to_contain_text("4.3")
        expect(state(old)).to_contain_text(f"with handbook revision {revision}.")
        assert len(set(SharedPythons(browser, address).running())) == 2
        old.context.close()


@pytest.fixture(scope="module")
def browser_that_goes_back(playwright, program) -> Iterator[Browser]:
    """A browser that keeps a page as it was behind its back button, as those of readers do; the driver's own does not."""
    kept = ["--disable-back-forward-cache"]
    launched = playwright.chromium.launch(executable_path=program, args=list(ARGUMENTS), ignore_default_args=kept)
    yield launched
    launched.close()


@pytest.fixture
def context(browser_that_goes_back) -> Iterator[BrowserContext]:
    made = browser_that_goes_back.new_context(viewport={"width": 390, "height": 844}, service_workers="block")
    yield made
    made.close()


@pytest.mark.parametrize("shared", [True, False], ids=["the shared worker", "a worker of its own"])
def test_behind_the_back_button_entries_answer_and_python_are_there(context, browser_that_goes_back, served, shared):
    if not shared:
        context.add_init_script("delete window.SharedWorker")
    page = context.new_page()
    page.goto(served + WINDINGS)
    answer(page)
    # A page that is left while a worker of it, search's too, is only starting is not kept by the browser.
    expect(page.locator(".md-search-result__meta")).not_to_contain_text("Initializing")
    page.evaluate("() => { window.isTheSamePage = true; }")
    page.goto(f"{served}/manifest.webmanifest")
    if shared:
        SharedPythons(browser_that_goes_back, served).end()
    page.go_back(wait_until="commit")
    why = "JSON.stringify(performance.getEntriesByType('navigation')[0].notRestoredReasons)"
    assert page.evaluate("() => window.isTheSamePage"), page.evaluate(why)
    expect(state(page)).to_have_attribute("data-state", "answered")
    expect(page.locator("[data-part=outcome] .sentence").first).to_contain_text("Pin 1 is common")
    page.locator("form [name=r12]").fill("4.3")
    expect(page.locator("[data-part=outcome] .working")).to_contain_text("4.3")
    for name, text in (THREE_PINS | {"r12": "4.3"}).items():
        expect(page.locator(f"form [name={name}]")).to_have_value(text)


# While the page stands still behind the back button, another day begins.
ANOTHER_DAY = """() => window.addEventListener("pagehide", () => {
  window.Date = class extends Date {
    constructor(...given) {
      if (given.length) super(...given);
      else super("2030-01-02T00:01:00");
    }
  };
})"""


def test_an_answer_of_yesterday_behind_the_back_button_is_worked_out_for_today(context, served):
    page = context.new_page()
    page.goto(served + WINDINGS)
    answer(page)
    expect(state(page)).not_to_contain_text("Worked out on 2030")
    page.evaluate(ANOTHER_DAY)
    page.goto(f"{served}/manifest.webmanifest")
    page.go_back(wait_until="commit")
    expect(state(page)).to_contain_text("Worked out on 2030-01-02")
