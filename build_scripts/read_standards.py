"""Reads handbook/standards/*.yaml, sources.yaml and decisions/*.yaml into one set: limits, tables, sources, decisions.

The set is what calculators are handed (as JSON) and what prose marks are filled from.
"""

from __future__ import annotations

import json
import re
from collections.abc import Collection, Iterator
from datetime import date
from pathlib import Path
from typing import Any, Literal

from pydantic import Field, field_validator

from build_scripts.errors import HandbookError, Mistake, nearest
from build_scripts.read_decisions import DecisionSet, collect_decisions
from build_scripts.read_yaml import Lines, Place, read_file, read_yaml, to_record, to_records
from build_scripts.records import Day, Number, Strict
from calculators.units import UNITS

_LIMIT_KEY = re.compile(r"[a-z][a-z0-9_]*(?:\.[a-z0-9][a-z0-9_]*)+")

Basis = Literal["published", "practice", "shop", "derived", "memory"]


class SourceEntry(Strict):
    """One line of sources.yaml: where a fact is printed and how far that was verified."""

    citation: str = Field(min_length=3)
    seen: Literal["paper", "secondary", "memory", "computed", "none"]
    note: str = ""


class DatedValue(Strict):
    """A limit's value from a date on, with who says so and when that was last looked at."""

    in_force_from: Day
    value: Number
    basis: Basis
    source: str
    checked_on: Day
    decided_by: str = "handbook"


class ShopRange(Strict):
    """The least and the most that a shop may choose, in the limit's unit."""

    least: Number
    most: Number


class LimitEntry(Strict):
    """One limit: what it means, how it is judged, what a shop may choose, and its values by date."""

    meaning: str = Field(min_length=10)
    unit: str
    side: Literal["most", "least", "none"]
    guard: Literal["reject", "accept", "none"]
    safety: bool = False
    shop_range: ShopRange
    must_stay_below: list[str] = Field(default_factory=list)
    values: list[DatedValue] = Field(min_length=1)

    def on(self, day: date) -> DatedValue | None:
        """The value in force on a day; None before the first one. A neighbour's value is never borrowed."""
        return max(
            (value for value in self.values if value.in_force_from <= day),
            key=lambda value: value.in_force_from,
            default=None,
        )

    @field_validator("unit")
    @classmethod
    def _known_unit(cls, unit: str) -> str:
        if unit not in UNITS:
            raise ValueError(f"{unit} is not a unit. {nearest(unit, UNITS)}")
        return unit


class TableEntry(Strict):
    """A printed table; every row has an id, a label, and the source it was read in.

    A cell may be a list of numbers: a row with lists is a small table of its own, one line for each place in the lists.
    """

    title: str
    note: str = ""
    rows: list[dict[str, Any]] = Field(min_length=1)


class StandardsFile(Strict):
    """One file of handbook/standards/."""

    subject: str
    limits: dict[str, LimitEntry] = Field(default_factory=dict)
    tables: dict[str, TableEntry] = Field(default_factory=dict)


class StandardsSet(Strict):
    """All of them together, checked against each other."""

    subjects: dict[str, list[str]]
    limits: dict[str, LimitEntry]
    tables: dict[str, TableEntry]
    sources: dict[str, SourceEntry]
    decisions: DecisionSet = Field(default_factory=DecisionSet)

    def as_json(self, revision: str) -> str:
        """The text that calculators.limits.Standards.from_json reads; the same bytes for the same files."""
        limits = {key: [self._value(entry, value) for value in entry.values] for key, entry in self.limits.items()}
        data: dict[str, Any] = {
            "revision": revision,
            "limits": limits,
            "tables": {name: {"title": table.title, "rows": table.rows} for name, table in self.tables.items()},
            "sources": {key: {"citation": one.citation, "seen": one.seen} for key, one in self.sources.items()},
        }
        if self.decisions.questions:
            data["decisions"] = self.decisions.as_data()
        return json.dumps(data, ensure_ascii=False, sort_keys=True, separators=(",", ":"))

    def _value(self, entry: LimitEntry, value: DatedValue) -> dict[str, Any]:
        return {
            "value": value.value,
            "unit": entry.unit,
            "side": entry.side,
            "guard": entry.guard,
            "meaning": entry.meaning,
            "basis": value.basis,
            "source": value.source,
            "in_force_from": value.in_force_from.isoformat(),
            "checked_on": value.checked_on.isoformat(),
            "decided_by": value.decided_by,
        }


def read_standards(handbook: Path) -> StandardsSet:
    """Read and cross-check every standards file; raises HandbookError with all mistakes at once."""
    mistakes: list[Mistake] = []
    standards = collect_standards(handbook, mistakes)
    if mistakes:
        raise HandbookError(mistakes)
    return standards


def collect_standards(
    handbook: Path, mistakes: list[Mistake], on: date | None = None, procedures: Collection[str] | None = None
) -> StandardsSet:
    """What can be read of the standards; every mistake is added to the list.

    With a day, every limit has to have a value in force on it. With the names of the procedures, the decision map has
    to point to them.
    """
    sources = _read_sources(handbook / "sources.yaml", mistakes)
    subjects: dict[str, list[str]] = {}
    limits: dict[str, LimitEntry] = {}
    tables: dict[str, TableEntry] = {}
    places: dict[str, Place] = {}
    for file in sorted((handbook / "standards").glob("*.yaml")):
        text, unread = read_file(file)
        data, lines, broken = read_yaml(text, file)
        record = unread or broken or to_record(StandardsFile, data, file, lines)
        if isinstance(record, list):
            mistakes += record
            continue
        mistakes += _new_places(record, file, lines, places)
        if record.subject in subjects:
            what = f"subject: “{record.subject}” is the subject of another file already. Give this file its own."
            mistakes.append(Mistake(file, lines.at(("subject",)), what))
        subjects[record.subject] = [*subjects.get(record.subject, []), *record.limits]
        limits |= record.limits
        tables |= record.tables
    for key, limit in limits.items():
        mistakes += _check_limit(key, limit, places[key], limits, sources)
        if on is not None and limit.on(on) is None:
            what = f"{key}: no value is in force on {on}. Give the value that holds today, with its date."
            mistakes.append(places[key].mistake(what, "values", 0, "in_force_from"))
    for name, table in tables.items():
        mistakes += _check_table(name, table, places[name], sources)
    decisions = collect_decisions(handbook, mistakes, limits, sources, procedures)
    return StandardsSet(subjects=subjects, limits=limits, tables=tables, sources=sources, decisions=decisions)


def _read_sources(file: Path, mistakes: list[Mistake]) -> dict[str, SourceEntry]:
    text, unread = read_file(file)
    data, lines, broken = read_yaml(text, file)
    mistakes += unread + broken
    return to_records(SourceEntry, data, file, lines, mistakes)


def _new_places(record: StandardsFile, file: Path, lines: Lines, places: dict[str, Place]) -> Iterator[Mistake]:
    for part, names in (("limits", record.limits), ("tables", record.tables)):
        for name in names:
            place = Place(file, lines, (part, name))
            if name in places:
                first = places[name]
                yield place.mistake(
                    f"{name}: this is given twice, first in {first.file.name} on line {first.lines.at(first.path)}. "
                    f"Keep one of them."
                )
            if part == "limits" and not _LIMIT_KEY.fullmatch(name):
                yield place.mistake(
                    f"{name}: a limit is named by its subject, a dot and its name in small letters, "
                    f"such as amps.high_ratio."
                )
            places[name] = place


def _check_limit(
    key: str, limit: LimitEntry, place: Place, limits: dict[str, LimitEntry], sources: dict[str, SourceEntry]
) -> Iterator[Mistake]:
    allowed = limit.shop_range
    if allowed.least > allowed.most:
        yield place.mistake(f"{key}: the least a shop may choose, {allowed.least:g}, is above the most.", "shop_range")
    for position, value in enumerate(limit.values):
        if value.source not in sources:
            what = f"{key}: there is no source {value.source}. {nearest(value.source, sources)}"
            yield place.mistake(what, "values", position, "source")
        if not allowed.least <= value.value <= allowed.most:
            yield place.mistake(
                f"{key}: {value.value:g} is outside the range a shop may choose, "
                f"{allowed.least:g} to {allowed.most:g} {limit.unit}.",
                *("values", position, "value"),
            )
        if position and value.in_force_from <= limit.values[position - 1].in_force_from:
            yield place.mistake(
                f"{key}: values stand in the order of their dates, each later than the one before; "
                f"{value.in_force_from} is not.",
                *("values", position, "in_force_from"),
            )
    for partner in limit.must_stay_below:
        if partner not in limits:
            what = f"{key}: must_stay_below names {partner}, which is no limit. {nearest(partner, limits)}"
            yield place.mistake(what, "must_stay_below")
        else:
            yield from _check_order(key, limit, partner, limits[partner], place)


def _check_order(key: str, limit: LimitEntry, partner: str, other: LimitEntry, place: Place) -> Iterator[Mistake]:
    """A limit below its partner has to stay below it on every day, not only today."""
    if limit.unit != other.unit:
        yield place.mistake(
            f"{key}: it is in {limit.unit} and {partner} is in {other.unit}; they cannot be compared.",
            "must_stay_below",
        )
        return
    for day in sorted({value.in_force_from for value in (*limit.values, *other.values)}):
        mine, theirs = limit.on(day), other.on(day)
        if mine is not None and theirs is not None and mine.value >= theirs.value:
            yield place.mistake(
                f"{key}: {mine.value:g} must stay below {partner}, which is {theirs.value:g} from {day}.",
                *("values", limit.values.index(mine), "value"),
            )


def _check_table(name: str, table: TableEntry, place: Place, sources: dict[str, SourceEntry]) -> Iterator[Mistake]:
    ids: set[str] = set()
    for position, row in enumerate(table.rows):
        here = ("rows", position)
        for needed in ("id", "label", "source"):
            if needed not in row:
                yield place.mistake(
                    f"{name}: this row has no {needed}. Every row has an id, a label and a source.", *here
                )
        if str(row.get("id")) in ids:
            yield place.mistake(f"{name}: the row id {row['id']} is given twice.", *here)
        ids.add(str(row.get("id")))
        if "source" in row and row["source"] not in sources:
            what = f"{name}: there is no source {row['source']}. {nearest(str(row['source']), sources)}"
            yield place.mistake(what, *here, "source")
        yield from _check_lists(name, row, place, position)


def _check_lists(name: str, row: dict[str, Any], place: Place, position: int) -> Iterator[Mistake]:
    """The lists of a row hold numbers, and stand beside each other: each has as many as the first."""
    lists = {key: cell for key, cell in row.items() if isinstance(cell, list)}
    first = next(iter(lists), "")
    for key, cell in lists.items():
        wrong = [one for one in cell if isinstance(one, bool) or not isinstance(one, int | float)]
        if wrong or not cell:
            what = f"{name}: {key} has to be a list of numbers{f'; {wrong[0]} is none' if wrong else ', and is empty'}."
            yield place.mistake(what, "rows", position, key)
        elif len(cell) != len(lists[first]):
            yield place.mistake(
                f"{name}: {key} has {len(cell)} numbers and {first} has {len(lists[first])}. "
                f"Lists of one row are as long as each other.",
                *("rows", position, key),
            )
