"""What was worked out for the dossiers of a shop, and is still so for the next one."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from fitwright.records.chain import digest_of, form_of
from fitwright.records.entry import Entry

if TYPE_CHECKING:
    from fitwright.assess.assembly.past import Past
    from fitwright.assess.oil.desk import OilDesk


@dataclass(slots=True)
class KeptForDossiers:
    """What an entry is by itself never changes, what was never does; most entries change no prediction.

    Forms are kept of the entries that the last dossier carried only.
    """

    _desks: dict[str, OilDesk] = field(default_factory=dict)
    _pasts: dict[str, Past] = field(default_factory=dict)
    _digests: dict[str, str] = field(default_factory=dict)
    _forms: dict[str, str] = field(default_factory=dict)

    def desk(self, build: str, fresh: OilDesk) -> OilDesk:
        """The desk that last answered for a build, where it says as much as a fresh one; else that one."""
        kept = self._desks.get(build)
        if kept is None or not kept.case.says_as_much_as(fresh.case):
            kept = self._desks[build] = fresh
        return kept

    def past(self, build: str) -> Past:
        """What fits of a build were at earlier moments, as far as a dossier asked."""
        from fitwright.assess.assembly.past import Past

        return self._pasts.setdefault(build, Past())

    def digests(self, entries: Iterable[Entry]) -> tuple[str, ...]:
        """The digest of every entry, in order."""
        return tuple(self._digest(each) for each in entries)

    def _digest(self, entry: Entry) -> str:
        found = self._digests.get(entry.hash)
        if found is None:
            found = self._digests[entry.hash] = digest_of(entry)
        return found

    def forms(self, entries: Iterable[Entry]) -> tuple[str, ...]:
        """The RFC 8785 form of every entry, in order."""
        before = self._forms
        found = {each.hash: before.get(each.hash) or form_of(each) for each in entries}
        self._forms = found
        return tuple(found.values())
