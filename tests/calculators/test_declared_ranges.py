"""Every number that a form takes: up to the ends of its range and no further, and what it holds to begin with.

The ranges are written down a second time, in declared_ranges.yaml: [least, most, unit] or [least, most, unit, default],
in the first unit that the field offers. They are guards against slips of the finger, common practice, no source.
"""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
import yaml

from calculators import CALCULATORS
from calculators.inputs import NumberInput, Typed, fields_of, understand_number
from calculators.units import from_base

WRITTEN: dict[str, dict[str, list[Any]]] = yaml.safe_load(
    (Path(__file__).parent / "declared_ranges.yaml").read_text(encoding="utf-8")
)
ROWS = [(slug, name) for slug, fields in WRITTEN.items() for name in fields]
STEP = Decimal("0.001")


@pytest.fixture(scope="session")
def fields(standards) -> dict[tuple[str, str], NumberInput]:
    in_force = standards.in_force(date(2026, 11, 25))
    return {
        (slug, one.name): one
        for slug, calculator in CALCULATORS.items()
        for one in fields_of(calculator.inputs, in_force)
        if isinstance(one, NumberInput)
    }


def refused(one: NumberInput, number: Decimal) -> bool:
    try:
        understand_number(one, Typed(f"{number:f}", one.units[0]))
    except ValueError:
        return True
    return False


@pytest.mark.parametrize(("slug", "name"), ROWS)
def test_a_number_is_taken_up_to_the_ends_of_its_range_and_no_further(slug, name, fields) -> None:
    one = fields[slug, name]
    least, most = (Decimal(str(end)) for end in WRITTEN[slug][name][:2])
    assert not refused(one, least)
    assert not refused(one, most)
    assert refused(one, least - (1 if one.whole else STEP * (abs(least) or 1)))
    assert refused(one, most + (1 if one.whole else STEP * (abs(most) or 1)))


@pytest.mark.parametrize(("slug", "name"), ROWS)
def test_a_field_holds_what_is_written_down_in_the_unit_written_down(slug, name, fields) -> None:
    one, (_, _, unit, *default) = fields[slug, name], WRITTEN[slug][name]
    assert one.units[0] == unit
    assert (one.default or None) == (str(default[0]) if default else None)


def test_every_number_of_every_form_is_written_down(fields) -> None:
    missing = [
        f"{slug} {name}: [{from_base(one.least, one.units[0]):g}, {from_base(one.most, one.units[0]):g}, {one.units[0]}"
        + (f", {one.default}]" if one.default else "]")
        for (slug, name), one in fields.items()
        if (slug, name) not in ROWS
    ]
    assert missing == [], (
        "write these into tests/calculators/declared_ranges.yaml, after a look at whether they are meant"
    )


def test_nothing_is_written_down_that_no_form_asks(fields) -> None:
    assert [row for row in ROWS if row not in fields] == []
