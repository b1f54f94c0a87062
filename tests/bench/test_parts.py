"""Every part of the benchmark works and measures what it says; how long anything takes is no matter of a test."""

from __future__ import annotations

import shutil
from datetime import date
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from urllib.parse import urlsplit

import pytest
import yaml
from playwright.sync_api import sync_playwright

from build_scripts.browser_setup import find_browser
from build_scripts.read_handbook import read_handbook
from build_scripts.read_measurements import Measurements, read_measurements
from calculators import CALCULATORS
from tests.bench.builds import Compared, Took
from tests.bench.chromium import Chromium
from tests.bench.counting_server import CountingServer
from tests.bench.figures import once, percentile, spread
from tests.bench.in_the_page import Clicks, click_through, edit_one_calculator
from tests.bench.large_handbook import add_procedures
from tests.bench.machine import conditions, machine
from tests.bench.one_build import PLAIN_SETTINGS, prepare_plain
from tests.bench.report import build_group, page_group, print_tables, start_up_group, write_run
from tests.bench.search_times import ask_search
from tests.bench.sizes import read_before_reading, saved_sizes
from tests.bench.start_ups import PAGE, StartUps, WrongStartError

ROOT = Path(__file__).resolve().parents[2]
ON = date(2026, 11, 25)


@pytest.fixture(scope="module")
def open_chromium():
    program = find_browser()
    assert program is not None, "there is no Chromium on the path"
    with sync_playwright() as playwright:
        yield lambda profile: Chromium(playwright, program, profile)


@pytest.fixture(scope="module")
def times(sites, open_chromium, tmp_path_factory):
    """One opening of each kind that needs nothing saved, and what was asked for meanwhile."""
    starts = StartUps(sites, open_chromium, tmp_path_factory.mktemp("profiles"), settles=0)
    with starts.served():
        starts.first_visits(disk=True)
        asked = {name: [sent.path for sent in server.sent] for name, server in starts.servers.items()}
    return starts.times, asked


def test_both_sites_compute_and_each_opening_is_measured(times):
    found, _ = times
    assert set(found.openings) == {"ours first", "stock first", "disk first"}
    assert all(one.usable > one.painted > 0 for opened in found.openings.values() for one in opened)


def test_the_stock_site_loads_pyodide_whole_and_nothing_of_the_quick_start(times):
    _, asked = times
    assert {
        "/assets/stock/python_stdlib.zip",
        "/assets/stock/calculators.zip",
        "/assets/stock/pyodide-lock.json",
    } <= set(asked["stock"])
    assert not [path for path in asked["stock"] if "/runtime/" in path]
    assert not [path for path in asked["ours"] if "/stock/" in path]


def test_the_two_sites_have_the_same_pages(sites):
    def same(site: Path) -> dict[str, int]:
        return {file.relative_to(site).as_posix(): file.stat().st_size for file in site.rglob("*.html")}

    assert same(sites.ours) == same(sites.stock)


def test_a_start_that_is_not_the_one_to_be_measured_ends_the_run(sites, open_chromium, tmp_path):
    broken = shutil.copytree(sites.ours, tmp_path / "broken")
    for file in (broken / "assets" / "runtime").glob("*snapshot*"):
        file.write_bytes(b"nothing of the kind")
    starts = StartUps(type(sites)(broken, sites.stock), open_chromium, tmp_path / "profiles", settles=0)
    with starts.served(), pytest.raises(WrongStartError):
        starts.first_visits(disk=False)


def test_clicks_edits_and_search_are_measured_in_an_open_page(sites, open_chromium, tmp_path):
    server = CountingServer(sites.ours)
    browser = open_chromium(tmp_path / "profile")
    try:
        clicks = click_through(browser, server.address, ["voltage-drop", "expected-amps"], rounds=2)
        assert {slug: len(times) for slug, times in clicks.times.items()} == {"voltage-drop": 2, "expected-amps": 2}
        assert min(clicks.all) > 0
        for slug in ("voltage-drop", "next-check"):
            edits = edit_one_calculator(browser, server.address, slug, 12)
            assert len(edits) == 12
            assert min(edits) > 0
        answers = ask_search(browser, server.address, ["relay", "capacitor"]).answers
        assert set(answers) == {"relay", "capacitor"}
        assert min(answers.values()) > 0
    finally:
        browser.close()
        server.stop()


def test_what_is_saved_and_what_is_read_first_is_counted_by_the_lists_of_the_site(sites):
    saved = saved_sizes(sites.ours)
    assert saved.first_choice_unpacked > saved.first_choice > saved.spare > 0
    reading = read_before_reading(sites.ours, PAGE)
    assert any(name.endswith(".css") for name in reading)
    assert any("bundle" in name for name in reading)
    assert not any("runtime" in name for name in reading)
    assert min(reading.values()) > 0


def test_a_server_that_was_stopped_comes_back_at_its_address(sites):
    server = CountingServer(sites.ours)
    before = server.address
    server.stop()
    server.start()
    assert server.address == before
    server.stop()


def test_a_server_that_was_stopped_answers_nobody_on_a_connection_that_was_kept_open(sites):
    server = CountingServer(sites.ours)
    connection = HTTPConnection(urlsplit(server.address).netloc, timeout=10)

    def ask() -> bytes:
        connection.request("GET", PAGE)
        return connection.getresponse().read()

    try:
        assert ask()
        connection.auto_open = 0  # only the connection that is open, no other one
        assert ask()
        server.stop()
        with pytest.raises((ConnectionError, HTTPException)):
            ask()
    finally:
        connection.close()
        server.stop()


def test_a_large_handbook_is_one_without_mistakes_and_has_as_many_procedures_as_wanted(tmp_path):
    shutil.copytree(ROOT / "handbook", tmp_path / "handbook")
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    before = len(read_handbook(tmp_path, ON).procedures)
    add_procedures(tmp_path, before + 3)
    assert len(read_handbook(tmp_path, ON).procedures) == 2 * before + 3


def test_plain_material_gets_the_same_menu_and_settings_without_the_fence(tmp_path):
    for name in ("handbook", "mkdocs.yml", "pyproject.toml"):
        copy = shutil.copytree if (ROOT / name).is_dir() else shutil.copy
        copy(ROOT / name, tmp_path / name)
    prepare_plain(tmp_path)
    settings = yaml.safe_load((tmp_path / PLAIN_SETTINGS).read_text(encoding="utf-8"))
    assert "navigation.prune" in settings["theme"]["features"]
    assert [next(iter(one)) if isinstance(one, dict) else one for one in settings["plugins"]] == ["search", "offline"]
    assert "pymdownx.superfences" in settings["markdown_extensions"]
    assert "index.md" in settings["nav"]


def test_the_middle_and_the_slowest_few_are_what_they_are_called():
    assert spread([30, 10, 20]).model_dump() == {"middle": 20, "least": 10, "most": 30, "runs": 3}
    assert once(2.345).middle == 2.35 or once(2.345).middle == 2.34
    hundred = list(range(100, 0, -1))
    assert percentile(hundred, 50) == 50
    assert percentile(hundred, 95) == 95
    assert percentile([7], 95) == 7


def test_a_busy_machine_is_called_busy():
    assert conditions(load=50.0).startswith("Taken on a busy machine")
    assert conditions(load=0.1).startswith("Taken on a quiet machine")
    assert "processor" in machine()


def test_what_was_written_is_read_back_and_printed_with_what_was_missed(tmp_path, times, capsys):
    found, _ = times
    slow = {slug: [1.0, 2.0] for slug in CALCULATORS} | {"next-check": [40.0, 41.0]}
    took = [Took(2.0, 1.0, 90.0)]
    groups = [
        start_up_group("Chromium", found),
        page_group(Clicks({"voltage-drop": [20.0, 30.0]}), slow),
        build_group([Compared(2000, took, [Took(1.0, 1.0, 50.0)], 150.0, 90.0, tmp_path)]),
    ]
    run = Measurements(taken="2026-11-25", machine="a machine", conditions="Quiet.", versions={"A": "1"}, groups=groups)
    write_run(run, tmp_path)
    mistakes: list = []
    assert read_measurements(tmp_path, mistakes) == run
    assert mistakes == []
    missed = {row.what for row in run.missed}
    assert "2000 pages, time" in missed
    assert "2000 pages, size of the site" in missed
    assert "2000 pages, time of a processor" not in missed
    assert any(what.startswith("The same in the slowest calculator, next-check") for what in missed)
    print_tables(run)
    assert "missed" in capsys.readouterr().out
