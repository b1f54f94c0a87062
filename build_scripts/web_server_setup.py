"""Finds the nginx that a test serves the site with; on Debian it is taken out of its package, without installing it.

Installed, the package would start a server for everybody on the network. Taken out, it is a program in a folder.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from collections.abc import Callable, Mapping
from pathlib import Path

from build_scripts.environment import MissingError

VARIABLE = "THREEPIN_NGINX"
# Where systems put it; on Debian it is not on the path of everybody.
_MORE_PLACES = ("/usr/sbin", "/usr/local/sbin", "/opt/homebrew/bin")


def find_nginx(kept: Path, environment: Mapping[str, str] = os.environ) -> Path | None:
    """The nginx named by THREEPIN_NGINX, or else one of this system, or else the one taken out into the folder kept."""
    named = environment.get(VARIABLE)
    if named:
        if not Path(named).is_file():
            raise MissingError(f"{VARIABLE} names {named}, and there is no such file. Name an nginx, or unset it.")
        return Path(named)
    places = os.pathsep.join([environment.get("PATH", os.defpath), *_MORE_PLACES])
    found = shutil.which("nginx", path=places)
    taken_out = kept / "usr" / "sbin" / "nginx"
    return Path(found) if found else taken_out if taken_out.is_file() else None


def ensure_nginx(kept: Path, say: Callable[[str], None]) -> Path:
    """The nginx, taken out of Debian's package first if there is none and apt-get can bring the package."""
    found = find_nginx(kept)
    why = "there is no apt-get here"
    if found is None and shutil.which("apt-get") and shutil.which("dpkg-deb"):
        say("Taking nginx out of Debian's package ...")
        why = _take_out(kept)
        found = find_nginx(kept)
    if found is None:
        raise MissingError(
            f"The tests of what a host sends need nginx and found none ({why}): install it with the system's packages "
            f"(apt install nginx), or set {VARIABLE} to its program."
        )
    return found


def _take_out(kept: Path) -> str:
    """Bring the package and unpack it; what apt-get said last when it could not."""
    kept.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as work:
        if hasattr(os, "geteuid") and os.geteuid() == 0:
            _run(["apt-get", "update", "-qq"], work)
        said = _run(["apt-get", "download", "-qq", "nginx"], work)
        for package in Path(work).glob("nginx_*.deb"):
            said = _run(["dpkg-deb", "-x", str(package), str(kept.resolve())], work)
    return said


def _run(command: list[str], work: str) -> str:
    done = subprocess.run(
        command,
        check=False,
        cwd=work,
        env=os.environ | {"DEBIAN_FRONTEND": "noninteractive", "LC_ALL": "C.UTF-8"},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        encoding="utf-8",
        errors="replace",
    )
    return (done.stderr.strip().splitlines() or ["no reason was given"])[-1]
