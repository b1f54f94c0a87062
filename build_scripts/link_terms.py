r"""Links the first mention of each word of the glossary in a page's prose to what it means, which a pointer also shows.

Headings, tables, code, links, marks and HTML keep their text as it is.

>>> Terms({"RCD": "It trips."}).link("An RCD here, an RCD there, and a `RCD`.", "g.md")
'An [RCD](g.md#term-rcd "It trips."){: .term } here, an RCD there, and a `RCD`.'
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from build_scripts.marks import with_fences

# What is passed over: code, HTML, marks and attributes, links and step marks, a gate's rest of line is prose again.
_KEPT = r"`[^`]*`|<[^>]*>|\{[^}]*\}|!?\[[^\]]*\](?:\([^)]*\))?"
_NOT_PROSE = re.compile(r"\s*(?:#|\||<)")


def anchor(word: str) -> str:
    """Where a word stands on the page of the glossary.

    >>> anchor("MIN/MAX")
    'term-min-max'
    """
    return f"term-{re.sub(r'[^a-z0-9]+', '-', word.casefold()).strip('-')}"


@dataclass(frozen=True)
class Terms:
    """The words that are linked, with their meanings."""

    meanings: Mapping[str, str]

    @cached_property
    def _pattern(self) -> re.Pattern[str]:
        """What is kept, or one of the words; the longest that fits wins."""
        words = sorted(self.meanings, key=lambda word: (-len(word), word))
        any_word = "|".join(re.escape(word) for word in words)
        return re.compile(rf"(?P<kept>{_KEPT})|(?<![\w-])(?P<word>{any_word})(?![\w-])", re.IGNORECASE)

    @cached_property
    def _by_folded(self) -> dict[str, str]:
        return {word.casefold(): word for word in self.meanings}

    def link(self, text: str, page: str) -> str:
        """The text with the first mention of each word linked to the page of the glossary."""
        if not self.meanings:
            return text
        seen: set[str] = set()

        def replace(found: re.Match[str]) -> str:
            word = self._by_folded.get((found["word"] or "").casefold())
            if word is None or word in seen or (word.isupper() and found["word"] != word):
                return found[0]
            seen.add(word)
            meaning = self.meanings[word].replace('"', "”")
            return f'[{found[0]}]({page}#{anchor(word)} "{meaning}"){{: .term }}'

        return "\n".join(
            line if inside or _NOT_PROSE.match(line) else self._pattern.sub(replace, line)
            for line, inside in with_fences(text)
        )
