"""Taking entries back: an undo is an entry of its own, and what was taken back stays visible."""

from __future__ import annotations

import uuid

from fitwright.bench.context import Bench
from fitwright.bench.decisions import withdrawal_of
from fitwright.bench.errors import NothingToWithdrawError
from fitwright.bench.statements import not_measured_of
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import NotMeasured, Withdrawal


def withdrawal(
    bench: Bench | None, entry_id: str, *, person: str | None = None, reason: str | None = None
) -> NewEntry:
    """The entry that takes another one back; of a withdrawal, it brings back what was withdrawn.

    Without a bench, the entry withdrawn is one of the shop.
    """
    body = withdrawal_of(entry_id, reason)
    return NewEntry(
        id=uuid.uuid4().hex,
        build=bench.build.build if bench is not None else None,
        kind=Withdrawal.kind,
        body=body.model_dump(mode="json"),
        person=person,
    )


def not_measured(bench: Bench, subject: str, because: str, *, person: str | None = None) -> NewEntry:
    """Not measured, because: why a dimension or an eye check has no reading."""
    body = not_measured_of(bench, subject, because)
    return NewEntry(
        id=uuid.uuid4().hex,
        build=bench.build.build,
        kind=NotMeasured.kind,
        body=body.model_dump(mode="json"),
        person=person,
    )


class Undo:
    """What was entered on this bench, so that the last of it can be taken back step by step."""

    def __init__(self) -> None:
        self._entered: list[tuple[str, str]] = []

    def remember(self, entry_id: str, words: str) -> None:
        """One more entry was acknowledged; `words` say what it is."""
        self._entered.append((entry_id, words))

    @property
    def last(self) -> str | None:
        """The last entry that can be taken back."""
        return self._entered[-1][0] if self._entered else None

    def forget(self, entry_id: str) -> None:
        """An entry was taken back in another way."""
        self._entered = [each for each in self._entered if each[0] != entry_id]

    def step(self, bench: Bench, *, person: str | None = None) -> tuple[NewEntry, str]:
        """The withdrawal of the last entry, and the words for it.

        Raises
        ------
        NothingToWithdrawError
            If nothing is left that was entered here.
        """
        if not self._entered:
            raise NothingToWithdrawError
        entry_id, words = self._entered[-1]
        return withdrawal(bench, entry_id, person=person, reason="undo"), words

    def undone(self) -> None:
        """The last step was acknowledged."""
        self._entered.pop()
