"""Proves the built pages: the files they name are there, no other host is asked, HTML is valid, links arrive.

The first check is quick and part of every build. The others run well-kept programs over all pages, html-validate and
lychee, and belong to the command `check`.
"""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import unquote, urlsplit

from build_scripts.environment import Environment, MissingError
from build_scripts.errors import HandbookError, Mistake

HTML_RULES = Path(__file__).parent / "html-validate.mjs"

# What a browser loads by itself when it opens a page or reads a style sheet; links that people follow are not meant.
_LOADED = re.compile(
    r"<(?:script|link|img|iframe|source|audio|video|object|embed)\b[^>]*?\s(?:src|href|data|poster)\s*=\s*[\"']([^\"']+)"
)
_LOADED_BY_STYLE = re.compile(r"(?:@import\s+|url\(\s*)[\"']?([^\"')\s]+)")


# What write_headers has a host forbid, because it cannot tell it from what somebody slipped in: styles and scripts in
# attributes. Only a match that ends inside a tag is one; in text it is text.
_FORBIDDEN = re.compile(r"\s(style|on[a-z]+)=[\"'](?=[^<>]*>)")


def check_folder(site: Path) -> None:
    """Every file that a page or a style sheet loads is there, none is asked of another host, nothing is forbidden."""
    _raise(_missing_or_elsewhere(site))
    _raise(_forbidden(site))


def _forbidden(site: Path) -> Iterator[Mistake]:
    for file in sorted(site.rglob("*.html")):
        text = file.read_text(encoding="utf-8")
        for found in _FORBIDDEN.finditer(text):
            line = text.count("\n", 0, found.start()) + 1
            yield Mistake(
                file.relative_to(site),
                line,
                f"the attribute {found[1]} would do nothing on a host that sends the headers made for this site. "
                "Put styles into handbook/assets/styles under a class; scripts belong into handbook/assets/scripts.",
            )


def _missing_or_elsewhere(site: Path) -> Iterator[Mistake]:
    known: dict[Path, bool] = {}
    for pattern, ending in ((_LOADED, "*.html"), (_LOADED_BY_STYLE, "*.css")):
        for file in sorted(site.rglob(ending)):
            text = file.read_text(encoding="utf-8")
            for found in pattern.finditer(text):
                why = _wrong_address(found[1], file, site, known)
                if why:
                    line = text.count("\n", 0, found.start()) + 1
                    yield Mistake(file.relative_to(site), line, f"{found[1]}: {why}")


def _wrong_address(address: str, file: Path, site: Path, known: dict[Path, bool]) -> str:
    parts = urlsplit(address)
    if parts.scheme == "data" or address.startswith("#"):
        return ""
    if parts.scheme or parts.netloc:
        return "the built page loads this from another host. Put the file into handbook/assets and name it from there."
    place = (site / parts.path.lstrip("/")) if parts.path.startswith("/") else file.parent / unquote(parts.path)
    if place not in known:
        known[place] = place.exists()
    return "" if known[place] else "the built page loads this file, and it is not there."


def check_html(root: Path, site: Path) -> None:
    """Every page is valid HTML by the rules in html-validate.mjs."""
    program = root / "node_modules" / "html-validate" / "bin" / "html-validate.mjs"
    node = Environment(root).node
    if not program.is_file() or not node.is_file():
        raise MissingError(
            "The npm package html-validate is not installed, and the built pages are checked with it. "
            "Run “python3 -m build_scripts check”, which installs what package-lock.json names."
        )
    command = [str(node), str(program), "--config", str(HTML_RULES), "--formatter", "json", "--max-warnings", "0"]
    _raise(read_html_report(_run([*command, f"{site.as_posix()}/**/*.html"]), site))


def read_html_report(report: str, site: Path) -> Iterator[Mistake]:
    """The mistakes in a report of html-validate, at the pages of the site."""
    for page in json.loads(report):
        for message in page["messages"]:
            file = Path(page["filePath"]).relative_to(site.resolve())
            yield Mistake(
                file, message["line"], f"the built page is not valid HTML: {message['message']} ({message['ruleId']})."
            )


def check_links(site: Path) -> None:
    """Every link from page to page arrives, at its anchor too, read as a browser reads them from disk."""
    found = shutil.which("lychee", path=str(Path(sys.executable).parent)) or shutil.which("lychee")
    if found is None:
        raise MissingError(
            "The link checker lychee is not installed, and the built pages are checked with it. "
            "Run “python3 -m build_scripts check”, which installs what requirements/check.txt names."
        )
    command = [found, "--offline", "--include-fragments", "--no-progress", "--format", "json", "--root-dir", str(site)]
    _raise(read_link_report(_run([*command, f"{site.as_posix()}/**/*.html"]), site))


def read_link_report(report: str, site: Path) -> Iterator[Mistake]:
    """The mistakes in a report of lychee, at the pages of the site."""
    for page, failures in json.loads(report)["error_map"].items():
        for failure in failures:
            address = failure["url"].removeprefix(site.resolve().as_uri()).removeprefix("/")
            what = f"the link to {address} does not arrive: {failure['status']['text'].split('.')[0].lower()}."
            yield Mistake(Path(page).relative_to(site.resolve()), failure["span"]["line"], what)


def _run(command: list[str]) -> str:
    """What a checker prints; a checker that prints no report has broken, and what it says instead is shown."""
    with tempfile.TemporaryFile() as report:
        # Into a file: a program that ends before a pipe is read empty would cut a long report short.
        done = subprocess.run(command, check=False, stdout=report, stderr=subprocess.PIPE, stdin=subprocess.DEVNULL)
        report.seek(0)
        text = report.read().decode("utf-8")
    if not text.strip():
        said = done.stderr.decode("utf-8", errors="replace").strip()[-2000:]
        raise RuntimeError(f"{Path(command[0]).name} gave no report: {said}")
    return text


def _raise(mistakes: Iterator[Mistake]) -> None:
    found = list(mistakes)
    if found:
        raise HandbookError(found)
