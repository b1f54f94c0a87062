"""What a site weighs on the wire: what a visit loads, what a page needs before it can be read, what is saved for offline."""

from __future__ import annotations

import gzip
import re
from dataclasses import dataclass
from pathlib import Path

from build_scripts.precache import list_entries

# Asked for by the page before it can be read: what its own HTML names, scripts at the end included.
_NAMED = re.compile(r"""<(?:link|script)\b[^>]*?(?:href|src)="([^"#?]+)"[^>]*>""")
_STYLE_OR_SCRIPT = re.compile(r"\.(?:css|js)$")


@dataclass(frozen=True)
class Saved:
    """What is saved for offline, packed as a host that packs sends it."""

    first_choice: int
    spare: int
    first_choice_unpacked: int


def packed_size(file: Path) -> int:
    """The size on the wire from a host that packs what gets smaller by it."""
    content = file.read_bytes()
    return min(len(content), len(gzip.compress(content, 9, mtime=0)))


def saved_sizes(site: Path) -> Saved:
    """All that the service worker saves, by the very list that it gets."""
    sizes: dict[bool, int] = {True: 0, False: 0}
    unpacked = 0
    for entry in list_entries(site):
        sizes[entry.is_spare] += packed_size(site / entry.url)
        unpacked += 0 if entry.is_spare else (site / entry.url).stat().st_size
    return Saved(sizes[False], sizes[True], unpacked)


def read_before_reading(site: Path, page: str) -> dict[str, int]:
    """The page itself and every style and script that it names, each with its size packed."""
    file = site / page.lstrip("/")
    named = [(file.parent / name).resolve() for name in _NAMED.findall(file.read_text(encoding="utf-8"))]
    files = [file, *(one for one in named if _STYLE_OR_SCRIPT.search(one.name) and one.is_file())]
    return {one.relative_to(site.resolve()).as_posix(): packed_size(one) for one in dict.fromkeys(files)}
