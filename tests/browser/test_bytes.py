"""How much travels, counted from the built site as a host sends it that hands out the packed copies; no time is measured."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from build_scripts.precache import PLACEHOLDER, SERVICE_WORKER
from build_scripts.precompress import ENDING

MEGABYTE = 1_000_000
# The targets: all that is saved for use without network, what stands in when it fails, and what has to come before a
# page can be read.
MOST_SAVED, MOST_SPARE, MOST_BEFORE_READING = 8 * MEGABYTE, 3 * MEGABYTE // 2, 400_000

# What a browser loads by itself for a page, in whichever order the attributes stand; and links that it does not follow.
LOADED = re.compile(r"<(?:script|img|link)\b[^>]*?\s(?:src|href)=[\"']?([^\"'\s>]+)[^>]*>")
NOT_LOADED = re.compile(r"rel=\W?(next|prev)")


def on_the_wire(file: Path) -> int:
    """The size of a file as it travels: of the packed copy beside it, if there is one."""
    packed = file.with_name(file.name + ENDING)
    return (packed if packed.is_file() else file).stat().st_size


@pytest.fixture(scope="module")
def release(site) -> dict[str, list[dict[str, str]]]:
    """The lists that the service worker of the built site carries."""
    first_line = (site / SERVICE_WORKER).read_text(encoding="utf-8").split("\n", 1)[0]
    return json.loads(first_line.removeprefix(f"const {PLACEHOLDER}=").removesuffix(";"))


def loaded_for(page: Path) -> set[Path]:
    """The page, and every file of the site that it loads by itself."""
    tags = [tag for tag in LOADED.finditer(page.read_text(encoding="utf-8")) if not NOT_LOADED.search(tag[0])]
    return {page, *((page.parent / tag[1]).resolve() for tag in tags if not tag[1].startswith("data:"))}


def test_all_that_is_saved_for_use_without_network_travels_in_eight_megabytes(site, release):
    saved = sum(on_the_wire(site / file["url"]) for file in release["files"]) + on_the_wire(site / SERVICE_WORKER)
    assert 4 * MEGABYTE < saved <= MOST_SAVED, f"{saved:,} bytes; less than four megabytes would lack Python"


def test_what_stands_in_when_something_fails_is_less_than_a_megabyte_and_a_half(site, release):
    spare = sum(on_the_wire(site / file["url"]) for file in release["spare"])
    assert MEGABYTE // 2 < spare <= MOST_SPARE, f"{spare:,} bytes; less than half a megabyte would lack its library"


def test_every_page_can_be_read_after_four_hundred_kilobytes(site):
    loads = {page: loaded_for(page) for page in sorted(site.rglob("*.html")) if page.name != "404.html"}
    assert min(map(len, loads.values())) > 6, "styles and scripts are counted"
    sizes = {page: sum(map(on_the_wire, files)) for page, files in loads.items()}
    heavy = {page.relative_to(site).as_posix(): size for page, size in sizes.items() if size > MOST_BEFORE_READING}
    assert heavy == {}


def test_what_python_is_started_from_travels_small_from_a_host_that_packs_nothing(site, release):
    stems = ("python-wasm-", "python-snapshot-", "python-library-")
    files = [file["url"] for which in ("files", "spare") for file in release[which]]
    named = [url for url in files if Path(url).name.startswith(stems)]
    assert len(named) == len(stems)
    for url in named:
        assert (site / url).read_bytes()[:3] == b"\x1f\x8b\x08", f"{url} is packed in itself, by gzip"
