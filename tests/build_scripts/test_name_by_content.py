"""Names that carry their content: a file that changes has another name, and everything that names it says so."""

from __future__ import annotations

from pathlib import Path

import pytest

from build_scripts.name_by_content import is_named_by_content, name_by_content, packed_file

FILES = {
    "index.html": '<link href="assets/styles/s.css"><script src="assets/scripts/page.js"></script>',
    "safety/a.html": '<img src="../assets/icons/i.svg" srcset="../assets/icons/i.svg 2x"> assets/scripts/page.js',
    "assets/scripts/page.js": 'new Worker(new URL("assets/scripts/worker.js",root));new URL("manifest.webmanifest",root)',
    "assets/scripts/worker.js": "get(`../data/standards.json`);get('../runtime/python-0123456789ab.wasm')",
    "assets/styles/s.css": "a{background:url(../icons/i.svg)}b{background:url(data:image/svg+xml,%3Csvg/%3E)}",
    "assets/icons/i.svg": "<svg/>",
    "assets/data/standards.json": '{"limits": "scripts/page.js"}',
    "assets/data/build.json": "{}",
    "assets/javascripts/bundle.a5f9d56c.min.js": "",
    "search/search_index.json": '{"text": "assets/scripts/page.js"}',
}


@pytest.fixture
def site(tmp_path) -> Path:
    for path, text in FILES.items():
        file = tmp_path / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8")
    return tmp_path


def test_every_file_of_ours_that_pages_load_is_named_by_its_content(site):
    renamed = name_by_content(site)
    ours = {path for path in FILES if path.startswith("assets/")}
    assert set(renamed) == ours - {"assets/data/build.json", "assets/javascripts/bundle.a5f9d56c.min.js"}
    for old, new in renamed.items():
        assert not (site / old).exists()
        assert packed_file(site, old) == site / new
    # The first twelve digits of the SHA-256 of <svg/>, by sha256sum.
    assert renamed["assets/icons/i.svg"] == "assets/icons/i-d4dc56669143.svg"


def test_whatever_names_a_file_names_it_anew(site):
    new = name_by_content(site)
    text = {old: (site / new.get(old, old)).read_text(encoding="utf-8") for old in FILES}
    icon = new["assets/icons/i.svg"]
    assert f'href="{new["assets/styles/s.css"]}"' in text["index.html"]
    assert f'src="{new["assets/scripts/page.js"]}"' in text["index.html"]
    assert f'<img src="../{icon}" srcset="../{icon} 2x">' in text["safety/a.html"]
    assert f'"{new["assets/scripts/worker.js"]}"' in text["assets/scripts/page.js"]
    assert f"`../{new['assets/data/standards.json'].removeprefix('assets/')}`" in text["assets/scripts/worker.js"]
    assert f"url(../{icon.removeprefix('assets/')})" in text["assets/styles/s.css"]


def test_what_is_no_address_of_a_file_of_ours_stays_as_it_is(site):
    new = name_by_content(site)
    text = {old: (site / new.get(old, old)).read_text(encoding="utf-8") for old in FILES}
    assert text["safety/a.html"].endswith("> assets/scripts/page.js")
    assert '"manifest.webmanifest"' in text["assets/scripts/page.js"]
    assert "'../runtime/python-0123456789ab.wasm'" in text["assets/scripts/worker.js"]
    assert "url(data:image/svg+xml,%3Csvg/%3E)" in text["assets/styles/s.css"]
    for path in ("assets/data/standards.json", "search/search_index.json"):
        assert text[path] == FILES[path]


def test_a_page_deeper_down_does_not_mean_a_file_above_the_site(site):
    (site / "deep.html").write_text('<script src="../assets/scripts/page.js"></script>', encoding="utf-8")
    name_by_content(site)
    assert '"../assets/scripts/page.js"' in (site / "deep.html").read_text(encoding="utf-8")


def test_the_name_of_a_file_changes_with_what_it_names(site, tmp_path_factory):
    other = tmp_path_factory.mktemp("other")
    for path, text in FILES.items():
        file = other / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text.replace("limits", "bounds"), encoding="utf-8")
    one, two = name_by_content(site), name_by_content(other)
    changed = {path for path in one if one[path] != two[path]}
    assert changed == {"assets/data/standards.json", "assets/scripts/worker.js", "assets/scripts/page.js"}


def test_files_that_name_each_other_in_a_circle_are_refused(site):
    (site / "assets/scripts/worker.js").write_text('"assets/scripts/page.js"', encoding="utf-8")
    with pytest.raises(RuntimeError, match=r"in a circle.*page\.js.*worker\.js|in a circle.*worker\.js.*page\.js"):
        name_by_content(site)


@pytest.mark.parametrize(
    ("path", "named"),
    [
        ("assets/scripts/page-7bb1374ba042.js", True),
        ("assets/runtime/python-cc36e3cab04f.wasm", True),
        ("assets/javascripts/workers/search.a7633da7.min.js", True),
        ("assets/stylesheets/main.57a0d79d.min.css", True),
        ("assets/runtime/disk/wasm.js", False),
        ("assets/javascripts/lunr/wordcut.js", False),
        ("assets/data/build.json", False),
        ("procedures/page-7bb1374ba042.html", False),
        ("service-worker.js", False),
        ("search/search_index.json", False),
    ],
)
def test_a_name_that_carries_its_content_is_known_as_one(path, named):
    assert is_named_by_content(path) is named


def test_a_file_that_is_not_packed_once_is_not_guessed(site):
    name_by_content(site)
    with pytest.raises(FileNotFoundError, match="holds 0 files like"):
        packed_file(site, "assets/scripts/none.js")
