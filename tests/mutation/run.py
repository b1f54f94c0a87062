"""Runs the tests that could notice a changed number, each change in a process and a copy of the tree of its own.

The process that starts them has every library loaded and nothing of this project, so that a child begins at once.
Needs a system with fork.
"""

from __future__ import annotations

import importlib
import os
import shutil
import signal
import sys
import time
from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.mutation.baseline import READ_BY_TESTS, WATCHED, Silent, baseline_of, by_function
from tests.mutation.numbers import Number

OWN_ROOMS = ("calculators", "build_scripts", "tests.calculators", "tests.handbook", "tests.build_scripts", "tests.same_text", "tests.list_checks", "tests.conftest", "conftest")  # fmt: skip
NEVER = ("test_mutate_numbers",)
KILLERS_FIRST = 8


@dataclass(frozen=True)
class Outcome:
    """What became of one changed number: the test that failed, or nothing."""

    number: Number
    killer: str
    seconds: float
    tests: int


def copy_tree(root: Path, to: Path) -> Path:
    """A copy of everything that the tests read; times are kept, so that what was compiled stays good."""
    shutil.rmtree(to, ignore_errors=True)
    for name in READ_BY_TESTS:
        shutil.copytree(root / name, to / name, ignore=shutil.ignore_patterns("*.pyc"))
    for file in ("pyproject.toml", "mkdocs.yml", "package.json", "CHANGELOG.md", "README.md", "DEVELOPERS.md"):
        shutil.copy2(root / file, to / file)
    return to


class Runner:
    """Chooses and runs tests for one number after another, with a number of workers."""

    def __init__(
        self, root: Path, build: Path, workers: int, budget: float, watched: tuple[str, ...] = WATCHED
    ) -> None:
        self.folder = build / f"run-{os.getpid()}"
        first = copy_tree(root, self.folder / "tree-0")
        self.root, self.budget, self.path = root, budget, list(sys.path)
        os.chdir(first)
        sys.dont_write_bytecode = False  # the copies share what is compiled here
        self.baseline = baseline_of(first, build, watched)
        self._forget()
        self.trees = [first] + [self._twin(first, self.folder / f"tree-{count}") for count in range(1, workers)]
        self.callers = by_function(self.baseline)
        self.killers: dict[str, Counter[str]] = defaultdict(Counter)

    @staticmethod
    def _twin(first: Path, to: Path) -> Path:
        shutil.rmtree(to, ignore_errors=True)
        return Path(shutil.copytree(first, to))

    def _forget(self) -> None:
        """Unload the project, keep the libraries."""
        for name in list(sys.modules):
            if name.startswith(OWN_ROOMS) and not name.startswith("tests.mutation"):
                del sys.modules[name]
        sys.path[:] = self.path
        importlib.invalidate_caches()

    def tests_for(self, number: Number) -> list[str]:
        """The tests that could notice, likeliest and quickest first, as many as fit into the budget of seconds."""
        fitting = {test for test in self._fitting(number) if not any(name in test for name in NEVER)}
        fitting -= set(self.baseline.failed)
        likely = (f"test_make_{Path(number.path).stem}_", f"[{number.key}")
        first = [test for test in fitting if number.key and any(name in test for name in likely)]
        first += [test for test, _ in self.killers[number.path].most_common(KILLERS_FIRST) if test in fitting]
        room = Path(number.path).stem if number.path.count("/") == 1 else number.path.split("/")[1]
        own = (f"test_{room}", f"[{room.replace('_', '-')}")
        seconds = self.baseline.seconds
        rest = sorted(
            fitting - set(first), key=lambda test: (not any(name in test for name in own), seconds[test], test)
        )
        chosen, spent = first, 0.0
        for test in rest:
            spent += seconds[test]
            if spent > self.budget:
                break
            chosen.append(test)
        return chosen

    def _fitting(self, number: Number) -> set[str]:
        if number.key:
            asked = {test for test, keys in self.baseline.asked.items() if number.key in keys}
            made = f"test_make_{Path(number.path).stem}_"
            return asked | {one for one in self.baseline.seconds if one.startswith("tests/handbook/") or made in one}
        callers = self.callers.get(f"{number.path}:{number.function_line}", set())
        if callers:
            return callers  # without one it runs on import, as what stands outside every function does
        room = number.path.rsplit("/", 1)[0] + "/" if number.path.count("/") > 1 else f"{number.path}:"
        slug = room.split("/")[1].replace("_", "-")
        return {
            test
            for test, called in self.baseline.called.items()
            if f"[{slug}" in test or any(one.startswith(room) for one in called)
        }

    def run(self, numbers: list[Number]) -> Iterator[Outcome]:
        """Each number in turn, as many at once as there are workers."""
        waiting, free, running = list(reversed(numbers)), list(self.trees), {}
        try:
            while waiting or running:
                while waiting and free:
                    number, tree = waiting.pop(), free.pop()
                    tests = self.tests_for(number)
                    running[self._start(number, tree, tests)] = (number, tree, time.monotonic(), len(tests))
                pid, status = self._wait(running)
                number, tree, began, count = running.pop(pid)
                free.append(tree)
                said = (tree / "killer").read_text(encoding="utf-8") if (tree / "killer").exists() else ""
                killer = said or ("it took too long" if os.WIFSIGNALED(status) else "")
                if said:
                    self.killers[number.path][said] += 1
                yield Outcome(number, killer, time.monotonic() - began, count)
        finally:
            for pid in running:
                os.kill(pid, signal.SIGKILL)
                os.waitpid(pid, 0)
            os.chdir(self.root)
            shutil.rmtree(self.folder, ignore_errors=True)

    def _wait(self, running: dict[int, tuple[Number, Path, float, int]]) -> tuple[int, int]:
        """The first that ends; one that takes ten times its budget is ended."""
        while True:
            for pid, (_, _, began, _) in running.items():
                ended, status = os.waitpid(pid, os.WNOHANG)
                if ended:
                    return pid, status
                if time.monotonic() - began > 10.0 * self.budget + 60.0:
                    os.kill(pid, signal.SIGKILL)
            time.sleep(0.01)

    def _start(self, number: Number, tree: Path, tests: list[str]) -> int:
        (tree / "killer").unlink(missing_ok=True)
        pid = os.fork()
        if pid:
            return pid
        try:
            _run_changed(number, tree, tests)
        finally:
            os._exit(0)


def _run_changed(number: Number, tree: Path, tests: list[str]) -> None:
    """In the child: change the number, run the tests, leave the name of the one that failed, put the number back."""
    os.chdir(tree)
    sys.path.insert(0, str(tree))
    sys.dont_write_bytecode = True  # a compiled file is known by its seconds; two changes may share one
    file = tree / number.path
    kept, times = file.read_text(encoding="utf-8"), file.stat()
    try:
        file.write_text(number.mutated(kept), encoding="utf-8")
        files = list(dict.fromkeys(test.split("::")[0] for test in tests))
        # The likeliest file alone first: to collect all of them takes longer than most tests.
        failed = _failed(tests, files[:1]) or _failed(tests, files[1:])
        (tree / "killer").write_text(failed, encoding="utf-8")
    finally:
        file.write_text(kept, encoding="utf-8")
        os.utime(file, ns=(times.st_atime_ns, times.st_mtime_ns))


def _failed(tests: list[str], files: list[str]) -> str:
    """The first of the tests in some files that fails, or nothing."""
    if not files:
        return ""
    chosen = Chosen(tests)
    code = pytest.main(["-x", "-q", "-p", "no:cacheprovider", "--no-header", *files], plugins=[chosen, Silent()])
    return chosen.failed or ("the tests could not be collected" if code not in (0, 5) else "")


class Chosen:
    """A pytest plugin that runs the chosen tests in their order and keeps the first that fails."""

    def __init__(self, tests: list[str]) -> None:
        self.order = {test: place for place, test in enumerate(tests)}
        self.failed = ""

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        """Keep the chosen ones."""
        items[:] = sorted((one for one in items if one.nodeid in self.order), key=lambda one: self.order[one.nodeid])

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Keep the first failure."""
        if report.failed and not self.failed:
            self.failed = report.nodeid

    def pytest_collectreport(self, report: pytest.CollectReport) -> None:
        """A file that cannot even be imported has failed."""
        if report.failed and not self.failed:
            self.failed = f"{report.nodeid} (import)"
