"""A server that is gone once it is closed, as the network is in a basement."""

from __future__ import annotations

import socket
from contextlib import suppress
from typing import Any

from build_scripts.serve import SiteServer


class StoppableServer(SiteServer):
    """Serves as the project's own command does, and answers nobody any more after it was closed."""

    def __init__(self, *arguments: Any, **more: Any) -> None:
        self._connections: list[socket.socket] = []
        super().__init__(*arguments, **more)

    def get_request(self) -> tuple[socket.socket, Any]:
        connection, client = super().get_request()
        self._connections.append(connection)
        return connection, client

    def server_close(self) -> None:
        super().server_close()
        for connection in self._connections:  # Otherwise one that a browser keeps open goes on being answered.
            with suppress(OSError):
                connection.shutdown(socket.SHUT_RDWR)
