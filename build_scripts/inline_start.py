"""Puts the script that starts Python early into the pages themselves, where no request has to come first.

In the rendered pages it is a script like any other, so that they work as they are; the packed site has its text in its
place. The text is the same in every page, and the policy names its checksum once.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

START_EARLY = "assets/scripts/start-early.js"


def inline_start(site: Path, names: Mapping[str, str]) -> None:
    """Replace the script in all pages of a site whose files have their names; no file of it is left behind."""
    if START_EARLY not in names:  # No page computes.
        return
    file = site / names[START_EARLY]
    text = file.read_text(encoding="utf-8").strip()
    if "</script" in text.lower():
        raise RuntimeError(f"{START_EARLY} cannot stand in a page: it holds an end of a script")
    tag = re.compile(rf'(<script data-[^>]*) src="[^"]*{re.escape(file.name)}"></script>')
    for page in site.rglob("*.html"):
        before = page.read_text(encoding="utf-8")
        after = tag.sub(lambda found: f"{found[1]}>{text}</script>", before, count=1)
        if file.name in after:
            raise RuntimeError(f"{page} names {START_EARLY} in a way that this module does not know")
        if after != before:
            page.write_text(after, encoding="utf-8", newline="\n")
    file.unlink()
