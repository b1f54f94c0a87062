"""Firefox, driven by WebDriver BiDi: one websocket to the browser itself, with no program between."""

from __future__ import annotations

import contextlib
import json
import os
import time
from pathlib import Path
from typing import Any

from websockets.sync.client import connect

from tests.browser.engines import processes
from tests.browser.engines.engine import PAUSE, Engine, NotSeenError, clicking, typing

STARTS, ANSWERS = 60.0, 120.0
# Firefox writes its address into its profile as soon as it listens.
LISTENS = "WebDriverBiDiServer.json"

# The browser itself asks its makers for much; without names nothing but this computer can be reached.
PREFERENCES = {
    "network.dns.disabled": True,
    "app.update.disabledForTesting": True,
    "browser.shell.checkDefaultBrowser": False,
    "datareporting.policy.dataSubmissionEnabled": False,
    "toolkit.telemetry.enabled": False,
}


class Firefox(Engine):
    """A Firefox with a profile of its own in a folder; what is saved there is there again for the next one."""

    name = "Firefox"
    keeps = True

    def __init__(self, program: Path, profile: Path) -> None:
        profile.mkdir(parents=True, exist_ok=True)
        (profile / LISTENS).unlink(missing_ok=True)
        settings = (f"user_pref({json.dumps(key)}, {json.dumps(value)});\n" for key, value in PREFERENCES.items())
        (profile / "user.js").write_text("".join(settings), encoding="utf-8")
        self.errors = []
        self.starts: list[str] = []
        self._asked: list[str] = []
        self._last_id = 0
        self._ending = contextlib.ExitStack()
        command = [program, "--headless", "--no-remote", "--profile", profile, "--remote-debugging-port", "0"]
        environment = os.environ | {"MOZ_CRASHREPORTER_DISABLE": "1"}
        browser = processes.start(
            [*command, "about:blank"], log=profile.parent / f"{profile.name}.log", environment=environment
        )
        self._ending.callback(processes.end, browser)
        try:
            self._connect(profile)
        except BaseException:
            browser.terminate()
            self._ending.close()
            raise

    def _connect(self, profile: Path) -> None:
        place = self._ending.enter_context(
            connect(f"{_listening(profile)}/session", max_size=None, ping_interval=None, close_timeout=1)
        )
        self._socket = place
        self.version = self._tell("session.new", capabilities={})["capabilities"]["browserVersion"]
        self._tell("session.subscribe", events=["log.entryAdded", "network.beforeRequestSent"])
        # A tab of our own: in the first one the keyboard would belong to the address bar.
        self._page = self._tell("browsingContext.create", type="tab")["context"]

    def _go(self, url: str) -> None:
        """Go to a page and wait until the engine says that it has loaded."""
        self._tell("browsingContext.navigate", context=self._page, url=url, wait="complete")

    def evaluate(self, expression: str) -> Any:
        """The value of an expression of JavaScript in the page, a promise waited for. It has to be a text."""
        told = self._tell(
            "script.evaluate",
            expression=expression,
            target={"context": self._page},
            awaitPromise=True,
            userActivation=True,
        )
        if told["type"] != "success":
            raise AssertionError(f"{expression}: {told['exceptionDetails']['text']}")
        return told["result"]["value"]

    def press(self, text: str) -> None:
        """Type with the keyboard into what has the focus."""
        self._tell("input.performActions", context=self._page, actions=typing(text))

    def point(self, across: int, down: int) -> None:
        """Move the pointer to a place in the window, and push its button."""
        self._tell("input.performActions", context=self._page, actions=clicking(across, down))

    def asked_for(self) -> list[str]:
        """The address of everything that pages have asked for."""
        self.run("() => 0")  # whatever was told before this answer has been heard by then
        return list(self._asked)

    def close(self) -> None:
        """End the browser, and every process that it has started."""
        with contextlib.suppress(Exception):
            self._tell("browser.close")
        self._ending.close()

    def _tell(self, method: str, **parameters: Any) -> Any:
        """Send one command and return its result; what else is heard on the way is noted."""
        self._last_id += 1
        self._socket.send(json.dumps({"id": self._last_id, "method": method, "params": parameters}))
        while True:
            heard = json.loads(self._socket.recv(timeout=ANSWERS))
            if heard["type"] == "event":
                self._note(heard["method"], heard["params"])
            elif heard["id"] == self._last_id:
                if heard["type"] == "error":
                    raise AssertionError(f"{method}: {heard['error']}: {heard['message']}")
                return heard["result"]

    def _note(self, event: str, told: dict[str, Any]) -> None:
        if event == "network.beforeRequestSent":
            self._asked.append(told["request"]["url"])
            return
        text = told.get("text") or ""
        if told["level"] == "error":
            self.errors.append(text)
        elif text.startswith(("Python started", "Python did not start")):
            self.starts.append(text)


def _listening(profile: Path) -> str:
    end = time.monotonic() + STARTS
    while time.monotonic() < end:
        with contextlib.suppress(FileNotFoundError, ValueError):
            place = json.loads((profile / LISTENS).read_text(encoding="utf-8"))
            return f"ws://{place['ws_host']}:{place['ws_port']}"
        time.sleep(PAUSE)
    raise NotSeenError(f"Firefox did not listen within {STARTS:.0f} s; see {profile}.log")
