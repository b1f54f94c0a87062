"""Python starts from the snapshot; when that cannot be, the ordinary way; and the diagnostics page says which and why."""

from __future__ import annotations

import shutil

import pytest
from playwright.sync_api import Page, expect

from build_scripts.pack_runtime import DISK_FOLDER

WINDINGS = "/calculators/winding-identification.html"
DIAGNOSTICS = "/reference/diagnostics.html"
THREE_PINS = {"r12": "4.2", "r23": "17.9", "r13": "13.8", "lead": "0"}
SNAPSHOT_FILE = "**/python-snapshot-*.bin"


def compute(page: Page) -> None:
    for name, text in THREE_PINS.items():
        page.locator(f"form [name={name}]").fill(text)
    expect(page.locator("[data-part=state]")).to_have_attribute("data-state", "answered")
    expect(page.locator("[data-part=outcome] .sentence").first).to_contain_text("Pin 1 is common")


def diagnostics(page: Page):
    return page.locator("[data-module=diagnostics]")


def expect_fallback(page: Page, watch, why: str) -> None:
    """On a diagnostics page: the snapshot was given up for a reason, and Python runs the ordinary way."""
    expect(diagnostics(page)).to_have_attribute("data-boot", "ordinary")
    starts = diagnostics(page).locator("[data-start]")
    expect(starts).to_have_count(2)
    expect(starts.nth(0)).to_have_attribute("data-ended", "failed")
    expect(starts.nth(0)).to_contain_text(why)
    expect(starts.nth(1)).to_contain_text("started the ordinary way, from its library")
    watch.starts.clear()


def test_the_diagnostics_page_says_how_python_started_with_every_phase_and_version(visit, address, watch):
    page = visit(address + DIAGNOSTICS)
    expect(diagnostics(page)).to_have_attribute("data-boot", "snapshot")
    expect(diagnostics(page)).to_have_attribute("data-python", "fresh")
    expect(diagnostics(page)).to_have_attribute("data-worker", "own" if address.startswith("file:") else "shared")
    expect(diagnostics(page).locator("[data-start]")).to_have_count(1)
    names = [one.get_attribute("data-phase") for one in diagnostics(page).locator("[data-phase]").all()]
    assert names == ["read", "loaded", "instantiated", "restored", "ready"]
    for version in ("314.0.7", "3.14.2", "Chrome/"):
        expect(diagnostics(page)).to_contain_text(version)
    expect(page.locator("[data-part=saved] p")).to_have_count(1)
    assert len(watch.starts) == 1


def test_without_network_from_disk_python_starts_from_the_snapshot(visit, site):
    page = visit(site.as_uri() + DIAGNOSTICS, offline=True)
    expect(diagnostics(page)).to_have_attribute("data-boot", "snapshot")
    expect(diagnostics(page)).to_contain_text("from disk")


def damaged(content: bytes) -> bytes:
    half = len(content) // 2
    return content[:half] + bytes([content[half] ^ 1]) + content[half + 1 :]


@pytest.mark.parametrize("damage", [damaged, lambda content: content[:-9], lambda _: b""], ids=["bit", "end", "all"])
def test_a_damaged_snapshot_falls_back_to_the_ordinary_way(damage, visit, served, site, watch):
    (file,) = (site / "assets" / "runtime").glob("python-snapshot-*.bin")
    page = visit("about:blank", alone=True)
    page.context.route(SNAPSHOT_FILE, lambda route: route.fulfill(body=damage(file.read_bytes())))
    page.goto(served + WINDINGS)
    compute(page)
    page.goto(served + DIAGNOSTICS)
    expect_fallback(page, watch, "it was given up after")


def test_from_disk_a_damaged_snapshot_falls_back_to_the_ordinary_way(visit, site, tmp_path, watch):
    copy = tmp_path / "site"
    shutil.copytree(site, copy)
    file = copy / DISK_FOLDER / "snapshot.js"
    text = file.read_text(encoding="utf-8")
    half = len(text) // 2
    file.write_text(text[:half] + ("A" if text[half] != "A" else "B") + text[half + 1 :], encoding="utf-8")
    page = visit(copy.as_uri() + WINDINGS)
    compute(page)
    page.goto(copy.as_uri() + DIAGNOSTICS)
    expect_fallback(page, watch, "it was given up after")


def test_a_snapshot_that_is_not_there_falls_back_and_says_so(visit, served, watch):
    page = visit("about:blank", alone=True)
    page.context.route(SNAPSHOT_FILE, lambda route: route.fulfill(status=404, body="gone"))
    page.goto(served + DIAGNOSTICS)
    expect_fallback(page, watch, "could not be fetched (status 404)")


def test_from_disk_a_snapshot_that_is_not_there_falls_back_and_says_so(visit, site, tmp_path, watch):
    copy = tmp_path / "site"
    shutil.copytree(site, copy)
    (copy / DISK_FOLDER / "snapshot.js").unlink()
    page = visit(copy.as_uri() + DIAGNOSTICS)
    expect_fallback(page, watch, "the file assets/runtime/disk/snapshot.js is missing from this folder")
    watch.errors.clear()


# Stands in the worker's place: all files have come, and then a start from the snapshot hangs.
HANGS = """
if (self.name === "snapshot") { self.postMessage({ kind: "loaded" }); for (;;); }
importScripts(self.location.href + "?itself");
"""


def test_a_snapshot_that_never_gets_ready_is_given_up_after_ten_seconds(visit, served, watch):
    page = visit("about:blank", alone=True)
    page.context.route(
        "**/scripts/worker-*.js", lambda route: route.fulfill(body=HANGS, content_type="text/javascript")
    )
    page.clock.install()
    page.goto(served + WINDINGS)
    state = page.locator("[data-part=state]")
    expect(state).to_contain_text("Python is starting")
    page.wait_for_timeout(1000)
    page.clock.fast_forward(8_000)
    expect(state).to_contain_text("Python is starting")
    assert watch.starts == []
    page.clock.fast_forward(2_000)
    expect(state).not_to_contain_text("Python is starting")
    compute(page)
    given_up, started = watch.starts
    assert given_up.endswith("it did not get ready in time.")
    assert started.startswith("Python started the ordinary way")
    watch.starts.clear()


def test_while_it_falls_back_the_page_says_what_it_is_doing(visit, served, watch):
    page = visit("about:blank", alone=True)
    page.context.route(SNAPSHOT_FILE, lambda route: route.fulfill(status=404, body="gone"))
    page.context.route("**/python-library-*.bin", lambda route: None)
    page.goto(served + WINDINGS)
    expect(page.locator("[data-part=state]")).to_contain_text("The quick start of Python did not work here")
    watch.starts.clear()


def test_a_python_that_dies_after_a_fallback_comes_back_the_ordinary_way(visit, served, watch):
    page = visit("about:blank", alone=True)
    page.context.route(SNAPSHOT_FILE, lambda route: route.fulfill(status=404, body="gone"))
    page.goto(served + WINDINGS)
    compute(page)
    (worker,) = [one for one in page.workers if "search" not in one.url]
    with page.expect_event("worker", timeout=20_000):
        worker.evaluate("() => void setTimeout(() => self.close(), 0)")
        page.locator("form [name=r12]").fill("4.3")
    expect(page.locator("[data-part=state]")).to_have_attribute("data-state", "answered")
    assert [start.split(";")[0].split(" in ")[0] for start in watch.starts[1:]] == [
        "Python started the ordinary way, from its library",
        "Python started the ordinary way, from its library",
    ]
    watch.starts.clear()
