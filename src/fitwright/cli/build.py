"""`fitwright build`: start a build to a sheet, list builds, take a later revision over."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

from cyclopts import App, Parameter

from fitwright.cli.errors import OK, UsageError
from fitwright.cli.shop import DEFAULT_DATA, Data, opened

app = App(name="build", help="Start a build to a sheet, list builds, take a revision over.")


@app.command
def start(
    sheet: Path,
    code: str,
    /,
    *,
    data: Data = DEFAULT_DATA,
    title: str | None = None,
    job_number: str | None = None,
    engine_number: str | None = None,
    owner_words: Annotated[str | None, Parameter(help="What the owner wants, in the owner's words.")] = None,
    duty: str | None = None,
) -> int:
    """Start a build to an engine sheet; the shop is made if it is not there yet.

    Example: fitwright build start my-engine.toml job-2031 --job-number 2031
    """
    from fitwright.bench.starting import build_started
    from fitwright.formats.sheet import read_sheet

    text = read_text(sheet)
    read = read_sheet(text, name=str(sheet))
    body = build_started(
        code,
        read,
        title=title,
        job_number=job_number,
        engine_number=engine_number,
        owner_words=owner_words,
        duty=duty,
    )
    with opened(data, create=True) as shop:
        written = shop.start_build(code, text, body)
    seq = written.acknowledgements[-1].seq
    sys.stdout.write(f"Build {code} started to {sheet}, revision {read.engine.revision} (entry {seq}).\n")
    return OK


@app.command(name="list")
def list_(*, data: Data = DEFAULT_DATA) -> int:
    """List the builds of a shop, each with its summary.

    Example: fitwright build list --data demo
    """
    from fitwright.drawing.sentences import summary_sentence

    with opened(data) as shop:
        for code, started in shop.builds().items():
            found = shop.assessment(code)
            sys.stdout.write(f"{code}: {started.title}. {summary_sentence(found)}\n")
        if not shop.builds():
            sys.stdout.write("No build yet: fitwright build start SHEET CODE\n")
    return OK


@app.command(name="take-over")
def take_over(
    build: str,
    sheet: Path,
    /,
    *,
    data: Data = DEFAULT_DATA,
    yes: Annotated[bool, Parameter(negative="", help="Take it over without asking.")] = False,
) -> int:
    """Show what a later revision of the sheet changes, and take it over for one build on purpose.

    Example: fitwright build take-over job-2031 my-engine.toml
    """
    from fitwright.formats.sheet import read_sheet
    from fitwright.formats.sheet.diff import differences

    text = read_text(sheet)
    new = read_sheet(text, name=str(sheet))
    with opened(data) as shop:
        found = [str(each) for each in differences(shop.bench(build).sheet, new)]
        if not found:
            sys.stdout.write(f"{build} is at this revision already; nothing to take over.\n")
            return OK
        sys.stdout.write("\n".join(found) + "\n")
        if not yes and not _agreed():
            sys.stdout.write("Not taken over; the build keeps its revision.\n")
            return OK
        shop.take_over(build, text, found)
        sys.stdout.write(f"{build} is now at revision {new.engine.revision}.\n")
        for each in shop.assessment(build).not_on_sheet:
            sys.stdout.write(f"Entry {each.seq} is in no verdict any more: {each.words}; {each.why}.\n")
    return OK


def _agreed() -> bool:
    if not sys.stdin.isatty():
        raise UsageError("Say --yes to take these differences over without being asked.")
    return input("Take these over? (yes/no) ").strip().lower() in ("y", "yes")


def read_text(path: Path) -> str:
    """The text of a file; one that is not there or not text is said plainly."""
    from fitwright.formats.sheet.files import text_of

    if not path.is_file():
        raise UsageError(f"No file {path}: name an engine sheet, or write one with `fitwright new`.")
    return text_of(path.read_bytes(), file=str(path))
