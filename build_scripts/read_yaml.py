"""YAML with line numbers, duplicate keys refused, and no surprises.

Dates stay text, and so do the words yes, no, on and off: only true and false are yes and no.
Where a file breaks, the mistake names the line; where a value breaks a record, so does the mistake of its key.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypeVar

import yaml
from pydantic import BaseModel, ValidationError

from build_scripts.errors import Mistake, nearest

Record = TypeVar("Record", bound=BaseModel)
KeyPath = tuple[str | int, ...]


@dataclass
class Lines:
    """Which line each key of a file stands on, by its path of keys and list positions."""

    first: int
    of: dict[KeyPath, int] = field(default_factory=dict)

    def at(self, path: KeyPath) -> int:
        """The line of the key, or of the nearest key above it."""
        for length in range(len(path), 0, -1):
            if path[:length] in self.of:
                return self.of[path[:length]]
        return self.first


@dataclass(frozen=True)
class Place:
    """Where an entry stands: its file, the lines of that file, and the path of keys to the entry."""

    file: Path
    lines: Lines
    path: KeyPath

    def mistake(self, what: str, *below: str | int) -> Mistake:
        """A mistake at a key below the entry."""
        return Mistake(self.file, self.lines.at((*self.path, *below)), what)


# The parser in C reads the same language many times faster; it is missing from some builds of the library.
_SafeLoader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class _Loader(_SafeLoader):  # type: ignore[misc]
    """A safe loader that knows only text, whole numbers, decimals, true, false and null."""


_Loader.yaml_implicit_resolvers = {}
for _tag, _pattern, _first in (
    ("bool", r"true|false", "tf"),
    ("null", r"null|~|", ["n", "~", ""]),
    ("int", r"[-+]?(?:0|[1-9][0-9]*)", "-+0123456789"),
    ("float", r"[-+]?(?:[0-9]+\.[0-9]*|\.[0-9]+|[0-9]+(?:\.[0-9]*)?[eE][-+]?[0-9]+)", "-+.0123456789"),
    ("merge", r"<<", "<"),
):
    _Loader.add_implicit_resolver(f"tag:yaml.org,2002:{_tag}", re.compile(rf"^(?:{_pattern})$"), list(_first))


def read_file(file: Path) -> tuple[str, list[Mistake]]:
    """The text of a file that people write, or why it cannot be read (then the text is empty)."""
    try:
        return file.read_text(encoding="utf-8-sig"), []
    except FileNotFoundError:
        return "", [Mistake(file, 1, "this file is missing. Write it, or put it back from the last revision.")]
    except UnicodeDecodeError as broken:
        line = file.read_bytes()[: broken.start].count(b"\n") + 1
        what = "a letter on this line is not saved as UTF-8. Save the file as UTF-8 in your editor."
        return "", [Mistake(file, line, what)]


def read_yaml(text: str, file: Path, first_line: int = 1) -> tuple[Any, Lines, list[Mistake]]:
    """The data of a YAML text, the line of each key, and what is wrong with it (then the data is None)."""
    lines = Lines(first_line)
    loader = _Loader(text)
    try:
        node = loader.get_single_node()
        if node is None:
            return None, lines, []
        twice = _note_lines(node, (), lines, first_line, file)
        return (None, lines, twice) if twice else (loader.construct_document(node), lines, [])
    except yaml.MarkedYAMLError as broken:
        mark = broken.problem_mark
        line = first_line + (mark.line if mark else 0)
        return None, lines, [_unreadable(file, line, broken.problem or broken.context or "it ends too early")]
    except yaml.YAMLError as broken:
        return None, lines, [_unreadable(file, first_line, str(broken).splitlines()[0])]
    finally:
        loader.dispose()


def _unreadable(file: Path, line: int, why: str) -> Mistake:
    what = f"this is not YAML that can be read: {why}. Check indentation, colons and quotes on this line."
    return Mistake(file, line, what)


def _note_lines(node: yaml.Node, path: KeyPath, lines: Lines, first: int, file: Path) -> list[Mistake]:
    """Note the line of every key below the node; returns the keys that are given twice."""
    twice: list[Mistake] = []
    if isinstance(node, yaml.MappingNode):
        for key_node, value_node in node.value:
            here = (*path, str(key_node.value))
            line = first + key_node.start_mark.line
            if here in lines.of:
                what = f"{key_node.value}: this key is given twice, first on line {lines.of[here]}. Keep one of them."
                twice.append(Mistake(file, line, what))
                continue
            lines.of[here] = line
            twice += _note_lines(value_node, here, lines, first, file)
    elif isinstance(node, yaml.SequenceNode):
        for position, item in enumerate(node.value):
            lines.of[(*path, position)] = first + item.start_mark.line
            twice += _note_lines(item, (*path, position), lines, first, file)
    return twice


def to_record(kind: type[Record], data: Any, file: Path, lines: Lines, path: KeyPath = ()) -> Record | list[Mistake]:
    """Check data against a record; every broken key becomes a mistake on its own line."""
    try:
        return kind.model_validate(data)
    except ValidationError as broken:
        return [
            Mistake(file, lines.at((*path, *error["loc"])), _sentence(kind, error, path)) for error in broken.errors()
        ]


def to_records(
    kind: type[Record], data: Any, file: Path, lines: Lines, mistakes: list[Mistake], path: KeyPath = ()
) -> dict[str, Record]:
    """A mapping of records by key; what cannot be read is added to the mistakes."""
    if data is None:
        return {}
    if not isinstance(data, dict):
        mistakes.append(Mistake(file, lines.first, "this file has to be a list of keys, each with its own entry."))
        return {}
    records: dict[str, Record] = {}
    for key, entry in data.items():
        record = to_record(kind, entry, file, lines, (*path, str(key)))
        if isinstance(record, list):
            mistakes += record
        else:
            records[str(key)] = record
    return records


# What each kind of broken value asks for, in the words of the person who mends it.
_ASKED = {
    "string_type": "write text here",
    "list_type": "write a list here, such as [one, two]",
    "tuple_type": "write a list here, such as [one, two]",
    "dict_type": "write keys with their values here",
    "model_type": "write keys with their values here",
    "float_type": "write a number here, without quotes",
    "int_type": "write a whole number here, without quotes",
    "int_from_float": "write a whole number here",
    "bool_type": "write true or false here",
    "finite_number": "write a finite number here",
}


def _sentence(kind: type[BaseModel], error: Any, path: KeyPath = ()) -> str:
    place = (*path, *error["loc"])
    key = ".".join(str(part) for part in place) or "the entry"
    if error["type"] == "extra_forbidden":
        return f"{key}: there is no such key here. {nearest(str(error['loc'][-1]), _fields(kind, error['loc'][:-1]))}"
    if error["type"] == "missing":
        return f"{key}: this key is missing. Add a line “{error['loc'][-1]}: …”."
    if error["type"] == "literal_error":
        return f"{key}: {error['ctx']['expected']} is allowed here, not {_found(error['input'])}."
    if error["type"] == "too_short":
        return f"{key}: this list is empty. Write at least {error['ctx']['min_length']} entry."
    if error["type"] == "string_too_short":
        return f"{key}: this needs at least {error['ctx']['min_length']} letters (found {_found(error['input'])})."
    message = str(error["msg"]).removeprefix("Value error, ")
    asked = _ASKED.get(error["type"], message[:1].lower() + message[1:].rstrip("."))
    return f"{key}: {asked} (found {_found(error['input'])})."


def _found(value: Any) -> str:
    if value is None:
        return "nothing"
    text = str(value)
    return f"“{text[:60]}…”" if len(text) > 60 else f"“{text}”"


def _fields(kind: type[BaseModel], path: KeyPath) -> list[str]:
    """The keys that are allowed at a path inside a record."""
    here: Any = kind
    for part in path:
        if isinstance(here, type) and issubclass(here, BaseModel) and part in here.model_fields:
            here = here.model_fields[str(part)].annotation
        else:
            here = next(iter(getattr(here, "__args__", ())[-1:]), None)
    return list(here.model_fields) if isinstance(here, type) and issubclass(here, BaseModel) else []
