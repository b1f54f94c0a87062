"""What a run found, as groups of rows with their targets; printed as a table and written as a file of the handbook."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

import yaml
from rich.console import Console
from rich.table import Table

from build_scripts.read_measurements import (
    MEASUREMENTS_FILE,
    Measurement,
    MeasurementGroup,
    Measurements,
    Spread,
    Target,
)
from build_scripts.write_measurements import outcome_text, ratio_text, spread_text, target_text
from tests.bench.builds import Compared
from tests.bench.figures import once, percentile, spread
from tests.bench.in_the_page import Clicks
from tests.bench.search_times import SearchTimes
from tests.bench.sizes import Saved
from tests.bench.start_ups import SETTLES, START_PATIENCE, Times

STOCK = "Same pages, stock start"
PLAIN = "Plain Material"

# Times the stock start of the same engine, by engine: first visit, later visits.
FIRST_TARGET = 0.30
LATER_TARGETS = {"Chromium": 0.20, "Firefox": 0.25, "WebKitGTK": 0.15}

MEASURED = (
    "From the moment when the browser begins to open a calculator's page until the page shows the first answer of "
    "Python. The other one is the same page in the same engine, in the same state and in the same run, turn by turn, "
    "whose worker loads Pyodide as its documentation says."
)
# By whether the engine keeps what was saved when its process ends.
PROCESSES = {
    True: f"Each time is a new process of the browser, let alone for {SETTLES:.0f} seconds unless it says at once.",
    False: (
        "This engine's browser keeps nothing when it ends. So a first visit is a new process, let alone for "
        f"{SETTLES:.0f} seconds, and what was visited before was visited in the same process, with an empty page between. "
        "Network off is not measured in it."
    ),
}


def times_target(most: float) -> Target:
    """At most so many times the other one."""
    return Target(most=most, of="the other")


def own_target(most: float) -> Target:
    """At most so much by itself."""
    return Target(most=most, of="itself")


def start_up_group(engine: str, times: Times, *, keeps: bool = True, missing: Sequence[str] = ()) -> MeasurementGroup:
    """From opening a page until its calculator answers, in one engine; the first group names the engines that are missing."""
    how = [MEASURED if engine == "Chromium" else "Measured as in Chromium, in the same run.", PROCESSES[keeps]]
    if missing:
        how.append(f"Not measured in this run: {' and '.join(missing)}.")
    if times.stock_unanswered:
        how.append(
            f"{times.stock_unanswered} of {times.stock_starts} stock starts did not answer within {START_PATIENCE:.0f} "
            "seconds; each time the page was opened once more in a new process, and that opening counts."
        )
    rows = list(_start_up_rows(engine, times, keeps))
    return MeasurementGroup(
        title=f"Opening a page until it computes, in {engine}", how=" ".join(how), other=STOCK, rows=rows
    )


def _start_up_rows(engine: str, times: Times, keeps: bool) -> Iterator[Measurement]:
    later = times_target(LATER_TARGETS[engine])
    visited = "device already visited" if keeps else "visited before in the same process"
    again = "again from disk" if keeps else "again from disk in the same process"
    kinds = [
        ("first visit, http", "ours first", "stock first", times_target(FIRST_TARGET)),
        (f"{visited}, http", "ours visited", "stock visited", later),
        (f"{visited}, http, at once when the browser has been started", "ours at once", "stock at once", None),
        (f"{visited}, network off", "ours off", "stock off", later),
        ("first time from disk, beside a first visit over http", "disk first", "stock first", None),
        (f"{again}, beside a later visit over http", "disk visited", "stock visited", later),
    ]
    for what, ours, stock, target in kinds:
        if ours in times.openings:
            here, other = spread(times.usable(ours), 0), spread(times.usable(stock), 0)
            yield Measurement(what=f"{engine}, {what}", unit="ms", here=here, other=other, target=target)


def page_group(clicks: Clicks, keystrokes: dict[str, list[float]]) -> MeasurementGroup:
    """In a page that is open."""
    every = [one for times in keystrokes.values() for one in times]
    worst = max(keystrokes, key=lambda slug: percentile(keystrokes[slug], 95))
    slowest_page = max(clicks.times, key=lambda slug: percentile(clicks.times[slug], 50))
    rows = [
        _share("Click to the next page, until its calculator answers", clicks.all, 50, 100.0),
        _share(
            "Click to the next page, until its calculator answers",
            clicks.all,
            95,
            100.0,
            note=f"Slowest to come is {slowest_page}.",
        ),
        _share("Keystroke until its result is shown", every, 50, None),
        _share("Keystroke until its result is shown", every, 95, 16.0),
        _share(f"The same in the slowest calculator, {worst}", keystrokes[worst], 95, 16.0),
    ]
    how = (
        f"In Chromium, over http. {len(clicks.all)} clicks from calculator to calculator and {len(every)} edits of one digit "
        f"in the worked examples of {len(keystrokes)} calculators, each until the page shows what belongs to it."
    )
    return MeasurementGroup(title="In an open page", how=how, rows=rows)


def wire_group(ours_first: int, stock_first: int, reading: dict[str, int], saved: Saved) -> MeasurementGroup:
    """Bytes on the wire."""
    rows = [
        Measurement(
            what="First visit until the calculator answers, from a host that packs nothing",
            unit="MB",
            here=once(ours_first / 1e6),
            other=once(stock_first / 1e6),
        ),
        Measurement(
            what=f"What a page needs before it can be read, packed ({len(reading)} files)",
            unit="kB",
            here=once(sum(reading.values()) / 1e3, 0),
            target=own_target(400.0),
        ),
        Measurement(
            what="Everything saved for offline, packed",
            unit="MB",
            here=once(saved.first_choice / 1e6),
            target=own_target(8.0),
        ),
        Measurement(
            what="What stands in when something fails, saved behind it, packed",
            unit="MB",
            here=once(saved.spare / 1e6),
            target=own_target(1.5),
        ),
    ]
    how = "Bytes as they leave the server. Packed is what a host sends that packs with gzip what gets smaller by it."
    return MeasurementGroup(title="Bytes on the wire", how=how, other=STOCK, rows=rows)


def build_group(compared: Sequence[Compared]) -> MeasurementGroup:
    """What a build takes."""
    rows: list[Measurement] = []
    for one in compared:
        pages = f"{one.pages} pages"
        pairs = [
            ("time", "s", [took.seconds for took in one.ours], [took.seconds for took in one.plain], times_target(1.3)),
            (
                "time of a processor",
                "s",
                [took.processor_seconds for took in one.ours],
                [took.processor_seconds for took in one.plain],
                times_target(1.3),
            ),
            ("most memory", "MB", [took.megabytes for took in one.ours], [took.megabytes for took in one.plain], None),
        ]
        for what, unit, ours, plain, target in pairs:
            rows.append(
                Measurement(
                    what=f"{pages}, {what}", unit=unit, here=spread(ours, 2), other=spread(plain, 2), target=target
                )
            )
        rows.append(
            Measurement(
                what=f"{pages}, size of the site",
                unit="MB",
                here=once(one.our_megabytes, 1),
                other=once(one.plain_megabytes, 1),
                target=own_target(130.0) if one.pages >= 2000 else None,
            )
        )
    how = (
        "The whole build, with packages and the start of Python made before, against the site generator alone on the same "
        "assembled Markdown, menu, features and plugins. Plain means without calculators, without a check and without "
        "what makes the site work offline. A handbook of many pages is this one with its procedures again and again."
    )
    return MeasurementGroup(title="Building the site", how=how, other=PLAIN, rows=rows)


def search_group(pages: int, times: SearchTimes) -> MeasurementGroup:
    """Search in a large handbook."""
    answers = list(times.answers.values())
    slowest = max(times.answers, key=lambda word: times.answers[word])
    rows = [
        Measurement(what="From opening the page until search can be asked", unit="ms", here=once(times.ready, 0)),
        _share("From a typed word to its list", answers, 50, None),
        _share("From a typed word to its list", answers, 95, None, note=f"Slowest was “{slowest}”."),
    ]
    how = f"In Chromium, over http, in a handbook of {pages} pages; {len(answers)} words that people type."
    return MeasurementGroup(title="Search in a large handbook", how=how, rows=rows)


def print_tables(run: Measurements) -> None:
    """Print every group as a table."""
    console = Console(width=150)
    console.print(f"{run.taken}, {run.machine}. {run.conditions}")
    console.print(", ".join(f"{name} {version}" for name, version in run.versions.items()))
    for group in run.groups:
        console.print()
        console.print(group.how)
        table = Table(
            "What", "This handbook", "", "Times", "Target", "Reached", title=group.title, title_justify="left"
        )
        table.columns[2].header = group.other or ""
        for row in group.rows:
            other = "" if row.other is None else spread_text(row.other)
            table.add_row(
                f"{row.what}, {row.unit}",
                spread_text(row.here),
                other,
                ratio_text(row),
                target_text(row),
                outcome_text(row),
            )
        console.print(table)


def write_run(run: Measurements, handbook: Path) -> None:
    """Write the run where the build reads it."""
    head = "# The last run of the benchmark, written by it: .environment/bin/python -m tests.bench --write. Nobody edits this.\n"
    data = run.model_dump(mode="json", exclude_defaults=True)
    text = yaml.safe_dump(data, allow_unicode=True, sort_keys=False, width=110)
    (handbook / MEASUREMENTS_FILE).write_text(head + text, encoding="utf-8", newline="\n")


def _share(what: str, values: Sequence[float], percent: int, most: float | None, note: str = "") -> Measurement:
    here = Spread(
        middle=round(percentile(values, percent), 1),
        least=round(min(values), 1),
        most=round(max(values), 1),
        runs=len(values),
    )
    target = None if most is None else own_target(most)
    return Measurement(what=f"{what}, {percent} of 100 are quicker", unit="ms", here=here, target=target, note=note)
