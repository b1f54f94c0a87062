"""A clone whose handbook has as many pages as wanted: the procedures of this one again and again, each for a model."""

from __future__ import annotations

import os
import re
import shutil
from itertools import count
from pathlib import Path

import yaml

_LINKED = ("calculators", "node_modules", ".environment", "requirements", "package.json", "package-lock.json")
_COPIED = ("handbook", "mkdocs.yml", "pyproject.toml")
_KEPT = ("pyodide", "runtime", "snapshot", "templates")
_NAMES = re.compile(r"^(id|title): (.*)$", re.MULTILINE)
PAGES_OF_A_GROUP = 30


def make_clone(root: Path, clone: Path) -> None:
    """A clone with a handbook of its own; what is already made for the pages to compute with is taken over."""
    shutil.rmtree(clone, ignore_errors=True)
    (clone / "build").mkdir(parents=True)
    for name in _LINKED:
        os.symlink(root / name, clone / name)
    for name in _COPIED:
        copy = shutil.copytree if (root / name).is_dir() else shutil.copy
        copy(root / name, clone / name)
    for name in _KEPT:
        if (root / "build" / name).is_dir():
            shutil.copytree(root / "build" / name, clone / "build" / name)


def add_procedures(clone: Path, more: int) -> None:
    """Add procedures to the handbook of a clone, in groups of the menu, and name them there."""
    folder = clone / "handbook" / "procedures"
    originals = sorted(folder.glob("*.md"))
    added: list[str] = []
    for number in count(1):
        for original in originals:
            if len(added) == more:
                _add_to_menu(clone / "handbook" / "navigation.yaml", added)
                return
            key = f"{original.stem}-model-{number}"
            text = _NAMES.sub(
                lambda named, n=number: f"{named[0]}{_suffix(named[1], n)}", original.read_text("utf-8"), count=2
            )
            (folder / f"{key}.md").write_text(text, encoding="utf-8", newline="\n")
            added.append(key)


def _suffix(name: str, number: int) -> str:
    return f"-model-{number}" if name == "id" else f", model {number}"


def _add_to_menu(file: Path, added: list[str]) -> None:
    menu = yaml.safe_load(file.read_text(encoding="utf-8"))
    for first in range(0, len(added), PAGES_OF_A_GROUP):
        group = {
            "title": f"Models, part {first // PAGES_OF_A_GROUP + 1}",
            "pages": added[first : first + PAGES_OF_A_GROUP],
        }
        menu["procedures"].append(group)
    file.write_text(yaml.safe_dump(menu, allow_unicode=True, sort_keys=False, width=1000), encoding="utf-8")
