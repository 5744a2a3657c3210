"""Whether the files that are open are still those in the folder.

A database or log that was deleted or replaced under a running program goes on taking entries, which
are gone when the program ends: an old copy put back, a folder moved, a log tidied away.
"""

from __future__ import annotations

from pathlib import Path

from fitwright.records.errors import CannotWriteError
from fitwright.store.dialect import log_of
from fitwright.store.errors import ReplacedRecordError

_RESTART = "stop fitwright, start it anew"
_Identity = tuple[int, int]


class FilesInUse:
    """The database as it was opened, and the log as the writing connection knows it."""

    def __init__(self, database: Path) -> None:
        self._database = database
        self._log = log_of(database)
        self._opened: _Identity | None = None
        self._written: _Identity | None = None

    def opened(self) -> None:
        """The database was opened, perhaps made."""
        self._opened = _identity(self._database)

    def written(self) -> None:
        """The writing connection has committed: from now on its log must stay."""
        if self._written is None:
            self._written = _identity(self._log)

    def disconnected(self) -> None:
        """The writing connection was closed: the next one may make another log."""
        self._written = None

    @property
    def log_deleted(self) -> bool:
        """Whether the log was deleted, and no other stands in its place."""
        return self._written is not None and _identity(self._log) is None

    def require_database(self) -> None:
        """Refuse to read on where another database stands now.

        Raises
        ------
        ReplacedRecordError
            If it was replaced or deleted.
        """
        if self._opened is not None and _identity(self._database) != self._opened:
            raise ReplacedRecordError(self._database)

    def require_writable(self) -> None:
        """Refuse to write where nobody would find it again.

        Raises
        ------
        CannotWriteError
            If the database or its log was replaced or deleted.
        """
        if self._opened is not None and _identity(self._database) != self._opened:
            raise CannotWriteError("the database was replaced or deleted while it was open", _RESTART)
        if self._written is not None and _identity(self._log) != self._written:
            raise CannotWriteError("the log of the database was deleted while it was open", _RESTART)


def _identity(path: Path) -> _Identity | None:
    try:
        found = path.stat()
    except FileNotFoundError:
        return None
    return found.st_dev, found.st_ino
