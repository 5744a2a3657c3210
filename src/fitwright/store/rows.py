"""Rows of the entries table, to and from entries."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from sqlalchemy import ColumnElement, Connection, Engine, Row, Select, Table, func, select, text

from fitwright.records.canonical import parsed
from fitwright.records.chain import Link
from fitwright.records.entry import Acknowledgement, Entry
from fitwright.records.registry import SECRET_KINDS
from fitwright.records.search import Search
from fitwright.store.dialect import NAMING
from fitwright.store.errors import DamagedEntryError
from fitwright.store.schema import entries

PAGE = 1000
COLUMNS = tuple(column.name for column in entries.columns)
BODY = COLUMNS.index("body")
_NAMING = text(NAMING.format(columns=", ".join(COLUMNS)))
_BY_ID = select(entries)
_HEAD = select(entries.c.id, entries.c.seq, entries.c.hash).order_by(entries.c.seq.desc()).limit(1)


def entry_of(row: Row[Any]) -> Entry:
    """The entry in a row.

    Raises
    ------
    DamagedEntryError
        If its body is no text, or no JSON object.
    """
    try:
        row.body.encode()
        body = parsed(row.body)
    except (AttributeError, TypeError, ValueError):
        raise DamagedEntryError(row.seq, row.id) from None
    return _entry(row, body)


def link_of(row: Row[Any]) -> Link:
    """The entry in a row with its body's text as stored; the body itself is left unread."""
    return Link(_entry(row, {}), row.body)


def _entry(row: Row[Any], body: dict[str, Any]) -> Entry:
    """The columns stand in the order of an entry's fields (tested)."""
    fields: list[Any] = list(row)
    fields[BODY] = body
    return Entry(*fields)


def row_of(entry: Entry, body_text: str) -> dict[str, Any]:
    """The row of an entry."""
    return {name: getattr(entry, name) for name in COLUMNS} | {"body": body_text}


def by_id(connection: Connection, entry_id: str) -> Row[Any] | None:
    """The row with this entry id."""
    return connection.execute(_BY_ID.where(entries.c.id == entry_id)).one_or_none()


def by_seq(connection: Connection, seq: int) -> Row[Any] | None:
    """The row with this seq."""
    return connection.execute(_BY_ID.where(entries.c.seq == seq)).one_or_none()


def first_of_kind(connection: Connection, kind: str, build: str) -> Row[Any] | None:
    """The first row of a kind in a build."""
    of_build = _BY_ID.where(entries.c.build == build, entries.c.kind == kind)
    return connection.execute(of_build.order_by(entries.c.seq).limit(1)).one_or_none()


def has_code(connection: Connection, build: str | None, kind: str, code: str) -> bool:
    """Whether there is a row of a kind in a build under a code."""
    of_kind = _BY_ID.where(entries.c.build == build, entries.c.kind == kind)
    named = of_kind.where(_holds(f'"code":{_as_stored(code)}'))
    return any(entry_of(row).body.get("code") == code for row in connection.execute(named))


def codes_after(connection: Connection, seq: int) -> dict[tuple[str, str], int]:
    """The kind and code of whatever was entered under a code after an entry, and by which entry."""
    later = connection.execute(_BY_ID.where(entries.c.seq > seq).order_by(entries.c.seq))
    found = (entry_of(row) for row in later)
    return {(each.kind, each.body["code"]): each.seq for each in found if "code" in each.body}


def naming(connection: Connection, entry_id: str) -> list[Entry]:
    """The withdrawals and corrections of an entry."""
    return [entry_of(row) for row in connection.execute(_NAMING, {"named": entry_id})]


def newest(connection: Connection, search: Search) -> list[Entry]:
    """The entries looked for, the newest first."""
    return [entry_of(row) for row in connection.execute(_looked_for(search))]


def _looked_for(search: Search) -> Select[Any]:
    query = select(entries).order_by(entries.c.seq.desc()).limit(search.limit)
    query = query.where(entries.c.seq > search.after)
    if search.before is not None:
        query = query.where(entries.c.seq < search.before)
    if search.build is not None:
        query = query.where(entries.c.build == search.build)
    if search.kinds:
        query = query.where(entries.c.kind.in_(search.kinds))
    if search.person is not None:
        measured = f'"measured_by":{_as_stored(search.person)}'
        query = query.where((entries.c.person == search.person) | _holds(measured))
    for name in search.names:
        query = query.where(_holds(_as_stored(name)))
    if search.words:
        query = query.where(entries.c.body.icontains(search.words, autoescape=True))
        query = query.where(entries.c.kind.not_in(SECRET_KINDS))  # or it could be found out piece by piece
    return query


def _as_stored(value: str) -> str:
    """A text as it stands in a stored body, quotation marks included."""
    return json.dumps(value, ensure_ascii=False)


def _holds(part: str) -> ColumnElement[bool]:
    return func.instr(entries.c.body, part) > 0


def counts(connection: Connection, build: str, *, after: int) -> dict[str, int]:
    """How many entries of each kind a build has after a seq."""
    query = select(entries.c.kind, func.count()).where(entries.c.build == build, entries.c.seq > after)
    return {kind: int(number) for kind, number in connection.execute(query.group_by(entries.c.kind))}


def last_of(connection: Connection, build: str) -> Row[Any] | None:
    """The last row of a build."""
    query = _BY_ID.where(entries.c.build == build).order_by(entries.c.seq.desc()).limit(1)
    return connection.execute(query).one_or_none()


def head_of(connection: Connection) -> Acknowledgement | None:
    """The last entry's id, seq and hash."""
    row = connection.execute(_HEAD).one_or_none()
    return None if row is None else Acknowledgement(row.id, row.seq, row.hash)


def count(connection: Connection, table: Table) -> int:
    """The number of rows in a table."""
    return int(connection.execute(select(func.count()).select_from(table)).scalar_one())


def in_pages(
    engine: Engine, *, after: int = 0, build: str | None = None, limit: int | None = None
) -> Iterator[Row[Any]]:
    """Rows in order of `seq`, read in pages, so that no reader holds up writers for long."""
    left = limit
    while left is None or left > 0:
        size = PAGE if left is None else min(PAGE, left)
        with engine.connect() as connection:
            found = connection.execute(_page(after=after, build=build, size=size)).all()
        yield from found
        if len(found) < size:
            return
        after = found[-1].seq
        left = None if left is None else left - size


def _page(*, after: int, build: str | None, size: int) -> Select[Any]:
    """The query for the next entries after a seq; of one build and of the shop, if a build is named."""
    query = select(entries).where(entries.c.seq > after).order_by(entries.c.seq).limit(size)
    if build is not None:
        query = query.where((entries.c.build == build) | entries.c.build.is_(None))
    return query
