"""Reference pages made from data: limits, sources, hazards, instruments, the glossary and printed tables."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from build_scripts.addresses import (
    GLOSSARY_PAGE,
    HAZARDS_PAGE,
    INSTRUMENTS_PAGE,
    LIMITS_PAGE,
    SOURCES_PAGE,
    calculator_page,
    table_page,
)
from build_scripts.fill_templates import fill, plain
from build_scripts.read_handbook import Handbook
from build_scripts.read_standards import LimitEntry, TableEntry
from build_scripts.write_pages import link_source
from calculators.limits import InForce, Limit
from calculators.units import UNITS, symbol

JUDGED = {
    ("most", "reject"): "it condemns a reading above it, and only when the whole band of the reading is above",
    ("least", "reject"): "it condemns a reading below it, and only when the whole band of the reading is below",
    ("most", "accept"): "it protects a person: passed only when the whole band of the reading is at or below it",
    ("least", "accept"): "it protects a person: passed only when the whole band of the reading is at or above it",
}
NO_VERDICT = "it gives no verdict by itself; the calculators and the pages work with it"

BASES = {
    "published": "Published",
    "practice": "Common practice of the trade",
    "shop": "Chosen by the shop",
    "derived": "Derived by arithmetic",
    "memory": "Written down from memory",
}

SEEN = {
    "paper": "read in the publication itself",
    "secondary": "read in a secondary copy",
    "memory": "from memory, check the edition in force",
    "computed": "computed where it is used",
    "none": "no publication is known",
}

SEEN_GROUPS = (
    ("paper", "Read in the publication", "These were read in the publication itself."),
    ("secondary", "Read in a secondary copy", "These were read in a copy or a print at second hand."),
    ("memory", "From memory", "These were written down from knowledge and not read again."),
    ("computed", "Computed", "These are arithmetic, shown where it is used."),
    ("none", "Trade practice", "These are facts of the trade that no publication is known for."),
)

# Keys that calculators look rows up by, which say nothing to a reader.
_INNER_KEYS = ("id", "family", "unit")

# What the key `unit` of a row is the unit of.
_IN_THE_UNIT_OF_THE_ROW = ("resistance", "reactance")


@dataclass(frozen=True)
class Use:
    """A page that uses something."""

    title: str
    path: str


def write_reference(handbook: Handbook, standards: InForce) -> Iterator[tuple[str, str]]:
    """The path and the Markdown of every page made from the handbook's lists."""
    yield LIMITS_PAGE, _limits(handbook, standards)
    yield SOURCES_PAGE, _sources(handbook)
    yield HAZARDS_PAGE, _hazards(handbook)
    yield INSTRUMENTS_PAGE, _instruments(handbook)
    if handbook.glossary:
        terms = sorted(handbook.glossary.items(), key=lambda pair: pair[0].casefold())
        yield GLOSSARY_PAGE, fill("glossary.md", terms=terms)
    for name in handbook.standards.tables:
        here = table_page(name)
        yield here, _table(handbook.standards.tables[name], here, standards)


def _limits(handbook: Handbook, standards: InForce) -> str:
    uses = _uses(handbook, "limits")
    subjects = [
        {"title": subject, "limits": [_limit(key, handbook, standards, uses.get(key, [])) for key in keys]}
        for subject, keys in handbook.standards.subjects.items()
        if keys
    ]
    return fill("limits.md", here=LIMITS_PAGE, on=standards.on.isoformat(), subjects=subjects)


def _limit(key: str, handbook: Handbook, standards: InForce, used_by: list[Use]) -> dict[str, Any]:
    limit = standards.limit(key)
    entry = handbook.standards.limits[key]
    judged = JUDGED.get((entry.side, entry.guard), NO_VERDICT)
    return {
        "limit": limit,
        "name": key.partition(".")[2].replace("_", " ").replace(".", ", ").capitalize(),
        "judged": f"{judged}.",
        "basis": BASES[limit.basis],
        "source": limit.source.key,
        "seen": SEEN[limit.source.seen],
        "least": _value_text(entry.shop_range.least, limit),
        "most": _value_text(entry.shop_range.most, limit),
        "below": entry.must_stay_below,
        "later": _later(entry, limit, standards.on),
        "used_by": used_by,
    }


def _later(entry: LimitEntry, limit: Limit, on: date) -> list[dict[str, str]]:
    """Values that come into force after the day of the build."""
    return [
        {"in_force_from": value.in_force_from.isoformat(), "text": _value_text(value.value, limit)}
        for value in entry.values
        if value.in_force_from > on
    ]


def _value_text(value: float, limit: Limit) -> str:
    return f"{value:g} {symbol(limit.unit)}".rstrip()


def _uses(handbook: Handbook, field: str) -> dict[str, list[Use]]:
    """The procedures and calculators that name each key in a field of their declaration."""
    uses: dict[str, list[Use]] = {}
    for page in handbook.procedures.values():
        for key in getattr(page.front, field):
            uses.setdefault(key, []).append(Use(page.front.title, page.path))
    for calculator in handbook.calculators.values():
        for key in getattr(calculator, field, ()):
            uses.setdefault(key, []).append(Use(calculator.title, calculator_page(calculator.slug)))
    return uses


def _sources(handbook: Handbook) -> str:
    groups = []
    for seen, heading, meaning in SEEN_GROUPS:
        sources = {key: source for key, source in handbook.standards.sources.items() if source.seen == seen}
        if sources:
            groups.append({"heading": heading, "meaning": meaning, "sources": sources})
    return fill("sources.md", groups=groups)


def _hazards(handbook: Handbook) -> str:
    uses = _uses(handbook, "hazards")
    used_by = {key: uses.get(key, []) for key in handbook.hazards}
    return fill("hazards.md", here=HAZARDS_PAGE, hazards=handbook.hazards, used_by=used_by)


def _instruments(handbook: Handbook) -> str:
    uses = _uses(handbook, "instruments")
    used_by = {key: uses.get(key, []) for key in handbook.instruments}
    return fill("instruments.md", here=INSTRUMENTS_PAGE, instruments=handbook.instruments, used_by=used_by)


def _table(table: TableEntry, here: str, standards: InForce) -> str:
    """A printed table, parted where its rows belong to different families, so that each part fits a phone."""
    families: dict[str, list[Mapping[str, Any]]] = {}
    for row in table.rows:
        key = f"list {row['id']}" if _lists(row) else str(row.get("family", ""))
        families.setdefault(key, []).append(row)
    sources = dict.fromkeys(str(row["source"]) for row in table.rows)
    numbers = {key: position for position, key in enumerate(sources, start=1)}
    return fill(
        "table.md",
        title=table.title,
        note=table.note,
        parts=[
            _series_part(rows[0], numbers) if _lists(rows[0]) else _table_part(rows, numbers)
            for rows in families.values()
        ],
        sources=[link_source(standards.source(key), here) for key in sources],
    )


def _lists(row: Mapping[str, Any]) -> dict[str, list[float]]:
    """The cells of a row that are lists: the row is then a small table of its own."""
    return {key: cell for key, cell in row.items() if isinstance(cell, list)}


def _series_part(row: Mapping[str, Any], source_numbers: Mapping[str, int]) -> dict[str, Any]:
    """A row with lists: its name as a heading, its plain cells in words, then a line for each place in the lists."""
    lists = _lists(row)
    plain_cells = {**row, "source": source_numbers[row["source"]]}
    shared = [key for key in row if key not in lists and key not in (*_INNER_KEYS, "label")]
    return {
        "title": str(row["label"]),
        "shared": [_in_words(key, plain_cells) for key in shared],
        "columns": [_heading(key) for key in lists],
        "rows": [[plain(f"{cell:g}") for cell in cells] for cells in zip(*lists.values(), strict=True)],
    }


def _table_part(rows: list[Mapping[str, Any]], source_numbers: Mapping[str, int]) -> dict[str, Any]:
    """What each row is first, then a column for every key that tells rows apart; what they share stands above."""
    numbered = [{**row, "source": source_numbers[row["source"]]} for row in rows]
    keys = dict.fromkeys(key for row in numbered for key in row if key not in _INNER_KEYS)
    shared = [key for key in keys if len(rows) > 1 and len({str(row.get(key)) for row in numbered}) == 1]
    apart = ["label", *(key for key in keys if key not in shared and key != "label")]
    return {
        "title": "",
        "shared": [_in_words(key, numbered[0]) for key in shared],
        "columns": [_heading(key) for key in apart],
        "rows": [[_cell(key, row) for key in apart] for row in numbered],
    }


def _in_words(key: str, row: Mapping[str, Any]) -> str:
    """A cell as it is said without a table: "at 20 °C", "metal copper"."""
    words, unit = _unit_of(key)
    value = _cell(key, row)
    if words and unit:
        return plain(f"{words.replace('_', ' ')} {value} {symbol(unit)}")
    return f"{plain(key.replace('_', ' '))} {value}"


def _heading(key: str) -> str:
    """The words over a column: a unit's symbol where the key is one or ends in one, such as at_degC."""
    if key in UNITS:
        return plain(symbol(key))
    words, unit = _unit_of(key)
    words = (words if words and unit and symbol(unit) else key).replace("_", " ")
    measured_in = f", {symbol(unit)}" if words != key.replace("_", " ") else ""
    return "Entry" if key == "label" else plain(words.capitalize() + measured_in)


def _unit_of(key: str) -> tuple[str, str]:
    """The words of a key and the unit it ends in: ("dew", "kPa_abs"); no unit, no words, where it ends in none."""
    parts = key.split("_")
    for position in range(1, len(parts)):
        unit = "_".join(parts[position:])
        if unit in UNITS:
            return " ".join(parts[:position]), unit
    return "", ""


def _cell(key: str, row: Mapping[str, Any]) -> str:
    value = row.get(key)
    if value is None:
        return ""
    text = f"{value:g}" if isinstance(value, float) else str(value)
    return plain(f"{text}\u00a0{symbol(row['unit'])}" if key in _IN_THE_UNIT_OF_THE_ROW and "unit" in row else text)
