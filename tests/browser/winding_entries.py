"""One worked set of readings, entered by hand as often as tests need an answer."""

from __future__ import annotations

from playwright.sync_api import Page, expect

WINDINGS = "calculators/winding-identification.html"
THREE_PINS = {"r12": "4.2", "r23": "17.9", "r13": "13.8", "lead": "0"}


def compute(page: Page) -> None:
    """Enter three pins, and wait for the answer to the last entry."""
    for name, text in THREE_PINS.items():
        page.locator(f"form [name={name}]").fill(text)
    expect_answer(page)


def expect_answer(page: Page) -> None:
    """The three readings are in the form, and the answer to them stands below."""
    expect(page.locator("[data-part=state]")).to_have_attribute("data-state", "answered")
    expect(page.locator("[data-part=outcome] .sentence").first).to_contain_text("Pin 1 is common")
    # Until then an answer may still be drawn anew, and a link in it with it.
    expect(page.locator("[data-calculator=winding-identification]")).not_to_have_attribute("aria-busy", "true")
    assert {name: page.locator(f"form [name={name}]").input_value() for name in THREE_PINS} == THREE_PINS
