"""A device that damages, loses or refuses what it is to keep, whose clock is wrong, whose reader is in a hurry."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from playwright.sync_api import expect

from build_scripts.browser_setup import ARGUMENTS
from tests.browser.renewing import (
    RenewableHost,
    expect_saved,
    listed_files,
    make_next_release,
    revision_of,
    set_room,
    status,
    stop_the_service_worker,
)
from tests.browser.winding_entries import THREE_PINS, WINDINGS, compute, expect_answer

PROCEDURE = "procedures/windings-to-shell.html"
DAMAGE = """async (ending) => {
  const cache = await caches.open((await caches.keys()).find((name) => name.includes("precache")));
  const request = (await cache.keys()).find(({ url }) => new URL(url).pathname.match(ending));
  const response = await cache.match(request);
  const bytes = new Uint8Array(await response.arrayBuffer());
  bytes[bytes.length - 9] ^= 1;
  await cache.put(request, new Response(bytes, { headers: response.headers }));
}"""
LOSE = """async (ending) => {
  const cache = await caches.open((await caches.keys()).find((name) => name.includes("precache")));
  for (const request of await cache.keys()) {
    if (new URL(request.url).pathname.match(ending)) await cache.delete(request);
  }
}"""


def test_a_page_damaged_on_the_device_is_never_shown_and_is_fetched_again(saved_page, host: RenewableHost, watch):
    page = saved_page
    page.evaluate(DAMAGE, PROCEDURE)
    host.files_left = 0
    answer = page.goto(f"{host.address}/{PROCEDURE}")
    assert answer.status == 503
    expect(page.locator("h1")).to_have_text("This page is damaged on this device")
    page.goto(f"{host.address}/{WINDINGS}")
    compute(page)
    host.files_left = None
    assert page.goto(f"{host.address}/{PROCEDURE}").ok
    expect(page.locator("h1")).to_contain_text("Windings to shell")
    host.files_left = 0
    assert page.reload().ok, "it is on the device again"
    watch.errors.clear()


def test_a_damaged_file_that_python_starts_from_is_found_told_and_fetched_again(saved_page, host: RenewableHost, watch):
    page = saved_page
    page.evaluate(DAMAGE, "python-wasm-")
    host.files_left = 0
    stop_the_service_worker(page)
    page.reload()
    expect(status(page)).to_have_attribute("data-saved", "incomplete")
    expect(status(page)).to_contain_text(re.compile(r"1 of \d+ files are damaged\. They could not be fetched again"))
    host.files_left = None
    page.reload()
    expect(status(page)).to_have_attribute("data-saved", "saved")
    expect(status(page)).to_contain_text("1 file was gone or damaged on this device and fetched again")
    expect(status(page)).to_contain_text("Load this page anew before you rely on a number that it has shown")
    host.files_left = 0
    page.goto(f"{host.address}/{WINDINGS}")
    compute(page)
    watch.errors.clear()


def test_files_gone_from_the_device_are_told_and_fetched_again(saved_page, host: RenewableHost, watch):
    page = saved_page
    page.evaluate(LOSE, r"/procedures/.*\.html$")
    host.files_left = 0
    page.reload()
    gone = len([file for file in listed_files(host.folder) if re.match(r"procedures/.*\.html$", file["url"])])
    expect(status(page)).to_have_attribute("data-saved", "incomplete")
    expect(status(page)).to_contain_text(
        f"Not whole on this device: of revision {revision_of(host.folder)}, {gone} of "
    )
    expect(status(page)).to_contain_text("Open this page again while the network is there.")
    host.files_left = None
    page.reload()
    expect(status(page)).to_contain_text(f"{gone} files were gone or damaged on this device and fetched again.")
    expect(status(page)).not_to_contain_text("before you rely")
    host.files_left = 0
    assert page.goto(f"{host.address}/{PROCEDURE}").ok
    watch.errors.clear()


def test_a_copy_that_the_browser_has_removed_is_told_and_saved_again(saved_page, host: RenewableHost, watch):
    page = saved_page
    page.evaluate("async () => { for (const name of await caches.keys()) await caches.delete(name); }")
    stop_the_service_worker(page)
    # The page itself still comes from the host, and then nothing more.
    pages = {"/index.html", *(f"/{file['url']}" for file in listed_files(host.folder) if "assets/" in file["url"])}
    host.before = lambda path: setattr(host, "files_left", None if path in pages and "runtime" not in path else 0)
    page.reload()
    expect(status(page)).to_have_attribute("data-saved", "incomplete")
    expect(status(page)).to_contain_text("could not be fetched again")
    host.before = None
    host.files_left = None
    page.reload()
    expect(status(page)).to_have_attribute("data-saved", "saved")
    expect(status(page)).to_contain_text("more stand in")
    host.files_left = 0
    page.goto(f"{host.address}/{WINDINGS}")
    compute(page)
    watch.errors.clear()


def test_a_full_device_is_told_and_the_next_visit_saves_when_there_is_room(visit, host: RenewableHost, watch):
    page = visit("about:blank", saving=True)
    set_room(page, host, 2_000_000)
    page.goto(f"{host.address}/{WINDINGS}")
    expect(status(page)).to_have_attribute("data-saved", "not-saved")
    expect(status(page)).to_contain_text("there is no room left for it on this device. Free some room, then open")
    compute(page)
    left = page.evaluate(
        """async () => {
          const caches_ = (await caches.keys()).filter((name) => name.includes("precache"));
          return (await Promise.all(caches_.map(async (name) => (await (await caches.open(name)).keys()).length)));
        }"""
    )
    assert left in ([], [0]), "what had arrived of it makes room again"
    set_room(page, host, None)
    page.reload()
    expect(status(page)).to_have_attribute("data-saved", "saved")
    watch.errors.clear()


def test_a_device_too_full_for_a_newer_revision_keeps_the_old_one_whole(
    saved_page, site, host: RenewableHost, tmp_path, watch
):
    page = saved_page
    # What the service worker knows of the one in use is gone, and must not take its files with it.
    page.evaluate("async () => caches.delete((await caches.keys()).find((name) => name.includes('notes')))")
    page.reload()
    expect_saved(page, revision_of(site))
    host.folder = make_next_release(site, tmp_path / "next", "0.2.0+next")
    set_room(page, host, int(page.evaluate("async () => (await navigator.storage.estimate()).usage")) + 300_000)
    page.reload()
    expect(status(page)).to_have_attribute("data-newer", "not-saved")
    expect(status(page)).to_contain_text(
        "A newer revision, 0.2.0+next, could not be saved: there is no room left for it"
    )
    expect(status(page)).to_contain_text("This one stays as it is, whole.")
    host.files_left = 0
    page.goto(f"{host.address}/{WINDINGS}")
    compute(page)
    expect_saved(page, revision_of(site))
    watch.errors.clear()


def launch_refusing_storage(playwright, program: str, profile: Path):
    """A browser told to let no site keep anything, as many shops' and all private windows are in one way or another."""
    (profile / "Default").mkdir(parents=True)
    refused = {"profile": {"default_content_setting_values": {"cookies": 2}}}
    (profile / "Default" / "Preferences").write_text(json.dumps(refused), encoding="utf-8")
    return playwright.chromium.launch_persistent_context(
        str(profile), executable_path=program, args=list(ARGUMENTS), viewport={"width": 390, "height": 844}
    )


def test_where_the_browser_refuses_all_storage_the_page_computes_searches_and_says_so(
    playwright, program, site, served, tmp_path
):
    errors: list[str] = []
    context = launch_refusing_storage(playwright, program, tmp_path / "profile")
    page = context.new_page()
    page.on("pageerror", lambda error: errors.append(str(error)))
    for address in (served, site.as_uri()):
        page.goto(f"{address}/{WINDINGS}")
        refused = page.evaluate("() => { try { return String(localStorage); } catch (why) { return why.name; } }")
        assert refused == "SecurityError"
        compute(page)
        expect(page.locator("[data-part=kept]")).to_contain_text("This browser lets no page keep anything")
        words = "lets nothing be saved on this device" if address == served else "Opened from disk"
        expect(status(page)).to_contain_text(words)
        page.locator("label.md-header__button[for=__search]").click()
        page.locator("[data-md-component=search-query]").press_sequentially("winding")
        expect(page.locator(".md-search-result__item").first).to_contain_text("inding")
        page.goto(f"{address}/{PROCEDURE}")
        page.locator(".tick input").first.check()
        expect(page.locator(".ticked").first).to_be_visible()
    context.close()
    assert errors == []


GARBAGE = ["", "{", "null", "5", '"x"', "[]", '{"saved":"x","fields":null}', '{"saved":5,"fields":{}}',
           '{"saved":"x","fields":{"r12":5}}', '{"saved":"x","fields":{"r12":{"text":7,"unit":null}}}',
           '{"index":77,"color":5}', '{"index":"x","color":{"scheme":{}}}',
           '{"saved":"1970-13-77","fields":{"nobody":{"text":"4","unit":"furlong"},"r12":{"text":"4.2","unit":"furlong"}}}']  # fmt: skip


def test_garbage_in_what_the_browser_keeps_breaks_nothing(visit, address):
    page = visit(f"{address}/{WINDINGS}")
    for position, text in enumerate(GARBAGE):
        page.evaluate(
            """(text) => {
              const pages = ["winding-identification", "next-check"];
              for (const slug of pages) {
                localStorage.setItem(`threepin.entries.${slug}`, text);
                localStorage.setItem(`threepin.beginning.${slug}`, text);
              }
              localStorage.setItem(`${__md_scope.pathname}.__palette`, text);
              localStorage.setItem("threepin.no-install-hint", text);
            }""",
            text,
        )
        page.reload()
        if position in (0, len(GARBAGE) - 1):
            compute(page)
        else:
            page.locator("form [name=r12]").fill("4.2")
            expect(page.locator("form [name=r12]")).to_have_value("4.2")
            expect(page.locator("[data-part=state]")).not_to_have_attribute("data-state", "broken")


def test_a_clock_that_is_years_behind_is_told_and_the_page_computes_with_the_limits_of_the_building(
    visit, address, built_on
):
    page = visit("about:blank")
    page.clock.set_fixed_time("1998-03-02T10:00:00")
    page.goto(f"{address}/{WINDINGS}")
    note = page.locator(".past-review")
    expect(note).to_contain_text(
        f"The date on this device is wrong. It says 1998-03-02, and this handbook was built on {built_on}"
    )
    compute(page)
    expect(page.locator("[data-part=state]")).to_contain_text(f"Worked out on {built_on}")
    page.goto(f"{address}/{PROCEDURE}")
    expect(note).to_contain_text(re.compile(r"whether it is past its review date \(20\d\d-\d\d-\d\d\)"))


def test_a_clock_that_is_years_ahead_shows_the_review_date_and_the_page_computes(visit, address):
    page = visit("about:blank")
    page.clock.set_fixed_time("2061-03-02T10:00:00")
    page.goto(f"{address}/{PROCEDURE}")
    expect(page.locator(".past-review")).to_contain_text(
        "This page is past its review date. It was to be read again by 20"
    )
    page.goto(f"{address}/{WINDINGS}")
    compute(page)
    expect(page.locator("[data-part=state]")).to_contain_text("Worked out on 2061-03-02")


@pytest.mark.parametrize("year", [1998, 2061])
def test_every_file_is_read_back_again_after_a_day_by_a_clock_that_is_right_or_wrong(saved_page, year):
    """A page never visited is damaged, and found before anybody needs it: a clock set back does not put that off."""
    page = saved_page
    page.evaluate(DAMAGE, PROCEDURE)
    page.reload()
    expect(status(page)).to_have_attribute("data-saved", "saved")
    assert page.locator("[data-part=mended]").count() == 0, "read back a moment ago, so not again"
    page.evaluate(
        """async (year) => {
          const notes = await caches.open((await caches.keys()).find((name) => name.includes("notes")));
          const request = (await notes.keys()).find(({ url }) => url.includes("read%20back"));
          const note = await (await notes.match(request)).json();
          await notes.put(request, Response.json({ ...note, when: Date.UTC(year, 5) }));
        }""",
        year,
    )
    page.reload()
    expect(page.locator("[data-part=mended]")).to_contain_text("1 file was gone or damaged on this device and fetched")
    expect(status(page)).to_have_attribute("data-saved", "saved")


def test_a_page_loaded_anew_while_python_starts_keeps_what_was_typed_and_computes(visit, address):
    page = visit(f"{address}/{WINDINGS}")
    for name, text in THREE_PINS.items():
        page.locator(f"form [name={name}]").fill(text)
        page.reload(wait_until="commit")
        page.wait_for_load_state("domcontentloaded")
    expect_answer(page)


def test_back_and_forth_brings_entries_and_answer_back(visit, address):
    page = visit(f"{address}/{WINDINGS}")
    compute(page)
    page.locator("[data-part=outcome] .next a").first.click()
    expect(page).to_have_url(re.compile("/procedures/"))
    for _ in range(2):
        page.go_back()
        expect_answer(page)
        page.go_forward()
        expect(page.locator("h1")).to_contain_text("Windings to shell")
        expect(page.locator("[data-calculator=winding-identification]")).to_have_count(0)
