"""A real nginx with the file that the site ships for it: pages work under its policy, and what slipped in does not run."""

from __future__ import annotations

import gzip
import urllib.error
import urllib.request
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from build_scripts.environment import MissingError
from build_scripts.name_by_content import packed_file
from build_scripts.precompress import ENDING
from build_scripts.web_server_setup import ensure_nginx
from build_scripts.write_headers import NGINX, TYPES
from tests.browser.nginx import nginx_serving

ROOT = Path(__file__).resolve().parents[2]
WINDINGS = "/calculators/winding-identification.html"
THREE_PINS = {"r12": "4.2", "r23": "17.9", "r13": "13.8", "lead": "0"}
BELOW = "/shop/handbook"

# Tells of every violation in a page, however it is reported.
LISTEN = """
window.violations = [];
document.addEventListener("securitypolicyviolation", (event) => window.violations.push(event.effectiveDirective));
"""
# What somebody could slip into a page, each in another way.
SLIPPED_IN = """
<style>h1 { color: rgb(1, 2, 3) }</style>
<h1 style="color: rgb(1, 2, 3)" id="styled">Slipped in</h1>
<script>window.ran = "in the page";</script>
<img src="index.html" alt="" onerror="window.ran = 'by an attribute'">
<script src="http://127.0.0.1:9/elsewhere.js"></script>
<base href="http://127.0.0.1:9/">
"""


@pytest.fixture(scope="module")
def host(site: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The built site at the root of a host, and once more below a folder; a page that was tampered with in /tampered/."""
    try:
        program = ensure_nginx(ROOT / "build" / "nginx", lambda _: None)
    except MissingError as missing:
        pytest.skip(str(missing))
    work = tmp_path_factory.mktemp("nginx")
    shop = work / "shops" / BELOW.strip("/")
    shop.parent.mkdir(parents=True)
    shop.symlink_to(site, target_is_directory=True)
    tampered = work / "tampered-with" / "tampered"
    tampered.mkdir(parents=True)
    (tampered / "index.html").write_text(f"<!doctype html><title>x</title>{SLIPPED_IN}", encoding="utf-8")
    include = f"include {site / NGINX};"
    server = f"""
        root {site}; error_page 404 /404.html; {include}
        location {BELOW}/ {{ root {work}/shops; error_page 404 {BELOW}/404.html; {include} }}
        location /tampered/ {{ root {work}/tampered-with; {include} }}
    """
    with nginx_serving(program, work, server) as address:
        yield address


def ask(address: str, *, packed: bool = False) -> tuple[int, Any, bytes]:
    """Status, headers and bytes of one file, as they travel."""
    request = urllib.request.Request(address, headers={"Accept-Encoding": "gzip"} if packed else {})
    try:
        with urllib.request.urlopen(request) as reply:
            return reply.status, reply.headers, reply.read()
    except urllib.error.HTTPError as refused:
        with refused:
            return refused.code, refused.headers, refused.read()


def violations(page: Page) -> list[str]:
    return page.evaluate("() => window.violations")


def compute(page: Page) -> None:
    for name, text in THREE_PINS.items():
        page.locator(f"form [name={name}]").fill(text)
    expect(page.locator("[data-part=state]")).to_have_attribute("data-state", "answered")
    expect(page.locator("[data-part=outcome] .sentence").first).to_contain_text("Pin 1 is common")


@pytest.mark.parametrize("below", ["", BELOW], ids=["at the root", "below a folder"])
def test_nothing_of_the_site_breaks_its_own_policy(below, visit, host):
    page = visit("about:blank", size="desktop")
    page.context.add_init_script(LISTEN)
    seen = []
    page.goto(f"{host}{below}/")
    query = page.locator("[data-md-component=search-query]")
    query.click()
    query.press_sequentially("wont start")
    expect(page.locator(".md-search-result__item").first).to_be_visible()
    seen += violations(page)
    page.goto(host + below + WINDINGS)
    compute(page)
    page.evaluate("() => { window.thisDocument = true; }")
    page.locator("[data-part=outcome] .next a").first.click()
    expect(page.locator("h1")).to_contain_text("Windings")
    assert page.evaluate("() => window.thisDocument") is True, "the theme opens the next page without a full load"
    seen += violations(page)
    page.goto(f"{host}{below}/reference/decision-map.html")
    expect(page.locator("[data-part=saved] p")).to_have_count(1)
    seen += violations(page)
    page.goto(f"{host}{below}/reference/diagnostics.html")
    expect(page.locator("[data-module=diagnostics]")).to_have_attribute("data-boot", "snapshot")
    seen += violations(page)
    assert seen == []


def test_the_site_saves_itself_and_works_from_there_under_its_policy(visit, host, watch):
    page = visit("about:blank", saving=True)
    page.context.add_init_script(LISTEN)
    page.goto(f"{host}{BELOW}/index.html")
    expect(page.locator("[data-part=saved]")).to_contain_text("more stand in")
    page.context.set_offline(True)
    page.goto(host + BELOW + WINDINGS)
    compute(page)
    assert violations(page) == []
    watch.errors.clear()  # It looked for a newer release, without network.


def test_what_was_slipped_into_a_page_neither_runs_nor_styles(visit, host, watch):
    page = visit("about:blank")
    page.context.add_init_script(LISTEN)
    page.goto(f"{host}/tampered/")
    assert page.evaluate("() => window.ran") is None
    assert page.evaluate("() => getComputedStyle(document.getElementById('styled')).color") == "rgb(0, 0, 0)"
    refused = set(violations(page))
    assert refused == {"script-src-elem", "script-src-attr", "style-src-elem", "style-src-attr", "base-uri"}
    assert watch.elsewhere == []
    assert watch.errors, "the browser says so as well"
    watch.errors.clear()


def test_a_page_that_was_changed_on_its_way_does_not_run_what_was_added(visit, host, watch):
    page = visit("about:blank")

    def add_a_script(route: Any) -> None:
        reply = route.fetch()
        route.fulfill(response=reply, body=reply.text().replace("</head>", "<script>window.ran = 1</script></head>"))

    page.context.route("**/index.html", add_a_script)
    page.goto(f"{host}/index.html")
    expect(page.locator("[data-part=saved] p")).to_have_count(1)
    assert page.evaluate("() => window.ran") is None
    (refused,) = watch.errors
    assert "inline script" in refused
    watch.errors.clear()


def test_the_policy_allows_no_inline_script_by_name_and_no_evaluation_but_of_wasm(host):
    _, headers, _ = ask(f"{host}/index.html")
    policy = dict(rule.split(" ", 1) for rule in headers["Content-Security-Policy"].split("; "))
    scripts = policy["script-src"].split()
    assert scripts[:2] == ["'self'", "'wasm-unsafe-eval'"]
    assert scripts[2:]
    assert all(one.startswith("'sha256-") for one in scripts[2:])
    assert "unsafe-inline" not in headers["Content-Security-Policy"]
    assert "blob:" not in headers["Content-Security-Policy"]
    assert policy["default-src"] == "'self'"
    assert {policy[name] for name in ("object-src", "base-uri", "form-action", "frame-ancestors")} == {"'none'"}


@pytest.mark.parametrize("below", ["", BELOW], ids=["at the root", "below a folder"])
def test_what_carries_its_content_in_its_name_is_kept_for_good_and_nothing_else(below, host, site):
    kept = [packed_file(site, f"assets/{one}") for one in ("scripts/page.js", "styles/threepin.css")]
    kept += [*(site / "assets/runtime").glob("python-*"), *(site / "assets/javascripts").glob("bundle.*.min.js")]
    for file in (one for one in kept if one.suffix != ENDING):
        _, headers, _ = ask(f"{host}{below}/{file.relative_to(site).as_posix()}")
        assert headers.get_all("Cache-Control") == ["public, max-age=31536000, immutable"], file
    for name in (
        "",
        "index.html",
        "service-worker.js",
        "manifest.webmanifest",
        "sitemap.xml",
        "search/search_index.json",
    ):
        status, headers, _ = ask(f"{host}{below}/{name}")
        assert (status, headers.get_all("Cache-Control")) == (200, ["no-cache"]), name


def test_a_file_that_is_not_there_is_not_kept_and_is_told_on_the_page_for_it(host):
    for below in ("", BELOW):
        status, headers, page = ask(f"{host}{below}/assets/scripts/page-0123456789ab.js")
        assert status == 404
        assert headers["Cache-Control"] is None
        assert headers["Content-Security-Policy"]
        assert b"There is no page at this address" in page


def test_every_kind_of_file_comes_with_its_type_and_is_taken_for_nothing_else(host, site):
    by_ending = {file.suffix.removeprefix("."): file for file in site.rglob("*") if file.is_file()}
    assert set(by_ending) <= set(TYPES), "each kind of file in a site needs its type in the table"
    for ending, file in by_ending.items():
        _, headers, _ = ask(f"{host}/{file.relative_to(site).as_posix()}")
        assert headers.get_content_type() == TYPES[ending], file
        assert headers["X-Content-Type-Options"] == "nosniff"
        assert headers["Referrer-Policy"] == "no-referrer"
        if headers.get_content_maintype() == "text":
            assert headers.get_content_charset() == "utf-8", file


def test_whoever_can_read_it_is_given_the_packed_form(host, site):
    packed = sorted(file for file in site.rglob(f"*{ENDING}"))
    assert packed
    for copy in packed:
        plain = copy.with_suffix("").relative_to(site).as_posix()
        _, headers, content = ask(f"{host}/{plain}", packed=True)
        assert headers["Content-Encoding"] == "gzip", plain
        assert headers["Vary"] == "Accept-Encoding", plain
        assert content == copy.read_bytes()
        assert gzip.decompress(content) == (site / plain).read_bytes()
    _, headers, content = ask(f"{host}/index.html")
    assert headers["Content-Encoding"] is None
    assert content == (site / "index.html").read_bytes()
