"""Reads handbook/decisions/*.yaml into the decision map, and refuses a map that somebody could get lost in.

What the map promises is checked here once, for the handbook and for a shop's edition: every name is known, every
question can be come to and comes to an end, "cannot tell" makes no finding, and what only a licensed person may find
is asked of a licensed person.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from pydantic import Field

from build_scripts.errors import Mistake, nearest
from build_scripts.marks import find_marks
from build_scripts.read_yaml import Place, read_file, read_yaml, to_record
from build_scripts.records import DecisionsFile, FindingEntry, QuestionEntry, StopEntry, Strict
from calculators.decisions import CANNOT_TELL

_ENDS_AS_A_VISIT = re.compile(r"-[0-9]+$")
_WRITTEN_ON_THE_WAY = ("fault", "watch")


class Asked(QuestionEntry):
    """A question with the subject and the source of its file."""

    subject: str
    source: str


class DecisionSet(Strict):
    """The whole map, checked; empty for a handbook without one."""

    first: str = ""
    stop: StopEntry | None = None
    checks: dict[str, str] = Field(default_factory=dict)
    questions: dict[str, Asked] = Field(default_factory=dict)
    findings: dict[str, FindingEntry] = Field(default_factory=dict)
    limits: list[str] = Field(default_factory=list)

    def as_data(self) -> dict[str, Any]:
        """What calculators.decisions.DecisionMap.from_data reads: lists, so that every order stays as written."""
        return {
            "first": self.first,
            "stop": self.stop.model_dump() if self.stop else {"question": "", "reasons": []},
            "checks": [{"id": key, "label": label} for key, label in self.checks.items()],
            "questions": [_question_data(key, one) for key, one in self.questions.items()],
            "findings": [{"id": key, **one.model_dump()} for key, one in self.findings.items()],
        }


def _question_data(key: str, one: Asked) -> dict[str, Any]:
    answers = [{"id": name, **answer.model_dump()} for name, answer in one.answers.items()]
    return {"id": key, **one.model_dump(), "answers": answers}


def collect_decisions(
    handbook: Path,
    mistakes: list[Mistake],
    limits: Collection[str],
    sources: Collection[str],
    procedures: Collection[str] | None = None,
) -> DecisionSet:
    """What can be read of the decision map; every mistake is added to the list.

    With the names of the procedures, those that the map points to have to be among them.
    """
    found = _Found()
    for file in sorted((handbook / "decisions").glob("*.yaml")):
        text, unread = read_file(file)
        data, lines, broken = read_yaml(text, file)
        record = unread or broken or to_record(DecisionsFile, data, file, lines)
        if isinstance(record, list):
            mistakes += record
            found.unread = True
        else:
            mistakes += found.add(record, Place(file, lines, ()))
            if record.source not in sources:
                what = f"source: there is no source {record.source}. {nearest(record.source, sources)}"
                mistakes.append(Mistake(file, lines.at(("source",)), what))
            mistakes += _check_texts(record, Place(file, lines, ()), limits, found.limits)
            if procedures is not None:
                mistakes += _check_procedures(record, Place(file, lines, ()), procedures)
    if found.places and not found.unread:
        mistakes += _check_map(found)
    return found.set()


@dataclass
class _Found:
    """What has been read so far, and where each entry stands."""

    unread: bool = False
    first: tuple[str, Place] | None = None
    stop: tuple[StopEntry, Place] | None = None
    checks: dict[str, str] = field(default_factory=dict)
    questions: dict[str, Asked] = field(default_factory=dict)
    findings: dict[str, FindingEntry] = field(default_factory=dict)
    places: dict[str, Place] = field(default_factory=dict)
    limits: list[str] = field(default_factory=list)

    def add(self, record: DecisionsFile, at: Place) -> Iterator[Mistake]:
        """Take in one file."""
        if record.first is not None:
            if self.first:
                yield _twice(at, "first", "first", self.first[1])
            self.first = self.first or (record.first, Place(at.file, at.lines, ("first",)))
        if record.stop is not None:
            if self.stop:
                yield _twice(at, "stop", "stop", self.stop[1])
            self.stop = self.stop or (record.stop, Place(at.file, at.lines, ("stop",)))
        self.checks |= record.checks
        entries: Mapping[str, Mapping[str, Any]] = {"questions": record.questions, "findings": record.findings}
        for part, listed in entries.items():
            for key in listed:
                place = Place(at.file, at.lines, (part, key))
                if key in self.places:
                    yield _twice(place, key, None, self.places[key])
                self.places.setdefault(key, place)
        self.questions |= {
            key: Asked(subject=record.subject, source=record.source, **{name: getattr(one, name) for name in _ASKED})
            for key, one in record.questions.items()
        }
        self.findings |= record.findings

    def set(self) -> DecisionSet:
        """The map as it was read."""
        return DecisionSet(
            first=self.first[0] if self.first else "",
            stop=self.stop[0] if self.stop else None,
            checks=self.checks,
            questions=self.questions,
            findings=self.findings,
            limits=self.limits,
        )


_ASKED = tuple(QuestionEntry.model_fields)


def _twice(at: Place, key: str, below: str | None, first: Place) -> Mistake:
    what = (
        f"{key}: this is given twice, first in {first.file.name} on line {first.lines.at(first.path)}. "
        f"Keep one of them."
    )
    return at.mistake(what, *([below] if below else []))


def _check_texts(record: DecisionsFile, at: Place, limits: Collection[str], used: list[str]) -> Iterator[Mistake]:
    """Marks in texts: limits that exist, and nothing else."""
    for path, text in _texts(record):
        for mark in find_marks(text):
            if mark.kind != "limit":
                what = f"{{{mark.kind}:{mark.key}}}: only {{limit:…}} is filled in the decision map. Name it in words."
                yield at.mistake(what, *path)
            elif mark.key not in limits:
                yield at.mistake(f"{{limit:{mark.key}}}: there is no such limit. {nearest(mark.key, limits)}", *path)
            elif mark.key not in used:
                used.append(mark.key)


def _check_procedures(record: DecisionsFile, at: Place, procedures: Collection[str]) -> Iterator[Mistake]:
    named: list[tuple[tuple[str | int, ...], str]] = [
        (("findings", key, "procedure"), finding.procedure) for key, finding in record.findings.items()
    ]
    for key, question in record.questions.items():
        named += [(("questions", key, "procedures", place), one) for place, one in enumerate(question.procedures)]
    for path, one in named:
        if one not in procedures:
            yield at.mistake(f"{path[1]}: there is no procedure {one}. {nearest(one, procedures)}", *path)


def _texts(record: DecisionsFile) -> Iterator[tuple[tuple[str | int, ...], str]]:
    for key, question in record.questions.items():
        yield ("questions", key, "question"), question.question
        yield ("questions", key, "how"), question.how
        for name, answer in question.answers.items():
            yield ("questions", key, "answers", name, "label"), answer.label
            yield ("questions", key, "answers", name, "note"), answer.note
    for key, finding in record.findings.items():
        yield ("findings", key, "write"), finding.write
        for place, line in enumerate(finding.evidence):
            yield ("findings", key, "evidence", place), line


def _check_map(found: _Found) -> Iterator[Mistake]:
    anywhere = next(iter(found.places.values()))
    if found.first is None or found.stop is None:
        missing = (
            "first: name the question that every walk begins with"
            if found.first is None
            else ("stop: give the reasons that stop every walk")
        )
        yield Mistake(anywhere.file, 1, f"{missing}, in one of the files of this folder.")
        return
    open_ones = [key for key, one in found.findings.items() if one.kind == "open"]
    if len(open_ones) != 1:
        what = f"one finding is of kind open (“not tellable yet”), not {len(open_ones)}. Mend the kind of the others."
        yield (found.places[open_ones[1]] if open_ones else anywhere).mistake(what, "kind")
        return
    names = {*found.questions, *found.findings}
    first, place = found.first
    if first not in found.questions:
        yield place.mistake(f"first: there is no question {first}. {nearest(first, found.questions)}")
    for position, reason in enumerate(found.stop[0].reasons):
        if reason.leads_to not in names:
            what = f"{reason.id}: there is no {reason.leads_to}. {nearest(reason.leads_to, names)}"
            yield found.stop[1].mistake(what, "reasons", position, "leads_to")
    for key, question in found.questions.items():
        yield from _check_question(key, question, found, open_ones[0])
    yield from _check_ways(found)


def _check_question(key: str, question: Asked, found: _Found, open_finding: str) -> Iterator[Mistake]:
    place, names = found.places[key], {*found.questions, *found.findings}
    if _ENDS_AS_A_VISIT.search(key):
        yield place.mistake(f"{key}: a question's name does not end in a number. Give it a word of its own.")
    if CANNOT_TELL in question.answers:
        what = f"{key}: every question has the answer {CANNOT_TELL} by itself. Write cannot_tell: with where it leads."
        yield place.mistake(what, "answers", CANNOT_TELL)
    for check in question.checks:
        if check not in found.checks:
            what = f"{key}: there is no check {check}. {nearest(check, found.checks)}"
            yield place.mistake(what, "checks", question.checks.index(check))
    for name, answer in question.answers.items():
        at = ("answers", name)
        if answer.leads_to not in names:
            what = f"{key}: the answer {name} leads to {answer.leads_to}, which is no question and no finding."
            yield place.mistake(f"{what} {nearest(answer.leads_to, names)}", *at, "leads_to")
        elif answer.leads_to == key:
            yield place.mistake(f"{key}: the answer {name} leads back to its own question.", *at, "leads_to")
        yield from _check_found(key, name, answer.leads_to, question, found)
        written = found.findings.get(answer.also_write)
        if answer.also_write and (written is None or written.kind not in _WRITTEN_ON_THE_WAY):
            faults = [one for one, finding in found.findings.items() if finding.kind in _WRITTEN_ON_THE_WAY]
            what = f"{key}: also_write names {answer.also_write}, which is no fault to write down on the way."
            yield place.mistake(f"{what} {nearest(answer.also_write, faults)}", *at, "also_write")
    repeats = {*found.questions, open_finding} - {key}
    if question.cannot_tell not in repeats:
        what = (
            f"{key}: cannot_tell leads to {question.cannot_tell}. Who cannot tell makes no finding: it leads to "
            f"another question, or to {open_finding}."
        )
        yield place.mistake(f"{what} {nearest(question.cannot_tell, repeats)}", "cannot_tell")


def _check_found(key: str, name: str, leads_to: str, question: Asked, found: _Found) -> Iterator[Mistake]:
    finding = found.findings.get(leads_to)
    if finding is not None and finding.licensed and question.level != "licensed":
        what = (
            f"{key}: the answer {name} leads to {leads_to}, which only a licensed person may find, and this question "
            f"is for: {question.level}. Ask it of a licensed person, or lead to a question that is."
        )
        yield found.places[key].mistake(what, "answers", name, "leads_to")


def _check_ways(found: _Found) -> Iterator[Mistake]:
    """Every entry can be come to, and every question comes to a finding without giving up."""
    ways = {
        key: {answer.leads_to for answer in one.answers.values()} | ({one.cannot_tell} - {key})
        for key, one in found.questions.items()
    }
    written = {answer.also_write for one in found.questions.values() for answer in one.answers.values()}
    begins = [found.first[0] if found.first else "", *written]
    begins += [reason.leads_to for reason in found.stop[0].reasons] if found.stop else []
    reached = _spread(begins, ways)
    for key, place in found.places.items():
        if key not in reached:
            yield place.mistake(f"{key}: nothing leads here. Lead an answer to it, or take it out.")
    ends = {key for key, one in found.findings.items()}
    back: dict[str, set[str]] = {}
    for key, one in found.questions.items():
        for answer in one.answers.values():
            back.setdefault(answer.leads_to, set()).add(key)
    ending = _spread(ends, back)
    for key in found.questions:
        if key not in ending:
            what = f"{key}: none of its answers ever comes to a finding. Lead one of them on."
            yield found.places[key].mistake(what)


def _spread(begins: Iterable[str], ways: Mapping[str, Collection[str]]) -> set[str]:
    seen = set(begins)
    waiting = list(seen)
    while waiting:
        for there in ways.get(waiting.pop(), ()):
            if there not in seen:
                seen.add(there)
                waiting.append(there)
    return seen
