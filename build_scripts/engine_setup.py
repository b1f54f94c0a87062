"""Finds Firefox and WebKitGTK, which the tests drive besides Chromium, and installs them where that asks nobody.

Chromium is needed for the tests to mean anything. One of these that cannot be had costs only its own tests: they are
skipped, and the reason is said.
"""

from __future__ import annotations

import glob
import os
import shutil
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from build_scripts.browser_setup import install, may_install


@dataclass(frozen=True)
class Engine:
    """A browser engine: the programs it takes to drive it, each by its names on the path or as a pattern of paths."""

    name: str
    programs: Mapping[str, tuple[str, ...]]
    packages: tuple[str, ...]


FIREFOX = Engine("Firefox", {"browser": ("firefox-esr", "firefox")}, ("firefox-esr",))
WEBKIT = Engine(
    "WebKitGTK",
    {
        "driver": ("WebKitWebDriver",),
        "browser": ("/usr/lib/*/webkit2gtk-4.1/MiniBrowser", "/usr/libexec/webkit2gtk-4.1/MiniBrowser"),
        "display": ("Xvfb",),
    },
    ("webkit2gtk-driver", "xvfb"),
)
ENGINES = (FIREFOX, WEBKIT)


def find_programs(engine: Engine, environment: Mapping[str, str] = os.environ) -> dict[str, Path]:
    """The programs that are here, by what each is for."""
    path = environment.get("PATH", os.defpath)
    found = {role: _first(names, path) for role, names in engine.programs.items()}
    return {role: program for role, program in found.items() if program}


def why_missing(engine: Engine, environment: Mapping[str, str] = os.environ) -> str:
    """Why an engine cannot be driven here, in one sentence; empty when it can be."""
    here = find_programs(engine, environment)
    lacking = [Path(names[0]).name for role, names in engine.programs.items() if role not in here]
    if not lacking:
        return ""
    return (
        f"{engine.name} is not driven: there is no {' and no '.join(lacking)} here. "
        f"On Debian they come with “apt install {' '.join(engine.packages)}”."
    )


def ensure_engines(say: Callable[[str], None]) -> list[str]:
    """Install what is missing, where that may be; a sentence for each engine that still cannot be had."""
    return [why for engine in ENGINES if (why := _ensure(engine, say))]


def _ensure(engine: Engine, say: Callable[[str], None]) -> str:
    why = why_missing(engine)
    if not why or not may_install():
        return why
    say(f"Installing {' and '.join(engine.packages)} with apt-get ...")
    complaint = install(*engine.packages)
    why = why_missing(engine)
    return f"{why} apt-get could not install them here: {complaint}" if why and complaint else why


def _first(names: tuple[str, ...], path: str) -> Path | None:
    for name in names:
        for found in sorted(glob.glob(name)) if name.startswith("/") else [shutil.which(name, path=path)]:
            if found:
                return Path(found)
    return None
