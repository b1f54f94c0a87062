"""The order of all pages: written ones as people chose it, those made from data behind them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from build_scripts.addresses import (
    BOOKLET_PAGE,
    CALCULATORS_INDEX,
    DECISION_CHART_PAGE,
    DECISION_MAP_PAGE,
    GLOSSARY_PAGE,
    HAZARDS_PAGE,
    INSTRUMENTS_PAGE,
    LIMITS_PAGE,
    MEASUREMENTS_PAGE,
    PROCEDURES_INDEX,
    SOURCES_PAGE,
    calculator_page,
    procedure_page,
    table_page,
)
from build_scripts.read_handbook import Handbook
from build_scripts.write_computed import computed_pages

MenuEntry = str | dict[str, Any]


def menu(handbook: Handbook) -> list[MenuEntry]:
    """The menu: written pages in the order that people chose, pages made from data behind them."""
    order = handbook.menu
    tables = [table_page(name) for name in handbook.standards.tables]
    decisions = [DECISION_MAP_PAGE, DECISION_CHART_PAGE] if handbook.standards.decisions.questions else []
    glossary = [GLOSSARY_PAGE] if handbook.glossary else []
    computed = computed_pages(handbook)
    measurements = [MEASUREMENTS_PAGE] if handbook.measurements else []
    procedures: list[MenuEntry] = [
        {group.title: [procedure_page(key) for key in group.pages]} for group in order.procedures
    ]
    parts: list[tuple[str, list[MenuEntry]]] = [
        ("Procedures", [PROCEDURES_INDEX, *procedures]),
        ("Calculators", [CALCULATORS_INDEX, *(calculator_page(slug) for slug in handbook.calculators)]),
        ("Safety", [*(f"safety/{key}.md" for key in order.safety), HAZARDS_PAGE]),
        (
            "Reference",
            [
                *(f"reference/{key}.md" for key in order.reference),
                *decisions,
                *(
                    LIMITS_PAGE,
                    INSTRUMENTS_PAGE,
                    *glossary,
                    *computed,
                    *tables,
                    SOURCES_PAGE,
                    BOOKLET_PAGE,
                    *measurements,
                ),
            ],
        ),
        ("Training", [f"training/{key}.md" for key in order.training]),
    ]
    return [*(f"{key}.md" for key in order.start), *({title: pages} for title, pages in parts if pages)]


def parts(entries: list[MenuEntry]) -> Iterator[tuple[str, list[str]]]:
    """The pages of each part of a menu in their order; the pages before the first part stand under no name."""
    first = [entry for entry in entries if isinstance(entry, str)]
    if first:
        yield "", first
    for entry in entries:
        if isinstance(entry, dict):
            for title, pages in entry.items():
                yield title, list(_flat(pages))


def _flat(pages: list[MenuEntry]) -> Iterator[str]:
    for page in pages:
        if isinstance(page, str):
            yield page
        else:
            for inner in page.values():
                yield from _flat(inner)
