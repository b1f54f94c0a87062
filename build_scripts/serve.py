"""Serves a built site to this computer alone, with the headers that the site asks of any other host."""

from __future__ import annotations

import errno
import functools
import io
import os
import sys
from collections.abc import Callable
from http import HTTPStatus
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any, BinaryIO
from urllib.parse import urlsplit

from build_scripts.write_headers import ALWAYS, POLICY, cache_rule, type_of

HOST = "127.0.0.1"
PORTS_TRIED = 50


class NoFreePortError(Exception):
    """Neither the port asked for nor those after it could be had; the text says which and what to do."""


class SiteHandler(SimpleHTTPRequestHandler):
    """Hands out files only: no listings, and the headers that write_headers makes for this site."""

    protocol_version = "HTTP/1.1"

    def list_directory(self, path: str | os.PathLike[str]) -> None:
        """Answer for a folder without a page of its own as a static host does: there is nothing."""
        self.send_error(HTTPStatus.NOT_FOUND, "There is no page here")

    def guess_type(self, path: str | os.PathLike[str]) -> str:
        """The type that the site's own table gives, whatever this computer's table says."""
        return type_of(str(path))

    def send_head(self) -> io.BytesIO | BinaryIO | None:
        """Say "not changed" of the very file that the browser has, and not of an older one that was put back."""
        path = Path(self.translate_path(self.path))
        file = path / "index.html" if path.is_dir() else path
        if file.is_file() and self.headers["If-Modified-Since"] != self.date_time_string(file.stat().st_mtime):
            del self.headers["If-Modified-Since"]
        return super().send_head()

    def send_response(self, code: int, message: str | None = None) -> None:
        """Begin an answer, and remember how it ends: only what is there may be kept."""
        self.is_there = code < HTTPStatus.BAD_REQUEST
        super().send_response(code, message)

    def end_headers(self) -> None:
        """Send what the file for other hosts makes them send."""
        headers = dict(ALWAYS)
        if self.is_there:
            headers["Cache-Control"] = cache_rule(urlsplit(self.path).path)
        policy = Path(self.directory) / POLICY
        if policy.is_file():
            headers["Content-Security-Policy"] = policy.read_text(encoding="utf-8").strip()
        for name, value in headers.items():
            self.send_header(name, value)
        super().end_headers()

    def log_message(self, format: str, *args: Any) -> None:
        """Keep quiet: what was asked for is seen in the browser."""


class SiteServer(ThreadingHTTPServer):
    """The server; on Windows a port in use would otherwise be shared without a word."""

    allow_reuse_address = os.name != "nt"

    def handle_error(self, request: Any, client_address: Any) -> None:
        """Say nothing of a browser that went away in the middle of a file; that is no mistake."""
        if not isinstance(sys.exception(), ConnectionError):
            super().handle_error(request, client_address)


def make_server(folder: Path, port: int) -> SiteServer:
    """A server for the folder on the port, or on the next free one after it; 0 takes any free port."""
    handler = functools.partial(SiteHandler, directory=str(folder))
    last = min(port + PORTS_TRIED - 1, 65535)
    for candidate in range(port, last + 1):
        try:
            return SiteServer((HOST, candidate), handler)
        except OSError as refused:
            if refused.errno not in (errno.EADDRINUSE, errno.EACCES):
                raise
    busy = f"Port {port} is in use" if port == last else f"The ports {port} to {last} are all in use"
    raise NoFreePortError(f"{busy}. Name another one: serve --port 9000.")


def serve(folder: Path, port: int, say: Callable[[str], None]) -> None:
    """Serve until the person stops it."""
    with make_server(folder, port) as server:
        taken = server.server_address[1]
        if port not in (0, taken):
            say(f"Port {port} is in use, so this is port {taken}.")
        say(f"Serving {folder} at http://{HOST}:{taken}/ to this computer only. Stop with Ctrl+C.")
        try:
            server.serve_forever()
        except KeyboardInterrupt:
            say("Stopped.")
