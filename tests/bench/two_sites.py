"""The two sites that are compared: this handbook, and the same pages whose worker starts Python the ordinary, public way.

Both are packed by the build itself out of the same rendered pages, and both carry the same probe; so they differ in how
Python starts and in nothing else. The stock one saves for offline what it needs itself, and nothing of ours.
"""

from __future__ import annotations

import shutil
from dataclasses import dataclass
from pathlib import Path

from build_scripts.bundle_scripts import SCRIPTS_FOLDER
from build_scripts.esbuild import bundle
from build_scripts.pack import pack
from build_scripts.pack_runtime import PYODIDE_FILES, RUNTIME_FOLDER, prepare_runtime, pyodide_info, zip_calculators
from build_scripts.precache import SERVICE_WORKER, list_entries, service_worker

HERE = Path(__file__).parent
STOCK_FOLDER = "assets/stock"
SCRIPTS = Path("handbook") / "assets" / "scripts"


@dataclass(frozen=True)
class TwoSites:
    """Where both lie."""

    ours: Path
    stock: Path


def make_two_sites(root: Path, work: Path) -> TwoSites:
    """Both sites, from what the last build has rendered in root/build/html."""
    html = root / "build" / "html"
    probe = (HERE / "probe.js").read_text(encoding="utf-8")
    sites = TwoSites(work / "ours", work / "stock")
    for site in (sites.ours, sites.stock):
        pages = work / f"{site.name}-html"
        shutil.rmtree(pages, ignore_errors=True)
        shutil.copytree(html, pages)
        page_script = pages / SCRIPTS_FOLDER / "page.js"
        page_script.write_text(probe + page_script.read_text(encoding="utf-8"), encoding="utf-8")
        if site is sites.stock:
            _start_the_stock_way(root, pages, work)
        pack(root, pages, site, lambda _: None)
        shutil.rmtree(pages)
    _leave_ours_out(root, sites.stock)
    return sites


def _start_the_stock_way(root: Path, pages: Path, work: Path) -> None:
    clone = work / "stock-scripts"
    shutil.rmtree(clone, ignore_errors=True)
    shutil.copytree(root / SCRIPTS, clone / SCRIPTS)
    (clone / "node_modules").symlink_to(root / "node_modules")
    for replaced in (HERE / "stock").glob("*.mjs"):
        shutil.copy(replaced, clone / SCRIPTS / replaced.name)
    (worker,) = bundle(clone, ["worker"], prepare_runtime(root).defines(pyodide_info(root)))
    (pages / SCRIPTS_FOLDER / "worker.js").write_bytes(worker)
    stock = pages / STOCK_FOLDER
    stock.mkdir(parents=True)
    for name in PYODIDE_FILES:
        shutil.copy(root / "node_modules" / "pyodide" / name, stock / name)
    (stock / "calculators.zip").write_bytes(zip_calculators(root / "calculators"))


def _leave_ours_out(root: Path, site: Path) -> None:
    """What our start reads is not saved by a visitor of the stock site."""
    shutil.rmtree(site / RUNTIME_FOLDER)
    (site / SERVICE_WORKER).write_bytes(service_worker(root, list_entries(site), "stock"))
