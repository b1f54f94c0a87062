"""Fills the Markdown templates; text that people wrote goes in through the filter `plain`, so that it stays text."""

from __future__ import annotations

import json
import os
import re
from functools import lru_cache
from pathlib import Path
from typing import Any

from jinja2 import BytecodeCache, Environment, FileSystemBytecodeCache, PackageLoader, StrictUndefined

from build_scripts.addresses import HAZARDS_PAGE, INSTRUMENTS_PAGE, LIMITS_PAGE, SOURCES_PAGE, relative, table_page
from build_scripts.link_terms import anchor
from build_scripts.records import LEVEL_NAMES, LEVELS

_SPECIAL = re.compile(r"([\\`*_{}\[\]])")
_EMPTY_LINES = re.compile(r"\n{3,}")


def plain(text: str) -> str:
    r"""Text as Markdown that shows exactly that text.

    >>> plain("R_lead < 0.5 & *not* |x|")
    'R\\_lead &lt; 0.5 &amp; \\*not\\* &#124;x&#124;'
    """
    escaped = _SPECIAL.sub(r"\\\1", text.replace("&", "&amp;"))
    return escaped.replace("<", "&lt;").replace("|", "&#124;")


def lower_first(text: str) -> str:
    """A sentence made fit to stand inside another; words such as R600a or CAT keep their letters."""
    return text[:1].lower() + text[1:] if text[1:2].islower() or text[1:2] == " " else text


def fill(template: str, **values: Any) -> str:
    """A template with its values, without runs of empty lines."""
    text = _environment().get_template(template).render(**values)
    return _EMPTY_LINES.sub("\n\n", text).strip() + "\n"


def kept_compiled() -> BytecodeCache | None:
    """Templates are kept compiled as modules are, in a folder beside them, where that may be written."""
    folder = Path(__file__).parent / "templates" / "__pycache__"
    try:
        folder.mkdir(exist_ok=True)
    except OSError:
        return None
    return FileSystemBytecodeCache(str(folder)) if os.access(folder, os.W_OK) else None


@lru_cache(maxsize=1)
def _environment() -> Environment:
    environment = Environment(
        loader=PackageLoader("build_scripts", "templates"),
        autoescape=False,  # these are Markdown; what people wrote is escaped by `plain`
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        bytecode_cache=kept_compiled(),
    )
    environment.filters |= {
        "plain": plain,
        "lower_first": lower_first,
        "quoted": lambda text: json.dumps(text, ensure_ascii=False),
        "to": relative,
        "term_anchor": anchor,
    }
    environment.globals |= {
        "LEVELS": LEVELS,
        "LEVEL_NAMES": LEVEL_NAMES,
        "hazard_page": HAZARDS_PAGE,
        "instrument_page": INSTRUMENTS_PAGE,
        "limits_page": LIMITS_PAGE,
        "sources_page": SOURCES_PAGE,
        "table_page": table_page,
    }
    return environment
