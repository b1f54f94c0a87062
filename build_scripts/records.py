"""What people write at the top of a page and in the handbook's lists, as closed records.

Every key is known and stands in a fixed order; nothing is guessed. The order of the fields is the order in the file.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date
from types import MappingProxyType
from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, model_validator

Level = Literal["anyone", "helper", "technician", "licensed"]

# Who each level is, as it is printed at the top of a page. A licence is separate, not a higher rank.
LEVELS: Mapping[Level, str] = MappingProxyType(
    {
        "anyone": "Anyone, without tools and without opening anything",
        "helper": "A trained helper, on a dead machine, under a technician who answers for it",
        "technician": "A technician qualified to measure on live parts",
        "licensed": "A person licensed to work on refrigerant; being a technician is not enough",
    }
)

# The same in one word, for lists and for single steps.
LEVEL_NAMES: Mapping[Level, str] = MappingProxyType(
    {"anyone": "Anyone", "helper": "Helper", "technician": "Technician", "licensed": "Licensed person"}
)


_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


def _day(value: Any) -> Any:
    if isinstance(value, date):
        return value
    if not isinstance(value, str) or not _DAY.fullmatch(value):
        raise ValueError("write a day such as 2026-01-31")
    try:
        return date.fromisoformat(value)
    except ValueError as broken:
        raise ValueError("write a day that is in the calendar, such as 2026-01-31") from broken


Day = Annotated[date, BeforeValidator(_day)]
Key = Annotated[str, Field(pattern=r"^[a-z0-9]+(?:-[a-z0-9]+)*$")]
Number = Annotated[float, Field(strict=True)]
Line = Annotated[str, Field(min_length=3, pattern=r"^[^\n]*$")]
Word = Annotated[str, Field(min_length=1, pattern=r"^[^\n]*$")]


class Strict(BaseModel):
    """A record that people write: unknown keys are refused, nothing is guessed."""

    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False)


class Front(Strict):
    """What every page says about itself: name, summary, search words, and how long it may be relied on."""

    id: Key
    title: Line
    kind: str
    summary: Line
    also_called: list[Word]
    revision: Annotated[int, Field(strict=True, ge=1)]
    effective: Day
    review_by: Day
    approved_by: Line
    safety_approved_by: Line | None = None


class PageFront(Front):
    """The front matter of a page that is not a procedure and holds no dangerous step."""

    kind: Literal["start", "reference", "lesson"]

    @model_validator(mode="after")
    def _no_safety_approval(self) -> PageFront:
        if self.safety_approved_by is not None:
            raise ValueError(f"safety_approved_by belongs to pages of kind safety or procedure, not {self.kind}")
        return self


class SafetyFront(Front):
    """The front matter of a safety page: two roles approve it."""

    kind: Literal["safety"]
    safety_approved_by: Line


class ProcedureFront(Front):
    """The front matter of a procedure: who may do it, what can hurt, and what it needs and leads to."""

    kind: Literal["procedure"]
    level: Level
    hazards: list[Key]
    instruments: list[Key]
    calculators: list[Key]
    limits: list[str]
    leads_to: list[Key]
    safety_approved_by: Line


FRONTS: Mapping[str, type[Front]] = MappingProxyType(
    {
        "procedure": ProcedureFront,
        "safety": SafetyFront,
        "start": PageFront,
        "reference": PageFront,
        "lesson": PageFront,
    }
)

_SHARED_TAIL = ("revision", "effective", "review_by", "approved_by")
_SHARED_HEAD = ("id", "title", "kind", "summary", "also_called")

# The keys of each kind of page, in the order in which they stand in the file.
KEY_ORDER: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "procedure": (
            *_SHARED_HEAD,
            *("level", "hazards", "instruments", "calculators", "limits", "leads_to"),
            *_SHARED_TAIL,
            "safety_approved_by",
        ),
        "safety": (*_SHARED_HEAD, *_SHARED_TAIL, "safety_approved_by"),
        "start": (*_SHARED_HEAD, *_SHARED_TAIL),
        "reference": (*_SHARED_HEAD, *_SHARED_TAIL),
        "lesson": (*_SHARED_HEAD, *_SHARED_TAIL),
    }
)


class Hazard(Strict):
    """One thing that can hurt: what to beware of and what is done about it."""

    title: Line
    caution: Line
    controls: list[Line] = Field(min_length=1)
    review_months: Annotated[int, Field(strict=True, ge=1, le=24)] = 24


class Instrument(Strict):
    """One instrument: what it is, the rating it must carry, and what to mind."""

    title: Line
    rating: Line
    note: str = ""


class Term(Strict):
    """One word of the trade, what it means here, and the other words people use for it.

    everyday: the word has other meanings in plain English too, and is not linked where it stands in prose.
    """

    meaning: Line
    also: list[Word] = Field(default_factory=list)
    everyday: bool = False


class NavigationGroup(Strict):
    """Pages that stand together under one heading of the menu."""

    title: Line
    pages: list[Key] = Field(min_length=1)


class Navigation(Strict):
    """Which written pages stand in the menu, and in which order; every one of them exactly once."""

    start: list[Key]
    procedures: list[NavigationGroup]
    safety: list[Key] = Field(default_factory=list)
    reference: list[Key] = Field(default_factory=list)
    training: list[Key] = Field(default_factory=list)


class AnswerEntry(Strict):
    """One answer of a question of the decision map: its words, where it leads, what is done and written on the way."""

    label: Line
    leads_to: Key
    note: str = ""
    also_write: str = ""


class QuestionEntry(Strict):
    """One question of the decision map: how it is answered, by whom, and where each answer leads."""

    question: Line
    how: Line
    level: Level
    stop: bool = False
    procedures: list[Key] = Field(min_length=1)
    checks: list[Key] = Field(default_factory=list)
    answers: dict[Key, AnswerEntry] = Field(min_length=1)
    cannot_tell: Key


class FindingEntry(Strict):
    """Where a walk ends: what is written, and what must be in hand before it is."""

    title: Line
    write: Line
    kind: Literal["fault", "watch", "danger", "elsewhere", "open"]
    evidence: list[Line] = Field(min_length=1)
    licensed: bool = False
    stop: bool = False
    procedure: Key


class StopReasonEntry(Strict):
    """One reason to stop at once."""

    id: Key
    label: Line
    leads_to: Key


class StopEntry(Strict):
    """The reasons that stop every walk, wherever it stands."""

    question: Line
    reasons: list[StopReasonEntry] = Field(min_length=1)


class DecisionsFile(Strict):
    """One file of handbook/decisions/: a subject, and what of the map belongs to it."""

    subject: Line
    source: str
    first: Key | None = None
    stop: StopEntry | None = None
    checks: dict[Key, Line] = Field(default_factory=dict)
    questions: dict[Key, QuestionEntry] = Field(default_factory=dict)
    findings: dict[Key, FindingEntry] = Field(default_factory=dict)
