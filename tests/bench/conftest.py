"""The two sites that are compared, made once."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.bench.two_sites import TwoSites, make_two_sites

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="session")
def sites(tmp_path_factory: pytest.TempPathFactory) -> TwoSites:
    """Both sites; the command `test` has built what they are made from."""
    return make_two_sites(ROOT, tmp_path_factory.mktemp("sites"))
