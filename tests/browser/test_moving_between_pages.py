"""Over http one Python serves the whole visit; from disk each page starts its own."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import expect

WINDINGS = "/calculators/winding-identification.html"
THREE_PINS = {"r12": "4.2", "r23": "17.9", "r13": "13.8", "lead": "0"}


def pythons(page) -> list:
    return [worker for worker in page.workers if "search" not in worker.url]


def answer(page) -> None:
    for name, text in THREE_PINS.items():
        page.locator(f"form [name={name}]").fill(text)
    expect(page.locator("[data-part=state]")).to_have_attribute("data-state", "answered")


def test_a_link_keeps_python_alive(visit, served):
    page = visit(served + WINDINGS, alone=True)
    answer(page)
    (python,) = pythons(page)
    page.evaluate("() => { window.thisDocument = true; }")
    page.locator("[data-part=outcome] .next a").first.click()
    expect(page).to_have_url(re.compile("/procedures/"))
    page.go_back()
    expect(page).to_have_url(re.compile("winding-identification"))
    expect(page.locator("[data-part=state]")).to_have_attribute("data-state", "answered")
    assert page.evaluate("() => window.thisDocument") is True
    assert pythons(page) == [python]


def test_links_open_without_a_full_load_below_a_folder_too(visit, site, serve_folder, tmp_path):
    (tmp_path / "shop").symlink_to(site, target_is_directory=True)
    with serve_folder(tmp_path) as address:
        page = visit(f"{address}/shop{WINDINGS}")
        answer(page)
        page.evaluate("() => { window.thisDocument = true; }")
        page.locator("[data-part=outcome] .next a").first.click()
        expect(page).to_have_url(re.compile("/shop/procedures/"))
        expect(page.locator("h1")).to_contain_text("Windings")
        assert page.evaluate("() => window.thisDocument") is True
        page.context.close()


def test_from_disk_a_link_is_followed_and_the_theme_still_works(visit, site):
    page = visit(site.as_uri() + WINDINGS)
    answer(page)
    page.locator("[data-part=outcome] .next a").first.click()
    expect(page.locator("h1")).to_contain_text("Windings")
    assert page.evaluate("() => new Promise((seen) => window.document$.subscribe(() => seen(true)))") is True
    page.go_back()
    expect(page.locator("[data-part=state]")).to_have_attribute("data-state", "answered")


def open_through_a_link(page, path: str) -> None:
    """Follow a link, as the theme does it: without loading the page in full."""
    page.evaluate("() => { window.thisDocument = true; }")
    page.evaluate(
        """(href) => {
          const link = Object.assign(document.createElement("a"), { href, textContent: "there", id: "there" });
          document.querySelector("article").append(link);
        }""",
        path,
    )
    page.locator("#there").click()
    expect(page).to_have_url(re.compile(re.escape(path)))
    assert page.evaluate("() => window.thisDocument") is True


def test_python_starts_on_an_idle_page_and_is_kept_for_the_next_one(visit, served, watch):
    page = visit(f"{served}/index.html", alone=True)
    with page.expect_console_message(lambda said: said.text.startswith("Python started")):
        pass
    open_through_a_link(page, f"{served}/reference/diagnostics.html")
    expect(page.locator("[data-module=diagnostics]")).to_have_attribute("data-python", "kept")
    assert len(watch.starts) == 1


LOOKED_AT = """() => {
  delete document.visibilityState;
  document.dispatchEvent(new Event("visibilitychange"));
}"""


@pytest.mark.parametrize(
    "unwanted",
    [
        "Object.defineProperty(navigator, 'connection', { value: { saveData: true } })",
        "Object.defineProperty(document, 'visibilityState', { value: 'hidden', configurable: true })",
    ],
    ids=["data is to be saved", "page in the background"],
)
def test_python_does_not_start_ahead_where_nobody_wants_it_yet(visit, served, unwanted):
    page = visit("about:blank", alone=True)
    page.add_init_script(unwanted)
    page.goto(f"{served}/index.html")
    expect(page.locator("[data-part=saved] p")).to_have_count(1)
    page.evaluate("() => new Promise((idle) => requestIdleCallback(() => setTimeout(idle, 500)))")
    assert pythons(page) == []
    if "visibilityState" in unwanted:
        with page.expect_console_message(lambda said: said.text.startswith("Python started from the snapshot")):
            page.evaluate(LOOKED_AT)
    else:
        page.goto(served + WINDINGS)
        answer(page)


def test_from_disk_a_page_without_a_calculator_starts_no_python(visit, site):
    page = visit((site / "index.html").as_uri())
    expect(page.locator("[data-part=saved]")).to_contain_text("Opened from disk")
    assert pythons(page) == []
