"""The built site, a server for it, and browsers that let nothing pass: no error, no request to another host."""

from __future__ import annotations

import functools
import json
import os
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Playwright, expect, sync_playwright

from build_scripts.browser_setup import ARGUMENTS, find_browser
from build_scripts.serve import HOST, SiteHandler
from tests.browser.renewing import Keeper, RenewableHost, renewable
from tests.stoppable_server import StoppableServer

ROOT = Path(__file__).resolve().parents[2]
SIZES = {"phone": (390, 844), "desktop": (1280, 900)}
OURS = {"127.0.0.1", ""}

# Python starts in two or three seconds on a quiet machine; a test machine is not quiet.
expect.set_options(timeout=45_000)


@pytest.fixture(scope="session")
def site() -> Path:
    """The built site; the command `test` builds it first."""
    folder = Path(os.environ.get("THREEPIN_SITE", ROOT / "build" / "site"))
    assert (folder / "index.html").is_file(), f"there is no built site in {folder}: python3 -m build_scripts build"
    return folder


@pytest.fixture(scope="session")
def built_on(site: Path) -> str:
    """The day for which the worked examples in the pages were computed."""
    return str(json.loads((site / "assets/data/build.json").read_text(encoding="utf-8"))["date"])


@contextmanager
def serving(folder: Path) -> Iterator[str]:
    """The folder over http on this computer, and its address."""
    server = StoppableServer((HOST, 0), functools.partial(SiteHandler, directory=str(folder)))
    server.handle_error = lambda *_: None  # a browser that goes away in the middle of a file is no news here
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_address[1]}"
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


@pytest.fixture(scope="session")
def serve_folder() -> Callable[[Path], Any]:
    """Serves another folder than the built site, or for a part of a test."""
    return serving


@pytest.fixture(scope="session")
def served(site: Path) -> Iterator[str]:
    """The address of the built site."""
    with serving(site) as address:
        yield address


@pytest.fixture(scope="session", params=["served", "from disk"])
def address(request: pytest.FixtureRequest, site: Path, served: str) -> str:
    """Both ways to open the site, one after the other."""
    return served if request.param == "served" else site.as_uri()


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    """The driver."""
    with sync_playwright() as driver:
        yield driver


@pytest.fixture(scope="session")
def program() -> str:
    """The browser to drive."""
    found = find_browser()
    assert found is not None, "there is no Chromium on the path"
    return str(found)


@pytest.fixture(scope="session")
def browser(playwright: Playwright, program: str) -> Iterator[Browser]:
    """One browser for the whole run; each visit gets a context of its own."""
    launched = playwright.chromium.launch(executable_path=program, args=list(ARGUMENTS))
    yield launched
    launched.close()


@dataclass
class Watch:
    """What went wrong in a browser that no assertion looks at."""

    errors: list[str] = field(default_factory=list)
    asked: list[str] = field(default_factory=list)
    starts: list[str] = field(default_factory=list)

    def over(self, opened: BrowserContext | Page) -> None:
        """Hear every page of a context, or one page."""
        opened.on("request", lambda request: self.asked.append(request.url))
        opened.on("console", lambda said: self._hear(said.type, said.text))
        if isinstance(opened, Page):
            opened.on("pageerror", lambda error: self._note(str(error)))
        else:
            opened.on("weberror", lambda error: self._note(str(error.error)))

    def _hear(self, kind: str, text: str) -> None:
        if kind == "error":
            self.errors.append(text)
        elif text.startswith(("Python started", "Python did not start")):
            self.starts.append(text)

    def _note(self, error: str) -> None:
        # The theme's scheduler throws this, now and then, when a page goes away in the middle of one of its timers.
        if "executing a cancelled action" not in error:
            self.errors.append(error)

    @property
    def fallbacks(self) -> list[str]:
        """What the diagnostics say of each start of Python that was not one from the snapshot."""
        return [start for start in self.starts if not start.startswith("Python started from the snapshot")]

    @property
    def elsewhere(self) -> list[str]:
        """Requests that left for another host."""
        return [url for url in self.asked if (urlsplit(url).hostname or "") not in OURS]


Visit = Callable[..., Page]

# A browser without a worker that outlives its page, as most are: there each page has a Python of its own. The driver
# reaches into such a worker, and its requests can be answered by a test.
ALONE = "delete window.SharedWorker"


@pytest.fixture
def watch() -> Watch:
    """Hears everything; a test that provokes an error or a fallback clears it itself."""
    return Watch()


@pytest.fixture
def visit(browser: Browser, watch: Watch) -> Iterator[Visit]:
    """Opens a page as a new visitor. Nothing is saved on the device unless saving=True.

    Pages share one Python, unless alone=True.
    """
    opened: list[BrowserContext] = []

    def open_page(
        url: str, *, size: str = "phone", scheme: str = "light", saving: bool = False, alone: bool = False, **more: Any
    ) -> Page:
        width, height = SIZES[size]
        context = browser.new_context(
            viewport={"width": width, "height": height},
            color_scheme=scheme,  # type: ignore[arg-type]
            service_workers="allow" if saving else "block",
            **more,
        )
        opened.append(context)
        watch.over(context)
        if alone:
            context.add_init_script(ALONE)
        page = context.new_page()
        page.goto(url)
        return page

    yield open_page
    for context in opened:
        context.close()
    assert watch.errors == []
    assert watch.fallbacks == []
    assert watch.elsewhere == []


@pytest.fixture(scope="session")
def renewable_host(site: Path) -> Iterator[RenewableHost]:
    """One host for the whole run."""
    with renewable(site) as host:
        yield host


@pytest.fixture
def host(renewable_host: RenewableHost, site: Path) -> RenewableHost:
    """A host of the built site that can be renewed, and told to break off."""
    renewable_host.hand_out_all(site)
    return renewable_host


@pytest.fixture(scope="session")
def keeper(browser: Browser, renewable_host: RenewableHost) -> Iterator[Keeper]:
    """A browser that saves the handbook once for all tests that need it saved."""
    width, height = SIZES["phone"]
    context = browser.new_context(viewport={"width": width, "height": height})
    yield Keeper(context, renewable_host)
    context.close()


@pytest.fixture
def saved_page(keeper: Keeper, watch: Watch, site: Path) -> Iterator[Page]:
    """The start page where the built site, and nothing else, is saved; host and device do as they should."""
    page = keeper.open_saved(site)
    watch.over(page)
    yield page
    for one in keeper.context.pages:
        one.close()
    assert watch.errors == []
    assert watch.fallbacks == []
    assert watch.elsewhere == []
