"""The Python of a page as a test reaches it: a worker of the page's own by the driver, a shared one by the browser."""

from __future__ import annotations

from pathlib import Path
from urllib.parse import urlsplit

from playwright.sync_api import Browser, CDPSession, Page, Worker

from build_scripts.name_by_content import packed_file

WORKER = "assets/scripts/worker.js"

# Comes before the worker's own script. What is typed as Reading 1-2 then brings about what a device or a mistake might.
TROUBLE = """
(() => {
  let parts;
  const set = (given) => {
    parts = { ...given, loadPyodide: async (options) => {
      const python = await given.loadPyodide(options);
      python.runPython(`
import calculators.answer as door
_evaluate = door.evaluate
def evaluate(calculator, typed, standards):
    text = typed["r12"].text if "r12" in typed else ""
    while text == "6.66": pass
    if text == "6.67": bytes(200_000_000)
    return _evaluate(calculator, typed, standards)
door.evaluate = evaluate
      `);
      // From here on the device has no more memory to give.
      WebAssembly.Memory.prototype.grow = () => { throw new RangeError("Unable to grow instance memory"); };
      return python;
    } };
  };
  Object.defineProperty(self, "threepinPython", { configurable: true, get: () => parts, set });
})();
"""

# Comes before it too: the worker that pages share runs, and hears none of them.
HANGS_WHERE_SHARED = """
if ("onconnect" in self) {
  self.addEventListener("connect", (event) => event.stopImmediatePropagation());
  navigator.locks.request(`${self.name} hanging`, () => {
    setTimeout(() => { for (;;); });
    return new Promise(() => {});
  });
}
"""
RUNS_AWAY, EATS_MEMORY = "6.66", "6.67"


def own_python(page: Page) -> Worker:
    """The one worker that holds the Python of this page alone."""
    (python,) = [
        worker for worker in page.workers if "/scripts/worker-" in worker.url or worker.url.startswith("blob:")
    ]
    return python


class SharedPythons:
    """The shared workers of one address, as the browser itself lists and ends them."""

    def __init__(self, browser: Browser, address: str) -> None:
        self._session: CDPSession = browser.new_browser_cdp_session()
        self._host = urlsplit(address).netloc

    def running(self) -> list[str]:
        """The name of the script of each."""
        return [Path(urlsplit(url).path).name for _, url in self._targets()]

    def end(self) -> None:
        """End each, as a browser does that is short of memory: nobody is told."""
        for target, _ in self._targets():
            self._session.send("Target.closeTarget", {"targetId": target})

    def _targets(self) -> list[tuple[str, str]]:
        found = self._session.send("Target.getTargets")["targetInfos"]
        return [
            (one["targetId"], one["url"])
            for one in found
            if one["type"] == "shared_worker" and urlsplit(one["url"]).netloc == self._host
        ]


def make_trouble(site: Path, trouble: str = TROUBLE) -> None:
    """Put what brings about trouble before the worker's own script, in a copy of the site."""
    script = packed_file(site, WORKER)
    script.write_text(trouble + script.read_text(encoding="utf-8"), encoding="utf-8")
