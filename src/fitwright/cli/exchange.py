"""`fitwright import` and `fitwright export`: readings as CSV or XLSX, a whole build as JSON."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

from cyclopts import Parameter

from fitwright.cli.errors import OK, UsageError
from fitwright.cli.files import written
from fitwright.cli.shop import DEFAULT_DATA, Data, family_of, opened

if TYPE_CHECKING:
    from fitwright.units.families import Family
    from fitwright.wiring import Shop

ENDINGS = ".csv, .xlsx or .json"
State = Literal["current", "as-received"]


def import_(
    file: Path,
    build: str | None = None,
    /,
    *,
    data: Data = DEFAULT_DATA,
    answer: Annotated[
        Literal["keep", "leave-out"] | None,
        Parameter(help="Answer every question: keep the value as it stands, or leave its row out."),
    ] = None,
    only_good: Annotated[
        bool, Parameter(negative="", help="Take in the rows without a problem although others have one.")
    ] = False,
    sitting: Annotated[
        str | None, Parameter(help="Sitting that the rows belong to; else found by person, setting and time.")
    ] = None,
    sheet: Annotated[str | None, Parameter(help="Sheet of the workbook; else its first.")] = None,
    person: Annotated[str | None, Parameter(help="Who imports: stands for rows without typed_by.")] = None,
    try_only: Annotated[
        bool, Parameter(name="--try", negative="", help="Check the file and take in nothing.")
    ] = False,
) -> int:
    """Take readings into a build from CSV or XLSX, or a whole build from JSON.

    Columns: part, dimension, place, condition, value, unit, instrument, setting, part_temperature,
    measured_by, typed_by, taken_at, origin, note. Everything wrong with a file is said at once, and
    nothing is taken in while there is a problem or a question. The same file again changes nothing.

    Example: fitwright import readings.csv corrie-five --data demo --try
    """
    if file.suffix.lower() == ".json":
        from fitwright.cli.carrying import import_build

        return import_build(file, data, try_only=try_only)
    if build is None:
        raise UsageError(f"Say which build the readings in {file} belong to: fitwright import {file} BUILD")
    from fitwright.cli.importing import Choices, import_table
    from fitwright.formats.readings.deciding import Decided
    from fitwright.formats.readings.files import TEXTS, WORKBOOKS, table_in
    from fitwright.formats.readings.table import file_content

    if file.suffix.lower() not in (*TEXTS, *WORKBOOKS):
        raise UsageError(f"{file} is neither of {ENDINGS}: say by its ending what it is.")
    decided = Decided(answer, only_good=only_good)
    choices = Choices(decided=decided, sitting=sitting, person=person, try_only=try_only)
    with opened(data) as shop:
        return import_table(shop, build, table_in(file_content(file), file=str(file), sheet=sheet), choices)


def export(
    build: str,
    file: Path,
    /,
    *,
    data: Data = DEFAULT_DATA,
    state: Annotated[State, Parameter(help="Readings that count in this state (CSV, XLSX).")] = "current",
    semicolons: Annotated[bool, Parameter(negative="", help="Separate by semicolons (CSV).")] = False,
    without_readings: Annotated[
        bool, Parameter(negative="", help="Leave out what was read, to begin such a build anew (JSON).")
    ] = False,
    form: Annotated[
        Literal["csv", "xlsx", "json"] | None,
        Parameter(name="--format", help="What to write, where the name of the file does not say it."),
    ] = None,
    units: Annotated[
        Literal["mm", "inch"] | None, Parameter(help="Units of what is computed (XLSX).")
    ] = None,
    force: Annotated[bool, Parameter(negative="", help="Write over a file that is there.")] = False,
) -> int:
    """Write a build: its readings as CSV, a sheet for each subject as XLSX, or all of it as JSON.

    A workbook has the readings on its first sheet, which import takes, then fits, parts, tightenings,
    steps, concessions and what else there is. Text that a spreadsheet could run as a formula gets an
    apostrophe in front; import takes it off.

    Example: fitwright export corrie-five corrie-five.xlsx --data demo
    """
    if file.exists() and not force:
        raise UsageError(f"{file} is there already: name another file, or say --force to write over it.")
    ending = f".{form}" if form is not None else file.suffix.lower()
    if ending not in (".csv", ".xlsx", ".json"):
        raise UsageError(f"{file} is neither of {ENDINGS}: say by its ending what to write.")
    with opened(data) as shop:
        if ending == ".json":
            from fitwright.cli.carrying import export_build

            return export_build(shop, build, file, readings=not without_readings)
        if ending == ".xlsx":
            count, sheets = _write_workbook(shop, build, file, state, family_of(shop, build, units))
        else:
            count, sheets = _write_csv(shop, build, file, state, ";" if semicolons else ","), 0
    sys.stdout.write(f"{count} readings that count in the {state} state are in {file}.\n")
    if sheets:
        sys.stdout.write(f"{sheets} more sheets hold the build as it stands.\n")
    return OK


def _write_csv(shop: Shop, build: str, file: Path, state: State, delimiter: str) -> int:
    from fitwright.assess.results import State as Which
    from fitwright.formats.readings.exporting import rows_of
    from fitwright.formats.readings.files import write_table

    rows = rows_of(shop.bench(build), Which(state))
    with written(file) as part:
        return write_table(rows, part, ending=".csv", delimiter=delimiter)


def _write_workbook(shop: Shop, build: str, file: Path, state: State, family: Family) -> tuple[int, int]:
    """The readings on the first sheet, then a sheet for each subject; how many of each."""
    from fitwright.assess.results import State as Which
    from fitwright.formats.readings.exporting import rows_of
    from fitwright.formats.readings.xlsx_file import write_xlsx
    from fitwright.formats.subjects import Told, subjects_of

    bench = shop.bench(build)
    told = Told(bench, shop.assessment(build), shop.assembly(build), family)
    subjects = subjects_of(told)
    more = [(each.name, (each.columns, *each.rows)) for each in subjects]
    with written(file) as part:
        return write_xlsx(rows_of(bench, Which(state)), part, more), len(subjects)
