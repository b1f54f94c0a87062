"""Starts are measured in Firefox and WebKitGTK as in Chromium, and what is particular to one of them is said."""

from __future__ import annotations

from collections.abc import Iterator
from http.client import HTTPConnection
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from build_scripts.engine_setup import ENGINES, FIREFOX, Engine, why_missing
from tests.bench.other_engines import NotDrivenError, drive
from tests.bench.report import start_up_group
from tests.bench.start_ups import (
    EMPTY_PAGE,
    IS_THERE,
    NOBODY_ANSWERS,
    PAGE,
    PAINTED,
    SAVED,
    USABLE,
    Opening,
    StartUps,
    Times,
    WrongStartError,
)
from tests.bench.two_sites import TwoSites

NEVER = None


class Pretended:
    """A browser that does nothing but say when it was usable, and remember what was opened."""

    name = "Pretended"
    version = "1"

    def __init__(self, usable: Iterator[float | None]) -> None:
        self._usable = usable
        self.opened: list[str] = []
        self.closed = False
        self.saved = 0
        self.looks = 0
        self.network = False

    def open(self, url: str) -> None:
        assert not self.closed
        self.opened.append(url if url == EMPTY_PAGE else PAGE)

    def run(self, function: str, *_):
        answers = {
            USABLE: lambda: next(self._usable),
            "() => threepinBench.starts": lambda: ["Python started from the snapshot in 1 ms"],
            PAINTED: lambda: 1.0,
            NOBODY_ANSWERS: lambda: not self.network,
            SAVED: self._save,
            IS_THERE: self._is_there,
        }
        return answers[function]()

    def _is_there(self) -> bool:
        self.looks += 1
        return self.looks > 1

    def _save(self) -> str:
        self.saved += 1
        return "saved"

    def close(self) -> None:
        self.closed = True


@pytest.fixture
def pretend(tmp_path):
    """Start-ups in pretended browsers, which are usable after these times, and the browsers themselves."""
    (tmp_path / "site").mkdir()
    begun: list[Pretended] = []

    def make(*usable: float | None, keeps: bool = True, settles: float = 0) -> tuple[StartUps, list[Pretended]]:
        answers = iter(usable)

        def begin(_: Path) -> Pretended:
            begun.append(Pretended(answers))
            return begun[-1]

        sites = TwoSites(tmp_path / "site", tmp_path / "site")
        return StartUps(sites, begin, tmp_path, keeps=keeps, settles=settles), begun

    return make


@pytest.mark.parametrize("wanted", ENGINES, ids=lambda wanted: wanted.name)
def test_starts_are_measured_in_each_engine_that_can_be_driven(wanted, sites, tmp_path):
    if why := why_missing(wanted):
        pytest.skip(why)
    engine = drive(wanted, tmp_path / "tried")
    assert engine.version
    # Ours twice: the stock start is slow in these engines, and tests/browser/engines/ tries it there.
    starts = StartUps(TwoSites(sites.ours, sites.ours), engine.open, tmp_path, keeps=engine.keeps, settles=0)
    with starts.served():
        starts.first_visits(disk=False)
    assert set(starts.times.openings) == {"ours first", "stock first"}
    assert all(one.usable > one.painted > 0 for (one,) in starts.times.openings.values())
    assert (starts.times.stock_starts, starts.times.stock_unanswered) == (1, 0)


def test_an_engine_that_is_not_here_is_not_driven_and_one_sentence_says_why(tmp_path):
    nowhere = Engine("Nowhere", {"browser": ("no-such-program",)}, ("no-such-package",))
    with pytest.raises(NotDrivenError, match="Nowhere is not driven: there is no no-such-program here"):
        drive(nowhere, tmp_path)


def test_a_browser_that_does_not_start_is_not_driven_and_one_sentence_says_why(tmp_path, monkeypatch):
    broken = tmp_path / "firefox-esr"
    broken.write_text("it cannot run", encoding="utf-8")
    broken.chmod(0o700)
    monkeypatch.setenv("PATH", str(tmp_path))
    with pytest.raises(NotDrivenError, match="Firefox is not driven: it does not start here"):
        drive(FIREFOX, tmp_path / "profile")


def test_each_opening_is_a_process_of_its_own_where_the_browser_keeps_what_it_saved(pretend):
    starts, begun = pretend(1, 2, 3, 4)
    with starts.served():
        starts.later_visits(disk=False)
        starts.later_visits(disk=False)
    assert [one.opened for one in begun] == [[PAGE]] * 4
    assert all(one.closed for one in begun)


def test_a_browser_that_was_just_started_is_let_alone_unless_it_is_to_open_at_once(pretend, monkeypatch):
    waited: list[float] = []
    monkeypatch.setattr("tests.bench.start_ups.time.sleep", waited.append)
    starts, _ = pretend(1, 2, 3, 4, settles=3)
    with starts.served():
        starts.later_visits(disk=False)
        settled = waited.count(3)
        starts.visits_at_once()
    assert settled == 2
    assert waited.count(3) == 2
    assert set(starts.times.openings) == {"ours visited", "stock visited", "ours at once", "stock at once"}


def test_a_browser_that_keeps_nothing_opens_again_in_the_process_of_the_first_visit_with_an_empty_page_between(pretend):
    starts, begun = pretend(1, 2, 3, 4, 5, 6, 7, keeps=False)
    with starts.served():
        starts.later_visits(disk=True)
        starts.go_offline()
        starts.visits_without_network()
        assert not any(one.closed for one in begun)
    assert [one.opened for one in begun] == [[PAGE, EMPTY_PAGE] * 2, [PAGE, EMPTY_PAGE] * 2, [PAGE, EMPTY_PAGE]]
    assert all(one.closed for one in begun)


def test_a_first_visit_is_a_new_process_even_where_the_browser_keeps_nothing(pretend):
    starts, begun = pretend(1, 2, 3, 4, keeps=False)
    with starts.served():
        starts.first_visits(disk=False)
        starts.first_visits(disk=False)
    assert [one.opened for one in begun] == [[PAGE]] * 4


def test_a_start_without_network_that_a_server_could_have_answered_ends_the_run(pretend):
    starts, begun = pretend(1, 2, 3, keeps=False)
    with starts.served():
        starts.later_visits(disk=False)
        starts.go_offline()
        begun[0].network = True
        with pytest.raises(WrongStartError, match="a server still answers"):
            starts.visits_without_network()


def test_a_stock_start_that_never_answers_is_tried_once_more_in_a_new_process_and_is_counted_and_said(pretend):
    starts, begun = pretend(100, NEVER, 900)
    with starts.served():
        starts.first_visits(disk=False)
    assert [one.opened for one in begun] == [[PAGE]] * 3
    assert starts.times.usable("stock first") == [900]
    assert "1 of 2 stock starts did not answer within 60 seconds" in start_up_group("Firefox", starts.times).how


def test_where_the_browser_keeps_nothing_the_new_process_visits_and_saves_first_and_no_server_is_left(pretend):
    starts, begun = pretend(1, 2, 3, NEVER, 5, 6, 900, keeps=False)
    with starts.served():
        starts.later_visits(disk=False)
        starts.go_offline()
        starts.visits_without_network()
        with pytest.raises(ConnectionError):
            HTTPConnection(urlsplit(starts.servers["stock"].address).netloc, timeout=10).connect()
    assert [one.opened for one in begun[1:]] == [[PAGE, EMPTY_PAGE, PAGE], [PAGE, EMPTY_PAGE] * 3]
    assert begun[2].saved == 2
    assert starts.times.usable("stock off") == [900]
    assert (starts.times.stock_starts, starts.times.stock_unanswered) == (5, 1)


@pytest.mark.parametrize(
    "usable", [pytest.param((NEVER,), id="ours"), pytest.param((100, NEVER, NEVER), id="stock twice")]
)
def test_a_start_of_ours_that_never_answers_ends_the_run_and_so_do_two_of_the_other(pretend, usable):
    starts, begun = pretend(*usable)
    with starts.served(), pytest.raises(WrongStartError, match="no answer within 60 s"):
        starts.first_visits(disk=False)
    assert len(begun) == len(usable)


def test_the_rows_of_an_engine_that_keeps_nothing_say_that_it_is_the_same_process():
    kinds = [f"{name} {kind}" for name in ("ours", "stock") for kind in ("first", "visited", "off")]
    times = Times({kind: [Opening(100, 50)] for kind in [*kinds, "disk first", "disk visited"]})
    rows = [row.what for row in start_up_group("WebKitGTK", times, keeps=False).rows]
    assert rows == [
        "WebKitGTK, first visit, http",
        "WebKitGTK, visited before in the same process, http",
        "WebKitGTK, visited before in the same process, network off",
        "WebKitGTK, first time from disk, beside a first visit over http",
        "WebKitGTK, again from disk in the same process, beside a later visit over http",
    ]
    assert not [row.what for row in start_up_group("Firefox", times).rows if "same process" in row.what]


def test_an_engine_that_was_not_measured_is_named():
    times = Times({"ours first": [Opening(100, 50)], "stock first": [Opening(900, 50)]})
    assert "Not measured in this run: WebKitGTK." in start_up_group("Chromium", times, missing=["WebKitGTK"]).how
    assert "Not measured" not in start_up_group("Chromium", times).how
