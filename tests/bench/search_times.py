"""How long the theme's search takes to answer in a large handbook: until it can be asked, and from a typed word to its list."""

from __future__ import annotations

from dataclasses import dataclass

from tests.bench.start_ups import Browser

# Types a word into the search field and waits for the list that belongs to it. What is looked for differs each time, so
# that a list left from before is not taken for the new one.
ASK = """async (word) => {
  const field = document.querySelector("[data-md-component=search-query]");
  const result = document.querySelector("[data-md-component=search-result]");
  const words = () => result.querySelector(".md-search-result__meta").textContent.trim();
  const set = async (text) => {
    field.value = text;
    field.dispatchEvent(new KeyboardEvent("keyup", { bubbles: true }));
  };
  const until = (seen) => new Promise((resolve) => {
    const look = () => { if (seen()) { watch.disconnect(); resolve(); } };
    const watch = new MutationObserver(look);
    watch.observe(result, { subtree: true, childList: true, characterData: true });
    look();
  });
  await set("");
  await until(() => words() === "Type to start searching");
  await new Promise((resolve) => { setTimeout(resolve, 100); });
  const begun = performance.now();
  await set(word);
  await until(() => words() !== "Type to start searching" && (result.querySelector(".md-search-result__item") || /^No /.test(words())));
  return { milliseconds: performance.now() - begun, found: result.querySelectorAll(".md-search-result__item").length };
}"""

READY = """async () => {
  const begun = performance.now();
  const field = document.querySelector("[data-md-component=search-query]");
  const meta = document.querySelector(".md-search-result__meta");
  field.focus();
  while (!/Type to start/.test(meta.textContent)) await new Promise((resolve) => { setTimeout(resolve, 10); });
  return performance.now() - begun;
}"""


@dataclass(frozen=True)
class SearchTimes:
    """Milliseconds."""

    ready: float
    answers: dict[str, float]


def ask_search(browser: Browser, address: str, words: list[str]) -> SearchTimes:
    """Open a page, go to its search, and ask it for one word after another."""
    browser.open(f"{address}/index.html")
    ready = browser.run(READY)
    answers = {}
    for word in words:
        told = browser.run(ASK, word)
        if not told["found"]:
            raise AssertionError(f"search found nothing for “{word}”")
        answers[word] = told["milliseconds"]
    return SearchTimes(ready, answers)
