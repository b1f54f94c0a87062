"""Turns pages that people wrote into plain Markdown: marks filled, the head in front, steps and gates as markup."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from build_scripts.addresses import GLOSSARY_PAGE, LIMITS_PAGE, SOURCES_PAGE, calculator_page, procedure_page, relative
from build_scripts.fill_templates import fill, plain
from build_scripts.link_terms import Terms
from build_scripts.marks import Mark, fill_marks
from build_scripts.read_body import Section, Step, find_gates
from build_scripts.read_handbook import Handbook
from build_scripts.read_pages import Page
from calculators.limits import InForce, Source

_LIST_ITEM = re.compile(r"^(?:[-*+]|[0-9]+\.)\s")


@dataclass(frozen=True)
class NumberedStep:
    """A step as the template prints it; hold counts the hold points of the page, 0 for a step that is none."""

    number: int
    text: str
    hold: int
    level: str | None


# The start page answers a complaint, a procedure says what to do; pages about the handbook itself come last.
SEARCH_BOOSTS = {"start": 2.5, "procedure": 1.5, "reference": 0.3}


def write_pages(handbook: Handbook, standards: InForce) -> Iterator[tuple[str, str]]:
    """The path and the Markdown of every written page."""
    terms = Terms({word: term.meaning for word, term in handbook.glossary.items() if not term.everyday})
    for page in handbook.pages:
        yield page.path, write_page(page, handbook, standards, terms)


def write_page(page: Page, handbook: Handbook, standards: InForce, terms: Terms) -> str:
    """One written page as plain Markdown."""
    procedure = page.procedure
    steps = list(number_steps(page.steps))
    filler = MarkFiller(page.path, handbook, standards)
    body = _procedure_body(page, steps, handbook) if procedure else page.body
    if page.front.kind != "start":  # there each word is a way to somewhere else
        body = terms.link(body, relative(page.path, GLOSSARY_PAGE))
    return fill(
        "page.md",
        front=page.front,
        boosts=SEARCH_BOOSTS,
        here=page.path,
        body=fill_marks(body, filler.fill).strip(),
        more=_steps_by_level(steps, procedure.level) if procedure else {},
        hazards={key: handbook.hazards[key] for key in procedure.hazards} if procedure else {},
        instruments={key: handbook.instruments[key] for key in procedure.instruments} if procedure else {},
        calculators=[handbook.calculators[slug] for slug in procedure.calculators] if procedure else [],
    )


def _steps_by_level(steps: list[NumberedStep], level: str) -> dict[str, list[int]]:
    """The numbers of the steps that need more than the level of their page."""
    numbers: dict[str, list[int]] = {}
    for step in steps:
        if step.level not in (None, level):
            numbers.setdefault(str(step.level), []).append(step.number)
    return numbers


@dataclass(frozen=True)
class MarkFiller:
    """Says what each mark of one page turns into."""

    here: str
    handbook: Handbook
    standards: InForce

    def fill(self, mark: Mark) -> str:
        """The Markdown that stands in the place of a mark."""
        fillers = {
            "limit": self._limit,
            "procedure": self._procedure,
            "calculator": self._calculator,
            "source": self._source,
            "picture": self._picture,
        }
        return fillers[mark.kind](mark.key)

    def _limit(self, key: str) -> str:
        value = plain(self.standards.limit(key).text.replace(" ", "\u00a0"))
        return f'[{value}]({relative(self.here, LIMITS_PAGE, key)}){{: .limit data-limit="{key}" }}'

    def _procedure(self, key: str) -> str:
        title = self.handbook.procedures[key].front.title
        return f"[{plain(title)}]({relative(self.here, procedure_page(key))})"

    def _calculator(self, slug: str) -> str:
        title = self.handbook.calculators[slug].title
        return f"[{plain(title)}]({relative(self.here, calculator_page(slug))})"

    def _picture(self, key: str) -> str:
        return f"\n{self.handbook.pictures[key].html}\n"

    def _source(self, key: str) -> str:
        return link_source(self.standards.source(key), self.here)


def link_source(source: Source, here: str) -> str:
    """A citation as a link to the list of sources, with how it was seen."""
    how = source.text.removeprefix(source.citation)
    return f"[{plain(source.citation)}]({relative(here, SOURCES_PAGE, source.key)}){plain(how)}"


def number_steps(steps: tuple[Step, ...]) -> Iterator[NumberedStep]:
    """Steps with their numbers, and hold points with theirs."""
    holds = 0
    for number, step in enumerate(steps, start=1):
        holds += step.hold
        yield NumberedStep(number, _open_lists(step.text), holds if step.hold else 0, step.level)


def _open_lists(text: str) -> str:
    """The text with an empty line before each list, which Markdown asks for and people leave out."""
    rows: list[str] = []
    for row in text.split("\n"):
        before = rows[-1] if rows else ""
        if _LIST_ITEM.match(row) and before.strip() and not _LIST_ITEM.match(before) and not before.startswith(" "):
            rows.append("")
        rows.append(row)
    return "\n".join(rows)


def _procedure_body(page: Page, steps: list[NumberedStep], handbook: Handbook) -> str:
    parts = []
    for section in page.sections:
        if not section.title:
            continue
        text = section.text
        if section.title == "Steps":
            text = fill("step_list.md", steps=steps)
        elif section.title == "Before you start":
            text = _with_gates(section)
        elif section.title == "Next":
            text = f"{text.rstrip()}\n\n{_leads_to(page, handbook)}"
        parts.append(f"## {section.title}\n\n{text.strip()}\n")
    return "\n".join(parts)


def _with_gates(section: Section) -> str:
    rows = section.text.split("\n")
    gates = find_gates(section.text)
    for position, gate in reversed(list(enumerate(gates, start=1))):
        rows[gate.row : gate.end] = [
            f'<div class="gate" data-gate="{position}" markdown="block">',
            "",
            gate.question,
            "{: .gate-question }",
            "",
            f"If not: {gate.otherwise}",
            "{: .gate-otherwise }",
            "",
            "</div>",
        ]
    return "\n".join(rows)


def _leads_to(page: Page, handbook: Handbook) -> str:
    """The links that every procedure ends in, made from its front matter."""
    named = page.procedure.leads_to if page.procedure else []
    fronts = [handbook.procedures[key].front for key in named]
    rows = [
        f"- [{plain(front.title)}]({relative(page.path, procedure_page(front.id))}): {plain(front.summary)}"
        for front in fronts
    ]
    return "\n".join(rows)
