"""Ids of entries: 128 bits, made by whoever makes the entry, written as 32 hex digits."""

from __future__ import annotations

import re
import uuid

_IMPORTED = uuid.UUID("6f1c2b1e-8d0a-5c35-9b7e-4a5d3c0f2e91")
_ENTRY_ID = re.compile(r"[0-9a-f]{32}")


def new_id() -> str:
    """A fresh random id."""
    return uuid.uuid4().hex


def imported_id(build: str, file_digest: str, row: int | str) -> str:
    """The id of one row of a file imported into a build: the same file again gives the same id (UUIDv5).

    Examples
    --------
    >>> imported_id("b1", "ab" * 32, 7) == imported_id("b1", "ab" * 32, 7)
    True
    >>> imported_id("b1", "ab" * 32, 7) == imported_id("b2", "ab" * 32, 7)
    False
    """
    return uuid.uuid5(_IMPORTED, f"{build}/{file_digest}/{row}").hex


def is_entry_id(text: str) -> bool:
    """Whether this is an id as the record wants it: 32 hex digits, small letters."""
    return _ENTRY_ID.fullmatch(text) is not None
