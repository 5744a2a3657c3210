"""The sections of a sheet by name (`parts`, `circuit.paths`), and the entries that stand in them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final, NamedTuple

from fitwright.model.problem import Path
from fitwright.model.sheet import Sheet

CIRCUIT: Final = "circuit"
"""The table that is there once and holds sections of its own."""


class Entry(NamedTuple):
    """An entry that a path of keys leads to, and the keys that follow."""

    section: str
    key: str
    rest: Path


def section_path(section: str) -> tuple[str, ...]:
    """The keys that lead to a section.

    Examples
    --------
    >>> section_path("circuit.paths")
    ('circuit', 'paths')
    """
    return tuple(section.split("."))


def entry_at(path: Path, sections: Mapping[str, Any]) -> Entry | None:
    """The entry of one of these sections that a path leads to or into, if any.

    Examples
    --------
    >>> entry_at(("circuit", "paths", "jet.1", "diameter"), {"circuit.paths": None})
    Entry(section='circuit.paths', key='jet.1', rest=('diameter',))
    """
    for length in (1, 2):
        section = ".".join(map(str, path[:length]))
        if len(path) > length and section in sections:
            return Entry(section, str(path[length]), path[length + 1 :])
    return None


def entries_of(sheet: Sheet, section: str) -> Mapping[str, Any]:
    """The entries of a section, by id; none where the sheet has no circuit."""
    owner: Any = sheet
    for name in section_path(section):
        owner = getattr(owner, name)
        if owner is None:
            return {}
    found: Mapping[str, Any] = owner
    return found
