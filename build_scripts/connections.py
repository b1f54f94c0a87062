"""How start gear is wired: reads handbook/connections.yaml, and finds in a list of parts what a drawing and words need.

A list is a net: points joined by wires are one point, and every other part stands between two points.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from pydantic import Field, model_validator

from build_scripts.errors import Mistake
from build_scripts.read_lists import read_list
from build_scripts.records import Line, Strict, Word

Kind = Literal[
    "wire",
    "control",
    "overload",
    "relay-coil",
    "contact-closes",
    "contact-opens",
    "ptc",
    "start-capacitor",
    "run-capacitor",
    "bleed-resistor",
]

# What a part is called in a picture and in words.
PART_NAMES: dict[str, str] = {
    "control": "control",
    "overload": "overload",
    "relay-coil": "relay coil",
    "contact-closes": "relay contact (closes to start)",
    "contact-opens": "relay contact (closed at rest)",
    "ptc": "PTC",
    "start-capacitor": "start capacitor",
    "run-capacitor": "run capacitor",
    "bleed-resistor": "bleed resistor",
}
POINTS = ("L", "N", "PE", "C", "R", "S", "shell")

BLEED = "bleed-resistor"


class Connection(Strict):
    """One way of wiring: its name, how it starts the motor, and its parts as kind, from, to."""

    title: Line
    also: list[Word] = Field(default_factory=list)
    starts: Line
    parts: list[tuple[Kind, Word, Word]] = Field(min_length=1)

    @model_validator(mode="after")
    def _every_point_is_there(self) -> Connection:
        named = {point for _, *ends in self.parts for point in ends}
        missing = [point for point in POINTS if point not in named]
        if missing:
            raise ValueError(f"parts never reach {', '.join(missing)}; each of {', '.join(POINTS)} has to be joined")
        loose = [point for point in sorted(named - set(POINTS)) if sum(point in ends for _, *ends in self.parts) < 2]
        if loose:
            raise ValueError(f"parts leave {', '.join(loose)} with one end only; join the other end, or take it out")
        rows_of(Net.of(self.parts))
        return self


@dataclass(frozen=True)
class Part:
    """A part between two points; points that wires join have one name. shown: the points as the list writes them."""

    kind: str
    ends: tuple[str, str]
    shown: tuple[str, str]

    def other(self, point: str) -> str:
        """The end that is not this one."""
        return self.ends[1] if self.ends[0] == point else self.ends[0]


@dataclass(frozen=True)
class Net:
    """The parts of a list with its wires melted away; joined: each point, and the name of all that wires join to it."""

    parts: tuple[Part, ...]
    joined: Mapping[str, str]

    @classmethod
    def of(cls, parts: Iterable[tuple[str, str, str]]) -> Net:
        """From the lines of a list."""
        listed = list(parts)
        points = list(dict.fromkeys(point for _, *ends in listed for point in ends))
        name = {point: point for point in points}
        for kind, one, other in listed:
            if kind == "wire":
                kept, gone = sorted((name[one], name[other]), key=lambda each: (each not in POINTS, points.index(each)))
                name = {point: kept if now == gone else now for point, now in name.items()}
        return cls(
            tuple(Part(kind, (name[one], name[other]), (one, other)) for kind, one, other in listed if kind != "wire"),
            name,
        )

    def between(self, one: str, other: str) -> tuple[Part, ...]:
        """The parts right between two points."""
        ends = {self.joined[one], self.joined[other]}
        return tuple(part for part in self.parts if set(part.ends) == ends)

    def bled(self, part: Part) -> bool:
        """Whether a bleed resistor stands across a part."""
        return any(one.kind == BLEED and set(one.ends) == set(part.ends) for one in self.parts)

    def row(self, start: str, first: Part) -> tuple[tuple[Part, ...], str]:
        """The parts one after the other from a point, begun with a part, and the named point where they end."""
        named = {self.joined[point] for point in POINTS}
        found, here = [first], first.other(self.joined[start])
        while here not in named:
            onward = [one for one in self.parts if here in one.ends and one not in found and one.kind != BLEED]
            if len(onward) != 1:
                raise ValueError(f"at {here} a row of parts forks or stops; join two parts there, no more and no fewer")
            found.append(onward[0])
            here = onward[0].other(here)
        return tuple(found), here


@dataclass(frozen=True)
class Rows:
    """A net as it is drawn and read: in the line, in the neutral, from the neutral's side to S, and across C and S."""

    line: tuple[Part, ...]
    neutral: tuple[Part, ...]
    branches: tuple[tuple[Part, ...], ...]
    across: tuple[Part, ...]


def rows_of(net: Net) -> Rows:
    """The rows of a net; ValueError, in words, for one that does not come down to such rows."""
    begun = [part for part in net.parts if net.joined["L"] in part.ends]
    if len(begun) != 1:
        raise ValueError("one part, and no more, has to stand at L")
    line, end = net.row("L", begun[0])
    neutral = net.between("N", "R") if net.joined["N"] != net.joined["R"] else ()
    branches, across = [], net.between("S", "C")
    for part in net.parts:
        if net.joined["S"] in part.ends and part.kind != BLEED and part not in across:
            row, back = net.row("S", part)
            if back != net.joined["N"]:
                raise ValueError(
                    f"a row from S ends at {back}; it has to end at N, or at the point that is joined to N"
                )
            branches.append(row[::-1])
    placed = [*line, *neutral, *across, *(part for row in branches for part in row)]
    left = [part for part in net.parts if part not in placed and part.kind != BLEED]
    if end != net.joined["C"] or left:
        which = " and ".join(PART_NAMES[part.kind] for part in left) or "the line"
        raise ValueError(f"{which} cannot be drawn; the line has to end at C, and the rest to feed S or R")
    return Rows(line, neutral, tuple(branches), across)


def in_words(connection: Connection) -> list[str]:
    """The list as a reader would say it over the telephone, one row a line."""
    net = Net.of(connection.parts)
    rows = rows_of(net)
    said = [_row("L", rows.line, "C"), _row("N", rows.neutral, "R")]
    for row in rows.branches:
        said.append(_row("R" if net.joined["N"] == net.joined["R"] else "N", row, "S"))
        said += [f"across the {PART_NAMES[part.kind]}: bleed resistor" for part in row if net.bled(part)]
    said += [_row("S", [part], "C") for part in rows.across]
    return [*said, "PE — compressor shell"]


def _row(start: str, parts: Iterable[Part], end: str) -> str:
    return " — ".join([start, *(PART_NAMES[part.kind] for part in parts), end])


def read_connections(handbook: Path, mistakes: list[Mistake]) -> dict[str, Connection]:
    """The ways of wiring, in the order of the file; none when the handbook has no such file."""
    file = handbook / "connections.yaml"
    return read_list(Connection, file, mistakes) if file.exists() else {}
