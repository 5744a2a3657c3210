"""Problems of a sheet as a person reads them: file, line, column, place, what is wrong, what to write."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from types import MappingProxyType
from typing import Any, Final

from fitwright.formats.errors import FormatError
from fitwright.formats.sheet.sections import entry_at
from fitwright.model.problem import Path

ENTRY_WORDS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "sources": "source",
        "materials": "material",
        "parts": "part",
        "conditions": "condition",
        "temperature_cases": "temperature case",
        "dimensions": "dimension",
        "fits": "fit",
        "stations": "station",
        "oils": "oil",
        "circuit.pumps": "pump stage",
        "circuit.reliefs": "relief valve",
        "circuit.paths": "oil path",
        "consumables": "consumable",
        "tightening_groups": "tightening group",
        "steps": "step",
    }
)
_LIST_WORDS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "limits": "limit",
        "eye_checks": "eye check",
        "operating_points": "operating point",
        "stops": "stop value",
        "shims": "shim",
        "passes": "pass",
        "photos": "photo",
    }
)


@dataclass(frozen=True, slots=True)
class SheetProblem:
    """One problem; line and column count from 1, `path` is the keys to it, `accepted` what to write."""

    file: str
    line: int
    column: int
    path: Path
    what: str
    accepted: str = ""

    @property
    def place(self) -> str:
        """The path in words: `dimension main.{1..6}.journal, limit 2, upper`."""
        return _in_words(self.path)

    def __str__(self) -> str:
        """One line, as an editor's error list reads it."""
        place = f"{self.place}: " if self.path else ""
        mend = f"; {self.accepted}" if self.accepted else ""
        return f"{self.file}:{self.line}:{self.column}: {place}{self.what}{mend}"

    def as_data(self) -> dict[str, Any]:
        """The same for another program; `place` is the path in words."""
        return {**asdict(self), "path": list(self.path), "place": self.place}


class SheetProblemsError(FormatError):
    """A sheet that cannot be used; carries all its problems in the order of the file."""

    def __init__(self, problems: tuple[SheetProblem, ...]) -> None:
        """Build the message: one line for each problem."""
        self.problems = problems
        super().__init__("\n".join(map(str, problems)))


def _in_words(path: Path) -> str:
    words: list[str] = []
    entry = entry_at(path, ENTRY_WORDS)
    if entry is not None:
        words.append(f"{ENTRY_WORDS[entry.section]} {entry.key}")
    for key in path if entry is None else entry.rest:
        if isinstance(key, int) and words:
            before = words.pop()
            words.append(f"{_LIST_WORDS.get(before, before)} {key + 1}")
        else:
            words.append(str(key))
    return ", ".join(words)
