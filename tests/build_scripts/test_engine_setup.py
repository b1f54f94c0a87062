"""Engines besides Chromium: found, installed where that may be, and otherwise named with the reason."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from build_scripts import browser_setup, engine_setup
from build_scripts.engine_setup import FIREFOX, WEBKIT, Engine, ensure_engines, find_programs, why_missing

ONE = Engine("One", {"browser": ("one-browser",), "driver": ("one-driver",)}, ("one", "one-driver"))

pytestmark = pytest.mark.skipif(os.name == "nt", reason="apt-get and its stand-ins here are programs of Unix")


@pytest.fixture
def programs(tmp_path, monkeypatch) -> Path:
    """The only folder on the path, with a shell in it and nothing else."""
    folder = tmp_path / "bin"
    folder.mkdir()
    (folder / "sh").symlink_to("/bin/sh")
    monkeypatch.setenv("PATH", str(folder))
    monkeypatch.setattr(engine_setup, "ENGINES", (ONE,))
    monkeypatch.setattr(browser_setup.os, "geteuid", lambda: 0)
    return folder


def put(folder: Path, name: str, script: str = "") -> Path:
    program = folder / name
    program.write_text(f"#!/bin/sh\n{script}\n", encoding="utf-8")
    program.chmod(0o755)
    return program


def asked(folder: Path) -> list[str]:
    return (folder / "asked").read_text(encoding="utf-8").splitlines()


def test_an_engine_is_found_by_the_names_of_its_programs(programs):
    browser, driver = put(programs, "one-browser"), put(programs, "one-driver")
    assert find_programs(ONE) == {"browser": browser, "driver": driver}
    assert why_missing(ONE) == ""


def test_the_first_name_that_is_there_is_taken_and_a_pattern_finds_a_program_that_is_not_on_the_path(programs):
    put(programs, "firefox")
    assert find_programs(FIREFOX) == {"browser": programs / "firefox"}
    esr = put(programs, "firefox-esr")
    assert find_programs(FIREFOX) == {"browser": esr}
    hidden = put(programs, "hidden")
    assert find_programs(Engine("Two", {"browser": (f"{programs.parent}/*/hidden",)}, ())) == {"browser": hidden}


def test_a_missing_program_is_named_with_the_packages_that_bring_it(programs):
    put(programs, "one-browser")
    assert why_missing(ONE) == (
        "One is not driven: there is no one-driver here. On Debian they come with “apt install one one-driver”."
    )


def test_webkit_needs_its_driver_its_browser_and_a_display(programs):
    assert set(WEBKIT.programs) == {"driver", "browser", "display"}
    assert "no WebKitWebDriver" in why_missing(WEBKIT)
    assert "no Xvfb" in why_missing(WEBKIT)


def test_what_is_there_is_not_installed(programs):
    put(programs, "apt-get", f"echo $@ >>{programs}/asked")
    put(programs, "one-browser")
    put(programs, "one-driver")
    assert ensure_engines(pytest.fail) == []
    assert not (programs / "asked").exists()


def test_what_is_missing_is_fetched_and_installed_by_root(programs):
    ready = f": >{programs}/one-browser; : >{programs}/one-driver; /bin/chmod 755 {programs}/one-*"
    put(programs, "apt-get", f'echo $@ >>{programs}/asked; case "$*" in *--no-download*) {ready};; esac')
    told: list[str] = []
    assert ensure_engines(told.append) == []
    assert told == ["Installing one and one-driver with apt-get ..."]
    assert [line.split()[-3:] for line in asked(programs)] == [
        ["--download-only", "one", "one-driver"],
        ["--no-download", "one", "one-driver"],
    ]


def test_old_lists_of_packages_are_renewed_once(programs):
    fails_first = f'case "$*" in *--download-only*) [ -e {programs}/renewed ] ;; update*) : >{programs}/renewed ;; esac'
    put(programs, "apt-get", f"echo $1 >>{programs}/asked; {fails_first}")
    assert "apt-get could not" not in ensure_engines(lambda sentence: None)[0]
    assert asked(programs) == ["install", "update", "install", "install"]


def test_an_apt_get_that_fails_is_no_error_but_a_reason(programs):
    put(programs, "apt-get", "echo Reading lists; echo 'E: Unable to locate package one' >&2; exit 100")
    (why,) = ensure_engines(lambda sentence: None)
    assert why == (
        "One is not driven: there is no one-browser and no one-driver here. On Debian they come with “apt install one "
        "one-driver”. apt-get could not install them here: E: Unable to locate package one"
    )


def test_an_apt_get_that_hangs_while_it_fetches_is_cut_off_with_a_reason(programs, monkeypatch):
    monkeypatch.setattr(browser_setup, "PATIENCE", 0.2)
    put(programs, "apt-get", "exec /bin/sleep 60")
    (why,) = ensure_engines(lambda sentence: None)
    assert why.endswith("apt-get could not install them here: apt-get install did not finish in 0 seconds")


def test_nothing_is_installed_by_anybody_but_root(programs, monkeypatch):
    put(programs, "apt-get", f"echo $@ >>{programs}/asked")
    monkeypatch.setattr(browser_setup.os, "geteuid", lambda: 1000)
    (why,) = ensure_engines(pytest.fail)
    assert why.startswith("One is not driven")
    assert not (programs / "asked").exists()
