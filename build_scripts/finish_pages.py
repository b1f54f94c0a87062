"""Finishes rendered pages: puts back what calculators have set aside, and drops white space that no browser shows.

A calculator is most of its page: a site generator would parse it, look for words in it and copy it about, all for
nothing. The theme, too, leaves as much white space between its tags as a page has text.
"""

from __future__ import annotations

import re
from functools import lru_cache
from pathlib import Path

from build_scripts.calculator_fence import SET_ASIDE, set_aside_part

# In these, white space is shown or is part of a program.
_KEPT_AS_IT_IS = re.compile(r"(<(pre|textarea|script|style)\b.*?</\2>)", re.DOTALL)
_LINE_ENDS = re.compile(r"\n\s+")


def finish_pages(html: Path) -> None:
    """Finish every page of a folder."""
    put_back = lru_cache(maxsize=None)(_put_back)
    for file in html.rglob("*.html"):
        text = squeeze(file.read_text(encoding="utf-8"))
        whole = SET_ASIDE.sub(lambda comment: put_back(comment[0]), text)
        file.write_text(whole, encoding="utf-8", newline="\n")


def squeeze(text: str) -> str:
    r"""One line end for every run of white space that has one.

    >>> squeeze("<p>\n\n   one\n  two</p><pre>\n  kept</pre>")
    '<p>\none\ntwo</p><pre>\n  kept</pre>'
    """
    pieces = _KEPT_AS_IT_IS.split(text)
    # Behind each piece to be kept comes the name of its element once more, because the expression names it.
    kept = {place: piece for place, piece in enumerate(pieces) if place % 3 == 1}
    return "".join(kept.get(place, _LINE_ENDS.sub("\n", piece)) for place, piece in enumerate(pieces) if place % 3 < 2)


def _put_back(comment: str) -> str:
    found = SET_ASIDE.fullmatch(comment)
    assert found is not None
    return squeeze(set_aside_part(found))
