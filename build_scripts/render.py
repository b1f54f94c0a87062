"""Step two of a build: the assembled folder becomes HTML and a search index. The only module that knows MkDocs."""

from __future__ import annotations

import json
import logging
import os
import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from jinja2 import Environment, FileSystemBytecodeCache
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort, MkDocsException
from mkdocs.theme import Theme

from build_scripts.calculator_fence import PAGES_VARIABLE, SET_ASIDE_VARIABLE
from build_scripts.errors import HandbookError, Mistake
from build_scripts.finish_pages import finish_pages
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
            _keep_compiled_templates(config.theme, root / "build" / "templates")
            build(config)
            config.plugins.on_shutdown()
            finish_pages(html)
        except (HandbookError, Abort, MkDocsException) as stopped:
            # What stopped it has been logged already, with the page; unless it stopped before there was one.
            if not warnings:
                warnings.append(str(stopped))
    if warnings:
        raise HandbookError(_as_mistake(warning, pages) for warning in warnings)


@contextmanager
def _fences_read(pages: Path) -> Iterator[None]:
    """Tell the calculator fence which assembled folder it is in, and to set most of each calculator aside."""
    told = {PAGES_VARIABLE: str(pages), SET_ASIDE_VARIABLE: "yes"}
    before = {name: os.environ.get(name) for name in told}
    os.environ.update(told)
    try:
        yield
    finally:
        for name, value in before.items():
            if value is None:
                del os.environ[name]
            else:
                os.environ[name] = value


def _keep_compiled_templates(theme: Theme, folder: Path) -> None:
    """Compiling the theme's templates takes a good part of a small build, and they are the same each time."""
    make = theme.get_env
    folder.mkdir(parents=True, exist_ok=True)

    def get_env() -> Environment:
        environment = make()
        environment.bytecode_cache = FileSystemBytecodeCache(str(folder))
        return environment

    theme.get_env = get_env  # type: ignore[method-assign]


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
