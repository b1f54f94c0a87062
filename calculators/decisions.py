"""Which question comes next? The handbook's decision map, and the walk through it from answer to answer.

The map is data: questions with their answers and where each leads, and the findings where a walk ends. Nothing here
holds a question of its own. A walk keeps four promises, whatever the map says:

- A reason to stop is heard from anywhere, and nothing answered before it can talk it away.
- "I cannot tell" never makes a finding: it leads to the question that repeats it, or to "not tellable yet".
- The same answer to the same question a second time is "not tellable yet": going round does not make evidence.
- Every walk ends. A question is asked twice at most, and anew only behind a reason to stop.

>>> lamp = {"id": "lamp", "question": "Does the lamp light?", "how": "Look.", "level": "anyone", "procedures": ["look"],
...     "answers": [{"id": "no", "label": "No", "leads_to": "dead-lamp"}], "cannot_tell": "not-yet"}
>>> dead = {"id": "dead-lamp", "title": "Dead", "write": "The lamp is dead.", "kind": "fault", "procedure": "look"}
>>> not_yet = {"id": "not-yet", "title": "Not tellable yet", "write": "Not yet.", "kind": "open", "procedure": "look"}
>>> decisions = DecisionMap.from_data({"first": "lamp", "stop": {"question": "Stop?", "reasons": []}, "checks": [],
...     "questions": [lamp], "findings": [dead, not_yet]})
>>> walk(decisions, []).asks.question, walk(decisions, ["no"]).reached.title
('Does the lamp light?', 'Dead')
>>> walk(decisions, ["cannot-tell"]).reached.title
'Not tellable yet'
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property, reduce
from types import MappingProxyType
from typing import Any

CANNOT_TELL = "cannot-tell"
STOP = "stop:"
MOST_VISITS = 2

# Why a walk ended in "not tellable yet" although no answer leads there.
SAME_ANSWER = "same answer"
ROUND_AGAIN = "round again"


@dataclass(frozen=True)
class Answer:
    """One answer: where it leads, what is to be done at once, and what is written down on the way, if anything."""

    id: str
    label: str
    leads_to: str
    note: str = ""
    also_write: str = ""


@dataclass(frozen=True)
class Question:
    """One question: how it is answered, by whom, the procedures that say how, and the checks that an answer makes."""

    id: str
    subject: str
    source: str
    question: str
    how: str
    level: str
    procedures: tuple[str, ...]
    answers: tuple[Answer, ...]
    checks: tuple[str, ...] = ()
    stop: bool = False

    def answer(self, given: str) -> Answer:
        """The answer of that name; KeyError when the question has none."""
        for one in self.answers:
            if one.id == given:
                return one
        raise KeyError(given)


@dataclass(frozen=True)
class Conclusion:
    """Where a walk ends: what is written, and what must be in hand before it is.

    kind: `fault` names one, `watch` asks for another look, `danger` leaves the machine isolated, `elsewhere` belongs to
    another handbook, `open` is "not tellable yet".
    """

    id: str
    title: str
    write: str
    kind: str
    procedure: str
    evidence: tuple[str, ...] = ()
    licensed: bool = False
    stop: bool = False

    @property
    def needs_evidence(self) -> bool:
        """Whether it may be written only when all of its evidence is in hand."""
        return self.kind in ("fault", "watch")


@dataclass(frozen=True)
class StopReason:
    """A reason to stop at once, and where it leads."""

    id: str
    label: str
    leads_to: str


@dataclass(frozen=True)
class DecisionMap:
    """All questions and findings, the first question, and the reasons that stop a walk from anywhere."""

    first: str
    stop_question: str
    reasons: tuple[StopReason, ...]
    checks: Mapping[str, str]
    questions: Mapping[str, Question]
    conclusions: Mapping[str, Conclusion]

    @classmethod
    def from_data(cls, data: Mapping[str, Any]) -> DecisionMap:
        """Read the part `decisions` of the file that the build writes; an empty part is an empty map."""
        if not data:
            return NO_DECISIONS
        questions = (_question(entry) for entry in data["questions"])
        conclusions = (_conclusion(entry) for entry in data["findings"])
        return cls(
            first=data["first"],
            stop_question=data["stop"]["question"],
            reasons=tuple(StopReason(**reason) for reason in data["stop"]["reasons"]),
            checks=MappingProxyType({one["id"]: one["label"] for one in data["checks"]}),
            questions=MappingProxyType({one.id: one for one in questions}),
            conclusions=MappingProxyType({one.id: one for one in conclusions}),
        )

    @cached_property
    def not_tellable(self) -> str:
        """The finding for which the evidence is still missing."""
        return next(key for key, one in self.conclusions.items() if one.kind == "open")

    @cached_property
    def reach(self) -> Mapping[str, frozenset[str]]:
        """The questions and findings that each question leads to, over any number of answers."""
        return MappingProxyType({key: self._reached_from(key) for key in self.questions})

    @cached_property
    def steps_to_finding(self) -> Mapping[str, int]:
        """How many answers each question is away from a finding, at best; giving up and leaving do not count as one."""
        steps = {key: 0 for key, one in self.conclusions.items() if one.kind not in ("open", "danger")}
        while True:
            further = {
                key: 1 + min(steps[answer.leads_to] for answer in one.answers if answer.leads_to in steps)
                for key, one in self.questions.items()
                if key not in steps and any(answer.leads_to in steps for answer in one.answers)
            }
            if not further:
                return MappingProxyType(steps)
            steps |= further

    @cached_property
    def _behind_stop(self) -> frozenset[str]:
        """The questions that a walk can have met before a reason to stop, and meets again behind it."""
        targets = {reason.leads_to for reason in self.reasons if reason.leads_to in self.questions}
        behind = targets.union(*(self.reach[target] for target in targets))
        return frozenset(behind & ({self.first} | self._reached_from(self.first, targets)))

    def visits(self, question: str) -> int:
        """How often a walk can come to a question: again on a way round, and anew behind a reason to stop."""
        once = MOST_VISITS if question in self.reach[question] else 1
        return once * (2 if question in self._behind_stop else 1)

    def _reached_from(self, start: str, without: Collection[str] = ()) -> frozenset[str]:
        seen: set[str] = set()
        waiting = [start]
        while waiting:
            here = self.questions.get(waiting.pop())
            for answer in here.answers if here else ():
                if answer.leads_to not in seen and answer.leads_to not in without:
                    seen.add(answer.leads_to)
                    waiting.append(answer.leads_to)
        return frozenset(seen)


NO_DECISIONS = DecisionMap("", "", (), MappingProxyType({}), MappingProxyType({}), MappingProxyType({}))


def _question(entry: Mapping[str, Any]) -> Question:
    told = [Answer(**one) for one in entry["answers"]]
    cannot_tell = Answer(CANNOT_TELL, "I cannot tell", entry["cannot_tell"])
    return Question(
        id=entry["id"],
        subject=entry.get("subject", ""),
        source=entry.get("source", ""),
        question=entry["question"],
        how=entry["how"],
        level=entry["level"],
        procedures=tuple(entry["procedures"]),
        answers=(*told, cannot_tell),
        checks=tuple(entry.get("checks", ())),
        stop=entry.get("stop", False),
    )


def _conclusion(entry: Mapping[str, Any]) -> Conclusion:
    return Conclusion(**{**entry, "evidence": tuple(entry.get("evidence", ()))})


@dataclass(frozen=True)
class Taken:
    """One answered question of a walk; visit counts how often the walk has come to it, from 1."""

    question: Question
    visit: int
    answer: Answer


@dataclass(frozen=True)
class Walk:
    """Where somebody stands: the answers taken, and the question that is open or the finding that is reached.

    anew is the number of answers taken before the reason to stop, when there is one.
    """

    decisions: DecisionMap
    at: str
    taken: tuple[Taken, ...] = ()
    why: str = ""
    stopped_for: StopReason | None = None
    anew: int = 0

    @property
    def asks(self) -> Question | None:
        """The question that is open; None when a finding is reached."""
        return self.decisions.questions.get(self.at)

    @property
    def reached(self) -> Conclusion | None:
        """The finding that is reached; None while a question is open."""
        return self.decisions.conclusions.get(self.at)

    @property
    def visit(self) -> int:
        """How often the walk has come to the open question, this time counted."""
        return 1 + sum(one.question.id == self.at for one in self.taken)

    @property
    def on_the_way(self) -> tuple[Conclusion, ...]:
        """What is written besides, without ending the walk."""
        named = dict.fromkeys(one.answer.also_write for one in self.taken if one.answer.also_write)
        return tuple(self.decisions.conclusions[key] for key in named)

    @property
    def stopped(self) -> bool:
        """Whether the walk has come to a reason to stop, so that nothing may be switched on again."""
        asks = self.asks
        here = (*(one.question for one in self.taken), *([asks] if asks else ()))
        return self.stopped_for is not None or any(question.stop for question in here)

    @property
    def checked(self) -> frozenset[str]:
        """The checks that were made, for an answer that could be given."""
        return frozenset(check for one in self.taken if one.answer.id != CANNOT_TELL for check in one.question.checks)

    def answer(self, given: str) -> Walk:
        """The walk after one more answer; KeyError when the open question has no such answer, or none is open."""
        question = self.asks
        if question is None:
            raise KeyError(given)
        answer = question.answer(given)
        earlier = [one.answer.id for one in self.taken[self.anew :] if one.question.id == question.id]
        moved = replace(self, taken=(*self.taken, Taken(question, self.visit, answer)), at=answer.leads_to, why="")
        if given in earlier:
            return replace(moved, at=self.decisions.not_tellable, why=SAME_ANSWER)
        visits = sum(one.question.id == moved.at for one in moved.taken[self.anew :])
        if visits >= MOST_VISITS:
            return replace(moved, at=self.decisions.not_tellable, why=ROUND_AGAIN)
        return moved

    def stop(self, reason: str) -> Walk:
        """The walk after a reason to stop: it begins anew there.

        Nothing changes for a walk that is there already, or that has left the machine isolated.
        """
        named = next((one for one in self.decisions.reasons if one.id == reason), None)
        if named is None:
            raise KeyError(reason)
        isolated = self.reached is not None and self.reached.kind == "danger"
        if isolated or self.at == named.leads_to or any(one.question.id == named.leads_to for one in self.taken):
            return replace(self, stopped_for=self.stopped_for or named)
        return replace(self, at=named.leads_to, why="", stopped_for=named, anew=len(self.taken))


def begin(decisions: DecisionMap) -> Walk:
    """A walk before its first answer."""
    return Walk(decisions, decisions.first)


def walk(decisions: DecisionMap, given: Iterable[str]) -> Walk:
    """Where the answers lead, given in order; `stop:shock` stands for a reason to stop at that moment."""
    return reduce(_go_on, given, begin(decisions))


def _go_on(so_far: Walk, given: str) -> Walk:
    return so_far.stop(given.removeprefix(STOP)) if given.startswith(STOP) else so_far.answer(given)


def field_of(question: str, visit: int) -> str:
    """The name of the field that takes the answer of a visit: `supply_idle`, and `supply_idle_2` when asked again."""
    name = question.replace("-", "_")
    return name if visit == 1 else f"{name}_{visit}"


def evidence_field_of(conclusion: str) -> str:
    """The name of the field that says whether the evidence of a finding is in hand."""
    return f"evidence_{conclusion.replace('-', '_')}"
