"""The command line: its verbs, what they print, and how they end. Runs inside the environment."""

from __future__ import annotations

import difflib
import io
import re
import sys
import traceback
from collections.abc import Sequence
from datetime import date
from pathlib import Path

import click

from build_scripts.environment import ROOT, MissingError
from build_scripts.errors import HandbookError
from build_scripts.exit_codes import MEANINGS, ExitCode

SITE = ROOT / "build" / "site"
PROGRAM = "python3 -m build_scripts"
_CODES = "\n".join(f"  {code.value}  {meaning}" for code, meaning in MEANINGS.items())


class Verbs(click.Group):
    """The verbs, in the order they are needed, with the nearest ones offered for a mistyped one."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Keep the order in which the verbs are declared below."""
        return list(self.commands)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the verb, or say which ones there are."""
        if args and self.get_command(ctx, args[0]) is None and not args[0].startswith("-"):
            close = difflib.get_close_matches(args[0], self.commands, n=2)
            offered = f"Did you mean {' or '.join(close)}?" if close else f"The verbs are: {', '.join(self.commands)}."
            raise click.UsageError(f"There is no verb {args[0]}. {offered}", ctx)
        return super().resolve_command(ctx, args)


class Day(click.ParamType[date]):
    """A date as 2026-01-31."""

    name = "YYYY-MM-DD"

    def convert(self, value: str | date, param: click.Parameter | None, ctx: click.Context | None) -> date:
        """Read the date, or say how it is written."""
        if isinstance(value, date):
            return value
        try:
            if re.fullmatch(r"\d{4}-\d{2}-\d{2}", value):
                return date.fromisoformat(value)
        except ValueError:
            pass
        self.fail(f"“{value}” is not a date. Write it as 2026-01-31.", param, ctx)


@click.group(
    cls=Verbs,
    subcommand_metavar="VERB ...",
    context_settings={"help_option_names": ["-h", "--help"]},
    epilog=f"\b\nExit codes:\n{_CODES}",
)
def threepin() -> None:
    """Threepin: a field handbook of checks on small compressors that computes, as one folder."""


@threepin.command()
@click.option("--pdf", is_flag=True, help="Print the whole handbook into build/handbook.pdf as well; needs Chromium.")
def build(pdf: bool) -> int:
    """Turn the handbook and the calculators into build/site."""
    from build_scripts.site_state import build_and_note

    build_and_note(ROOT, click.echo)
    if pdf:
        from build_scripts.print_pdf import print_pdf

        print_pdf(SITE, ROOT / "build" / "handbook.pdf", click.echo)
    return ExitCode.DONE


@threepin.command()
@click.option("--port", default=8000, show_default=True, type=click.IntRange(0, 65535), help="Port to begin with.")
@click.option(
    "--folder",
    type=click.Path(path_type=Path),
    default=SITE,
    show_default="build/site",
    help="The site to serve.",
)
def serve(port: int, folder: Path) -> int:
    """Serve the built site to this computer."""
    from build_scripts.serve import NoFreePortError
    from build_scripts.serve import serve as serve_folder

    if not (folder / "index.html").is_file():
        advice = "check the path" if folder != SITE else f"make it first: {PROGRAM} build"
        raise click.UsageError(f"There is no site in {folder}; {advice}.")
    try:
        serve_folder(folder, port, click.echo)
    except NoFreePortError as full:
        raise click.UsageError(str(full)) from None
    return ExitCode.DONE


@threepin.command()
def check() -> int:
    """Find every mistake in the handbook and its pages without publishing anything."""
    from build_scripts.build import check_handbook

    check_handbook(ROOT, click.echo)
    return ExitCode.DONE


@threepin.command()
@click.argument("calculator", required=False)
@click.argument("entries", nargs=-1, metavar="[NAME=VALUE]...")
@click.option("--list", "list_all", is_flag=True, help="Name every calculator with the question it answers.")
@click.option("--date", "on", type=Day(), help="Use the limits in force on this day.  [default: today]")
@click.option("--json", "raw", is_flag=True, help="Print the answer as JSON.")
def calc(calculator: str | None, entries: tuple[str, ...], list_all: bool, on: date | None, raw: bool) -> int:
    """Compute on the command line.

    Without entries it says what CALCULATOR asks for and shows its worked example. A value is typed as a meter
    shows it, with a unit behind it if it needs one: r12=4.2, r12="4.2 kohm", r12:kilohm=4.2, r12=OL.
    """
    from build_scripts import calc_command
    from build_scripts.read_handbook import revision_of
    from build_scripts.read_standards import read_standards
    from calculators.limits import Standards

    if list_all or calculator is None:
        click.echo(calc_command.list_calculators())
        return ExitCode.DONE
    standards = Standards.from_json(read_standards(ROOT / "handbook").as_json(revision_of(ROOT)))
    try:
        printed = calc_command.run(calculator, entries, standards, on or date.today(), raw=raw)
    except calc_command.WrongEntriesError as wrong:
        _tell("\n".join(wrong.problems))
        return ExitCode.WRONG_USE
    click.echo(printed.text)
    return ExitCode.DONE if printed.usable else ExitCode.WRONG_USE


@threepin.command(context_settings={"ignore_unknown_options": True})
@click.option("--long", "long_run", is_flag=True, help="Run the long counts in full.")
@click.argument("pytest_arguments", nargs=-1, type=click.UNPROCESSED)
def test(long_run: bool, pytest_arguments: tuple[str, ...]) -> int:
    """Check style and types, build the site if it is stale, and run every test.

    Arguments are handed to pytest, and then pytest alone runs: test -k drop.
    """
    from build_scripts.run_tests import run_tests

    return run_tests(ROOT, pytest_arguments, long_run=long_run, say=_tell)


def main(arguments: Sequence[str]) -> int:
    """Run one command; whatever happens, the person reads sentences and the exit code is one of ours."""
    _speak_utf8()
    try:
        return int(threepin.main(list(arguments), prog_name=PROGRAM, standalone_mode=False) or 0)
    except click.ClickException as wrong:
        wrong.show()
        return ExitCode.WRONG_USE
    except (click.Abort, KeyboardInterrupt):
        return 130
    except HandbookError as broken:
        count = len(broken.mistakes)
        _tell("\n".join(str(mistake) for mistake in broken.mistakes))
        _tell(f"{count} mistake{'' if count == 1 else 's'} to mend in the handbook.")
        return ExitCode.MISTAKES
    except MissingError as missing:
        _tell(str(missing))
        return ExitCode.SOMETHING_MISSING
    except Exception as unforeseen:
        return _own_fault(unforeseen)


def _own_fault(unforeseen: Exception) -> int:
    """Keep the traceback for whoever mends it, out of sight of whoever only met it."""
    file = ROOT / "build" / "what-broke.txt"
    file.parent.mkdir(exist_ok=True)
    file.write_text("".join(traceback.format_exception(unforeseen)), encoding="utf-8")
    _tell(
        f"Threepin itself broke here ({type(unforeseen).__name__}: {unforeseen}). Nothing of yours needs mending. "
        f"Report it with the file {file.relative_to(ROOT)}, which says where."
    )
    return ExitCode.OUR_FAULT


def _tell(sentence: str) -> None:
    click.echo(sentence, err=True)


def _speak_utf8() -> None:
    """Print Ω and “ ” on any console: a letter that it lacks becomes a question mark, never a crash."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="replace")


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
