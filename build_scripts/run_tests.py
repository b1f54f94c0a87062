"""The command `test`: style, types, a site that is up to date, then pytest, whose summary is the last line."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

from build_scripts.browser_setup import ensure_browser
from build_scripts.engine_setup import ensure_engines
from build_scripts.environment import Environment, MissingError
from build_scripts.exit_codes import ExitCode
from build_scripts.site_state import build_and_note, site_is_current

NO_TESTS_RAN = 5
Say = Callable[[str], None]


def run_tests(root: Path, pytest_arguments: Sequence[str], *, long_run: bool, say: Say) -> int:
    """Run everything, or pytest alone when it is given arguments; 1 when anything failed."""
    _prepare_browser(say, needed=not pytest_arguments)
    not_driven = [] if pytest_arguments else ensure_engines(say)
    if not site_is_current(root):
        say("Building the site first: it is missing, or something it is made from has changed.")
        build_and_note(root, say)
    failed = [] if pytest_arguments else run_checks(checks(root), root, say)
    command = [sys.executable, "-m", "pytest", *(["--long"] if long_run else [])]
    command += [] if pytest_arguments else in_parts(processors())
    command += [f"--failed-check={name}" for name in failed]
    command += [f"--not-driven={sentence}" for sentence in not_driven]
    tests = subprocess.run([*command, *pytest_arguments], cwd=root, check=False).returncode
    return exit_code(tests, failed)


def in_parts(count: int) -> list[str]:
    """How pytest is told to use two of so many processors; tests/parts.py says which test runs in which process."""
    # A process that was lost has failed the run; what it had yet to do is not begun anew in another one.
    return ["-n", "2", "--max-worker-restart=0"] if count >= 2 else []


def processors() -> int:
    """How many processors this command may use."""
    return len(os.sched_getaffinity(0)) if sys.platform == "linux" else os.cpu_count() or 1


def checks(root: Path) -> Mapping[str, Sequence[str]]:
    """What runs before the tests, by the name that is said when it fails."""
    place = Environment(root)
    python = sys.executable
    return {
        "ruff check": [python, "-m", "ruff", "check", "."],
        "ruff format": [python, "-m", "ruff", "format", "--check", "."],
        "mypy": [python, "-m", "mypy"],
        "tsc": [str(place.node), str(root / "node_modules" / "typescript" / "bin" / "tsc"), "-p", "tsconfig.json"],
    }


def run_checks(commands: Mapping[str, Sequence[str]], root: Path, say: Say) -> list[str]:
    """Run each, showing what it printed only when it failed; the names of those that did."""
    failed = []
    for name, command in commands.items():
        done = subprocess.run(
            command, cwd=root, check=False, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT
        )
        if done.returncode == 0:
            say(f"{name}: nothing to mend")
        else:
            failed.append(name)
            say(f"{name}: something to mend\n{done.stdout.decode(errors='replace').rstrip()}")
    return failed


def exit_code(tests: int, failed: Sequence[str]) -> int:
    """One code for the whole: pytest's “no test ran” and “wrong usage” are ours too, the rest is a failure."""
    if tests == 0:
        return ExitCode.MISTAKES if failed else ExitCode.DONE
    return ExitCode.WRONG_USE if tests in (4, NO_TESTS_RAN) else ExitCode.MISTAKES


def _prepare_browser(say: Say, *, needed: bool) -> None:
    """Find or install the browser; with a choice of tests a missing one is only said, the chosen may not need it."""
    try:
        ensure_browser(say)
    except MissingError as missing:
        if needed:
            raise
        say(str(missing))
