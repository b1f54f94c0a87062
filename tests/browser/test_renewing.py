"""A handbook that is renewed: the newer one comes whole or not at all, waits to be taken, and pages of two never mix."""

from __future__ import annotations

import random
import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.renewing import (
    LOOK_FOR_NEWER,
    RenewableHost,
    expect_release,
    expect_saved,
    listed_files,
    make_next_release,
    renewable,
    revision_of,
    status,
    stop_the_service_worker,
)
from tests.browser.winding_entries import WINDINGS, compute, expect_answer

NEXT = "0.2.0+next"
# The addresses whose content is not what their release lists, as the page gets them.
OTHER_CONTENT = """async ({ files, root }) => {
  const wrong = [];
  for (const { url, revision, ...listed } of files) {
    const response = await fetch(new URL(url, root), { cache: "no-store" });
    const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", await response.arrayBuffer()));
    const digits = [...digest].map((byte) => byte.toString(16).padStart(2, "0")).join("");
    const integrity = listed.kept ?? listed.integrity; // On the device a packed file lies unpacked.
    const is = integrity ? integrity === `sha256-${btoa(String.fromCharCode(...digest))}` : digits.startsWith(revision);
    if (!is) wrong.push(url);
  }
  return wrong;
}"""


@pytest.fixture(scope="session")
def newer(site, tmp_path_factory):
    """The release that follows the built one."""
    return make_next_release(site, tmp_path_factory.mktemp("next") / "site", NEXT)


@pytest.fixture
def own_host(site):
    """A host that nobody has visited: another test's browser may still look for a newer release at its own."""
    with renewable(site) as host:
        yield host


def other_content(page: Page, host: RenewableHost, files: list[dict[str, str]]) -> list[str]:
    """The files that the page does not get as they are listed."""
    wrong: list[str] = page.evaluate(OTHER_CONTENT, {"files": files, "root": f"{host.address}/"})
    return wrong


def test_a_download_cut_off_at_any_file_leaves_the_old_handbook_whole(
    site, newer, host: RenewableHost, saved_page, watch, long_run, seed
):
    old = listed_files(site)
    arriving = [entry for entry in listed_files(newer) if entry not in old]
    boundaries = range(len(arriving))
    chance = random.Random(seed)
    if not long_run:
        boundaries = sorted({0, len(arriving) - 1, *chance.sample(boundaries, 3)})
    host.folder = newer
    host.handed_out.clear()
    for boundary in boundaries:
        # What an earlier attempt has brought is not asked for again, so these are the files up to the boundary.
        host.files_left = boundary - len(host.handed_out)
        host.refusal = chance.choice(["closed", "error", "half"])
        assert saved_page.evaluate(LOOK_FOR_NEWER) == "redundant"
        assert len(host.handed_out) == len(set(host.handed_out)) == boundary
        host.files_left = 0
        assert other_content(saved_page, host, old) == [], f"after {boundary} files and {host.refusal}"
        expect(status(saved_page)).to_contain_text(f"A newer revision, {NEXT}, could not be saved")
    assert saved_page.goto(f"{host.address}/{WINDINGS}").ok
    compute(saved_page)
    expect_release(saved_page, revision_of(site))
    expect_saved(saved_page, revision_of(site))
    host.files_left = None
    assert saved_page.evaluate(LOOK_FOR_NEWER) == "installed"
    assert other_content(saved_page, host, old) == [], "the newer one waits"
    saved_page.goto(f"{host.address}/index.html")
    status(saved_page).get_by_role("button", name="Use the newer one now").click()
    expect_release(saved_page, NEXT)
    host.files_left = 0
    assert other_content(saved_page, host, listed_files(newer)) == []
    watch.errors.clear()  # each cut is written into the console


def test_a_host_renewed_in_the_middle_of_the_download_is_not_saved_half_and_half(newer, own_host, visit, watch):
    """The list is of one release, and from some file on the host hands out another."""

    host = own_host

    def renew(path: str) -> None:
        if path.endswith("/procedures/index.html"):
            host.folder = newer

    host.before = renew
    page = visit(f"{host.address}/index.html", saving=True)
    expect(status(page)).to_have_attribute("data-saved", "not-saved")
    expect(status(page)).to_contain_text("did not arrive as it was published. Perhaps the handbook is being renewed")
    host.before = None
    page.goto(f"{host.address}/index.html")
    expect(status(page)).to_have_attribute("data-saved", "saved")
    expect_release(page, NEXT)
    assert other_content(page, host, listed_files(newer)) == []
    watch.errors.clear()


def test_a_page_with_entries_is_loaded_anew_only_after_a_yes_and_they_are_back(newer, host, saved_page):
    page = saved_page
    page.goto(f"{host.address}/{WINDINGS}")
    compute(page)
    page.evaluate("() => { window.thisDocument = true; }")
    host.folder = newer
    assert page.evaluate(LOOK_FOR_NEWER) == "installed"
    status(page).get_by_role("button", name="Use the newer one now").click()
    expect(status(page)).to_contain_text("They are kept on this device, and are back when it has loaded anew")
    expect(status(page).get_by_role("button", name="Load it anew now")).to_be_focused()
    status(page).get_by_role("button", name="Not yet").click()
    expect(status(page).get_by_role("button")).to_have_count(1)
    assert page.evaluate("() => window.thisDocument") is True
    status(page).get_by_role("button", name="Use the newer one now").click()
    status(page).get_by_role("button", name="Load it anew now").click()
    expect_release(page, NEXT)
    expect_saved(page, NEXT)
    expect_answer(page)


def test_entries_that_the_browser_does_not_keep_are_called_lost_before_the_page_is_loaded_anew(newer, host, saved_page):
    page = saved_page
    page.add_init_script("Storage.prototype.setItem = () => { throw new DOMException('no', 'QuotaExceededError'); };")
    page.goto(f"{host.address}/{WINDINGS}")
    page.evaluate("() => localStorage.clear()")
    compute(page)
    host.folder = newer
    assert page.evaluate(LOOK_FOR_NEWER) == "installed"
    status(page).get_by_role("button", name="Use the newer one now").click()
    expect(status(page)).to_contain_text("this browser keeps nothing: they will be gone")
    expect(status(page).get_by_role("button", name="Load it anew all the same")).to_be_focused()


def test_two_tabs_stay_each_on_its_own_revision_and_the_older_is_told(site, newer, host, saved_page):
    older, first = saved_page, revision_of(site)
    newer_tab = older.context.new_page()
    newer_tab.goto(f"{host.address}/index.html")
    host.folder = newer
    assert newer_tab.evaluate(LOOK_FOR_NEWER) == "installed"
    status(newer_tab).get_by_role("button", name="Use the newer one now").click()
    expect_release(newer_tab, NEXT)
    expect(status(older)).to_have_attribute("data-standing", "older")
    expect(status(older)).to_contain_text(
        f"This page is of revision {first}, and on this device {NEXT} is in use by now"
    )
    host.files_left = 0  # from here on both live from the device

    # A link in the older one, without a full load: its own revision, and a Python that starts only now computes there.
    older.evaluate("() => { window.thisDocument = true; }")
    older.locator(f"article a[href$='{WINDINGS.split('/')[-1]}'], article a[href$='next-check.html']").first.click()
    expect(older).to_have_url(re.compile("calculators/"))
    expect_release(older, first)
    expect(older.locator("[data-part=state]")).to_have_attribute("data-state", re.compile("answered|waiting"))
    assert older.evaluate("() => window.thisDocument") is True
    assert (
        older.evaluate(
            "async () => (await (await fetch('../procedures/index.html')).text()).match(/data-release=.([^ ]+)/)[1]"
        )
        == first
    )
    newer_tab.goto(f"{host.address}/{WINDINGS}")
    expect_release(newer_tab, NEXT)
    compute(newer_tab)

    # The service worker is stopped and begun again, and still knows which is which.
    stop_the_service_worker(newer_tab)
    found = "async () => (await (await fetch('../procedures/index.html')).text()).match(/data-release=.([^ ]+)/)[1]"
    assert older.evaluate(found) == first
    assert newer_tab.evaluate(found) == NEXT

    status(older).get_by_role("button", name="Load this page anew").click()
    if older.locator("[data-part=question]").count():
        status(older).get_by_role("button", name="Load it anew now").click()
    expect_release(older, NEXT)
    expect_saved(older, NEXT)
    expect(status(older)).to_have_attribute("data-standing", "current")
    kept = older.evaluate(
        """async () => {
          const keys = [];
          for (const name of await caches.keys()) {
            if (name.includes("precache")) keys.push(...await (await caches.open(name)).keys());
          }
          return keys.length;
        }"""
    )
    assert kept == len(listed_files(newer)), "the older revision is let go of with its last page"


def test_a_page_that_came_from_the_network_as_another_revision_is_told_and_never_mixed(
    site, newer, own_host, visit, watch
):
    host = own_host

    def renew(path: str) -> None:
        if path == "/service-worker.js":
            host.folder = newer

    host.before = renew
    page = visit(f"{host.address}/index.html", saving=True)
    expect_release(page, revision_of(site))
    expect(status(page)).to_have_attribute("data-standing", "elsewhere")
    expect(status(page)).to_contain_text("Load it anew before you go on")
    page.locator("article a[href*='safety-first']").first.click()
    expect_release(page, NEXT)
    expect(status(page)).to_have_attribute("data-saved", "saved")
    expect(status(page)).to_have_attribute("data-standing", "current")
    expect(page.locator("[data-part=revision]")).to_contain_text(NEXT)
    watch.errors.clear()


def test_a_page_whose_python_is_gone_from_a_renewed_host_is_told_to_be_loaded_anew(
    site, own_host, visit, watch, tmp_path
):
    """Where nothing is saved on the device."""
    newer_without = make_next_release(site, tmp_path / "next", NEXT)
    (script,) = newer_without.glob("assets/scripts/worker-*.js")
    script.unlink()

    def renew(path: str) -> None:
        if path == f"/assets/scripts/{script.name}":
            own_host.folder = newer_without

    own_host.before = renew
    page = visit(f"{own_host.address}/{WINDINGS}")
    state = page.locator("[data-part=state]")
    expect(state).to_have_attribute("data-state", "failed")
    expect(state).to_contain_text(
        "renewed at its address after this page was opened, so load this page anew to compute"
    )
    own_host.hand_out_all(site)
    state.get_by_role("button", name="Try again").click()
    compute(page)
    expect(state).not_to_contain_text("renewed")
    watch.errors.clear()
    watch.starts.clear()


def test_a_booklet_is_not_put_together_from_pages_of_two_revisions(newer, own_host, visit):
    page = visit(f"{own_host.address}/reference/booklet.html")
    page.locator("input[value='procedures/make-safe-prove-dead.html']").check()
    own_host.folder = newer
    page.get_by_role("button", name="Put the booklet together").click()
    expect(page.locator(".booklet-state")).to_contain_text("the handbook was renewed meanwhile: load this page anew")
    assert page.locator(".booklet-page").count() == 0
