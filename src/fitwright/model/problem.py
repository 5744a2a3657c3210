"""A problem in a sheet: where, what is wrong, and what would be accepted."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypeAlias

Path: TypeAlias = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Problem:
    """One problem: the path of keys to it, what is wrong, the accepted form.

    `at_key` is set where the key itself is wrong rather than its value; `other` is a second place
    that the sentence speaks of (an id that was given before).
    """

    path: Path
    what: str
    accepted: str = ""
    at_key: bool = False
    other: Path | None = None


def meant(word: str, known: Iterable[str]) -> str:
    """A "did you mean" for a word that is not known; empty where nothing is near.

    Examples
    --------
    >>> meant("jurnal", ["journal", "bore"])
    'did you mean "journal"?'
    """
    near = difflib.get_close_matches(word, sorted(known), n=1, cutoff=0.6)
    return f'did you mean "{near[0]}"?' if near else ""
