"""What a test does with a browser, whichever engine it has: open, look, type, wait.

Waiting is one loop here, so that every engine waits the same way, and as long as a busy test machine may need.
"""

from __future__ import annotations

import json
import time
from abc import ABC, abstractmethod
from collections.abc import Callable, Mapping
from typing import Any

PATIENCE = 90.0
PAUSE = 0.05

SAID = "s => [...document.querySelectorAll(s)].map((one) => one.textContent.replace(/\\s+/g, ' ').trim())"

# What a test that failed wants to know of the page.
TELLING = "h1, [data-part=state], [data-part=outcome] .sentence, .field-problem, [data-start], [data-part=saved]"

# Neither the page before nor the empty one that an engine shows in between.
IS_WHOLE = """(url) => !window.isLeft && document.readyState === "complete"
  && location.pathname === new URL(url).pathname"""

# Makes a field ready to be typed into, wherever it is folded away; a choice is made at once, there is nothing to type.
GET_READY = """(name, text) => {
  const field = document.querySelector(`form [name="${name}"]`);
  for (let fold = field.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
  field.focus();
  if (field instanceof HTMLInputElement) {
    field.select();
    return true;
  }
  field.value = text;
  field.dispatchEvent(new Event("input", { bubbles: true }));
  return false;
}"""


# Where to point: the middle of an element, once nothing around it is about to move it (an engine that is busy can stay
# at the first picture of a movement for long), and whether it is the element that would be met there.
MIDDLE = """async (s) => {
  const element = document.querySelector(s);
  element.scrollIntoView({ block: "center", behavior: "instant" });
  const moving = document.getAnimations().filter(({ effect }) => effect?.target?.contains(element));
  await Promise.allSettled(moving.map(({ finished }) => finished));
  await new Promise((resolve) => setTimeout(resolve, 50));
  const { x, y, width, height } = element.getBoundingClientRect();
  const [across, down] = [Math.floor(x + width / 2), Math.floor(y + height / 2)];
  const met = document.elementFromPoint(across, down);
  return { at: [across, down], met: element.contains(met) };
}"""


def clicking(across: int, down: int) -> list[dict[str, Any]]:
    """The actions of a pointer, as both protocols have them."""
    moves = [{"type": "pointerMove", "x": across, "y": down}]
    pushes = [{"type": kind, "button": 0} for kind in ("pointerDown", "pointerUp")]
    return [{"type": "pointer", "id": "mouse", "parameters": {"pointerType": "mouse"}, "actions": moves + pushes}]


def typing(text: str) -> list[dict[str, Any]]:
    """The actions of a keyboard, as both protocols have them."""
    keys = [{"type": kind, "value": key} for key in text for kind in ("keyDown", "keyUp")]
    return [{"type": "key", "id": "keyboard", "actions": keys}]


class NotSeenError(AssertionError):
    """What was waited for never came; the text says what the page showed instead."""


class Engine(ABC):
    """One running browser that shows one page."""

    name: str
    version: str
    keeps: bool
    """Whether what was saved is there again for the next process on the same folder."""
    errors: list[str]
    """What a page has complained of and nobody caught, as far as the engine tells."""

    def open(self, url: str) -> None:
        """Go to a page and wait until it has loaded; engines say so somewhat early, while the page before still stands."""
        self.run("() => { window.isLeft = true; }")
        self._go(url)
        self.wait("the whole page", lambda: self.run(IS_WHOLE, url))

    @abstractmethod
    def _go(self, url: str) -> None:
        """Go to a page and wait until the engine says that it has loaded."""

    @abstractmethod
    def evaluate(self, expression: str) -> Any:
        """The value of an expression of JavaScript in the page, a promise waited for. It has to be a text."""

    @abstractmethod
    def press(self, text: str) -> None:
        """Type with the keyboard into what has the focus."""

    @abstractmethod
    def point(self, across: int, down: int) -> None:
        """Move the pointer to a place in the window, and push its button."""

    @abstractmethod
    def asked_for(self) -> list[str]:
        """The address of everything that pages have asked for, as far as the engine tells."""

    @abstractmethod
    def close(self) -> None:
        """End the browser, and every process that it has started."""

    def run(self, function: str, *arguments: Any) -> Any:
        """What a function of JavaScript returns in the page, called with these arguments."""
        given = ", ".join(json.dumps(one) for one in arguments)
        return json.loads(self.evaluate(f"(async () => JSON.stringify((await ({function})({given})) ?? null))()"))

    def type_in(self, entries: Mapping[str, str]) -> None:
        """Type into the fields of a calculator, by their names, in place of what stands there."""
        for name, text in entries.items():
            if self.run(GET_READY, name, text):
                self.press(text)

    def texts(self, selector: str) -> list[str]:
        """What each of these elements says, in one line."""
        return self.run(SAID, selector)

    def attribute(self, selector: str, name: str) -> str | None:
        """An attribute of the first of these elements; None while there is none."""
        return self.run("(s, name) => document.querySelector(s)?.getAttribute(name)", selector, name)

    def click(self, selector: str) -> None:
        """Point at the first of these elements and push the button, once it stands still and nothing covers it."""
        looks: list[Any] = [None]

        def stands_still() -> Any:
            looks.append(self.run(MIDDLE, selector))
            return looks[-1] == looks[-2] and looks[-1]["met"]

        self.wait(f"{selector}, standing still and uncovered", stands_still)
        self.point(*looks[-1]["at"])

    def wait(self, what: str, look: Callable[[], Any]) -> Any:
        """Look again and again until there is something, and return it."""
        end = time.monotonic() + PATIENCE
        while not (seen := look()):
            if time.monotonic() > end:
                raise NotSeenError(
                    f"{self.name} {self.version}: {what}: not seen. The page says: {self.texts(TELLING)}"
                )
            time.sleep(PAUSE)
        return seen

    def wait_for(self, selector: str) -> None:
        """Wait until there is such an element."""
        self.wait(selector, lambda: self.run("s => document.querySelector(s) !== null", selector))

    def wait_for_text(self, selector: str, text: str) -> None:
        """Wait until one of these elements says this among other things."""
        self.wait(f"“{text}” in {selector}", lambda: any(text in said for said in self.texts(selector)))
