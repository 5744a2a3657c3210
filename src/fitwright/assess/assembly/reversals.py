"""What was taken back or corrected after it had counted."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.records.entry import Entry
from fitwright.records.kinds import Body, Withdrawal
from fitwright.records.projection.ledger import Ledger, Recorded


@dataclass(frozen=True, slots=True)
class Reversal:
    """An entry that took back or corrected another: `target` is what it came down on in the end.

    Withdrawing a withdrawal comes down on what that one took back, and brings it back.
    """

    entry: Entry
    target: Recorded[Body]
    words: str


class Reversals:
    """All withdrawals and corrections of a build, in order."""

    def __init__(self, ledger: Ledger) -> None:
        self._recorded = ledger.recorded
        self.all: list[Reversal] = [
            found for held in ledger.recorded.values() if (found := self._of(held)) is not None
        ]
        self.by_entry: dict[str, Reversal] = {each.entry.id: each for each in self.all}

    def between(self, after: int, upto: int | None = None) -> list[Reversal]:
        """Those after one seq, up to another, of entries that stood by then."""
        return [
            each
            for each in self.all
            if each.target.entry.seq <= after < each.entry.seq and (upto is None or each.entry.seq <= upto)
        ]

    def _of(self, held: Recorded[Body]) -> Reversal | None:
        named, words = held.body.supersedes, "corrected"
        if isinstance(held.body, Withdrawal):
            named, words = held.body.entry, "withdrawn"
        target = self._recorded.get(named or "")
        steps = 0
        while target is not None and isinstance(target.body, Withdrawal) and steps < len(self._recorded):
            target, steps = self._recorded.get(target.body.entry), steps + 1
            words = "brought back" if words == "withdrawn" else "withdrawn"
        if target is None or isinstance(target.body, Withdrawal):
            return None
        return Reversal(held.entry, target, words)
