"""Gives every file of our own that pages load a name that carries its content.

A host may then tell browsers to keep such a file for good: another content has another name. What is asked for by a
name that stays the same (pages, service worker, manifest, search index, sitemap) keeps its name, and browsers look
again for it each time.

Names are changed in the packed site and not before, so that any site generator can render the assembled folder.
"""

from __future__ import annotations

import functools
import hashlib
import re
from collections.abc import Iterator, Mapping
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

_ASSETS = "assets/"
# Folders of assets/ whose files are ours and have no such name yet; the theme and the runtime name theirs themselves.
_FOLDERS = ("data", "icons", "pictures", "scripts", "styles")
# Read by people and programs under this name, by no page.
_KEEPS_ITS_NAME = frozenset({"assets/data/build.json"})
_MAY_NAME_OTHERS = (".css", ".js", ".svg")

# What names of files named by their content end with: ours, and those of the theme.
NAMED_BY_CONTENT = r"assets/.*(?:-[0-9a-f]{12}\.[a-z0-9]+|\.[0-9a-f]{8}\.min\.(?:js|css))$"


def is_named_by_content(path: str) -> bool:
    """Whether the file at this path of a packed site can have no other content under this name."""
    return bool(re.search(rf"(?:^|/){NAMED_BY_CONTENT}", path))


def content_digest(content: bytes) -> str:
    """The part of a name that stands for the content."""
    return hashlib.sha256(content).hexdigest()[:12]


def packed_file(site: Path, path: str) -> Path:
    """Where the file that had this path before it was named by its content lies in a packed site."""
    plain = site / path
    pattern = f"{plain.stem}-{'[0-9a-f]' * 12}{plain.suffix}"
    found = list(plain.parent.glob(pattern))
    if len(found) != 1:
        raise FileNotFoundError(f"{site} holds {len(found)} files like {plain.parent / pattern}, and one is meant")
    return found[0]


def name_by_content(site: Path) -> dict[str, str]:
    """Rename our files, and change the addresses in files and pages that name them; old path to new one."""
    own = _own_files(site)
    named_in = {path: set(_named_in(site / path, path)) & set(own) - {path} for path in own}
    renamed: dict[str, str] = {}
    for path in _named_ones_first(named_in):
        file = site / path
        if named_in[path]:
            _change_addresses(file, path, renamed)
        renamed[path] = f"{path.removesuffix(file.suffix)}-{content_digest(file.read_bytes())}{file.suffix}"
        file.rename(site / renamed[path])
    for page in site.rglob("*.html"):
        _change_addresses(page, page.relative_to(site).as_posix(), renamed)
    return renamed


def _own_files(site: Path) -> list[str]:
    folders = (site / _ASSETS / name for name in _FOLDERS)
    files = (file.relative_to(site).as_posix() for folder in folders for file in folder.rglob("*") if file.is_file())
    return sorted(path for path in files if path not in _KEEPS_ITS_NAME)


def _named_ones_first(named_in: Mapping[str, set[str]]) -> Iterator[str]:
    """A file that names another comes behind it, because its content changes with the other's name."""
    try:
        yield from TopologicalSorter(named_in).static_order()
    except CycleError as circle:
        raise RuntimeError(
            f"files that name each other in a circle cannot be named by their content: {', '.join(circle.args[1])}"
        ) from None


def _named_in(file: Path, path: str) -> Iterator[str]:
    """The path of every file of our folders that a script, style or picture names."""
    if file.suffix in _MAY_NAME_OTHERS:
        text = file.read_text(encoding="utf-8")
        for pattern in _patterns(path):
            yield from (_ASSETS + found["place"] for found in pattern.finditer(text))


def _change_addresses(file: Path, path: str, renamed: Mapping[str, str]) -> None:
    before = file.read_text(encoding="utf-8")
    after = before
    for pattern in _patterns(path):
        after = pattern.sub(lambda found: _changed(found, renamed), after)
    if after != before:
        file.write_text(after, encoding="utf-8", newline="\n")


def _changed(found: re.Match[str], renamed: Mapping[str, str]) -> str:
    place = found["place"]
    now = renamed.get(_ASSETS + place, _ASSETS + place).removeprefix(_ASSETS)
    return found[0].removesuffix(place) + now


def _patterns(path: str) -> Iterator[re.Pattern[str]]:
    """What addresses of our files look like in the file at this path."""
    depth = path.count("/")
    if path.startswith(_ASSETS):
        yield _pattern("../" * (depth - 1))
        if path.endswith(".js"):
            yield _pattern(_ASSETS)  # Our scripts join such an address to the folder of the site.
    else:
        yield _pattern("../" * depth + _ASSETS)


@functools.cache
def _pattern(way: str) -> re.Pattern[str]:
    """A whole address inside an attribute, a string or url(...); way leads from where it stands to assets/."""
    literal = re.escape(way)  # Looked for first, what stands before it afterwards: many times faster in a long page.
    name = r"""[^"'`()\s,?#<>]+(?=["'`)\s,?#])"""
    return re.compile(rf"""{literal}(?<=["'`(=\s,]{literal})(?P<place>(?:{"|".join(_FOLDERS)})/{name})""")
