"""The same text everywhere: this Python, every other CPython that is here, and Pyodide under Node and in the page.

Every worked example and a seeded sample of random requests a calculator; with --long 10,000 of them.
Digests are compared; where two differ, both answers are asked for whole and the first difference is shown.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from build_scripts.environment import Environment
from build_scripts.pack_runtime import zip_calculators
from build_scripts.read_standards import read_standards
from calculators import CALCULATORS
from calculators.limits import Standards
from tests.same_text.answer_lines import answered
from tests.same_text.random_requests import example_requests, random_requests

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
SAMPLED, IN_FULL = 150, 10_000
OLDEST_MINOR = 11
Answer = Callable[[Path, bool], list[str]]


@pytest.fixture(scope="module")
def standards_text() -> str:
    return read_standards(ROOT / "handbook").as_json("test")


@pytest.fixture(scope="module")
def standards_file(tmp_path_factory, standards_text: str) -> Path:
    file = tmp_path_factory.mktemp("standards") / "standards.json"
    file.write_text(standards_text, encoding="utf-8")
    return file


def requests_of(slug: str, standards_text: str, seed: int, count: int) -> list[str]:
    import datetime

    standards = Standards.from_json(standards_text).in_force(datetime.date(2026, 11, 25))
    calculator = CALCULATORS[slug]
    return example_requests(calculator) + list(random_requests(calculator, standards, seed, count))


def other_pythons() -> list[str]:
    """Every CPython of a supported version that is on the path and starts, besides this one; or the ones named."""
    named = os.environ.get("THREEPIN_PYTHONS", "").split(os.pathsep)
    found = [name for name in named if name] or [
        path for minor in range(OLDEST_MINOR, 30) if (path := shutil.which(f"python3.{minor}"))
    ]
    ask = "import sys; print(sys.implementation.name, *sys.version_info[:3])"
    said = {
        path: subprocess.run([path, "-c", ask], capture_output=True, text=True, check=False).stdout.strip()
        for path in found
    }
    mine = f"cpython {sys.version_info.major} {sys.version_info.minor}"
    return [path for path, text in said.items() if text.startswith("cpython") and not text.startswith(mine)]


def run_lines(command: list[str], requests: Path, whole: bool) -> list[str]:
    done = subprocess.run(
        [*command, str(requests), *(["--text"] if whole else [])],
        cwd=ROOT,
        env=os.environ | {"PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1"},
        capture_output=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr.decode(errors="replace")[-2000:]
    return done.stdout.decode("utf-8").rstrip("\n").split("\n")


def differences(requests: list[str], standards_text: str, elsewhere: Answer, folder: Path) -> list[str]:
    """Where the text elsewhere is not the text here: the request, and both texts around the first difference."""
    file = folder / "requests.txt"
    file.write_text("\n".join(requests), encoding="utf-8")
    here, there = answered(standards_text, requests, False), elsewhere(file, False)
    assert len(here) == len(there) == len(requests)
    unlike = [request for request, a, b in zip(requests, here, there, strict=True) if a != b]
    if not unlike:
        return []
    file.write_text("\n".join(unlike), encoding="utf-8")
    pairs = zip(unlike, answered(standards_text, unlike, True), elsewhere(file, True), strict=True)
    return [f"{request}\n  here:  {around(a, b)}\n  there: {around(b, a)}" for request, a, b in pairs]


def around(text: str, other: str) -> str:
    at = next((i for i, (a, b) in enumerate(zip(text, other, strict=False)) if a != b), min(len(text), len(other)))
    return text[max(0, at - 80) : at + 80]


@pytest.fixture(scope="module")
def in_node(tmp_path_factory, standards_file: Path) -> Iterator[Answer]:
    """Answers from Pyodide under the project's own Node, started once."""
    work = tmp_path_factory.mktemp("node")
    zipped, said = work / "calculators.zip", work / "said.txt"
    zipped.write_bytes(zip_calculators(ROOT / "calculators"))
    node = str(Environment(ROOT).node)
    command = [node, str(HERE / "answer_in_pyodide.mjs"), str(ROOT / "node_modules" / "pyodide"), str(zipped)]
    command += [str(HERE / "answer_lines.py"), str(standards_file)]
    with (
        said.open("wb") as errors,
        subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=errors) as program,
    ):

        def ask(requests: Path, whole: bool) -> list[str]:
            program.stdin.write(json.dumps({"requests": str(requests), "whole": whole}).encode() + b"\n")
            program.stdin.flush()
            lines: list[str] = []
            for line in program.stdout:
                if line == b"\n":
                    return lines
                lines.append(line.decode().removesuffix("\n"))
            raise AssertionError(f"Node ended: {said.read_text(encoding='utf-8', errors='replace')[-2000:]}")

        yield ask


@pytest.mark.parametrize("slug", list(CALCULATORS))
def test_pyodide_prints_the_same_text(slug, standards_text, in_node, seed, long_run, tmp_path) -> None:
    requests = requests_of(slug, standards_text, seed, IN_FULL if long_run else SAMPLED)
    assert differences(requests, standards_text, in_node, tmp_path) == []


@pytest.mark.parametrize("python", other_pythons() or [None])
@pytest.mark.parametrize("slug", list(CALCULATORS))
def test_another_python_prints_the_same_text(slug, python, standards_text, standards_file, seed, long_run, tmp_path):
    if python is None:
        pytest.skip("there is no other CPython of a supported version on this machine")
    command = [python, str(HERE / "answer_lines.py"), str(standards_file)]
    requests = requests_of(slug, standards_text, seed, IN_FULL if long_run else SAMPLED)
    found = differences(requests, standards_text, lambda file, whole: run_lines(command, file, whole), tmp_path)
    assert found == []


@pytest.mark.parametrize("slug", list(CALCULATORS))
def test_random_requests_reach_outcomes_as_well_as_refusals(slug, standards_text, seed) -> None:
    requests = requests_of(slug, standards_text, seed, SAMPLED)
    answers = answered(standards_text, requests, True)
    outcomes = sum('"findings":' in one for one in answers)
    assert outcomes >= len(answers) // 4
    assert len({one for one in answers if '"findings":' in one}) >= len(answers) // 8
