"""WebKitGTK, driven by the WebDriver protocol: its small browser, and the driver program that Debian packs beside it.

The browser needs a display, so it gets one that exists in memory only. Under a driver it keeps nothing on the device
after it has ended, so what was saved can be tried only while it runs.
"""

from __future__ import annotations

import contextlib
import json
import os
import socket
import time
import urllib.error
import urllib.request
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.browser.engines import processes
from tests.browser.engines.engine import PAUSE, Engine, NotSeenError, clicking, typing

STARTS, ANSWERS = 60.0, 120.0
SCREEN = "1280x1000x24"
NO_PROXY = urllib.request.build_opener(urllib.request.ProxyHandler({}))


@dataclass(frozen=True)
class Programs:
    """What it takes to drive WebKitGTK."""

    driver: Path
    browser: Path
    display: Path


class WebKit(Engine):
    """A WebKitGTK browser that starts with nothing saved."""

    name = "WebKitGTK"
    keeps = False

    def __init__(self, programs: Programs, folder: Path) -> None:
        folder.mkdir(parents=True, exist_ok=True)
        self._log = folder / "webkit.log"
        self._seen: list[str] = []
        self.errors = []
        self._ending = contextlib.ExitStack()
        try:
            self._start(programs, folder)
        except BaseException:
            self._ending.close()
            raise

    def _start(self, programs: Programs, folder: Path) -> None:
        display = _display(programs.display, self._log, self._ending)
        here = {"DISPLAY": display, "GDK_BACKEND": "x11", "XDG_CACHE_HOME": str(folder), "XDG_DATA_HOME": str(folder)}
        port = _free_port()
        driver = processes.start(
            [programs.driver, "--host=127.0.0.1", f"--port={port}"], log=self._log, environment=os.environ | here
        )
        self._ending.callback(processes.end, driver, grace=2.0)
        self._ending.callback(driver.terminate)
        self._address = f"http://127.0.0.1:{port}"
        self._until_it_listens()
        options = {"binary": str(programs.browser), "args": ["--automation"]}
        wanted = {"webkitgtk:browserOptions": options, "timeouts": {"script": ANSWERS * 1000}}
        told = self._tell("POST", "/session", capabilities={"alwaysMatch": wanted})
        self.version = told["capabilities"]["browserVersion"]
        self._session = f"/session/{told['sessionId']}"

    def _go(self, url: str) -> None:
        """Go to a page and wait until the engine says that it has loaded."""
        self._note_what_was_asked()
        self._tell("POST", f"{self._session}/url", url=url)

    def evaluate(self, expression: str) -> Any:
        """The value of an expression of JavaScript in the page, a promise waited for. It has to be a text."""
        script = (
            "const done = arguments[0];"
            f"Promise.resolve({expression}).then((value) => done({{ value }}), (why) => done({{ why: String(why) }}));"
        )
        told = self._tell("POST", f"{self._session}/execute/async", script=script, args=[])
        if "why" in told:
            raise AssertionError(f"{expression}: {told['why']}")
        return told["value"]

    def press(self, text: str) -> None:
        """Type with the keyboard into what has the focus."""
        self._tell("POST", f"{self._session}/actions", actions=typing(text))

    def point(self, across: int, down: int) -> None:
        """Move the pointer to a place in the window, and push its button."""
        self._tell("POST", f"{self._session}/actions", actions=clicking(across, down))

    def asked_for(self) -> list[str]:
        """The address of everything that pages have asked for by themselves; what a worker asks for is not told."""
        self._note_what_was_asked()
        return list(self._seen)

    def close(self) -> None:
        """End the browser, and every process that it has started."""
        with contextlib.suppress(Exception):
            self._tell("DELETE", self._session, patience=processes.GRACE)
        self._ending.close()

    def _note_what_was_asked(self) -> None:
        self._seen += self.run("() => performance.getEntriesByType('resource').map(({ name }) => name)")

    def _until_it_listens(self) -> None:
        end = time.monotonic() + STARTS
        while time.monotonic() < end:
            with contextlib.suppress(OSError):
                if self._tell("GET", "/status")["ready"]:
                    return
            time.sleep(PAUSE)
        raise NotSeenError(f"the driver of WebKitGTK did not listen within {STARTS:.0f} s; see {self._log}")

    def _tell(self, method: str, path: str, *, patience: float = ANSWERS, **parameters: Any) -> Any:
        body = json.dumps(parameters).encode() if method == "POST" else None
        request = urllib.request.Request(self._address + path, method=method, data=body)
        try:
            with NO_PROXY.open(request, timeout=patience) as answer:
                return json.load(answer)["value"]
        except urllib.error.HTTPError as refused:
            with refused:
                told = json.load(refused)["value"]
            kind = TimeoutError if told["error"].endswith("timeout") else AssertionError
            raise kind(f"{path}: {told['error']}: {told['message']}") from None


def _display(program: Path, log: Path, ending: contextlib.ExitStack) -> str:
    """A display in memory, under the first number that is free; its name."""
    told, tells = os.pipe()
    try:
        command = [program, "-displayfd", str(tells), "-screen", "0", SCREEN, "-nolisten", "tcp"]
        server = processes.start(command, log=log, environment=os.environ, pass_fds=(tells,))
    finally:
        os.close(tells)
    ending.callback(processes.end, server, grace=2.0)
    ending.callback(server.terminate)
    with open(told, encoding="ascii") as number:
        said = number.readline().strip()
    if not said:
        raise NotSeenError(f"no display could be made for WebKitGTK; see {log}")
    return f":{said}"


def _free_port() -> int:
    with socket.socket() as asking:
        asking.bind(("127.0.0.1", 0))
        return int(asking.getsockname()[1])
