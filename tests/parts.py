"""How the whole suite is parted between two processes: every test with a browser in one, file after file in the other.

Two browsers beside each other would wait for each other, and what they are given up after is counted in seconds. So all
rooms that drive one are a single part, done in its order; every other file is a part of its own, given out whole.
"""

from __future__ import annotations

import os
from typing import Any

import pytest
from xdist.scheduler import LoadScopeScheduling

BROWSERS = "browsers"
ROOMS_WITH_BROWSERS = ("tests/bench/", "tests/browser/")
# What takes longest is given out first, so that the two processes end at about the same time.
ORDER = (*ROOMS_WITH_BROWSERS, "tests/build_scripts/", "tests/same_text/", "tests/practice/", "tests/")
POLITENESS = 10


def part_of(test: str) -> str:
    """The part that a test belongs to, by its id."""
    return BROWSERS if test.startswith(ROOMS_WITH_BROWSERS) else test.split("::", 1)[0]


class Parts(LoadScopeScheduling):
    """Hands out parts in the order in which they were collected."""

    def __init__(self, config: pytest.Config, log: Any) -> None:
        config.option.loadscopereorder = False
        super().__init__(config, log)

    def _split_scope(self, nodeid: str) -> str:
        return part_of(nodeid)


class Parting:
    """What the process that hands out does: it gives all the same seed, and never lets a lost process pass."""

    def __init__(self) -> None:
        self.lost = False

    def pytest_configure_node(self, node: Any) -> None:
        node.workerinput["seed"] = node.config.option.seed

    def pytest_xdist_make_scheduler(self, config: pytest.Config, log: Any) -> Parts:
        return Parts(config, log)

    def pytest_testnodedown(self, error: object) -> None:
        self.lost = self.lost or bool(error)

    @pytest.hookimpl(tryfirst=True)
    def pytest_sessionfinish(self, session: pytest.Session) -> None:
        if self.lost and session.exitstatus in (pytest.ExitCode.OK, pytest.ExitCode.NO_TESTS_COLLECTED):
            session.exitstatus = pytest.ExitCode.TESTS_FAILED


class Part:
    """What each of the two processes does: the parts in their order, and a browser before everything else."""

    def __init__(self) -> None:
        self.polite = False

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        items.sort(key=lambda item: next((at for at, room in enumerate(ORDER) if item.nodeid.startswith(room)), -1))

    def pytest_runtest_setup(self, item: pytest.Item) -> None:
        # Where both want a processor the browser gets it: people wait for the browsers' part, which is the longer one.
        if not self.polite and part_of(item.nodeid) != BROWSERS and hasattr(os, "nice"):
            os.nice(POLITENESS)
            self.polite = True
