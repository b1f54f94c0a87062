"""Chromium as the benchmark needs it: a new process each time, on a profile that stays or on a new one."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from playwright.sync_api import Playwright

from build_scripts.browser_setup import ARGUMENTS

PATIENCE = 120_000


class Chromium:
    """One process of the browser, showing one page."""

    name = "Chromium"

    def __init__(self, playwright: Playwright, program: Path, profile: Path) -> None:
        self._context = playwright.chromium.launch_persistent_context(
            profile, executable_path=program, args=list(ARGUMENTS), viewport={"width": 390, "height": 844}
        )
        self._context.set_default_timeout(PATIENCE)
        self._page = self._context.pages[0]

    @property
    def version(self) -> str:
        """Its version as it says it."""
        browser = self._context.browser
        return browser.version if browser else self.run("() => navigator.userAgent")

    def open(self, url: str) -> None:
        """Go to a page and wait until it has loaded."""
        self._page.goto(url, wait_until="load")

    def run(self, function: str, *arguments: Any) -> Any:
        """What a function of JavaScript returns in the page, called with these arguments."""
        given = ", ".join(json.dumps(one) for one in arguments)
        return self._page.evaluate(f"() => ({function})({given})")

    def close(self) -> None:
        """End the process."""
        self._context.close()
