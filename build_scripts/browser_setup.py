"""Finds the browser that the tests drive, and installs it where that can be done without asking anybody."""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Callable, Mapping
from pathlib import Path

from build_scripts.environment import MissingError

NAMES = ("chromium", "chromium-browser")
VARIABLE = "THREEPIN_BROWSER"

# Seconds that fetching packages may take.
PATIENCE = 300.0

# Tests ask nothing of any other host; these keep the browser itself from doing so in the background.
ARGUMENTS = (
    "--no-sandbox",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-default-apps",
    "--disable-sync",
    "--no-first-run",
)


def find_browser(environment: Mapping[str, str] = os.environ) -> Path | None:
    """The Chromium named by THREEPIN_BROWSER, or else one on the path, or else the one that Playwright keeps."""
    named = environment.get(VARIABLE)
    if named:
        if not Path(named).is_file():
            raise MissingError(
                f"{VARIABLE} names {named}, and there is no such file. Name a Chromium program, or unset it."
            )
        return Path(named)
    for name in NAMES:
        found = shutil.which(name, path=environment.get("PATH", os.defpath))
        if found:
            return Path(found)
    return _kept_by_playwright()


def ensure_browser(say: Callable[[str], None]) -> Path:
    """The browser, installed first if it is missing and this is root on a system with apt-get."""
    found = find_browser()
    if found is None and may_install():
        say("Installing Chromium with apt-get ...")
        install("chromium")
        found = find_browser()
    if found is None:
        raise MissingError(
            "The browser tests need Chromium and found none: install it with the system's packages "
            "(apt install chromium) or with “.environment/bin/python -m playwright install chromium”, "
            f"or set {VARIABLE} to its program."
        )
    return found


def _kept_by_playwright() -> Path | None:
    try:
        from playwright.sync_api import sync_playwright
    except ModuleNotFoundError:  # It comes with the tests, and a build may run without them.
        return None
    with sync_playwright() as playwright:
        program = Path(playwright.chromium.executable_path)
    return program if program.is_file() else None


def may_install() -> bool:
    """Whether packages of the system can be installed without asking anybody."""
    return hasattr(os, "geteuid") and os.geteuid() == 0 and shutil.which("apt-get") is not None


def install(*packages: str) -> str:
    """Have apt-get install packages; what it complained of, in one line, or nothing when all went well.

    Only fetching may hang, so only that is cut off; the lists are asked for anew when the old ones do not do.
    """
    fetch = ["install", "--download-only", *packages]
    if _apt_get(fetch, PATIENCE):
        _apt_get(["update"], PATIENCE)
        if complaint := _apt_get(fetch, PATIENCE):
            return complaint
    return _apt_get(["install", "--no-download", *packages], None)


def _apt_get(words: list[str], patience: float | None) -> str:
    verb, *rest = words
    try:
        done = subprocess.run(
            ["apt-get", verb, "-y", "-qq", "--no-install-recommends", *rest],
            check=False,
            env=os.environ | {"DEBIAN_FRONTEND": "noninteractive", "LC_ALL": "C"},
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            timeout=patience,
        )
    except subprocess.TimeoutExpired:
        return f"apt-get {verb} did not finish in {patience:.0f} seconds"
    if done.returncode == 0:
        return ""
    lines = done.stdout.decode(errors="replace").split("\n")
    errors = [line for line in lines if line.startswith("E: ")] or [line for line in lines if line.strip()]
    return errors[0].strip() if errors else f"apt-get {verb} ended with {done.returncode}"
