"""What a build takes: time, processor time, memory and size, beside plain Material on the same Markdown and menu."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from dataclasses import dataclass
from pathlib import Path

from tests.bench.large_handbook import add_procedures, make_clone
from tests.bench.one_build import PLAIN_SITE, prepare_plain

# The system says the memory of a process that has ended in kB; macOS says it in bytes.
_MEMORY_UNIT = 1 if sys.platform == "darwin" else 1024


@dataclass(frozen=True)
class Took:
    """What one build took."""

    seconds: float
    processor_seconds: float
    megabytes: float


@dataclass(frozen=True)
class Compared:
    """The builds of one handbook, both ways, and the sizes of what they made."""

    pages: int
    ours: list[Took]
    plain: list[Took]
    our_megabytes: float
    plain_megabytes: float
    site: Path


def compare_builds(root: Path, work: Path, pages: int, runs: int) -> Compared:
    """Build a handbook of so many pages one way and the other, in turn; 0 pages take the handbook as it is."""
    clone = work / f"handbook-{pages or 'as-it-is'}"
    make_clone(root, clone)
    build_in_own_process(
        "ours", clone
    )  # Makes what a first build makes once and for all, and says how many pages it has.
    have = _count_pages(clone / "build" / "site")
    if pages > have:
        add_procedures(clone, pages - have)
    prepare_plain(clone)
    ours, plain = [], []
    for _ in range(runs):
        ours.append(build_in_own_process("ours", clone))
        plain.append(build_in_own_process("plain", clone))
    site = clone / "build" / "site"
    return Compared(_count_pages(site), ours, plain, folder_megabytes(site), folder_megabytes(clone / PLAIN_SITE), site)


def build_in_own_process(which: str, clone: Path) -> Took:
    """One build; the processor time and the memory are those of its process and of all that it started."""
    began = time.monotonic()
    command = [sys.executable, "-m", "tests.bench.one_build", which, str(clone)]
    # Compiled modules are kept, as Python does wherever it is not told otherwise.
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    root = Path(__file__).resolve().parents[2]
    process = subprocess.Popen(command, stdin=subprocess.DEVNULL, cwd=root, env=environment)
    _, status, usage = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise RuntimeError(f"the build of {clone} ({which}) ended with {process.returncode}")
    memory = usage.ru_maxrss * _MEMORY_UNIT / 1e6
    return Took(time.monotonic() - began, usage.ru_utime + usage.ru_stime, memory)


def folder_megabytes(folder: Path) -> float:
    """The bytes of all files, as a stick or a host has to hold them."""
    return sum(file.stat().st_size for file in folder.rglob("*") if file.is_file()) / 1e6


def _count_pages(site: Path) -> int:
    return sum(1 for _ in site.rglob("*.html"))
