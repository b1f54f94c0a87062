"""Keyboard alone, text at twice its size, a column 320 px wide, and no movement for those who asked for none."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

WINDINGS = "/calculators/winding-identification.html"
DEAD = "/procedures/make-safe-prove-dead.html"
PAGES = (
    "/index.html",
    DEAD,
    "/procedures/running-amps.html",
    WINDINGS,
    "/calculators/next-check.html",
    "/reference/limits.html",
    "/reference/connections.html",
    "/reference/decision-chart.html",
    "/reference/booklet.html",
)

# Whatever has the focus: its name for a screen reader is not asked here (axe does), only that a person sees where it is.
FOCUS = """() => {
  const one = document.activeElement;
  const style = getComputedStyle(one);
  const seen = style.outlineStyle !== "none" && parseFloat(style.outlineWidth) > 0;
  return { tag: one.tagName, name: one.getAttribute("name") ?? "", inArticle: Boolean(one.closest("article")),
    seen: seen || style.boxShadow !== "none", words: one.outerHTML.slice(0, 120) };
}"""

# What runs past the edge of the screen, or is cut off inside a box that does not scroll.
TOO_WIDE = """() => {
  const wide = document.documentElement.scrollWidth - document.documentElement.clientWidth;
  const cut = [...document.querySelectorAll("article button, article label, article legend:not(.said-by-summary), article summary")]
    .filter((one) => one.checkVisibility() && getComputedStyle(one).overflow !== "visible")
    .filter((one) => one.scrollWidth > one.clientWidth + 1 || one.scrollHeight > one.clientHeight + 1);
  return [...(wide > 1 ? [`${wide} px wider than the screen`] : []), ...cut.map((one) => one.outerHTML.slice(0, 120))];
}"""


def unfold(page: Page) -> None:
    page.evaluate("() => { for (const folded of document.querySelectorAll('article details')) folded.open = true; }")


def test_a_calculator_is_filled_and_answers_by_keyboard_alone(visit, served):
    page = visit(served + WINDINGS, size="desktop")
    wanted = {"r12": "4.2", "r23": "17.9", "r13": "13.8"}
    unseen = []
    for _ in range(120):
        page.keyboard.press("Tab")
        focus = page.evaluate(FOCUS)
        if focus["inArticle"] and not focus["seen"]:
            unseen.append(focus["words"])
        if focus["name"] in wanted:
            page.keyboard.type(wanted.pop(focus["name"]))
        if not wanted:
            break
    assert wanted == {}
    page.keyboard.press("Enter")
    expect(page.locator("[data-part=outcome] .sentence").first).to_contain_text("Pin 1 is common")
    assert unseen == []


def test_hold_points_are_ticked_by_keyboard_alone(visit, served):
    page = visit(served + DEAD)
    gates = page.locator(".gate .tick input")
    for number in range(gates.count()):
        gates.nth(number).focus()
        page.keyboard.press("Space")
    hold = page.locator("li.step.hold").first
    later = page.locator("li.step.hold ~ li.step").first
    expect(later).to_be_hidden()
    hold.locator(".tick input").focus()
    assert page.evaluate(FOCUS)["seen"]
    page.keyboard.press("Space")
    expect(later).to_be_visible()


@pytest.mark.parametrize(
    ("width", "text"), [(320, 1), (390, 2)], ids=["a column 320 px wide", "text at twice its size on a phone"]
)
def test_nothing_runs_past_the_screen_or_is_cut_off(visit, served, width, text):
    page = visit(served + PAGES[0])
    page.set_viewport_size({"width": width, "height": 844})
    found = {}
    for path in PAGES:
        page.goto(served + path)
        expect(page.locator("[data-part=saved] p")).to_have_count(1)
        unfold(page)
        page.evaluate(
            """(times) => {
              const now = parseFloat(getComputedStyle(document.documentElement).fontSize);
              document.documentElement.style.fontSize = `${now * times}px`;
            }""",
            text,
        )
        if too_wide := page.evaluate(TOO_WIDE):
            found[path] = too_wide
    assert found == {}


def test_nothing_moves_for_those_who_asked_for_no_movement(visit, served):
    page = visit(served + WINDINGS, reduced_motion="reduce")
    page.locator("form [name=r12]").fill("4.2")
    moving = page.evaluate(
        """() => [...document.querySelectorAll("*")].filter((one) => {
          const style = getComputedStyle(one);
          const longest = (list) => Math.max(...list.split(",").map((one) => parseFloat(one) * (one.includes("ms") ? 1 : 1000)));
          return longest(style.transitionDuration) > 10
            || (style.animationName !== "none" && longest(style.animationDuration) > 10);
        }).map((one) => one.outerHTML.slice(0, 100))"""
    )
    assert moving == []
    assert page.evaluate("() => getComputedStyle(document.documentElement).scrollBehavior") == "auto"
