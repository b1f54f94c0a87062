"""The verbs, their help, and how a command ends when something is not as it should be."""

from __future__ import annotations

import pytest
from click.testing import CliRunner

from build_scripts import command_line
from build_scripts.errors import HandbookError, Mistake


def test_the_help_names_every_verb_and_every_exit_code(run):
    ended = run("--help")
    assert ended.code == 0
    for verb in ("build", "serve", "check", "calc", "test"):
        assert f"\n  {verb} " in ended.out
    for line in (
        "0  done",
        "1  the handbook has mistakes, or a test failed",
        "2  wrong usage, or entries that cannot be used",
        "3  this computer lacks something; the message says what",
        "4  Threepin itself broke; the message says where the details are",
    ):
        assert line in ended.out


def test_a_mistyped_verb_gets_the_nearest_one(run):
    ended = run("biuld")
    assert ended.code == 2
    assert "There is no verb biuld. Did you mean build?" in ended.err
    assert ended.out == ""


def test_a_verb_like_no_other_gets_them_all(run):
    ended = run("xyzzy")
    assert ended.code == 2
    assert "There is no verb xyzzy. The verbs are: build, serve, check, calc, test." in ended.err


def test_an_unknown_option_is_wrong_usage(run):
    ended = run("calc", "--lits")
    assert ended.code == 2
    assert "--lits" in ended.err
    assert "--list" in ended.err


def test_serving_without_a_site_says_what_to_do(run, tmp_path):
    ended = run("serve", "--folder", str(tmp_path / "nothing"))
    assert ended.code == 2
    assert f"There is no site in {tmp_path / 'nothing'}; check the path." in ended.err


def test_serving_before_the_first_build_says_to_build(monkeypatch, tmp_path, capsys):
    monkeypatch.setattr(command_line.serve.params[1], "default", tmp_path)
    monkeypatch.setattr(command_line, "SITE", tmp_path)
    assert command_line.main(["serve"]) == 2
    assert f"There is no site in {tmp_path}; make it first: python3 -m build_scripts build." in capsys.readouterr().err


@pytest.mark.parametrize("port", ["-1", "65536", "eighty"])
def test_a_port_that_is_none_is_refused(run, port):
    ended = run("serve", "--port", port)
    assert ended.code == 2
    assert "'--port'" in ended.err
    assert port in ended.err


def test_mistakes_in_the_handbook_are_all_printed_and_counted(monkeypatch, tmp_path, capsys):
    mistakes = [
        Mistake(tmp_path / "a.yaml", 3, "unit: this key is missing."),
        Mistake(tmp_path / "b.yaml", 9, "twice."),
    ]

    def broken(root, say):
        raise HandbookError(mistakes)

    monkeypatch.setattr("build_scripts.site_state.build_and_note", broken)
    assert command_line.main(["build"]) == 1
    told = capsys.readouterr().err.splitlines()
    assert told == [
        f"{tmp_path / 'a.yaml'}:3 — unit: this key is missing.",
        f"{tmp_path / 'b.yaml'}:9 — twice.",
        "2 mistakes to mend in the handbook.",
    ]


def test_what_nobody_foresaw_is_one_paragraph_with_the_details_in_a_file(monkeypatch, tmp_path, capsys):
    def broken(root, say):
        raise ZeroDivisionError("division by zero")

    monkeypatch.setattr("build_scripts.site_state.build_and_note", broken)
    monkeypatch.setattr(command_line, "ROOT", tmp_path)
    assert command_line.main(["build"]) == 4
    told = capsys.readouterr().err
    assert "Traceback" not in told
    assert "ZeroDivisionError: division by zero" in told
    assert "build/what-broke.txt" in told.replace("\\", "/")
    assert "Traceback" in (tmp_path / "build" / "what-broke.txt").read_text(encoding="utf-8")


def test_what_is_missing_on_the_computer_ends_with_its_own_code(monkeypatch, capsys):
    def missing(root, say):
        raise command_line.MissingError("There is no such thing here: install it.")

    monkeypatch.setattr("build_scripts.site_state.build_and_note", missing)
    assert command_line.main(["build"]) == 3
    assert capsys.readouterr().err == "There is no such thing here: install it.\n"


def test_a_stopped_command_ends_as_stopped(monkeypatch):
    def stopped(root, say):
        raise KeyboardInterrupt

    monkeypatch.setattr("build_scripts.site_state.build_and_note", stopped)
    assert command_line.main(["build"]) == 130


def test_a_console_without_the_letters_does_not_break_the_answer(run):
    ended = run("calc", "winding-identification", PYTHONIOENCODING="cp1252", PYTHONUTF8="0")
    assert ended.code == 0
    assert "Ω" in ended.out


def test_every_verb_explains_itself():
    for name in command_line.threepin.commands:
        shown = CliRunner().invoke(command_line.threepin, [name, "--help"])
        assert shown.exit_code == 0, name
        assert len(shown.output.splitlines()) > 4, name
