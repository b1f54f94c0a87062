"""Where each thing stands in the assembled folder, and how one page links to another.

>>> relative("procedures/wind.md", "reference/limits.md", "amps.high_ratio")
'../reference/limits.md#amps.high_ratio'
"""

from __future__ import annotations

import posixpath
from functools import cache

LIMITS_PAGE = "reference/limits.md"
SOURCES_PAGE = "reference/sources.md"
INSTRUMENTS_PAGE = "reference/instruments.md"
GLOSSARY_PAGE = "reference/glossary.md"
DECISION_MAP_PAGE = "reference/decision-map.md"
DECISION_CHART_PAGE = "reference/decision-chart.md"
BOOKLET_PAGE = "reference/booklet.md"
MEASUREMENTS_PAGE = "reference/measurements.md"
HAZARDS_PAGE = "safety/hazards.md"
PROCEDURES_INDEX = "procedures/index.md"
CALCULATORS_INDEX = "calculators/index.md"


def procedure_page(key: str) -> str:
    """The page of a procedure."""
    return f"procedures/{key}.md"


def calculator_page(slug: str) -> str:
    """The page of a calculator."""
    return f"calculators/{slug}.md"


def table_page(name: str) -> str:
    """The page of a printed table."""
    return f"reference/{name.replace('_', '-')}.md"


def relative(here: str, there: str, anchor: str = "") -> str:
    """The link from one page of the assembled folder to another, as any Markdown reader follows it."""
    path = _from_folder(posixpath.dirname(here) or ".", there)
    return f"{path}#{anchor}" if anchor else path


@cache
def _from_folder(folder: str, there: str) -> str:
    return posixpath.relpath(there, folder)
