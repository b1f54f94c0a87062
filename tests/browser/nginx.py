"""A real nginx for tests, on 127.0.0.1 alone, with the file that a site ships for it and nothing of the system's own."""

from __future__ import annotations

import socket
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

PATIENCE = 20.0
_TEMPORARY = ("client_body", "proxy", "fastcgi", "uwsgi", "scgi")


@contextmanager
def nginx_serving(program: Path, work: Path, server: str) -> Iterator[str]:
    """Run nginx with one server of this text, and give its address; what nginx said is told when it does not start."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    folders = "".join(f"{name}_temp_path {work}/{name};\n" for name in _TEMPORARY)
    settings, said = work / "nginx.conf", work / "error.log"
    settings.write_text(
        f"daemon off; master_process off; pid {work}/pid; error_log {said};\nevents {{}}\n"
        f"http {{\naccess_log off;\n{folders}server {{\nlisten 127.0.0.1:{port};\n{server}\n}}\n}}\n",
        encoding="utf-8",
    )
    command = [str(program), "-p", str(work), "-c", str(settings), "-e", str(said)]
    running = subprocess.Popen(command, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        _wait_for(port, running, said)
        yield f"http://127.0.0.1:{port}"
    finally:
        running.terminate()
        running.wait(PATIENCE)


def _wait_for(port: int, running: subprocess.Popen[bytes], said: Path) -> None:
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end and running.poll() is None:
        with socket.socket() as asked:
            if asked.connect_ex(("127.0.0.1", port)) == 0:
                return
        time.sleep(0.05)
    raise RuntimeError(f"nginx did not start: {said.read_text(encoding='utf-8', errors='replace')}")
