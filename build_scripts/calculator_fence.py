"""Turns a ```calculator fence into the calculator: its form, and worked examples with their answers and limits.

The fence holds the calculator's name. It brings the first of its worked examples and a link to the page of the
calculator; a second line, `every example`, brings all of them, and that is how the page of the calculator has them.

Plain Python-Markdown with PyMdown: name `calculator_fence` as a custom fence of pymdownx.superfences in any site
generator that runs them. The examples are computed while the page is made, by the same Python that answers in the page,
so that the page says something true before any script has run.

Where the variable THREEPIN_SET_ASIDE is set, the parts of a calculator that search leaves out stay behind, a comment
in the place of each: the build has them put into the finished pages, because they are most of a page and no site
generator needs to read them (finish_pages.py).

It reads assets/data/standards.json, procedures.json and build.json below the folder that the environment variable
THREEPIN_PAGES names, build/pages when it is not set.
"""

from __future__ import annotations

import json
import os
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from itertools import count
from pathlib import Path
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from pymdownx.superfences import SuperFencesException

from build_scripts.errors import HandbookError, Mistake, nearest
from build_scripts.fill_templates import kept_compiled
from build_scripts.records import LEVEL_NAMES
from calculators import CALCULATORS
from calculators.answer import answer
from calculators.contract import Calculator, Example
from calculators.decisions import CANNOT_TELL, Answer, field_of
from calculators.inputs import ChoiceInput, DecisionInput, Field, MeterInput, NumberInput, fields_of
from calculators.limits import InForce, Standards
from calculators.units import UNITS, symbol

PAGES_VARIABLE = "THREEPIN_PAGES"
DEFAULT_PAGES = "build/pages"
EVERY_EXAMPLE = "every example"
SET_ASIDE_VARIABLE = "THREEPIN_SET_ASIDE"

# What the template puts around each worked example behind the first, and around what stands in their place.
_FURTHER = re.compile(r"<!-- further -->\n.*?<!-- /further -->\n", re.DOTALL)
_INSTEAD = re.compile(r"<!-- instead -->\n.*?<!-- /instead -->\n", re.DOTALL)
_THEIR_MARKS = re.compile(r"<!-- /?(?:further|instead) -->\n")
# What it puts around each part that search leaves out, and what stands for such a part that stays behind.
_ASIDE = re.compile(r"<!-- aside -->\n(.*?)\n<!-- /aside -->", re.DOTALL)
SET_ASIDE = re.compile(r"<!-- set aside: (?P<slug>[a-z0-9-]+), (?P<wish>[a-z ]*), (?P<part>[0-9]+) -->")


class FenceError(HandbookError, SuperFencesException):
    """A calculator fence that cannot be built. SuperFences swallows every other kind of exception."""

    def __init__(self, what: str) -> None:
        super().__init__([Mistake(Path("calculator fence"), 1, what)])


@dataclass(frozen=True)
class PageData:
    """What the assembled folder says about limits, procedures and the day of the build."""

    standards: Standards
    procedures: Mapping[str, Mapping[str, str]]
    on: date
    revision: str


@dataclass(frozen=True)
class FieldGroup:
    """Fields that stand together under one heading; no heading for the first ones that name none.

    A later group in which nothing has to be typed is folded, so that on a phone the result stays near the readings.
    """

    title: str
    parts: tuple[FormPart, ...]
    first: bool = False

    @property
    def folds(self) -> bool:
        """Whether the group is folded until somebody opens it."""
        fields = [field for part in self.parts if part.meter is None for field in part.fields]
        needed = any(isinstance(field, NumberInput) and field.required and not field.default for field in fields)
        return bool(self.title and fields) and not self.first and not needed


@dataclass(frozen=True)
class FormPart:
    """One field, or one meter with its three small fields."""

    fields: tuple[Field, ...]
    meter: MeterInput | None = None

    @property
    def meter_words(self) -> str:
        """A meter's accuracy limit in one line: ±(0.5 % + 2 counts), resolution 0.1 Ω."""
        if self.meter is None:
            return ""
        percent, counts, resolution = (str(field.default) for field in self.fields)
        return f"±({percent} % + {counts} counts), resolution {resolution} {symbol(self.meter.unit)}".rstrip()


def calculator_fence(
    source: str, language: str, css_class: str, options: Mapping[str, Any], md: Any, **kwargs: Any
) -> str:
    """The HTML of one calculator, by its slug in the fence."""
    slug, _, wish = source.strip().partition("\n")
    if slug not in CALCULATORS:
        raise FenceError(f"there is no calculator called “{slug[:60]}”. {nearest(slug, CALCULATORS)}")
    if wish not in ("", EVERY_EXAMPLE):
        raise FenceError(f"“{wish[:60]}” says nothing here. Under {slug} may stand “{EVERY_EXAMPLE}”, or nothing.")
    made = _without_aside if os.environ.get(SET_ASIDE_VARIABLE) else _whole
    return made(slug, wish, *_page_files())


@lru_cache(maxsize=4 * len(CALCULATORS))
def _without_aside(slug: str, wish: str, folder: Path, stamp: tuple[int, ...]) -> str:
    numbers = count()
    rendered = _rendered(slug, wish, folder, stamp)
    return _ASIDE.sub(lambda _: f"<!-- set aside: {slug}, {wish}, {next(numbers)} -->", rendered)


def _whole(slug: str, wish: str, folder: Path, stamp: tuple[int, ...]) -> str:
    return _ASIDE.sub(r"\1", _rendered(slug, wish, folder, stamp))


def set_aside_part(comment: re.Match[str]) -> str:
    """The part of a calculator in whose place the comment stands."""
    parts: list[str] = _ASIDE.findall(_rendered(comment["slug"], comment["wish"], *_page_files()))
    return parts[int(comment["part"])]


@lru_cache(maxsize=4 * len(CALCULATORS))
def _rendered(slug: str, wish: str, folder: Path, stamp: tuple[int, ...]) -> str:
    left_out = _INSTEAD if wish == EVERY_EXAMPLE else _FURTHER
    return _THEIR_MARKS.sub("", left_out.sub("", _with_every_part(slug, folder, stamp)))


@lru_cache(maxsize=2 * len(CALCULATORS))
def _with_every_part(slug: str, folder: Path, stamp: tuple[int, ...]) -> str:
    """The same calculator stands on many pages, and its examples take time to work out."""
    return _fill_template(CALCULATORS[slug], _read_page_data(folder, stamp))


def render_calculator(calculator: Calculator, data: PageData) -> str:
    """The HTML of one calculator with its worked examples computed on the day the data names."""
    every_example = _INSTEAD.sub("", _fill_template(calculator, data))
    return _ASIDE.sub(r"\1", _THEIR_MARKS.sub("", every_example))


def _fill_template(calculator: Calculator, data: PageData) -> str:
    """The same and what stands in procedures, with marks around each part that is not wanted everywhere."""
    standards = data.standards.in_force(data.on)
    fields = {field.name: field for field in fields_of(calculator.inputs, standards)}
    examples = [
        {
            "example": example,
            "entered": _entered(example, fields),
            "source": standards.cite(example.source),
            "outcome": _worked(calculator, example, data),
        }
        for example in calculator.examples
    ]
    template = _templates().get_template("calculator.html")
    page = template.render(
        calculator=calculator,
        groups=_groups(calculator, standards),
        fields=fields,
        examples=examples,
        asks=_asked_first(calculator, data),
        walk=_walk(calculator, standards),
        procedures=data.procedures,
        on=data.on.isoformat(),
        revision=data.revision,
    )
    return "\n".join(line for line in page.splitlines() if line.strip())


def _groups(calculator: Calculator, standards: InForce) -> list[FieldGroup]:
    by_title: dict[str, list[FormPart]] = {}
    for declared in calculator.inputs:
        flat = tuple(fields_of((declared,), standards))
        meter = declared if isinstance(declared, MeterInput) else None
        by_title.setdefault(declared.group, []).append(FormPart(flat, meter))
    return [FieldGroup(title, tuple(parts), not place) for place, (title, parts) in enumerate(by_title.items())]


def _asked_first(calculator: Calculator, data: PageData) -> list[str]:
    """The fields that are asked before anything is entered; empty when all of them always are."""
    request = {"calculator": calculator.slug, "date": data.on.isoformat(), "inputs": {}}
    asks: list[str] = json.loads(answer(json.dumps(request), data.standards)).get("asks", [])
    return asks


@dataclass(frozen=True)
class AskedOf:
    """Who answers the field of a decision map, and the pages that say how."""

    level: str
    procedures: tuple[str, ...]


@dataclass(frozen=True)
class ListedWay:
    """An answer in the list of the whole map: its words, and the entry of the list that it leads to."""

    label: str
    leads_to: str
    title: str


def _walk(calculator: Calculator, standards: InForce) -> dict[str, Any] | None:
    """What the template tells of a decision map: who answers each field, and the whole map as a list."""
    decisions = standards.decisions
    if not any(isinstance(one, DecisionInput) for one in calculator.inputs) or not decisions.questions:
        return None

    def way(one: Answer) -> ListedWay:
        led = decisions.questions.get(one.leads_to)
        title = standards.said(led.question) if led else decisions.conclusions[one.leads_to].title
        return ListedWay(standards.said(one.label), one.leads_to, title)

    return {
        "asked_of": {
            field_of(one.id, visit): AskedOf(one.level, one.procedures)
            for one in decisions.questions.values()
            for visit in range(1, decisions.visits(one.id) + 1)
        },
        "stop_question": decisions.stop_question,
        "reasons": [way(Answer(one.id, one.label, one.leads_to)) for one in decisions.reasons],
        "questions": [
            {
                "id": one.id,
                "question": standards.said(one.question),
                "how": standards.said(one.how),
                "asked_of": AskedOf(one.level, one.procedures),
                "ways": [way(answer) for answer in one.answers if answer.id != CANNOT_TELL],
                "cannot_tell": way(one.answer(CANNOT_TELL)),
            }
            for one in decisions.questions.values()
        ],
        "findings": [
            {"id": one.id, "title": one.title, "evidence": [standards.said(line) for line in one.evidence]}
            for one in decisions.conclusions.values()
        ],
    }


def _entered(example: Example, fields: Mapping[str, Field]) -> list[dict[str, str]]:
    """What an example types, field by field, and how it is said in the page."""
    listed = []
    for name, typed in example.typed.items():
        field = fields[name]
        shown = typed.text
        if isinstance(field, ChoiceInput):
            shown = next((choice.label for choice in field.choices if choice.value == typed.text), typed.text)
        elif not any(letter.isalpha() for letter in typed.text):
            shown = f"{typed.text} {symbol(typed.unit or field.units[0])}".rstrip()
        listed.append(
            {"name": name, "label": field.label, "text": typed.text, "unit": typed.unit, "shown": shown or "left empty"}
        )
    return listed


def _worked(calculator: Calculator, example: Example, data: PageData) -> dict[str, Any]:
    typed = {name: {"text": entry.text, "unit": entry.unit} for name, entry in example.typed.items()}
    request = {"calculator": calculator.slug, "date": data.on.isoformat(), "inputs": typed}
    outcome: dict[str, Any] = json.loads(answer(json.dumps(request), data.standards))
    if "problems" in outcome:
        sentences = " ".join(problem["message"] for problem in outcome["problems"])
        raise FenceError(f"{calculator.slug}: its worked example {example.id} does not compute. {sentences}")
    for finding in outcome["findings"]:
        procedure = finding["next"]["procedure"]
        if procedure and procedure not in data.procedures:
            raise FenceError(
                f"{calculator.slug}: the worked example {example.id} leads to the procedure “{procedure}”, "
                f"which the handbook does not have. {nearest(procedure, data.procedures)}"
            )
    return outcome


def _page_files() -> tuple[Path, tuple[int, ...]]:
    """The folder of the data, and what changes with it."""
    folder = Path(os.environ.get(PAGES_VARIABLE, DEFAULT_PAGES)) / "assets" / "data"
    files = [folder / "standards.json", folder / "procedures.json", folder / "build.json"]
    for file in files[:2]:
        if not file.is_file():
            raise FenceError(
                f"{file} is not there, and calculators need it. Assemble the handbook first, "
                f"or set {PAGES_VARIABLE} to the assembled folder."
            )
    return folder, _stamp(files)


def _stamp(files: Iterable[Path]) -> tuple[int, ...]:
    """Changes when a file does: `serve` renders many times in one process."""
    return tuple(file.stat().st_mtime_ns if file.is_file() else 0 for file in files)


@lru_cache(maxsize=1)
def _read_page_data(folder: Path, stamp: tuple[int, ...]) -> PageData:
    standards = Standards.from_json((folder / "standards.json").read_text(encoding="utf-8"))
    procedures = json.loads((folder / "procedures.json").read_text(encoding="utf-8"))
    build_file = folder / "build.json"
    build = json.loads(build_file.read_text(encoding="utf-8")) if build_file.is_file() else {}
    on = date.fromisoformat(build["date"]) if "date" in build else date.today()
    return PageData(standards, procedures, on, str(build.get("revision", standards.revision)))


@lru_cache(maxsize=1)
def _templates() -> Environment:
    environment = Environment(
        loader=PackageLoader("build_scripts", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        bytecode_cache=kept_compiled(),
    )
    environment.filters["unit"] = lambda name: symbol(name) or UNITS[name].name
    environment.globals["LEVEL_NAMES"] = LEVEL_NAMES
    environment.tests["a_number"] = lambda field: isinstance(field, NumberInput)
    environment.tests["digits_only"] = lambda field: isinstance(field, NumberInput) and _digits_only(field)
    return environment


def _digits_only(field: NumberInput) -> bool:
    """Whether a keypad of digits is enough: neither a minus nor the letters of OL can ever be wanted."""
    return not field.open_line and field.least >= 0.0
