"""Reads a page that people write: closed front matter in fixed order, then a body in sections.

What can be seen from the page alone is checked here; what needs the rest of the handbook is in check_pages.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise
from pathlib import Path
from typing import Any

from build_scripts.errors import Mistake, nearest
from build_scripts.marks import (
    MARK_KINDS,
    STEP_MARKS,
    Fence,
    Mark,
    find_fences,
    find_marks,
    split_step_marks,
    with_fences,
)
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

PROCEDURE_SECTIONS = (
    "Why",
    "Hazards and controls",
    "Before you start",
    "Steps",
    "Readings",
    "What they mean",
    "Common mistakes",
    "Stop if",
    "Next",
    "Check yourself",
)

_HEADING = re.compile(r"^(#{1,6})[ \t]+(.*?)[ \t#]*$")
_NUMBERED = re.compile(r"^([0-9]+)\.[ \t]+(\S.*)$")


@dataclass(frozen=True)
class Section:
    """One second-level heading with what stands under it; line is the heading's, the text starts below it."""

    title: str
    line: int
    text: str


@dataclass(frozen=True)
class Step:
    """One item of the Steps list: its text without number and marks, the level it names, and if it is a hold point."""

    line: int
    text: str
    hold: bool
    level: str | None


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
    page = Page(
        file=file,
        path=path,
        front=front or _unknown_front(),
        lines=lines,
        body=body,
        body_line=body_line,
        sections=tuple(_sections(body, body_line)),
        steps=(),
        marks=tuple(find_marks(body, body_line)),
        fences=tuple(find_fences(body, body_line)),
    )
    if path.startswith("procedures/"):
        page, wrong = _with_steps(page)
        broken += [*_check_sections(page), *wrong, *_check_gates(page)]
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


def _sections(body: str, body_line: int) -> Iterator[Section]:
    title, line, text = "", body_line - 1, list[str]()
    for number, (row, fenced) in enumerate(with_fences(body)):
        heading = None if fenced else _HEADING.match(row)
        if heading and len(heading[1]) == 2:
            yield Section(title, line, "\n".join(text))
            title, line, text = heading[2], body_line + number, []
        else:
            text.append(row)
    yield Section(title, line, "\n".join(text))


def _check_body(page: Page) -> Iterator[Mistake]:
    if not page.body.strip():
        yield page.mistake(page.body_line, "the page is empty below its front matter. Write what it has to say.")
    for number, (row, fenced) in enumerate(with_fences(page.body)):
        heading = None if fenced else _HEADING.match(row)
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


def _check_sections(page: Page) -> Iterator[Mistake]:
    opening, *sections = page.sections
    if opening.text.strip():
        what = "text stands above the first heading. Move it under ## Why."
        yield page.mistake(page.body_line, what)
    titles = [section.title for section in sections]
    for section in sections:
        if section.title not in PROCEDURE_SECTIONS:
            what = f"## {section.title}: a procedure has no such section. {nearest(section.title, PROCEDURE_SECTIONS)}"
            yield page.mistake(section.line, what)
        elif titles.count(section.title) > 1 and section is not sections[titles.index(section.title)]:
            yield page.mistake(section.line, f"## {section.title}: this section is there twice. Join the two.")
        if not section.text.strip():
            yield page.mistake(section.line, f"## {section.title}: this section is empty.")
    for title in PROCEDURE_SECTIONS:
        if title not in titles:
            what = f"## {title}: this section is missing. A procedure has: {', '.join(PROCEDURE_SECTIONS)}."
            yield page.mistake(page.body_line, what)
    known = [section for section in sections if section.title in PROCEDURE_SECTIONS]
    for before, section in pairwise(known):
        if PROCEDURE_SECTIONS.index(section.title) < PROCEDURE_SECTIONS.index(before.title):
            what = f"## {section.title}: this section stands before {before.title}. Keep the order of all procedures."
            yield page.mistake(section.line, what)


def _with_steps(page: Page) -> tuple[Page, list[Mistake]]:
    """The page with its Steps section taken apart, and what is wrong with that section."""
    section = next((one for one in page.sections if one.title == "Steps"), None)
    if section is None or not section.text.strip():
        return page, []
    wrong: list[Mistake] = []
    items: list[tuple[int, list[str]]] = []
    for number, (row, fenced) in enumerate(with_fences(section.text), start=section.line + 1):
        numbered = None if fenced else _NUMBERED.match(row)
        if numbered:
            items.append((number, [numbered[2]]))
            if int(numbered[1]) != len(items):
                wrong.append(page.mistake(number, f"Steps: this step is number {len(items)}, not {numbered[1]}."))
        elif not row.strip() or (items and row[:1] in " \t"):
            if items:
                items[-1][1].append(row)
        else:
            what = (
                "Steps: this line is no part of a numbered step. Begin it with a number, or indent it under its step."
            )
            wrong.append(page.mistake(number, what))
    steps = [_step(page, line, rows, wrong) for line, rows in items]
    if not any(step.hold for step in steps):
        what = "Steps: no step is a hold point. Put [hold] before the step that must be ticked before going on."
        wrong.append(page.mistake(section.line, what))
    return replace(page, steps=tuple(steps)), wrong


def _step(page: Page, line: int, rows: list[str], wrong: list[Mistake]) -> Step:
    marks, first = split_step_marks(rows[0])
    for mark in marks:
        if mark not in STEP_MARKS:
            wrong.append(page.mistake(line, f"[{mark}]: no such mark opens a step. {nearest(mark, STEP_MARKS)}"))
    levels = [mark for mark in marks if mark != "hold"]
    if len(levels) > 1:
        wrong.append(page.mistake(line, f"a step names one level, not {' and '.join(levels)}."))
    if not first:
        wrong.append(page.mistake(line, "Steps: this step is empty behind its marks."))
    return Step(line, "\n".join([first, *_dedent(rows[1:])]).rstrip(), "hold" in marks, levels[0] if levels else None)


def _dedent(rows: list[str]) -> list[str]:
    """Continuation lines of a step without the indentation that they share."""
    filled = [len(row) - len(row.lstrip()) for row in rows if row.strip()]
    shared = min(filled, default=0)
    return [row[shared:] for row in rows]


@dataclass(frozen=True)
class Gate:
    """A paragraph that asks before it lets on: its first row in a text, the row behind it, question and sentence."""

    row: int
    end: int
    question: str
    otherwise: str


def find_gates(text: str) -> list[Gate]:
    r"""Every gate of a text.

    >>> find_gates("[gate] Is the plug in your hand? |\n Unplug first.\n\nThen go on.")
    [Gate(row=0, end=2, question='Is the plug in your hand?', otherwise='Unplug first.')]
    """
    gates: list[Gate] = []
    rows = with_fences(text)
    for row, (line, fenced) in enumerate(rows):
        if fenced or not line.startswith("[gate]"):
            continue
        end = next((after for after in range(row, len(rows)) if not rows[after][0].strip()), len(rows))
        words = " ".join(part.strip() for part, _ in rows[row:end]).removeprefix("[gate]")
        question, _, otherwise = words.partition("|")
        gates.append(Gate(row, end, question.strip(), otherwise.strip()))
    return gates


def _check_gates(page: Page) -> Iterator[Mistake]:
    for section in page.sections:
        for gate in find_gates(section.text):
            line = section.line + 1 + gate.row
            if section.title != "Before you start":
                yield page.mistake(line, "[gate]: a gate stands in the section Before you start.")
            if not gate.question or not gate.otherwise:
                yield page.mistake(line, "[gate]: write “[gate] question | what to do when the answer is no”.")


def _ids_given_twice(pages: list[Page]) -> Iterator[Mistake]:
    first: dict[str, Page] = {}
    for page in pages:
        if page.front.id in first:
            what = f"id: “{page.front.id}” is the id of {first[page.front.id].path} already. Rename one of them."
            yield page.mistake(page.lines.at(("id",)), what)
        first.setdefault(page.front.id, page)
