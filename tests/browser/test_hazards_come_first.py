"""On the narrowest phone and on paper, who may do it and every hazard of a page stand above its first step, unfolded."""

from __future__ import annotations

from pathlib import Path

import yaml

ROOT = Path(__file__).resolve().parents[2]
NARROW = {"width": 360, "height": 740}

# What a reader sees: where each thing begins and ends, and what is folded, hidden or cut off.
LOOK = """() => {
  const shown = (one) => one.checkVisibility({ checkOpacity: true, checkVisibilityCSS: true })
    && one.getBoundingClientRect().height > 0 && !one.closest("details")
    && one.scrollWidth <= one.clientWidth + 1;
  const bottom = (one) => one.getBoundingClientRect().bottom;
  const hazards = [...document.querySelectorAll(".page-hazards li")];
  const level = document.querySelector(".page-level");
  const step = document.querySelector("#step-1");
  const first = step.checkVisibility() ? step : document.querySelector(".gate");  // a gate folds the steps behind it
  return {
    links: hazards.map((one) => one.querySelector("a")?.getAttribute("href") ?? ""),
    hidden: [level, ...hazards, ...hazards.map((one) => one.querySelector(".controls"))]
      .filter((one) => !one || (one.tagName === "SPAN" ? !one.checkVisibility() : !shown(one)))
      .map((one) => one?.textContent ?? "missing"),
    below: [level, ...hazards].filter((one) => bottom(one) > first.getBoundingClientRect().top).length,
    steps: step.checkVisibility(),
  };
}"""


def procedures() -> dict[str, list[str]]:
    """The hazards that each procedure names in its front matter."""
    named = {}
    for file in sorted((ROOT / "handbook" / "procedures").glob("*.md")):
        front = next(yaml.safe_load_all(file.read_text(encoding="utf-8").split("\n---\n")[0]))
        named[front["id"]] = front["hazards"]
    return named


def test_every_hazard_stands_above_the_first_step_with_nothing_folded(visit, served):
    named = procedures()
    assert len(named) > 25
    page = visit(f"{served}/index.html")
    page.set_viewport_size(NARROW)
    for key, hazards in named.items():
        page.goto(f"{served}/procedures/{key}.html")
        page.locator("#step-1").wait_for(state="attached")
        for medium in ("screen", "print"):
            page.emulate_media(media=medium)
            seen = page.evaluate(LOOK)
            assert [link.rpartition("#")[2] for link in seen["links"]] == hazards, key
            assert seen["hidden"] == [], (key, medium)
            assert seen["below"] == 0, (key, medium)
        assert seen["steps"], f"{key}: on paper the steps show"
