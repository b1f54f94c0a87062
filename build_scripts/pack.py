"""Step three of a build: the rendered pages get everything they run on, and are swapped in whole when all is well.

The site is made beside the old one. Only when it is complete is the old one put aside and the new one put in its
place; whatever fails before that leaves the last good site as it was.
"""

from __future__ import annotations

import hashlib
import json
import shutil
from collections.abc import Callable
from pathlib import Path

from build_scripts.inline_start import inline_start
from build_scripts.name_by_content import name_by_content
from build_scripts.pack_runtime import (
    DISK_FOLDER,
    RUNTIME_FOLDER,
    Runtime,
    as_disk_script,
    packed_as_text,
    prepare_runtime,
)
from build_scripts.precache import SERVICE_WORKER, list_entries, service_worker
from build_scripts.precompress import precompress
from build_scripts.write_app_files import LICENCES, MANIFEST, SITEMAP, licences, manifest, sitemap
from build_scripts.write_booklet import BOOKLET_LIST, BOOKLET_ON_DISK, with_articles
from build_scripts.write_headers import write_headers

Say = Callable[[str], None]

CHECKSUMS = "checksums.txt"
DATA_FOLDER = "assets/data"

# Made by the renderer and wrong here: one holds the moment of the build, the other is made anew below.
_DROPPED = ("sitemap.xml", "sitemap.xml.gz")


def pack(root: Path, html: Path, site: Path, say: Say, runtime: Runtime | None = None) -> None:
    """Make the site out of the rendered pages and put it in the place of the last one; runtime is that of root."""
    new = site.with_name(f"{site.name}-new")
    _remove(new)
    try:
        shutil.copytree(html, new)
        for name in _DROPPED:
            (new / name).unlink(missing_ok=True)
        _add_runtime(runtime or prepare_runtime(root), new)
        revision = _revision(new)
        listed = (new / BOOKLET_LIST).read_text(encoding="utf-8")
        names = name_by_content(new)
        inline_start(new, names)
        _write(new / DISK_FOLDER / f"{BOOKLET_ON_DISK}.js", booklet_on_disk(new, listed))
        _write(new / MANIFEST, manifest(names))
        _write(new / LICENCES, licences(root))
        _write(new / SITEMAP, sitemap(new))
        entries = list_entries(new)
        (new / SERVICE_WORKER).write_bytes(service_worker(root, entries, revision))
        write_headers(new)
        precompress(new, [*(entry.url for entry in entries), SERVICE_WORKER, SITEMAP])
        _write(new / CHECKSUMS, checksums(new))
    except BaseException:
        _remove(new)
        raise
    swap_in(new, site)
    say(f"Packed {site}: {len(entries)} files to be saved for use without network, revision {revision}.")


def swap_in(new: Path, site: Path) -> None:
    """Put a finished folder in the place of the last one, which comes back if that fails."""
    old = site.with_name(f"{site.name}-old")
    if site.exists():
        _remove(old)
        site.rename(old)
    # Otherwise old, if it is there, is the last good site of a swap that was cut short between its two renames.
    try:
        new.rename(site)
    except BaseException:
        if old.exists():
            old.rename(site)
        raise
    _remove(old)


def checksums(site: Path) -> str:
    """SHA-256 of every file, in the form that sha256sum -c reads."""
    files = sorted(file for file in site.rglob("*") if file.is_file() and file.name != CHECKSUMS)
    rows = (f"{hashlib.sha256(file.read_bytes()).hexdigest()}  {file.relative_to(site).as_posix()}\n" for file in files)
    return "".join(rows)


def _add_runtime(runtime: Runtime, site: Path) -> None:
    shutil.copytree(runtime.folder, site / RUNTIME_FOLDER)
    data = {
        "standards": (site / DATA_FOLDER / "standards.json").read_text(encoding="utf-8"),
        "procedures": json.loads((site / DATA_FOLDER / "procedures.json").read_text(encoding="utf-8")),
    }
    text = json.dumps(data, ensure_ascii=False, sort_keys=True)
    _write(site / DISK_FOLDER / "data.js", as_disk_script("data", packed_as_text(text.encode())))


def booklet_on_disk(site: Path, listed: str) -> str:
    """The script that brings the list and all pages on it to a page opened from disk."""
    return as_disk_script(BOOKLET_ON_DISK, packed_as_text(with_articles(site, listed)))


def _revision(site: Path) -> str:
    build = json.loads((site / DATA_FOLDER / "build.json").read_text(encoding="utf-8"))
    return str(build["revision"])


def _write(file: Path, text: str) -> None:
    file.write_text(text, encoding="utf-8", newline="\n")


def _remove(folder: Path) -> None:
    if folder.exists():
        shutil.rmtree(folder)
