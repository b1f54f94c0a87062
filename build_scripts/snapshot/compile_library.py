"""Runs in Pyodide: modules of its library, and the calculators, as one zip of compiled modules."""

from __future__ import annotations

import ast
import importlib.util
import io
import marshal
import sys
import zipfile
from collections.abc import Iterable, Iterator
from types import CodeType

# Where Pyodide puts the library, whatever is in it: what tracebacks name.
LIBRARY = f"/lib/python{sys.version_info.major}{sys.version_info.minor}.zip"
_ZIP_MOMENT = (1980, 1, 1, 0, 0, 0)
_WITHOUT_DOCSTRINGS = 2
# Modules of the library import these where they are there, and do without where not: other kinds of packing, and
# encrypted connections. Nothing here packs or connects.
_DONE_WITHOUT = ("bz2", "compression", "lzma", "ssl")
# PEP 552: named by the hash of its source, and used without looking for that source, which is not there.
_UNCHECKED = (1).to_bytes(4, "little")


def compile_library(modules: Iterable[str], calculators: str) -> bytes:
    """The named modules, as far as they come out of the library, and all calculators; the same bytes for the same.

    Stored, not packed: it is packed as a whole, which is smaller, and Python starts faster from it.
    """
    sources = dict(_from_library(modules)) | dict(_from_zip(calculators))
    content = io.BytesIO()
    with zipfile.ZipFile(content, "w", zipfile.ZIP_STORED) as zipped:
        for path in sorted(sources):
            entry = zipfile.ZipInfo(f"{path}c", _ZIP_MOMENT)
            entry.create_system, entry.external_attr = 3, 0o644 << 16
            zipped.writestr(entry, _compiled(path, sources[path]))
    return content.getvalue()


def _from_library(modules: Iterable[str]) -> Iterator[tuple[str, bytes]]:
    """Path inside the library, and source, of each module that came out of it."""
    for name in modules:
        if name.partition(".")[0] in _DONE_WITHOUT:
            continue
        spec = getattr(sys.modules[name], "__spec__", None)
        origin = getattr(spec, "origin", None) or ""
        if spec is not None and origin.startswith(f"{LIBRARY}/"):
            yield origin.removeprefix(f"{LIBRARY}/"), spec.loader.get_data(origin)


def _from_zip(file: str) -> Iterator[tuple[str, bytes]]:
    with zipfile.ZipFile(file) as zipped:
        for name in zipped.namelist():
            yield name, zipped.read(name)


def _compiled(path: str, source: bytes) -> bytes:
    tree = _without_types_of_functions(ast.parse(source))
    code = compile(tree, f"{LIBRARY}/{path}", "exec", dont_inherit=True, optimize=_WITHOUT_DOCSTRINGS)
    head = importlib.util.MAGIC_NUMBER + _UNCHECKED + importlib.util.source_hash(source)
    return head + marshal.dumps(_without_lines(code))


def _without_types_of_functions(tree: ast.Module) -> ast.Module:
    """The same program whose functions do not say what they take and return: nothing here reads that.

    What classes say of their fields stays: dataclasses and named tuples are made from it.
    """
    for node in ast.walk(tree):
        if isinstance(node, ast.arg):
            node.annotation = None
        elif isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            node.returns = None
    return tree


def _without_lines(code: CodeType) -> CodeType:
    """The same code not knowing its line numbers, which are a third of what the library weighs when packed."""
    inside = tuple(_without_lines(one) if isinstance(one, CodeType) else one for one in code.co_consts)
    # An entry of the table is a byte: that there is no line (0xF8), for how many instructions less one, at most seven.
    eights, rest = divmod(len(code.co_code) // 2, 8)
    nowhere = b"\xff" * eights + (bytes([0xF8 | (rest - 1)]) if rest else b"")
    return code.replace(co_linetable=nowhere, co_consts=inside)
