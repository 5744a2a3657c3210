"""What is wrong with a table of readings: the file, row, column, and what would be right."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from fitwright.formats.errors import FormatError


@dataclass(frozen=True, slots=True)
class RowProblem:
    """One problem; rows count from 1 as a spreadsheet counts them, headings included."""

    file: str
    row: int
    column: str
    what: str
    accepted: str = ""

    def __str__(self) -> str:
        where = f"{self.file}, row {self.row}" + (f", {self.column}" if self.column else "")
        return f"{where}: {self.what}" + (f"; {self.accepted}" if self.accepted else "")

    def as_data(self) -> dict[str, Any]:
        """The same as plain data."""
        return {
            "file": self.file,
            "row": self.row,
            "column": self.column,
            "what": self.what,
            "accepted": self.accepted,
        }


class TableError(FormatError):
    """A file that is no table of readings at all: one sentence."""

    def __init__(self, file: str, what: str, mend: str) -> None:
        """Say which file, what is wrong with it, and what to do."""
        self.file, self.what, self.mend = file, what, mend
        super().__init__(f"{file} {what}; {mend}.")


class TableProblemsError(FormatError):
    """Headings that cannot be used; carries all problems in the order of the file."""

    def __init__(self, problems: Sequence[RowProblem]) -> None:
        """Build the message: one line for each problem."""
        self.problems = tuple(problems)
        super().__init__("\n".join(map(str, problems)))
