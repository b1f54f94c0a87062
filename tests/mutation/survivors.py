"""Which numbers may change without a test noticing, and why: read from tests/survivors.yaml.

An entry explains the survivors it fits; every survivor has to be explained, and every entry has to explain one.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fnmatch import fnmatchcase
from pathlib import Path

import yaml

from tests.mutation.numbers import Number

ALLOWED = {"where", "owner", "role", "number", "why"}


@dataclass
class Explanation:
    """Where survivors may stand (patterns with *), and the sentence why."""

    where: str
    why: str
    owner: str = "*"
    role: str = "*"
    number: str = "*"
    explains: list[Number] = field(default_factory=list)

    def fits(self, one: Number) -> bool:
        """True when this entry is about that number."""
        asked = {one.path: self.where, one.owner: self.owner, one.role: self.role}
        return all(fnmatchcase(value, pattern) for value, pattern in asked.items()) and fnmatchcase(
            one.text, self.number
        )

    @property
    def described(self) -> str:
        """The entry in one line."""
        return f"{self.where} {self.owner} {self.role} {self.number}: {self.why}"


def read_explanations(file: Path) -> list[Explanation]:
    """Every entry; a ValueError names what is wrong with one."""
    entries = yaml.safe_load(file.read_text(encoding="utf-8")) or []
    found = []
    for count, entry in enumerate(entries, 1):
        unknown, missing = set(entry) - ALLOWED, {"where", "why"} - set(entry)
        if unknown or missing:
            raise ValueError(f"{file.name}, entry {count}: has {sorted(unknown)}, lacks {sorted(missing)}")
        found.append(Explanation(**{name: str(value) for name, value in entry.items()}))
    return found


def explain(survivors: list[Number], explanations: list[Explanation]) -> list[Number]:
    """The survivors that no entry explains; each entry keeps what it explains."""
    unexplained = []
    for one in survivors:
        fitting = [entry for entry in explanations if entry.fits(one)]
        for entry in fitting:
            entry.explains.append(one)
        if not fitting:
            unexplained.append(one)
    return unexplained
