"""Step two of a build: the assembled folder becomes HTML and a search index. The only module that knows MkDocs."""

from __future__ import annotations

import json
import logging
import os
import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort, MkDocsException

from build_scripts.calculator_fence import PAGES_VARIABLE
from build_scripts.errors import HandbookError, Mistake
from build_scripts.menu import menu
from build_scripts.read_handbook import Handbook


def render(handbook: Handbook, root: Path, pages: Path, html: Path) -> None:
    """Render the assembled pages into html by root/mkdocs.yml; every warning is a mistake, all of them told at once."""
    build_facts = json.loads((pages / "assets" / "data" / "build.json").read_text(encoding="utf-8"))
    with _fences_read(pages), _warnings_kept() as warnings:
        try:
            config = load_config(
                config_file=str(root / "mkdocs.yml"), docs_dir=str(pages), site_dir=str(html), nav=menu(handbook)
            )
            config.extra |= {"revision": build_facts["revision"], "built_on": build_facts["date"]}
            config.plugins.on_startup(command="build", dirty=False)
            build(config)
            config.plugins.on_shutdown()
        except (HandbookError, Abort, MkDocsException) as stopped:
            # What stopped it has been logged already, with the page; unless it stopped before there was one.
            if not warnings:
                warnings.append(str(stopped))
    if warnings:
        raise HandbookError(_as_mistake(warning, pages) for warning in warnings)


@contextmanager
def _fences_read(pages: Path) -> Iterator[None]:
    """Tell the calculator fence which assembled folder it is in."""
    before = os.environ.get(PAGES_VARIABLE)
    os.environ[PAGES_VARIABLE] = str(pages)
    try:
        yield
    finally:
        if before is None:
            del os.environ[PAGES_VARIABLE]
        else:
            os.environ[PAGES_VARIABLE] = before


class _Keeper(logging.Handler):
    """Keeps the text of every warning, so that a build can say all of them."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.kept: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.kept.append(record.getMessage())


@contextmanager
def _warnings_kept() -> Iterator[list[str]]:
    keeper = _Keeper()
    logger = logging.getLogger("mkdocs")
    level, propagated = logger.level, logger.propagate
    logger.addHandler(keeper)
    logger.setLevel(logging.WARNING)
    logger.propagate = False
    try:
        yield keeper.kept
    finally:
        logger.removeHandler(keeper)
        logger.setLevel(level)
        logger.propagate = propagated


def _as_mistake(warning: str, pages: Path) -> Mistake:
    """A warning of the generator at the page it names, when it names one."""
    named = re.search(r"'([^']+\.md)'", warning)
    file = pages / named[1] if named else pages
    return Mistake(file, 1, f"{warning.strip()} (said while the pages were rendered)")
