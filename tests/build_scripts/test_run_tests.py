"""The command `test`: what runs, what is said, how it ends. It is not run inside itself; its parts are."""

from __future__ import annotations

import subprocess
import sys

import pytest

from build_scripts import browser_setup, run_tests, site_state
from build_scripts.environment import MissingError


def says(text: str, code: int) -> list[str]:
    return [sys.executable, "-c", f"print({text!r}); raise SystemExit({code})"]


def test_every_check_runs_and_the_failed_ones_are_named_with_what_they_found(tmp_path):
    told: list[str] = []
    commands = {"first": says("a quiet line", 0), "second": says("line 7 is wrong", 1), "third": says("no", 2)}
    assert run_tests.run_checks(commands, tmp_path, told.append) == ["second", "third"]
    assert told == [
        "first: nothing to mend",
        "second: something to mend\nline 7 is wrong",
        "third: something to mend\nno",
    ]


def test_style_types_and_scripts_are_all_checked(root):
    assert list(run_tests.checks(root)) == ["ruff check", "ruff format", "mypy", "tsc"]


@pytest.mark.parametrize(
    ("tests", "failed", "code"),
    [(0, [], 0), (0, ["mypy"], 1), (1, [], 1), (1, ["mypy"], 1), (2, [], 1), (3, [], 1), (4, [], 2), (5, [], 2)],
)
def test_one_code_stands_for_the_whole(tests, failed, code):
    assert run_tests.exit_code(tests, failed) == code


@pytest.fixture
def stage(monkeypatch, tmp_path):
    """The command with its browser found, its site in order, and every program it starts noted instead of run."""
    started: list[list[str]] = []

    def start(command, **options):
        started.append([str(word) for word in command])
        return subprocess.CompletedProcess(command, 0, b"", b"")

    monkeypatch.setattr(run_tests, "ensure_browser", lambda say: tmp_path / "chromium")
    monkeypatch.setattr(run_tests, "ensure_engines", lambda say: [])
    monkeypatch.setattr(run_tests, "site_is_current", lambda root: True)
    monkeypatch.setattr(run_tests, "processors", lambda: 1)
    monkeypatch.setattr(run_tests.subprocess, "run", start)
    return started


def test_without_arguments_the_checks_run_first_and_pytest_last(stage, tmp_path):
    assert run_tests.run_tests(tmp_path, (), long_run=False, say=lambda sentence: None) == 0
    assert [command[1:3] for command in stage[:3]] == [["-m", "ruff"], ["-m", "ruff"], ["-m", "mypy"]]
    assert "tsc" in stage[3][1]
    assert stage[4:] == [[sys.executable, "-m", "pytest"]]


def test_on_two_processors_the_whole_is_parted_and_what_was_chosen_is_not(stage, tmp_path, monkeypatch):
    monkeypatch.setattr(run_tests, "processors", lambda: 2)
    run_tests.run_tests(tmp_path, (), long_run=True, say=lambda sentence: None)
    run_tests.run_tests(tmp_path, ("-k", "drop"), long_run=False, say=lambda sentence: None)
    pytest_of_the_whole, pytest_of_the_chosen = stage[4:]
    assert pytest_of_the_whole[3:6] == ["--long", "-n", "2"]
    assert pytest_of_the_chosen[3:] == ["-k", "drop"]


def test_with_arguments_pytest_alone_runs(stage, tmp_path):
    run_tests.run_tests(tmp_path, ("-k", "drop"), long_run=True, say=lambda sentence: None)
    assert stage == [[sys.executable, "-m", "pytest", "--long", "-k", "drop"]]


def test_a_stale_site_is_built_first(stage, tmp_path, monkeypatch):
    built = []
    monkeypatch.setattr(run_tests, "site_is_current", lambda root: False)
    monkeypatch.setattr(run_tests, "build_and_note", lambda root, say: built.append((root, len(stage))))
    run_tests.run_tests(tmp_path, (), long_run=False, say=lambda sentence: None)
    assert built == [(tmp_path, 0)]


def test_a_missing_browser_stops_the_whole_run_but_not_a_chosen_test(stage, tmp_path, monkeypatch):
    def missing(say):
        raise MissingError("There is no browser here: install one.")

    monkeypatch.setattr(run_tests, "ensure_browser", missing)
    with pytest.raises(MissingError):
        run_tests.run_tests(tmp_path, (), long_run=False, say=lambda sentence: None)
    assert stage == []
    told: list[str] = []
    assert run_tests.run_tests(tmp_path, ("-k", "drop"), long_run=False, say=told.append) == 0
    assert told == ["There is no browser here: install one."]


def test_an_engine_that_cannot_be_had_is_handed_on_with_its_reason_and_stops_nothing(stage, tmp_path, monkeypatch):
    monkeypatch.setattr(run_tests, "ensure_engines", lambda say: ["An engine is not driven: it is not here."])
    assert run_tests.run_tests(tmp_path, (), long_run=False, say=lambda sentence: None) == 0
    assert stage[4:] == [[sys.executable, "-m", "pytest", "--not-driven=An engine is not driven: it is not here."]]


def test_chosen_tests_install_no_engine(stage, tmp_path, monkeypatch):
    monkeypatch.setattr(run_tests, "ensure_engines", lambda say: pytest.fail("it would install"))
    assert run_tests.run_tests(tmp_path, ("-k", "drop"), long_run=False, say=lambda sentence: None) == 0


def test_a_check_that_failed_is_named_beside_the_summary_of_the_tests(root, tmp_path):
    (tmp_path / "test_one.py").write_text("def test_one(): pass\n", encoding="utf-8")
    options = (root / "tests" / "conftest.py").read_text(encoding="utf-8")
    (tmp_path / "conftest.py").write_text(options, encoding="utf-8")
    (tmp_path / "pytest.ini").write_text("[pytest]\n", encoding="utf-8")
    done = subprocess.run(
        [
            *[sys.executable, "-m", "pytest", "--failed-check=mypy", "--not-driven=No engine here.", "--seed=7"],
            *["-p", "no:cacheprovider"],
        ],
        cwd=tmp_path,
        check=False,
        capture_output=True,
        encoding="utf-8",
    )
    lines = done.stdout.strip().splitlines()
    assert "FAILED before the tests: mypy (what it found stands above)" in lines
    assert "No engine here." in lines
    assert "1 passed" in lines[-1]
    assert "counts: sampled; seed 7 (repeat with --seed 7)" in lines


def test_the_browser_is_the_one_named_or_the_one_on_the_path(tmp_path):
    named = tmp_path / "mine"
    named.touch()
    on_path = tmp_path / "bin" / "chromium-browser"
    on_path.parent.mkdir()
    on_path.touch(mode=0o755)
    path = {"PATH": str(on_path.parent)}
    assert browser_setup.find_browser(path) == on_path
    assert browser_setup.find_browser(path | {"THREEPIN_BROWSER": str(named)}) == named


def test_a_named_browser_that_is_not_there_is_said(tmp_path):
    with pytest.raises(MissingError) as missing:
        browser_setup.find_browser({"THREEPIN_BROWSER": str(tmp_path / "gone")})
    assert str(tmp_path / "gone") in str(missing.value)


def test_without_a_browser_and_without_the_right_to_install_one_it_says_how(monkeypatch):
    monkeypatch.setattr(browser_setup, "find_browser", lambda: None)
    monkeypatch.setattr(browser_setup, "may_install", lambda: False)
    with pytest.raises(MissingError) as missing:
        browser_setup.ensure_browser(lambda sentence: None)
    assert "apt install chromium" in str(missing.value)


@pytest.fixture
def project(tmp_path):
    """A project of three files, and a site that was built from them."""
    for name in ("handbook/a.md", "calculators/b.py", "mkdocs.yml", "build/site/index.html"):
        file = tmp_path / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(name, encoding="utf-8")
    return tmp_path


@pytest.fixture
def built(project, monkeypatch):
    def build_site(root, say):
        (root / "build" / "site" / "index.html").write_text("built", encoding="utf-8")

    monkeypatch.setattr("build_scripts.build.build_site", build_site)
    site_state.build_and_note(project, lambda sentence: None)
    return project


def test_a_site_that_nobody_noted_is_stale(project):
    assert not site_state.site_is_current(project)


def test_a_site_just_built_is_current(built):
    assert site_state.site_is_current(built)


@pytest.mark.parametrize("file", ["handbook/a.md", "calculators/b.py", "mkdocs.yml"])
def test_a_changed_file_makes_the_site_stale(built, file):
    (built / file).write_text("changed", encoding="utf-8")
    assert not site_state.site_is_current(built)


def test_a_new_a_renamed_or_a_deleted_file_makes_the_site_stale(built):
    (built / "handbook" / "new.md").touch()
    assert not site_state.site_is_current(built)
    (built / "handbook" / "new.md").unlink()
    assert site_state.site_is_current(built)
    (built / "handbook" / "a.md").rename(built / "handbook" / "c.md")
    assert not site_state.site_is_current(built)


def test_a_deleted_site_is_stale(built):
    (built / "build" / "site" / "index.html").unlink()
    assert not site_state.site_is_current(built)


def test_a_build_that_failed_leaves_no_note(built, monkeypatch):
    def broken(root, say):
        raise OSError("no room left")

    monkeypatch.setattr("build_scripts.build.build_site", broken)
    with pytest.raises(OSError, match="no room left"):
        site_state.build_and_note(built, lambda sentence: None)
    assert not site_state.site_is_current(built)
