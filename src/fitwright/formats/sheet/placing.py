"""Problems put in their places in the text: line and column, families counted once."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Final

from fitwright.formats.sheet.positions import Positions
from fitwright.formats.sheet.problems import ENTRY_WORDS, SheetProblem
from fitwright.formats.sheet.sections import entry_at, section_path
from fitwright.model.problem import Path, Problem

_TOML_PLACE: Final = re.compile(
    r"^(?P<what>.*?) \(at (?:line (?P<line>\d+), column (?P<column>\d+)|end.*)\)$"
)

LONGEST: Final = 4_000_000
_DEEP: Final = re.compile(r"""^[ \t\[]*(?:(?:[\w-]+|"[^"\n]*"|'[^'\n]*')[ \t]*\.[ \t]*){30}""", re.MULTILINE)
"""A key of more than thirty parts: tables in tables in tables."""

_TOML_WORDS: Final[Mapping[str, str]] = MappingProxyType(
    {"Cannot overwrite a value": "a key is given twice", "Invalid value": "no value that TOML knows"}
)


def placed(text: str, problems: Iterable[Problem]) -> tuple[SheetProblem, ...]:
    """The problems with line and column (the file unnamed), in the order of the text."""
    positions = Positions(text)
    return tuple(sorted((_place(problem, positions) for problem in problems), key=_order))


def _place(problem: Problem, positions: Positions) -> SheetProblem:
    where = positions.of_key if problem.at_key else positions.of_value
    line, column = where(problem.path)
    what = problem.what
    if problem.other is not None:
        what = f"{what}; line {positions.of_key(problem.other)[0]} gives it already"
    return SheetProblem("", line, column, problem.path, what, problem.accepted)


def _order(problem: SheetProblem) -> tuple[int, int, str]:
    return problem.line, problem.column, problem.what


def once_for_each_family(
    problems: Iterable[Problem], key_of: Mapping[tuple[str, str], str]
) -> tuple[Problem, ...]:
    """Problems of ids as problems of the keys they came from; what all members share counts once."""
    first: dict[Path, str] = {}
    others: dict[Path, set[str]] = {}
    kept: list[Problem] = []
    for problem in problems:
        entry = entry_at(problem.path, ENTRY_WORDS)
        name = entry.key if entry else ""
        path = _as_written(problem.path, key_of)
        if first.setdefault(path, name) == name:
            kept.append(Problem(path, problem.what, problem.accepted, problem.at_key, problem.other))
        else:
            others.setdefault(path, set()).add(name)
    return tuple(_counted(problem, len(others.get(problem.path, ()))) for problem in kept)


def _as_written(path: Path, key_of: Mapping[tuple[str, str], str]) -> Path:
    entry = entry_at(path, ENTRY_WORDS)
    key = key_of.get((entry.section, entry.key)) if entry else None
    if entry is None or key is None:
        return path
    return (*section_path(entry.section), key, *entry.rest)


def _counted(problem: Problem, others: int) -> Problem:
    if not others:
        return problem
    what = f"{problem.what} (and so for {others} more of this family)"
    return Problem(problem.path, what, problem.accepted, problem.at_key, problem.other)


def toml_problem(text: str, error: ValueError | RecursionError) -> SheetProblem:
    """What keeps a text from being TOML at all."""
    if isinstance(error, RecursionError):
        return SheetProblem("", 1, 1, (), "brackets nested too deeply", "write it flatter")
    found = _TOML_PLACE.match(str(error))
    if not found:
        return SheetProblem("", 1, 1, (), f"this is not TOML: {error}")
    what = _TOML_WORDS.get(found["what"], found["what"])
    line = int(found["line"]) if found["line"] else text.count("\n") + 1
    column = int(found["column"]) if found["column"] else len(text) - text.rfind("\n")
    return SheetProblem("", line, column, (), f"this is not TOML: {what[:1].lower()}{what[1:]}")


def out_of_measure(text: str) -> SheetProblem | None:
    """What no sheet of an engine needs and what would keep a program busy for hours."""
    if len(text) > LONGEST:
        return SheetProblem("", 1, 1, (), f"{len(text)} characters", f"write at most {LONGEST}")
    found = _DEEP.search(text)
    if found is None:
        return None
    line = text.count("\n", 0, found.start()) + 1
    return SheetProblem("", line, 1, (), "tables nested too deeply", "put ids with dots in quotes")


def unstorable(text: str, index: int) -> SheetProblem:
    """A character that has no place in any file (half of a surrogate pair)."""
    line, column = text.count("\n", 0, index) + 1, index - text.rfind("\n", 0, index)
    return SheetProblem("", line, column, (), "a character that cannot be stored", "write it anew")
