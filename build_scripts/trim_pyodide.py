"""Makes the Pyodide that pages have: the one from npm without what no page can reach.

It is the same code in the same table of functions, so nothing behaves otherwise; there is less to send, to keep on a
device, and to read at each start. What it leaves out is told in snapshot/trim_pyodide.mjs.
"""

from __future__ import annotations

import hashlib
import json
import shutil
import tempfile
from collections.abc import Sequence
from pathlib import Path

from build_scripts.make_snapshot import PROGRAMS, run_node

WASM, SCRIPT = "pyodide.asm.wasm", "pyodide.asm.mjs"
# Taken over as they are.
_OTHERS = ("package.json", "pyodide-lock.json", "pyodide.mjs", "python_stdlib.zip")
_PROGRAM = "trim_pyodide.mjs"
# Programs of the build that use Pyodide's module, as the page's scripts do.
_ITS_USERS = ("make_library.mjs", "make_snapshot.mjs")


def trim_pyodide(root: Path, pyodide: Path, scripts: Sequence[Path]) -> Path:
    """The folder of the trimmed Pyodide, made now unless it was made before from the same; scripts are its users."""
    users = [pyodide / "pyodide.mjs", *(PROGRAMS / name for name in _ITS_USERS), *scripts]
    kept = root / "build" / "pyodide"
    # esbuild warns of what it finds in a script, and holds its tongue about packages, which it knows by this name.
    folder = kept / _fingerprint(root, pyodide, users) / "node_modules" / "pyodide"
    if not folder.is_dir():
        shutil.rmtree(kept, ignore_errors=True)
        folder.parent.mkdir(parents=True)
        with tempfile.TemporaryDirectory(dir=kept) as made:
            run_node(root, _PROGRAM, str(pyodide), made, *map(str, users))
            for name in _OTHERS:
                shutil.copy(pyodide / name, made)
            shutil.copytree(made, folder)
    return folder


def _fingerprint(root: Path, pyodide: Path, users: Sequence[Path]) -> str:
    """Changes with everything that the files depend on."""
    package = json.loads((root / "node_modules" / "binaryen" / "package.json").read_text(encoding="utf-8"))
    digest = hashlib.sha256(f"binaryen {package['version']}".encode())
    files = [pyodide / WASM, pyodide / SCRIPT, *(pyodide / name for name in _OTHERS)]
    for file in (*files, *users, Path(__file__), PROGRAMS / _PROGRAM):
        digest.update(file.name.encode() + hashlib.sha256(file.read_bytes()).digest())
    return digest.hexdigest()[:16]
