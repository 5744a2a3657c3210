"""What the record refuses, each in one sentence that says what to do."""

from __future__ import annotations

from typing import ClassVar


class RecordError(Exception):
    """Base of everything that the record refuses; `key` is stable, the sentence may be reworded."""

    key: ClassVar[str] = "record"


class IdReusedError(RecordError):
    """An id that stands for another entry already."""

    key = "id-reused"

    def __init__(self, entry_id: str, seq: int, kind: str) -> None:
        self.entry_id = entry_id
        self.seq = seq
        self.kind = kind
        super().__init__(
            f"entry id {entry_id} already stands for entry {seq} ({kind}) with other content; "
            "nothing was stored: send this entry again under a new id"
        )


class CodeTakenError(RecordError):
    """A code that another entry took between looking for a free one and writing."""

    key = "code-taken"

    def __init__(self, kind: str, code: str, seq: int) -> None:
        self.kind = kind
        self.code = code
        self.seq = seq
        super().__init__(
            f"{kind} {code} was entered by somebody else a moment ago (entry {seq}), and nothing was stored: "
            "look at it, and enter yours again"
        )


class MeanwhileError(RecordError):
    """An entry that was held against the record as it stood, and the record has gone on."""

    key = "meanwhile"

    def __init__(self, upon: int, seq: int) -> None:
        self.upon = upon
        self.seq = seq
        super().__init__(
            f"entry {seq} was written while this one was held against entry {upon}, and nothing was stored: "
            "look again, and enter it again"
        )


class UnknownKindError(RecordError):
    """A kind of entry, or a version of a kind, that this program does not know."""

    key = "unknown-kind"

    def __init__(self, kind: str, kind_version: int, newest: int | None) -> None:
        self.kind = kind
        self.kind_version = kind_version
        self.newest = newest
        known = "is not known" if newest is None else f"is known up to version {newest}, not {kind_version}"
        super().__init__(
            f"kind {kind!r} {known} to this version of fitwright; check its spelling, "
            "or use the version of fitwright that wrote it"
        )


class BodyError(RecordError):
    """An entry that is not in order: which kind, which field, what is wrong, what to do."""

    key = "body"

    def __init__(self, kind: str, field: str, wrong: str, mend: str) -> None:
        self.kind = kind
        self.field = field
        self.wrong = wrong
        self.mend = mend
        super().__init__(f"{kind}, {field}: {wrong}; {mend}")


class ShorterThanAnchorError(RecordError):
    """A history that ends before, or differs from, what an anchor kept elsewhere says."""

    key = "shorter-than-anchor"

    def __init__(self, *, anchor: str, anchor_seq: int, seq: int) -> None:
        self.anchor = anchor
        self.anchor_seq = anchor_seq
        self.seq = seq
        found = (
            f"the record ends at entry {seq}"
            if seq < anchor_seq
            else f"entry {anchor_seq} of the record is another one"
        )
        super().__init__(
            f"{anchor} knows entry {anchor_seq}, but {found}: entries are missing (an old copy put back, or "
            "files of the record deleted); the record can be read but not written: put back the newest "
            "copy, or say that this one is to be continued"
        )


class CannotWriteError(RecordError):
    """A write that the computer refused; nothing was stored, and it may be tried again."""

    key = "cannot-write"

    def __init__(self, reason: str, mend: str) -> None:
        self.reason = reason
        self.mend = mend
        super().__init__(f"not stored: {reason}; {mend}, then enter it again")


class NotKeptError(RecordError):
    """A sheet text or photo that the record does not hold."""

    key = "not-kept"

    def __init__(self, what: str, digest: str) -> None:
        self.what = what
        self.digest = digest
        super().__init__(
            f"the record holds no {what} with digest {digest}; if an entry names it, "
            "run `fitwright verify` and put it back from a backup"
        )
