"""Packing: everything a site runs on, the same bytes each time, and never half a site."""

from __future__ import annotations

import base64
import gzip
import hashlib
import json
import re
import subprocess
import zipfile
from pathlib import Path

import pytest

from build_scripts import pack as packing
from build_scripts.environment import MissingError
from build_scripts.esbuild import bundle
from build_scripts.pack import checksums, pack, swap_in
from build_scripts.pack_runtime import PYODIDE_VERSION, prepare_runtime, zip_calculators
from build_scripts.precache import list_entries
from build_scripts.write_app_files import licences, manifest, sitemap

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def html(tmp_path) -> Path:
    """What rendering leaves, in small."""
    folder = tmp_path / "html"
    (folder / "assets" / "data").mkdir(parents=True)
    (folder / "procedures").mkdir()
    (folder / "index.html").write_text("<h1>Start</h1>", encoding="utf-8")
    (folder / "404.html").write_text("<h1>Nothing here</h1>", encoding="utf-8")
    (folder / "procedures" / "wind.html").write_text(
        '<p>Menu</p><article class="page"><h1>Wind</h1></article><p>Foot</p>', encoding="utf-8"
    )
    (folder / "sitemap.xml.gz").write_bytes(b"a moment")
    listed = {
        "revision": "7",
        "parts": [{"part": "Procedures", "pages": [{"path": "procedures/wind.html", "title": "Wind"}]}],
    }
    build = {"date": "2026-11-25", "revision": "7"}
    for name, data in (("standards", {}), ("procedures", {}), ("build", build), ("booklet", listed)):
        (folder / "assets" / "data" / f"{name}.json").write_text(json.dumps(data), encoding="utf-8")
    return folder


def quiet(sentence: str) -> None:
    assert sentence


def contents(folder: Path) -> dict[str, str]:
    return {
        file.relative_to(folder).as_posix(): hashlib.sha256(file.read_bytes()).hexdigest()
        for file in folder.rglob("*")
        if file.is_file()
    }


def test_a_packed_site_carries_everything_it_runs_on(html, tmp_path):
    site = tmp_path / "site"
    pack(ROOT, html, site, quiet)
    names = set(contents(site))
    assert {"service-worker.js", "manifest.webmanifest", "checksums.txt", "licences.txt", "sitemap.xml"} <= names
    assert {f"assets/runtime/disk/{name}.js" for name in ("worker", "wasm", "snapshot", "library", "data")} <= names
    runtime = prepare_runtime(ROOT)
    assert {f"assets/runtime/{name}" for name in runtime.served.values()} <= names
    assert "sitemap.xml.gz" not in names, "the one that the renderer made holds the moment of the build"
    assert {"headers/nginx.conf", "headers/content-security-policy.txt", "service-worker.js.gz"} <= names
    assert sorted(file.name for file in tmp_path.iterdir()) == ["html", "site"]


def test_the_same_pages_give_the_same_bytes(html, tmp_path):
    pack(ROOT, html, tmp_path / "one", quiet)
    pack(ROOT, html, tmp_path / "two", quiet)
    assert contents(tmp_path / "one") == contents(tmp_path / "two")


def test_checksums_are_what_sha256sum_reads(html, tmp_path):
    site = tmp_path / "site"
    pack(ROOT, html, site, quiet)
    told = dict(reversed(line.split("  ")) for line in (site / "checksums.txt").read_text("utf-8").splitlines())
    assert told == {name: digest for name, digest in contents(site).items() if name != "checksums.txt"}


def test_a_failure_leaves_the_last_good_site_and_nothing_else(html, tmp_path, monkeypatch):
    site = tmp_path / "site"
    pack(ROOT, html, site, quiet)
    before = contents(site)

    def break_down(*_):
        raise RuntimeError("no room left")

    monkeypatch.setattr(packing, "service_worker", break_down)
    (html / "index.html").write_text("<h1>Newer</h1>", encoding="utf-8")
    with pytest.raises(RuntimeError, match=r"no room left"):
        pack(ROOT, html, site, quiet)
    assert contents(site) == before
    assert sorted(file.name for file in tmp_path.iterdir()) == ["html", "site"]


def test_a_swap_that_fails_puts_the_last_site_back(tmp_path, monkeypatch):
    site, new = tmp_path / "site", tmp_path / "new"
    for folder in (site, new):
        folder.mkdir()
        (folder / "index.html").write_text(folder.name, encoding="utf-8")
    rename = Path.rename

    def refuse_the_new_one(self, target):
        if self == new:
            raise OSError("in use")
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", refuse_the_new_one)
    with pytest.raises(OSError, match=r"in use"):
        swap_in(new, site)
    assert (site / "index.html").read_text(encoding="utf-8") == "site"


def test_a_second_site_takes_the_place_of_the_first_in_whole(html, tmp_path):
    site = tmp_path / "site"
    pack(ROOT, html, site, quiet)
    (html / "procedures" / "wind.html").unlink()
    (html / "assets" / "data" / "booklet.json").write_text('{"revision": "8", "parts": []}', encoding="utf-8")
    pack(ROOT, html, site, quiet)
    assert not (site / "procedures" / "wind.html").exists()
    assert not list(tmp_path.glob("site-*"))


def test_files_named_by_their_content_are_saved_with_their_checksum_and_pages_with_a_revision(html, tmp_path):
    site = tmp_path / "site"
    pack(ROOT, html, site, quiet)
    entries = {entry.url: entry for entry in list_entries(site)}
    for url, entry in entries.items():
        named_by_content = url.startswith("assets/") and url != "assets/data/build.json"
        assert (entry.revision is None) == named_by_content, url
        assert bool(entry.integrity) == named_by_content, url
    assert "index.html" in entries
    assert "manifest.webmanifest" in entries
    assert "sitemap.xml" in entries, "without it a link is a full load, and Python starts anew"
    assert not {"checksums.txt", "service-worker.js"} & set(entries)
    assert not [
        url for url in entries if url.startswith(("assets/runtime/disk/", "assets/javascripts/lunr/", "headers/"))
    ]
    assert not [url for url in entries if url.endswith(".gz")]
    spare = [entry for entry in entries.values() if entry.is_spare]
    assert [re.sub(r"-[0-9a-f]{12}", "", entry.url) for entry in spare] == ["assets/runtime/python-library.bin"]
    assert all(entry.integrity for entry in spare)
    kept_unpacked = {re.sub(r"-[0-9a-f]{12}", "", url): entry.type for url, entry in entries.items() if entry.kept}
    assert kept_unpacked == {
        "assets/runtime/python-snapshot.bin": None,
        "assets/runtime/python-wasm.bin": "application/wasm",
    }


def test_a_page_that_changes_changes_its_revision_alone(html, tmp_path):
    pack(ROOT, html, tmp_path / "one", quiet)
    (html / "index.html").write_text("<h1>Newer</h1>", encoding="utf-8")
    pack(ROOT, html, tmp_path / "two", quiet)
    one, two = (set(list_entries(tmp_path / name)) for name in ("one", "two"))
    assert {entry.url for entry in one ^ two} == {"index.html"}


def test_no_script_of_ours_names_another_host(html, tmp_path):
    site = tmp_path / "site"
    pack(ROOT, html, site, quiet)
    allowed = {"https://python.invalid/", "https://handbook.invalid/"}
    for script in (site / "service-worker.js", site / "assets" / "runtime" / "disk" / "data.js"):
        found = set(re.findall(r"https?://[^\"'`\s)]+", script.read_text(encoding="utf-8")))
        assert found <= allowed | {"https://bit.ly/wb-precache"}, "the last is a sentence that Workbox prints"


def test_the_calculators_are_zipped_the_same_each_time_and_can_be_imported(tmp_path):
    zipped = zip_calculators(ROOT / "calculators")
    assert zipped == zip_calculators(ROOT / "calculators")
    file = tmp_path / "calculators.zip"
    file.write_bytes(zipped)
    with zipfile.ZipFile(file) as inside:
        assert "calculators/answer.py" in inside.namelist()
        assert {entry.date_time for entry in inside.infolist()} == {(1980, 1, 1, 0, 0, 0)}
    code = "import calculators.answer; print(calculators.answer.__file__)"
    command = ["python3", "-I", "-c", f"import sys; sys.path.insert(0, {str(file)!r}); {code}"]
    assert subprocess.run(command, check=True, capture_output=True, text=True).stdout.strip().startswith(str(file))


def test_another_version_of_pyodide_is_refused_with_what_to_do(tmp_path):
    package = tmp_path / "node_modules" / "pyodide"
    package.mkdir(parents=True)
    (package / "package.json").write_text('{"version": "1.2.3"}', encoding="utf-8")
    (tmp_path / "calculators").mkdir()
    with pytest.raises(MissingError, match=f"Pyodide 1.2.3, and these pages are made for {PYODIDE_VERSION}. Delete"):
        prepare_runtime(tmp_path)


def test_missing_packages_are_named_with_what_installs_them(tmp_path):
    with pytest.raises(MissingError, match=r"esbuild is not installed.*build_scripts build"):
        bundle(tmp_path, ["page"], {})
    with pytest.raises(MissingError, match=r"pyodide is not installed.*build_scripts build"):
        prepare_runtime(tmp_path)
    with pytest.raises(MissingError, match=r"pyodide is not installed.*build_scripts build"):
        licences(tmp_path)


def test_the_sitemap_lists_every_page_but_the_one_for_lost_addresses(html):
    found = re.findall(r"<loc>https://handbook\.invalid/([^<]+)</loc>", sitemap(html))
    assert found == ["index.html", "procedures/wind.html"]


def test_the_manifest_names_pictures_that_are_there_with_addresses_inside_the_site():
    data = json.loads(manifest({"assets/icons/threepin.svg": "assets/icons/threepin-1.svg"}))
    assert data["start_url"] == "index.html"
    assert data["scope"] == "."
    drawn, *painted = data["icons"]
    assert drawn["src"] == "assets/icons/threepin-1.svg"
    for icon in painted:
        assert (ROOT / "handbook" / icon["src"]).is_file()


def test_licences_name_each_package_in_the_site():
    text = licences(ROOT)
    for words in (
        "pyodide 314.0.7, licence MPL-2.0. Source: https://",
        "workbox-precaching",
        "Permission is hereby granted",
    ):
        assert words in text


def test_checksums_leave_themselves_out(tmp_path):
    (tmp_path / "checksums.txt").write_text("old", encoding="utf-8")
    (tmp_path / "a.txt").write_text("abc", encoding="utf-8")
    # SHA-256 of "abc": FIPS 180-2, appendix B.1, from memory.
    assert checksums(tmp_path) == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad  a.txt\n"


def test_a_site_on_a_stick_carries_the_content_of_every_page_that_may_be_printed(html, tmp_path, root):
    site = tmp_path / "site"
    pack(root, html, site, quiet)
    script = (site / "assets/runtime/disk/booklet.js").read_text(encoding="utf-8")
    packed = base64.b64decode(json.loads(script.split(".booklet=", 1)[1].rstrip(";\n")))
    text = gzip.decompress(packed)
    assert json.loads(text)["articles"] == {"procedures/wind.html": '<article class="page"><h1>Wind</h1></article>'}
