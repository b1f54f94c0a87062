"""Any set of pages as a booklet, served and from disk, as it comes out on paper; and the PDF of the whole handbook."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from build_scripts.print_pdf import print_pdf

BOOKLET = "/reference/booklet.html"
THREE = ("procedures/make-safe-prove-dead", "procedures/identify-the-windings", "calculators/winding-identification")
TITLES = ("Make safe and prove dead", "Identify the windings by resistance", "Winding identification")


def asked_for(address: str, *pages: str) -> str:
    return f"{address}{BOOKLET}#pages={','.join(pages)}"


def put_together(page: Page, count: int) -> None:
    expect(page.locator("[data-module=booklet]")).to_have_attribute("data-ready", str(count))


def paper(page: Page, file: Path) -> list[str]:
    """The words of each sheet when the page is printed."""
    page.pdf(path=file, prefer_css_page_size=True)
    return [
        re.sub(r"\s+", " ", sheet.extract_text()).replace("ﬁ", "fi").replace("ﬂ", "fl")
        for sheet in PdfReader(file).pages
    ]


def test_ticked_pages_are_put_together_in_the_order_of_the_menu(visit, address):
    page = visit(address + BOOKLET)
    for path in reversed(THREE):
        page.locator(f"input[value='{path}.html']").check()
    page.get_by_role("button", name="Put the booklet together").click()
    put_together(page, 3)
    heads = page.locator(".booklet-page > h1")
    assert [re.sub(r"#$", "", text.strip()) for text in heads.all_text_contents()] == list(TITLES)
    assert [text.strip() for text in page.locator(".booklet-contents a").all_text_contents()] == list(TITLES)
    expect(page.get_by_role("status").first).to_have_text("3 pages stand below, ready to print.")
    expect(page.get_by_role("button", name="Print", exact=True)).to_be_visible()
    assert page.url.endswith("#pages=" + ",".join(THREE)), "the set can be kept as a link"


def test_links_between_the_pages_of_a_booklet_stay_in_it_and_lead_somewhere(visit, served):
    page = visit(asked_for(served, *THREE, "safety/hazards"))
    put_together(page, 4)
    ids = Counter(page.evaluate("() => [...document.querySelectorAll('.booklet [id]')].map((one) => one.id)"))
    assert [name for name, times in ids.items() if times > 1] == []
    links = page.evaluate(
        "() => [...document.querySelectorAll('.booklet a[href]')].map((one) => one.getAttribute('href'))"
    )
    assert "#sheet-1" in links
    assert "#sheet-4--electric-shock" in links
    assert [link for link in links if link.removeprefix("#") not in ids] == []
    named = page.evaluate(
        """() => [...document.querySelectorAll('.booklet [aria-describedby], .booklet [aria-labelledby]')]
          .flatMap((one) => `${one.getAttribute('aria-describedby') ?? ''} ${one.getAttribute('aria-labelledby') ?? ''}`
          .trim().split(/\\s+/))"""
    )
    assert [name for name in named if name not in ids] == []


def test_a_calculator_in_a_booklet_is_a_worksheet_for_a_pen(visit, served):
    page = visit(asked_for(served, *THREE))
    put_together(page, 3)
    assert page.locator(".booklet form, .booklet input, .booklet select, .booklet button").count() == 0
    in_procedure = page.locator("#sheet-2 .worksheet")
    expect(in_procedure.locator("[data-field=r12] .write-here")).to_have_text("")
    expect(in_procedure.locator("[data-field=r12] .entry-unit")).to_have_text("Ω / kΩ / mΩ")
    expect(in_procedure.locator("[data-field=metal] .tick-one")).to_have_text(re.compile("☐ copper\\s+☐ aluminium"))
    expect(in_procedure.locator(".write-line")).to_have_text("What it came to:")
    assert page.locator("#sheet-2 .worked-example").count() == 0
    assert page.locator("#sheet-3 .worked-example").count() == 1


def test_a_booklet_on_paper_has_heads_numbers_boxes_and_nothing_of_the_screen(visit, address, tmp_path):
    page = visit(asked_for(address, *THREE))
    put_together(page, 3)
    sheets = paper(page, tmp_path / "booklet.pdf")
    assert "Copy number:" in sheets[0]
    assert "Contents" in sheets[1]
    assert all("handbook revision" in sheet for sheet in sheets)
    assert all(f" {number} / {len(sheets)}" in sheet[:150] for number, sheet in enumerate(sheets, 1))
    for title in TITLES:
        assert sum(sheet.startswith(title) for sheet in sheets) >= 2, f"{title} is the head of its sheets"
    whole = " ".join(sheets)
    assert "What can hurt here" in whole
    assert "Read" in whole
    assert not re.search("Put the booklet together|Tick all|Show the result|Clear all entries|undefined", whole)


def test_a_page_that_cannot_be_read_is_named_and_nothing_half_is_printed(visit, served, watch):
    page = visit(served + BOOKLET)
    page.route(f"**/{THREE[1]}.html", lambda route: route.fulfill(status=503))
    for path in THREE:
        page.locator(f"input[value='{path}.html']").check()
    page.get_by_role("button", name="Put the booklet together").click()
    state = page.get_by_role("status").first
    expect(state).to_contain_text("“Identify the windings by resistance” cannot be read (the host answered 503)")
    expect(page.get_by_role("button", name="Print", exact=True)).to_be_hidden()
    assert page.locator(".booklet-page").count() == 0
    assert watch.errors
    watch.errors.clear()


def test_nothing_ticked_is_said_and_not_printed(visit, served):
    page = visit(served + BOOKLET)
    page.get_by_role("button", name="Tick all").click()
    assert page.locator("input[name=page]:checked").count() == page.locator("input[name=page]").count() > 60
    page.get_by_role("button", name="Tick none").click()
    page.get_by_role("button", name="Put the booklet together").click()
    expect(page.get_by_role("status").first).to_have_text("No page is ticked. Tick what is wanted, or all of it.")


def test_a_page_by_itself_prints_with_head_number_revision_and_a_column_for_the_pen(visit, served, tmp_path):
    page = visit(f"{served}/{THREE[0]}.html")
    page.locator("th.by-hand").first.wait_for(state="attached")
    expect(page.locator("th.by-hand").first).to_be_hidden()
    sheets = paper(page, tmp_path / "page.pdf")
    assert all(sheet.startswith(TITLES[0]) for sheet in sheets)
    assert all("handbook revision" in sheet for sheet in sheets)
    assert all(f" {number} / {len(sheets)} " in sheet[:150] for number, sheet in enumerate(sheets, 1))
    assert "This page: revision" in " ".join(sheets)


@pytest.fixture(scope="module")
def pdf(site: Path, long_run: bool, tmp_path_factory: pytest.TempPathFactory) -> PdfReader:
    """Three pages as `build --pdf` prints them; with --long, all of the handbook."""
    file = tmp_path_factory.mktemp("pdf") / "handbook.pdf"
    said: list[str] = []
    print_pdf(site, file, said.append, pages=() if long_run else THREE)
    assert re.fullmatch(r"Printed .*handbook\.pdf: \d+ sheets, [\d.]+ MB\.", said[0])
    return PdfReader(file)


def test_the_pdf_holds_its_pages_behind_a_contents_list_with_the_right_numbers(pdf, site, long_run):
    chapters = [
        (str(one["/Title"]), (pdf.get_destination_page_number(one) or 0) + 1)
        for one in pdf.outline
        if not isinstance(one, list)
    ]
    if long_run:
        listed = {path.relative_to(site).as_posix() for path in site.rglob("*.html")}
        assert len(chapters) == len(listed - {"404.html", "reference/booklet.html", "reference/diagnostics.html"})
    else:
        assert [title for title, _ in chapters] == list(TITLES)
    first = chapters[0][1]
    contents = re.sub(r"\s+", " ", " ".join(pdf.pages[number].extract_text() for number in range(1, first - 1)))
    numbers = [int(found) for found in re.findall(r"(?<=\s)(\d+)(?= [A-Z]| ?$)", contents.split("Contents", 1)[1])]
    for title, sheet in chapters:
        assert sheet in numbers, title
        assert title.split()[0] in pdf.pages[sheet - 1].extract_text()
