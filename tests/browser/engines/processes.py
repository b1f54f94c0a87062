"""Programs that a test starts, each in a group of its own, so that nothing is left when the test is over."""

from __future__ import annotations

import contextlib
import os
import signal
import subprocess
from collections.abc import Mapping, Sequence
from pathlib import Path

# A browser has this long to end by itself before it is made to.
GRACE = 15.0


def start(
    command: Sequence[str | Path], *, log: Path, environment: Mapping[str, str], **more: object
) -> subprocess.Popen:
    """Start a program; what it says goes to a file, where somebody may look when a test fails."""
    with log.open("ab") as file:
        return subprocess.Popen(
            [str(word) for word in command],
            stdin=subprocess.DEVNULL,
            stdout=file,
            stderr=file,
            env=dict(environment),
            start_new_session=True,
            **more,
        )


def end(program: subprocess.Popen, *, grace: float = GRACE) -> None:
    """Wait for a program that has been told to end, then end what is left of its group."""
    with contextlib.suppress(subprocess.TimeoutExpired):
        program.wait(grace)
    with contextlib.suppress(ProcessLookupError):
        os.killpg(program.pid, signal.SIGKILL)
    program.wait()
