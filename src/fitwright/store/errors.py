"""What a store refuses beyond what `records` does; each in one sentence that says what to do."""

from __future__ import annotations

from pathlib import Path

from fitwright.records.errors import RecordError


class StoreError(RecordError):
    """Base of what is peculiar to keeping the record in a folder."""

    key = "store"


class UnfitPlaceError(StoreError):
    """A folder that is no place for a live database."""

    key = "unfit-place"

    def __init__(self, directory: Path, reason: str) -> None:
        self.directory = directory
        self.reason = reason
        super().__init__(
            f"{directory}: {reason}, where a database loses entries; keep the record on this computer's own "
            "disk and put backups there instead"
        )


class NoRecordError(StoreError):
    """A folder without a record."""

    key = "no-record"

    def __init__(self, directory: Path) -> None:
        self.directory = directory
        super().__init__(f"{directory}: there is no record here; check the folder, or start a new record")


class NewerRecordError(StoreError):
    """A record written by a later version of this program."""

    key = "newer-record"

    def __init__(self, database: Path, version: str) -> None:
        self.database = database
        self.version = version
        super().__init__(
            f"{database}: written by a later version of fitwright (record schema {version}); "
            "install that version or a later one"
        )


class UnreadableRecordError(StoreError):
    """A database file that cannot be opened."""

    key = "unreadable-record"

    def __init__(self, database: Path, reason: str) -> None:
        self.database = database
        self.reason = reason
        super().__init__(f"{database}: {reason}; keep the file as it is and put back the newest backup")


class LogNotReadError(StoreError):
    """A database whose newest entries stand in a log that cannot be read where nothing can be written."""

    key = "log-not-read"

    def __init__(self, database: Path, reason: str, mend: str) -> None:
        self.database = database
        self.reason = reason
        self.mend = mend
        super().__init__(
            f"{database}: {reason}, and its newest entries stand in a log that can be read only where "
            f"something can be written; {mend}, then open it again"
        )


class ReplacedRecordError(StoreError):
    """A database that was replaced or deleted while it was open."""

    key = "replaced-record"

    def __init__(self, database: Path) -> None:
        self.database = database
        super().__init__(
            f"{database}: it was replaced or deleted while it was open; stop fitwright and start it anew"
        )


class DamagedEntryError(StoreError):
    """An entry whose stored body cannot be read."""

    key = "damaged-entry"

    def __init__(self, seq: int, entry_id: str) -> None:
        self.seq = seq
        self.id = entry_id
        super().__init__(
            f"entry {seq} ({entry_id}) is damaged and cannot be read; run `fitwright verify` and put back "
            "the newest backup"
        )


class PhotoError(StoreError):
    """A picture that is not kept."""

    key = "photo"

    def __init__(self, wrong: str, mend: str) -> None:
        self.wrong = wrong
        self.mend = mend
        super().__init__(f"photo: {wrong}; {mend}")


class BackupError(StoreError):
    """A backup that cannot be made, or is not what its manifest says."""

    key = "backup"

    def __init__(self, path: Path, wrong: str, mend: str) -> None:
        self.path = path
        self.wrong = wrong
        self.mend = mend
        super().__init__(f"{path}: {wrong}; {mend}")
