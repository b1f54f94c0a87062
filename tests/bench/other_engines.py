"""Firefox and WebKitGTK for the benchmark, by the drivers of the browser tests."""

from __future__ import annotations

from contextlib import closing
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from build_scripts.engine_setup import Engine, why_missing
from tests.bench.start_ups import OpenBrowser
from tests.browser.engines.start_engine import start_engine


class NotDrivenError(Exception):
    """An engine cannot be driven here; the text says why, in one sentence."""


@dataclass(frozen=True)
class Driven:
    """An engine that can be driven here."""

    version: str
    keeps: bool
    open: OpenBrowser


def drive(wanted: Engine, folder: Path) -> Driven:
    """Start the browser once and end it, so that one that does not start is known before anything is measured."""
    if why := why_missing(wanted):
        raise NotDrivenError(why)
    try:
        with closing(start_engine(wanted, folder)) as browser:
            return Driven(browser.version, browser.keeps, partial(start_engine, wanted))
    except (AssertionError, OSError) as failed:
        raise NotDrivenError(f"{wanted.name} is not driven: it does not start here ({failed}).") from failed
