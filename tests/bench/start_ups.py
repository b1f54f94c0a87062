"""From opening a page until its calculator answers: first visit, visited device, network off, from disk, in any engine."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
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
STARTED_AS_MEANT = "Python started from the snapshot"


class Browser(Protocol):
    """What the benchmark needs of a browser, whichever engine it has."""

    name: str

    @property
    def version(self) -> str: ...

    def open(self, url: str) -> None: ...

    def run(self, function: str, *arguments: Any) -> Any: ...

    def close(self) -> None: ...


@dataclass(frozen=True)
class Opening:
    """How one page opened, in milliseconds from the moment when the browser began to open it."""

    usable: float
    painted: float


class WrongStartError(AssertionError):
    """Python did not start the way that was to be measured."""


@dataclass
class Times:
    """The openings of each kind, by its name."""

    openings: dict[str, list[Opening]] = field(default_factory=dict)

    def add(self, kind: str, opening: Opening) -> None:
        """Note one more of a kind."""
        self.openings.setdefault(kind, []).append(opening)

    def usable(self, kind: str) -> list[float]:
        """When the calculator was usable, each time."""
        return [one.usable for one in self.openings[kind]]


class StartUps:
    """Opens both sites again and again, each time in a new process of the browser."""

    def __init__(self, sites: TwoSites, open_browser: Callable[[Path], Browser], profiles: Path) -> None:
        self._sites, self._open_browser, self._profiles = sites, open_browser, profiles
        self._new = count(1)
        self.servers: dict[str, CountingServer] = {}
        self.version = ""

    @contextmanager
    def served(self) -> Iterator[None]:
        """Both sites are served as long as this lasts."""
        with ExitStack() as ending:
            for name in ("ours", "stock"):
                self.servers[name] = CountingServer(getattr(self._sites, name))
                ending.callback(self.servers[name].stop)
            yield

    def first_visits(self, times: Times, *, disk: bool) -> None:
        """Once each, on a device that has never seen the site."""
        for name in self.servers:
            times.add(f"{name} first", self._open(name, self._new_profile()))
        if disk:
            times.add("disk first", self._open("disk", self._new_profile()))

    def visit_before(self, *, disk: bool) -> None:
        """Visit each site twice, until it says that it is saved; the profiles stay."""
        for name in self.servers:
            for _ in range(2):
                self._open(name, self._kept_profile(name), until_saved=True)
        if disk:
            self._open("disk", self._kept_profile("disk"))

    def later_visits(self, times: Times, *, disk: bool) -> None:
        """Once each, on a device that has visited it before."""
        for name in self.servers:
            times.add(f"{name} visited", self._open(name, self._kept_profile(name)))
        if disk:
            times.add("disk visited", self._open("disk", self._kept_profile("disk")))

    def visits_without_network(self, times: Times) -> None:
        """Once each, on a device that has visited it before, with the servers gone."""
        for name in self.servers:
            times.add(f"{name} off", self._open(name, self._kept_profile(name)))

    def go_offline(self) -> None:
        """Stop the servers."""
        for server in self.servers.values():
            server.stop()

    def _open(self, name: str, profile: Path, *, until_saved: bool = False) -> Opening:
        address = self._sites.ours.as_uri() if name == "disk" else self.servers[name].address
        browser = self._open_browser(profile)
        try:
            self.version = browser.version
            browser.open(address + PAGE)
            usable = browser.run("() => threepinBench.whenUsable")
            starts = browser.run("() => threepinBench.starts")
            if len(starts) != 1 or not starts[0].startswith(STARTED_AS_MEANT):
                raise WrongStartError(f"{browser.name}, {name}: {starts}")
            if until_saved:
                _wait_until_saved(browser)
            return Opening(usable, browser.run(PAINTED))
        finally:
            browser.close()

    def _new_profile(self) -> Path:
        return self._profiles / f"new-{next(self._new)}"

    def _kept_profile(self, name: str) -> Path:
        return self._profiles / f"kept-{name}"


def _wait_until_saved(browser: Browser) -> None:
    end = time.monotonic() + SAVING_PATIENCE
    while (said := browser.run(SAVED)) != "saved":
        if time.monotonic() > end:
            raise WrongStartError(f"{browser.name}: the site was not saved on the device; it says {said}")
        time.sleep(0.2)
    time.sleep(1)  # What stands in when something fails is saved behind it.
