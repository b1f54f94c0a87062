"""Serving a built site to this computer."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
import threading
import urllib.error
import urllib.request
from collections.abc import Iterator

import pytest

from build_scripts import serve


@pytest.fixture
def site(tmp_path):
    (tmp_path / "index.html").write_text("<!doctype html><title>Ω</title>", encoding="utf-8")
    (tmp_path / "files").mkdir()
    for name in ("a.wasm", "a.mjs", "a.js", "a.webmanifest", "a.json", "a.css", "a.svg"):
        (tmp_path / "files" / name).write_bytes(b"{}")
    return tmp_path


@pytest.fixture
def address(site) -> Iterator[str]:
    with serve.make_server(site, 0) as server:
        thread = threading.Thread(target=server.serve_forever)
        thread.start()
        yield f"http://127.0.0.1:{server.server_address[1]}"
        server.shutdown()
        thread.join()


@pytest.fixture
def busy_port() -> Iterator[int]:
    with socket.socket() as held:
        held.bind(("127.0.0.1", 0))
        held.listen()
        yield held.getsockname()[1]


@pytest.mark.parametrize(
    ("file", "kind"),
    [
        ("index.html", "text/html; charset=utf-8"),
        ("files/a.wasm", "application/wasm"),
        ("files/a.mjs", "text/javascript; charset=utf-8"),
        ("files/a.js", "text/javascript; charset=utf-8"),
        ("files/a.webmanifest", "application/manifest+json"),
        ("files/a.json", "application/json"),
        ("files/a.css", "text/css; charset=utf-8"),
        ("files/a.svg", "image/svg+xml"),
    ],
)
def test_a_file_comes_with_the_type_that_a_browser_insists_on(address, file, kind):
    with urllib.request.urlopen(f"{address}/{file}") as reply:
        assert reply.headers["Content-Type"] == kind
        assert reply.headers["Cache-Control"] == "no-cache"
        assert reply.headers["X-Content-Type-Options"] == "nosniff"
        assert reply.headers["Referrer-Policy"] == "no-referrer"


def test_the_policy_that_was_made_for_the_site_is_sent_and_follows_a_new_build(site, address):
    with urllib.request.urlopen(address) as reply:
        assert "Content-Security-Policy" not in reply.headers
    (site / "headers").mkdir()
    for policy in ("default-src 'none'", "default-src 'self'"):
        (site / "headers" / "content-security-policy.txt").write_text(policy + "\n", encoding="utf-8")
        with urllib.request.urlopen(address) as reply:
            assert reply.headers.get_all("Content-Security-Policy") == [policy]


def test_a_file_named_by_its_content_is_kept_and_one_that_is_not_there_never(site, address):
    (site / "assets").mkdir()
    (site / "assets" / "a-0123456789ab.js").write_text("1", encoding="utf-8")
    with urllib.request.urlopen(f"{address}/assets/a-0123456789ab.js") as reply:
        assert reply.headers["Cache-Control"] == "public, max-age=31536000, immutable"
    with pytest.raises(urllib.error.HTTPError) as refused:
        urllib.request.urlopen(f"{address}/assets/b-0123456789ab.js")
    assert refused.value.headers["Cache-Control"] is None
    refused.value.close()


def test_a_file_that_is_older_than_the_one_the_browser_has_is_sent_as_another(site, address):
    """A host that goes back to an earlier revision has files of an earlier date."""

    def status(path: str, have: str) -> int:
        asked = urllib.request.Request(f"{address}/{path}", headers={"If-Modified-Since": have})
        try:
            with urllib.request.urlopen(asked) as reply:
                return reply.status
        except urllib.error.HTTPError as refused:
            return refused.code

    os.utime(site / "index.html", (1_700_000_000, 1_700_000_000))
    for path in ("index.html", ""):
        assert status(path, "Tue, 14 Nov 2023 22:13:20 GMT") == 304
        assert status(path, "Wed, 15 Nov 2023 22:13:20 GMT") == 200


def test_the_address_alone_shows_the_first_page(address):
    with urllib.request.urlopen(address) as reply:
        assert "Ω" in reply.read().decode("utf-8")


def test_a_browser_that_goes_away_in_the_middle_is_no_mistake(site, capfd):
    (site / "large.bin").write_bytes(bytes(30_000_000))
    with serve.make_server(site, 0) as server:
        thread = threading.Thread(target=server.serve_forever)
        thread.start()
        with socket.create_connection(server.server_address) as browser:
            browser.sendall(b"GET /large.bin HTTP/1.1\r\nHost: here\r\n\r\n")
            assert browser.recv(100).startswith(b"HTTP/1.1 200 ")
        server.shutdown()
        thread.join()
    assert capfd.readouterr().err == ""


@pytest.mark.parametrize("path", ["/files/", "/nothing.html", "/../conftest.py", "/%2e%2e/%2e%2e/etc/passwd"])
def test_nothing_but_the_files_of_the_site_is_handed_out(address, path):
    with pytest.raises(urllib.error.HTTPError) as refused:
        urllib.request.urlopen(address + path)
    assert refused.value.code == 404
    refused.value.close()


def test_only_this_computer_is_served(site):
    with serve.make_server(site, 0) as server:
        assert server.server_address[0] == "127.0.0.1"


def test_a_busy_port_gives_way_to_the_next_free_one(site, busy_port):
    with serve.make_server(site, busy_port) as server:
        assert busy_port < server.server_address[1] < busy_port + serve.PORTS_TRIED


def test_when_every_port_is_busy_it_says_which_and_what_to_do(site, busy_port, monkeypatch):
    monkeypatch.setattr(serve, "PORTS_TRIED", 1)
    with pytest.raises(serve.NoFreePortError) as refused:
        serve.make_server(site, busy_port)
    assert str(refused.value) == f"Port {busy_port} is in use. Name another one: serve --port 9000."


def test_the_command_says_that_it_took_another_port(root, site, busy_port):
    command = [sys.executable, "-u", "-m", "build_scripts.command_line", "serve", "--folder", str(site)]
    with subprocess.Popen(
        [*command, "--port", str(busy_port)], cwd=root, stdout=subprocess.PIPE, encoding="utf-8"
    ) as served:
        first, second = served.stdout.readline(), served.stdout.readline()
        served.terminate()
    assert first.startswith(f"Port {busy_port} is in use, so this is port ")
    taken = int(first.rstrip(".\n").rpartition(" ")[2])
    assert second == f"Serving {site} at http://127.0.0.1:{taken}/ to this computer only. Stop with Ctrl+C.\n"
