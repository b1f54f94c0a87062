"""The command `calc`: a calculator on the command line, through the same door as the page.

Takes `name=value` words, asks calculators.answer, and lays the answer out as text.
"""

from __future__ import annotations

import json
import re
import shutil
import textwrap
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from build_scripts.errors import nearest
from calculators import CALCULATORS, Calculator
from calculators.answer import answer
from calculators.contract import Example
from calculators.inputs import ChoiceInput, Field, NumberInput, fields_of
from calculators.limits import InForce, Standards
from calculators.units import UNITS, find_spelling, from_base, symbol

COMMAND = "python3 -m build_scripts calc"
WIDEST = 100

_HELD = "\u00a0"  # a space that lines are not broken at
_SYMBOLS = "|".join(re.escape(unit.symbol) for unit in UNITS.values() if unit.symbol)
_BEFORE_UNIT = re.compile(rf"(?<=\d) (?=(?:{_SYMBOLS})(?!\w))")


@dataclass(frozen=True)
class Asked:
    """One call of a calculator: which, for which day, and the entries by field as (text, unit)."""

    slug: str
    on: date
    entries: Mapping[str, tuple[str, str]]

    def as_json(self) -> str:
        """The request that calculators.answer reads."""
        inputs = {name: {"text": text, "unit": unit} for name, (text, unit) in self.entries.items()}
        return json.dumps({"calculator": self.slug, "date": self.on.isoformat(), "inputs": inputs}, ensure_ascii=False)


@dataclass(frozen=True)
class Printed:
    """What the command prints, and whether the entries could be used."""

    text: str
    usable: bool = True


class WrongEntriesError(ValueError):
    """Entries that cannot be used; carries one sentence for each."""

    def __init__(self, problems: Sequence[str]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(problems))


def run(slug: str, words: Sequence[str], standards: Standards, on: date, *, raw: bool) -> Printed:
    """What the command prints; WrongEntriesError carries what has to be mended first."""
    if raw and slug not in CALCULATORS:
        return Printed(answer(Asked(slug, on, {}).as_json(), standards), usable=False)
    calculator = find_calculator(slug)
    if not words and not raw:
        return Printed(describe(calculator, standards, on))
    in_force = standards.in_force(on)
    text = answer(Asked(slug, on, read_entries(calculator, words, in_force)).as_json(), standards)
    reply = json.loads(text)
    if raw:
        return Printed(text, usable="problems" not in reply)
    if "problems" in reply:
        raise WrongEntriesError(problem_sentences(reply, calculator, in_force))
    return Printed(as_text(reply))


def find_calculator(slug: str) -> Calculator:
    """The calculator of that name; WrongEntriesError offers the nearest names when there is none."""
    if slug not in CALCULATORS:
        raise WrongEntriesError([f"There is no calculator called {slug}. {nearest(slug, CALCULATORS)}"])
    return CALCULATORS[slug]


def list_calculators() -> str:
    """Every calculator with the question it answers."""
    widest = max(len(slug) for slug in CALCULATORS)
    lines = [_wrapped(f"{slug:<{widest}}  {one.question}", "", " " * (widest + 2)) for slug, one in CALCULATORS.items()]
    return "\n".join([*lines, "", f"What one of them asks for: {COMMAND} NAME"])


def describe(calculator: Calculator, standards: Standards, on: date) -> str:
    """What a calculator asks for and its worked example, computed now."""
    in_force = standards.in_force(on)
    lines = [calculator.title, _wrapped(calculator.question), "", _wrapped(calculator.purpose)]
    lines += [_wrapped(f"Does not tell: {calculator.does_not_tell}"), "", "Entries, typed as name=value"]
    group = ""
    for one in fields_of(calculator.inputs, in_force):
        if one.group != group:
            group = one.group
            lines += ["", f"  {group}"]
        lines += _field_lines(one)
    lines += ["", "A unit may be typed behind the number (“4.2 kohm”) or behind the name (name:unit=value)."]
    if calculator.examples:
        lines += ["", *_example_lines(calculator, standards, in_force, on)]
    return "\n".join(lines)


def read_entries(calculator: Calculator, words: Sequence[str], in_force: InForce) -> dict[str, tuple[str, str]]:
    """Split the words typed into entries by field; WrongEntriesError lists every word that cannot be split."""
    fields = {one.name: one for one in fields_of(calculator.inputs, in_force)}
    entries: dict[str, tuple[str, str]] = {}
    problems: list[str] = []
    for word in words:
        before, equals, text = word.partition("=")
        name, colon, unit = before.partition(":")
        if not equals or not name:
            problems.append(f"“{word}” is not an entry. Type it as name=value, such as {_sample(fields)}.")
        elif name in entries:
            problems.append(f"{name} is entered twice. Keep one of the two.")
        elif colon and isinstance(fields.get(name), ChoiceInput):
            problems.append(f"{name} is picked from a list and takes no unit. Type it as {name}=value.")
        else:
            entries[name] = (text, _unit_name(fields.get(name), unit))
    if problems:
        raise WrongEntriesError(problems)
    return entries


def problem_sentences(reply: Mapping[str, Any], calculator: Calculator, in_force: InForce) -> list[str]:
    """One sentence a problem, each naming its field."""
    names = [one.name for one in fields_of(calculator.inputs, in_force)]
    sentences = []
    for problem in reply["problems"]:
        name = problem["input"]
        if name and name not in names:
            sentences.append(f"{name} — there is no such field here. {nearest(name, names)}")
        else:
            sentences.append(f"{name} — {problem['message']}" if name else problem["message"])
    return sentences


def as_text(reply: Mapping[str, Any], *, with_limits: bool = True) -> str:
    """An answer laid out for reading: findings first, then results, working, notes and the limits used."""
    blocks: list[tuple[str, list[Iterator[str]]]] = [
        ("What it means", [_finding_lines(one, bool(reply["asks"])) for one in reply["findings"]]),
        ("Results", [_result_lines(one) for one in reply["results"]]),
        ("Working", [_step_lines(one) for one in reply["working"]]),
        ("Drawings, in words", [iter([_wrapped(one["words"], "  ")]) for one in reply["figures"]]),
        ("Notes", [iter([_wrapped(one, "  - ", "    ")]) for one in reply["notes"]]),
        ("Limits used", [_limit_lines(one) for one in reply["limits"] if with_limits]),
    ]
    lines = []
    for title, parts in blocks:
        if parts:
            lines += [title, *(line for part in parts for line in part), ""]
    return "\n".join([*lines, f"For {reply['date']}, handbook {reply['revision']}"])


def _field_lines(one: Field) -> list[str]:
    needed = f"default {one.default}" if one.default else "optional"
    if isinstance(one, ChoiceInput):
        head = f"  {one.name}  {one.label}; {needed}"
        choices = [
            _wrapped(f"{choice.value or '(empty)'}: {choice.label}", "      ", "        ") for choice in one.choices
        ]
        lines = [_wrapped(head, "", "      "), *choices]
    else:
        needed = "required" if one.required and not one.default else needed
        open_line = ", or OL for an open line" if one.open_line else ""
        head = f"  {one.name}  {one.label}; {_range(one)}{open_line}; {needed}"
        lines = [_wrapped(head, "", "      ")]
    return [*lines, _wrapped(one.help, "      ")] if one.help else lines


def _range(one: NumberInput) -> str:
    unit = one.units[0]
    least, most = sorted((from_base(one.least, unit), from_base(one.most, unit)))
    units = " or ".join(symbol(name) for name in one.units if symbol(name))
    mark = f" {symbol(unit)}" if symbol(unit) else ""
    return f"{least:g} to {most:g}{mark}" + (f" (in {units})" if len(one.units) > 1 else "")


def _unit_name(field: Field | None, typed: str) -> str:
    """The name of the unit that was meant; what cannot be recognised stays as typed, for the answer to refuse."""
    if not typed or not isinstance(field, NumberInput) or typed in field.units:
        return typed
    meant = find_spelling(typed, UNITS[field.units[0]].quantity)
    return meant.name if meant else typed


def _sample(fields: Mapping[str, Field]) -> str:
    return f"{next(iter(fields), 'name')}=4.2"


def _example_lines(calculator: Calculator, standards: Standards, in_force: InForce, on: date) -> Iterator[str]:
    first, *others = calculator.examples
    yield f"Worked example: {first.title}"
    yield f"  Source: {in_force.cite(first.source)}"
    yield f"  {_example_command(calculator, first)}"
    yield ""
    entries = {name: (typed.text, typed.unit) for name, typed in first.typed.items()}
    reply = json.loads(answer(Asked(calculator.slug, on, entries).as_json(), standards))
    if "problems" in reply:
        yield from problem_sentences(reply, calculator, in_force)
    else:
        yield textwrap.indent(as_text(reply, with_limits=False), "  ")
    if others:
        yield ""
        yield "More examples"
    for one in others:
        yield f"  {one.title}"
        yield f"    {_example_command(calculator, one)}"


def _example_command(calculator: Calculator, example: Example) -> str:
    words = [f"{name}{':' + typed.unit if typed.unit else ''}={typed.text}" for name, typed in example.typed.items()]
    return " ".join([COMMAND, calculator.slug, *(f'"{word}"' if " " in word else word for word in words)])


def _verdict_words(finding: Mapping[str, Any]) -> str:
    if not finding["stop"]:
        return str(finding["verdict"])
    return (
        "not passed (undecided), stop here" if finding["verdict"] == "undecided" else f"{finding['verdict']}, stop here"
    )


def _finding_lines(one: Mapping[str, Any], walking: bool) -> Iterator[str]:
    yield _wrapped(f"{_verdict_words(one)}: {one['sentence']}", "  ", "    ")
    if one["plain"]:
        yield _wrapped(one["plain"], "    ")
    if one["limit"]:
        limit = one["limit"]
        yield _wrapped(f"Limit {limit['text']} ({limit['basis']}): {limit['source']}", "    ", "      ")
    if one["decider"]:
        decider = one["decider"]
        parts = [decider[key] for key in ("reading", "resolution", "condition") if decider[key]]
        yield _wrapped(f"What would decide it: {'; '.join(parts)}", "    ", "      ")
        if decider["enter_in"] and decider["entry"]:
            entry = f"{decider['enter_in']}={decider['entry']}"
            example = f"Enter the answer with {decider['enter_in']}=…, for example {entry}."
            yield _wrapped(example if walking else f"Enter it with {entry}.", "      ")
    if one["next"]["text"]:
        procedure = f" (procedure {one['next']['procedure']})" if one["next"]["procedure"] else ""
        yield _wrapped(f"Next: {one['next']['text']}{procedure}", "    ", "      ")


def _result_lines(one: Mapping[str, Any]) -> Iterator[str]:
    band = f" ({one['band']})" if one["band"] else ""
    also = f"; the same: {', '.join(one['also'])}" if one["also"] else ""
    yield _wrapped(f"{one['label']}: {one['text']}{band}{also}", "  ", "    ")
    if one["plain"]:
        yield _wrapped(one["plain"], "    ")


def _step_lines(one: Mapping[str, Any]) -> Iterator[str]:
    yield _wrapped(one["label"], "  ")
    for text, lead in ((one["formula"], ""), (one["put_in"], ""), (one["result"], "= ")):
        if text:
            yield _wrapped(f"{lead}{text}", "    ", "      ")
    if one["source"]:
        yield _wrapped(f"Source: {one['source']}", "    ", "      ")


def _limit_lines(one: Mapping[str, Any]) -> Iterator[str]:
    yield _wrapped(f"{one['key']} {one['text']}: {one['meaning']}", "  ", "    ")
    facts = f"{one['basis']}, decided by {one['decided_by']}, in force from {one['in_force_from']}"
    yield _wrapped(f"{facts}, checked on {one['checked_on']}. {one['source']}", "    ")


def _wrapped(text: str, first: str = "", later: str | None = None) -> str:
    """Break text into lines, never between a number and its unit."""
    width = min(max(shutil.get_terminal_size((WIDEST, 24)).columns, 40), WIDEST)
    rest = first if later is None else later
    held = _BEFORE_UNIT.sub(_HELD, text)
    lines = textwrap.fill(held, width, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False)
    return lines.replace(_HELD, " ")
