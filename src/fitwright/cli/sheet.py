"""`fitwright sheet`: check, compare and show engine sheets, and their schema for editors."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from cyclopts import App, Parameter

from fitwright.cli.build import read_text
from fitwright.cli.errors import INPUT, OK

if TYPE_CHECKING:
    from fitwright.formats.sheet import SheetProblem

app = App(name="sheet", help="Check, compare and show engine sheets.")


@app.command
def validate(*sheets: Path, as_json: Annotated[bool, Parameter(name="--json", negative="")] = False) -> int:
    """Report every problem of engine sheets at once, each with its line, column and mend.

    Example: fitwright sheet validate my-engine.toml
    """
    from fitwright.formats.sheet import check_sheet

    found: list[SheetProblem] = []
    for path in sheets:
        sheet, problems = check_sheet(read_text(path), name=str(path))
        found.extend(problems)
        if not problems and sheet is not None and not as_json:
            fits, dimensions, stations = len(sheet.fits), len(sheet.dimensions), len(sheet.stations)
            counts = f"{fits} fits, {dimensions} dimensions, {stations} stations"
            if sheet.tightening_groups or sheet.steps:
                counts += f", {len(sheet.tightening_groups)} tightening groups, {len(sheet.steps)} steps"
            sys.stdout.write(f"{path}: no problems; {counts}.\n")
    if as_json:
        json.dump([problem.as_data() for problem in found], sys.stdout, ensure_ascii=False, indent=1)
        sys.stdout.write("\n")
    else:
        sys.stderr.writelines(f"{problem}\n" for problem in found)
    return INPUT if found else OK


@app.command
def diff(old: Path, new: Path, /) -> int:
    """Say in words what differs between two engine sheets.

    Example: fitwright sheet diff revision-a.toml revision-b.toml
    """
    from fitwright.formats.sheet import read_sheet
    from fitwright.formats.sheet.diff import differences

    before = read_sheet(read_text(old), name=str(old))
    after = read_sheet(read_text(new), name=str(new))
    found = list(differences(before, after))
    sys.stdout.writelines(f"{each}\n" for each in found)
    if not found:
        sys.stdout.write("No difference that means anything.\n")
    return OK


@app.command
def show(sheet: Path, /) -> int:
    """Show an engine sheet as readable text: engine, fits with their limits, stations.

    Example: fitwright sheet show my-engine.toml
    """
    from fitwright.formats.sheet import read_sheet
    from fitwright.formats.sheet.show import sheet_text

    sys.stdout.write(sheet_text(read_sheet(read_text(sheet), name=str(sheet))))
    return OK


@app.command
def schema() -> int:
    """Print the JSON Schema of engine sheets, for editors that check as one types.

    Example: fitwright sheet schema > engine-sheet.schema.json
    """
    from fitwright.formats.sheet.schema import sheet_schema

    json.dump(sheet_schema(), sys.stdout, indent=1)
    sys.stdout.write("\n")
    return OK
