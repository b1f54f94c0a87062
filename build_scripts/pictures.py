"""Every picture that a page may show by name, drawn at build time, each with the words that say the same.

`{picture:clamp}` on a line of its own becomes the figure. The wiring of handbook/connections.yaml is there as
`wiring-` and its key, and with the overload inside the shell as `wiring-`, its key and `-overload-inside`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from html import escape

from build_scripts.connections import Connection, in_words
from build_scripts.draw_connections import connection_svg
from build_scripts.draw_tools import clamp_svg, discharge_tool_svg, pins_in_words, pins_svg

_CLAMP = (
    "Two clamps on a cord. One stands around the line conductor alone, split away from neutral and earth, and shows "
    "the amps. One stands around the whole cord and shows about nothing."
)
_TOOL = (
    "The discharge tool: a resistor between two insulated probes, held across the two terminals of the capacitor, "
    "while a dc voltmeter across the same terminals is watched."
)


@dataclass(frozen=True)
class Picture:
    """A drawing, and its lines of words."""

    svg: str
    rows: tuple[str, ...]

    @property
    def html(self) -> str:
        """The figure as a block of HTML on one line."""
        said = "".join(f"<li>{escape(row)}</li>" for row in self.rows)
        return (
            f'<figure class="drawing-figure page-picture">{self.svg}<figcaption><ul>{said}</ul></figcaption></figure>'
        )


def pictures_of(connections: Mapping[str, Connection]) -> dict[str, Picture]:
    """The pictures by name."""
    above, below = (f"Six faces of three pins, {pins_in_words(single_above=one)}" for one in (True, False))
    found = {
        "clamp": Picture(clamp_svg(_CLAMP), (_CLAMP,)),
        "discharge-tool": Picture(discharge_tool_svg(_TOOL), (_TOOL,)),
        "pins-single-above": Picture(pins_svg(above, single_above=True), (above,)),
        "pins-single-below": Picture(pins_svg(below, single_above=False), (below,)),
    }
    for key, one in connections.items():
        rows = tuple(in_words(one))
        inside = tuple(row.replace(" — overload — ", " — overload inside the shell, behind ") for row in rows)
        found[f"wiring-{key}"] = Picture(connection_svg(one), rows)
        found[f"wiring-{key}-overload-inside"] = Picture(connection_svg(one, overload_inside=True), inside)
    return found
