"""Mistakes in files that people write: file, line, what is wrong, what is allowed, how to mend it.

A reader of files collects every mistake before it gives up, so that one build shows all of them.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

MOST_LISTED = 12


@dataclass(frozen=True)
class Mistake:
    """One thing to mend, as its author will read it."""

    file: Path
    line: int
    what: str

    def __str__(self) -> str:
        return f"{_as_seen_from_here(self.file)}:{self.line} — {self.what}"


class HandbookError(Exception):
    """The handbook cannot be built as it is; carries every mistake found, in the order of the files."""

    def __init__(self, mistakes: Iterable[Mistake]) -> None:
        self.mistakes = tuple(sorted(set(mistakes), key=lambda one: (str(one.file), one.line, one.what)))
        super().__init__("\n".join(str(mistake) for mistake in self.mistakes))


def nearest(name: str, allowed: Iterable[str]) -> str:
    """A sentence that offers the closest allowed names, or lists them when none is close."""
    names = sorted(allowed)
    close = difflib.get_close_matches(name, names, n=3)
    if close:
        return f"Did you mean {' or '.join(close)}?"
    if not names:
        return "There is none yet."
    rest = f" and {len(names) - MOST_LISTED} more" if len(names) > MOST_LISTED else ""
    return f"Allowed are: {', '.join(names[:MOST_LISTED])}{rest}."


def _as_seen_from_here(file: Path) -> Path:
    return file.relative_to(Path.cwd()) if file.is_relative_to(Path.cwd()) else file
