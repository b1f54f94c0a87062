"""The whole suite in two processes, on small suites made for it: who does what, with which seed, and how it ends."""

from __future__ import annotations

import os
import re
import shutil
import signal
import subprocess
import sys
import time

import pytest

from build_scripts.run_tests import in_parts

# Every test writes down where it runs and with what. A browser's test and one of the others wait for each other.
COMMON = """
import os, pathlib, time
NOTES = pathlib.Path(__file__).parents[2] / "notes.txt"
def note(what, seed=0):
    with NOTES.open("a", encoding="utf-8") as notes:
        notes.write(f"{os.environ['PYTEST_XDIST_WORKER']} {what} {seed} {os.nice(0)}\\n")
def wait_for(what):
    end = time.monotonic() + 60
    while f" {what} " not in NOTES.read_text(encoding="utf-8"):
        assert time.monotonic() < end, f"{what} never ran beside this"
        time.sleep(0.02)
"""
FILES = {
    "browser/test_first": "def test_one(seed): note('b1', seed)\ndef test_two(): note('b2'); wait_for('s2')\n",
    "browser/test_second": "def test_one(): note('b3')\n",
    "browser/engines/test_third": "def test_one(): note('b4')\n",
    "bench/test_fourth": "def test_one(): note('b5')\n",
    "build_scripts/test_slow": "def test_one(seed): note('s1', seed); wait_for('b2')\ndef test_two(): note('s2')\n",
    "calculators/test_quick": "def test_one(): note('q1')\ndef test_two(): note('q2')\ndef test_three(): note('q3')\n",
}


@pytest.fixture
def suite(tmp_path, root):
    """A small suite in the rooms of the real one, with its own way of parting them."""
    for name in ("conftest.py", "parts.py"):
        (tmp_path / "tests").mkdir(exist_ok=True)
        shutil.copy(root / "tests" / name, tmp_path / "tests")
    (tmp_path / "pytest.ini").write_text(
        "[pytest]\npythonpath = .\naddopts = --import-mode=importlib -p no:cacheprovider\n", encoding="utf-8"
    )
    for name, text in FILES.items():
        write(tmp_path, name, text)
    return tmp_path


def write(suite, name: str, text: str) -> None:
    file = suite / "tests" / f"{name}.py"
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(COMMON.replace("parents[2]", f"parents[{name.count('/') + 1}]") + text, encoding="utf-8")


def start(suite, *more: str) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-m", "pytest", *in_parts(2), *more],
        cwd=suite,
        env={name: value for name, value in os.environ.items() if not name.startswith("PYTEST_")},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        start_new_session=True,
    )


def notes(suite) -> list[list[str]]:
    return [line.split() for line in (suite / "notes.txt").read_text(encoding="utf-8").splitlines()]


def test_one_processor_is_not_parted():
    assert in_parts(1) == []
    assert in_parts(2) == in_parts(16) != []


def test_all_browsers_are_one_part_in_its_order_and_the_files_beside_it_are_whole_with_one_seed_for_all(suite):
    running = start(suite, "--long")
    printed, _ = running.communicate()
    assert running.returncode == 0, printed
    found = notes(suite)
    at = {what: worker for worker, what, *_ in found}
    done = [what for _, what, *_ in found]
    assert [one for one in done if one[0] == "b"] == ["b5", "b4", "b1", "b2", "b3"]
    assert [one for one in done if one[0] != "b"] == ["s1", "s2", "q1", "q2", "q3"]
    assert len({at[one] for one in ("b1", "b2", "b3", "b4", "b5")}) == 1
    assert at["s1"] == at["s2"] != at["b1"]
    assert at["q1"] == at["q2"] == at["q3"]
    said = re.search(r"counts: long; seed (\d+) ", printed)[1]
    assert {seed for _, what, seed, _ in found if what in ("b1", "s1")} == {said}
    politeness = {what: int(nice) for _, what, _, nice in found}
    assert politeness["b1"] == politeness["b2"] < politeness["s1"] == politeness["q3"]


LOST = {
    "in a test": "def test_lost(): os._exit(0)\n",
    "before all tests": "if 'PYTEST_XDIST_WORKER' in os.environ: os._exit(0)\n",
}
EXITS_AT_THE_END = """
def pytest_sessionfinish(session):
    import os
    if "PYTEST_XDIST_WORKER" in os.environ:
        os._exit(0)
"""


@pytest.mark.parametrize("when", ["in a test", "before all tests", "after the last test"])
def test_a_process_that_is_lost_fails_the_run(suite, when):
    if when == "after the last test":
        with (suite / "tests" / "conftest.py").open("a", encoding="utf-8") as options:
            options.write(EXITS_AT_THE_END)
    else:
        write(suite, "calculators/test_lost", LOST[when])
    running = start(suite)
    printed, _ = running.communicate()
    assert running.returncode == 1, printed
    assert "crashed" in printed


def test_an_interrupted_run_fails_and_leaves_nothing_running(suite):
    write(suite, "calculators/test_long", "def test_long(): note(f'pid-{os.getpid()}'); time.sleep(600)\n")
    running = start(suite, "tests/calculators/test_long.py", "tests/browser")
    while not (suite / "notes.txt").exists() or "pid-" not in (suite / "notes.txt").read_text(encoding="utf-8"):
        assert running.poll() is None, running.communicate()[0]
        time.sleep(0.05)
    os.killpg(running.pid, signal.SIGINT)
    running.communicate()
    assert running.returncode == pytest.ExitCode.INTERRUPTED
    (process,) = [what.removeprefix("pid-") for _, what, *_ in notes(suite) if what.startswith("pid-")]
    with pytest.raises(ProcessLookupError):
        os.kill(int(process), 0)


def test_only_the_rooms_with_browsers_drive_one(root):
    drive = re.compile(
        r"sync_playwright|async_playwright|\bfind_browser\b|tests\.browser\.engines|tests\.browser\.nginx"
    )
    elsewhere = [
        file.relative_to(root).as_posix()
        for file in sorted((root / "tests").rglob("*.py"))
        if drive.search(file.read_text(encoding="utf-8")) and file.parent.name not in ("browser", "engines", "bench")
    ]
    # These two try how a browser is looked for, without one, and what is written here.
    assert elsewhere == ["tests/build_scripts/test_parts.py", "tests/build_scripts/test_run_tests.py"]
