"""What the page that prints booklets works with: the list of pages, and for a site on a stick the pages themselves.

The page puts a booklet together out of the other pages. Served it fetches them; from disk no page may read another, so
that a script beside the runtime brings all of them. It is not saved on devices that have the pages anyway.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from pathlib import Path

from build_scripts.addresses import BOOKLET_PAGE
from build_scripts.fill_templates import fill
from build_scripts.menu import MenuEntry, parts

BOOKLET_LIST = "assets/data/booklet.json"
BOOKLET_ON_DISK = "booklet"

_ARTICLE, _ARTICLE_END = "<article ", "</article>"
# Of use on a screen only: what prints, and what is true of one device.
_NOT_PRINTED = (BOOKLET_PAGE, "reference/diagnostics.md")


def write_booklet() -> Iterator[tuple[str, str]]:
    """The path and the Markdown of the page on which pages are chosen."""
    yield BOOKLET_PAGE, fill("booklet.md")


def booklet_list(entries: list[MenuEntry], files: Mapping[str, str], revision: str) -> str:
    """Every page of those files that may be printed with its title, by part of the menu, as JSON."""
    listed = [
        {
            "part": title or "Start",
            "pages": [
                {"path": path.removesuffix(".md") + ".html", "title": _title(path, files[path])}
                for path in pages
                if path not in _NOT_PRINTED
            ],
        }
        for title, pages in parts(entries)
    ]
    return json.dumps({"revision": revision, "parts": listed}, ensure_ascii=False, separators=(",", ":"))


def with_articles(site: Path, listed: str) -> bytes:
    """That list, and the content of every page on it by its path, as JSON; made piece by piece, because it is long."""
    paths = [page["path"] for part in json.loads(listed)["parts"] for page in part["pages"]]
    text = bytearray(f'{{"list":{listed},"articles":{{'.encode())
    for number, path in enumerate(paths):
        article = json.dumps(_article(site / path), ensure_ascii=False)
        text += f"{',' if number else ''}{json.dumps(path)}:{article}".encode()
    text += b"}}"
    return bytes(text)


def _title(path: str, text: str) -> str:
    for line in text.splitlines():
        if line.startswith("# "):
            return line.removeprefix("# ").strip()
    raise RuntimeError(f"the assembled page {path} has no heading")


def _article(page: Path) -> str:
    text = page.read_text(encoding="utf-8")
    begin, end = text.find(_ARTICLE), text.rfind(_ARTICLE_END)
    if not 0 <= begin < end:
        raise RuntimeError(f"the page {page} has no article to print")
    return text[begin : end + len(_ARTICLE_END)]
