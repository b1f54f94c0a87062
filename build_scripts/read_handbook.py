"""Reads everything that people write into one checked whole, or says every mistake at once."""

from __future__ import annotations

import hashlib
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from build_scripts.check_pages import Known, check_calculators, check_menu, check_pages
from build_scripts.connections import read_connections
from build_scripts.errors import HandbookError, Mistake
from build_scripts.pictures import Picture, pictures_of
from build_scripts.read_lists import read_glossary, read_hazards, read_instruments, read_menu
from build_scripts.read_measurements import Measurements, read_measurements
from build_scripts.read_pages import Page, find_pages, read_pages
from build_scripts.read_standards import StandardsSet, collect_standards
from build_scripts.records import Hazard, Instrument, Navigation, Term
from calculators import CALCULATORS, Calculator
from calculators.limits import InForce, Standards


@dataclass(frozen=True)
class Handbook:
    """The whole handbook, checked: what assemble turns into pages."""

    folder: Path
    pages: tuple[Page, ...]
    menu: Navigation
    standards: StandardsSet
    hazards: Mapping[str, Hazard]
    instruments: Mapping[str, Instrument]
    glossary: Mapping[str, Term]
    pictures: Mapping[str, Picture]
    calculators: Mapping[str, Calculator]
    revision: str
    measurements: Measurements | None = None

    @cached_property
    def procedures(self) -> dict[str, Page]:
        """The procedures by id, in the order of the menu."""
        pages = {page.front.id: page for page in self.pages if page.procedure is not None}
        return {key: pages[key] for group in self.menu.procedures for key in group.pages}

    def standards_json(self) -> str:
        """The limits, tables and sources as calculators are handed them."""
        return self.standards.as_json(self.revision)

    def in_force(self, on: date) -> InForce:
        """The limits, tables and sources as they stand on a day."""
        return Standards.from_json(self.standards_json()).in_force(on)


def read_handbook(root: Path, on: date, calculators: Mapping[str, Calculator] = CALCULATORS) -> Handbook:
    """Read and cross-check root/handbook as it stands on a day; raises HandbookError with all mistakes at once."""
    folder = root / "handbook"
    mistakes: list[Mistake] = []
    written = find_pages(folder, mistakes)
    procedures = {file.stem for path, file in written.items() if path.startswith("procedures/")}
    standards = collect_standards(folder, mistakes, on, procedures)
    hazards = read_hazards(folder, mistakes)
    instruments = read_instruments(folder, mistakes)
    glossary = read_glossary(folder, mistakes)
    pictures = pictures_of(read_connections(folder, mistakes))
    pages = read_pages(written, mistakes)
    menu = read_menu(folder, mistakes)
    known = Known(standards, hazards, instruments, calculators, procedures, pictures)
    measurements = read_measurements(folder, mistakes)
    mistakes += check_pages(pages, known)
    mistakes += check_calculators(known)
    if menu is not None:
        mistakes += check_menu(menu, written)
    if mistakes or menu is None:
        raise HandbookError(mistakes)
    return Handbook(
        folder=folder,
        pages=tuple(pages),
        menu=menu.order,
        standards=standards,
        hazards=hazards,
        instruments=instruments,
        glossary=glossary,
        pictures=pictures,
        calculators=calculators,
        revision=revision_of(root),
        measurements=measurements,
    )


def revision_of(root: Path) -> str:
    """The version with a short fingerprint of everything that decides what the pages say."""
    digest = hashlib.sha256()
    for folder in (root / "handbook", Path(__file__).parent.parent / "calculators"):
        for file in _inputs(folder):
            digest.update(f"{file.relative_to(folder.parent).as_posix()}\0".encode())
            digest.update(hashlib.sha256(file.read_bytes()).digest())
    return f"{_version(root)}+{digest.hexdigest()[:8]}"


def _inputs(folder: Path) -> Iterable[Path]:
    return sorted(
        file for file in folder.rglob("*") if file.is_file() and "__pycache__" not in file.parts and file.name[0] != "."
    )


def _version(root: Path) -> str:
    """The version that pyproject.toml gives, or that of the installed wheel."""
    file = root / "pyproject.toml"
    if file.exists():
        project = tomllib.loads(file.read_text(encoding="utf-8")).get("project", {})
        if "version" in project:
            return str(project["version"])
    try:
        return version("threepin")
    except PackageNotFoundError:
        return "0"
