"""The assembled folder does not need the generator that renders it today: plain Python-Markdown makes the same pages.

Where the site generator zensical is installed beside this Python, or found on the path, it has to build them as well;
it is no part of the environment, so elsewhere that one test is skipped and says so.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from collections import Counter
from datetime import date
from pathlib import Path

import markdown
import pytest
import yaml

from build_scripts.assemble import assemble
from build_scripts.calculator_fence import PAGES_VARIABLE, calculator_fence
from build_scripts.read_body import find_gates
from build_scripts.read_handbook import read_handbook

ROOT = Path(__file__).resolve().parents[2]
ON = date(2026, 11, 25)
PARTS = {
    "calculator": '<section class="calculator"',
    "example": '<details class="worked-example"',
    "hold": "data-hold=",
    "gate": "data-gate",
}
ZENSICAL = shutil.which("zensical", path=str(Path(sys.executable).parent)) or shutil.which("zensical")


@pytest.fixture(scope="module")
def handbook():
    return read_handbook(ROOT, ON)


@pytest.fixture(scope="module")
def project(handbook, tmp_path_factory):
    """A folder with the assembled pages, the generator's file and the theme's overrides, and nothing of ours beside."""
    folder = tmp_path_factory.mktemp("project")
    assemble(handbook, folder / "build" / "pages", ON)
    shutil.copy(ROOT / "mkdocs.yml", folder / "mkdocs.yml")
    shutil.copytree(ROOT / "handbook" / "theme", folder / "handbook" / "theme")
    return folder


class GeneratorFile(yaml.SafeLoader):
    """Reads mkdocs.yml; its one Python name is the fence."""


GeneratorFile.add_multi_constructor("tag:yaml.org,2002:python/name:", lambda loader, suffix, node: calculator_fence)


def converter() -> markdown.Markdown:
    listed = yaml.load((ROOT / "mkdocs.yml").read_text(encoding="utf-8"), GeneratorFile)["markdown_extensions"]
    pairs = [next(iter(one.items())) if isinstance(one, dict) else (one, {}) for one in listed]
    return markdown.Markdown(extensions=[name for name, _ in pairs], extension_configs=dict(pairs))


def parts_of(html: str) -> Counter[str]:
    return Counter({name: html.count(mark) for name, mark in PARTS.items()})


def expected(handbook) -> Counter[str]:
    """What people wrote, counted where they wrote it, and a page for each calculator."""
    slugs = [
        fence.content.strip() for page in handbook.pages for fence in page.fences if fence.language == "calculator"
    ]
    own_pages = handbook.calculators.values()
    return Counter(
        calculator=len(slugs) + len(own_pages),
        example=len(slugs) + sum(len(calculator.examples) for calculator in own_pages),
        hold=sum(step.hold for page in handbook.pages for step in page.steps),
        gate=sum(len(find_gates(page.section("Before you start").text)) for page in handbook.procedures.values()),
    )


def test_plain_python_markdown_makes_every_form_hold_point_and_gate(handbook, project, monkeypatch):
    pages = project / "build" / "pages"
    monkeypatch.setenv(PAGES_VARIABLE, str(pages))
    found: Counter[str] = Counter()
    for file in sorted(pages.rglob("*.md")):
        front, body = file.read_text(encoding="utf-8").removeprefix("---\n").split("\n---\n", 1)
        html = converter().convert(body)
        assert "title:" in front
        assert "```" not in html, file
        assert not re.search(r"\{(?:limit|procedure|source|calculator):", html), file
        found += parts_of(html)
    wanted = expected(handbook)
    assert all(wanted.values())
    assert found == wanted


@pytest.mark.skipif(ZENSICAL is None, reason="zensical is not installed here; it is no part of the environment")
def test_another_site_generator_builds_every_page_without_a_warning(handbook, project):
    pages = project / "build" / "pages"
    environment = {**os.environ, PAGES_VARIABLE: str(pages), "PYTHONPATH": str(ROOT)}
    done = subprocess.run(
        [str(ZENSICAL), "build", "--strict", "--clean", "-f", "mkdocs.yml"],
        cwd=project,
        env=environment,
        check=False,
        capture_output=True,
        encoding="utf-8",
    )
    assert done.returncode == 0, done.stdout + done.stderr
    made = {file.relative_to(project / "build" / "html") for file in (project / "build" / "html").rglob("*.html")}
    assert {file.relative_to(pages).with_suffix(".html") for file in pages.rglob("*.md")} <= made
    html = [(project / "build" / "html" / one).read_text(encoding="utf-8") for one in sorted(made)]
    assert sum((parts_of(one) for one in html), Counter()) == expected(handbook)
