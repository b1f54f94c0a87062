"""How a technician answers the decision map from the readings and observations of one machine: one table for all cases.

A measured question is answered by what the calculators say, never by a number compared here. What was not read, what is
undecided, and what two readings disagree about cannot be told. Only observed times and temperatures, which no calculator
takes, are held against their limits.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from calculators.decisions import CANNOT_TELL
from tests.practice import answers_at_rest, answers_under_power
from tests.practice.looked_at import LOOKED_AT, STOPS
from tests.practice.seen import Seen

MEASURED: Mapping[str, Callable[[Seen], str]] = {**answers_at_rest.ANSWERS, **answers_under_power.ANSWERS}


def answer_to(question: str, seen: Seen) -> str:
    """The answer to a question, by its id in the map."""
    if question in MEASURED:
        return MEASURED[question](seen)
    name, meanings = LOOKED_AT[question]
    return meanings.get(seen.look(name), CANNOT_TELL)


def reason_to_stop(seen: Seen) -> str:
    """The first reason to stop that was noticed; empty when there is none."""
    return next((meanings[seen.look(name)] for name, meanings in STOPS.values() if seen.look(name) in meanings), "")
