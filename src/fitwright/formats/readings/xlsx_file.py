"""XLSX workbooks as rows of text, and back.

A workbook is a ZIP of XML that somebody else made: it is looked at before it is opened. Refused are
one that unpacks to much more than it is (a bomb), one with a document type or entities, one with a
password. Only values are read; formulas count as the value that they last had.
"""

from __future__ import annotations

import io
import zipfile
import zlib
from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date, datetime, time
from decimal import Decimal
from functools import partial
from pathlib import Path
from typing import Final, Protocol
from xml.etree.ElementTree import ParseError

from fitwright.formats.readings.columns import COLUMNS
from fitwright.formats.readings.guarded import guarded, is_number
from fitwright.formats.readings.problems import TableError
from fitwright.formats.readings.table import Table, digest_of, table_of

LARGEST_UNPACKED: Final = 200_000_000
LARGEST_RATIO: Final = 200
LARGEST_IN_ONE_PIECE: Final = 20_000_000
MOST_MEMBERS: Final = 500
LAST_ROW: Final = 1_048_576
_FORBIDDEN: Final = tuple(
    word.encode(encoding)
    for word in ("<!DOCTYPE", "<!ENTITY")
    for encoding in ("utf-8", "utf-16-le", "utf-16-be")
)
_BROKEN: Final = (
    zipfile.BadZipFile,
    zlib.error,
    ParseError,
    KeyError,
    IndexError,
    ValueError,
    TypeError,
    AttributeError,
    EOFError,
    OSError,
    RuntimeError,
)
"""What the reader of workbooks raises on damaged ones; it has no error of its own for them."""
_SAVE_AGAIN: Final = "save it again as an XLSX workbook, or as CSV"


class _Cell(Protocol):
    """What is used of a cell of a workbook."""

    value: object
    number_format: str
    data_type: str


def read_xlsx(content: bytes, *, file: str = "the file", sheet: str | None = None) -> Table:
    """The table on one sheet of a workbook, by name or the first.

    Raises
    ------
    TableError, TableProblemsError
        If it is no workbook, not a harmless one, or its headings cannot be used.
    """
    _look_before_opening(content, file)
    try:
        return table_of(file, digest_of(content), _lines(content, file, sheet))
    except _BROKEN as error:
        raise TableError(
            file, f"is no XLSX workbook that can be read ({_short(error)})", _SAVE_AGAIN
        ) from error


def write_xlsx(
    rows: Iterable[Sequence[str]], path: Path, more: Iterable[tuple[str, Iterable[Sequence[str]]]] = ()
) -> int:
    """Write rows under the usual headings into a new workbook; returns how many.

    `more` are further sheets by their names, each with a row of headings first. Numbers
    become number cells with the decimals that they have; everything else is text that is
    never a formula.
    """
    from openpyxl import Workbook
    from openpyxl.cell import WriteOnlyCell

    workbook = Workbook(write_only=True)
    sheet = workbook.create_sheet("readings")
    sheet.freeze_panes = "A2"
    sheet.append(list(COLUMNS))
    count = 0
    for row in rows:
        sheet.append([_written(partial(WriteOnlyCell, sheet), text) for text in row])
        count += 1
    for name, lines in more:
        other = workbook.create_sheet(name)
        other.freeze_panes = "A2"
        for line in lines:
            other.append([_written(partial(WriteOnlyCell, other), text) for text in line])
    workbook.save(path)
    return count


def _written(new_cell: Callable[..., _Cell], text: str) -> _Cell:
    if is_number(text) and _survives(text):
        cell = new_cell(value=float(text))
        decimals = len(text.partition(".")[2])
        cell.number_format = f"0.{'0' * decimals}" if decimals else "0"
        return cell
    cell = new_cell(value=guarded("".join(map(_printable, text))))
    cell.data_type = "s"
    return cell


def _survives(text: str) -> bool:
    """Whether a number cell says the same number: a float holds about 15 digits."""
    decimals = len(text.partition(".")[2])
    return not text.startswith("+") and f"{float(text):.{decimals}f}" == text


def _printable(character: str) -> str:
    """A character that XML can carry; control characters become a mark that shows their place."""
    return character if character >= " " or character in "\t\n" else "\ufffd"


def _look_before_opening(content: bytes, file: str) -> None:
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            members = archive.infolist()
            _check_sizes(members, len(content), file)
            for member in members:  # whatever it is called: any of them can be named as a sheet
                _check_xml(archive, member, file)
    except (*_BROKEN, NotImplementedError) as error:
        raise TableError(
            file, f"is no XLSX workbook that can be read ({_short(error)})", _SAVE_AGAIN
        ) from error


def _check_sizes(members: Sequence[zipfile.ZipInfo], packed: int, file: str) -> None:
    unpacked = sum(member.file_size for member in members)
    bomb = unpacked > LARGEST_IN_ONE_PIECE and unpacked > LARGEST_RATIO * packed
    if unpacked > LARGEST_UNPACKED or bomb or len(members) > MOST_MEMBERS:
        raise TableError(
            file,
            f"would unpack from {packed} to {unpacked} bytes in {len(members)} pieces, which no table needs",
            "do not open it; ask for the readings as CSV",
        )


def _check_xml(archive: zipfile.ZipFile, member: zipfile.ZipInfo, file: str) -> None:
    """Read a member through once; a document type could define entities that grow without end."""
    longest = max(map(len, _FORBIDDEN))
    with archive.open(member) as stream:
        before = b""
        while piece := stream.read(1 << 20):
            seen = (before + piece).upper()
            if any(word in seen for word in _FORBIDDEN):
                raise TableError(
                    file,
                    f"has a document type in {member.filename[:60]}, which no workbook needs",
                    "do not open it; ask for the readings as CSV",
                )
            before = piece[-longest:]


def _lines(content: bytes, file: str, sheet: str | None) -> Iterator[tuple[int, list[str]]]:
    from openpyxl import load_workbook

    workbook = load_workbook(io.BytesIO(content), read_only=True, data_only=True, keep_links=False)
    try:
        names = workbook.sheetnames
        if sheet is not None and sheet not in names:
            raise TableError(file, f'has no sheet "{sheet}"', f"name one of: {', '.join(names[:8])}")
        found = workbook[sheet or names[0]]
        found.reset_dimensions()  # what the file says of its own size need not be so
        # A row may give itself any number; the rows before it would then be filled in without end.
        rows = found.iter_rows(max_row=LAST_ROW, max_col=len(COLUMNS) + 10)
        for number, cells in enumerate(rows, start=1):
            if number == LAST_ROW:  # the reader goes no further, and does not say so
                raise TableError(file, f"has a row {LAST_ROW} or beyond", "save it again, or as CSV")
            yield number, [_text(cell) for cell in cells]
    finally:
        workbook.close()


def _text(cell: _Cell) -> str:
    value = cell.value
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return _number(value, str(cell.number_format or ""))
    if isinstance(value, datetime):
        return value.isoformat() if value.time() != time.min else value.date().isoformat()
    return value.isoformat() if isinstance(value, date | time) else str(value)


def _number(value: float, number_format: str) -> str:
    """A number as it was typed: with the decimals that its format shows, if that loses nothing."""
    exact = format(Decimal(repr(value)), "f")
    decimals = len(number_format.partition(".")[2]) if set(number_format) <= set("0.") else 0
    shown = f"{value:.{decimals}f}"
    if float(shown) == value:
        return shown
    return exact.removesuffix(".0")


def _short(error: BaseException) -> str:
    text = str(error).splitlines()[0] if str(error) else type(error).__name__
    return text[:80]
