"""What is known of one machine: readings as their calculators judge them, and what was looked at. Never what is wrong.

A case's id and the finding it must reach are not in here, so that no answer can be made from them.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import Any

from calculators import CALCULATORS
from calculators.answer import answer
from calculators.inputs import MeterInput
from calculators.limits import InForce, Standards
from calculators.units import to_base

DAY = "2026-11-25"
AS_FOUND, AFTER_THE_WAIT = "as found", "after the wait"
WITH_SUBSTITUTE, AFTER_THE_MEND = "with a substitute", "after the mend"
TIMES = (AS_FOUND, AFTER_THE_WAIT, WITH_SUBSTITUTE, AFTER_THE_MEND)


@dataclass(frozen=True)
class Taken:
    """One reading: which calculator it goes into, when and on what it was taken, and what is typed."""

    name: str
    calculator: str
    typed: Mapping[str, str]
    when: str = AS_FOUND
    part: str = ""

    def with_plate(self, plate: Mapping[str, str]) -> Taken:
        """The same with what the plate says, wherever its calculator asks for it."""
        asked = {one.name for one in CALCULATORS[self.calculator].inputs}
        typed = {name: text for name, text in plate.items() if name in asked} | dict(self.typed)
        return Taken(self.name, self.calculator, typed, self.when, self.part)

    def without(self, fields: list[str]) -> Taken:
        """The same with some fields left empty."""
        typed = {name: text for name, text in self.typed.items() if name not in fields}
        return Taken(self.name, self.calculator, typed, self.when, self.part)

    def with_meters(self, times: float) -> Taken:
        """The same, read with meters whose percent and counts are that many times as wide."""
        typed = dict(self.typed)
        for meter in CALCULATORS[self.calculator].inputs:
            if isinstance(meter, MeterInput):
                for part, default in (("percent", meter.percent), ("counts", meter.counts)):
                    name = f"{meter.name}_{part}"
                    typed[name] = f"{times * float(self.typed.get(name, default)):g}"
        return Taken(self.name, self.calculator, typed, self.when, self.part)


@dataclass(frozen=True)
class Seen:
    """The readings of one machine in any order, and the observations by their names."""

    readings: tuple[Taken, ...]
    observations: Mapping[str, str]
    standards: Standards

    @property
    def limits(self) -> InForce:
        """The limits in force on the day of every case."""
        return self.standards.in_force(date.fromisoformat(DAY))

    @cached_property
    def replies(self) -> tuple[tuple[Taken, dict[str, Any]], ...]:
        """Every reading with what its calculator answers."""
        return tuple((one, ask(one.calculator, one.typed, self.standards)) for one in self.readings)

    def said(self, calculator: str, *, when: str | None = None, part: str | None = None) -> Iterator[dict[str, Any]]:
        """What a calculator answered, for every reading of that time and part."""
        for one, reply in self.replies:
            if one.calculator == calculator and when in (None, one.when) and part in (None, one.part):
                yield reply

    def findings(self, calculator: str, name: str, **which: str) -> list[dict[str, Any]]:
        """The findings of that name."""
        return [
            finding
            for reply in self.said(calculator, **which)
            for finding in reply.get("findings", ())
            if finding["name"] == name
        ]

    def verdict(self, calculator: str, name: str, **which: str) -> str:
        """The one verdict of that name; empty where nothing was read, undecided where two readings differ."""
        verdicts = {one["verdict"] for one in self.findings(calculator, name, **which)}
        return verdicts.pop() if len(verdicts) == 1 else "undecided" if verdicts else ""

    def limit_of(self, calculator: str, name: str, **which: str) -> str:
        """The key of the limit that a finding rests on; empty where there is none or where two differ."""
        keys = {(one["limit"] or {}).get("key", "") for one in self.findings(calculator, name, **which)}
        return str(keys.pop()) if len(keys) == 1 else ""

    def would_be_decided_in(self, calculator: str, name: str, **which: str) -> str:
        """The field that would decide an undecided finding; empty where there is none."""
        fields = {(one["decider"] or {}).get("enter_in", "") for one in self.findings(calculator, name, **which)}
        return str(fields.pop()) if len(fields) == 1 else ""

    def result(self, calculator: str, name: str, **which: str) -> str:
        """A result's value as it is printed; empty where there is none or where two differ."""
        values = {
            one["value"]
            for reply in self.said(calculator, **which)
            for one in reply.get("results", ())
            if one["name"] == name
        }
        return str(values.pop()) if len(values) == 1 else ""

    def look(self, name: str) -> str:
        """What was seen, heard, smelled or told under that name; empty where nobody looked."""
        return self.observations.get(name, "")

    def measure(self, name: str) -> float | None:
        """An observed time or temperature in base units, written as a number and a unit."""
        number, _, unit = self.look(name).partition(" ")
        return to_base(float(number), unit) if number else None

    def limit(self, key: str) -> float:
        """A limit in base units."""
        limit = self.limits.limit(key)
        return to_base(limit.value, limit.unit)


def ask(calculator: str, typed: Mapping[str, str], standards: Standards) -> dict[str, Any]:
    """One request through the front door of the calculators."""
    inputs = {name: {"text": text} for name, text in typed.items()}
    reply: dict[str, Any] = json.loads(
        answer(json.dumps({"calculator": calculator, "date": DAY, "inputs": inputs}), standards)
    )
    return reply
