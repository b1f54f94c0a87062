"""Writes the handbook page that says what each calculator was checked against, read from the tests themselves.

    python tests/list_checks.py            says whether the page is up to date (exit code 1 when it is not)
    python tests/list_checks.py --write    writes it

A check is a test marked `@pytest.mark.source("key", ...)` with keys of handbook/sources.yaml, in a file named
test_<calculator>*.py. Its name, read as a sentence, says what was compared.
"""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))

from build_scripts.read_standards import read_standards  # noqa: E402
from calculators import CALCULATORS  # noqa: E402
from calculators.limits import Source, Standards  # noqa: E402

PAGE = ROOT / "handbook" / "reference" / "checks.md"
ALSO_CHECKS = {"test_conductors": "voltage-drop", "test_decisions": "next-check"}
HEAD = """---
id: checks
title: What the calculators were checked against
kind: reference
summary: For every calculator the checks that its arithmetic has to pass, with where each expected value comes from and which are from memory.
also_called: [checks, verification, tests, referee, proof of the arithmetic, how do you know, sources of the checks]
revision: 1
effective: 2026-11-25
review_by: 2028-11-25
approved_by: technical approver
---

This page is written from the tests that every build has to pass.
An expected value is typed from its source with the digits printed there; the handbook never computes it.
“From memory” means that nobody has read the source again for this handbook: look it up before you rely on it.
A fact of the trade has no publication, and is named as one.
"""


@dataclass(frozen=True)
class Check:
    """One test against something outside the project."""

    calculator: str
    sentence: str
    sources: tuple[str, ...]


def checks_in(folder: Path = ROOT / "tests" / "calculators") -> list[Check]:
    """Every marked test, in the order of the files."""
    return [one for file in sorted(folder.glob("test_*.py")) for one in _checks_of(file)]


def _checks_of(file: Path) -> Iterator[Check]:
    slug = calculator_of(file.stem)
    for node in ast.parse(file.read_text(encoding="utf-8")).body:
        if isinstance(node, ast.FunctionDef):
            keys = tuple(key for one in node.decorator_list for key in _source_keys(one))
            if keys and slug:
                yield Check(slug, _sentence(node.name), keys)


def calculator_of(stem: str) -> str | None:
    """The calculator that a test file is about: the longest slug that its name begins with."""
    if stem in ALSO_CHECKS:
        return ALSO_CHECKS[stem]
    fitting = [slug for slug in CALCULATORS if stem.startswith("test_" + slug.replace("-", "_"))]
    return max(fitting, key=len, default=None)


def _source_keys(decorator: ast.expr) -> list[str]:
    if isinstance(decorator, ast.Call) and ast.unparse(decorator.func) == "pytest.mark.source":
        return [str(ast.literal_eval(one)) for one in decorator.args]
    return []


def _sentence(name: str) -> str:
    words = re.sub(r"(?<=\d) (?=\d)", ".", name.removeprefix("test_").replace("_", " "))
    words = re.sub(r"\b(?:awg|astm|iec|nec|ptc|b258|pf|lra)\b", lambda found: found[0].upper(), words)
    return words[0].upper() + words[1:]


def page_text(checks: list[Check], sources: dict[str, Source]) -> str:
    """The whole page."""
    parts = [HEAD]
    for slug, calculator in CALCULATORS.items():
        mine = [one for one in checks if one.calculator == slug]
        parts.append(f"\n## {calculator.title}\n\n{_counted(mine, sources)}\n")
        parts.append("\n| Check | Where the expected value comes from |\n|---|---|\n")
        parts += [f"| {one.sentence} | {'; '.join(_cited(sources[key]) for key in one.sources)} |\n" for one in mine]
    return "".join(parts)


def _cited(source: Source) -> str:
    return f"{{source:{source.key}}}"


def _counted(checks: list[Check], sources: dict[str, Source]) -> str:
    seen = [[sources[key].seen for key in one.sources] for one in checks]
    published = sum(any(how in ("paper", "secondary") for how in one) for one in seen)
    memory = sum("memory" in one and not set(one) & {"paper", "secondary"} for one in seen)
    rest = len(seen) - published - memory
    return (
        f"Opens with {{calculator:{checks[0].calculator}}}. Checks: {len(seen)}; {published} against something that was read, "
        f"{memory} from memory, {rest} by facts of the trade, arithmetic or an independent program."
        if checks
        else "No checks are listed."
    )


def main(arguments: list[str]) -> int:
    """Write the page, or say whether it is up to date."""
    standards = Standards.from_json(read_standards(ROOT / "handbook").as_json("checks"))
    text = page_text(checks_in(), dict(standards.sources))
    if "--write" in arguments:
        PAGE.write_text(text, encoding="utf-8", newline="\n")
        return 0
    if PAGE.read_text(encoding="utf-8") == text:
        return 0
    print(f"{PAGE.relative_to(ROOT)} is not what the tests say. Run: python tests/list_checks.py --write")
    return 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
