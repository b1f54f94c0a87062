"""What may be written where a walk stands: never more than the answers and their evidence carry.

A fault is outside only when everything it must have is in hand. Until then, on an open question, and where the answers
do not tell, the finding is undecided and names the answer that would move it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from calculators.decisions import (
    CANNOT_TELL,
    ROUND_AGAIN,
    Conclusion,
    Question,
    Taken,
    Walk,
    evidence_field_of,
    field_of,
)
from calculators.findings import Decider, Finding, NextStep, Verdict
from calculators.limits import InForce

WHO = {
    "anyone": "anyone, without opening anything",
    "helper": "a trained helper, on a dead machine, with a technician who answers for it",
    "technician": "a technician",
    "licensed": "a person licensed to work on refrigerant",
}

_STAYS_OFF = " The machine stays cut off until this is settled."


def findings_of(here: Walk, evidence: Mapping[str, str], standards: InForce) -> Iterator[Finding]:
    """Where the walk stands first, then what is written besides."""
    reached = here.reached
    if here.asks is not None:
        yield _open_question(here, here.asks, standards)
    elif reached is not None and reached.kind == "open":
        yield _not_tellable(here, reached, standards)
    elif reached is not None:
        yield _reached(here, reached, evidence, standards)
    for one in here.on_the_way:
        if one is not reached:
            yield _reached(here, one, evidence, standards)


def _open_question(here: Walk, question: Question, standards: InForce) -> Finding:
    note = standards.said(here.taken[-1].answer.note) if here.taken else ""
    before = f"{note} " if note else ""
    stays = _STAYS_OFF if here.stopped else ""
    return Finding(
        field_of(question.id, here.visit),
        Verdict.UNDECIDED,
        f"{before}Nothing can be written yet. Next question: {standards.said(question.question)}",
        f"{standards.said(question.how)}{stays}",
        NextStep(f"To be answered by {WHO[question.level]}.", question.procedures[0]),
        decider=_answer_decider(question, here.visit, nearest_answer(here, question), standards),
        stop=here.stopped,
    )


def _answer_decider(question: Question, visit: int, entry: str, standards: InForce) -> Decider:
    return Decider(
        standards.said(question.question),
        f"no instrument of this page: an answer by {WHO[question.level]}",
        standards.said(question.how),
        field_of(question.id, visit),
        entry,
    )


def _what_decides(here: Walk, standards: InForce) -> Decider:
    """The last answer of an undecided walk that leads on when it is another one; the very last when none does."""
    for place in range(len(here.taken) - 1, here.anew - 1, -1):
        taken = here.taken[place]
        before = replace(here, taken=here.taken[:place], at=taken.question.id, why="")
        other = nearest_answer(before, taken.question, besides=taken.answer.id)
        if other != taken.answer.id and before.answer(other).at != here.decisions.not_tellable:
            return _answer_decider(taken.question, taken.visit, other, standards)
    last = here.taken[-1]
    return _answer_decider(last.question, last.visit, nearest_answer(here, last.question), standards)


def nearest_answer(here: Walk, question: Question, besides: str = "") -> str:
    """The answer that comes to a finding over the fewest further questions, the first of them when several do."""
    steps = here.decisions.steps_to_finding
    tried = {besides, *(one.answer.id for one in here.taken[here.anew :] if one.question.id == question.id)}
    answers = [one for one in question.answers if one.id not in tried and one.id != CANNOT_TELL] or question.answers
    return min(answers, key=lambda one: steps.get(one.leads_to, len(here.decisions.questions))).id


def _not_tellable(here: Walk, reached: Conclusion, standards: InForce) -> Finding:
    last = here.taken[-1]
    stays = _STAYS_OFF if here.stopped else ""
    listed = "; ".join(standards.said(one) for one in reached.evidence)
    return Finding(
        f"{reached.id} at {field_of(last.question.id, last.visit)}",
        Verdict.UNDECIDED,
        f"{standards.said(reached.write)} {_why(here, last, standards)}",
        f"That is a finding too, and an honest one. The report says: {listed}.{stays}",
        NextStep("Write down what is missing, who measures it next, and by when.", reached.procedure),
        decider=_what_decides(here, standards),
        stop=reached.stop or here.stopped,
    )


def _why(here: Walk, last: Taken, standards: InForce) -> str:
    question = standards.said(last.question.question)
    if here.why == ROUND_AGAIN:
        return f"The walk has come round twice, last by “{question}”; the readings do not agree with each other."
    if here.why:
        return f"“{question}” got the same answer twice; a third time proves nothing that was not proved before."
    if last.answer.id == CANNOT_TELL:
        return f"“{question}” could not be answered: {standards.said(last.question.how)}"
    note = standards.said(last.answer.note)
    return f"“{question}” {standards.said(last.answer.label)}. {note}".rstrip()


def _reached(here: Walk, one: Conclusion, evidence: Mapping[str, str], standards: InForce) -> Finding:
    stop = one.stop or here.stopped or one.kind == "danger"
    write = standards.said(one.write)
    listed = "; ".join(standards.said(line) for line in one.evidence)
    by = f" Only {WHO['licensed']} may find this." if one.licensed else ""
    note = _note_to(here, one, standards)
    if one.needs_evidence and evidence.get(one.id) != "all":
        short = falls_short(one, evidence)
        not_yet = here.decisions.conclusions[here.decisions.not_tellable]
        written = (
            f"{standards.said(not_yet.write)} Something that “{one.title}” must have is missing."
            if short
            else f"The answers lead to “{one.title}”. It is not written yet."
        )
        return Finding(
            f"{not_yet.id} at {evidence_field_of(one.id)}" if short else one.id,
            Verdict.UNDECIDED,
            f"{note}{written}",
            f"It must have first: {listed}.{by}",
            NextStep("Have every line of this in hand and written down, then say so.", _how_found(here, one)),
            decider=Decider(
                one.title,
                "not a matter of one reading: every line of its evidence",
                listed,
                evidence_field_of(one.id),
                "all",
            ),
            stop=stop,
        )
    if one.kind == "elsewhere":
        return Finding(
            one.id,
            Verdict.UNDECIDED,
            f"{note}{write}",
            f"Written down with: {listed}. The maker's procedure for the drive decides, not this handbook.",
            NextStep("Leave it off and write down why it was not judged.", one.procedure),
            decider=Decider(one.title, "no instrument of this handbook", "the maker's procedure for the drive"),
            stop=stop,
        )
    said = {
        "fault": f"Written with its evidence: {listed}.{by}",
        "watch": f"Written with: {listed}.",
        "danger": f"Done and written down: {listed}.",
    }
    return Finding(
        one.id,
        Verdict.WATCH if one.kind == "watch" else Verdict.OUTSIDE,
        f"{note}{write}",
        said[one.kind],
        NextStep(_AFTER.get(one.procedure, "Go on as this page says."), one.procedure),
        stop=stop,
    )


def falls_short(one: Conclusion, evidence: Mapping[str, str]) -> bool:
    """Whether the reader has said that something is missing of what a finding must have."""
    return one.needs_evidence and evidence.get(one.id, "") not in ("", "all")


def _how_found(here: Walk, one: Conclusion) -> str:
    """The page of the answer that led to a finding: there its evidence is gathered."""
    led = [taken for taken in here.taken if one.id in (taken.answer.leads_to, taken.answer.also_write)]
    return led[-1].question.procedures[0] if led else one.procedure


def _note_to(here: Walk, one: Conclusion, standards: InForce) -> str:
    note = standards.said(here.taken[-1].answer.note) if here.taken and here.at == one.id and not here.why else ""
    return f"{note} " if note else ""


_AFTER = {
    "record-and-report": "Write the report, with every reading that carries this and what was not checked.",
    "return-to-service": "Mend it, prove it, and hand the machine back as this page says.",
    "after-condemnation": "A second technician signs before anybody calls the compressor condemned.",
}
