"""What each test runs: which functions of the calculators, which limits and tables, and how long it takes.

Only used to choose which tests could notice a changed number, and in which order to run them. Whether the number
is noticed is for the tests alone to say.
"""

from __future__ import annotations

import hashlib
import json
import os
import sys
import time
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from types import FrameType
from typing import Any

import pytest

WATCHED = (
    "tests/calculators",
    "tests/handbook",
    "tests/build_scripts/test_calc_command.py",
    "tests/build_scripts/test_make_saturation_tables.py",
)
READ_BY_TESTS = ("calculators", "handbook", "build_scripts", "tests")


@dataclass
class Baseline:
    """By test: the functions it called as "path:first line", the limits and tables it asked for, its seconds."""

    called: dict[str, list[str]] = field(default_factory=dict)
    asked: dict[str, list[str]] = field(default_factory=dict)
    seconds: dict[str, float] = field(default_factory=dict)
    failed: list[str] = field(default_factory=list)


class Recorder:
    """A pytest plugin that watches the calls of each test, setup and teardown included."""

    def __init__(self, root: Path) -> None:
        self.inside = f"{root / 'calculators'}{os.sep}"
        self.skipped = len(f"{root}{os.sep}")
        self.found = Baseline()
        self.calls: set[tuple[str, int]] = set()
        self.keys: set[str] = set()
        self.of_fixtures: dict[object, tuple[set[tuple[str, int]], set[str]]] = {}

    def pytest_collection_finish(self, session: pytest.Session) -> None:
        """Let the standards say what is asked of them."""
        from calculators.limits import InForce

        for name in ("limit", "table"):
            original = getattr(InForce, name)

            def watched(standards: Any, key: str, original: Any = original) -> Any:
                self.keys.add(key)
                return original(standards, key)

            setattr(InForce, name, watched)

    @pytest.hookimpl(wrapper=True)
    def pytest_fixture_setup(self, fixturedef: Any) -> Iterator[object]:
        """What a fixture calls belongs to every test that uses it, not to the first alone."""
        calls, keys = self.calls, self.keys
        self.calls, self.keys = set(), set()
        try:
            return (yield)
        finally:
            self.of_fixtures[fixturedef] = (self.calls, self.keys)
            self.calls, self.keys = calls | self.calls, keys | self.keys

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        """Watch one test."""
        self.calls, self.keys = set(), set()
        began = time.process_time()
        sys.settrace(self._traced)
        try:
            return (yield)
        finally:
            sys.settrace(None)
            for name in getattr(item, "fixturenames", ()):
                for one in item._fixtureinfo.name2fixturedefs.get(name, ()):  # type: ignore[attr-defined]
                    calls, keys = self.of_fixtures.get(one, (set(), set()))
                    self.calls, self.keys = self.calls | calls, self.keys | keys
            called = sorted(f"{path[self.skipped :]}:{line}" for path, line in self.calls)
            self.found.called[item.nodeid] = [one.replace(os.sep, "/") for one in called]
            self.found.asked[item.nodeid] = sorted(self.keys)
            self.found.seconds[item.nodeid] = round(time.process_time() - began, 4)

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Keep what fails without any change: it can notice nothing."""
        if report.failed:
            self.found.failed.append(report.nodeid)

    def _traced(self, frame: FrameType, event: str, argument: object) -> None:
        code = frame.f_code
        if code.co_filename.startswith(self.inside):
            self.calls.add((code.co_filename, code.co_firstlineno))


def fingerprint(root: Path, watched: tuple[str, ...]) -> str:
    """Changes when anything that a test reads changes."""
    found = hashlib.sha256(repr(watched).encode())
    for folder in READ_BY_TESTS:
        for file in sorted((root / folder).rglob("*")):
            if file.is_file() and "__pycache__" not in file.parts:
                found.update(file.relative_to(root).as_posix().encode() + b"\0" + file.read_bytes())
    return found.hexdigest()[:16]


def baseline_of(tree: Path, kept: Path, watched: tuple[str, ...]) -> Baseline:
    """The baseline of a tree; kept in a file for as long as nothing changes. Imports what the tests import."""
    file = kept / f"baseline-{fingerprint(tree, watched)}.json"
    arguments = ["-q", "-p", "no:cacheprovider", "--no-header", *watched]
    if file.exists():
        pytest.main([*arguments, "--collect-only", "-qq"], plugins=[Silent()])
        return Baseline(**json.loads(file.read_text(encoding="utf-8")))
    recorder = Recorder(tree)
    pytest.main(arguments, plugins=[recorder, Silent()])
    kept.mkdir(parents=True, exist_ok=True)
    file.write_text(json.dumps(recorder.found.__dict__), encoding="utf-8")
    return recorder.found


class Silent:
    """A pytest plugin that prints nothing."""

    @pytest.hookimpl(trylast=True)
    def pytest_configure(self, config: pytest.Config) -> None:
        """Take the reporter off."""
        reporter = config.pluginmanager.get_plugin("terminalreporter")
        if reporter is not None:
            reporter._tw = type(reporter._tw)(open(os.devnull, "w", encoding="utf-8"))  # noqa: SIM115


def by_function(baseline: Baseline) -> dict[str, set[str]]:
    """The tests that call each function, by "path:first line"."""
    found: dict[str, set[str]] = defaultdict(set)
    for test, functions in baseline.called.items():
        for one in functions:
            found[one].add(test)
    return found
