"""The entries before new ones, as they are held against the rules within the writing transaction."""

from __future__ import annotations

from sqlalchemy import Connection, select

from fitwright.records.entry import Entry
from fitwright.records.kinds import BuildStarted
from fitwright.store import rows
from fitwright.store.schema import sheet_texts


class Earlier:
    """The entries before, for `check_references`, within the writing transaction."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def entry(self, entry_id: str) -> Entry | None:
        """An earlier entry by its id."""
        row = rows.by_id(self._connection, entry_id)
        return None if row is None else rows.entry_of(row)

    def naming(self, entry_id: str) -> list[Entry]:
        """The earlier withdrawals and corrections of an entry."""
        return rows.naming(self._connection, entry_id)

    def started(self, build: str) -> Entry | None:
        """The entry that started a build, withdrawn or not."""
        row = rows.first_of_kind(self._connection, BuildStarted.kind, build)
        return None if row is None else rows.entry_of(row)

    def has_sheet(self, digest: str) -> bool:
        """Whether the text of a sheet is kept."""
        return has_sheet(self._connection, digest)

    def coded(self, build: str | None, kind: str, code: str) -> bool:
        """Whether a build has an entry of a kind under a code, withdrawn or not."""
        return rows.has_code(self._connection, build, kind, code)


def has_sheet(connection: Connection, digest: str) -> bool:
    """Whether the text of a sheet is kept."""
    query = select(sheet_texts.c.digest).where(sheet_texts.c.digest == digest)
    return connection.execute(query).one_or_none() is not None
