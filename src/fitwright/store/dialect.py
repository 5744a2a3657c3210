"""All that is peculiar to SQLite: connecting, pragmas, triggers, its errors.

A second database gets a second module with the same names; nothing else here says SQLite.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping
from functools import partial
from pathlib import Path
from urllib.parse import quote

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.exc import DBAPIError
from sqlalchemy.pool import QueuePool

from fitwright.records.errors import CannotWriteError
from fitwright.store.errors import LogNotReadError, UnreadableRecordError

EXTRA_SCHEMA = (
    # Only withdrawals and corrections are looked up by what they name, and there are few of them.
    """
    CREATE INDEX ix_entries_withdraws ON entries (json_extract(body, '$.entry')) WHERE kind = 'withdrawal'
    """,
    """
    CREATE INDEX ix_entries_corrects ON entries (json_extract(body, '$.supersedes'))
    WHERE json_extract(body, '$.supersedes') IS NOT NULL
    """,
    """
    CREATE TRIGGER tr_entries_no_update BEFORE UPDATE ON entries
    BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END
    """,
    """
    CREATE TRIGGER tr_entries_no_delete BEFORE DELETE ON entries
    BEGIN SELECT RAISE(ABORT, 'entries are never deleted'); END
    """,
    # An INSERT OR REPLACE would delete without asking the trigger above.
    """
    CREATE TRIGGER tr_entries_in_order BEFORE INSERT ON entries
    WHEN NEW.seq IS NOT (SELECT coalesce(max(seq), 0) + 1 FROM entries)
    OR EXISTS (SELECT 1 FROM entries WHERE id = NEW.id)
    BEGIN SELECT RAISE(ABORT, 'entries are only added at the end'); END
    """,
    """
    CREATE TRIGGER tr_sheet_texts_no_update BEFORE UPDATE ON sheet_texts
    BEGIN SELECT RAISE(ABORT, 'sheet texts are never changed'); END
    """,
    """
    CREATE TRIGGER tr_sheet_texts_no_delete BEFORE DELETE ON sheet_texts
    BEGIN SELECT RAISE(ABORT, 'sheet texts are never deleted'); END
    """,
    """
    CREATE TRIGGER tr_sheet_texts_once BEFORE INSERT ON sheet_texts
    WHEN EXISTS (SELECT 1 FROM sheet_texts WHERE digest = NEW.digest)
    BEGIN SELECT RAISE(ABORT, 'a sheet text is kept once'); END
    """,
)

NAMING = (
    "SELECT {columns} FROM entries WHERE kind = 'withdrawal' AND json_extract(body, '$.entry') = :named"
    " UNION SELECT {columns} FROM entries WHERE json_extract(body, '$.supersedes') = :named"
    " AND json_extract(body, '$.supersedes') IS NOT NULL ORDER BY seq"
)
"""The withdrawals and corrections of an entry, through the two indexes above."""

REFUSALS = (OSError, DBAPIError, sqlite3.Error)
"""What a disk that is full, gone or damaged shows itself as."""

WRITER_PRAGMAS: Mapping[str, str | int] = {
    "journal_mode": "wal",
    "synchronous": 2,  # FULL: the commit returns when the disk has it
    "foreign_keys": 1,
    "busy_timeout": 10_000,
    "wal_autocheckpoint": 1000,  # made inside the commit, so under the writer's lock; readers make none
    "fullfsync": 1,  # where the disk's own cache must be told (macOS)
    "checkpoint_fullfsync": 1,
}
READER_PRAGMAS: Mapping[str, str | int] = {"query_only": 1, "busy_timeout": 10_000, "wal_autocheckpoint": 0}


def writing_engine(database: Path) -> Engine:
    """The engine of the one writing connection; its transactions begin with the write lock held."""
    engine = _engine(database, mode="rwc", pool_size=1)
    _set_up(engine, database, WRITER_PRAGMAS, "BEGIN IMMEDIATE")
    return engine


def reading_engine(database: Path, *, immutable: bool = False) -> Engine:
    """An engine for readers; `immutable` where nothing may be written beside the database."""
    mode = "ro&immutable=1" if immutable else "ro"
    engine = _engine(database, mode=mode, pool_size=8)
    _set_up(engine, database, READER_PRAGMAS, "BEGIN")
    return engine


def reader_of_read_only(database: Path, because: CannotWriteError) -> Engine:
    """An engine for readers where nothing can be written: in a read-only folder, on a full disk.

    Raises
    ------
    LogNotReadError
        If entries stand in the log alone and the log cannot be read without writing beside it.
    """
    for immutable in (False, True):
        if immutable and log_size(database):
            raise LogNotReadError(database, because.reason, because.mend)
        engine = reading_engine(database, immutable=immutable)
        try:
            with engine.connect() as connection:
                connection.exec_driver_sql("SELECT count(*) FROM sqlite_schema")
        except DBAPIError as error:
            engine.dispose()
            if immutable or not is_read_only(error):
                raise unreadable(database, error) from error
        else:
            break
    return engine


def empty_log(connection: Connection) -> None:
    """Bring what the write-ahead log holds into the database, and empty the log if no reader needs it."""
    _raw(connection).execute("PRAGMA wal_checkpoint(TRUNCATE)")


def log_size(database: Path) -> int:
    """Bytes in the write-ahead log."""
    try:
        return log_of(database).stat().st_size
    except FileNotFoundError:
        return 0


def copy_database(engine: Engine, target: Path) -> None:
    """Copy the database as it stands at one moment, while it is in use (online backup)."""
    with engine.connect() as connection:
        copy = sqlite3.connect(target)
        try:
            _raw(connection).backup(copy)
            copy.execute("PRAGMA journal_mode=DELETE")  # the copy is one file
        finally:
            copy.close()


def integrity(connection: Connection) -> list[str]:
    """What the database engine finds wrong with its own file."""
    rows = connection.exec_driver_sql("PRAGMA integrity_check(20)").scalars().all()
    return [str(row) for row in rows if row != "ok"]


def cannot_write(error: DBAPIError | OSError) -> CannotWriteError:
    """Why a write failed, in words for the bench."""
    if isinstance(error, OSError):
        where = f" ({error.filename})" if error.filename else ""
        return CannotWriteError(f"{error.strerror}{where}", "check the disk and its folder")
    reason, mend = _WORDS.get(_code(error), (f"the database said {error.orig}", "run `fitwright verify`"))
    return CannotWriteError(reason, mend)


def is_read_only(error: DBAPIError) -> bool:
    """Whether a database could not be written for want of the right to, or of space."""
    return _code(error) in ("SQLITE_READONLY", "SQLITE_CANTOPEN", "SQLITE_FULL", "SQLITE_IOERR_SHMSIZE")


def unreadable(database: Path, error: DBAPIError) -> UnreadableRecordError:
    """A database that cannot be opened, in words."""
    reason, _ = _WORDS.get(_code(error), (f"the database said {error.orig}", ""))
    return UnreadableRecordError(database, reason)


_WORDS = {
    "SQLITE_FULL": ("the disk is full", "free some space"),
    "SQLITE_IOERR_SHMSIZE": ("the disk is full", "free some space"),
    "SQLITE_READONLY": ("the folder of the record is read-only", "make it writable"),
    "SQLITE_CANTOPEN": ("the record's files cannot be opened", "make its folder writable"),
    "SQLITE_PERM": ("the record's files cannot be written", "make its folder writable"),
    "SQLITE_IOERR": ("the disk reported an error", "check the disk and its free space"),
    "SQLITE_BUSY": ("another program holds the record", "let it finish"),
    "SQLITE_LOCKED": ("another program holds the record", "let it finish"),
    "SQLITE_CORRUPT": ("the database file is damaged", "put back the newest backup"),
    "SQLITE_NOTADB": ("the file is damaged: it is no database", "put back the newest backup"),
}


def _code(error: DBAPIError) -> str:
    name = str(getattr(error.orig, "sqlite_errorname", ""))
    if name in _WORDS:
        return name
    return "_".join(name.split("_")[:2])  # SQLITE_IOERR_FSYNC and its kin are one to a person


def _engine(database: Path, *, mode: str, pool_size: int) -> Engine:
    address = f"file:{quote(str(database))}?mode={mode}"

    def connect() -> sqlite3.Connection:
        connection = sqlite3.connect(address, uri=True, isolation_level=None, check_same_thread=False)
        # A damaged byte must reach the verification, which names its entry, instead of stopping the query.
        connection.text_factory = partial(str, encoding="utf-8", errors="surrogateescape")
        return connection

    return create_engine(
        "sqlite+pysqlite://", creator=connect, poolclass=QueuePool, pool_size=pool_size, max_overflow=-1
    )


def _set_up(engine: Engine, database: Path, pragmas: Mapping[str, str | int], begin: str) -> None:
    @event.listens_for(engine, "connect")
    def connected(connection: sqlite3.Connection, _: object) -> None:
        for name, wanted in pragmas.items():
            connection.execute(f"PRAGMA {name}={wanted}")
        for name, wanted in pragmas.items():
            (found,) = connection.execute(f"PRAGMA {name}").fetchone()
            if found != wanted:
                reason = f"the database does not keep {name} at {wanted} (it says {found})"
                raise UnreadableRecordError(database, reason)

    @event.listens_for(engine, "begin")
    def began(connection: Connection) -> None:
        connection.exec_driver_sql(begin)


def _raw(connection: Connection) -> sqlite3.Connection:
    """The driver's own connection, for what happens outside transactions."""
    raw = connection.connection.driver_connection
    if not isinstance(raw, sqlite3.Connection):
        message = f"{raw!r} is no SQLite connection"
        raise TypeError(message)
    return raw


def log_of(database: Path) -> Path:
    """The write-ahead log beside a database."""
    return database.with_name(database.name + "-wal")
