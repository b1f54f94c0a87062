"""The files that make Python run in a page: Pyodide from npm, and what make_snapshot makes of the calculators.

The one place that knows Pyodide's version and the names of its files.

Made once, tried, and kept in build/runtime/ under a fingerprint of everything they are made from. A served page
fetches them under names that carry their content, so that a browser which has one never asks again. The large ones are
packed in themselves and unpacked in the browser, so that they travel small from any host. A
page opened from disk may fetch nothing, so there each file is a script that holds its bytes as text.
"""

from __future__ import annotations

import base64
import hashlib
import io
import json
import re
import shutil
import zipfile
from dataclasses import dataclass
from pathlib import Path

from deflate import gzip_compress

from build_scripts.environment import MissingError
from build_scripts.esbuild import bundle
from build_scripts.make_snapshot import LIBRARY, SNAPSHOT, prepare_snapshot, try_start, worked_examples
from build_scripts.name_by_content import content_digest
from build_scripts.precompress import SMALL, SMALLEST
from build_scripts.trim_pyodide import SCRIPT, trim_pyodide

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

# How the name of a file ends that is packed in itself.
PACKED = ".bin"

# The scripts that lie beside those files, and what a script of the page's own names another one by.
_ENTRIES = ("python-loader", "worker-disk")
_IMPORTED = re.compile(r'"\./([a-z-]+\.mjs)"')

# What Python is started from each way, the first choice first; protocol.mjs says the same to the page.
STARTS_FROM = {"snapshot": "snapshot", "ordinary": "library"}

# Every file inside a zip carries this moment, the first that the format knows.
_ZIP_MOMENT = (1980, 1, 1, 0, 0, 0)


@dataclass(frozen=True)
class Runtime:
    """The prepared files: a folder to be copied to assets/runtime, and what the page's scripts must know about it."""

    folder: Path
    served: dict[str, str]
    megabytes: dict[str, dict[str, str]]

    def defines(self, pyodide_info: str) -> dict[str, str]:
        """The names that handbook/assets/scripts/globals.d.ts declares, as JavaScript."""
        files = {role: FROM_WORKER + name for role, name in self.served.items()}
        files |= {name: f"{DATA_FROM_WORKER}{name}.json" for name in ("standards", "procedures")}
        return {
            "RUNTIME_FILES": json.dumps(files),
            "PYTHON_MEGABYTES": json.dumps(self.megabytes),
            "PYODIDE_INFO": pyodide_info,
        }


def prepare_runtime(root: Path) -> Runtime:
    """The runtime of this clone, made now unless it was made before from the same files."""
    pyodide = pyodide_for_pages(root)
    snapshot = prepare_snapshot(root, pyodide, zip_calculators(root / "calculators"))
    fingerprint = _fingerprint([pyodide / name for name in PYODIDE_FILES] + _sources(root), snapshot)
    folder = root / "build" / "runtime" / fingerprint
    note = folder / "runtime.json"
    if not note.is_file():
        _make(root, pyodide, snapshot, folder)
    known = json.loads(note.read_text(encoding="utf-8"))
    return Runtime(folder / "files", known["served"], known["megabytes"])


def pyodide_for_pages(root: Path) -> Path:
    """The folder of the Pyodide that pages and snapshot are made with: the one from npm, trimmed."""
    return trim_pyodide(root, _pyodide_folder(root), _sources(root))


def pyodide_info(root: Path) -> str:
    """The part of Pyodide's lock file that says which Python it is, as JSON; the list of packages stays behind."""
    lock = json.loads((_pyodide_folder(root) / PYODIDE_LOCK).read_text(encoding="utf-8"))
    return json.dumps(lock["info"] | {"version": PYODIDE_VERSION}, sort_keys=True)


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
    """Bytes as base64 of gzip."""
    return as_text(bytes(gzip_compress(content, SMALL)))


def as_text(packed: bytes) -> str:
    """Bytes as base64."""
    return base64.b64encode(packed).decode("ascii")


def _packed(content: bytes) -> bytes:
    """Bytes as gzip, as small as it gets, without the moment of packing."""
    return bytes(gzip_compress(content, SMALLEST))


def _make(root: Path, pyodide: Path, snapshot: Path, folder: Path) -> None:
    shutil.rmtree(folder.parent, ignore_errors=True)
    files = folder / "files"
    (files / "disk").mkdir(parents=True)
    trimmed = {f"pyodide/{SCRIPT}": pyodide / SCRIPT}
    loader, disk_worker = bundle(root, _ENTRIES, {"PYODIDE_INFO": pyodide_info(root)}, trimmed)
    contents = {
        "loader": ("python-loader", ".js", loader),
        "wasm": ("python-wasm", PACKED, _packed((pyodide / PYODIDE_WASM).read_bytes())),
        "snapshot": ("python-snapshot", PACKED, _packed((snapshot / SNAPSHOT).read_bytes())),
        "library": ("python-library", PACKED, _packed((snapshot / LIBRARY).read_bytes())),
    }
    served = {}
    for role, (stem, ending, content) in contents.items():
        served[role] = f"{stem}-{content_digest(content)}{ending}"
        (files / served[role]).write_bytes(content)
    disk = {
        "worker": disk_worker.decode("utf-8"),
        "wasm": as_text(contents["wasm"][2]),
        "snapshot": as_text(contents["snapshot"][2]),
        "library": as_text(contents["library"][2]),
    }
    for name, text in disk.items():
        (files / "disk" / f"{name}.js").write_text(as_disk_script(name, text), encoding="utf-8", newline="\n")
    for way in STARTS_FROM:
        try_start(root, way, files / "disk", worked_examples(root))
    sizes = {"served": {role: len(one[2]) for role, one in contents.items()}}
    sizes["disk"] = {name: len(text) for name, text in disk.items()}
    known = {"served": served, "megabytes": {where: _read_each_way(named) for where, named in sizes.items()}}
    (folder / "runtime.json").write_text(json.dumps(known, indent=1), encoding="utf-8")  # last: all is there, and tried


def _read_each_way(sizes: dict[str, int]) -> dict[str, str]:
    """How many megabytes a page reads to start Python each way."""
    both = sum(size for name, size in sizes.items() if name not in STARTS_FROM.values())
    return {way: f"{(both + sizes[name]) / 1e6:.1f}" for way, name in STARTS_FROM.items()}


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


def _sources(root: Path) -> list[Path]:
    """The scripts of our own that lie beside Pyodide."""
    return _with_imports(root / "handbook" / "assets" / "scripts", [f"{entry}.mjs" for entry in _ENTRIES])


def _with_imports(folder: Path, names: list[str]) -> list[Path]:
    """The named scripts and all that they import, in a fixed order: a change of any other script makes nothing anew."""
    found: set[str] = set()
    while names:
        name = names.pop()
        if name not in found:
            found.add(name)
            names += _IMPORTED.findall((folder / name).read_text(encoding="utf-8"))
    return [folder / name for name in sorted(found)]


def _fingerprint(files: list[Path], snapshot: Path) -> str:
    digest = hashlib.sha256(Path(__file__).read_bytes() + snapshot.name.encode())
    for file in files:
        digest.update(file.name.encode() + hashlib.sha256(file.read_bytes()).digest())
    return digest.hexdigest()[:16]
