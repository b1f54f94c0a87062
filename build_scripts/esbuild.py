"""Runs esbuild, which turns each entry of handbook/assets/scripts into one classic script.

Modules do not load from disk; classic scripts do. The program is called by itself, without Node.
"""

from __future__ import annotations

import os
import subprocess
import tempfile
from collections.abc import Mapping, Sequence
from pathlib import Path

from build_scripts.environment import MissingError

# What all three engines of the last years read as it is.
TARGET = "es2022"


def bundle(
    root: Path, entries: Sequence[str], defines: Mapping[str, str], others: Mapping[str, Path] | None = None
) -> list[bytes]:
    """Each entry as one script, in order.

    Defines are names that the scripts use and the text that replaces them; others are scripts that stand in for those
    that are imported by a name.
    """
    with tempfile.TemporaryDirectory() as made:
        command = [str(_program(root)), *(f"handbook/assets/scripts/{entry}.mjs" for entry in entries)]
        command += ["--bundle", "--format=iife", "--minify", f"--target={TARGET}", "--platform=browser"]
        command += ["--charset=utf8", "--legal-comments=none", "--log-level=warning", f"--outdir={made}"]
        # Pyodide asks for these in Node only; its package leaves them out in a browser, its second script does not.
        command += ["--external:node:*", "--external:ws"]
        # Pyodide is handed everything it needs; this only must not be empty where it looks for its own address.
        command += ['--define:import.meta.url="https://python.invalid/"', '--define:process.env.NODE_ENV="production"']
        command += [f"--define:{name}={value}" for name, value in defines.items()]
        command += [f"--alias:{name}={file}" for name, file in (others or {}).items()]
        done = subprocess.run(command, cwd=root, check=False, capture_output=True, stdin=subprocess.DEVNULL)
        if done.returncode or done.stderr.strip():
            said = done.stderr.decode(errors="replace")
            raise RuntimeError(f"esbuild could not bundle {', '.join(entries)}:\n{said}")
        return [(Path(made) / f"{entry}.js").read_bytes() for entry in entries]


def _program(root: Path) -> Path:
    """esbuild's own program for this kind of machine; npm installs no other."""
    name = "esbuild.exe" if os.name == "nt" else "bin/esbuild"
    found = sorted((root / "node_modules" / "@esbuild").glob(f"*/{name}"))
    if not found:
        raise MissingError(
            "The npm package esbuild is not installed, and the page's scripts need it. "
            "Run “python3 -m build_scripts build”, which installs what package-lock.json names."
        )
    return found[0]
