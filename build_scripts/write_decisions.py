"""The pages of the decision map, made from its data: every question, who answers it, and where each answer leads.

One page is for reading; the other is the same map as a chart for the wall or the binder, which leads by numbers,
because a link cannot be followed on paper.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from build_scripts.addresses import DECISION_CHART_PAGE, DECISION_MAP_PAGE
from build_scripts.fill_templates import fill
from build_scripts.read_handbook import Handbook
from build_scripts.write_pages import link_source
from calculators.decisions import CANNOT_TELL, Answer, Question
from calculators.limits import InForce


def write_decisions(handbook: Handbook, standards: InForce) -> Iterator[tuple[str, str]]:
    """The path and the Markdown of the map; nothing when the handbook has none."""
    decisions = standards.decisions
    if not decisions.questions:
        return
    sources = dict.fromkeys(question.source for question in decisions.questions.values())
    yield (
        DECISION_MAP_PAGE,
        fill(
            "decision_map.md",
            here=DECISION_MAP_PAGE,
            procedures=handbook.procedures,
            has_calculator="next-check" in handbook.calculators,
            first=decisions.first,
            stop_question=decisions.stop_question,
            reasons=_reasons(standards),
            subjects=_by_subject(standards),
            findings=[
                {
                    "id": one.id,
                    "title": one.title,
                    "write": standards.said(one.write),
                    "evidence": [standards.said(line) for line in one.evidence],
                    "procedure": one.procedure,
                    "licensed": one.licensed,
                    "stop": one.stop,
                    "led_by": _led_by(one.id, standards),
                }
                for one in decisions.conclusions.values()
            ],
            sources=[link_source(standards.source(key), DECISION_MAP_PAGE) for key in sources],
        ),
    )

    yield DECISION_CHART_PAGE, _chart(handbook, standards)


def _chart(handbook: Handbook, standards: InForce) -> str:
    decisions = standards.decisions
    numbers = {key: str(number) for number, key in enumerate(decisions.questions, 1)}
    numbers |= {key: f"F{number}" for number, key in enumerate(decisions.conclusions, 1)}
    return fill(
        "decision_chart.md",
        here=DECISION_CHART_PAGE,
        map_page=DECISION_MAP_PAGE,
        numbers=numbers,
        first=decisions.first,
        stop_question=decisions.stop_question,
        reasons=_reasons(standards),
        subjects=_by_subject(standards),
        findings=[
            {
                "id": one.id,
                "title": one.title,
                "evidence": [standards.said(line) for line in one.evidence],
                "procedure": handbook.procedures[one.procedure].front.title,
                "licensed": one.licensed,
                "stop": one.stop,
            }
            for one in decisions.conclusions.values()
        ],
    )


def _by_subject(standards: InForce) -> dict[str, list[dict[str, Any]]]:
    subjects: dict[str, list[dict[str, Any]]] = {}
    for question in standards.decisions.questions.values():
        subjects.setdefault(question.subject, []).append(_question(question, standards))
    return subjects


def _reasons(standards: InForce) -> list[dict[str, str]]:
    """The reasons to stop at once, as ways."""
    return [_way(Answer(one.id, one.label, one.leads_to), standards) for one in standards.decisions.reasons]


def _question(question: Question, standards: InForce) -> dict[str, Any]:
    return {
        "id": question.id,
        "question": standards.said(question.question),
        "how": standards.said(question.how),
        "level": question.level,
        "procedures": question.procedures,
        "ways": [_way(one, standards) for one in question.answers if one.id != CANNOT_TELL],
        "cannot_tell": _way(question.answer(CANNOT_TELL), standards),
    }


def _way(answer: Answer, standards: InForce) -> dict[str, str]:
    decisions = standards.decisions
    written = decisions.conclusions.get(answer.also_write)
    return {
        "label": standards.said(answer.label),
        "leads_to": answer.leads_to,
        "title": _title(answer.leads_to, standards),
        "note": standards.said(answer.note),
        "also": written.id if written else "",
        "also_title": written.title if written else "",
    }


def _title(key: str, standards: InForce) -> str:
    question = standards.decisions.questions.get(key)
    return standards.said(question.question) if question else standards.decisions.conclusions[key].title


def _led_by(finding: str, standards: InForce) -> list[dict[str, str]]:
    """The questions with an answer that leads to a finding."""
    return [
        {"id": question.id, "title": standards.said(question.question)}
        for question in standards.decisions.questions.values()
        if any(finding in (one.leads_to, one.also_write) for one in question.answers if one.id != CANNOT_TELL)
    ]
