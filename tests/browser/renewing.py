"""What the tests of a renewed handbook share: a next release of the built site, and a host that hands out one or the other."""

from __future__ import annotations

import functools
import json
import os
import re
import shutil
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import BrowserContext, Locator, Page, expect

from build_scripts.precache import PLACEHOLDER, SERVICE_WORKER, list_entries, service_worker
from build_scripts.serve import SiteHandler, SiteServer

ROOT = Path(__file__).resolve().parents[2]
BUILD_FACTS = "assets/data/build.json"


def revision_of(site: Path) -> str:
    """The revision that a built site says it is of."""
    return str(json.loads((site / BUILD_FACTS).read_text(encoding="utf-8"))["revision"])


def listed_files(site: Path, which: str = "files") -> list[dict[str, str]]:
    """What the service worker of a site saves."""
    script = (site / SERVICE_WORKER).read_text(encoding="utf-8").split("\n", 1)[0]
    release = json.loads(script.removeprefix(f"const {PLACEHOLDER}=").removesuffix(";"))
    files: list[dict[str, str]] = release[which]
    return files


def make_next_release(site: Path, target: Path, revision: str) -> Path:
    """A copy of the site in which every page says another revision; what does not change is linked, not copied."""
    shutil.copytree(site, target, copy_function=os.link)
    before = revision_of(site)
    for file in [*target.rglob("*.html"), target / BUILD_FACTS]:
        text = file.read_text(encoding="utf-8").replace(before, revision)
        file.unlink()
        file.write_text(text, encoding="utf-8", newline="\n")
    (target / SERVICE_WORKER).unlink()
    (target / SERVICE_WORKER).write_bytes(service_worker(ROOT, list_entries(target), revision))
    return target


# A new service worker is looked for, and what becomes of it is told.
LOOK_FOR_NEWER = """async () => {
  const registration = await navigator.serviceWorker.getRegistration();
  try {
    await registration.update();
  } catch {
    return "not found";
  }
  const arriving = registration.installing ?? registration.waiting;
  if (!arriving) return "nothing newer";
  while (!["installed", "redundant"].includes(arriving.state)) {
    await new Promise((resolve) => arriving.addEventListener("statechange", resolve, { once: true }));
  }
  return arriving.state;
}"""


def status(page: Page) -> Locator:
    """Where a page says how the copy on this device stands."""
    return page.locator("[data-part=saved]")


def expect_saved(page: Page, revision: str) -> None:
    """The page says that all of a revision is on the device, what stands in as well."""
    words = rf"Saved on this device: \d+\.\d MB, revision {re.escape(revision)}\. It works without network\. .* more stand in"
    expect(status(page)).to_contain_text(re.compile(words))


def expect_release(page: Page, revision: str) -> None:
    """The page is of that revision."""
    expect(page.locator("[data-release]")).to_have_attribute("data-release", re.compile(f"^{re.escape(revision)} "))


@dataclass
class RenewableHost:
    """Hands out a folder that can be changed for another one, and can be told to break off."""

    folder: Path
    address: str = ""
    handed_out: list[str] = field(default_factory=list)
    # How many more files are handed out, and how the next ones are refused: see _Handler. None is no end.
    files_left: int | None = None
    refusal: str = "closed"
    before: Callable[[str], None] | None = None
    lock: threading.Lock = field(default_factory=threading.Lock)

    def hand_out_all(self, folder: Path) -> None:
        """Do as a host should, from this folder."""
        self.folder, self.files_left, self.before, self.refusal = folder, None, None, "closed"

    def hands_out(self, path: str) -> bool:
        """Whether this file is still handed out; it counts."""
        if path == f"/{SERVICE_WORKER}":
            return True
        with self.lock:
            if self.files_left is not None:
                self.files_left -= 1
            if self.files_left is None or self.files_left >= 0:
                self.handed_out.append(path)
                return True
            return False


class _Handler(SiteHandler):
    def __init__(self, host: RenewableHost, *more: Any) -> None:
        self.host = host
        super().__init__(*more, directory=str(host.folder))

    def do_GET(self) -> None:
        if self.host.before:
            self.host.before(self.path)
        self.directory = str(self.host.folder)  # The connection may be older than the change.
        if self.host.hands_out(self.path):
            super().do_GET()
        elif self.host.refusal == "error":
            self.send_error(503, "Not now")
        elif self.host.refusal == "half":
            content = Path(self.translate_path(self.path)).read_bytes()
            self.send_response(200)
            self.send_header("Content-Type", self.guess_type(self.path))
            self.send_header("Content-Length", str(len(content)))
            self.end_headers()
            self.wfile.write(content[: len(content) // 2])
            self.close_connection = True
        else:
            self.close_connection = True


@contextmanager
def renewable(folder: Path) -> Iterator[RenewableHost]:
    """A host of the folder on this computer."""
    host = RenewableHost(folder)
    server = SiteServer(("127.0.0.1", 0), functools.partial(_Handler, host))
    server.handle_error = lambda *_: None  # type: ignore[method-assign]
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    host.address = f"http://127.0.0.1:{server.server_address[1]}"
    try:
        yield host
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


@dataclass
class Keeper:
    """A browser that keeps what it has saved from one test to the next."""

    context: BrowserContext
    host: RenewableHost

    def open_saved(self, site: Path) -> Page:
        """The start page where the built site is saved, whatever the test before has left."""
        self.host.hand_out_all(site)
        page = self.context.new_page()
        set_room(page, self.host, None)
        page.goto(f"{self.host.address}/index.html")
        expect(status(page)).to_have_attribute("data-saved", "saved")
        if page.evaluate(LOOK_FOR_NEWER) == "installed":
            page.evaluate(
                """async () => {
                  const { waiting } = await navigator.serviceWorker.getRegistration();
                  const taken = new Promise((resolve) => { navigator.serviceWorker.oncontrollerchange = resolve; });
                  waiting.postMessage({ verb: "take-over" });
                  await taken;
                }"""
            )
            page.reload()
        expect_release(page, revision_of(site))
        expect_saved(page, revision_of(site))
        return page


def set_room(page: Page, host: RenewableHost, room: int | None) -> None:
    """How many bytes the browser grants the site; None is as many as it would by itself."""
    more = {} if room is None else {"quotaSize": room}
    page.context.new_cdp_session(page).send("Storage.overrideQuotaForOrigin", {"origin": host.address, **more})


def stop_the_service_worker(page: Page) -> None:
    """As a browser does when it has had nothing to do for a while."""
    driver = page.context.new_cdp_session(page)
    driver.send("ServiceWorker.enable")
    driver.send("ServiceWorker.stopAllWorkers")
