"""The list of all procedures, in the order of the menu."""

from __future__ import annotations

from collections.abc import Iterator

from build_scripts.addresses import PROCEDURES_INDEX
from build_scripts.fill_templates import fill
from build_scripts.read_handbook import Handbook


def write_procedures(handbook: Handbook) -> Iterator[tuple[str, str]]:
    """The path and the Markdown of the list."""
    groups = [
        {"title": group.title, "fronts": [handbook.procedures[key].front for key in group.pages]}
        for group in handbook.menu.procedures
    ]
    yield PROCEDURES_INDEX, fill("procedures_index.md", here=PROCEDURES_INDEX, groups=groups)
