"""Tables of readings as files of either kind: told apart by how the file is called."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path, PurePath
from typing import Final

from fitwright.formats.readings.csv_file import read_csv, write_csv
from fitwright.formats.readings.problems import TableError
from fitwright.formats.readings.table import Table
from fitwright.formats.readings.xlsx_file import read_xlsx, write_xlsx

TEXTS: Final = (".csv", ".tsv", ".txt")
WORKBOOKS: Final = (".xlsx",)


def table_in(content: bytes, *, file: str, sheet: str | None = None) -> Table:
    """The table in the bytes of a file, read as its name ends.

    Raises
    ------
    TableError, TableProblemsError
        If its name ends otherwise, or it is no table of readings.
    """
    ending = PurePath(file).suffix.lower()
    if ending in TEXTS:
        return read_csv(content, file=file)
    if ending in WORKBOOKS:
        return read_xlsx(content, file=file, sheet=sheet)
    raise TableError(file, "is neither .csv nor .xlsx", "say by its ending what it is")


def write_table(rows: Iterable[Sequence[str]], path: Path, *, ending: str, delimiter: str = ",") -> int:
    """Write rows into a file of either kind; returns how many."""
    if ending in WORKBOOKS:
        return write_xlsx(rows, path)
    with path.open("w", encoding="utf-8-sig", newline="") as out:
        return write_csv(rows, out, delimiter=delimiter)
