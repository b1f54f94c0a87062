"""Reads the handbook's lists: hazards, instruments, the glossary, and the order of the menu."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from pydantic import BaseModel

from build_scripts.errors import Mistake
from build_scripts.read_yaml import KeyPath, Lines, read_file, read_yaml, to_record, to_records
from build_scripts.records import Hazard, Instrument, Navigation, Term

Entry = TypeVar("Entry", bound=BaseModel)


@dataclass(frozen=True)
class Menu:
    """The order of the menu with the file and the lines it stands on."""

    file: Path
    lines: Lines
    order: Navigation

    def mistake(self, what: str, *path: str | int) -> Mistake:
        """A mistake at a key of the menu."""
        return Mistake(self.file, self.lines.at(path), what)

    def places(self) -> list[tuple[str, KeyPath]]:
        """Every page that the menu names, with where it is named."""
        named: list[tuple[str, KeyPath]] = []
        for room in ("start", "safety", "reference", "training"):
            named += [(name, (room, position)) for position, name in enumerate(getattr(self.order, room))]
        for number, group in enumerate(self.order.procedures):
            named += [(name, ("procedures", number, "pages", place)) for place, name in enumerate(group.pages)]
        return named


def read_hazards(handbook: Path, mistakes: list[Mistake]) -> dict[str, Hazard]:
    """The one list of hazards, in the order of the file."""
    return read_list(Hazard, handbook / "hazards.yaml", mistakes)


def read_instruments(handbook: Path, mistakes: list[Mistake]) -> dict[str, Instrument]:
    """The one list of instruments, in the order of the file."""
    return read_list(Instrument, handbook / "instruments.yaml", mistakes)


def read_glossary(handbook: Path, mistakes: list[Mistake]) -> dict[str, Term]:
    """The words of the trade; empty when the handbook has no glossary."""
    file = handbook / "glossary.yaml"
    return read_list(Term, file, mistakes) if file.exists() else {}


def read_menu(handbook: Path, mistakes: list[Mistake]) -> Menu | None:
    """The order of the menu; None when it cannot be used."""
    file = handbook / "navigation.yaml"
    text, unread = read_file(file)
    data, lines, broken = read_yaml(text, file)
    if unread or broken:
        mistakes += unread or broken
        return None
    record = to_record(Navigation, data, file, lines)
    if isinstance(record, list):
        mistakes += record
        return None
    return Menu(file, lines, record)


def read_list(kind: type[Entry], file: Path, mistakes: list[Mistake]) -> dict[str, Entry]:
    """The records of a file by key; what cannot be read is added to the mistakes."""
    text, unread = read_file(file)
    if unread:
        mistakes += unread
        return {}
    data, lines, broken = read_yaml(text, file)
    mistakes += broken
    return to_records(kind, data, file, lines, mistakes)
