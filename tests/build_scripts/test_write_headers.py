"""What a host has to send: a policy made from the very pages, and one table of types for every host."""

from __future__ import annotations

import random

import pytest

from build_scripts.precompress import precompress
from build_scripts.write_headers import cache_rule, content_security_policy, nginx, type_of, write_headers

# The checksums are those of “alert('Hello, world.');” in CSP Level 2, 4.1.2, and of “a{}”, by openssl.
HELLO, STYLE = "qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng=", "X1RutGBrXCt9KkSaXMK7tHftWiRscFHOhxsS8tv8hBk="


def rules(site) -> dict[str, str]:
    return dict(rule.split(" ", 1) for rule in content_security_policy(site).split("; "))


@pytest.fixture
def site(tmp_path):
    (tmp_path / "below").mkdir()
    (tmp_path / "below" / "index.html").write_text(
        "<script src='a.js'></script><script>alert('Hello, world.');</script>", encoding="utf-8"
    )
    return tmp_path


def test_what_stands_in_a_page_is_allowed_by_its_checksum_and_nothing_else(site):
    assert rules(site)["script-src"] == f"'self' 'wasm-unsafe-eval' 'sha256-{HELLO}'"
    assert rules(site)["style-src"] == "'self'"
    (site / "404.html").write_text("<style>a{}</style>", encoding="utf-8")
    assert rules(site)["style-src"] == f"'self' 'sha256-{STYLE}'"


@pytest.mark.parametrize(
    "element",
    [
        '<script type="application/json">{"a": 1}</script>',
        '<script async src="b.js"></script>',
        "&lt;script>x&lt;/script>",
    ],
    ids=["data", "a file", "text"],
)
def test_what_does_not_run_in_a_page_needs_no_checksum(site, element):
    before = content_security_policy(site)
    (site / "more.html").write_text(element, encoding="utf-8")
    assert content_security_policy(site) == before


def test_a_script_over_several_lines_is_taken_as_a_browser_takes_it(site):
    (site / "below" / "index.html").write_bytes(b"<script>\r\nalert(1)\r\n</script>")
    windows = rules(site)["script-src"]
    (site / "below" / "index.html").write_bytes(b"<script>\nalert(1)\n</script>")
    assert rules(site)["script-src"] == windows


def test_the_same_script_on_many_pages_is_named_once(site):
    before = content_security_policy(site)
    (site / "more.html").write_text("<script>alert('Hello, world.');</script>", encoding="utf-8")
    assert content_security_policy(site) == before


def test_the_files_for_hosts_hold_the_policy_whole(site):
    write_headers(site)
    policy = (site / "headers" / "content-security-policy.txt").read_text(encoding="utf-8").strip()
    assert policy == content_security_policy(site)
    assert f'add_header Content-Security-Policy "{policy}" always;' in (site / "headers" / "nginx.conf").read_text(
        "utf-8"
    )


def test_nothing_in_the_file_for_nginx_depends_on_where_the_site_lies():
    orders = [line for line in nginx("p").splitlines() if line and not line.startswith("#")]
    assert not [line for line in orders if line.startswith(("root", "location", "listen", "error_page"))]


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        ("a.mjs", "text/javascript; charset=utf-8"),
        ("a/b.wasm", "application/wasm"),
        ("manifest.webmanifest", "application/manifest+json"),
        ("python-snapshot-0123456789ab.bin", "application/octet-stream"),
        ("something.else", "application/octet-stream"),
    ],
)
def test_a_file_has_one_type_on_every_host(path, kind):
    assert type_of(path) == kind


def test_only_a_name_that_carries_its_content_is_kept_for_good():
    assert cache_rule("/shop/assets/scripts/page-0123456789ab.js") == "public, max-age=31536000, immutable"
    for path in ("/index.html", "/shop/", "/service-worker.js", "/assets/data/build.json", "/search/search_index.json"):
        assert cache_rule(path) == "no-cache"


def test_a_packed_copy_lies_beside_each_file_that_gets_much_smaller(tmp_path):
    (tmp_path / "long.html").write_bytes(b"<p>the same again</p>" * 200)
    (tmp_path / "short.html").write_bytes(b"<p>the same again</p>" * 20)
    (tmp_path / "packed.bin").write_bytes(bytes(5000))
    (tmp_path / "noise.js").write_bytes(random.Random(1).randbytes(3000))
    precompress(tmp_path, ["long.html", "short.html", "packed.bin", "noise.js"])
    assert [file.name for file in sorted(tmp_path.glob("*.gz"))] == ["long.html.gz"]


def test_packing_a_file_that_is_not_there_is_not_passed_over(tmp_path):
    with pytest.raises(FileNotFoundError):
        precompress(tmp_path, ["gone.html"])
