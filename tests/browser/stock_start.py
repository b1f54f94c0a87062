"""Python started in a page as Pyodide's own documentation has it: its public loader, its whole library, plain source files.

No visitor gets this. It stands beside our two ways, so that what they print can be held against it.
"""

from __future__ import annotations

import shutil
from pathlib import Path

from build_scripts.pack_runtime import PYODIDE_FILES, zip_calculators

PAGE = "stock.html"

# A function of the page: requests to answers, both JSON text. Everything comes from the folder that the page lies in.
ANSWERS = """async (standardsText, requests) => {
  const here = (name) => new URL(name, location.href).href;
  const { loadPyodide } = await import(here("pyodide.mjs"));
  const python = await loadPyodide({ indexURL: here("./") });
  python.unpackArchive(await (await fetch(here("calculators.zip"))).arrayBuffer(), "zip");
  const standards = python.pyimport("calculators.limits").Standards.from_json(standardsText);
  const { answer } = python.pyimport("calculators.answer");
  return requests.map((request) => answer(request, standards));
}"""


def make_stock_folder(root: Path, folder: Path) -> Path:
    """What a server has to hand out for that, in a folder."""
    folder.mkdir()
    for name in PYODIDE_FILES:
        shutil.copy(root / "node_modules" / "pyodide" / name, folder)
    (folder / "calculators.zip").write_bytes(zip_calculators(root / "calculators"))
    (folder / PAGE).write_text(
        "<!doctype html><meta charset=utf-8><link rel=icon href=data:,><title>Stock</title>", encoding="utf-8"
    )
    return folder
