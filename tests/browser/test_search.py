"""Search finds what people on the job type, in the served site and in the one opened from disk."""

from __future__ import annotations

import io
import re
from pathlib import Path
from urllib.parse import urlsplit

import pytest
import yaml
from playwright.sync_api import Page, expect
from pypdf import PdfReader

QUERIES = Path(__file__).resolve().parents[1] / "handbook" / "queries.yaml"
FIRST = 3

# The whole address of each page found, best first; the theme lists sections of a page below the page itself.
PAGES_FOUND = """
    () => [...document.querySelectorAll(".md-search-result__item > a")].map((link) => new URL(link.href).pathname)
"""


def search(page: Page, typed: str) -> list[str]:
    """Type into search, wait for the answer, and say which pages came up, best first."""
    field = page.locator("[data-md-component=search-query]")
    meta = page.locator(".md-search-result__meta")
    field.fill("")
    field.press("Backspace")
    expect(meta).to_have_text("Type to start searching")
    field.fill(typed[:-1])
    field.press(typed[-1])
    expect(meta).not_to_have_text("Type to start searching")
    _until_it_rests(page)
    return list(dict.fromkeys(page.evaluate(PAGES_FOUND)))


def _until_it_rests(page: Page) -> None:
    """The theme adds to its list bit by bit; all of it is there when it has stopped changing."""
    before: list[str] | None = None
    for _ in range(40):
        page.wait_for_timeout(60)
        now = page.evaluate(PAGES_FOUND)
        if now == before:
            return
        before = now
    raise AssertionError("search never came to rest")


def words_of(file: Path) -> str:
    """What a page says, without the digits that stand in its markup."""
    return re.sub(r"<[^>]*>", " ", file.read_text(encoding="utf-8")).casefold()


@pytest.fixture
def searching(visit, address) -> Page:
    page = visit(f"{address}/index.html", size="desktop")
    page.locator("[data-md-component=search-query]").click()
    expect(page.locator(".md-search-result__meta")).to_have_text("Type to start searching")
    return page


def test_what_people_type_brings_up_the_page_they_need(searching):
    missed = {}
    for typed, wanted in yaml.safe_load(QUERIES.read_text(encoding="utf-8")).items():
        found = search(searching, str(typed))
        if not any(path.endswith(f"/{wanted}.html") for path in found[:FIRST]):
            missed[typed] = (wanted, found[:FIRST])
    said = [f"{typed}: wanted {wanted}, found {found}" for typed, (wanted, found) in missed.items()]
    assert not missed, "\n".join(said)


def test_on_a_phone_the_search_opens_by_its_button_and_the_page_is_one_tap_away(visit, address):
    page = visit(f"{address}/index.html", size="phone")
    page.locator("label.md-header__button[for=__search]").click()
    expect(page.locator(".md-search-result__meta")).to_have_text("Type to start searching")
    assert any(path.endswith("/procedures/windings-to-shell.html") for path in search(page, "ohms to ground")[:FIRST])
    found = page.locator(".md-search-result__item > a").first
    box = found.bounding_box()
    assert box is not None
    assert box["height"] >= 44
    assert box["x"] >= 0
    assert box["x"] + box["width"] <= 390
    found.click()
    expect(page.locator("main h1")).to_contain_text("Windings to shell")


def test_a_page_that_was_searched_for_folds_its_steps_and_names_its_sheets_as_any_other(visit, address):
    page = visit(f"{address}/index.html", size="desktop")
    page.locator("[data-md-component=search-query]").click()
    expect(page.locator(".md-search-result__meta")).to_have_text("Type to start searching")
    assert search(page, "proving unit proves the tester prove dead")
    page.locator(".md-search-result__item > a[href*=make-safe-prove-dead]").first.click()
    expect(page.locator("main h1")).to_contain_text("Make safe and prove dead")
    expect(page.locator("main li.step").last).to_be_hidden()
    sheets = PdfReader(io.BytesIO(page.pdf()))
    assert all("Make safe and prove dead" in sheet.extract_text() for sheet in sheets.pages)


def test_there_are_enough_queries_to_mean_something():
    assert len(yaml.safe_load(QUERIES.read_text(encoding="utf-8"))) >= 60


@pytest.mark.parametrize(
    ("typed", "wanted"),
    [
        pytest.param("1.15", "reference/limits", id="a decimal"),
        pytest.param("1910.333", "reference/sources", id="a clause of a rule"),
        pytest.param("R600a", "procedures/flammable-refrigerant-precautions", id="a code"),
        pytest.param("1/6", "reference/general-motor-full-load", id="a fraction"),
    ],
)
def test_numbers_and_codes_are_looked_for_whole(searching, site, address, typed, wanted):
    found = [path.split(f"{urlsplit(address).path}/", 1)[-1].lstrip("/") for path in search(searching, typed)]
    assert f"{wanted}.html" in found
    assert [path for path in found if typed.casefold() not in words_of(site / path)] == []


@pytest.mark.parametrize(
    ("typed", "wanted"),
    [
        pytest.param("R-600a", "procedures/flammable-refrigerant-precautions", id="a code with a hyphen"),
        pytest.param("start-device", "index", id="written apart in the page"),
        pytest.param("hard wired", "procedures/make-safe-prove-dead", id="written with a hyphen in the page"),
    ],
)
def test_a_hyphen_more_or_less_finds_the_same(searching, typed, wanted):
    assert any(path.endswith(f"/{wanted}.html") for path in search(searching, typed))


def test_what_is_not_in_the_handbook_is_said_not_to_be(searching):
    assert search(searching, "zzyzx") == []
    expect(searching.locator(".md-search-result__meta")).to_have_text("No matching documents")
