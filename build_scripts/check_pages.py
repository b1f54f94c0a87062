"""Checks pages against the rest of the handbook: what they name exists, what they use they name, and the reverse."""

from __future__ import annotations

import inspect
import re
from calendar import monthrange
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from build_scripts.errors import Mistake, nearest
from build_scripts.marks import with_fences, without_code
from build_scripts.read_lists import Menu
from build_scripts.read_pages import Page
from build_scripts.read_standards import LimitEntry, StandardsSet
from build_scripts.records import Hazard, Instrument
from calculators.contract import Calculator
from calculators.units import UNITS

LONGEST_REVIEW_MONTHS = 24
LIVE_REVIEW_MONTHS = 12
_RANK = {"anyone": 0, "helper": 1, "technician": 2}

# Digits behind one of these words are obviously a limit; digits elsewhere may be an example or a reading.
_COMPARING = (
    r"(?:below|under|above|over|beyond|within|at least|at most|more than|less than|up to|no more than|exceeds?|"
    r"limit of|[<>≤≥])"
)

_COMPARED = re.compile(rf"{_COMPARING}\s+[0-9]")


@dataclass(frozen=True)
class Known:
    """Everything a page may name."""

    standards: StandardsSet
    hazards: Mapping[str, Hazard]
    instruments: Mapping[str, Instrument]
    calculators: Mapping[str, Calculator]
    procedures: Collection[str]
    pictures: Collection[str] = ()


def check_pages(pages: Iterable[Page], known: Known) -> Iterator[Mistake]:
    """Every mistake that needs more than the page itself to be seen."""
    for page in pages:
        yield from _check_dates(page, known)
        yield from _check_marks(page, known)
        if page.procedure is not None:
            yield from _check_named(page, known)
            yield from _check_levels(page)
            yield from _check_calculators_used(page)
            yield from _check_limits_used(page)
            yield from _check_typed_limits(page, known.standards)


def check_calculators(known: Known) -> Iterator[Mistake]:
    """A calculator names only limits, tables, sources and hazards that the handbook has."""
    lists: tuple[tuple[str, Collection[str]], ...] = (
        ("limits", known.standards.limits),
        ("tables", known.standards.tables),
        ("sources", known.standards.sources),
        ("hazards", known.hazards),
    )
    for calculator in known.calculators.values():
        file = Path(inspect.getfile(calculator.evaluate))
        for field, allowed in lists:
            for name in getattr(calculator, field):
                if name not in allowed:
                    what = f"{calculator.slug}: {field} names {name}, which the handbook does not have."
                    yield Mistake(file, 1, f"{what} {nearest(name, allowed)}")


def check_menu(menu: Menu, written: Mapping[str, Path]) -> Iterator[Mistake]:
    """The menu names every written page exactly once, in the part it belongs to, and nothing else.

    written holds the file of every page by its path in the handbook.
    """
    parts: dict[str, dict[str, Path]] = {}
    for path, file in written.items():
        parts.setdefault(path.rpartition("/")[0] or "start", {})[file.stem] = file
    seen: set[tuple[str, str]] = set()
    for name, place in menu.places():
        part = str(place[0])
        belonging = parts.get(part, {})
        if name not in belonging:
            yield menu.mistake(f"{part}: there is no page {name} for this part. {nearest(name, belonging)}", *place)
        elif (part, name) in seen:
            yield menu.mistake(f"{part}: {name} stands in the menu twice. Keep one of them.", *place)
        seen.add((part, name))
    for part, belonging in parts.items():
        for name, file in belonging.items():
            if (part, name) not in seen:
                what = f"this page is not in the menu. Add {name} to {part} in {menu.file.name}."
                yield Mistake(file, 1, what)


def _check_dates(page: Page, known: Known) -> Iterator[Mistake]:
    front = page.front
    line = page.lines.at(("review_by",))
    months, why = _review_months(page, known)
    if front.review_by <= front.effective:
        yield page.mistake(line, f"review_by: {front.review_by} is not after effective, {front.effective}.")
    latest = _months_after(front.effective, months)
    if front.review_by > latest:
        yield page.mistake(
            line, f"review_by: {front.review_by} is too late. {why}, so the latest day is {latest}, {months} months on."
        )
    if front.safety_approved_by is not None and front.safety_approved_by.casefold() == front.approved_by.casefold():
        yield page.mistake(
            page.lines.at(("safety_approved_by",)),
            f"safety_approved_by: {front.approved_by} approves this page already. Name a second role.",
        )


def _months_after(day: date, months: int) -> date:
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))


def _review_months(page: Page, known: Known) -> tuple[int, str]:
    """How long the page may go without a new look, and why: the shortest reason wins."""
    reasons = [(LONGEST_REVIEW_MONTHS, "No page goes longer without a new look")]
    procedure = page.procedure
    if procedure is not None:
        levels = {procedure.level, *(step.level for step in page.steps)}
        if levels & {"technician", "licensed"}:
            reasons.append((LIVE_REVIEW_MONTHS, "It has work for a technician or a licensed person"))
        for key in procedure.hazards:
            if key in known.hazards:
                hazard = known.hazards[key]
                reasons.append((hazard.review_months, f"It has the hazard {key}"))
    return min(reasons)


def _check_named(page: Page, known: Known) -> Iterator[Mistake]:
    lists: tuple[tuple[str, Collection[str]], ...] = (
        ("hazards", known.hazards),
        ("instruments", known.instruments),
        ("calculators", known.calculators),
        ("limits", known.standards.limits),
        ("leads_to", known.procedures),
    )
    for field, allowed in lists:
        named: list[str] = getattr(page.front, field)
        for position, name in enumerate(named):
            line = page.lines.at((field, position))
            if name not in allowed:
                yield page.mistake(line, f"{field}: there is no {name}. {nearest(name, allowed)}")
            if name in named[:position]:
                yield page.mistake(line, f"{field}: {name} is named twice.")
            if field == "leads_to" and name == page.front.id:
                yield page.mistake(line, "leads_to: a procedure does not lead to itself.")


def _check_marks(page: Page, known: Known) -> Iterator[Mistake]:
    lists: dict[str, Collection[str]] = {
        "limit": known.standards.limits,
        "procedure": known.procedures,
        "calculator": known.calculators,
        "source": known.standards.sources,
        "picture": known.pictures,
    }
    for mark in page.marks:
        allowed = lists.get(mark.kind)
        if allowed is not None and mark.key not in allowed:
            what = f"{{{mark.kind}:{mark.key}}}: there is no such {mark.kind}. {nearest(mark.key, allowed)}"
            yield page.mistake(mark.line, what)
    for fence in page.fences:
        slug = fence.content.strip()
        if fence.language == "calculator" and len(slug.split()) == 1 and slug not in known.calculators:
            what = f"there is no calculator {slug}. {nearest(slug, known.calculators)}"
            yield page.mistake(fence.line, what)


def _check_levels(page: Page) -> Iterator[Mistake]:
    procedure = page.procedure
    if procedure is None:
        return
    for step in page.steps:
        rank, least = _RANK.get(step.level or ""), _RANK.get(procedure.level)
        if rank is not None and least is not None and rank < least:
            what = f"[{step.level}]: the page's level is {procedure.level}, and no step may need less than its page."
            yield page.mistake(step.line, what)


def _check_calculators_used(page: Page) -> Iterator[Mistake]:
    used = [(mark.key, mark.line) for mark in page.marks if mark.kind == "calculator"]
    used += [(fence.content.strip(), fence.line) for fence in page.fences if fence.language == "calculator"]
    yield from _check_named_and_used(
        page,
        "calculators",
        used,
        "{0} is named but the text never shows or links it. Add {{calculator:{0}}}.",
        "the calculator {0} is used here but not named. Add it to calculators in the front matter.",
    )


def _check_limits_used(page: Page) -> Iterator[Mistake]:
    yield from _check_named_and_used(
        page,
        "limits",
        [(mark.key, mark.line) for mark in page.marks if mark.kind == "limit"],
        "{0} is named but the text never uses it. Add {{limit:{0}}} where it matters.",
        "{{limit:{0}}} is used here but not named. Add it to limits in the front matter.",
    )


def _check_named_and_used(
    page: Page, where: str, used: list[tuple[str, int]], unused: str, unnamed: str
) -> Iterator[Mistake]:
    """What the front matter names under `where` and what the text uses must be the same; the first use is shown."""
    named: list[str] = getattr(page.front, where, [])
    first_use: dict[str, int] = {}
    for key, line in used:
        first_use.setdefault(key, line)
    for position, key in enumerate(named):
        if key not in first_use:
            yield page.mistake(page.lines.at((where, position)), f"{where}: {unused.format(key)}")
    for key, line in first_use.items():
        if key not in named:
            yield page.mistake(line, unnamed.format(key))


def _check_typed_limits(page: Page, standards: StandardsSet) -> Iterator[Mistake]:
    """A limit of this page typed as digits, where the words before it say that it is one."""
    named: list[str] = getattr(page.front, "limits", [])
    for number, (row, fenced) in enumerate(with_fences(page.body), start=page.body_line):
        if fenced or not _COMPARED.search(row):
            continue
        prose = without_code(row)
        for key in named:
            typed = _typed(standards.limits[key]) if key in standards.limits else ""
            found = re.search(typed, prose) if typed else None
            if found:
                what = f"“{found[0]}” types the limit {key} as digits. Write {{limit:{key}}} instead of the number."
                yield page.mistake(number, what)


def _typed(limit: LimitEntry) -> str:
    """The expression for a limit in digits; empty for one that has no unit to be known by."""
    unit = UNITS[limit.unit]
    if not unit.symbol:
        return ""
    values = "|".join(re.escape(f"{value.value:g}") for value in limit.values)
    units = "|".join(re.escape(word) for word in sorted({unit.symbol, *unit.spellings}, key=len, reverse=True))
    return rf"{_COMPARING}\s+(?:{values})\s?(?:{units})(?![A-Za-z0-9µΩ])"
