"""Measures, in one run, what this handbook's pages and its build take beside the ordinary way of doing the same.

    .environment/bin/python -m tests.bench                measures everything and prints the tables, in half an hour
    .environment/bin/python -m tests.bench start wire     measures these parts only
    .environment/bin/python -m tests.bench --write        writes the run into the handbook as well, which shows it

A run needs Chromium. In Firefox and WebKitGTK starts are measured, where these can be driven. It builds the site first.
"""

from __future__ import annotations

import shutil
import sys
from collections.abc import Sequence
from contextlib import ExitStack
from pathlib import Path

import click
import yaml
from playwright.sync_api import Playwright, sync_playwright

from build_scripts.browser_setup import ensure_browser
from build_scripts.build import build_site
from build_scripts.engine_setup import ENGINES, Engine, ensure_engines
from build_scripts.environment import ROOT
from build_scripts.read_measurements import MeasurementGroup, Measurements
from calculators import CALCULATORS
from tests.bench import report
from tests.bench.builds import Compared, compare_builds
from tests.bench.chromium import Chromium
from tests.bench.counting_server import CountingServer
from tests.bench.in_the_page import click_through, edit_one_calculator
from tests.bench.machine import conditions, machine, today, versions
from tests.bench.other_engines import NotDrivenError, drive
from tests.bench.search_times import ask_search
from tests.bench.sizes import read_before_reading, saved_sizes
from tests.bench.start_ups import PAGE, NoStockAnswerError, OpenBrowser, StartUps, Times
from tests.bench.two_sites import TwoSites, make_two_sites

PARTS = ("start", "page", "wire", "build", "search")
WORK = ROOT / "build" / "bench"
MANY_PAGES = 2000
QUERIES = ROOT / "tests" / "handbook" / "queries.yaml"


class Run:
    """One run: what was measured so far, and the browser that it is measured with."""

    def __init__(self, playwright: Playwright, repetitions: int, others: int, edits: int, builds: int) -> None:
        self._playwright, self._program = playwright, ensure_browser(_say)
        self.repetitions, self.others, self.edits, self.builds = repetitions, others, edits, builds
        self.browsers: dict[str, str] = {}
        self._profiles = WORK / "profiles"
        shutil.rmtree(self._profiles, ignore_errors=True)
        self._profiles.mkdir(parents=True)
        self._large: Compared | None = None

    def chromium(self, profile: Path) -> Chromium:
        """A new process of Chromium."""
        browser = Chromium(self._playwright, self._program, profile)
        self.browsers["Chromium"] = browser.version
        return browser

    def start(self, sites: TwoSites) -> list[MeasurementGroup]:
        """Opening a page until it computes, in each engine that can be driven."""
        first = self._start_ups(sites, "Chromium", self.chromium, self.repetitions)
        others, missing = [], []
        ensure_engines(_say)
        for wanted in ENGINES:
            try:
                others.append(self._start_in(wanted, sites))
            except (NotDrivenError, NoStockAnswerError) as why:
                _say(f"{wanted.name} is left out. {why}")
                missing.append(wanted.name)
        return [report.start_up_group("Chromium", first, missing=missing), *others]

    def _start_in(self, wanted: Engine, sites: TwoSites) -> MeasurementGroup:
        engine = drive(wanted, self._profiles / wanted.name / "tried")
        times = self._start_ups(sites, wanted.name, engine.open, self.others, keeps=engine.keeps)
        self.browsers[wanted.name] = engine.version
        return report.start_up_group(wanted.name, times, keeps=engine.keeps)

    def _start_ups(
        self, sites: TwoSites, engine: str, open_browser: OpenBrowser, repetitions: int, *, keeps: bool = True
    ) -> Times:
        starts = StartUps(sites, open_browser, self._profiles / engine, keeps=keeps)
        with starts.served():
            for turn in range(repetitions):
                _say(f"{engine}: first visits, {turn + 1} of {repetitions}")
                starts.first_visits(disk=True)
            _say(f"{engine}: visiting and saving both sites")
            starts.visit_before(disk=True)
            for turn in range(repetitions):
                _say(f"{engine}: later visits, {turn + 1} of {repetitions}")
                starts.later_visits(disk=True)
                if keeps:
                    starts.visits_at_once()
            if not keeps:  # The same process did not open the page then, and why is not found yet.
                return starts.times
            starts.go_offline()
            for turn in range(repetitions):
                _say(f"{engine}: without network, {turn + 1} of {repetitions}")
                starts.visits_without_network()
        return starts.times

    def page(self, sites: TwoSites) -> list[MeasurementGroup]:
        """In a page that is open."""
        slugs = list(CALCULATORS)
        with ExitStack() as ending:
            server = CountingServer(sites.ours)
            ending.callback(server.stop)
            browser = self.chromium(self._profiles / "open")
            ending.callback(browser.close)
            _say("clicks from page to page")
            clicks = click_through(browser, server.address, slugs, rounds=3)
            keystrokes = {}
            for slug in slugs:
                _say(f"{self.edits} edits of {slug}")
                keystrokes[slug] = edit_one_calculator(browser, server.address, slug, self.edits)
        return [report.page_group(clicks, keystrokes)]

    def wire(self, sites: TwoSites) -> list[MeasurementGroup]:
        """Bytes on the wire."""
        sent = {}
        for name in ("ours", "stock"):
            with ExitStack() as ending:
                server = CountingServer(getattr(sites, name))
                ending.callback(server.stop)
                browser = self.chromium(self._profiles / f"wire-{name}")
                ending.callback(browser.close)
                browser.open(server.address + PAGE)
                browser.run("() => threepinBench.whenUsable")
                sent[name] = server.bytes_sent()
        site = ROOT / "build" / "site"
        return [report.wire_group(sent["ours"], sent["stock"], read_before_reading(site, PAGE), saved_sizes(site))]

    def build(self, _: TwoSites) -> list[MeasurementGroup]:
        """Building the site."""
        _say("builds of the handbook as it is")
        small = compare_builds(ROOT, WORK, 0, self.builds + 2)
        return [report.build_group([small, self._large_handbook()])]

    def search(self, _: TwoSites) -> list[MeasurementGroup]:
        """Search in a large handbook."""
        large = self._large_handbook()
        words = [str(word) for word in yaml.safe_load(QUERIES.read_text(encoding="utf-8"))]
        with ExitStack() as ending:
            server = CountingServer(large.site)
            ending.callback(server.stop)
            browser = self.chromium(self._profiles / "search")
            ending.callback(browser.close)
            _say(f"search in {large.pages} pages")
            return [report.search_group(large.pages, ask_search(browser, server.address, words))]

    def _large_handbook(self) -> Compared:
        if self._large is None:
            _say(f"builds of {MANY_PAGES} pages")
            self._large = compare_builds(ROOT, WORK, MANY_PAGES, self.builds)
        return self._large


@click.command(help=__doc__)
@click.argument("parts", nargs=-1, type=click.Choice(PARTS))
@click.option(
    "--repetitions", default=7, show_default=True, type=click.IntRange(1), help="How often each page is opened."
)
@click.option(
    "--others", default=5, show_default=True, type=click.IntRange(1), help="The same in Firefox and in WebKitGTK."
)
@click.option("--edits", default=1000, show_default=True, type=click.IntRange(10), help="Edits of each calculator.")
@click.option("--builds", default=3, show_default=True, type=click.IntRange(1), help="How often each build runs.")
@click.option("--write", is_flag=True, help="Write the run into the handbook; only with all parts.")
def bench(parts: Sequence[str], repetitions: int, others: int, edits: int, builds: int, write: bool) -> None:
    """Measure."""
    chosen = parts or PARTS
    if write and set(chosen) != set(PARTS):
        raise click.UsageError("A run that is written has all parts. Leave the parts out, or leave --write out.")
    _say("building the site and the one it is compared with")
    build_site(ROOT, lambda _: None)
    sites = make_two_sites(ROOT, WORK)
    with sync_playwright() as playwright:
        run = Run(playwright, repetitions, others, edits, builds)
        groups = [group for part in PARTS if part in chosen for group in getattr(run, part)(sites)]
    measured = Measurements(
        taken=today(), machine=machine(), conditions=conditions(), versions=versions(ROOT, run.browsers), groups=groups
    )
    report.print_tables(measured)
    if write:
        report.write_run(measured, ROOT / "handbook")


def _say(sentence: str) -> None:
    print(sentence, file=sys.stderr, flush=True)


if __name__ == "__main__":
    bench()
