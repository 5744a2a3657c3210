"""An entry as data of a file: all that its digest is made of, without its place in the chain."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from fitwright.records.entry import Entry

ENTRY_FIELDS: Final = (
    "seq",
    "id",
    "build",
    "kind",
    "kind_version",
    "person",
    "device",
    "committed_at",
    "client_time",
    "body",
)
_TEXTS: Final = ("id", "kind", "committed_at")
_TEXTS_OR_NONE: Final = ("build", "person", "device", "client_time")


def data_of(entry: Entry) -> dict[str, Any]:
    """An entry as data."""
    return {name: getattr(entry, name) for name in ENTRY_FIELDS} | {"body": dict(entry.body)}


def is_entry_data(data: Mapping[str, Any]) -> bool:
    """Whether each field of an entry is of its kind; what else stands there is not looked at.

    Raises
    ------
    KeyError
        If a field is missing.
    """
    return (
        all(isinstance(data[name], str) for name in _TEXTS)
        and all(data[name] is None or isinstance(data[name], str) for name in _TEXTS_OR_NONE)
        and all(type(data[name]) is int for name in ("seq", "kind_version"))
        and isinstance(data["body"], dict)
    )


def entry_from(data: Mapping[str, Any]) -> Entry:
    """The entry of such data, which has no place in a chain yet."""
    return Entry(**{name: data[name] for name in ENTRY_FIELDS}, previous_hash="", hash="")
