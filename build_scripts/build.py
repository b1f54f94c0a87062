"""A whole build, as a story in six steps; whatever fails before the last one leaves the last good site as it was."""

from __future__ import annotations

import gc
import tempfile
import time
from collections.abc import Callable
from datetime import date
from pathlib import Path

from build_scripts.assemble import assemble
from build_scripts.bundle_scripts import SCRIPTS_FOLDER, bundle_scripts
from build_scripts.check_site import check_folder, check_html, check_links
from build_scripts.check_writing import check_writing
from build_scripts.pack import pack
from build_scripts.pack_runtime import prepare_runtime
from build_scripts.read_handbook import Handbook, read_handbook
from build_scripts.render import render

Say = Callable[[str], None]


def build_site(root: Path, say: Say, on: date | None = None) -> None:
    """Turn root/handbook and the calculators into root/build/site."""
    began = time.monotonic()
    # Nearly all that a build makes stays until its end; looking through it again and again for what is free is wasted.
    gc.set_threshold(50_000, 50, 100)
    day = on or date.today()
    pages, html, site = (root / "build" / name for name in ("pages", "html", "site"))

    say("1. Reading the handbook and checking it against itself.")
    handbook = read_handbook(root, day)
    say(f"   {_counted(handbook)}, revision {handbook.revision}.")
    for notice in _past_review(handbook, day):
        say(f"   {notice}")

    say("2. Assembling plain Markdown in build/pages.")
    assemble(handbook, pages, day)

    say("3. Bundling the page's scripts. Where Python for the pages changed, it is prepared too: half a minute.")
    runtime = prepare_runtime(root)
    bundle_scripts(root, pages / SCRIPTS_FOLDER, runtime)

    say("4. Rendering HTML in build/html.")
    render(handbook, root, pages, html)

    say("5. Checking that pages name only files that are there, and no other host.")
    check_folder(html)

    say("6. Packing the site and putting it in the place of the last one.")
    pack(root, html, site, say, runtime)
    say(f"Built in {time.monotonic() - began:.1f} s: open build/site/index.html, or serve build/site.")


def check_handbook(root: Path, say: Say, on: date | None = None) -> None:
    """Find every mistake without publishing: read, assemble and render into a folder that is thrown away, and check."""
    day = on or date.today()
    say("1. Reading the handbook and checking it against itself.")
    handbook = read_handbook(root, day)
    for notice in _past_review(handbook, day):
        say(f"   {notice}")
    with tempfile.TemporaryDirectory() as folder:
        pages, html = Path(folder) / "pages", Path(folder) / "html"
        say("2. Assembling, bundling and rendering it aside.")
        assemble(handbook, pages, day)
        bundle_scripts(root, pages / SCRIPTS_FOLDER, prepare_runtime(root))
        render(handbook, root, pages, html)
        say("3. Checking how it is written: reading level, steps, short forms, pictures, spelling.")
        check_writing(handbook)
        say("4. Checking files, HTML, links and anchors.")
        check_folder(html)
        check_html(root, html)
        check_links(html)
    say(f"Nothing to mend: {_counted(handbook)}.")


def _counted(handbook: Handbook) -> str:
    made = len(handbook.calculators)
    return f"{len(handbook.pages)} written pages, {made} calculators, {len(handbook.standards.limits)} limits"


def _past_review(handbook: Handbook, day: date) -> list[str]:
    """Pages that readers will see a warning on; a reason to look at them, none to stop."""
    return [
        f"Past its review date, {page.front.review_by}: {page.path}"
        for page in handbook.pages
        if page.front.review_by < day
    ]
