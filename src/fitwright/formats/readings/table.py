"""A table read: rows of text in known columns, with the digest of the file that it came from."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from fitwright.formats.readings.columns import COLUMNS, column_of, missing, nearest
from fitwright.formats.readings.guarded import unguarded
from fitwright.formats.readings.problems import RowProblem, TableError, TableProblemsError

LARGEST_FILE: Final = 64_000_000
MOST_ROWS: Final = 200_000
LONGEST_CELL: Final = 4_000


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its number in the file, and the text of each column in the order of `COLUMNS`."""

    number: int
    cells: tuple[str, ...]

    def __getitem__(self, column: str) -> str:
        return self.cells[COLUMNS.index(column)]


@dataclass(frozen=True, slots=True)
class Table:
    """All rows of a file that are not empty, and what is wrong with single cells."""

    file: str
    digest: str
    rows: tuple[Row, ...]
    problems: tuple[RowProblem, ...] = ()


def file_content(path: Path) -> bytes:
    """The bytes of a file, if it is there and not too large."""
    try:
        size = path.stat().st_size
    except OSError:
        raise TableError(str(path), "is not there", "name a CSV or XLSX file") from None
    if size > LARGEST_FILE:
        raise TableError(
            str(path), f"has {size} bytes", f"divide it into files below {LARGEST_FILE // 10**6} MB"
        )
    return path.read_bytes()


def digest_of(content: bytes) -> str:
    """The SHA-256 of a file, which its entries' ids are made from."""
    return hashlib.sha256(content).hexdigest()


def table_of(file: str, digest: str, lines: Iterable[tuple[int, Sequence[str]]]) -> Table:
    """The table in numbered lines of cells; the first that is not empty holds the headings.

    Raises
    ------
    TableProblemsError
        If a heading is unknown or doubled, or one that is needed is missing.
    TableError
        If there are no headings, or too many rows.
    """
    filled = ((number, cells) for number, cells in lines if any(cells))
    first = next(filled, None)
    if first is None:
        raise TableError(file, "is empty", f"its first row names the columns: {', '.join(COLUMNS)}")
    where = _positions(file, *first)
    rows: list[Row] = []
    problems: list[RowProblem] = []
    seen: dict[str, str] = {}
    for number, cells in filled:
        if len(rows) == MOST_ROWS:
            raise TableError(file, f"has more than {MOST_ROWS} rows", "divide it into several files")
        problems.extend(_beyond(file, number, cells, len(first[1])))
        texts = (_cell(cells, position) for position in where)
        # One copy of each text is enough: most columns say the same thing in every row.
        rows.append(Row(number, tuple(seen.setdefault(text, text) for text in texts)))
    return Table(file, digest, tuple(rows), tuple(problems))


def _positions(file: str, number: int, headings: Sequence[str]) -> list[int | None]:
    problems = []
    found: dict[str, int] = {}
    for position, heading in enumerate(headings):
        column = column_of(heading)
        if not heading:
            continue
        if column is None:
            problems.append(RowProblem(file, number, heading[:40], "no such column", nearest(heading)))
        elif column in found:
            problems.append(RowProblem(file, number, column, "named twice", "keep one of them"))
        else:
            found[column] = position
    problems += [
        RowProblem(file, number, name, "this column is missing", "add it") for name in missing(headings)
    ]
    if problems:
        raise TableProblemsError(problems)
    return [found.get(column) for column in COLUMNS]


def _cell(cells: Sequence[str], position: int | None) -> str:
    if position is None or position >= len(cells):
        return ""
    return unguarded(cells[position].strip())


def _beyond(file: str, number: int, cells: Sequence[str], width: int) -> Iterator[RowProblem]:
    if any(cells[width:]):
        yield RowProblem(
            file,
            number,
            "",
            f"has {len(cells)} cells for {width} columns",
            "quote texts with separators in them",
        )
    for position, cell in enumerate(cells):
        if len(cell) > LONGEST_CELL:
            yield RowProblem(
                file, number, str(position + 1), f"has {len(cell)} characters", f"at most {LONGEST_CELL}"
            )
