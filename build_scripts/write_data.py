"""The data that the page carries: standards, procedures and the build, as JSON files."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date

from build_scripts.read_handbook import Handbook

DATA_FOLDER = "assets/data"


def write_data(handbook: Handbook, on: date) -> Iterator[tuple[str, str]]:
    """The path and the text of every data file."""
    procedures = {
        key: {"title": page.front.title, "level": page.procedure.level}
        for key, page in handbook.procedures.items()
        if page.procedure
    }
    yield f"{DATA_FOLDER}/standards.json", handbook.standards_json()
    yield f"{DATA_FOLDER}/procedures.json", _dump(procedures)
    yield f"{DATA_FOLDER}/build.json", _dump({"date": on.isoformat(), "revision": handbook.revision})


def _dump(data: object) -> str:
    return json.dumps(data, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
