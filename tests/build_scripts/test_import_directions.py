"""Imports run one way: build_scripts, then calculators, then the standard library."""

from __future__ import annotations

import ast
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
# What runs before anything is installed, and what it uses.
BARE = ("__init__", "__main__", "environment", "exit_codes")


def imported(file: Path) -> set[str]:
    """The full name of everything a module imports, wherever in it."""
    names: set[str] = set()
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {one.name for one in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{file.name} imports by a relative name"
            names |= {f"{node.module}.{one.name}" for one in node.names}
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name | ast.Attribute):
            called = node.func.id if isinstance(node.func, ast.Name) else node.func.attr
            assert called not in ("__import__", "import_module"), f"{file.name} imports by a name made at run time"
    return names


def packages(file: Path) -> set[str]:
    return {name.partition(".")[0] for name in imported(file)}


@pytest.mark.parametrize("file", sorted((ROOT / "calculators").rglob("*.py")), ids=lambda file: file.stem)
def test_calculators_use_the_standard_library_and_each_other(file):
    assert packages(file) <= sys.stdlib_module_names | {"calculators"}


@pytest.mark.parametrize("name", BARE)
def test_what_makes_the_environment_needs_nothing_installed(name):
    names = imported(ROOT / "build_scripts" / f"{name}.py")
    own = {one for one in names if one.startswith("build_scripts.")}
    assert {one.split(".")[1] for one in own} <= set(BARE)
    assert {one.partition(".")[0] for one in names - own} <= sys.stdlib_module_names


def test_one_module_knows_the_site_generator():
    users = {file.name for file in (ROOT / "build_scripts").rglob("*.py") if "mkdocs" in packages(file)}
    assert users == {"render.py"}


@pytest.mark.parametrize("file", sorted((ROOT / "calculators").rglob("*.py")), ids=lambda file: file.stem)
def test_calculators_know_no_clock_no_files_and_no_network(file):
    shut = {"datetime.datetime", "io", "os", "pathlib", "random", "socket", "subprocess", "time", "urllib"}
    found = imported(file)
    assert not {name for name in found if name in shut or name.partition(".")[0] in shut}
    calls = {
        f"{node.value.id}.{node.attr}"
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8")))
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name)
    }
    assert "date.today" not in calls


def test_the_handbook_holds_no_python():
    assert not list((ROOT / "handbook").rglob("*.py"))
