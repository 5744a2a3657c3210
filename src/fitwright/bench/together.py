"""Entries that were written together: one write, one undo.

The ids of all but the first follow from the id of the first, so that sending a form twice changes
nothing, and whoever takes one of them back finds the others.
"""

from __future__ import annotations

import uuid
from collections.abc import Iterator
from itertools import count

from fitwright.records.entry import Entry
from fitwright.records.projection.ledger import Ledger


def ids_from(first: str) -> Iterator[str]:
    """The ids of entries written together, from the id of the first, without end."""
    yield first
    for number in count(1):
        yield uuid.uuid5(uuid.UUID(hex=first), f"together {number}").hex


def written_together(ledger: Ledger, first: str) -> tuple[Entry, ...]:
    """The entries that were written together with a first one, itself included, in their order."""
    found: list[Entry] = []
    for entry_id in ids_from(first):
        held = ledger.recorded.get(entry_id)
        if held is None:
            break
        found.append(held.entry)
    return tuple(found)


def first_of(ledger: Ledger, entry_id: str, *, most: int = 200) -> str:
    """The first of the entries among which one was written; itself where it was written alone.

    At most `most` entries are written together.
    """
    held = ledger.recorded.get(entry_id)
    if held is None:
        return entry_id
    before = [
        each.entry
        for each in ledger.recorded.values()
        if held.entry.seq - most < each.entry.seq < held.entry.seq
    ]
    for entry in reversed(before):
        if any(each.id == entry_id for each in written_together(ledger, entry.id)):
            return entry.id
    return entry_id
