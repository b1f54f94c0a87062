"""The assembled folder becomes HTML; whatever the generator warns of is a mistake with its text."""

from __future__ import annotations

import json
import re
import shutil
from datetime import date
from pathlib import Path

import pytest

from build_scripts import calculator_fence
from build_scripts.assemble import assemble
from build_scripts.errors import HandbookError
from build_scripts.read_handbook import read_handbook
from build_scripts.render import menu, render
from calculators import answer

ON = date(2026, 11, 25)


@pytest.fixture
def rendered(small, sample_calculators, root, monkeypatch):
    """Renders the small handbook, after changing the text of one assembled page."""
    monkeypatch.setattr(calculator_fence, "CALCULATORS", sample_calculators)
    monkeypatch.setattr(answer, "CALCULATORS", sample_calculators)
    shutil.copy(root / "mkdocs.yml", small)
    shutil.copytree(root / "handbook" / "theme", small / "handbook" / "theme")

    def render_it(page: str = "index.md", add: str = "") -> Path:
        handbook = read_handbook(small, ON, sample_calculators)
        pages, html = small / "build" / "pages", small / "build" / "html"
        assemble(handbook, pages, ON)
        with (pages / page).open("a", encoding="utf-8") as file:
            file.write(add)
        render(handbook, small, pages, html)
        return html

    return render_it


@pytest.fixture
def procedure(rendered):
    return (rendered() / "procedures" / "first-check.html").read_text(encoding="utf-8")


def test_every_page_is_rendered_and_links_end_in_html(rendered):
    html = rendered()
    assert {file.relative_to(html).as_posix() for file in html.rglob("*.html")} == {
        "404.html",
        "index.html",
        "calculators/index.html",
        "calculators/sample-check.html",
        "procedures/first-check.html",
        "procedures/index.html",
        "procedures/second-check.html",
        "reference/about-this.html",
        "reference/booklet.html",
        "reference/decision-chart.html",
        "reference/decision-map.html",
        "reference/glossary.html",
        "reference/instruments.html",
        "reference/limits.html",
        "reference/sample-curve.html",
        "reference/sample-wires.html",
        "reference/sources.html",
        "reference/units.html",
        "safety/hazards.html",
        "safety/stay-clear.html",
    }


def test_steps_and_hold_points_have_the_markup_that_scripts_look_for(procedure):
    steps = re.findall(r'<li class="(step[^"]*)"([^>]*)>', procedure)
    assert [kind for kind, _ in steps] == ["step", "step hold", "step hold"]
    assert ['data-hold="1"' in rest for _, rest in steps] == [False, True, False]
    assert 'data-hold="2"' in steps[2][1]
    assert re.search(r'<strong class="step-level" data-level="technician">Technician</strong>', procedure)


def test_a_gate_stands_among_the_sections_that_it_folds(procedure):
    between = procedure.partition('<h2 id="before-you-start">')[2].partition('<h2 id="steps">')[0]
    assert re.search(r'<div class="gate" data-gate="1">\s*<p class="gate-question">Is it switched off\?</p>', between)
    assert '<p class="gate-otherwise">If not: Switch it off first.</p>' in between
    assert "</div>\n<p>Then go on.</p>" in between


def test_a_calculator_inside_a_step_is_inside_that_step(procedure):
    step = procedure.partition('id="step-2"')[2].partition('id="step-3"')[0]
    assert 'data-calculator="sample-check"' in step
    assert "Wait, and read again." in step


def test_a_list_inside_a_step_is_a_list(procedure):
    step = procedure.partition('id="step-1"')[2].partition('id="step-2"')[0]
    assert re.search(r"<ul>\s*<li>the left side</li>\s*<li>the right side</li>\s*</ul>", step)


def test_a_limit_links_to_its_entry_with_its_unit(procedure):
    link = '<a class="limit" data-limit="sample.volts_most" href="../reference/limits.html#sample.volts_most">10\u00a0V</a>'
    assert procedure.count(link) == 2


def test_the_review_date_is_there_for_scripts_and_for_people(procedure):
    assert re.search(
        r'data-review-by="2027-02-01"[^>]*>Revision 2, in force from 2026-02-01, review by 2027-02-01', procedure
    )


def test_every_page_says_the_revision(rendered):
    build = json.loads(((html := rendered()) / "assets/data/build.json").read_text(encoding="utf-8"))
    for file in html.rglob("*.html"):
        if file.name != "404.html":
            assert build["revision"] in file.read_text(encoding="utf-8"), file


def test_the_index_of_search_is_a_script_too(rendered):
    assert (rendered() / "search/search_index.js").read_text(encoding="utf-8").startswith("var __index = {")


def test_hazards_of_every_page_stay_out_of_search(rendered):
    index = json.loads((rendered() / "search/search_index.json").read_text(encoding="utf-8"))
    text = {entry["location"]: entry["text"] for entry in index["docs"]}
    assert "stings" not in text["procedures/first-check.html"]
    assert "stings" in text["safety/hazards.html#sample-shock"]
    assert "1st check" in text["procedures/first-check.html"]


def test_nothing_is_loaded_from_another_host(rendered):
    for file in rendered().rglob("*.html"):
        loaded = re.findall(r'<(?:script|link|img)\b[^>]*(?:src|href)="([^"]+)"', file.read_text(encoding="utf-8"))
        assert [address for address in loaded if "//" in address] == []


@pytest.mark.parametrize(
    ("add", "said"),
    [
        ("\n[gone](gone.md)\n", "contains a link 'gone.md', but the target is not found"),
        ("\n[gone](reference/limits.md#gone)\n", "does not contain an anchor '#gone'"),
        ("\n[here](#gone)\n", "there is no such anchor on this page"),
        ("\n[root](/index.html)\n", "contains an absolute link '/index.html'"),
        ("\n![gone](gone.png)\n", "contains a link 'gone.png', but the target is not found"),
    ],
    ids=["page", "anchor of a page", "anchor on the page", "address from the root", "picture"],
)
def test_what_the_generator_warns_of_is_a_mistake_of_that_page(rendered, small, add, said):
    with pytest.raises(HandbookError) as broken:
        rendered(add=add)
    (mistake,) = broken.value.mistakes
    assert mistake.file == small / "build" / "pages" / "index.md"
    assert said in mistake.what


def test_all_warnings_are_said_at_once(rendered):
    with pytest.raises(HandbookError) as broken:
        rendered(add="\n[one](one.md)\n\n[two](two.md)\n")
    assert len(broken.value.mistakes) == 2


def test_a_calculator_that_cannot_be_made_names_the_page(rendered, small):
    with pytest.raises(HandbookError) as broken:
        rendered(add="\n```calculator\nsample-chek\n```\n")
    (mistake,) = broken.value.mistakes
    assert mistake.file == small / "build" / "pages" / "index.md"
    assert "there is no calculator called “sample-chek”. Did you mean sample-check?" in mistake.what


def test_a_page_that_is_in_no_menu_is_a_mistake(rendered, small, sample_calculators, monkeypatch):
    monkeypatch.setattr("build_scripts.render.menu", lambda handbook: menu(handbook)[:-1])
    with pytest.raises(HandbookError) as broken:
        rendered()
    assert 'exist in the docs directory, but are not included in the "nav"' in broken.value.mistakes[0].what


def test_the_menu_keeps_the_order_that_people_chose(small, sample_calculators):
    assert menu(read_handbook(small, ON, sample_calculators)) == [
        "index.md",
        {
            "Procedures": [
                "procedures/index.md",
                {"First things": ["procedures/first-check.md"]},
                {"Later things": ["procedures/second-check.md"]},
            ]
        },
        {"Calculators": ["calculators/index.md", "calculators/sample-check.md"]},
        {"Safety": ["safety/stay-clear.md", "safety/hazards.md"]},
        {
            "Reference": [
                "reference/about-this.md",
                "reference/decision-map.md",
                "reference/decision-chart.md",
                "reference/limits.md",
                "reference/instruments.md",
                "reference/glossary.md",
                "reference/units.md",
                "reference/sample-wires.md",
                "reference/sample-curve.md",
                "reference/sources.md",
                "reference/booklet.md",
            ]
        },
    ]


def test_the_generator_keeps_quiet(rendered, capfd):
    rendered()
    printed = capfd.readouterr()
    assert (printed.out, printed.err) == ("", "")


def test_a_calculator_comes_out_whole_wherever_it_stands(rendered):
    html = rendered()
    for page in ("calculators/sample-check.html", "procedures/first-check.html"):
        text = (html / page).read_text(encoding="utf-8")
        section = text.split('<section class="calculator"')[1].split("</section>")[0]
        assert section.count('<form class="calculator-form"') == 1
        assert section.count('data-part="state"') == 1
        assert section.count('<details class="worked-example"') == 1
        assert "aside -->" not in text


def test_what_a_calculator_sets_aside_is_not_searched_and_what_it_says_is(rendered):
    index = (rendered() / "search" / "search_index.json").read_text(encoding="utf-8")
    assert "Is it below the limit?" in index
    assert "Worked example" not in index
    assert "set aside" not in index


def test_a_page_has_no_white_space_that_nobody_sees_and_keeps_what_is_shown(rendered):
    html = rendered(add="\n```\nkept\n\n    as it is\n```\n")
    page = (html / "index.html").read_text(encoding="utf-8")
    assert "kept\n\n    as it is" in page
    outside = re.sub(r"(?s)<(pre|script|style)\b.*?</\1>", "kept", page)
    assert not re.search(r"\n\s", outside)


def test_the_templates_of_the_theme_are_compiled_once_for_all_builds(rendered, small):
    rendered()
    kept = {file.name: file.stat().st_mtime_ns for file in (small / "build" / "templates").iterdir()}
    assert kept
    rendered()
    assert {file.name: file.stat().st_mtime_ns for file in (small / "build" / "templates").iterdir()} == kept
