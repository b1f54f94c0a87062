"""The walk in words: the path, what comes next or what was found, what was not checked, and each step of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from calculators.contract import Named, Result, Step
from calculators.decisions import Conclusion, Question, Walk
from calculators.limits import InForce
from calculators.next_check.findings import WHO, falls_short


def results_of(here: Walk, evidence: Mapping[str, str], standards: InForce) -> Iterator[Result | Named]:
    """The path so far, then the next question or the finding, then what was not checked."""
    yield _path(here, standards)
    if here.asks is not None:
        yield from _next(here.asks, standards)
    elif here.reached is not None:
        one = here.reached
        yield _end(here, one, evidence, standards)
        listed = "; ".join(standards.said(line) for line in one.evidence)
        said = {"all": "all of it is in hand", "not-all": "not all of it is in hand"}
        state = said.get(evidence.get(one.id, ""), "not said yet") if one.needs_evidence else "to be in the report"
        yield Named("needs", "It must have", state, f"{listed}.")
    missing = [standards.said(label) for key, label in here.decisions.checks.items() if key not in here.checked]
    yield Named(
        "not_checked",
        "Not checked on this walk",
        f"{len(missing)} of {len(here.decisions.checks)} checks",
        f"The report names them: {'; '.join(missing)}." if missing else "Every check was made.",
    )


def _end(here: Walk, one: Conclusion, evidence: Mapping[str, str], standards: InForce) -> Named:
    if falls_short(one, evidence):
        not_yet = here.decisions.conclusions[here.decisions.not_tellable]
        return Named("finding", "The walk ends at", not_yet.title, f"Short of “{one.title}”: something is missing.")
    return Named("finding", "The walk ends at", one.title, standards.said(one.write))


def _path(here: Walk, standards: InForce) -> Named:
    count = len(here.taken)
    answers = f"{count} answer{'' if count == 1 else 's'}"
    parts = [f"{standards.said(one.question.question)} {standards.said(one.answer.label)}." for one in here.taken]
    if here.stopped_for is not None:
        parts.insert(here.anew, f"{here.stopped_for.label}.")
    return Named("path", "The path so far", answers, " ".join(parts) if parts else "Nothing is answered yet.")


def _next(question: Question, standards: InForce) -> Iterator[Named]:
    yield Named("next", "Next question", standards.said(question.question), f"For {WHO[question.level]}.")
    answers = "; ".join(f"{standards.said(one.label)} ({one.id})" for one in question.answers)
    yield Named("answers", "It can be answered", f"in {len(question.answers)} ways", f"{answers}.")


def working_of(here: Walk, standards: InForce) -> Iterator[Step]:
    """Each question with the answers it offers, the one that was given, and where that led."""
    if not here.taken:
        first = here.decisions.questions[here.decisions.first]
        yield Step("Where every walk begins", "the first question of the map", "", first.question, first.source)
        return
    places = [one.question.id for one in here.taken[1:]] + [here.at]
    for number, (one, place) in enumerate(zip(here.taken, places, strict=True), start=1):
        again = "" if one.visit == 1 else f" (time {one.visit})"
        written = here.decisions.conclusions.get(one.answer.also_write)
        besides = f", and “{written.title}” is written besides" if written else ""
        broken_off = here.stopped_for is not None and number == here.anew
        yield Step(
            f"{number}. {standards.said(one.question.question)}{again}",
            " | ".join(standards.said(answer.label) for answer in one.question.answers),
            f"{standards.said(one.answer.label)} (answered by {WHO[one.question.level]})",
            "a reason to stop cuts in" if broken_off else f"leads to “{_name(here, place, standards)}”{besides}",
            one.question.source,
        )


def _name(here: Walk, place: str, standards: InForce) -> str:
    question = here.decisions.questions.get(place)
    return standards.said(question.question) if question else here.decisions.conclusions[place].title


def notes_of(here: Walk, standards: InForce) -> Iterator[str]:
    """What holds on every walk."""
    yield (
        "On a flammable or unknown refrigerant a helper works only with a technician present, whatever a question says."
    )
    yield "A shock, a tingle, gas, an alarm, oil or burnt terminals stop every walk: say so in the first field at once."
    asks = here.asks
    if asks is not None and len(asks.procedures) > 1:
        yield f"More pages that say how to answer: {', '.join(asks.procedures[1:])}."
    if here.reached is not None and here.reached.kind == "fault":
        yield "Finish the list of checks even after the first find: one fault often has brought another."
