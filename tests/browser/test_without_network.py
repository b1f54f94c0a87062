"""Saved after one visit, and opened from a stick: the handbook works with the network off, and says how that stands."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path

from playwright.sync_api import expect

from build_scripts.browser_setup import ARGUMENTS
from build_scripts.name_by_content import packed_file
from build_scripts.pack_runtime import DISK_FOLDER, RUNTIME_FOLDER
from build_scripts.precache import PLACEHOLDER, SERVICE_WORKER, list_entries, service_worker
from build_scripts.precompress import ENDING

ROOT = Path(__file__).resolve().parents[2]
PHONE = {"width": 390, "height": 844}
WINDINGS = "calculators/winding-identification.html"
THREE_PINS = {"r12": "4.2", "r23": "17.9", "r13": "13.8", "lead": "0"}


def compute(page) -> None:
    for name, text in THREE_PINS.items():
        page.locator(f"form [name={name}]").fill(text)
    expect(page.locator("[data-part=state]")).to_have_attribute("data-state", "answered")
    expect(page.locator("[data-part=outcome] .sentence").first).to_contain_text("Pin 1 is common")


def saved_files(site: Path, which: str = "files") -> list[dict[str, str]]:
    script = (site / SERVICE_WORKER).read_text(encoding="utf-8").split("\n", 1)[0]
    release = json.loads(script.removeprefix(f"const {PLACEHOLDER}=").removesuffix(";"))
    return release[which]


def test_everything_a_served_page_can_ask_for_is_saved(site):
    spare = {entry["url"] for entry in saved_files(site, "spare")}
    saved = {entry["url"] for entry in saved_files(site)} | spare
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


def test_after_one_visit_a_page_never_seen_computes_without_network(playwright, program, site, serve_folder, tmp_path):
    def launch():
        return playwright.chromium.launch_persistent_context(
            str(tmp_path / "profile"), executable_path=program, args=list(ARGUMENTS), viewport=PHONE
        )

    with serve_folder(site) as address:
        context = launch()
        page = context.new_page()
        page.goto(f"{address}/index.html")
        status = page.locator("[data-part=saved]")
        expect(status).to_have_attribute("data-saved", "saved")
        revision = json.loads((site / "assets/data/build.json").read_text(encoding="utf-8"))["revision"]
        assert re.search(
            rf"Saved on this device: [0-9]+\.[0-9] MB, revision {re.escape(revision)}\.", status.inner_text()
        )
        context.close()

    context = launch()
    page = context.new_page()
    errors = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.goto(f"{address}/{WINDINGS}")
    compute(page)
    expect(page.locator("[data-part=saved]")).to_have_attribute("data-saved", "saved")
    page.goto(f"{address}/reference/diagnostics.html")
    expect(page.locator("[data-module=diagnostics]")).to_have_attribute("data-boot", "snapshot")
    expect(page.locator("[data-part=saved]")).to_contain_text("Saved on this device")
    page.goto(f"{address}/")
    expect(page.locator("h1")).to_be_visible()
    context.close()
    assert errors == []


def test_a_file_lost_from_the_device_is_not_called_saved(visit, served):
    page = visit(f"{served}/index.html", saving=True)
    status = page.locator("[data-part=saved]")
    expect(status).to_have_attribute("data-saved", "saved")
    page.evaluate(
        """async () => {
          for (const name of await caches.keys()) {
            const cache = await caches.open(name);
            const wasm = (await cache.keys()).find((request) => request.url.includes("python-wasm-"));
            if (wasm) await cache.delete(wasm);
          }
        }"""
    )
    page.reload()
    expect(status).to_have_attribute("data-saved", "incomplete")
    expect(status).to_contain_text("1 of ")


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
    page.evaluate(
        """async () => {
          const names = await caches.keys();
          const cache = await caches.open(names.find((name) => name.includes("precache")));
          const snapshot = (await cache.keys()).find(({ url }) => url.includes("python-snapshot"));
          const bytes = new Uint8Array(await (await cache.match(snapshot)).arrayBuffer());
          bytes[bytes.length >> 1] ^= 1;
          await cache.put(snapshot, new Response(bytes));
        }"""
    )
    page.context.set_offline(True)
    page.goto(f"{served}/{WINDINGS}")
    compute(page)
    given_up, started = watch.starts
    assert given_up.startswith("Python did not start from the snapshot of its memory")
    assert started.startswith("Python started the ordinary way")
    watch.starts.clear()
    assert set(watch.errors) <= {"Failed to load resource: net::ERR_INTERNET_DISCONNECTED"}, (
        "a look for a newer release"
    )
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
        expect(status).to_have_attribute("data-saved", "refused")
        expect(status).to_contain_text("not every file arrived as it should")
        page.context.close()
    assert len(watch.fallbacks) == 2, "Python, started ahead, could not use it either, and did not need to"
    watch.starts.clear()


def test_a_newer_revision_waits_until_the_reader_takes_it(visit, site, serve_folder, tmp_path):
    copy = tmp_path / "site"
    shutil.copytree(site, copy)
    start = copy / "index.html"
    with serve_folder(copy) as address:
        page = visit(f"{address}/index.html", saving=True)
        status = page.locator("[data-part=saved]")
        expect(status).to_have_attribute("data-saved", "saved")
        start.write_text(
            start.read_text(encoding="utf-8").replace("<h1", '<p id="newer">newer</p><h1'), encoding="utf-8"
        )
        (copy / SERVICE_WORKER).write_bytes(service_worker(ROOT, list_entries(copy), "next"))
        page.reload()
        expect(status.get_by_role("button")).to_be_visible()
        assert page.locator("#newer").count() == 0
        status.get_by_role("button").click()
        expect(page.locator("#newer")).to_have_count(1)
        expect(status).to_contain_text("revision next")
        page.context.close()


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
