"""Starts the browser of an engine, with the programs that are here."""

from __future__ import annotations

from pathlib import Path

from build_scripts.engine_setup import FIREFOX, find_programs
from build_scripts.engine_setup import Engine as Wanted
from tests.browser.engines.engine import Engine
from tests.browser.engines.firefox import Firefox
from tests.browser.engines.webkit import Programs, WebKit


def start_engine(wanted: Wanted, profile: Path) -> Engine:
    """A new process; where the engine keeps what it has, it keeps it in this folder."""
    programs = find_programs(wanted)
    if wanted is FIREFOX:
        return Firefox(programs["browser"], profile)
    return WebKit(Programs(**programs), profile)
