"""Digests of entries kept for dossiers: an entry never changes, so its digest is worked out once."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from fitwright.records.chain import digest_of
from fitwright.records.entry import Entry


@dataclass(slots=True)
class KeptDigests:
    """The digest of every entry that was asked for, by the entry's hash."""

    digests: dict[str, str] = field(default_factory=dict)

    def of(self, entries: Iterable[Entry]) -> tuple[str, ...]:
        """The digest of every entry, in order."""
        return tuple(self._of(each) for each in entries)

    def _of(self, entry: Entry) -> str:
        found = self.digests.get(entry.hash)
        if found is None:
            found = self.digests[entry.hash] = digest_of(entry)
        return found
