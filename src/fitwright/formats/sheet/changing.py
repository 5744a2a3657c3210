"""The other common changes of a sheet file: a nominal, the places of a dimension, a source; comments stay."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import tomlkit

from fitwright.formats.sheet.editing import entry_in, put, sound_text
from fitwright.formats.sheet.reader import read_sheet

_SECTIONS = ("fits", "dimensions")


@dataclass(frozen=True, slots=True)
class Places:
    """Where a dimension is taken: planes along the part and angles around it, or names of places."""

    planes: tuple[str, ...] = ()
    angles: tuple[str, ...] = ()
    places: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Changeable:
    """A fit or dimension of a file, as a whole family: its section, key, title, and table as written."""

    section: str
    key: str
    title: str
    table: Mapping[str, Any]


def changeable(text: str) -> tuple[Changeable, ...]:
    r"""The fits and dimensions of a text, in its order; none where it is no TOML.

    Examples
    --------
    >>> [each.key for each in changeable('[fits."main.{1..2}.clearance"]\ntitle = "Main {}"')]
    ['main.{1..2}.clearance']
    """
    try:
        document = tomllib.loads(text)
    except ValueError:
        return ()
    return tuple(
        Changeable(section, key, str(table.get("title", key)), table)
        for section in _SECTIONS
        for key, table in _tables(document.get(section)).items()
        if isinstance(table, dict)
    )


def set_nominal(text: str, subject: str, nominal: str | None) -> str:
    """A sheet's text with a dimension's nominal size set, or taken out.

    Raises
    ------
    UnknownSubjectError, SheetProblemsError
        If the subject is no key of the file; if the text is unsound, or would become so.
    """
    return _with_keys(text, subject, {"nominal": nominal})


def set_places(text: str, subject: str, where: Places) -> str:
    """A sheet's text with the places of a dimension set.

    Raises
    ------
    UnknownSubjectError, SheetProblemsError
        If the subject is no key of the file; if the text is unsound, or would become so.
    """
    keys = {"planes": where.planes, "angles": where.angles, "places": where.places}
    return _with_keys(text, subject, {key: list(names) or None for key, names in keys.items()})


def add_source(text: str, source: str, *, title: str, kind: str, edition: str | None = None) -> str:
    """A sheet's text with a source more, behind those that it has.

    Raises
    ------
    SheetProblemsError
        If the text is unsound, or would become so.
    """
    read_sheet(text)
    document = tomlkit.parse(text)
    if "sources" not in document:
        document["sources"] = tomlkit.table(is_super_table=True)
    table = tomlkit.table()
    for key, value in {"title": title, "edition": edition, "kind": kind}.items():
        if value is not None:
            table[key] = value
    table.add(tomlkit.nl())
    sources: Any = document["sources"]
    sources[source] = table
    return sound_text(document)


def _with_keys(text: str, subject: str, keys: Mapping[str, str | Sequence[str] | None]) -> str:
    read_sheet(text)
    document = tomlkit.parse(text)
    entry = entry_in(document, subject)
    for key, value in keys.items():
        if value is None:
            entry.pop(key, None)
        elif entry.get(key) != value:
            put(entry, key, value)
    return sound_text(document)


def _tables(section: Any) -> Mapping[str, Any]:  # noqa: ANN401 - whatever stands in the file
    return section if isinstance(section, dict) else {}
