"""Thousands of answers one after another, from calculator to calculator: memory stays as it is, counted in bytes."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from random import Random
from typing import Any

from playwright.sync_api import CDPSession, Page, expect

from calculators import CALCULATORS
from tests.browser.drawn import enter_example
from tests.browser.pythons import own_python

# Of each calculator, in turn.
WARM_UP, EDITS = 6, 16
WARM_UP_IN_FULL, EDITS_IN_FULL = 125, 1_250
LONG_COUNT = 20_000
PAGES_WEIGHED = 4  # In the short run: what costs most is freeing what can be freed.

# What an allocator may take more at a time, for reasons of its own. A leak of a few bytes an answer is more in the end.
AT_ONCE = 1 << 20
# Nodes of a page. A refused entry has fewer of them than a full answer, which has some hundred.
MORE_NODES = 1_000

# Stands before the worker's script, which hands its memory to nobody, and counts what it is asked.
KEEPS_MEMORY = """
const { instantiate } = WebAssembly;
WebAssembly.instantiate = async (...given) => {
  const made = await instantiate(...given);
  if (made.exports?.memory) self.instanceOfPython = made;
  return made;
};
self.asked = 0;
self.addEventListener("message", ({ data }) => { self.asked += data.verb === "answer" ? 1 : 0; });
"""

# For each number drawn between 0 and 1: some field that the reader can reach gets another digit or another choice, and
# the next one has to wait for the answer.
EDIT = """async (draws) => {
  const section = document.querySelector("[data-module=calculator]");
  const takesEdits = (one) => one instanceof HTMLSelectElement ? one.options.length > 1 : /\\d/.test(one.value);
  const answered = () => new Promise((resolve) => {
    const watch = new MutationObserver(() => {
      if (section.hasAttribute("aria-busy")) return;
      watch.disconnect();
      resolve();
    });
    watch.observe(section, { attributes: true, attributeFilter: ["aria-busy"] });
  });
  for (const [which, what] of draws) {
    const fields = [...section.querySelectorAll("form [name]")].filter((one) => one.offsetParent && takesEdits(one));
    const field = fields[Math.floor(which * fields.length)];
    if (field instanceof HTMLSelectElement) field.selectedIndex = Math.floor(what * field.options.length);
    else field.value = field.value.replace(/\\d(?=\\D*$)/, String(Math.floor(what * 10)));
    const shown = answered();
    field.dispatchEvent(new InputEvent("input", { bubbles: true }));
    await shown;
  }
}"""

FOLLOW_MENU = """(slug) => {
  const ending = `/calculators/${slug}.html`;
  [...document.querySelectorAll(".md-nav a")].find((link) => link.pathname.endsWith(ending)).click();
}"""


@dataclass(frozen=True)
class Held:
    """What Python and its worker hold, in bytes, after everything that can be freed has been freed."""

    wasm_memory: int
    python_heap: int
    worker_heap: int


@dataclass(frozen=True)
class Shown:
    """What the page holds, in bytes and in nodes, after everything that can be freed has been freed."""

    heap: int
    nodes: int


class Scales:
    """Weighs the page and its worker."""

    def __init__(self, page: Page) -> None:
        self._page = page
        self._session: CDPSession = page.context.new_cdp_session(page)
        self._worker_session = ""
        self._heard: dict[int, Any] = {}
        self._session.on("Target.attachedToTarget", self._attached)
        self._session.on("Target.receivedMessageFromTarget", self._received)
        self._session.send(
            "Target.setAutoAttach", {"autoAttach": True, "waitForDebuggerOnStart": False, "flatten": False}
        )

    def python(self) -> Held:
        """Weigh the worker."""
        for _ in range(2):
            self._ask_worker("HeapProfiler.collectGarbage")
        python = own_python(self._page)
        return Held(
            wasm_memory=python.evaluate("() => instanceOfPython.exports.memory.buffer.byteLength"),
            python_heap=python.evaluate("() => instanceOfPython.exports.sbrk(0)"),
            worker_heap=self._ask_worker("Runtime.getHeapUsage")["usedSize"],
        )

    def page(self) -> Shown:
        """Weigh the page."""
        for _ in range(2):
            self._session.send("HeapProfiler.collectGarbage")
        heap = self._session.send("Runtime.getHeapUsage")["usedSize"]
        return Shown(heap=heap, nodes=self._session.send("Memory.getDOMCounters")["nodes"])

    def _attached(self, event: dict[str, Any]) -> None:
        if "/scripts/worker-" in event["targetInfo"]["url"]:
            self._worker_session = event["sessionId"]

    def _received(self, event: dict[str, Any]) -> None:
        said = json.loads(event["message"])
        if "id" in said:
            self._heard[said["id"]] = said["result"]

    def _ask_worker(self, method: str) -> Any:
        number = len(self._heard) + 1
        message = json.dumps({"id": number, "method": method})
        self._session.send("Target.sendMessageToTarget", {"sessionId": self._worker_session, "message": message})
        while number not in self._heard:
            self._page.wait_for_timeout(20)
        return self._heard[number]


def go_to(page: Page, slug: str) -> None:
    """Follow a link of the menu, without loading the page in full, and enter the worked example."""
    page.evaluate(FOLLOW_MENU, slug)
    page.locator(f"[data-calculator={slug}]").wait_for()
    enter_anew(page)


def enter_anew(page: Page) -> None:
    """Clear the form, which may hold what was entered long ago, and enter the worked example."""
    page.locator("[data-action=clear]").evaluate("(button) => button.click()")
    enter_example(page.locator(".worked-example").first)
    expect(page.locator("[data-part=state]")).to_have_attribute("data-state", "answered")


def use_every_calculator(page: Page, edits: int, random: Random) -> Iterator[str]:
    """So many edits of each, all with their answers, in an order drawn at random; tells before and after those of each."""
    for slug in random.sample(sorted(CALCULATORS), len(CALCULATORS)):
        go_to(page, slug)
        yield slug
        page.evaluate(EDIT, [[random.random(), random.random()] for _ in range(edits)])
        enter_anew(page)
        yield slug


def test_memory_stays_as_it_is_through_thousands_of_answers(visit, served, watch, long_run, seed):
    page = visit("about:blank", alone=True)

    def with_its_memory(route) -> None:
        route.fulfill(body=KEEPS_MEMORY + route.fetch().text(), content_type="text/javascript")

    page.context.route("**/scripts/worker-*.js", with_its_memory)
    page.goto(f"{served}/calculators/winding-identification.html")
    page.locator("[data-part=state]:not([data-state=starting])").wait_for()
    page.evaluate("() => { window.thisDocument = true; }")
    warm_up, edits = (WARM_UP_IN_FULL, EDITS_IN_FULL) if long_run else (WARM_UP, EDITS)
    scales, random = Scales(page), Random(seed)
    for _ in use_every_calculator(page, warm_up, random):
        pass
    before, asked_before = scales.python(), own_python(page).evaluate("() => self.asked")
    # Pages that were left are not weighed: the theme holds on to each that it replaced, with and without our scripts.
    entered = use_every_calculator(page, edits, random)
    weighed = sorted(CALCULATORS) if long_run else random.sample(sorted(CALCULATORS), PAGES_WEIGHED)
    for slug in entered:
        shown = scales.page() if slug in weighed else None
        next(entered)
        if not shown:
            continue
        grown = scales.page()
        assert grown.nodes - shown.nodes <= MORE_NODES, slug
        assert grown.heap - shown.heap <= AT_ONCE, slug
    after, asked = scales.python(), own_python(page).evaluate("() => self.asked") - asked_before
    print(asked, before, after, sep="\n")
    assert asked >= (LONG_COUNT if long_run else edits * len(CALCULATORS))
    assert page.evaluate("() => window.thisDocument") is True
    assert len(watch.starts) == 1, "one Python has answered all of it"
    assert after.wasm_memory == before.wasm_memory
    assert after.python_heap - before.python_heap <= AT_ONCE
    assert after.worker_heap - before.worker_heap <= AT_ONCE
