"""axe finds nothing to mend on any kind of page, in both colour schemes, on phone and desktop; targets fit a glove."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

AXE = (Path(__file__).resolve().parents[2] / "node_modules" / "axe-core" / "axe.min.js").read_text(encoding="utf-8")
THREE_PINS = {"r12": "4.2", "r23": "17.9", "r13": "13.8", "lead": "0"}
WINDINGS = "/calculators/winding-identification.html"
PAGES = (
    "/index.html",
    "/procedures/index.html",
    "/procedures/make-safe-prove-dead.html",
    "/procedures/running-amps.html",
    "/calculators/expected-amps.html",
    "/calculators/voltage-drop.html",
    "/calculators/next-check.html",
    "/reference/decision-map.html",
    "/reference/limits.html",
    "/reference/booklet.html",
    "/reference/discharge-times.html",
)


def violations(page: Page) -> list[str]:
    page.evaluate(AXE)
    found = page.evaluate("() => axe.run({ resultTypes: ['violations'] })")["violations"]
    return [f"{one['id']}: {node['html'][:200]} {node['failureSummary']}" for one in found for node in one["nodes"]]


def unfold(page: Page) -> None:
    page.evaluate(
        """() => {
          for (const folded of document.querySelectorAll("article details")) folded.open = true;
          for (const tick of document.querySelectorAll(".tick input")) tick.click();
        }"""
    )


@pytest.fixture(scope="session")
def looked_at(site: Path, seed: int, long_run: bool) -> list[str]:
    """A page of each kind and some drawn by the seed; with --long, every page."""
    # The page for what is not there comes with that status, which the watch rightly hears as an error.
    every = sorted(f"/{file.relative_to(site).as_posix()}" for file in site.rglob("*.html") if file.name != "404.html")
    if long_run:
        return every
    return [*PAGES, *random.Random(seed).sample(sorted(set(every) - set(PAGES)), 3)]


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", ["phone", "desktop"])
def test_axe_finds_nothing_to_mend(visit, served, size, scheme, looked_at):
    page = visit(served + PAGES[0], size=size, scheme=scheme)
    for path in looked_at:
        page.goto(served + path)
        expect(page.locator("[data-part=saved] p")).to_have_count(1)
        unfold(page)
        assert violations(page) == [], path


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_to_mend_in_an_answer_and_in_problems(visit, served, scheme):
    page = visit(served + WINDINGS, scheme=scheme)
    for name, text in THREE_PINS.items():
        page.locator(f"form [name={name}]").fill(text)
    state = page.locator("[data-part=state]")
    expect(state).to_have_attribute("data-state", "answered")
    unfold(page)
    assert violations(page) == []
    page.locator("form [name=r12]").fill("abc")
    expect(state).to_have_attribute("data-state", "problems")
    assert violations(page) == []


@pytest.mark.parametrize("path", [WINDINGS, "/procedures/make-safe-prove-dead.html"])
def test_what_is_tapped_fits_a_glove(visit, served, path):
    page = visit(served + path)
    page.set_viewport_size({"width": 360, "height": 740})
    expect(page.locator("[data-part=saved] p")).to_have_count(1)
    unfold(page)
    low = page.evaluate(
        """() => [...document.querySelectorAll("article input, article select, article button, article summary, .tick")]
          .map((one) => one.type === "checkbox" ? one.closest("label") : one)
          .filter((one) => one.checkVisibility())
          .filter((one) => one.getBoundingClientRect().height < 44)
          .map((one) => one.outerHTML.slice(0, 120))"""
    )
    assert low == []
    assert page.evaluate("() => document.documentElement.scrollWidth") <= 360


def test_every_verdict_has_a_word_and_a_shape_of_its_own(visit, served):
    page = visit(served + WINDINGS)
    shapes = page.evaluate(
        """() => ["within", "watch", "outside", "undecided"].map((verdict) => {
          const item = document.createElement("li");
          item.dataset.verdict = verdict;
          item.innerHTML = '<span class="verdict-mark"></span>';
          document.querySelector("article").append(item);
          return getComputedStyle(item.firstChild).maskImage;
        })"""
    )
    assert len(set(shapes)) == 4
    assert all("svg" in shape for shape in shapes)
    for finding in page.locator(".worked-example .finding").all():
        word = finding.locator(".verdict strong").first.text_content()
        assert word.lower() == finding.get_attribute("data-verdict")
