"""YAML with line numbers, duplicate keys refused, and no surprises: dates stay text, so does everything quoted.

Where a file breaks, the mistake names the line; where a value breaks a record, so does the mistake of its key.
"""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypeVar

import yaml
from pydantic import BaseModel, ValidationError

from build_scripts.errors import Mistake, nearest

Record = TypeVar("Record", bound=BaseModel)


@dataclass
class Lines:
    """Which line each key of a file stands on, by its path of keys and list positions."""

    first: int
    of: dict[tuple[str | int, ...], int] = field(default_factory=dict)

    def at(self, path: tuple[str | int, ...]) -> int:
        """The line of the key, or of the nearest key above it."""
        for length in range(len(path), 0, -1):
            if path[:length] in self.of:
                return self.of[path[:length]]
        return self.first


class _Loader(yaml.SafeLoader):
    """SafeLoader that refuses a key given twice and leaves dates as text."""

    yaml_implicit_resolvers = {  # noqa: RUF012 - the shape PyYAML gives it
        first: [(tag, pattern) for tag, pattern in rows if tag != "tag:yaml.org,2002:timestamp"]
        for first, rows in yaml.SafeLoader.yaml_implicit_resolvers.items()
    }

    def construct_mapping(self, node: yaml.MappingNode, deep: bool = False) -> dict[Hashable, Any]:
        """Build one mapping, unless a key stands in it twice."""
        seen: set[Any] = set()
        for key_node, _ in node.value:
            key = self.construct_object(key_node, deep=True)
            if not isinstance(key, Hashable):
                raise yaml.constructor.ConstructorError(None, None, "a key must be one word", key_node.start_mark)
            if key in seen:
                raise yaml.constructor.ConstructorError(
                    None, None, f"the key {key} is given twice", key_node.start_mark
                )
            seen.add(key)
        return super().construct_mapping(node, deep)


def read_yaml(text: str, file: Path, first_line: int = 1) -> tuple[Any, Lines, list[Mistake]]:
    """The data of a YAML text, the line of each key, and what is wrong with it (then the data is None)."""
    lines = Lines(first_line)
    try:
        node = yaml.compose(text, Loader=_Loader)
        data = yaml.load(text, Loader=_Loader)
    except yaml.MarkedYAMLError as broken:
        mark = broken.problem_mark
        line = first_line + (mark.line if mark else 0)
        return (
            None,
            lines,
            [
                Mistake(
                    file,
                    line,
                    f"this is not YAML that can be read: {broken.problem}. "
                    f"Check indentation, colons and quotes on this line.",
                )
            ],
        )
    if node is not None:
        _note_lines(node, (), lines, first_line)
    return data, lines, []


def _note_lines(node: yaml.Node, path: tuple[str | int, ...], lines: Lines, first: int) -> None:
    if isinstance(node, yaml.MappingNode):
        for key_node, value_node in node.value:
            here = (*path, str(key_node.value))
            lines.of[here] = first + key_node.start_mark.line
            _note_lines(value_node, here, lines, first)
    elif isinstance(node, yaml.SequenceNode):
        for position, item in enumerate(node.value):
            lines.of[(*path, position)] = first + item.start_mark.line
            _note_lines(item, (*path, position), lines, first)


def to_record(
    kind: type[Record], data: Any, file: Path, lines: Lines, path: tuple[str | int, ...] = ()
) -> Record | list[Mistake]:
    """Check data against a record; every broken key becomes a mistake on its own line."""
    try:
        return kind.model_validate(data)
    except ValidationError as broken:
        return [Mistake(file, lines.at((*path, *error["loc"])), _sentence(kind, error)) for error in broken.errors()]


def _sentence(kind: type[BaseModel], error: Any) -> str:
    key = ".".join(str(part) for part in error["loc"]) or "the entry"
    if error["type"] == "extra_forbidden":
        return f"{key}: there is no such key here. {nearest(str(error['loc'][-1]), kind.model_fields)}"
    if error["type"] == "missing":
        return f"{key}: this key is missing. Add a line “{error['loc'][-1]}: …”."
    message = str(error["msg"]).removeprefix("Value error, ")
    return f"{key}: {message[:1].lower()}{message[1:]} (found {error['input']!r})."
