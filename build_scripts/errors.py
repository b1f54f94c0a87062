"""Mistakes in files that people write: file, line, what is wrong, what is allowed, how to mend it.

A reader of files collects every mistake before it gives up, so that one build shows all of them.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Mistake:
    """One thing to mend, as its author will read it."""

    file: Path
    line: int
    what: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line} — {self.what}"


class HandbookError(Exception):
    """The handbook cannot be built as it is; carries every mistake found."""

    def __init__(self, mistakes: Iterable[Mistake]) -> None:
        self.mistakes = tuple(mistakes)
        super().__init__("\n".join(str(mistake) for mistake in self.mistakes))


def nearest(name: str, allowed: Iterable[str]) -> str:
    """A sentence that offers the closest allowed names, or lists them when none is close."""
    names = sorted(allowed)
    close = difflib.get_close_matches(name, names, n=3)
    if close:
        return f"Did you mean {' or '.join(close)}?"
    return f"Allowed are: {', '.join(names)}." if names else "There is none yet."
