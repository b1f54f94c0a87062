"""Every value of the standards, written down a second time from its source: a slip in one of the two is found.

numbers_of_the_standards.yaml holds for each limit [value, unit, least and most that a shop may choose], one list for
each dated value, and for each row of a table its numbers. Where they come from stands beside them there.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from build_scripts.read_standards import read_standards

HERE = Path(__file__).resolve().parent
WRITTEN: dict[str, Any] = yaml.safe_load((HERE / "numbers_of_the_standards.yaml").read_text(encoding="utf-8"))
STANDARDS = read_standards(HERE.parents[1] / "handbook")
HINT = "write this into tests/handbook/numbers_of_the_standards.yaml, from the source and not from the handbook"


def numbers_of_limit(key: str) -> list[list[Any]]:
    entry = STANDARDS.limits[key]
    return [[one.value, entry.unit, entry.shop_range.least, entry.shop_range.most] for one in entry.values]


def numbers_of_row(row: dict[str, Any]) -> dict[str, float]:
    return {
        name: value for name, value in row.items() if isinstance(value, int | float) and not isinstance(value, bool)
    }


@pytest.mark.parametrize("key", list(STANDARDS.limits))
def test_a_limit_has_the_value_and_the_shop_range_of_its_source(key) -> None:
    assert WRITTEN["limits"].get(key) == numbers_of_limit(key), HINT


@pytest.mark.parametrize("name", list(STANDARDS.tables))
def test_a_table_has_the_numbers_of_its_print(name) -> None:
    rows = {str(row["id"]): numbers_of_row(row) for row in STANDARDS.tables[name].rows}
    assert WRITTEN["tables"].get(name) == rows, HINT


def test_nothing_is_written_down_that_the_standards_lack() -> None:
    assert set(WRITTEN["limits"]) - set(STANDARDS.limits) == set()
    assert set(WRITTEN["tables"]) - set(STANDARDS.tables) == set()
