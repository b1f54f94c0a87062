"""The lists of everything that is saved on a device, put into the compiled service worker.

First comes all that a visitor needs, saved as a whole or not at all. What only stands in when something fails is saved
afterwards and counted apart.
"""

from __future__ import annotations

import base64
import gzip
import hashlib
import json
import re
from dataclasses import dataclass, replace
from pathlib import Path

from build_scripts.esbuild import bundle
from build_scripts.name_by_content import is_named_by_content
from build_scripts.pack_runtime import DISK_FOLDER, PACKED, RUNTIME_FOLDER, STARTS_FROM

SERVICE_WORKER = "service-worker.js"
PLACEHOLDER = "RELEASE_TO_SAVE"

# Read by people and programs beside the pages, by no page: not saved. The theme's search in other languages neither.
_LEFT_OUT = re.compile(
    r"\.map$|\.gz$|^checksums\.txt$|^search/search_index\.js$|^service-worker\.js$"
    r"|^headers/|^assets/javascripts/lunr/"
)
# What Python is started from when the first choice fails.
_SPARE = re.compile(rf"^{RUNTIME_FOLDER}/python-{STARTS_FROM['ordinary']}-")
# A browser compiles this one under its own type only.
_WASM = re.compile(rf"^{RUNTIME_FOLDER}/python-wasm-")


@dataclass(frozen=True)
class Entry:
    """One file to save. A file named by its content needs no revision, and is refused when its content is another.

    One that is packed in itself is kept unpacked on a device, and has the checksum of that besides,
    and its type where the browser insists on one.
    """

    url: str
    revision: str | None
    integrity: str | None = None
    kept: str | None = None
    type: str | None = None

    @property
    def is_spare(self) -> bool:
        """Whether it is needed only when something else fails."""
        return bool(_SPARE.search(self.url))

    def as_json(self) -> dict[str, str | None]:
        """The entry as Workbox reads it, and what the service worker wants to know besides."""
        entry = {"url": self.url, "revision": self.revision}
        known = {"integrity": self.integrity, "kept": self.kept, "type": self.type}
        return entry | {name: said for name, said in known.items() if said}


def list_entries(site: Path) -> list[Entry]:
    """Every page, script, style, picture and runtime file that the served site needs without network."""
    entries = []
    for file in sorted(site.rglob("*")):
        path = file.relative_to(site).as_posix()
        if file.is_file() and not path.startswith(f"{DISK_FOLDER}/") and not _LEFT_OUT.search(path):
            entries.append(_entry(path, file.read_bytes()))
    return entries


def _entry(path: str, content: bytes) -> Entry:
    if is_named_by_content(path):
        entry = Entry(path, None, _integrity(content))
        if path.endswith(PACKED) and not entry.is_spare:
            type_ = "application/wasm" if _WASM.search(path) else None
            return replace(entry, kept=_integrity(gzip.decompress(content)), type=type_)
        return entry
    return Entry(path, hashlib.sha256(content).hexdigest()[:16])


def _integrity(content: bytes) -> str:
    return "sha256-" + base64.b64encode(hashlib.sha256(content).digest()).decode("ascii")


def service_worker(root: Path, entries: list[Entry], revision: str) -> bytes:
    """The compiled service worker with its lists filled in."""
    (compiled,) = bundle(root, ["service-worker"], {})
    files = [entry.as_json() for entry in entries if not entry.is_spare]
    spare = [entry.as_json() for entry in entries if entry.is_spare]
    digest = hashlib.sha256(json.dumps([files, spare], sort_keys=True).encode()).hexdigest()[:16]
    release = json.dumps({"revision": revision, "digest": digest, "files": files, "spare": spare}, ensure_ascii=False)
    script = compiled.decode("utf-8")
    uses = len(re.findall(rf"\b{PLACEHOLDER}\b", script))
    if not uses:
        raise RuntimeError(f"the compiled service worker has no place for the list of files ({PLACEHOLDER})")
    return f"const {PLACEHOLDER}={release};\n{script}".encode()
