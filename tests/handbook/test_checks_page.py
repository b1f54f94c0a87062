"""The page of checks is what the tests say, and every calculator has enough of them."""

from __future__ import annotations

import pytest

from build_scripts.read_standards import read_standards
from calculators import CALCULATORS
from calculators.limits import Source, Standards
from tests.list_checks import PAGE, ROOT, checks_in, page_text

FEWEST = 3


@pytest.fixture(scope="module")
def sources() -> dict[str, Source]:
    standards = Standards.from_json(read_standards(ROOT / "handbook").as_json("test"))
    return dict(standards.sources)


def test_the_page_of_checks_is_written_from_the_tests(sources) -> None:
    assert PAGE.read_text(encoding="utf-8") == page_text(checks_in(), sources), (
        "run: python tests/list_checks.py --write"
    )


@pytest.mark.parametrize("slug", list(CALCULATORS))
def test_every_calculator_has_three_checks_against_something_outside(slug) -> None:
    outside = [one for one in checks_in() if one.calculator == slug and any(key != "derived" for key in one.sources)]
    assert len(outside) >= FEWEST, (
        'mark each test that compares with something outside the project @pytest.mark.source("key of handbook/sources.yaml"), '
        "then run: python tests/list_checks.py --write"
    )
