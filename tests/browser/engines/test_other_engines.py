"""What the handbook promises holds in Firefox and in WebKitGTK too, served and from disk."""

from __future__ import annotations

import contextlib
from pathlib import Path

import pytest

from build_scripts.engine_setup import ENGINES
from build_scripts.name_by_content import packed_file
from build_scripts.pack_runtime import DISK_FOLDER, RUNTIME_FOLDER
from calculators import CALCULATORS
from tests.browser import stock_start
from tests.browser.engines.conftest import launch
from tests.browser.engines.engine import Engine
from tests.same_text.answer_lines import answered
from tests.same_text.random_requests import example_requests

ROOT = Path(__file__).resolve().parents[3]
WINDINGS = "calculators/winding-identification.html"
DIAGNOSTICS = "reference/diagnostics.html"
RUN_CAPACITOR = "procedures/run-capacitor.html"
OUTCOME = "[data-part=outcome] .outcome"
STARTS = "[data-module=diagnostics] [data-start]"

# Every worked example of the page: what was entered, and all words of its outcome, drawings and working included.
WORKED_EXAMPLES = """() => [...document.querySelectorAll(".worked-example")].map((example) => ({
  entries: Object.fromEntries([...example.querySelectorAll("[data-entry]")]
    .flatMap(({ dataset: { entry, text, unit } }) => unit ? [[`${entry}__unit`, unit], [entry, text]] : [[entry, text]])),
  words: example.querySelector(".outcome").textContent.replace(/\\s+/g, ""),
}))"""
WORDS = "s => document.querySelector(s)?.textContent.replace(/\\s+/g, '')"


# Follows a link without a full load, as the theme does while it is served.
FOLLOW = "(to) => { const a = document.createElement('a'); a.href = to; document.body.append(a); a.click(); }"

# Something that is not saved, so that only a server could answer.
ASK_THE_SERVER = "() => fetch('/not-saved').then(() => 'it answered', () => 'nobody is there')"


@pytest.fixture(params=["served", "from disk"])
def opened(request: pytest.FixtureRequest):
    """Opens a page of a folder in an engine, over http or from disk; returns the way to open another one."""
    with contextlib.ExitStack() as servers:

        def open_page(engine: Engine, folder: Path, page: str):
            served = request.param == "served"
            address = (
                servers.enter_context(request.getfixturevalue("serve_folder")(folder)) if served else folder.as_uri()
            )
            engine.open(f"{address}/{page}")
            return lambda other: engine.open(f"{address}/{other}")

        yield open_page


def type_worked_examples(engine: Engine, most: int) -> None:
    """Type the worked examples of the page; each must answer as it stands printed, to the last digit."""
    examples = engine.run(WORKED_EXAMPLES)[:most]
    assert len(examples) == most
    for example in examples:
        engine.click("[data-action=clear]")
        wait_for_outcome(engine, None)
        engine.type_in(example["entries"])
        wait_for_outcome(engine, example["words"])


def wait_for_outcome(engine: Engine, words: str | None) -> None:
    engine.wait(f"the outcome {words}", lambda: engine.run(WORDS, OUTCOME) == words)


def look_for_the_run_capacitor(engine: Engine) -> None:
    """Type into search, and open what it finds."""
    engine.click("[data-md-component=search-query]")
    engine.wait_for_text(".md-search-result__meta", "Type to start searching")
    engine.press("run capacitor")
    # What is found is drawn anew for each letter, and its links carry what was looked for.
    found = f".md-search-result__item a[href*='{RUN_CAPACITOR}?h=run+capacitor']"
    engine.wait_for(found)
    engine.click(found)
    engine.wait("the page found", lambda: RUN_CAPACITOR in engine.run("() => location.pathname"))
    engine.wait_for_text("h1", "Run capacitor")


def starts(engine: Engine) -> list[tuple[str, str]]:
    """Each start of Python on the diagnostics page: the way, and how it ended."""
    return [
        tuple(one)
        for one in engine.run(
            "s => [...document.querySelectorAll(s)].map(({ dataset: d }) => [d.start, d.ended])", STARTS
        )
    ]


def test_worked_examples_answer_as_they_stand_printed_and_python_started_from_the_snapshot(engine, opened, site):
    go = opened(engine, site, WINDINGS)
    type_worked_examples(engine, 4)
    go(DIAGNOSTICS)
    engine.wait_for("[data-module=diagnostics][data-boot=snapshot][data-worker=own]")
    assert starts(engine) == [("snapshot", "ready")]


def test_an_entry_that_cannot_be_used_gets_its_sentence(engine, opened, site):
    opened(engine, site, WINDINGS)
    engine.type_in({"r12": "4.4.4", "r23": "17.9"})
    engine.wait_for_text("[data-field=r12] .field-problem", "two decimal marks")
    engine.type_in({"r12": "4.2", "r13": "13.8", "lead": "0"})
    engine.wait_for_text(f"{OUTCOME} .sentence", "Pin 1 is common, pin 2 is run, pin 3 is start")


def snapshots(folder: Path) -> list[Path]:
    return [*folder.glob(f"{RUNTIME_FOLDER}/python-snapshot-*.bin"), folder / DISK_FOLDER / "snapshot.js"]


def damage(folder: Path) -> None:
    """Change one bit in the middle of each copy of the snapshot; in the one that is a text, one letter."""
    for file in snapshots(folder):
        content = bytearray(file.read_bytes())
        content[len(content) // 2] ^= 1
        file.write_bytes(content)


def remove(folder: Path) -> None:
    for file in snapshots(folder):
        file.unlink()


def hang(folder: Path) -> None:
    """All files come, and then a start from the snapshot goes on for ever."""
    worker = packed_file(folder, "assets/scripts/worker.js")
    worker.rename(worker.with_name("worker-itself.js"))
    worker.write_text(HANGS, encoding="utf-8")


# Stands in the worker's place.
HANGS = """
if (self.name === "snapshot") { self.postMessage({ kind: "loaded" }); for (;;); }
importScripts(new URL("worker-itself.js", self.location.href).href);
"""


@pytest.mark.parametrize(
    ("hurt", "served_why", "disk_why"),
    [
        pytest.param(damage, "it was given up after", "it was given up after", id="damaged"),
        pytest.param(remove, "could not be fetched (status 404)", "is missing from this folder", id="not there"),
    ],
)
def test_without_its_snapshot_python_starts_the_ordinary_way_answers_the_same_and_says_why(
    engine, opened, copy_with, hurt, served_why, disk_why
):
    go = opened(engine, copy_with(hurt), WINDINGS)
    type_worked_examples(engine, 2)
    go(DIAGNOSTICS)
    engine.wait_for("[data-module=diagnostics][data-boot=ordinary]")
    assert starts(engine) == [("snapshot", "failed"), ("ordinary", "ready")]
    why = served_why if engine.run("() => location.protocol") == "http:" else disk_why
    assert why in engine.texts(STARTS)[0]
    engine.errors.clear()  # the engine itself complains of the file as well


def test_search_finds_a_page_and_leads_to_it(engine, opened, site):
    opened(engine, site, "index.html")
    look_for_the_run_capacitor(engine)


@pytest.mark.parametrize("wanted", ENGINES, ids=lambda wanted: wanted.name)
def test_a_stock_start_of_python_prints_the_same_text(wanted, serve_folder, site, tmp_path):
    standards_text = packed_file(site, "assets/data/standards.json").read_text(encoding="utf-8")
    requests = [one for calculator in CALCULATORS.values() for one in example_requests(calculator)]
    # In a browser of its own: behind the other tests of a session Firefox now and then never answers here.
    with (
        serve_folder(stock_start.make_stock_folder(ROOT, tmp_path / "stock")) as address,
        contextlib.closing(launch(wanted, tmp_path)) as engine,
    ):
        engine.open(f"{address}/{stock_start.PAGE}")
        there = engine.run(stock_start.ANSWERS, standards_text, requests)
        assert [url for url in engine.asked_for() if url.endswith("python_stdlib.zip")]
        assert engine.errors == []
    assert there == answered(standards_text, requests, True)


def test_a_snapshot_that_hangs_is_given_up_after_ten_seconds(engine, copy_with, serve_folder):
    with serve_folder(copy_with(hang)) as address:
        engine.open(f"{address}/{WINDINGS}")
        type_worked_examples(engine, 1)
        engine.run(FOLLOW, f"../{DIAGNOSTICS}")  # the same visit, so the same Python
        engine.wait_for("[data-module=diagnostics][data-boot=ordinary]")
    assert starts(engine) == [("snapshot", "failed"), ("ordinary", "ready")]
    assert "it did not get ready in time" in engine.texts(STARTS)[0]


@pytest.mark.parametrize("wanted", ENGINES, ids=lambda wanted: wanted.name)
def test_after_one_visit_a_page_never_seen_computes_without_network(wanted, serve_folder, site, tmp_path):
    with contextlib.ExitStack() as ending:
        engine = ending.enter_context(contextlib.closing(launch(wanted, tmp_path)))
        with serve_folder(site) as address:
            engine.open(f"{address}/index.html")
            engine.wait_for("[data-part=saved][data-saved=saved]")
        if engine.keeps:  # where it keeps nothing, only the same process can show it
            engine.close()
            engine = ending.enter_context(contextlib.closing(launch(wanted, tmp_path)))
        engine.open(f"{address}/{WINDINGS}")
        assert engine.run(ASK_THE_SERVER) == "nobody is there"
        type_worked_examples(engine, 2)
        engine.wait_for("[data-part=saved][data-saved=saved]")
        engine.open(f"{address}/{DIAGNOSTICS}")
        engine.wait_for("[data-module=diagnostics][data-boot=snapshot]")
        assert starts(engine) == [("snapshot", "ready")]
        look_for_the_run_capacitor(engine)
