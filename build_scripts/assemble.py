"""Step one of a build: the handbook and pages made from data become a folder of plain Markdown, assets and JSON.

Any generator that runs Python-Markdown with PyMdown can render that folder. The same inputs give the same bytes.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from datetime import date
from pathlib import Path

from build_scripts.errors import HandbookError, Mistake
from build_scripts.menu import menu
from build_scripts.read_handbook import Handbook
from build_scripts.write_booklet import BOOKLET_LIST, booklet_list, write_booklet
from build_scripts.write_calculators import write_calculators
from build_scripts.write_computed import write_computed
from build_scripts.write_data import write_data
from build_scripts.write_decisions import write_decisions
from build_scripts.write_measurements import write_measurements
from build_scripts.write_pages import write_pages
from build_scripts.write_procedures import write_procedures
from build_scripts.write_reference import write_reference
from calculators.limits import Standards

# The page's own scripts are bundled into the folder by bundle_scripts; their sources stay behind.
_NOT_COPIED = ("scripts",)
_README_PICTURES = "readme-"  # pictures of the pages themselves; nobody's telephone needs to keep them


def assemble(handbook: Handbook, folder: Path, on: date) -> None:
    """Write the assembled folder anew, as the handbook stands on a day."""
    files = assembled_files(handbook, on)
    if folder.exists():
        shutil.rmtree(folder)
    for path, text in files.items():
        file = folder / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8", newline="\n")
    _copy_assets(handbook.folder / "assets", folder / "assets")


def assembled_files(handbook: Handbook, on: date) -> dict[str, str]:
    """The text of every file of the assembled folder by its path, assets apart."""
    standards = handbook.in_force(on)
    written = dict(write_pages(handbook, standards))
    made = dict(_made_from_data(handbook, on))
    taken = [page for page in handbook.pages if page.path in made]
    if taken:
        what = "the build makes a page of this name from data. Give this page another name."
        raise HandbookError(page.mistake(1, what) for page in taken)
    files = written | made
    return files | {BOOKLET_LIST: booklet_list(menu(handbook), files, handbook.revision)}


def _made_from_data(handbook: Handbook, on: date) -> Iterator[tuple[str, str]]:
    standards = handbook.in_force(on)
    yield from write_procedures(handbook)
    yield from write_calculators(handbook, standards)
    yield from write_reference(handbook, standards)
    yield from write_decisions(handbook, standards)
    yield from write_computed(handbook, Standards.from_json(handbook.standards_json()), on.isoformat())
    yield from write_measurements(handbook)
    yield from write_booklet()
    yield from write_data(handbook, on)


def _copy_assets(source: Path, target: Path) -> None:
    if not source.exists():
        return
    for file in sorted(source.rglob("*")):
        inside = file.relative_to(source)
        if file.is_file() and inside.parts[0] not in _NOT_COPIED and not file.name.startswith(_README_PICTURES):
            copy = target / inside
            if copy.exists():
                raise HandbookError([Mistake(file, 1, "the build makes a file of this name. Give it another name.")])
            copy.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(file, copy)
