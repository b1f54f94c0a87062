"""The last run of the benchmark, as a file of the handbook: written by tests/bench, read here, shown as a page.

Whether a target was reached is not written down but worked out, so that the file cannot say what its numbers do not.
"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

from pydantic import Field, model_validator

from build_scripts.errors import Mistake
from build_scripts.read_yaml import read_file, read_yaml, to_record
from build_scripts.records import Day, Line, Number, Strict, Word

MEASUREMENTS_FILE = "measurements.yaml"


class Spread(Strict):
    """The middle of several runs of one thing, with the least and the most of them."""

    middle: Number
    least: Number
    most: Number
    runs: Annotated[int, Field(strict=True, ge=1)]

    @model_validator(mode="after")
    def _in_order(self) -> Spread:
        if not self.least <= self.middle <= self.most:
            raise ValueError("the middle lies between the least and the most")
        return self


class Target(Strict):
    """What was to be reached: at most so many times what it is compared with, or at most so much by itself."""

    most: Number
    of: Literal["the other", "itself"]


class Measurement(Strict):
    """One thing that was measured, beside the other one in the same run where there is one."""

    what: Line
    unit: Word
    here: Spread
    other: Spread | None = None
    target: Target | None = None
    note: str = ""

    @model_validator(mode="after")
    def _compared_with_something(self) -> Measurement:
        if self.other is None and self.target is not None and self.target.of == "the other":
            raise ValueError("a target that is a part of the other one needs the other one")
        return self

    @property
    def ratio(self) -> float | None:
        """How many times the other one this is."""
        return None if self.other is None else self.here.middle / self.other.middle

    @property
    def reached(self) -> bool | None:
        """Whether the target was reached; None when there is none."""
        if self.target is None:
            return None
        found = self.here.middle if self.target.of == "itself" else self.ratio
        return found is not None and found <= self.target.most


class MeasurementGroup(Strict):
    """Things that were measured in the same way, and what they are compared with."""

    title: Line
    how: Line
    other: str = ""
    rows: list[Measurement] = Field(min_length=1)


class Measurements(Strict):
    """One run of the benchmark."""

    taken: Day
    machine: Line
    conditions: Line
    versions: dict[str, Word]
    groups: list[MeasurementGroup] = Field(min_length=1)

    @property
    def missed(self) -> list[Measurement]:
        """Everything whose target was not reached."""
        return [row for group in self.groups for row in group.rows if row.reached is False]


def read_measurements(handbook: Path, mistakes: list[Mistake]) -> Measurements | None:
    """The last run; None when the handbook has none, as an edition need not."""
    file = handbook / MEASUREMENTS_FILE
    if not file.exists():
        return None
    text, unread = read_file(file)
    data, lines, broken = read_yaml(text, file)
    if unread or broken:
        mistakes += unread or broken
        return None
    record = to_record(Measurements, data, file, lines)
    if isinstance(record, list):
        mistakes += record
        return None
    return record
