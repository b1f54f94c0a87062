"""On what a run was made: the machine, how busy it was, and the versions at work."""

from __future__ import annotations

import os
import platform
from collections.abc import Mapping
from datetime import date
from importlib.metadata import version
from pathlib import Path

from build_scripts.pack_runtime import PYODIDE_VERSION

# So many processes waiting for each processor, beside those of the run itself, still count as a quiet machine.
QUIET = 1.5


def today() -> str:
    """The day of the run."""
    return date.today().isoformat()


def machine() -> str:
    """How many processors of which kind, the memory and the system, without a name of the computer or of a maker."""
    memory = os.sysconf("SC_PAGE_SIZE") * os.sysconf("SC_PHYS_PAGES") / 2**30
    return f"{os.cpu_count()} processors ({platform.machine()}), {memory:.0f} GB of memory, {platform.system()}"


def conditions(load: float | None = None) -> str:
    """Whether other work ran at the same time, as far as the system tells."""
    processors = os.cpu_count() or 1
    waiting = os.getloadavg()[2] if load is None else load
    if waiting > QUIET * processors:
        return (
            f"Taken on a busy machine with {processors} processors: other work ran at the same time "
            f"(load {waiting:.1f} over the last quarter of an hour), so trust the ratios more than the times."
        )
    return f"Taken on a quiet machine (load {waiting:.1f} over the last quarter of an hour)."


def versions(root: Path, browsers: Mapping[str, str]) -> dict[str, str]:
    """What the numbers depend on."""
    from build_scripts.read_handbook import revision_of

    return {
        "handbook": revision_of(root),
        **browsers,
        "Pyodide": PYODIDE_VERSION,
        "Python": platform.python_version(),
        "MkDocs": version("mkdocs"),
        "Material": version("mkdocs-material"),
    }
