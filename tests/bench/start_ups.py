"""From opening a page until its calculator answers: first visit, visited device, network off, from disk, in any engine."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, closing, contextmanager
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path
from typing import Any, Protocol

from tests.bench.counting_server import CountingServer
from tests.bench.two_sites import TwoSites

PAGE = "/calculators/winding-identification.html"
SAVED = "() => document.querySelector('[data-part=saved]')?.dataset.saved"
PAINTED = "() => performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? 0"
SAVING_PATIENCE = 180.0
# A browser that has just been started is busy with itself for a second or two, on as many processors as there are.
SETTLES = 3.0
# Less than the page itself allows for loading, so that a start that hangs is seen here first.
START_PATIENCE = 60.0
IS_THERE = "() => Boolean(window.threepinBench)"
USABLE = (
    "(patience) => Promise.race([threepinBench.whenUsable, "
    "new Promise((resolve) => { setTimeout(resolve, 1000 * patience, null); })])"
)
STARTED_AS_MEANT = "Python started from the snapshot"
EMPTY_PAGE = "about:blank"
# Something that is saved nowhere, so that only a server could answer.
NOBODY_ANSWERS = "() => fetch('/not-saved').then(() => false, () => true)"


class Browser(Protocol):
    """What the benchmark needs of a browser, whichever engine it has."""

    name: str

    @property
    def version(self) -> str: ...

    def open(self, url: str) -> None: ...

    def run(self, function: str, *arguments: Any) -> Any: ...

    def close(self) -> None: ...


OpenBrowser = Callable[[Path], Browser]


@dataclass(frozen=True)
class Opening:
    """How one page opened, in milliseconds from the moment when the browser began to open it."""

    usable: float
    painted: float


class WrongStartError(AssertionError):
    """Python did not start the way that was to be measured."""


class NoStockAnswerError(WrongStartError):
    """The start that ours is compared with did not answer, and not when it was tried once more."""


@dataclass
class Times:
    """The openings of each kind, by its name, and how many starts of the stock site never answered."""

    openings: dict[str, list[Opening]] = field(default_factory=dict)
    stock_starts: int = 0
    stock_unanswered: int = 0

    def add(self, kind: str, opening: Opening) -> None:
        """Note one more of a kind."""
        self.openings.setdefault(kind, []).append(opening)

    def usable(self, kind: str) -> list[float]:
        """When the calculator was usable, each time."""
        return [one.usable for one in self.openings[kind]]


class StartUps:
    """Opens both sites again and again, each time in a new process of the browser.

    A browser that keeps nothing when it ends stays running for each site that it has visited before, with an empty page.
    One that was started for an opening is let alone until it has settled, unless that is what is measured.
    """

    def __init__(
        self,
        sites: TwoSites,
        open_browser: OpenBrowser,
        profiles: Path,
        *,
        keeps: bool = True,
        settles: float = SETTLES,
    ) -> None:
        self._sites, self._open_browser, self._profiles, self._keeps = sites, open_browser, profiles, keeps
        self._settles = settles
        self._new = count(1)
        self._running: dict[str, Browser] = {}
        self._offline = False
        self.servers: dict[str, CountingServer] = {}
        self.times = Times()

    @contextmanager
    def served(self) -> Iterator[None]:
        """Both sites are served as long as this lasts."""
        with ExitStack() as ending:
            for name in ("ours", "stock"):
                self.servers[name] = CountingServer(getattr(self._sites, name))
                ending.callback(self.servers[name].stop)
            ending.callback(self._end_what_runs)
            yield

    def first_visits(self, *, disk: bool) -> None:
        """Once each, on a device that has never seen the site."""
        for name in self.servers:
            self.times.add(f"{name} first", self._open(name, kept=False))
        if disk:
            self.times.add("disk first", self._open("disk", kept=False))

    def visit_before(self, *, disk: bool) -> None:
        """Visit each site twice, until it says that it is saved; the profiles stay."""
        for name in self.servers:
            for _ in range(2):
                self._open(name, kept=True, until_saved=True)
        if disk:
            self._open("disk", kept=True)

    def later_visits(self, *, disk: bool) -> None:
        """Once each, on a device that has visited it before."""
        for name in self.servers:
            self.times.add(f"{name} visited", self._open(name, kept=True))
        if disk:
            self.times.add("disk visited", self._open("disk", kept=True))

    def visits_at_once(self) -> None:
        """Once each, on a device that has visited it before, while the browser is still busy with its own start."""
        for name in self.servers:
            self.times.add(f"{name} at once", self._open(name, kept=True, at_once=True))

    def visits_without_network(self) -> None:
        """Once each, on a device that has visited it before, with the servers gone."""
        for name in self.servers:
            self.times.add(f"{name} off", self._open(name, kept=True))

    def go_offline(self) -> None:
        """Stop the servers."""
        self._offline = True
        for server in self.servers.values():
            server.stop()

    def _open(self, name: str, *, kept: bool, until_saved: bool = False, at_once: bool = False) -> Opening:
        """Open the page; a stock start that never answers is counted, and the page opened once more in a new process."""
        opening = self._try(name, kept, until_saved, at_once)
        if opening is None and name == "stock":
            if kept and not self._keeps:
                self._visit_in_another_process(name)
            opening = self._try(name, kept, until_saved, at_once)
        if opening is None:
            kind = NoStockAnswerError if name == "stock" else WrongStartError
            raise kind(f"{name}: no answer within {START_PATIENCE:.0f} s")
        return opening

    def _try(self, name: str, kept: bool, until_saved: bool, at_once: bool = False) -> Opening | None:
        with self._browser(name, kept, at_once) as browser:
            opening = self._measure(browser, name, until_saved)
            if name == "stock":
                self.times.stock_starts += 1
                self.times.stock_unanswered += opening is None
            if opening and name in self._running:
                browser.open(EMPTY_PAGE)
            return opening

    @contextmanager
    def _browser(self, name: str, kept: bool, at_once: bool) -> Iterator[Browser]:
        """A new process on a new profile or on the one that is kept, or the process that is kept in its stead."""
        profile = self._profiles / (f"kept-{name}" if kept else f"new-{next(self._new)}")
        if self._keeps or not kept:
            with closing(self._open_browser(profile)) as browser:
                time.sleep(0 if at_once else self._settles)
                yield browser
            return
        if name not in self._running:
            self._running[name] = self._open_browser(profile)
            time.sleep(self._settles)
        yield self._running[name]

    def _visit_in_another_process(self, name: str) -> None:
        """Have another process that has visited the site before, in the place of one in which a start never answered."""
        self._running.pop(name).close()
        was_offline, self._offline = self._offline, False
        if was_offline:
            self.servers[name].start()
        for _ in range(2):
            if self._try(name, True, True) is None:
                raise NoStockAnswerError(f"{name}: no answer within {START_PATIENCE:.0f} s, in two processes")
        if was_offline:
            self.servers[name].stop()
        self._offline = was_offline

    def _end_what_runs(self) -> None:
        for browser in self._running.values():
            browser.close()

    def _measure(self, browser: Browser, name: str, until_saved: bool) -> Opening | None:
        address = self._sites.ours.as_uri() if name == "disk" else self.servers[name].address
        try:
            browser.open(address + PAGE)
            _wait_for_the_page(browser)
            usable = browser.run(USABLE, START_PATIENCE)
        except TimeoutError:  # Then the page itself hangs.
            usable = None
        if usable is None:
            return None
        starts = browser.run("() => threepinBench.starts")
        if len(starts) != 1 or not starts[0].startswith(STARTED_AS_MEANT):
            raise WrongStartError(f"{browser.name}, {name}: {starts}")
        if self._offline and not browser.run(NOBODY_ANSWERS):
            raise WrongStartError(f"{browser.name}, {name}: a server still answers")
        if until_saved:
            _wait_until_saved(browser)
        return Opening(usable, browser.run(PAINTED))


def _wait_for_the_page(browser: Browser) -> None:
    """One engine says that a page has loaded while it still shows the one before."""
    end = time.monotonic() + START_PATIENCE
    while not browser.run(IS_THERE):
        if time.monotonic() > end:
            raise WrongStartError(f"{browser.name}: the page did not open")
        time.sleep(0.02)


def _wait_until_saved(browser: Browser) -> None:
    end = time.monotonic() + SAVING_PATIENCE
    while (said := browser.run(SAVED)) != "saved":
        if time.monotonic() > end:
            raise WrongStartError(f"{browser.name}: the site was not saved on the device; it says {said}")
        time.sleep(0.2)
    time.sleep(1)  # What stands in when something fails is saved behind it.
