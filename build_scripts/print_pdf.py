"""The whole handbook as one PDF: Chromium prints the page of the built site that makes booklets, everything ticked.

It is printed twice. A browser cannot say on which sheet of paper another page begins, so the first print is read for
that, and the second has the numbers in its contents list.
"""

from __future__ import annotations

import os
import subprocess
import tempfile
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

from build_scripts.addresses import BOOKLET_PAGE
from build_scripts.browser_setup import ARGUMENTS, find_browser
from build_scripts.environment import MissingError

Say = Callable[[str], None]

# Seconds that one print of some hundred sheets may take on a slow computer.
PATIENCE = 600.0
_SECTION = "/sheet-"


def print_pdf(
    site: Path, file: Path, say: Say, *, pages: Sequence[str] = (), environment: Mapping[str, str] = os.environ
) -> None:
    """Write the handbook of a built site into file, which is replaced only by a whole one.

    pages are named by their paths without ending; none means all. Raises MissingError when there is no Chromium,
    or when it did not print.
    """
    browser = find_browser(environment)
    if browser is None:
        raise MissingError(
            "There is no PDF: printing it needs Chromium, and none was found. Install it with the system's packages "
            "(apt install chromium), or set THREEPIN_BROWSER to its program. The site itself is built."
        )
    with tempfile.TemporaryDirectory() as folder:
        first, second = Path(folder) / "first.pdf", Path(folder) / "second.pdf"
        asked = f"pages={','.join(pages)}" if pages else "everything"
        _print(browser, site, first, asked)
        _print(browser, site, second, f"{asked}&numbers={','.join(map(str, first_sheets(first)))}")
        file.parent.mkdir(parents=True, exist_ok=True)
        waiting = file.with_name(f"{file.name}-new")
        waiting.write_bytes(second.read_bytes())
        waiting.replace(file)
    say(f"Printed {file}: {count_sheets(file)} sheets, {file.stat().st_size / 1e6:.1f} MB.")


def first_sheets(file: Path) -> list[int]:
    """On which sheet of a printed booklet each of its pages begins, in their order."""
    from pypdf import PdfReader

    reader = PdfReader(file)
    begins = {}
    for name, destination in reader.named_destinations.items():
        number = name.removeprefix(_SECTION)
        sheet = reader.get_destination_page_number(destination)
        if number != name and number.isdigit() and sheet is not None:
            begins[int(number)] = sheet + 1
    return [begins[number] for number in sorted(begins)]


def count_sheets(file: Path) -> int:
    """How many sheets a PDF has."""
    from pypdf import PdfReader

    return len(PdfReader(file).pages)


def _print(browser: Path, site: Path, file: Path, asked: str) -> None:
    page = (site / BOOKLET_PAGE).with_suffix(".html").resolve()
    address = f"{page.as_uri()}#{asked}"
    with tempfile.TemporaryDirectory() as profile:
        command = [str(browser), "--headless", *ARGUMENTS, f"--user-data-dir={profile}", "--no-pdf-header-footer"]
        command += ["--generate-pdf-document-outline", f"--print-to-pdf={file}", address]
        try:
            subprocess.run(command, check=False, capture_output=True, timeout=PATIENCE, stdin=subprocess.DEVNULL)
        except subprocess.TimeoutExpired:
            raise MissingError(
                f"There is no PDF: {browser} did not print it in {PATIENCE:.0f} seconds. The site itself is built."
            ) from None
    if not file.is_file():
        raise MissingError(f"There is no PDF: {browser} printed nothing. The site itself is built.")
