"""Which entries count: what withdrawals and corrections leave standing.

An entry is withdrawn while an effective withdrawal names it; so a withdrawal of a withdrawal brings
it back. It is superseded while a correction of it is in force: one that is not withdrawn, or that has
itself been corrected. References point back in the order only, and stay within a kind (corrections)
and a build; others are refused when they are written (`rules`) and have no effect here.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Generic, NamedTuple, TypeVar

from fitwright.records.entry import Entry
from fitwright.records.kinds import Body, Withdrawal
from fitwright.records.registry import SHOP_KINDS

B_co = TypeVar("B_co", bound=Body, covariant=True)


class Recorded(NamedTuple, Generic[B_co]):
    """An entry with its checked body."""

    entry: Entry
    body: B_co


class Ledger:
    """All entries given to it, in order, and which of them are effective."""

    def __init__(self) -> None:
        self.recorded: dict[str, Recorded[Body]] = {}
        self._order: dict[str, int] = {}
        self._withdrawals: dict[str, list[str]] = {}
        self._corrections: dict[str, list[str]] = {}
        self._withdrawn: dict[str, str] = {}
        self._superseded: dict[str, str] = {}

    def __contains__(self, entry_id: str) -> bool:
        return entry_id in self.recorded

    def add(self, entry: Entry, body: Body) -> bool:
        """Take the next entry; whether it may change what counts among the earlier ones."""
        self.recorded[entry.id] = Recorded(entry, body)
        self._order[entry.id] = entry.seq
        refers = False
        if isinstance(body, Withdrawal) and self._may_withdraw(entry, body.entry):
            self._withdrawals.setdefault(body.entry, []).append(entry.id)
            refers = True
        if body.supersedes is not None and self._may_supersede(entry, body.supersedes):
            self._corrections.setdefault(body.supersedes, []).append(entry.id)
            self._order[entry.id] = self._order[body.supersedes]
            refers = True
        return refers

    def settle(self) -> None:
        """Work out anew what counts. Names point back, so from the newest to the oldest."""
        self._withdrawn.clear()
        self._superseded.clear()
        named = self._withdrawals.keys() | self._corrections.keys()
        for target in sorted(named, key=self._seq, reverse=True):
            for withdrawal in self._withdrawals.get(target, ()):
                if self.effective(withdrawal):
                    self._withdrawn.setdefault(target, withdrawal)
            for correction in self._corrections.get(target, ()):
                if correction not in self._withdrawn or correction in self._superseded:
                    self._superseded.setdefault(target, correction)

    def effective(self, entry_id: str) -> bool:
        """Whether an entry counts: neither withdrawn nor superseded."""
        return entry_id not in self._withdrawn and entry_id not in self._superseded

    def withdrawn_by(self, entry_id: str) -> Entry | None:
        """The withdrawal in force, if the entry is withdrawn."""
        by = self._withdrawn.get(entry_id)
        return None if by is None else self.recorded[by].entry

    def superseded_by(self, entry_id: str) -> Entry | None:
        """The correction in force, if the entry is superseded."""
        by = self._superseded.get(entry_id)
        return None if by is None else self.recorded[by].entry

    def order(self, entry_id: str) -> int:
        """Where an entry stands in the order: its `seq`, or where stood what it corrects."""
        return self._order[entry_id]

    def in_order(self) -> Iterator[Recorded[Body]]:
        """All entries, effective or not, in their order."""
        return iter(
            sorted(self.recorded.values(), key=lambda held: (self._order[held.entry.id], held.entry.seq))
        )

    def _seq(self, entry_id: str) -> int:
        return self.recorded[entry_id].entry.seq

    def _may_withdraw(self, entry: Entry, target: str) -> bool:
        held = self.recorded.get(target)
        return held is not None and held.entry.seq < entry.seq and same_book(entry, held.entry)

    def _may_supersede(self, entry: Entry, target: str) -> bool:
        held = self.recorded.get(target)
        return (
            held is not None
            and held.entry.seq < entry.seq
            and held.entry.kind == entry.kind
            and same_book(entry, held.entry)
        )


def same_book(entry: Entry, target: Entry) -> bool:
    """Whether `entry` may refer to `target`: same build, or a target that counts for the whole shop."""
    return entry.build == target.build or target.kind in SHOP_KINDS
