"""Reading an engine sheet: text in, `Sheet` out, or all of its problems with line and column."""

from __future__ import annotations

import hashlib
import tomllib
from contextlib import suppress
from functools import lru_cache
from typing import Any

from fitwright.formats.sheet.assembly import Assembled, assemble
from fitwright.formats.sheet.designations import check_designations
from fitwright.formats.sheet.placing import (
    once_for_each_family,
    out_of_measure,
    placed,
    toml_problem,
    unstorable,
)
from fitwright.formats.sheet.problems import SheetProblem, SheetProblemsError
from fitwright.formats.sheet.structure import Tables, read_tables
from fitwright.formats.sheet.upgrade import upgraded, version_problem
from fitwright.model.braces import expand
from fitwright.model.checks import check
from fitwright.model.errors import BraceError
from fitwright.model.problem import Problem
from fitwright.model.sheet import Sheet

DEEPEST = 30


def read_sheet(text: str, *, name: str = "sheet.toml") -> Sheet:
    """The engine sheet that a TOML text describes.

    Parameters
    ----------
    text : str
        The text of the file.
    name : str
        What problems call the file.

    Returns
    -------
    Sheet
        The sheet, all families expanded; `digest` is the SHA-256 of the text.

    Raises
    ------
    SheetProblemsError
        If anything is wrong with it; carries all problems in the order of the file.
    """
    sheet, problems = check_sheet(text, name=name)
    if sheet is None:
        raise SheetProblemsError(problems)
    return sheet


def check_sheet(text: str, *, name: str = "sheet.toml") -> tuple[Sheet | None, tuple[SheetProblem, ...]]:
    """The sheet, or None and everything that is wrong with the text."""
    sheet, problems = _read(text)
    return sheet, tuple(
        SheetProblem(name, problem.line, problem.column, problem.path, problem.what, problem.accepted)
        for problem in problems
    )


@lru_cache(maxsize=16)
def _read(text: str) -> tuple[Sheet | None, tuple[SheetProblem, ...]]:
    """The same without the file's name, so that a text is read once in a process."""
    try:
        encoded = text.encode()
    except UnicodeEncodeError as error:
        return None, (unstorable(text, error.start),)
    too_much = out_of_measure(text)
    if too_much is not None:
        return None, (too_much,)
    try:
        document = tomllib.loads(text.replace("\r\n", "\n").removeprefix("\ufeff"))
    except (ValueError, RecursionError) as error:
        return None, (toml_problem(text, error),)
    if _is_deep(document):
        return None, (toml_problem(text, RecursionError()),)
    wrong_version = version_problem(document)
    if wrong_version is not None and "newer" in wrong_version.accepted:
        return None, placed(text, [wrong_version])
    sheet, problems = _read_document(document, hashlib.sha256(encoded).hexdigest(), wrong_version)
    return sheet, placed(text, problems) if problems else ()


def _is_deep(document: dict[str, Any]) -> bool:
    """Whether values stand deeper in one another than any sheet has them."""
    level: list[Any] = [document]
    for _ in range(DEEPEST):
        level = [
            inner
            for value in level
            if isinstance(value, dict | list)
            for inner in (value.values() if isinstance(value, dict) else value)
        ]
    return bool(level)


def _read_document(
    document: dict[str, Any], digest: str, wrong_version: Problem | None
) -> tuple[Sheet | None, list[Problem]]:
    tables = read_tables(document if wrong_version else upgraded(document))
    assembled = assemble(tables, digest)
    form = [*([wrong_version] if wrong_version else []), *tables.problems, *assembled.problems]
    problems = form + _checked(assembled, tables, form)
    return (None if problems else assembled.sheet), problems


def _checked(assembled: Assembled, tables: Tables, form: list[Problem]) -> list[Problem]:
    """What the sheet as a whole says wrong, without what only follows from problems of form."""
    around = {problem.path[:length] for problem in form for length in range(len(problem.path) + 1)}
    found = [
        *check(assembled.sheet, also_known=_unusable_ids(tables)),
        *check_designations(assembled.sheet),
    ]
    return [
        problem for problem in once_for_each_family(found, assembled.key_of) if problem.path not in around
    ]


def _unusable_ids(tables: Tables) -> dict[str, frozenset[str]]:
    """The ids of tables that are there but have no sound form."""
    return {section: frozenset(_names(keys)) for section, keys in tables.unusable.items()}


def _names(keys: list[str]) -> set[str]:
    names = set(keys)
    for key in keys:
        with suppress(BraceError):
            names.update(member.name for member in expand(key))
    return names
