"""Over http one Python serves the whole visit; from disk each page starts its own."""

from __future__ import annotations

import re

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
    page = visit(served + WINDINGS)
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


def test_a_page_without_a_calculator_starts_no_python(visit, served):
    page = visit(f"{served}/index.html")
    expect(page.locator("[data-part=saved] p")).to_have_count(1)
    assert pythons(page) == []
