"""Reads a page that people write: closed front matter in fixed order, then a body in sections.

What can be seen from the page alone is checked here; what needs the rest of the handbook is in check_pages.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import Any

from build_scripts.errors import Mistake, nearest
from build_scripts.marks import MARK_KINDS, Fence, Mark, find_fences, find_marks, with_fences
from build_scripts.read_body import HEADING, Section, Step, check_gates, check_sections, sections_of, steps_of
from build_scripts.read_yaml import Lines, read_file, read_yaml, to_record
from build_scripts.records import FRONTS, KEY_ORDER, Front, PageFront, ProcedureFront

# The folder of a page says which kinds it may be.
ROOMS = {
    "": ("start",),
    "procedures": ("procedure",),
    "safety": ("safety",),
    "reference": ("reference",),
    "training": ("lesson",),
}


@dataclass(frozen=True)
class Page:
    """A page as its author wrote it. path is where it stands in the handbook and in the site, with forward slashes."""

    file: Path
    path: str
    front: Front
    lines: Lines
    body: str
    body_line: int
    sections: tuple[Section, ...]
    steps: tuple[Step, ...]
    marks: tuple[Mark, ...]
    fences: tuple[Fence, ...]

    @property
    def procedure(self) -> ProcedureFront | None:
        """The front matter of a procedure; None for any other page."""
        return self.front if isinstance(self.front, ProcedureFront) else None

    def mistake(self, line: int, what: str) -> Mistake:
        """A mistake on a line of this page."""
        return Mistake(self.file, line, what)

    def section(self, title: str) -> Section:
        """The section of that title; procedures have every one of them."""
        return next(section for section in self.sections if section.title == title)


def find_pages(handbook: Path, mistakes: list[Mistake]) -> dict[str, Path]:
    """The file of every page by its path in the handbook; a page in a wrong folder is a mistake."""
    written: dict[str, Path] = {}
    for file in sorted(handbook.rglob("*.md")):
        path = file.relative_to(handbook).as_posix()
        room = path.rpartition("/")[0]
        if room.split("/")[0] in ("assets", "theme"):
            continue
        if room in ROOMS:
            written[path] = file
        else:
            known = ", ".join(name for name in ROOMS if name)
            what = f"pages do not stand in {room}/. Move it to one of: {known}, or next to index.md."
            mistakes.append(Mistake(file, 1, what))
    return written


def read_pages(written: Mapping[str, Path], mistakes: list[Mistake]) -> list[Page]:
    """Every page that can be used, in the order given; what is wrong is added to the mistakes."""
    read = [read_page(file, path, mistakes) for path, file in written.items()]
    pages = [page for page in read if page is not None]
    mistakes += _ids_given_twice(pages)
    return pages


def read_page(file: Path, path: str, mistakes: list[Mistake]) -> Page | None:
    """One page; None when its front matter cannot be used. What is wrong is added to the mistakes."""
    text, unread = read_file(file)
    mistakes += unread
    if unread:
        return None
    parts = _split(text)
    if parts is None:
        what = "the page does not start with front matter. Begin with a line ---, then the keys, then a line ---."
        mistakes.append(Mistake(file, 1, what))
        return None
    matter, body, body_line = parts
    front, lines, broken = _read_front(matter, file, path)
    sections, steps = tuple(sections_of(body, body_line)), tuple[Step, ...]()
    if path.startswith("procedures/"):
        steps, wrong = steps_of(file, sections)
        broken += [*check_sections(file, sections, body_line), *wrong, *check_gates(file, sections)]
    page = Page(
        file=file,
        path=path,
        front=front or _unknown_front(),
        lines=lines,
        body=body,
        body_line=body_line,
        sections=sections,
        steps=steps,
        marks=tuple(find_marks(body, body_line)),
        fences=tuple(find_fences(body, body_line)),
    )
    mistakes += [*broken, *_check_body(page)]
    return page if front is not None else None


def _unknown_front() -> Front:
    """Stands in for front matter that could not be read, so that the body is still checked."""
    return PageFront.model_construct(id="", title="", kind="start", summary="", also_called=[])


def _split(text: str) -> tuple[str, str, int] | None:
    """Front matter, body, and the line on which the body starts."""
    rows = text.replace("\r\n", "\n").split("\n")
    if rows[0].rstrip() != "---":
        return None
    for number, row in enumerate(rows[1:], start=1):
        if row.rstrip() == "---":
            return "\n".join(rows[1:number]), "\n".join(rows[number + 1 :]), number + 2
    return None


def _read_front(matter: str, file: Path, path: str) -> tuple[Front | None, Lines, list[Mistake]]:
    data, lines, broken = read_yaml(matter, file, first_line=2)
    if broken:
        return None, lines, broken
    if not isinstance(data, dict):
        what = f"the front matter is empty. It holds: {', '.join(KEY_ORDER['start'])}."
        return None, lines, [Mistake(file, 2, what)]
    room = path.rpartition("/")[0]
    kind = data.get("kind")
    if kind not in ROOMS[room]:
        allowed = " or ".join(ROOMS[room])
        found = f"not {kind}" if kind else "and it is missing"
        what = f"kind: a page in {room or 'the handbook'}/ is of kind {allowed}, {found}."
        broken.append(Mistake(file, lines.at(("kind",)), what))
        kind = ROOMS[room][0]
        data["kind"] = kind
    record = to_record(FRONTS[kind], data, file, lines)
    broken += record if isinstance(record, list) else []
    broken += _check_order(kind, data, file, lines)
    stem = Path(path).stem
    if isinstance(data.get("id"), str) and data["id"] != stem:
        what = f"id: it is “{data['id']}” but the file is called {stem}.md. They have to be the same."
        broken.append(Mistake(file, lines.at(("id",)), what))
    return (None if isinstance(record, list) else record), lines, broken


def _check_order(kind: str, data: dict[Any, Any], file: Path, lines: Lines) -> Iterator[Mistake]:
    """Keys stand in the one order; the first key out of place is named with its place."""
    order = KEY_ORDER[kind]
    found = [key for key in data if key in order]
    for before, key in pairwise(found):
        if order.index(key) < order.index(before):
            position = order.index(key)
            where = f"after {order[position - 1]}" if position else "first"
            what = f"{key}: this key stands {where}. The order is: {', '.join(order)}."
            yield Mistake(file, lines.at((key,)), what)
            return


def _check_body(page: Page) -> Iterator[Mistake]:
    if not page.body.strip():
        yield page.mistake(page.body_line, "the page is empty below its front matter. Write what it has to say.")
    for number, (row, fenced) in enumerate(with_fences(page.body)):
        heading = None if fenced else HEADING.match(row)
        if heading and len(heading[1]) == 1:
            what = "the title stands in the front matter; start the body's headings with ##."
            yield page.mistake(page.body_line + number, what)
    for mark in page.marks:
        if mark.kind not in MARK_KINDS:
            what = f"{{{mark.kind}:{mark.key}}}: there is no such mark. {nearest(mark.kind, MARK_KINDS)}"
            yield page.mistake(mark.line, what)
    for fence in page.fences:
        if fence.language == "calculator" and len(fence.content.split()) != 1:
            what = "a calculator fence holds one line: the name of the calculator."
            yield page.mistake(fence.line, what)


def _ids_given_twice(pages: list[Page]) -> Iterator[Mistake]:
    first: dict[str, Page] = {}
    for page in pages:
        if page.front.id in first:
            what = f"id: “{page.front.id}” is the id of {first[page.front.id].path} already. Rename one of them."
            yield page.mistake(page.lines.at(("id",)), what)
        first.setdefault(page.front.id, page)
