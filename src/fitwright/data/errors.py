"""The errors of this package: a name that a table does not have, with the nearest that it has."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches
from typing import Final

MOST: Final = 20
"""Names that one sentence can hold."""


class DataError(Exception):
    """Base of everything that the tables raise."""


class UnknownNameError(DataError):
    """A name that stands in no table: what it should name, as written, and the nearest names."""

    def __init__(self, kind: str, written: str, known: Iterable[str], near: Iterable[str] = ()) -> None:
        """Build the sentence; `near` are names of which one is meant, else the nearest of all known."""
        self.kind = kind
        self.written = written
        names = list(known)
        self.near = (
            tuple(near) or tuple(get_close_matches(written, names, n=3, cutoff=0.5)) or tuple(names)
        )[:MOST]
        *first, last = (f'"{each}"' for each in self.near)
        write = f"{', '.join(first)} or {last}" if first else last
        super().__init__(f'{kind} "{written[:40]}" is not known; write {write}')
