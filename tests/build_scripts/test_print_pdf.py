"""What `build --pdf` says when there is nothing to print with, or when it does not print; the site stands either way."""

from __future__ import annotations

import sys

import pytest

from build_scripts.environment import MissingError
from build_scripts.print_pdf import print_pdf


@pytest.fixture
def site(tmp_path):
    (tmp_path / "site" / "reference").mkdir(parents=True)
    (tmp_path / "site" / "reference" / "booklet.html").write_text("<!doctype html>", encoding="utf-8")
    return tmp_path / "site"


@pytest.fixture
def earlier(tmp_path):
    file = tmp_path / "handbook.pdf"
    file.write_bytes(b"an earlier one")
    return file


def test_without_a_browser_one_sentence_says_what_to_install(site, earlier, tmp_path, monkeypatch):
    monkeypatch.setattr("build_scripts.browser_setup._kept_by_playwright", lambda: None)
    with pytest.raises(MissingError) as missing:
        print_pdf(site, earlier, print, environment={"PATH": str(tmp_path)})
    assert str(missing.value) == (
        "There is no PDF: printing it needs Chromium, and none was found. Install it with the system's packages "
        "(apt install chromium), or set THREEPIN_BROWSER to its program. The site itself is built."
    )
    assert earlier.read_bytes() == b"an earlier one"


@pytest.mark.skipif(sys.platform == "win32", reason="the stand-in for a browser is a shell script")
def test_a_browser_that_prints_nothing_leaves_the_earlier_pdf(site, earlier, tmp_path):
    browser = tmp_path / "browser"
    browser.write_text("#!/bin/sh\nexit 1\n", encoding="utf-8")
    browser.chmod(0o755)
    with pytest.raises(MissingError, match=r"printed nothing\. The site itself is built\."):
        print_pdf(site, earlier, print, environment={"THREEPIN_BROWSER": str(browser)})
    assert earlier.read_bytes() == b"an earlier one"


def test_the_option_is_told_in_the_help(run):
    assert "--pdf" in run("build", "--help").out
