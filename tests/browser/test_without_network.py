"""What is saved and what is not, and the handbook opened from a stick: it works with the network off, and says how that stands."""

from __future__ import annotations

import re
import shutil

from playwright.sync_api import expect

from build_scripts.name_by_content import packed_file
from build_scripts.pack_runtime import DISK_FOLDER, RUNTIME_FOLDER
from build_scripts.precompress import ENDING
from tests.browser.renewing import listed_files
from tests.browser.winding_entries import WINDINGS, compute

# One bit of a file that is saved; what is said of the file stays, so that only a look at its content can tell.
DAMAGE = """async (name) => {
  const cache = await caches.open((await caches.keys()).find((one) => one.includes("precache")));
  const request = (await cache.keys()).find(({ url }) => url.includes(name));
  const response = await cache.match(request);
  const bytes = new Uint8Array(await response.arrayBuffer());
  bytes[bytes.length >> 1] ^= 1;
  await cache.put(request, new Response(bytes, { headers: response.headers }));
}"""


def test_everything_a_served_page_can_ask_for_is_saved(site):
    spare = {entry["url"] for entry in listed_files(site, "spare")}
    saved = {entry["url"] for entry in listed_files(site)} | spare
    beside = (file for file in (site / RUNTIME_FOLDER).iterdir() if file.is_file() and file.suffix != ENDING)
    runtime = {f"{RUNTIME_FOLDER}/{file.name}" for file in beside}
    pages = {file.relative_to(site).as_posix() for file in site.rglob("*.html")}
    assert len(runtime) == 4, "wasm, Pyodide's script, snapshot, library"
    assert runtime <= saved
    assert pages <= saved
    assert "search/search_index.json" in saved
    for path in ("scripts/worker.js", "scripts/page.js", "data/standards.json", "data/procedures.json"):
        assert packed_file(site, f"assets/{path}").relative_to(site).as_posix() in saved
    assert not [url for url in saved if url.startswith(DISK_FOLDER)]
    assert [re.sub(r"-[0-9a-f]{12}", "", url) for url in spare] == [f"{RUNTIME_FOLDER}/python-library.bin"]


def saved_in_the_browser(page) -> dict[str, list[str]]:
    """The file names in each cache of this site."""
    return page.evaluate(
        """async () => {
          const names = async (cache) => (await cache.keys()).map(({ url }) => new URL(url).pathname.split("/").pop());
          const caches_ = await Promise.all((await caches.keys()).map(async (name) => [name, await names(await caches.open(name))]));
          return Object.fromEntries(caches_);
        }"""
    )


def test_what_stands_in_is_saved_after_everything_else_and_counted_apart(visit, site, served):
    page = visit(f"{served}/index.html")
    library = next(file.name for file in (site / RUNTIME_FOLDER).glob("python-library-*.bin"))
    page.context.close()
    page = visit("about:blank", saving=True)
    held_back = []
    page.context.route(f"**/{library}", lambda route: held_back.append(route))
    page.goto(f"{served}/index.html")
    status = page.locator("[data-part=saved]")
    expect(status).to_contain_text("It works without network. What stands in")
    expect(status).to_contain_text("is not saved yet")
    assert library not in {name for names in saved_in_the_browser(page).values() for name in names}
    while not held_back:
        page.wait_for_timeout(50)
    held_back[0].continue_()
    expect(status).to_contain_text(re.compile(r"[0-9]\.[0-9] MB more stand in"))
    (spare,) = [names for cache, names in saved_in_the_browser(page).items() if "spare" in cache]
    assert spare == [library]


def test_without_network_python_starts_the_ordinary_way_when_the_saved_snapshot_is_damaged(visit, served, watch):
    page = visit(f"{served}/index.html", saving=True, alone=True)
    expect(page.locator("[data-part=saved]")).to_contain_text("more stand in")
    watch.starts.clear()
    page.evaluate(DAMAGE, "python-snapshot")
    page.context.set_offline(True)
    page.goto(f"{served}/{WINDINGS}")
    compute(page)
    given_up, started = watch.starts
    assert given_up.startswith("Python did not start from the snapshot of its memory")
    assert "a file of Python is damaged on this device" in given_up
    assert started.startswith("Python started the ordinary way")
    watch.starts.clear()
    assert set(watch.errors) <= {"Failed to load resource: net::ERR_INTERNET_DISCONNECTED"}, (
        "a look for a newer release"
    )
    watch.errors.clear()


def test_without_network_python_answers_nothing_when_the_saved_wasm_is_damaged(visit, served, watch):
    page = visit(f"{served}/index.html", saving=True, alone=True)
    expect(page.locator("[data-part=saved]")).to_contain_text("more stand in")
    page.evaluate(DAMAGE, "python-wasm")
    page.context.set_offline(True)
    page.goto(f"{served}/{WINDINGS}")
    expect(page.locator("[data-part=state]")).to_have_attribute("data-state", "failed")
    expect(page.locator("[data-part=state]")).to_contain_text("a file of Python is damaged on this device")
    watch.starts.clear()
    watch.errors.clear()


def test_a_spare_file_that_arrives_damaged_is_not_saved_and_the_rest_is(visit, site, serve_folder, tmp_path, watch):
    copy = tmp_path / "site"
    shutil.copytree(site, copy)
    (library,) = (copy / RUNTIME_FOLDER).glob("python-library-*.bin")
    library.write_bytes(library.read_bytes()[:-1] + b"?")
    with serve_folder(copy) as address:
        page = visit(f"{address}/index.html", saving=True)
        expect(page.locator("[data-part=saved]")).to_contain_text("is not saved yet")
        page.reload()
        expect(page.locator("[data-part=saved]")).to_contain_text("is not saved yet")
        assert library.name not in {name for names in saved_in_the_browser(page).values() for name in names}
        page.context.close()


def test_a_runtime_file_that_arrives_damaged_is_not_saved(visit, site, serve_folder, tmp_path, watch):
    copy = tmp_path / "site"
    shutil.copytree(site, copy)
    (snapshot,) = (copy / RUNTIME_FOLDER).glob("python-snapshot-*.bin")
    snapshot.write_bytes(snapshot.read_bytes()[:-1] + b"?")
    with serve_folder(copy) as address:
        page = visit(f"{address}/index.html", saving=True)
        status = page.locator("[data-part=saved]")
        expect(status).to_have_attribute("data-saved", "not-saved")
        expect(status).to_contain_text(f"{snapshot.name} did not arrive as it was published")
        page.context.close()
    assert len(watch.fallbacks) == 2, "Python, started ahead, could not use it either, and did not need to"
    watch.starts.clear()


def test_a_folder_with_a_space_and_a_foreign_letter_computes_from_disk(visit, site, tmp_path):
    copy = tmp_path / "Kühl geräte 2"
    shutil.copytree(site, copy)
    page = visit((copy / WINDINGS).as_uri(), offline=True)
    compute(page)
    expect(page.locator("[data-part=saved]")).to_contain_text("Opened from disk")


def test_search_finds_a_page_from_disk(visit, site):
    page = visit((site / "index.html").as_uri(), size="desktop", offline=True)
    query = page.locator("[data-md-component=search-query]")
    query.click()
    expect(page.locator(".md-search-result__meta")).to_contain_text("Type to start searching")
    query.press_sequentially("winding")
    found = page.locator(".md-search-result__item").first
    expect(found).to_contain_text("inding")
