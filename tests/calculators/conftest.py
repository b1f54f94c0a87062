"""Standards read from the handbook itself, and a way to ask a calculator as the page does."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from build_scripts.read_standards import read_standards
from calculators.answer import answer
from calculators.limits import Standards

ROOT = Path(__file__).resolve().parents[2]
Ask = Callable[..., dict[str, Any]]


@pytest.fixture(scope="session")
def standards() -> Standards:
    """Every limit, table and source of the handbook."""
    return Standards.from_json(read_standards(ROOT / "handbook").as_json("test"))


@pytest.fixture(scope="session")
def ask(standards: Standards) -> Ask:
    """Ask a calculator: ask(slug, field="4.2", other=("12", "kilohm")) gives the parsed answer."""

    def ask_one(slug: str, date: str = "2026-11-25", **typed: str | tuple[str, str]) -> dict[str, Any]:
        inputs = {
            name: {"text": value} if isinstance(value, str) else {"text": value[0], "unit": value[1]}
            for name, value in typed.items()
        }
        request = json.dumps({"calculator": slug, "date": date, "inputs": inputs})
        reply: dict[str, Any] = json.loads(answer(request, standards))
        return reply

    return ask_one
