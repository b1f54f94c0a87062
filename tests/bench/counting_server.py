"""Serves a site as the project's own command does, and counts the bytes that leave for each request."""

from __future__ import annotations

import functools
import threading
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from build_scripts.serve import HOST, SiteHandler
from tests.stoppable_server import StoppableServer


@dataclass(frozen=True)
class Sent:
    """One answer: for which path, and how many bytes with its head."""

    path: str
    size: int


class _Handler(SiteHandler):
    """Writes through a counter, and hands on what each request took."""

    def __init__(self, *arguments: Any, note: Callable[[Sent], None], **more: Any) -> None:
        self._note = note
        super().__init__(*arguments, **more)

    def setup(self) -> None:
        super().setup()
        self._written = 0
        write = self.wfile.write

        def count(data: Any) -> int:
            self._written += len(data)
            return write(data)

        self.wfile.write = count  # type: ignore[method-assign]

    def handle_one_request(self) -> None:
        before, self.path = self._written, ""
        super().handle_one_request()
        if self._written > before:
            self._note(Sent(self.path, self._written - before))


class CountingServer:
    """One site at one address, which it keeps when it is stopped and started again."""

    def __init__(self, folder: Path) -> None:
        self.sent: list[Sent] = []
        self._handler = functools.partial(_Handler, directory=str(folder), note=self.sent.append)
        self._server: StoppableServer | None = None
        self._port = 0
        self.start()

    @property
    def address(self) -> str:
        """What a browser opens."""
        return f"http://{HOST}:{self._port}"

    def start(self) -> None:
        """Serve; again at the same address."""
        self._server = StoppableServer((HOST, self._port), self._handler)
        self._port = self._server.server_address[1]
        # It looks ten times a second whether it is to stop.
        threading.Thread(target=self._server.serve_forever, args=(0.1,), daemon=True).start()

    def stop(self) -> None:
        """Go away, as a network does in a basement."""
        if self._server is not None:
            self._server.shutdown()
            self._server.server_close()
            self._server = None

    def bytes_sent(self) -> int:
        """All bytes since this was last asked."""
        total = sum(one.size for one in self.sent)
        self.sent.clear()
        return total
