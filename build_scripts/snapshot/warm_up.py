"""Runs in Pyodide: answers requests until the interpreter has settled, and then leaves nothing of them behind."""

from __future__ import annotations

import gc
import json
import linecache
import re
import sys
import traceback
import zipimport

from calculators.answer import answer
from calculators.limits import Standards

# From the second or third time on the interpreter runs its faster instructions, which a snapshot keeps.
_ROUNDS = 4


def answer_all(standards_text: str, requests_text: str) -> None:
    """Answer every request a few times, and fail once, so that all that answering and failing needs is imported."""
    standards = Standards.from_json(standards_text)
    for _ in range(_ROUNDS):
        for request in json.loads(requests_text):
            answer(request, standards)
    try:
        answer(requests_text, None)  # type: ignore[arg-type]
        json.loads("{")
    except ValueError as wrong:
        "".join(traceback.format_exception(wrong))


def modules_in_use() -> list[str]:
    """Every module that starting, answering and failing has imported by now."""
    return sorted(sys.modules)


def forget() -> None:
    """Drop what depends on this computer or on what was answered; a limit must come from the page, never from here."""
    for name in ("last_exc", "last_type", "last_value", "last_traceback"):
        if hasattr(sys, name):
            delattr(sys, name)
    # It says where in the library file each module lies. The page has another file, and every import that fails,
    # and every traceback, would look for source there.
    zipimport._zip_directory_cache.clear()  # type: ignore[attr-defined]
    sys.path_importer_cache.clear()
    linecache.clearcache()
    re.purge()
    sys._clear_internal_caches()  # type: ignore[attr-defined]
    gc.collect()
    gc.collect()
