"""Takes the body of a page apart: sections, and in a procedure the steps with their hold points, and the gates."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

from build_scripts.errors import Mistake, nearest
from build_scripts.marks import STEP_MARKS, split_step_marks, with_fences

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

HEADING = re.compile(r"^(#{1,6})[ \t]+(.*?)[ \t#]*$")
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


def sections_of(body: str, body_line: int) -> Iterator[Section]:
    """The second-level sections of a body; what stands above the first heading is one without a title."""
    title, line, text = "", body_line - 1, list[str]()
    for number, (row, fenced) in enumerate(with_fences(body)):
        heading = None if fenced else HEADING.match(row)
        if heading and len(heading[1]) == 2:
            yield Section(title, line, "\n".join(text))
            title, line, text = heading[2], body_line + number, []
        else:
            text.append(row)
    yield Section(title, line, "\n".join(text))


def check_sections(file: Path, body_sections: Sequence[Section], body_line: int) -> Iterator[Mistake]:
    """A procedure has all of its sections, in order, none of them empty."""
    opening, *sections = body_sections
    if opening.text.strip():
        what = "text stands above the first heading. Move it under ## Why."
        yield Mistake(file, body_line, what)
    titles = [section.title for section in sections]
    for section in sections:
        if section.title not in PROCEDURE_SECTIONS:
            what = f"## {section.title}: a procedure has no such section. {nearest(section.title, PROCEDURE_SECTIONS)}"
            yield Mistake(file, section.line, what)
        elif titles.count(section.title) > 1 and section is not sections[titles.index(section.title)]:
            yield Mistake(file, section.line, f"## {section.title}: this section is there twice. Join the two.")
        if not section.text.strip():
            yield Mistake(file, section.line, f"## {section.title}: this section is empty.")
    for title in PROCEDURE_SECTIONS:
        if title not in titles:
            what = f"## {title}: this section is missing. A procedure has: {', '.join(PROCEDURE_SECTIONS)}."
            yield Mistake(file, body_line, what)
    known = [section for section in sections if section.title in PROCEDURE_SECTIONS]
    for before, section in pairwise(known):
        if PROCEDURE_SECTIONS.index(section.title) < PROCEDURE_SECTIONS.index(before.title):
            what = f"## {section.title}: this section stands before {before.title}. Keep the order of all procedures."
            yield Mistake(file, section.line, what)


def steps_of(file: Path, sections: Sequence[Section]) -> tuple[tuple[Step, ...], list[Mistake]]:
    """The steps of a procedure, and what is wrong with them."""
    section = next((one for one in sections if one.title == "Steps"), None)
    if section is None or not section.text.strip():
        return (), []
    wrong: list[Mistake] = []
    items: list[tuple[int, list[str]]] = []
    for number, (row, fenced) in enumerate(with_fences(section.text), start=section.line + 1):
        numbered = None if fenced else _NUMBERED.match(row)
        if numbered:
            items.append((number, [numbered[2]]))
            if int(numbered[1]) != len(items):
                wrong.append(Mistake(file, number, f"Steps: this step is number {len(items)}, not {numbered[1]}."))
        elif not row.strip() or (items and row[:1] in " \t"):
            if items:
                items[-1][1].append(row)
        else:
            what = (
                "Steps: this line is no part of a numbered step. Begin it with a number, or indent it under its step."
            )
            wrong.append(Mistake(file, number, what))
    steps = [_step(file, line, rows, wrong) for line, rows in items]
    if not any(step.hold for step in steps):
        what = "Steps: no step is a hold point. Put [hold] before the step that must be ticked before going on."
        wrong.append(Mistake(file, section.line, what))
    return tuple(steps), wrong


def _step(file: Path, line: int, rows: list[str], wrong: list[Mistake]) -> Step:
    marks, first = split_step_marks(rows[0])
    for mark in marks:
        if mark not in STEP_MARKS:
            wrong.append(Mistake(file, line, f"[{mark}]: no such mark opens a step. {nearest(mark, STEP_MARKS)}"))
    levels = [mark for mark in marks if mark != "hold"]
    if len(levels) > 1:
        wrong.append(Mistake(file, line, f"a step names one level, not {' and '.join(levels)}."))
    if not first:
        wrong.append(Mistake(file, line, "Steps: this step is empty behind its marks."))
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


def check_gates(file: Path, sections: Sequence[Section]) -> Iterator[Mistake]:
    """A gate stands before the steps, and has both its question and what to do at a no."""
    for section in sections:
        for gate in find_gates(section.text):
            line = section.line + 1 + gate.row
            if section.title != "Before you start":
                yield Mistake(file, line, "[gate]: a gate stands in the section Before you start.")
            if not gate.question or not gate.otherwise:
                yield Mistake(file, line, "[gate]: write “[gate] question | what to do when the answer is no”.")
