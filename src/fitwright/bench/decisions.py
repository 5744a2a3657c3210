"""What a person decides about entries: which readings count, and what is taken back."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from fitwright.bench.errors import NoWordsError
from fitwright.records.kinds import Choice, Withdrawal

Decided = Literal["use again", "use instead", "keep both"]


def choice_of(
    decided: Decided,
    entries: Sequence[str],
    *,
    instead_of: Sequence[str] = (),
    reason: str | None,
    dimension: str | None = None,
) -> Choice:
    """A decision about entries, by their ids: used again, one used instead of others, or both kept."""
    if not entries:
        raise NoWordsError("A choice", "the entries that are decided about")
    if decided == "use instead" and not instead_of:
        raise NoWordsError("Using one instead", "the entries that it is used instead of")
    if not (reason or "").strip():
        raise NoWordsError("A choice", "its reason")
    return Choice(
        choice=decided,
        entries=tuple(entries),
        instead_of=tuple(instead_of),
        reason=reason,
        dimension=dimension,
    )


def withdrawal_of(entry: str, reason: str | None = None) -> Withdrawal:
    """An entry taken back; of a withdrawal, what was withdrawn is brought back."""
    return Withdrawal(entry=entry, reason=reason or None)
