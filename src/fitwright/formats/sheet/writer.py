"""Writing an engine sheet: `Sheet` in, TOML text out; `read_sheet` reads back an equal sheet."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from typing import Any, Final

from fitwright.formats.sheet.plain import PlainTable, plain_sections, plain_singles
from fitwright.formats.sheet.sections import CIRCUIT, entries_of, section_path
from fitwright.formats.sheet.templates import NoTemplateError, shared
from fitwright.model.braces import Member, expand
from fitwright.model.errors import BraceError
from fitwright.model.sheet import Sheet

_BARE: Final = re.compile(r"[A-Za-z0-9_-]+")


def write_sheet(sheet: Sheet) -> str:
    """The text of a sheet file.

    Families are written under their braces where their members still share one form; a member that
    differs is written by itself, and all of its family with it. Amounts that the model keeps as
    numbers only (temperatures, expansion, lengths of press fits) are written in a usual unit, or in
    SI where that would not give the same number back.
    """
    lines = [f"format = {sheet.format}"]
    singles = plain_singles(sheet)
    lines += _table(("engine",), singles.pop("engine"))
    for section, entries in plain_sections(sheet).items():
        path = section_path(section)
        if path[0] in singles:
            lines += _table(path[:1], singles.pop(path[0]))
        for key, entry in _with_families(sheet, section, entries):
            lines += _table((*path, key), entry)
    return "\n".join(lines) + "\n"


def _with_families(
    sheet: Sheet, section: str, entries: Mapping[str, PlainTable]
) -> Iterator[tuple[str, PlainTable]]:
    written: set[str] = set()
    for name, entry in entries.items():
        if name in written:
            continue
        family = getattr(entries_of(sheet, section)[name], "family", None)
        members = _members(family, entries) if family is not None else ()
        try:
            table = shared([entries[each.name] for each in members], [each.values for each in members])
        except (NoTemplateError, IndexError):
            yield name, entry
            continue
        written.update(each.name for each in members)
        yield str(family), table


def _members(family: str, entries: Mapping[str, PlainTable]) -> tuple[Member, ...]:
    try:
        members = expand(family)
    except BraceError:
        return ()
    return members if all(member.name in entries for member in members) else ()


def _table(path: tuple[str, ...], table: PlainTable) -> Iterator[str]:
    """A table with its plain values first, then the tables below it."""
    is_single = path[0] == "engine" or path == (CIRCUIT,)
    below = {key: value for key, value in table.items() if isinstance(value, dict) and is_single}
    yield ""
    yield f"[{'.'.join(map(_key, path))}]"
    for key, value in table.items():
        if key not in below:
            yield f"{_key(key)} = {_value(value)}"
    for key, value in below.items():
        yield from _table((*path, key), value)


def _key(key: str) -> str:
    return key if _BARE.fullmatch(key) else _text(key)


def _text(text: str) -> str:
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _value(value: Any) -> str:  # noqa: ANN401 - plain TOML values
    if isinstance(value, str):
        return _text(value)
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{_key(key)} = {_value(inner)}" for key, inner in value.items()) + " }"
    if isinstance(value, list):
        return _list(value)
    return repr(value)


def _list(values: list[Any]) -> str:
    if any(isinstance(value, dict) for value in values):
        return "[\n" + "".join(f"    {_value(value)},\n" for value in values) + "]"
    return "[" + ", ".join(map(_value, values)) + "]"
