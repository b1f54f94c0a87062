r"""Marks in prose: `{limit:amps.high_ratio}`, `{procedure:...}`, `{calculator:...}`, `{source:...}`, `{picture:...}`.

Also the marks that open a step, `[hold]` and `[technician]`. Text inside code is left alone.

>>> [(mark.kind, mark.key, mark.line) for mark in find_marks("Above {limit:a.b}.\n`{limit:c.d}`\n{source:x}", 7)]
[('limit', 'a.b', 7), ('source', 'x', 9)]
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

MARK_KINDS = ("limit", "procedure", "calculator", "source", "picture")
STEP_MARKS = ("hold", "anyone", "helper", "technician", "licensed")

_MARK = re.compile(r"\{([a-z_]+):([^{}\s]+)\}")
_CODE = re.compile(r"(?<!`)(`+)(?!`).+?(?<!`)\1(?!`)")
_FENCE = re.compile(r"^(\s*)(`{3,}|~{3,})\s*([^\s`]*)")
# Words in brackets that are no link; a known mark is one whatever follows it.
_STEP_MARK = re.compile(rf"\[({'|'.join(STEP_MARKS)}|[^\[\]]{{1,20}}(?=\](?![(\[:])))\][ \t]*")


@dataclass(frozen=True)
class Mark:
    """One mark in prose and the line it stands on."""

    kind: str
    key: str
    line: int


@dataclass(frozen=True)
class Fence:
    """A fenced block: the word behind its opening, its content, and the line of the opening."""

    language: str
    content: str
    line: int


def find_marks(text: str, first_line: int = 1) -> list[Mark]:
    """Every mark of a text outside of code, in order."""
    found: list[Mark] = []

    def note(mark: Mark) -> str:
        found.append(mark)
        return ""

    fill_marks(text, note, first_line)
    return found


def fill_marks(text: str, fill: Callable[[Mark], str], first_line: int = 1) -> str:
    """The text with every mark outside of code replaced by what fill says."""
    if "{" not in text:
        return text
    filled = [
        line if inside or "{" not in line else _fill_line(line, fill, first_line + number)
        for number, (line, inside) in enumerate(with_fences(text))
    ]
    return "\n".join(filled)


def _fill_line(line: str, fill: Callable[[Mark], str], number: int) -> str:
    code = [match.span() for match in _CODE.finditer(line)]

    def replace(match: re.Match[str]) -> str:
        if any(start <= match.start() < end for start, end in code):
            return match[0]
        return fill(Mark(match[1], match[2], number))

    return _MARK.sub(replace, line)


def without_code(line: str) -> str:
    """A line with the code in it blanked out.

    >>> without_code("below `10 V` here")
    'below        here'
    """
    return _CODE.sub(lambda code: " " * len(code[0]), line) if "`" in line else line


def with_fences(text: str) -> list[tuple[str, bool]]:
    """Every line of a text, and whether it is part of a fenced block (its opening and closing included)."""
    if "```" not in text and "~~~" not in text:
        return [(line, False) for line in text.split("\n")]
    marked: list[tuple[str, bool]] = []
    closing = ""
    for line in text.split("\n"):
        fence = _FENCE.match(line)
        if closing:
            marked.append((line, True))
            if fence and fence[2].startswith(closing) and not line.strip(" \t`~"):
                closing = ""
        else:
            closing = fence[2] if fence else ""
            marked.append((line, bool(fence)))
    return marked


def find_fences(text: str, first_line: int = 1) -> list[Fence]:
    """Every fenced block of a text."""
    fences: list[Fence] = []
    content: list[str] = []
    opened: tuple[str, str, int] | None = None
    for number, line in enumerate(text.split("\n")):
        fence = _FENCE.match(line)
        if opened is None:
            opened = (fence[2], fence[3], first_line + number) if fence else None
            content = []
        elif fence and fence[2].startswith(opened[0]) and not line.strip(" \t`~"):
            fences.append(Fence(opened[1], "\n".join(content), opened[2]))
            opened = None
        else:
            content.append(line)
    if opened is not None:
        fences.append(Fence(opened[1], "\n".join(content), opened[2]))
    return fences


def split_step_marks(text: str) -> tuple[list[str], str]:
    """The marks that open a step, known or not, and the rest of the step.

    >>> split_step_marks("[hold] [technician] Prove dead.")
    (['hold', 'technician'], 'Prove dead.')
    >>> split_step_marks("[The plate](plate.md) says it.")
    ([], '[The plate](plate.md) says it.')
    """
    marks: list[str] = []
    while found := _STEP_MARK.match(text):
        marks.append(found[1].strip())
        text = text[found.end() :]
    return marks, text
