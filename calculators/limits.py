"""Limits, tables, sources and the decision map as the handbook's data gives them; nothing here holds a value.

A limit has a dotted key, a value, a unit, a side (`most`: readings above it are outside;
`least`: readings below it are), a guard, a basis and a source, from a date.
Guard `reject` belongs to limits that condemn a part: the whole band must be outside.
Guard `accept` belongs to limits that protect a person: the whole band must be inside.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Hashable, Mapping
from dataclasses import dataclass, field
from datetime import date
from types import MappingProxyType
from typing import Any, TypeVar

from calculators.decisions import NO_DECISIONS, DecisionMap
from calculators.units import symbol

Made = TypeVar("Made")

_LIMIT_MARK = re.compile(r"\{limit:([a-z0-9_.]+)\}")


@dataclass(frozen=True)
class Source:
    """Where a fact is printed, and how it was seen: paper, secondary copy, memory, or none."""

    key: str
    citation: str
    seen: str

    @property
    def text(self) -> str:
        """The citation with its mark, as it is printed beside a number."""
        marks = {
            "paper": "",
            "none": "",
            "computed": "",
            "secondary": " (seen in a secondary copy)",
            "memory": " (from memory, check the edition in force)",
        }
        return self.citation + marks[self.seen]


@dataclass(frozen=True)
class Limit:
    """One limit in force on a date, with everything that must stand beside its number."""

    key: str
    meaning: str
    value: float
    unit: str
    side: str
    guard: str
    basis: str
    source: Source
    in_force_from: str
    checked_on: str
    decided_by: str
    handbook_value: float | None = None

    @property
    def text(self) -> str:
        """The value with its unit, as a technician would say it."""
        number = f"{self.value:g}"
        mark = symbol(self.unit)
        return f"{number} {mark}" if mark and mark != "%" else f"{number}{' %' if mark else ''}"


@dataclass(frozen=True)
class Table:
    """A printed table: rows of named cells, with where it is printed."""

    name: str
    title: str
    rows: tuple[Mapping[str, Any], ...]

    def row(self, key: str) -> Mapping[str, Any] | None:
        """The row whose `id` is key, or None when the print has no such row."""
        return next((row for row in self.rows if row["id"] == key), None)


class NothingInForceError(LookupError):
    """No value of a limit was in force on the date; the neighbour's value is never borrowed."""

    def __init__(self, key: str, on: date) -> None:
        self.key = key
        self.on = on
        super().__init__(
            f"No value of the limit {key} is in force on {on.isoformat()}. Check the date set on this device."
        )


@dataclass(frozen=True)
class InForce:
    """The standards as they stand on one date: what a calculator is handed."""

    on: date
    limits: Mapping[str, tuple[Mapping[str, Any], ...]]
    tables: Mapping[str, Table]
    sources: Mapping[str, Source]
    decisions: DecisionMap = NO_DECISIONS
    _made: dict[Hashable, Any] = field(default_factory=dict, init=False, repr=False, compare=False)

    def once(self, key: Hashable, make: Callable[[], Made]) -> Made:
        """What make gives, made once for these standards: they never change, and a page asks at every keystroke."""
        if key not in self._made:
            self._made[key] = make()
        made: Made = self._made[key]
        return made

    def limit(self, key: str) -> Limit:
        """The limit in force under a dotted key.

        Raises NothingInForceError when the date is before its first value, KeyError for an unknown key.
        """
        return self.once(("limit", key), lambda: self._limit(key))

    def _limit(self, key: str) -> Limit:
        day = self.on.isoformat()
        dated = [value for value in self.limits[key] if value["in_force_from"] <= day]
        if not dated:
            raise NothingInForceError(key, self.on)
        row = max(dated, key=lambda value: str(value["in_force_from"]))
        fields = {name: row[name] for name in Limit.__dataclass_fields__ if name in row and name != "source"}
        return Limit(key=key, source=self.source(row["source"]), **fields)

    def value(self, key: str) -> float:
        """The bare number of a limit."""
        return self.limit(key).value

    def said(self, text: str) -> str:
        """A text of the handbook's data with the value of each limit in the place of its mark `{limit:key}`."""
        return _LIMIT_MARK.sub(lambda mark: self.limit(mark[1]).text, text) if "{" in text else text

    def table(self, name: str) -> Table:
        """A table by name; KeyError when the handbook has none."""
        return self.tables[name]

    def source(self, key: str) -> Source:
        """A source by key; KeyError when the handbook has none."""
        return self.sources[key]

    def cite(self, key: str) -> str:
        """The text of a source as it stands beside a number."""
        return self.sources[key].text


@dataclass(frozen=True)
class Standards:
    """Every dated value, table and source of the handbook or of a shop's edition."""

    limits: Mapping[str, tuple[Mapping[str, Any], ...]]
    tables: Mapping[str, Table]
    sources: Mapping[str, Source]
    revision: str
    decisions: DecisionMap = NO_DECISIONS
    _last: dict[date, InForce] = field(default_factory=dict, init=False, repr=False, compare=False)

    @classmethod
    def from_json(cls, text: str) -> Standards:
        """Read the file that the build writes.

        Shape: {"revision": str, "limits": {key: [{value, unit, side, guard, meaning, basis, source,
        in_force_from, checked_on, decided_by, handbook_value?}]}, "tables": {name: {title, rows: [{id, ...}]}},
        "sources": {key: {citation, seen}}, "decisions"?: what DecisionMap.from_data reads}.
        """
        data = json.loads(text)
        limits = {key: tuple(MappingProxyType(row) for row in rows) for key, rows in data["limits"].items()}
        tables = {
            name: Table(name, table["title"], tuple(MappingProxyType(row) for row in table["rows"]))
            for name, table in data["tables"].items()
        }
        sources = {key: Source(key, row["citation"], row["seen"]) for key, row in data["sources"].items()}
        decisions = DecisionMap.from_data(data.get("decisions", {}))
        return cls(
            MappingProxyType(limits), MappingProxyType(tables), MappingProxyType(sources), data["revision"], decisions
        )

    def in_force(self, on: date) -> InForce:
        """The standards as a calculator sees them on a date; the last ones asked for are kept."""
        if on not in self._last:
            self._last.clear()
            self._last[on] = InForce(on, self.limits, self.tables, self.sources, self.decisions)
        return self._last[on]
