"""A build started: its code, and what is said of it."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection
from itertools import count
from typing import Final

from fitwright.bench.errors import BenchError
from fitwright.model.sheet import Sheet
from fitwright.records.kinds import BuildStarted

RESERVED: Final = frozenset({"new"})
"""Codes that no build can have: they are addresses of other pages."""
LONGEST_MADE: Final = 40


class BuildExistsError(BenchError):
    """A build was to be started under a code that is taken."""

    def __init__(self, code: str) -> None:
        """Say which code."""
        super().__init__(f'A build "{code}" is there already; give the new one another name.')


class ReservedCodeError(BenchError):
    """A code under which the pages of a build could not be reached."""

    def __init__(self, code: str) -> None:
        """Say which code."""
        super().__init__(f'A build cannot be called "{code}"; give it another name.')


def build_started(
    code: str,
    sheet: Sheet,
    *,
    taken: Collection[str] = (),
    title: str | None = None,
    job_number: str | None = None,
    engine_number: str | None = None,
    owner_words: str | None = None,
    duty: str | None = None,
) -> BuildStarted:
    """The start of a build to a sheet; without a title it has the engine's name.

    Raises
    ------
    BuildExistsError, ReservedCodeError
        If the code is taken, or is none for a build.
    """
    check_code(code, taken)
    return BuildStarted(
        code=code,
        title=title or sheet.engine.name,
        sheet=sheet.digest,
        job_number=job_number,
        engine_number=engine_number,
        owner_words=owner_words,
        duty=duty,
    )


def check_code(code: str, taken: Collection[str]) -> None:
    """Refuse a code that is taken, or is none for a build."""
    if code in taken:
        raise BuildExistsError(code)
    if code.casefold() in RESERVED:
        raise ReservedCodeError(code)


def code_from(words: str, taken: Collection[str]) -> str:
    """A code made from a job number or a title, which no build has yet.

    Examples
    --------
    >>> code_from("Job 2031/4", ()), code_from("New", ()), code_from("Job 7", ("job-7",))
    ('job-2031-4', 'new-2', 'job-7-2')
    """
    plain = unicodedata.normalize("NFKD", words).encode("ascii", "ignore").decode().lower()
    stem = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:LONGEST_MADE].strip("-") or "job"
    if stem not in taken and stem not in RESERVED:
        return stem
    return next(code for number in count(2) if (code := f"{stem}-{number}") not in taken)
