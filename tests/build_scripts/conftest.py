"""How tests of this room run a command: as a person does, and reading what a person reads."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


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
