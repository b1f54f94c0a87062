"""Reads handbook/standards/*.yaml and handbook/sources.yaml into one set of limits, tables and sources.

The set is what calculators are handed (as JSON) and what prose marks are filled from.
"""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field, field_validator

from build_scripts.errors import HandbookError, Mistake, nearest
from build_scripts.read_yaml import Lines, read_yaml, to_record
from calculators.units import UNITS

Basis = Literal["published", "practice", "shop", "derived", "memory"]


class Strict(BaseModel):
    """A record that people write: unknown keys are refused, nothing is guessed."""

    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False)


class SourceEntry(Strict):
    """One line of sources.yaml: where a fact is printed and how far that was verified."""

    citation: str = Field(min_length=3)
    seen: Literal["paper", "secondary", "memory", "computed", "none"]
    note: str = ""


class DatedValue(Strict):
    """A limit's value from a date on, with who says so and when that was last looked at."""

    in_force_from: date
    value: float
    basis: Basis
    source: str
    checked_on: date
    decided_by: str = "handbook"


class ShopRange(Strict):
    """The least and the most that a shop may choose, in the limit's unit."""

    least: float
    most: float


class LimitEntry(Strict):
    """One limit: what it means, how it is judged, what a shop may choose, and its values by date."""

    meaning: str = Field(min_length=10)
    unit: str
    side: Literal["most", "least", "none"]
    guard: Literal["reject", "accept", "none"]
    safety: bool = False
    shop_range: ShopRange
    must_stay_below: list[str] = []
    values: list[DatedValue] = Field(min_length=1)

    @field_validator("unit")
    @classmethod
    def _known_unit(cls, unit: str) -> str:
        if unit not in UNITS:
            raise ValueError(f"{unit} is not a unit. {nearest(unit, UNITS)}")
        return unit


class TableEntry(Strict):
    """A printed table; every row has an id, a label, and the source it was read in."""

    title: str
    rows: list[dict[str, Any]] = Field(min_length=1)


class StandardsFile(Strict):
    """One file of handbook/standards/."""

    subject: str
    limits: dict[str, LimitEntry] = {}
    tables: dict[str, TableEntry] = {}


class StandardsSet(Strict):
    """All of them together, checked against each other."""

    subjects: dict[str, list[str]]
    limits: dict[str, LimitEntry]
    tables: dict[str, TableEntry]
    sources: dict[str, SourceEntry]

    def as_json(self, revision: str) -> str:
        """The text that calculators.limits.Standards.from_json reads; the same bytes for the same files."""
        limits = {key: [self._value(entry, value) for value in entry.values] for key, entry in self.limits.items()}
        data = {
            "revision": revision,
            "limits": limits,
            "tables": {name: {"title": table.title, "rows": table.rows} for name, table in self.tables.items()},
            "sources": {key: {"citation": one.citation, "seen": one.seen} for key, one in self.sources.items()},
        }
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
    sources = _read_sources(handbook / "sources.yaml", mistakes)
    subjects: dict[str, list[str]] = {}
    limits: dict[str, LimitEntry] = {}
    tables: dict[str, TableEntry] = {}
    where: dict[str, tuple[Path, Lines]] = {}
    for file in sorted((handbook / "standards").glob("*.yaml")):
        data, lines, broken = read_yaml(file.read_text(encoding="utf-8"), file)
        record = broken or to_record(StandardsFile, data, file, lines)
        if isinstance(record, list):
            mistakes += record
            continue
        for key in [*record.limits, *record.tables]:
            if key in where:
                mistakes.append(Mistake(file, lines.at(("limits", key)), f"{key} is already given in {where[key][0]}."))
            where[key] = (file, lines)
        subjects[record.subject] = list(record.limits)
        limits |= record.limits
        tables |= record.tables
    mistakes += _cross_check(limits, tables, sources, where)
    if mistakes:
        raise HandbookError(mistakes)
    return StandardsSet(subjects=subjects, limits=limits, tables=tables, sources=sources)


def _read_sources(file: Path, mistakes: list[Mistake]) -> dict[str, SourceEntry]:
    data, lines, broken = read_yaml(file.read_text(encoding="utf-8"), file)
    mistakes += broken
    sources: dict[str, SourceEntry] = {}
    for key, entry in (data or {}).items():
        record = to_record(SourceEntry, entry, file, lines, (key,))
        if isinstance(record, list):
            mistakes += record
        else:
            sources[key] = record
    return sources


def _cross_check(
    limits: dict[str, LimitEntry],
    tables: dict[str, TableEntry],
    sources: dict[str, SourceEntry],
    where: dict[str, tuple[Path, Lines]],
) -> list[Mistake]:
    found: list[Mistake] = []
    for key, entry in limits.items():
        file, lines = where[key]
        allowed = entry.shop_range
        for position, value in enumerate(entry.values):
            line = lines.at(("limits", key, "values", position, "value"))
            if value.source not in sources:
                found.append(
                    Mistake(
                        file,
                        lines.at(("limits", key, "values", position, "source")),
                        f"{key}: there is no source {value.source}. {nearest(value.source, sources)}",
                    )
                )
            if not allowed.least <= value.value <= allowed.most:
                found.append(
                    Mistake(
                        file,
                        line,
                        f"{key}: {value.value:g} is outside the range a shop may choose, "
                        f"{allowed.least:g} to {allowed.most:g} {entry.unit}.",
                    )
                )
            for partner in entry.must_stay_below:
                if partner not in limits:
                    found.append(
                        Mistake(
                            file,
                            line,
                            f"{key}: must_stay_below names {partner}, which is no limit. {nearest(partner, limits)}",
                        )
                    )
                elif value.value >= limits[partner].values[-1].value:
                    found.append(
                        Mistake(
                            file,
                            line,
                            f"{key}: {value.value:g} must stay below {partner}, "
                            f"which is {limits[partner].values[-1].value:g}.",
                        )
                    )
    for name, table in tables.items():
        file, lines = where[name]
        ids: set[str] = set()
        for position, row in enumerate(table.rows):
            line = lines.at(("tables", name, "rows", position))
            for needed in ("id", "label", "source"):
                if needed not in row:
                    found.append(Mistake(file, line, f"{name}: this row has no {needed}."))
            if row.get("id") in ids:
                found.append(Mistake(file, line, f"{name}: the row id {row['id']} is given twice."))
            ids.add(str(row.get("id")))
            if "source" in row and row["source"] not in sources:
                found.append(
                    Mistake(
                        file,
                        line,
                        f"{name}: there is no source {row['source']}. {nearest(str(row['source']), sources)}",
                    )
                )
    return found
