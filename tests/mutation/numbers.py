"""Finds every number that a calculator rests on, in Python and in the standards, and writes another one in its place."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

_DECIMAL = re.compile(r"-?[0-9]+(?:\.[0-9]+)?")
_NOT_VALUES = {"id", "label", "source", "unit", "family", "metal", "title"}
_SHAPES = {"line", "box", "circle", "words", "Drawing"}
SMALL = 10  # integers up to here count or point at something, and get one more


@dataclass(frozen=True)
class Number:
    """One number: where it stands, how it is written, and what it is for.

    place_in_file: the count of numbers before it in a Python file; the offset of its first byte in a standards file.
    owner: the functions and classes around it, or the name it is assigned to. function_line: the first line of the
    outermost function it runs in, None for what is computed on import. role: index, drawn, digits, declared, plain;
    limit, table or shop range in a standards file. key: the limit or table of a standards file.
    """

    path: str
    line: int
    place_in_file: int
    text: str
    owner: str
    role: str
    function_line: int | None = None
    key: str = ""

    @property
    def changed(self) -> str:
        """Another number in the same form."""
        if self.text.startswith(("'", '"')):
            return repr(_other(self.text[1:-1]))
        return _other(self.text)

    @property
    def described(self) -> str:
        """As it stands in the report."""
        return f"{self.path}:{self.line} {self.text} → {self.changed} ({self.owner}; {self.role})"

    def mutated(self, source: str) -> str:
        """The file with the other number in it."""
        if not self.path.endswith(".py"):
            before, after = source[: self.place_in_file], source[self.place_in_file :]
            return before + self.changed + after.removeprefix(self.text)
        tree = ast.parse(source)
        constant = next(node for place, (node, _) in enumerate(_constants(tree, ())) if place == self.place_in_file)
        constant.value = ast.literal_eval(self.changed)
        return ast.unparse(tree)


def _other(text: str) -> str:
    """One more for a small whole number, a tenth more for any other, never the same number."""
    if re.fullmatch(r"-?[0-9]+", text):
        number = int(text)
        return str(number + 1 if abs(number) <= SMALL else round(number * 1.1))
    value = float(text)
    return repr(float(f"{value * 1.1:.10g}")) if value else "1.0"


def numbers_in(root: Path, only: str = "") -> list[Number]:
    """Every number under calculators/ and handbook/standards/, or under one file or folder of them."""
    found: list[Number] = []
    for file in sorted((root / "calculators").rglob("*.py")):
        found += _numbers_of_python(file, file.relative_to(root).as_posix())
    for file in sorted((root / "handbook" / "standards").glob("*.yaml")):
        found += _numbers_of_standards(file, file.relative_to(root).as_posix())
    wanted = only.removesuffix("/")
    return [
        one for one in found if not wanted or one.path == wanted or one.path.startswith((wanted + "/", wanted + "."))
    ]


# --- Python -----------------------------------------------------------------------------------------


def _numbers_of_python(file: Path, path: str) -> Iterator[Number]:
    for place, (node, around) in enumerate(_constants(ast.parse(file.read_text(encoding="utf-8")), ())):
        functions = [one for one in around if isinstance(one, ast.FunctionDef | ast.AsyncFunctionDef)]
        line = min([functions[0].lineno, *(one.lineno for one in functions[0].decorator_list)]) if functions else None
        whole = isinstance(node.value, int)
        yield Number(path, node.lineno, place, repr(node.value), _owner(around), _role(path, around, whole), line)


def _constants(node: ast.AST, around: tuple[ast.AST, ...]) -> Iterator[tuple[ast.Constant, tuple[ast.AST, ...]]]:
    """Every number below a node, with what stands around it, outermost first; a string only where it is a default."""
    if isinstance(node, ast.Constant):
        number = isinstance(node.value, int | float) and not isinstance(node.value, bool)
        default = isinstance(node.value, str) and isinstance(around[-1], ast.keyword) and around[-1].arg == "default"
        if number or (default and _DECIMAL.fullmatch(str(node.value))):
            yield node, around
    for child in ast.iter_child_nodes(node):
        yield from _constants(child, (*around, node))


def _owner(around: tuple[ast.AST, ...]) -> str:
    names = []
    for one in around:
        if isinstance(one, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
            names.append(one.name)
        elif isinstance(one, ast.Assign | ast.AnnAssign) and not names:
            target = one.targets[0] if isinstance(one, ast.Assign) else one.target
            names.append(ast.unparse(target))
        elif isinstance(one, ast.Call):
            called = ast.unparse(one.func)
            first = one.args[0] if one.args else None
            if called.endswith("Input") and isinstance(first, ast.Constant):
                names.append(str(first.value))
    return ".".join(names) or "module"


def _role(path: str, around: tuple[ast.AST, ...], whole: bool) -> str:
    calls = [ast.unparse(one.func).split(".")[-1] for one in around if isinstance(one, ast.Call)]
    inner = [one for one in around if not isinstance(one, ast.UnaryOp)]
    if any(isinstance(one, ast.Subscript) for one in around[-2:]) and not isinstance(inner[-1], ast.Call):
        return "index"
    functions = [one.name for one in around if isinstance(one, ast.FunctionDef)]
    if "drawing" in path.rsplit("/", 1)[-1] or set(calls) & _SHAPES or any("figure" in one for one in functions):
        return "drawn"
    if whole and calls and calls[-1] in ("rounded", "quantity", "Result"):
        return "digits"
    if any(one.endswith("Input") for one in calls):
        return "declared"
    return "plain"


# --- standards --------------------------------------------------------------------------------------


def _numbers_of_standards(file: Path, path: str) -> Iterator[Number]:
    text = file.read_text(encoding="utf-8")
    root: Any = yaml.compose(text)
    for part, entries in _pairs(root):
        if part.value not in ("limits", "tables"):
            continue
        for key, entry in _pairs(entries):
            for name, scalar in _scalars(entry, ""):
                if _DECIMAL.fullmatch(scalar.value) and scalar.style is None and name not in _NOT_VALUES:
                    yield Number(
                        path,
                        scalar.start_mark.line + 1,
                        scalar.start_mark.index,
                        scalar.value,
                        f"{key.value} {name}",
                        "shop range" if name in ("least", "most") else part.value.removesuffix("s"),
                        key=key.value,
                    )


def _pairs(node: Any) -> list[tuple[Any, Any]]:
    return list(node.value)


def _scalars(node: Any, name: str) -> Iterator[tuple[str, Any]]:
    if isinstance(node, yaml.MappingNode):
        for key, value in node.value:
            yield from _scalars(value, key.value)
    elif isinstance(node, yaml.SequenceNode):
        for value in node.value:
            yield from _scalars(value, name)
    elif isinstance(node, yaml.ScalarNode):
        yield name, node
