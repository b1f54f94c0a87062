"""One visit by somebody new, and what is left of it: progress, installing, no other host, and then no network at all."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Page, Playwright, expect

from build_scripts.browser_setup import ARGUMENTS
from tests.browser.renewing import expect_saved, revision_of, status
from tests.browser.winding_entries import WINDINGS, compute, expect_answer

ELSEWHERE = "http://elsewhere.invalid/"
# Everything that the page has ever said of its saved copy.
LISTEN = """
window.said = [];
new MutationObserver(() => {
  for (const place of document.querySelectorAll("[data-part=saved], [data-part=saved-short]")) {
    window.said.push(place.textContent);
  }
}).observe(document, { subtree: true, childList: true, characterData: true });
"""


def asked_by_pages(log: Path) -> list[str]:
    """What pages, scripts and workers have asked for, by the browser's own log of the network.

    The browser asks hosts of its own makers too, for lists and updates; those requests name no page that began them.
    """
    noted = json.loads(log.read_text(encoding="utf-8"))
    begins = noted["constants"]["logEventTypes"]["URL_REQUEST_START_JOB"]
    requests = [event["params"] for event in noted["events"] if event["type"] == begins and "params" in event]
    return [request["url"] for request in requests if request.get("initiator", "").startswith("http")]


@dataclass
class FirstVisit:
    """What was seen, and the browser's folder to go on with."""

    address: str
    profile: Path
    said: list[str]
    missing_for_installing: list[Any]
    icons: list[dict[str, str]]
    offer: str
    asked: list[str]
    errors: list[str]


def launch(playwright: Playwright, program: str, profile: Path, *arguments: str) -> BrowserContext:
    return playwright.chromium.launch_persistent_context(
        str(profile), executable_path=program, args=[*ARGUMENTS, *arguments], viewport={"width": 390, "height": 844}
    )


def go_round(page: Page, address: str) -> None:
    """A page of each kind, search, paper and an answer; but never the winding identification."""
    page.locator("article a[data-begin]").first.click()
    expect(page.locator("[data-part=outcome] > *").first).to_be_visible()
    page.locator("label.md-header__button[for=__search]").click()
    page.locator("[data-md-component=search-query]").press_sequentially("capacitor")
    page.locator(".md-search-result__item a").first.click()
    for path in ("procedures/supply-check.html", "reference/limits.html", "reference/diagnostics.html", "404.html"):
        page.goto(f"{address}/{path}")
        expect(page.locator("h1")).to_be_visible()
    page.goto(f"{address}/procedures/bench-start.html")
    page.locator(".tick input").first.check()
    page.emulate_media(media="print")
    page.pdf()
    page.emulate_media(media="screen")


@pytest.fixture(scope="module")
def first_visit(playwright, program, site, serve_folder, tmp_path_factory) -> FirstVisit:
    """The visit; afterwards the host is gone and the browser is closed."""
    folder = tmp_path_factory.mktemp("first")
    profile, log = folder / "profile", folder / "network.json"
    errors: list[str] = []
    with serve_folder(site) as address:
        context = launch(playwright, program, profile, f"--log-net-log={log}")
        context.add_init_script(LISTEN)
        page = context.new_page()
        page.on("pageerror", lambda error: errors.append(str(error)))
        page.goto(f"{address}/index.html")
        expect_saved(page, revision_of(site))
        said = page.evaluate("() => window.said")
        offer = status(page).locator("[data-part=install]")
        expect(offer).to_be_visible()
        devtools = context.new_cdp_session(page)
        missing = devtools.send("Page.getInstallabilityErrors")["installabilityErrors"]
        icons = devtools.send("Page.getAppManifest")["manifest"]["icons"]
        words = offer.inner_text()
        go_round(page, address)
        with page.expect_event("requestfailed", lambda request: request.url == ELSEWHERE):
            page.evaluate("(elsewhere) => { location.href = elsewhere; }", ELSEWHERE)
        context.close()
    return FirstVisit(address, profile, said, missing, icons, words, asked_by_pages(log), errors)


def test_the_first_visit_shows_how_far_the_saving_is_and_then_how_much_is_saved(first_visit, site):
    said = " | ".join(first_visit.said)
    assert re.search(r"Saving on this device for use without network:\s+\d+ of \d+ files", said)
    counts = [int(count) for count in re.findall(r"Saving on this device: (\d+) of", said)]
    assert counts == sorted(counts)
    assert len(set(counts)) > 5
    revision = re.escape(revision_of(site))
    assert re.search(rf"Saved on this device: \d+\.\d MB, revision {revision}\. It works without network\.", said)
    assert said.index("Saving on") < said.index("Saved on")
    assert first_visit.errors == []


def test_the_browser_lacks_nothing_for_installing_and_the_page_offers_it(first_visit):
    assert first_visit.missing_for_installing == []
    assert {"192x192", "512x512"} <= {size for icon in first_visit.icons for size in icon["sizes"].split()}
    assert "The handbook can be installed on this device" in first_visit.offer


def test_a_whole_visit_asks_no_other_host(first_visit):
    elsewhere = [url for url in first_visit.asked if not url.startswith(f"{first_visit.address}/")]
    assert set(elsewhere) == {ELSEWHERE}, "where the page was told to go at the end, so that what is asked is seen"
    assert f"{first_visit.address}/service-worker.js" in first_visit.asked


def test_after_one_visit_pages_never_seen_compute_without_network(first_visit, playwright, program, site):
    """The host is stopped and the browser was closed: another process on the same profile, and pages not visited before."""
    context = launch(playwright, program, first_visit.profile)
    page = context.new_page()
    errors = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.goto(f"{first_visit.address}/{WINDINGS}")
    compute(page)
    expect_saved(page, revision_of(site))
    page.evaluate("() => { window.thisDocument = true; }")
    page.locator("[data-part=outcome] .next a").first.click()
    expect(page.locator("h1")).to_contain_text("Windings to shell")
    assert page.evaluate("() => window.thisDocument") is True, "one Python for the whole visit, without network too"
    page.go_back()
    expect_answer(page)
    page.locator("label.md-header__button[for=__search]").click()
    page.locator("[data-md-component=search-query]").press_sequentially("overload")
    expect(page.locator(".md-search-result__item").first).to_contain_text("verload")
    page.goto(f"{first_visit.address}/reference/diagnostics.html")
    expect(page.locator("[data-module=diagnostics]")).to_have_attribute("data-boot", "snapshot")
    page.goto(f"{first_visit.address}/")
    expect(page.locator("h1")).to_be_visible()
    context.close()
    assert errors == []


OFFER = """() => {
  const event = new Event("beforeinstallprompt", { cancelable: true });
  event.prompt = async () => { window.prompted = (window.prompted ?? 0) + 1; };
  window.dispatchEvent(event);
  return event.defaultPrevented;
}"""


def test_the_offer_to_install_stands_aside_and_ends_with_the_first_answer(saved_page):
    page = saved_page
    offer = page.locator("[data-part=install]")
    assert offer.count() == 0, "only where the browser offers it"
    assert page.evaluate(OFFER) is True
    expect(offer).to_have_count(1)
    assert page.evaluate("() => getComputedStyle(document.querySelector('[data-part=saved]')).position") == "static"
    offer.get_by_role("button", name="Install it").click()
    assert page.evaluate("() => window.prompted") == 1
    expect(offer).to_have_count(0)
    page.evaluate(OFFER)
    offer.get_by_role("button", name="No, thanks").click()
    expect(offer).to_have_count(0)
    page.reload()
    expect(status(page)).to_have_attribute("data-saved", "saved")
    page.evaluate(OFFER)
    expect(status(page).locator("p").first).to_be_visible()
    assert offer.count() == 0, "never again on this device"
    page.evaluate("() => localStorage.clear()")


@pytest.mark.parametrize(
    ("promised", "words"),
    [(True, "The browser keeps it until you remove it."), (False, "When room runs short the browser may remove it")],
)
def test_the_browser_is_asked_to_keep_what_is_saved_and_its_answer_is_told(saved_page, promised, words):
    page = saved_page
    page.add_init_script(
        f"""
        StorageManager.prototype.persisted = async () => false;
        StorageManager.prototype.persist = async () => {{ window.asked = (window.asked ?? 0) + 1; return {str(promised).lower()}; }};
        """
    )
    page.reload()
    expect(status(page)).to_contain_text(words)
    assert page.evaluate("() => window.asked") == 1
