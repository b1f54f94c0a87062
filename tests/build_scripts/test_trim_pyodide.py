"""The Pyodide that pages have: nothing in it that no page can reach, and all that one can."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path

import pytest

from build_scripts import trim_pyodide as trimming
from build_scripts.environment import Environment
from build_scripts.make_snapshot import SnapshotError
from build_scripts.pack_runtime import PYODIDE_FILES, pyodide_for_pages

ROOT = Path(__file__).resolve().parents[2]
FROM_NPM = ROOT / "node_modules" / "pyodide"


@pytest.fixture(scope="module")
def trimmed() -> Path:
    return pyodide_for_pages(ROOT)


def exports(file: Path) -> set[str]:
    program = "console.log(JSON.stringify(WebAssembly.Module.exports(new WebAssembly.Module(require('fs').readFileSync(process.argv[1])))))"
    command = [str(Environment(ROOT).node), "-e", program, str(file)]
    done = subprocess.run(command, capture_output=True, check=True, encoding="utf-8")
    return {one["name"] for one in json.loads(done.stdout)}


def test_what_scripts_name_is_still_exported_and_nearly_all_else_is_not(trimmed):
    before, after = (exports(folder / "pyodide.asm.wasm") for folder in (FROM_NPM, trimmed))
    assert after < before
    assert len(after) < len(before) / 10
    assert {"memory", "malloc", "free", "sbrk", "__wasm_call_ctors", "emscripten_resize_heap"} & before <= after
    assert "PyRun_InteractiveLoop" not in after


def test_every_file_that_python_starts_from_is_there_and_smaller_where_it_was_trimmed(trimmed):
    for name in PYODIDE_FILES:
        before, after = (folder / name for folder in (FROM_NPM, trimmed))
        if name in (trimming.WASM, trimming.SCRIPT):
            assert after.stat().st_size < before.stat().st_size
        else:
            assert after.read_bytes() == before.read_bytes()


def test_it_is_made_once_and_anew_when_a_script_that_uses_it_changed(trimmed, monkeypatch, tmp_path):
    monkeypatch.setattr(trimming, "run_node", lambda *_: pytest.fail("it was made anew"))
    assert pyodide_for_pages(ROOT) == trimmed
    script = tmp_path / "script.mjs"
    keys = set()
    for text in ("one", "two"):
        script.write_text(text, encoding="utf-8")
        keys.add(trimming._fingerprint(ROOT, FROM_NPM, [script]))
    assert len(keys) == 2


def test_a_pyodide_that_is_written_in_another_way_stops_the_build(tmp_path):
    pyodide = tmp_path / "pyodide"
    shutil.copytree(FROM_NPM, pyodide)
    script = pyodide / trimming.SCRIPT
    script.write_text(script.read_text("utf-8").replace("assignWasmExports", "takeExports"), encoding="utf-8")
    with pytest.raises(SnapshotError, match=r"trim_pyodide\.mjs failed: [\s\S]*does not take its exports as it did"):
        trimming.run_node(ROOT, "trim_pyodide.mjs", str(pyodide), str(tmp_path))
