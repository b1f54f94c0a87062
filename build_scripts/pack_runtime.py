"""The files that make Python run in a page: Pyodide from npm, and the calculators as one zip.

The one place that knows Pyodide's version and the names of its files.

Made once and kept in build/runtime/ under a fingerprint of everything they are made from. A served page fetches them
under names that carry their content, so that a browser which has one never asks again. A page opened from disk may
fetch nothing, so there each file is a script that holds its bytes as text.
"""

from __future__ import annotations

import base64
import gzip
import hashlib
import io
import json
import shutil
import zipfile
from dataclasses import dataclass
from pathlib import Path

from build_scripts.environment import MissingError
from build_scripts.esbuild import bundle

# Raising the version: change it in package.json, run the tests in every browser, then change it here.
PYODIDE_VERSION = "314.0.7"
PYODIDE_WASM = "pyodide.asm.wasm"
PYODIDE_STDLIB = "python_stdlib.zip"
PYODIDE_LOCK = "pyodide-lock.json"
PYODIDE_FILES = (PYODIDE_WASM, PYODIDE_STDLIB, PYODIDE_LOCK, "pyodide.mjs", "pyodide.asm.mjs")

# Where the files lie in the site, and how worker.js, in assets/scripts/, reaches them.
RUNTIME_FOLDER = "assets/runtime"
DISK_FOLDER = "assets/runtime/disk"
FROM_WORKER = "../runtime/"
DATA_FROM_WORKER = "../data/"

# Every file inside a zip carries this moment, the first that the format knows.
_ZIP_MOMENT = (1980, 1, 1, 0, 0, 0)


@dataclass(frozen=True)
class Runtime:
    """The prepared files: a folder to be copied to assets/runtime, and what the page's scripts must know about it."""

    folder: Path
    served: dict[str, str]
    served_bytes: int
    disk_bytes: int

    def defines(self, pyodide_info: str) -> dict[str, str]:
        """The names that handbook/assets/scripts/globals.d.ts declares, as JavaScript."""
        files = {role: FROM_WORKER + name for role, name in self.served.items()}
        files |= {name: f"{DATA_FROM_WORKER}{name}.json" for name in ("standards", "procedures")}
        sizes = {"served": _megabytes(self.served_bytes), "disk": _megabytes(self.disk_bytes)}
        return {
            "RUNTIME_FILES": json.dumps(files),
            "PYTHON_MEGABYTES": json.dumps(sizes),
            "PYODIDE_INFO": pyodide_info,
        }


def prepare_runtime(root: Path) -> Runtime:
    """The runtime of this clone, made now unless it was made before from the same files."""
    pyodide = _pyodide_folder(root)
    scripts = root / "handbook" / "assets" / "scripts"
    zipped = zip_calculators(root / "calculators")
    fingerprint = _fingerprint([pyodide / name for name in PYODIDE_FILES] + sorted(scripts.glob("*.mjs")), zipped)
    folder = root / "build" / "runtime" / fingerprint
    note = folder / "runtime.json"
    if not note.is_file():
        _make(root, pyodide, folder, zipped)
    known = json.loads(note.read_text(encoding="utf-8"))
    return Runtime(folder / "files", known["served"], known["served_bytes"], known["disk_bytes"])


def pyodide_info(root: Path) -> str:
    """The part of Pyodide's lock file that says which Python it is, as JSON; the list of packages stays behind."""
    lock = json.loads((_pyodide_folder(root) / PYODIDE_LOCK).read_text(encoding="utf-8"))
    return json.dumps(lock["info"], sort_keys=True)


def zip_calculators(calculators: Path) -> bytes:
    """The calculators as one zip, the same bytes for the same files; stored, not packed, so that every zlib agrees."""
    content = io.BytesIO()
    with zipfile.ZipFile(content, "w", zipfile.ZIP_STORED) as zipped:
        for file in sorted(calculators.rglob("*.py")):
            name = file.relative_to(calculators.parent).as_posix()
            entry = zipfile.ZipInfo(name, _ZIP_MOMENT)
            entry.create_system, entry.external_attr = 3, 0o644 << 16
            zipped.writestr(entry, file.read_bytes().replace(b"\r\n", b"\n"))
    return content.getvalue()


def as_disk_script(name: str, text: str) -> str:
    """A script that leaves one text in window.threepinDisk, for a page that may not fetch."""
    # JSON is JavaScript except for these two line ends, which older engines refuse inside a string.
    quoted = json.dumps(text, ensure_ascii=False).replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
    return f"(window.threepinDisk??={{}}).{name}={quoted};\n"


def packed_as_text(content: bytes) -> str:
    """Bytes as base64 of gzip, without the moment of packing."""
    return base64.b64encode(gzip.compress(content, 9, mtime=0)).decode("ascii")


def _make(root: Path, pyodide: Path, folder: Path, zipped: bytes) -> None:
    shutil.rmtree(folder.parent, ignore_errors=True)
    files = folder / "files"
    (files / "disk").mkdir(parents=True)
    info = {"PYODIDE_INFO": pyodide_info(root)}
    loader, disk_worker = bundle(root, ["python-loader", "worker-disk"], info)
    wasm, stdlib = (pyodide / PYODIDE_WASM).read_bytes(), (pyodide / PYODIDE_STDLIB).read_bytes()
    contents = {
        "loader": ("python-loader", ".js", loader),
        "wasm": ("python", ".wasm", wasm),
        "stdlib": ("python-stdlib", ".zip", stdlib),
        "calculators": ("calculators", ".zip", zipped),
    }
    served = {}
    for role, (stem, ending, content) in contents.items():
        served[role] = f"{stem}-{hashlib.sha256(content).hexdigest()[:12]}{ending}"
        (files / served[role]).write_bytes(content)
    disk = {"worker": disk_worker.decode("utf-8")}
    disk |= {role: packed_as_text(contents[role][2]) for role in ("wasm", "stdlib", "calculators")}
    disk_bytes = 0
    for name, text in disk.items():
        script = as_disk_script(name, text).encode("utf-8")
        (files / "disk" / f"{name}.js").write_bytes(script)
        disk_bytes += len(script)
    known = {"served": served, "served_bytes": sum(len(one[2]) for one in contents.values()), "disk_bytes": disk_bytes}
    (folder / "runtime.json").write_text(json.dumps(known, indent=1), encoding="utf-8")  # last: it says all is there


def _pyodide_folder(root: Path) -> Path:
    folder = root / "node_modules" / "pyodide"
    package = folder / "package.json"
    if not package.is_file():
        raise MissingError(
            "The npm package pyodide is not installed, and the pages need it to compute. "
            "Run “python3 -m build_scripts build”, which installs what package-lock.json names."
        )
    found = json.loads(package.read_text(encoding="utf-8"))["version"]
    if found != PYODIDE_VERSION:
        raise MissingError(
            f"node_modules holds Pyodide {found}, and these pages are made for {PYODIDE_VERSION}. "
            "Delete node_modules and run “python3 -m build_scripts build”."
        )
    return folder


def _fingerprint(files: list[Path], zipped: bytes) -> str:
    digest = hashlib.sha256(Path(__file__).read_bytes())
    for file in files:
        digest.update(file.name.encode() + hashlib.sha256(file.read_bytes()).digest())
    digest.update(zipped)
    return digest.hexdigest()[:16]


def _megabytes(count: int) -> str:
    return f"{count / 1e6:.1f}"
