"""What a store of the record must offer."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Protocol

from fitwright.records.entry import Acknowledgement, Entry, NewEntry
from fitwright.records.search import Search, Standing


class Record(Protocol):
    """An append-only chain of entries, with the sheet texts and photos that they name."""

    @property
    def troubles(self) -> list[str]:
        """What everybody who uses the record must know: why it is read-only, which head file is bad."""
        ...

    def append(
        self, entries: Sequence[NewEntry], *, since: int | None = None, upon: int | None = None
    ) -> list[Acknowledgement]:
        """Write all entries in one transaction, or none; return only when they are durable.

        The same id with the same body again gets the first acknowledgement again; the same id
        with another body raises `IdReusedError` and nothing is stored. `since` is the last entry that
        was known when these were made: where a later one has given the same code to a thing of the same
        kind, `CodeTakenError` is raised and nothing is stored. `upon` is the last entry that there may
        be: where there is a later one, whatever it says, `MeanwhileError` is raised and nothing is stored.
        """
        ...

    def entries(
        self, *, after: int = 0, build: str | None = None, limit: int | None = None
    ) -> Iterator[Entry]:
        """Entries in order of `seq`, those of one build (and of the shop, build None) if asked."""
        ...

    def entry(self, entry_id: str) -> Entry | None:
        """One entry by its id."""
        ...

    def search(self, search: Search) -> list[Standing]:
        """The entries looked for, the newest first, each with what became of it."""
        ...

    def counts(self, build: str, *, after: int = 0) -> dict[str, int]:
        """How many entries of each kind a build has after a seq."""
        ...

    def last_of(self, build: str) -> Entry | None:
        """The last entry of a build; its body is left unread."""
        ...

    def head(self) -> Acknowledgement | None:
        """The last entry's id, seq and hash."""
        ...

    def keep_sheet(self, text: str) -> str:
        """Keep a sheet text under its SHA-256 digest, which is returned."""
        ...

    def sheet_text(self, digest: str) -> str:
        """The sheet text with this digest."""
        ...

    def keep_photo(self, content: bytes, media_type: str) -> str:
        """Keep a photo, durable before this returns, under its digest."""
        ...

    def photo(self, digest: str) -> bytes:
        """The photo with this digest."""
        ...

    def close(self) -> None:
        """Release the store."""
        ...
