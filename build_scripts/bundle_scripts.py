"""Bundles the page's own scripts into the assembled folder, where the pages name them."""

from __future__ import annotations

from pathlib import Path

from build_scripts.esbuild import bundle
from build_scripts.pack_runtime import Runtime, pyodide_info

# page.js runs on every page and worker.js holds Python, which start-early.js asks for while the browser still reads a
# page with a calculator. The two others fit the theme to disk and to any address: one stands in the theme's place for a
# script of its own, one comes right before the theme's script.
ENTRIES = ("page", "worker", "start-early", "iframe-worker-shim", "theme-here")
SCRIPTS_FOLDER = "assets/scripts"


def bundle_scripts(root: Path, out_folder: Path, runtime: Runtime) -> None:
    """Write the scripts that pages name into out_folder, which is assets/scripts of the assembled folder."""
    defines = runtime.defines(pyodide_info(root))
    out_folder.mkdir(parents=True, exist_ok=True)
    for entry, script in zip(ENTRIES, bundle(root, ENTRIES, defines), strict=True):
        (out_folder / f"{entry}.js").write_bytes(script)
