"""Change a closed record behind its back: by statements, or byte by byte."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

INDEXES = ("ix_entries_withdraws", "ix_entries_corrects")  # they refuse what is no JSON
TRIGGERS = (
    "tr_entries_no_update",
    "tr_entries_no_delete",
    "tr_entries_in_order",
    "tr_sheet_texts_no_update",
    "tr_sheet_texts_no_delete",
    "tr_sheet_texts_once",
)


def tamper(folder: Path, *statements: str) -> None:
    """Run statements on the database with its triggers dropped."""
    with closing(sqlite3.connect(folder / "record.db", isolation_level=None)) as connection:
        for trigger in TRIGGERS:
            connection.execute(f"DROP TRIGGER IF EXISTS {trigger}")
        for index in INDEXES:
            connection.execute(f"DROP INDEX IF EXISTS {index}")
        for statement in statements:
            changed = connection.execute(statement).rowcount
            assert changed, f"nothing was changed by {statement}"


def flip(folder: Path, stored: bytes, at: int, byte: bytes) -> None:
    """Change one byte of a value in the database file, which holds that value once."""
    database = folder / "record.db"
    content = bytearray(database.read_bytes())
    where = content.index(stored)
    assert content.count(stored) == 1
    assert content[where + at : where + at + 1] != byte
    content[where + at : where + at + 1] = byte
    database.write_bytes(content)
