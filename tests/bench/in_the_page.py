"""What happens in a page that is open: the click to the next one, and each keystroke until its result is shown."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tests.bench.start_ups import Browser

# Milliseconds between an edit that is answered and the next one: a quick finger, and time for the page to be drawn.
PAUSE = 15
DIGITS = "3847162950"

EXAMPLE_ENTRIES = """() => {
  const example = document.querySelector(".worked-example");
  return [...example.querySelectorAll("[data-entry]")].map((one) => ({ ...one.dataset }));
}"""

PUT_IN = """(entries) => {
  for (const { entry, text, unit } of entries) {
    const field = document.querySelector(`form [name="${entry}"]`);
    field.value = text;
    const picked = document.querySelector(`form [name="${entry}__unit"]`);
    if (picked && unit) picked.value = unit;
    field.dispatchEvent(new InputEvent("input", { bubbles: true }));
  }
  return entries.filter(({ entry }) => document.querySelector(`form input[name="${entry}"]`)).map((one) => one.entry);
}"""

SHOWN = """() => {
  const section = document.querySelector("[data-module=calculator]");
  return !section.hasAttribute("aria-busy") && section.querySelector("[data-part=state]").dataset.state === "answered";
}"""

CHOICES = '(name) => [...document.querySelectorAll(`form select[name="${name}"] option`)].map((one) => one.value)'


@dataclass(frozen=True)
class Clicks:
    """From each click to the page that it led to, by the slug of its calculator."""

    times: dict[str, list[float]]

    @property
    def all(self) -> list[float]:
        """Every click."""
        return [one for times in self.times.values() for one in times]


def click_through(browser: Browser, address: str, slugs: Sequence[str], rounds: int) -> Clicks:
    """Click from calculator to calculator, as the menu leads, with one Python for the whole visit."""
    browser.open(f"{address}/calculators/{slugs[-1]}.html")
    browser.run("() => threepinBench.whenUsable")
    times: dict[str, list[float]] = {slug: [] for slug in slugs}
    for _ in range(rounds):
        for slug in slugs:
            times[slug].append(browser.run("(a) => threepinBench.clickTo(a)", f"/calculators/{slug}.html"))
    return Clicks(times)


def edit_one_calculator(browser: Browser, address: str, slug: str, edits: int) -> list[float]:
    """Put in the first worked example and change one digit after another, each until its result is shown."""
    browser.open(f"{address}/calculators/{slug}.html")
    browser.run("() => threepinBench.whenUsable")
    example = browser.run(EXAMPLE_ENTRIES)
    typed = browser.run(PUT_IN, example)
    browser.run(f"async () => {{ while (!({SHOWN})()) await new Promise((r) => setTimeout(r, 20)); }}")
    texts = {one["entry"]: one["text"] for one in example}
    numbers = [name for name in typed if any(letter.isdigit() for letter in texts[name])]
    times: list[float] = []
    if numbers:
        for position, name in enumerate(numbers):
            share = edits // len(numbers) + (position < edits % len(numbers))
            changes = [_with_another_digit(texts[name], step) for step in range(share)]
            times += browser.run("(...given) => threepinBench.edit(...given)", name, [*changes, texts[name]], PAUSE)[
                :-1
            ]
        return times
    name = example[0]["entry"]
    choices = [one for one in browser.run(CHOICES, name) if one]
    picks = [choices[step % len(choices)] for step in range(1, edits + 1)]
    return browser.run("(...given) => threepinBench.edit(...given)", name, picks, PAUSE)


def _with_another_digit(text: str, step: int) -> str:
    """The text with its last digit changed, as when somebody reads the meter again; never the same twice running."""
    place = max(position for position, letter in enumerate(text) if letter.isdigit())
    return text[:place] + DIGITS[step % len(DIGITS)] + text[place + 1 :]
