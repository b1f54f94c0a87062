"""Finding the nginx that the site is served with in a test."""

from __future__ import annotations

import os

import pytest

from build_scripts import web_server_setup
from build_scripts.environment import MissingError
from build_scripts.web_server_setup import VARIABLE, ensure_nginx, find_nginx


@pytest.fixture
def program(tmp_path):
    file = tmp_path / "bin" / "nginx"
    file.parent.mkdir()
    file.touch(mode=0o755)
    return file


@pytest.fixture
def nothing_installed(monkeypatch, tmp_path):
    (tmp_path / "empty").mkdir()
    monkeypatch.setenv("PATH", str(tmp_path / "empty"))
    monkeypatch.delenv(VARIABLE, raising=False)
    monkeypatch.setattr(web_server_setup, "_MORE_PLACES", ())


def test_the_one_that_is_named_is_taken(tmp_path, program):
    assert find_nginx(tmp_path, {VARIABLE: str(program), "PATH": os.defpath}) == program


def test_a_name_without_a_program_is_refused(tmp_path):
    with pytest.raises(MissingError, match=r"THREEPIN_NGINX names /no/nginx, and there is no such file\."):
        find_nginx(tmp_path, {VARIABLE: "/no/nginx"})


def test_one_on_the_path_is_taken(nothing_installed, tmp_path, program):
    assert find_nginx(tmp_path, {"PATH": str(program.parent)}) == program


def test_one_taken_out_of_a_package_before_is_taken(nothing_installed, tmp_path):
    kept = tmp_path / "usr" / "sbin" / "nginx"
    kept.parent.mkdir(parents=True)
    kept.touch()
    assert ensure_nginx(tmp_path, lambda _: None) == kept


def test_where_there_is_none_and_none_can_be_had_it_says_what_to_do(nothing_installed, tmp_path):
    with pytest.raises(
        MissingError, match=r"found none \(there is no apt-get here\): install it .* set THREEPIN_NGINX"
    ):
        ensure_nginx(tmp_path / "kept", lambda _: None)


def test_when_the_package_cannot_be_had_it_says_why(nothing_installed, tmp_path, monkeypatch):
    for name in ("apt-get", "dpkg-deb"):
        program = tmp_path / "empty" / name
        program.write_text("#!/bin/sh\necho 'E: no such package' >&2\nexit 100\n", encoding="utf-8")
        program.chmod(0o755)
    with pytest.raises(MissingError, match=r"found none \(E: no such package\)"):
        ensure_nginx(tmp_path / "kept", lambda _: None)
