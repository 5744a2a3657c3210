"""CSV files as rows of text, and back: UTF-8 or UTF-16, separated by commas, semicolons or tabs."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Sequence
from typing import Final, TextIO

from fitwright.formats.readings.columns import COLUMNS, delimiter_of
from fitwright.formats.readings.guarded import guarded
from fitwright.formats.readings.problems import TableError
from fitwright.formats.readings.table import Table, digest_of, table_of

_MARKS: Final = ((b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"), (b"\xef\xbb\xbf", "utf-8-sig"))


def read_csv(content: bytes, *, file: str = "the file") -> Table:
    """The table in the bytes of a CSV file.

    Raises
    ------
    TableError, TableProblemsError
        If it is no text, no CSV, or its headings cannot be used.
    """
    text = _text(content, file)
    return table_of(file, digest_of(content), _lines(text, file))


def write_csv(rows: Iterable[Sequence[str]], out: TextIO, *, delimiter: str = ",") -> int:
    """Write rows under the usual headings; returns how many. Text is kept from being run as formula."""
    writer = csv.writer(out, delimiter=delimiter, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    count = 0
    for row in rows:
        writer.writerow([guarded(cell) for cell in row])
        count += 1
    return count


def _text(content: bytes, file: str) -> str:
    encoding = next((name for mark, name in _MARKS if content.startswith(mark)), "utf-8")
    try:
        text = content.decode(encoding)
    except UnicodeDecodeError as error:
        raise TableError(
            file, f"is not UTF-8 text at byte {error.start}", "save it as CSV in UTF-8"
        ) from error
    if "\x00" in text:
        raise TableError(file, "holds zero bytes", "save it as CSV in UTF-8")
    return text


def _lines(text: str, file: str) -> Iterator[tuple[int, list[str]]]:
    heading = next((line for line in text.splitlines() if line.strip()), "")
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter_of(heading), strict=True)
    number = 0
    try:
        for number, cells in enumerate(reader, start=1):
            yield number, cells
    except csv.Error as error:
        raise TableError(
            file, f"is no CSV after row {number} ({error})", "close every quotation mark, then try again"
        ) from error
