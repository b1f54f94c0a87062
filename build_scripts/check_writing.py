"""Checks how pages are written: reading level, length of steps, words nobody explains, pictures, spelling.

Belongs to the command `check`; the two packages it leans on are in that set. Everything said here is about the words
that people wrote, at the line they wrote them on.
"""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
from collections.abc import Collection, Iterator
from pathlib import Path

from build_scripts.errors import HandbookError, Mistake
from build_scripts.marks import with_fences
from build_scripts.read_handbook import Handbook
from build_scripts.read_pages import Page
from calculators.units import UNITS

# A helper of fifteen reads grade 9; syllables are counted at the points where a word may be hyphenated, which finds a
# few too few, so that a page at this figure is harder than it says.
HARDEST_GRADE = 8.0
LONGEST_STEP_WORDS = 45
MOST_STEP_SENTENCES = 2

_MARK = re.compile(r"\{(limit|procedure|calculator|source|picture):[^{}\s]+\}")
_READ_AS = {"limit": "12 volts", "procedure": "this page", "calculator": "this form", "source": "", "picture": ""}
_START_OF_LINE = re.compile(r"^\s*(?:(?:[-*]|[0-9]+\.)\s+)?(?:\[[a-z]+\]\s*)*")
_SENTENCE_END = re.compile(r"[.?!:;]+(?:\s|$)|\s\|\s")
_WORD = re.compile(r"[A-Za-zµΩ']+")
_SHORT_FORM = re.compile(r"(?<![\w/.-])[A-Z][A-Z0-9]{1,6}(?![\w/-])")
_PICTURE_WITHOUT_WORDS = re.compile(r"!\[\s*\]\(|<img\b(?![^>]*\salt=\"[^\"]+\")")
# Letters that are explained where they stand: pins, conductors, marks of a meter, standards bodies inside citations.
_PLAIN_LETTERS = frozenset(
    word
    for row in (
        "PE AWG AC DC LED US UK OK ID CAT II III IV",
        "IEC UL NEC AHRI ASHRAE IEEE EN ISO ASTM B258",
    )
    for word in row.split(" ")
)


def check_writing(handbook: Handbook) -> None:
    """Raises HandbookError with everything in how the pages are written that wants mending."""
    known = _explained(handbook)
    mistakes = [mistake for page in handbook.pages for mistake in _check_page(page, known)]
    mistakes += _check_spelling(handbook)
    if mistakes:
        raise HandbookError(mistakes)


def reading_grade(text: str) -> float:
    """The Flesch-Kincaid grade of a page's prose: years at school that it asks for.

    Source: Kincaid, Fishburne, Rogers and Chissom 1975, 0.39 words a sentence + 11.8 syllables a word - 15.59.
    """
    from pyphen import Pyphen

    split = Pyphen(lang="en_GB")
    prose = " ".join(_prose(text))
    sentences = [part for part in _SENTENCE_END.split(prose) if len(part.split()) > 2]
    words = _WORD.findall(prose)
    if not sentences:
        return 0.0
    syllables = sum(len(split.positions(word)) + 1 for word in words)
    return 0.39 * len(words) / len(sentences) + 11.8 * syllables / len(words) - 15.59


def _prose(text: str) -> Iterator[str]:
    """The lines that are read one after the other: no code, headings or tables."""
    for line, inside in with_fences(text):
        if line.strip() and not inside and not line.lstrip().startswith(("#", "|", "{:")):
            yield _MARK.sub(lambda mark: _READ_AS[mark[1]], _START_OF_LINE.sub("", line))


def _check_page(page: Page, known: Collection[str]) -> Iterator[Mistake]:
    grade = reading_grade(page.body)
    if grade > HARDEST_GRADE:
        what = f"the prose reads at grade {grade:.1f}; {HARDEST_GRADE:g} at the most. Shorten sentences and words."
        yield page.mistake(page.body_line, what)
    for step in page.steps:
        sentences = len(re.findall(r"[.?!](?:\s|$)", step.text))
        words = max(len(_WORD.findall(_MARK.sub("mark", line))) for line in step.text.split("\n"))
        if sentences > MOST_STEP_SENTENCES or words > LONGEST_STEP_WORDS:
            what = f"a step of {sentences} sentences, one of {words} words, is more than one thing to do. Part it."
            yield page.mistake(step.line, what)
    for number, (line, inside) in enumerate(with_fences(page.body)):
        if not inside:
            yield from _check_line(page, page.body_line + number, line, known)


def _check_line(page: Page, number: int, line: str, known: Collection[str]) -> Iterator[Mistake]:
    if _PICTURE_WITHOUT_WORDS.search(line):
        yield page.mistake(number, "a picture has no words for who cannot see it. Say in its alt text what it shows.")
    for short in dict.fromkeys(_SHORT_FORM.findall(_MARK.sub("", line))):
        if short not in known:
            what = f"{short}: nobody explains this. Add it to glossary.yaml, as a word or as another word for one."
            yield page.mistake(number, what)


def _explained(handbook: Handbook) -> frozenset[str]:
    """Short forms that the glossary, the units or the trade's own letters explain."""
    said = [*handbook.glossary, *(also for term in handbook.glossary.values() for also in term.also)]
    units = [spelling for unit in UNITS.values() for spelling in unit.spellings]
    return frozenset(word for text in (*said, *units) for word in re.split(r"[ /]", text)) | _PLAIN_LETTERS


def _check_spelling(handbook: Handbook) -> Iterator[Mistake]:
    """Common misspellings in the bodies of pages; what readers type into a search, misspelt on purpose, is not read."""
    with tempfile.TemporaryDirectory() as folder:
        files = {}
        for number, page in enumerate(handbook.pages):
            file = Path(folder) / f"{number}.md"
            file.write_text("\n" * (page.body_line - 1) + page.body, encoding="utf-8")
            files[file.name] = page
        done = subprocess.run(
            [sys.executable, "-m", "codespell_lib", "--quiet-level", "35", "."],
            cwd=folder,
            check=False,
            capture_output=True,
            encoding="utf-8",
        )
    for row in done.stdout.splitlines():
        found = re.fullmatch(r"(?:\./)?([0-9]+\.md):([0-9]+): (.+?) ==> (.+)", row.strip())
        if found:
            yield files[found[1]].mistake(int(found[2]), f"{found[3]}: did you mean {found[4]}?")
