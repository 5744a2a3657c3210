"""The one writing connection: a process-wide lock, commits shared by all who wait, checkpoints.

Threads hand in work; whoever gets the lock first does all the work that waits in one transaction,
each piece in a savepoint of its own, commits once and answers everybody. Nobody is answered before
the commit has returned. A lock file keeps a second process out for the length of a transaction
and its checkpoint, so that two never checkpoint at once.
"""

from __future__ import annotations

import os
import sys
import threading
from collections import deque
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Generic, TypeVar

from sqlalchemy import Connection, Engine
from sqlalchemy.exc import DBAPIError

from fitwright.records.errors import CannotWriteError, RecordError
from fitwright.store.dialect import cannot_write, empty_log
from fitwright.store.in_use import FilesInUse

T = TypeVar("T")

MOST_AT_ONCE = 64


class _Work(Generic[T]):
    """A piece of work that waits for its transaction, and what came of it."""

    def __init__(self, write: Callable[[Connection], T]) -> None:
        self.write = write
        self.result: T | None = None
        self.error: RecordError | None = None
        self.done = False


class Writer:
    """Durable transactions on one connection, one at a time.

    `note` looks at the end of each transaction and returns what is to be done once it is durable.
    """

    def __init__(
        self,
        engine: Engine,
        database: Path,
        note: Callable[[Connection], Callable[[], None]],
        files: FilesInUse,
    ) -> None:
        self._engine = engine
        self._files = files
        self._lock_file = database.with_name("writing.lock")
        self._note = note
        self._lock = threading.Lock()
        self._waiting: deque[_Work[object]] = deque()

    def run(self, write: Callable[[Connection], T]) -> T:
        """Do this work in a transaction, perhaps with others' work; return once it is durable.

        Raises
        ------
        RecordError
            What the work itself raised (nothing of it is stored), or `CannotWriteError`.
        """
        work: _Work[T] = _Work(write)
        self._waiting.append(work)  # type: ignore[arg-type]  # results go back to their own work only
        with self._lock:
            while not work.done:
                self._write_some()
        if work.error is not None:
            raise work.error
        return work.result  # type: ignore[return-value]  # set when done without error

    def close(self) -> None:
        """Bring the log into the database and close the connection."""
        with self._lock:
            # Where it cannot be done, the log stays beside the database and is read at the next opening.
            with suppress(DBAPIError, OSError), self._exclusively(), self._engine.connect() as connection:
                empty_log(connection)
            self._engine.dispose()

    def _write_some(self) -> None:
        together = [self._waiting.popleft() for _ in range(min(len(self._waiting), MOST_AT_ONCE))]
        failure: CannotWriteError | None = CannotWriteError(
            "another entry of the same moment failed", "wait a moment"
        )
        try:
            with self._exclusively(), self._engine.connect() as connection:
                self._require_files(connection)
                with connection.begin():
                    for work in together:
                        _do(work, connection)
                    after_commit = self._note(connection)
                failure = None
                self._files.written()
                after_commit()
        except CannotWriteError as error:
            failure = error
        except (DBAPIError, OSError) as error:
            if failure is not None:
                failure = cannot_write(error)
            self._engine.dispose()  # the next write begins on a fresh connection
            self._files.disconnected()
        finally:
            for work in together:
                work.error = failure or work.error
                work.done = True

    def _require_files(self, connection: Connection) -> None:
        """Refuse to write into deleted files; what stands in a deleted log is saved while it is open."""
        try:
            self._files.require_writable()
        except CannotWriteError:
            if self._files.log_deleted:
                empty_log(connection)
            raise

    @contextmanager
    def _exclusively(self) -> Iterator[None]:
        handle = os.open(self._lock_file, os.O_RDWR | os.O_CREAT, 0o644)
        try:
            _lock(handle)
            yield
        finally:
            os.close(handle)  # which also unlocks it


def _do(work: _Work[object], connection: Connection) -> None:
    savepoint = connection.begin_nested()
    try:
        work.result = work.write(connection)
    except RecordError as error:
        savepoint.rollback()
        work.error = error
    else:
        savepoint.commit()


if sys.platform == "win32":
    import msvcrt

    def _lock(handle: int) -> None:
        msvcrt.locking(handle, msvcrt.LK_LOCK, 1)

else:
    import fcntl

    def _lock(handle: int) -> None:
        fcntl.flock(handle, fcntl.LOCK_EX)
