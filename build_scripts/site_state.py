"""Knows whether build/site was made from what the files say now."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path

from build_scripts.environment import fingerprint

# Everything that decides what a build makes.
_FOLDERS = ("build_scripts", "calculators", "handbook")
_FILES = ("mkdocs.yml", "package-lock.json", "pyproject.toml", "requirements/build.txt")


def build_and_note(root: Path, say: Callable[[str], None]) -> None:
    """Build the site and note what it was made from."""
    from build_scripts.build import build_site

    note = _note_file(root)
    note.unlink(missing_ok=True)
    before = made_from(root)
    build_site(root, say)
    note.write_text(f"{before} {_moment(root)}", encoding="utf-8")


def site_is_current(root: Path) -> bool:
    """Whether the site in build/site is the one that was noted, and nothing it was made from has changed since."""
    try:
        return _note_file(root).read_text(encoding="utf-8") == f"{made_from(root)} {_moment(root)}"
    except OSError:
        return False


def made_from(root: Path) -> str:
    """One text for everything that decides what a build makes: the files, and the day whose limits are in force."""
    files = (part for file in _inputs(root) for part in (file.as_posix(), (root / file).read_bytes()))
    return fingerprint(date.today().isoformat(), *files)


def _inputs(root: Path) -> Iterator[Path]:
    for name in _FILES:
        if (root / name).is_file():
            yield Path(name)
    for name in _FOLDERS:
        for file in sorted((root / name).rglob("*")):
            if file.is_file() and "__pycache__" not in file.parts:
                yield file.relative_to(root)


def _moment(root: Path) -> int:
    """When the site was swapped in: another build by another way gives another moment."""
    return (root / "build" / "site" / "index.html").stat().st_mtime_ns


def _note_file(root: Path) -> Path:
    return root / "build" / "site-made-from.txt"
