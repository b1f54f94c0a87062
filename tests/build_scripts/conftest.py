"""How tests of this room run a command: as a person does, and reading what a person reads."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

import pytest

from calculators.contract import Calculator, Example, Outcome, Result
from calculators.inputs import NumberInput, Typed

ROOT = Path(__file__).resolve().parents[2]
GOLDEN = Path(__file__).resolve().parent / "golden"


@dataclass(frozen=True)
class Ended:
    """What a command printed, where, and how it ended."""

    code: int
    out: str
    err: str


Run = Callable[..., Ended]


@pytest.fixture(scope="session")
def root() -> Path:
    return ROOT


@pytest.fixture(scope="session")
def run() -> Run:
    """The command line as it runs inside the environment."""

    def run_command(*words: str, **variables: str) -> Ended:
        done = subprocess.run(
            [sys.executable, "-m", "build_scripts.command_line", *words],
            cwd=ROOT,
            check=False,
            capture_output=True,
            encoding="utf-8",
            stdin=subprocess.DEVNULL,
            env=os.environ | {"COLUMNS": "100"} | variables,
        )
        return Ended(done.returncode, done.stdout, done.stderr)

    return run_command


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """The root of a handbook so small that a test can see all of it; a copy that a test may break."""
    shutil.copytree(GOLDEN / "handbook", tmp_path / "handbook")
    (tmp_path / "pyproject.toml").write_text('[project]\nname = "small"\nversion = "1.0"\n', encoding="utf-8")
    return tmp_path


@pytest.fixture(scope="session")
def sample_calculators() -> Mapping[str, Calculator]:
    """The one calculator that the small handbook names."""
    volts = NumberInput("volts", "Volts", ("V",), 0.0, 400.0)
    sample = Calculator(
        slug="sample-check",
        title="Sample check",
        question="Is it below the limit?",
        purpose="For tests.",
        does_not_tell="Anything else.",
        level="helper",
        inputs=(volts,),
        evaluate=lambda entered, _: Outcome((Result("volts", "Volts", entered.needed("volts"), "V", 1, "V."),), (), ()),
        examples=(Example("sample-one", "One", "bench-notes", {"volts": Typed("4")}),),
        limits=("sample.volts_most", "sample.volts_stop"),
        tables=("sample_wires",),
        sources=("bench-notes",),
        hazards=("sample-shock",),
        search_words=("sample volts",),
    )
    return {sample.slug: sample}
