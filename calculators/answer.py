"""The one door: JSON text in, JSON text out. The page, the build and the command line all use it.

In:  {"calculator": slug, "date": "2026-01-31", "inputs": {name: {"text": "4.2", "unit": "ohm"}}}
Out: {"calculator": slug, "problems": [{"input", "message"}]}   when something must be mended first, else
     {"calculator", "date", "revision", "results", "findings", "working", "figures", "notes", "asks", "limits"}.

Whatever the text, an answer comes back; a reader never meets a traceback.
"""

from __future__ import annotations

import difflib
import json
from collections.abc import Mapping
from datetime import date
from typing import Any

from calculators import CALCULATORS
from calculators.contract import Calculator, Outcome
from calculators.findings import Finding
from calculators.inputs import Problem, RefusedError, Typed, understand
from calculators.limits import InForce, Limit, NothingInForceError, Standards


def answer(request: str, standards: Standards) -> str:
    """Answer one request. Both are JSON text; the answer has sorted, stable content for the same input."""
    asked = _read(request)
    if isinstance(asked, Problem):
        return _dump({"calculator": "", "problems": [_problem(asked)]})
    slug, on, typed = asked
    calculator = CALCULATORS.get(slug)
    if calculator is None:
        return _dump({"calculator": slug, "problems": [_problem(_unknown(slug))]})
    reply: dict[str, Any] = {"calculator": slug, "date": on.isoformat(), "revision": standards.revision}
    outcome = evaluate(calculator, typed, standards.in_force(on))
    if isinstance(outcome, Outcome):
        return _dump(reply | outcome_as_json(outcome, calculator, standards.in_force(on)))
    return _dump(reply | {"problems": [_problem(one) for one in outcome]})


def evaluate(calculator: Calculator, typed: Mapping[str, Typed], standards: InForce) -> Outcome | list[Problem]:
    """Run one calculator on what was typed: its outcome, or the problems, one sentence each."""
    try:
        entered = understand(calculator.inputs, typed, standards)
        return entered if isinstance(entered, list) else calculator.evaluate(entered, standards)
    except RefusedError as refused:
        return list(refused.problems)
    except NothingInForceError as gap:
        return [Problem("", str(gap))]


def outcome_as_json(outcome: Outcome, calculator: Calculator, standards: InForce) -> dict[str, Any]:
    """An outcome as plain data, every number already text, every source already cited."""
    return {
        "results": [one.as_json() for one in outcome.results],
        "findings": [_finding(one) for one in outcome.findings],
        "working": [
            {
                "label": step.label,
                "formula": step.formula,
                "put_in": step.put_in,
                "result": step.result,
                "source": standards.cite(step.source),
            }
            for step in outcome.working
        ],
        "figures": [{"name": one.name, "svg": one.svg, "alt": one.alt, "words": one.words} for one in outcome.figures],
        "notes": list(outcome.notes),
        "asks": list(outcome.asks),
        "limits": [_limit(standards.limit(key)) for key in calculator.limits],
    }


def _read(request: str) -> tuple[str, date, dict[str, Typed]] | Problem:
    try:
        data = json.loads(request)
        slug = str(data["calculator"])
        on = date.fromisoformat(str(data["date"]))
        typed = {
            str(name): Typed(str(entry.get("text", "")), str(entry.get("unit", "")))
            for name, entry in data.get("inputs", {}).items()
        }
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return Problem(
            "",
            "The request could not be read. It needs a calculator, a date such as 2026-01-31, "
            "and inputs with a text each.",
        )
    return slug, on, typed


def _unknown(slug: str) -> Problem:
    near = difflib.get_close_matches(slug, CALCULATORS)
    hint = f" Did you mean {' or '.join(near)}?" if near else ""
    return Problem(
        "calculator", f"There is no calculator called {slug[:40]}.{hint} They are: {', '.join(CALCULATORS)}."
    )


def _problem(one: Problem) -> dict[str, str]:
    return {"input": one.input, "message": one.message}


def _limit(one: Limit) -> dict[str, Any]:
    return {
        "key": one.key,
        "text": one.text,
        "meaning": one.meaning,
        "basis": one.basis,
        "source": one.source.text,
        "in_force_from": one.in_force_from,
        "checked_on": one.checked_on,
        "decided_by": one.decided_by,
    }


def _finding(one: Finding) -> dict[str, Any]:
    decider = one.decider
    return {
        "name": one.name,
        "verdict": one.verdict.value,
        "stop": one.stop,
        "sentence": one.sentence,
        "plain": one.plain,
        "next": {"text": one.next_step.text, "procedure": one.next_step.procedure or ""},
        "limit": _limit(one.limit) if one.limit else None,
        "decider": None
        if decider is None
        else {
            "reading": decider.reading,
            "resolution": decider.resolution,
            "condition": decider.condition,
            "enter_in": decider.enter_in or "",
            "entry": decider.entry or "",
        },
    }


def _dump(data: Mapping[str, Any]) -> str:
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))
