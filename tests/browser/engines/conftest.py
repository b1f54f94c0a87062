"""Firefox and WebKitGTK, one of each for all tests of a file, and ways in which a copy of the site can be damaged."""

from __future__ import annotations

import functools
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from build_scripts.engine_setup import ENGINES, why_missing
from build_scripts.engine_setup import Engine as Wanted
from tests.browser.engines.engine import Engine
from tests.browser.engines.start_engine import start_engine

HERE = {"127.0.0.1", "", None}


def launch(wanted: Wanted, folder: Path) -> Engine:
    """A new browser that keeps what it has in the folder, or a skipped test that says why there is none."""
    if why := why_missing(wanted):
        pytest.skip(why)
    return start_engine(wanted, folder / "profile")


@pytest.fixture(scope="module", params=ENGINES, ids=lambda wanted: wanted.name)
def running(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Engine]:
    """One browser of each engine for all tests of a file; left open, a hung worker would keep a processor to the end."""
    browser = launch(request.param, tmp_path_factory.mktemp(request.param.name))
    yield browser
    browser.close()


@pytest.fixture
def engine(running: Engine) -> Iterator[Engine]:
    """The browser; it lets no error pass and no request to another host."""
    running.errors.clear()
    yield running
    assert running.errors == []
    assert [url for url in running.asked_for() if urlsplit(url).hostname not in HERE] == []


@pytest.fixture(scope="session")
def copy_with(site: Path, tmp_path_factory: pytest.TempPathFactory) -> Callable[[Callable[[Path], None]], Path]:
    """A copy of the site that something has been done to, made once for all tests that do the same."""

    @functools.cache
    def make(hurt: Callable[[Path], None]) -> Path:
        copy = tmp_path_factory.mktemp(hurt.__name__) / "site"
        shutil.copytree(site, copy)
        hurt(copy)
        return copy

    return make
