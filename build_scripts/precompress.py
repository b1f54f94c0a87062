"""Lays a gzip copy beside each file that a served site asks for and that gets much smaller.

A host that knows how hands out the copy as it is; one that does not never looks at it. The runtime's large files are
packed in themselves, and opened in the page, so that they travel small from any host.
"""

from __future__ import annotations

import os
from collections.abc import Iterable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from deflate import gzip_compress

# Levels of libdeflate, which packs quicker and smaller than zlib. The higher one takes thirty times as long for four in
# a hundred: it is for what is packed once and kept.
SMALLEST, SMALL = 12, 6

ENDING = ".gz"
# A copy pays when it saves this share, and more than one network packet's worth.
_WORTH_IT = 0.9
_LEAST_BYTES = 1_400
_PACKED_ALREADY = frozenset({".bin", ".png", ".woff2", ".zip", ENDING})


def precompress(site: Path, paths: Iterable[str]) -> None:
    """Write the copies of these files of a site, as many at once as there are processors."""
    files = [site / path for path in paths if Path(path).suffix not in _PACKED_ALREADY]
    with ThreadPoolExecutor(os.cpu_count()) as pool:
        for _ in pool.map(_lay_copy, files):
            pass  # Whatever went wrong in a thread is raised here.


def _lay_copy(file: Path) -> None:
    content = file.read_bytes()
    if len(content) < _LEAST_BYTES:
        return
    packed = gzip_compress(content, SMALL)
    if len(packed) < len(content) * _WORTH_IT:
        file.with_name(file.name + ENDING).write_bytes(packed)
