"""A build as its author meets it: a story, a site, and the last good site kept when something is wrong."""

from __future__ import annotations

import hashlib
import os
import shutil
from datetime import date
from pathlib import Path

import pytest

from build_scripts.build import build_site, check_handbook
from build_scripts.check_site import check_folder
from build_scripts.errors import HandbookError
from build_scripts.name_by_content import packed_file

ON = date(2026, 11, 25)


@pytest.fixture(scope="module")
def clone(tmp_path_factory) -> Path:
    """A clone whose handbook may be broken: its own handbook, everything else from this one."""
    here, there = Path(__file__).resolve().parents[2], tmp_path_factory.mktemp("clone")
    for name in ("handbook", "mkdocs.yml", "pyproject.toml"):
        copy = shutil.copytree if (here / name).is_dir() else shutil.copy
        copy(here / name, there / name)
    for name in ("calculators", "node_modules", ".environment"):
        os.symlink(here / name, there / name)
    if (here / "build" / "runtime").is_dir():
        shutil.copytree(here / "build" / "runtime", there / "build" / "runtime")
    return there


@pytest.fixture(scope="module")
def built(clone) -> list[str]:
    """The story of the first build."""
    story: list[str] = []
    build_site(clone, story.append, ON)
    return story


@pytest.fixture
def page(clone, built):
    """A page of the clone that a test may change; it is put back afterwards."""
    file = clone / "handbook" / "index.md"
    text = file.read_text(encoding="utf-8")
    yield file
    file.write_text(text, encoding="utf-8")


def fingerprint(folder: Path) -> str:
    digest = hashlib.sha256()
    for file in sorted(folder.rglob("*")):
        if file.is_file():
            digest.update(f"{file.relative_to(folder)}{file.stat().st_mtime_ns}".encode() + file.read_bytes())
    return digest.hexdigest()


def add(file: Path, text: str) -> None:
    with file.open("a", encoding="utf-8") as opened:
        opened.write(text)


def test_a_build_makes_a_site_that_opens(clone, built):
    site = clone / "build" / "site"
    for name in (
        "index.html",
        "procedures/make-safe-prove-dead.html",
        "search/search_index.js",
    ):
        assert (site / name).is_file()
    for name in ("scripts/page.js", "styles/threepin.css"):
        address = packed_file(site, f"assets/{name}").relative_to(site).as_posix()
        assert f'"../{address}"' in (site / "procedures" / "make-safe-prove-dead.html").read_text(encoding="utf-8")
    check_folder(site)


def test_a_build_tells_its_steps_in_order(built):
    assert [line[:2] for line in built if line[:1].isdigit()] == ["1.", "2.", "3.", "4.", "5.", "6."]
    assert built[-1].startswith("Built in ")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("\n{limit:no.such}\n", "there is no such limit"),
        ("\n[gone](gone.md)\n", "the target is not found"),
        ('\n<img src="gone.png" alt="">\n', "it is not there"),
    ],
    ids=["while it is read", "while it is rendered", "while it is checked"],
)
def test_a_build_that_fails_leaves_the_last_good_site(clone, page, text, said):
    before = fingerprint(clone / "build" / "site")
    add(page, text)
    with pytest.raises(HandbookError, match=said):
        build_site(clone, lambda _: None, ON)
    assert fingerprint(clone / "build" / "site") == before


def test_the_same_files_make_the_same_site(clone, built):
    first = {file: file.read_bytes() for file in sorted((clone / "build" / "site").rglob("*")) if file.is_file()}
    build_site(clone, lambda _: None, ON)
    second = {file: file.read_bytes() for file in sorted((clone / "build" / "site").rglob("*")) if file.is_file()}
    assert [file for file in first if first[file] != second.get(file)] == []
    assert list(first) == list(second)


def test_check_publishes_nothing_and_says_that_all_is_well(clone, built):
    before = fingerprint(clone / "build")
    story: list[str] = []
    check_handbook(clone, story.append, ON)
    assert story[-1].startswith("Nothing to mend: ")
    assert fingerprint(clone / "build") == before


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("\n{limit:no.such}\n", "there is no such limit"),
        ('\n<p><a href="gone.html">x</a></p>\n', "the link to gone.html does not arrive"),
        ('\n<p id="twice">x</p>\n<p id="twice">y</p>\n', "the built page is not valid HTML"),
    ],
    ids=["a mark", "a link in HTML", "an id twice"],
)
def test_check_finds_what_a_build_would_publish(clone, page, text, said):
    add(page, text)
    with pytest.raises(HandbookError, match=said):
        check_handbook(clone, lambda _: None, ON)


def test_pages_past_their_review_are_told_and_do_not_stop_a_check(clone, built):
    story: list[str] = []
    check_handbook(clone, story.append, date(2029, 1, 1))
    assert any("Past its review date" in line and "index.md" in line for line in story)
    assert story[-1].startswith("Nothing to mend: ")
