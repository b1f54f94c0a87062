"""The page that shows the last run of the benchmark, with every target that was not reached."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from build_scripts.addresses import MEASUREMENTS_PAGE
from build_scripts.fill_templates import fill
from build_scripts.read_handbook import Handbook
from build_scripts.read_measurements import Measurement, MeasurementGroup, Spread


def write_measurements(handbook: Handbook) -> Iterator[tuple[str, str]]:
    """The path and the Markdown of the page; nothing when no run is there."""
    run = handbook.measurements
    if run is None:
        return
    groups = [_group(group) for group in run.groups]
    yield (
        MEASUREMENTS_PAGE,
        fill("measurements.md", run=run, groups=groups, missed=[_missed(row) for row in run.missed]),
    )


def number_text(value: float) -> str:
    """A number with three digits, or all digits before the point."""
    if abs(value) >= 100:
        return f"{value:.0f}"
    return f"{value:.2f}" if abs(value) < 10 else f"{value:.1f}"


def spread_text(spread: Spread) -> str:
    """The middle, and the ends when there was more than one run."""
    middle = number_text(spread.middle)
    if spread.least == spread.most:
        return middle
    return f"{middle} ({number_text(spread.least)} to {number_text(spread.most)})"


def target_text(row: Measurement) -> str:
    """The target as it is read in a table."""
    if row.target is None:
        return ""
    if row.target.of == "itself":
        return f"at most {row.target.most:g} {row.unit}"
    return f"at most {row.target.most:.2f} times"


def outcome_text(row: Measurement) -> str:
    """Whether the target was reached, in a word."""
    return {None: "", True: "reached", False: "missed"}[row.reached]


def ratio_text(row: Measurement) -> str:
    """How many times the other one."""
    return "" if row.ratio is None else f"{row.ratio:.2f}"


def _group(group: MeasurementGroup) -> dict[str, Any]:
    rows = [
        {
            "what": f"{row.what}, {row.unit}",
            "here": spread_text(row.here),
            "other": "" if row.other is None else spread_text(row.other),
            "ratio": ratio_text(row),
            "target": target_text(row),
            "outcome": outcome_text(row),
            "note": row.note,
        }
        for row in group.rows
    ]
    return {"title": group.title, "how": group.how, "other": group.other, "rows": rows}


def _missed(row: Measurement) -> dict[str, str]:
    found = (
        ratio_text(row) + " times"
        if row.target and row.target.of == "the other"
        else f"{number_text(row.here.middle)} {row.unit}"
    )
    return {"what": row.what, "found": found, "target": target_text(row), "note": row.note}
