"""Observations and stated sizes, by feature, with what became of them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from fitwright.records.entry import Entry
from fitwright.records.kinds import Moved, Reading, ReadingsMoved, StatedSize
from fitwright.records.projection.ledger import Ledger, Recorded, same_book

Move = tuple[Entry, Moved]
"""The entry that moved a reading, and where to."""


@dataclass(frozen=True, slots=True)
class ReadingRecord:
    """A reading as it stands now: where it counts after moves, and whether it counts.

    `order` is the `seq` that it counts from: a correction stands where stood what it corrects.
    `moved_by` is the entry that put it where it is, if it was moved.
    """

    entry: Entry
    body: Reading
    order: int
    dimension: str | None
    feature: str
    place: str
    members: Mapping[str, str]
    moved_by: Entry | None
    withdrawn_by: Entry | None
    superseded_by: Entry | None

    @property
    def effective(self) -> bool:
        """Whether it counts: neither withdrawn nor superseded."""
        return self.withdrawn_by is None and self.superseded_by is None


@dataclass(frozen=True, slots=True)
class StatedSizeRecord:
    """A stated size as it stands now; `order` as for a reading."""

    entry: Entry
    body: StatedSize
    order: int
    dimension: str | None
    feature: str
    place: str
    members: Mapping[str, str]
    withdrawn_by: Entry | None
    superseded_by: Entry | None

    @property
    def effective(self) -> bool:
        """Whether it counts: neither withdrawn nor superseded."""
        return self.withdrawn_by is None and self.superseded_by is None


class Readings:
    """All readings and stated sizes of a build, effective or not, in their order."""

    def __init__(self) -> None:
        self.by_id: dict[str, ReadingRecord] = {}
        self.by_feature: dict[str, list[ReadingRecord]] = {}
        self.stated: dict[str, StatedSizeRecord] = {}
        self.stated_by_feature: dict[str, list[StatedSizeRecord]] = {}

    def take(self, entry: Entry, body: Reading, ledger: Ledger, move: Move | None) -> None:
        """Take the next reading in order."""
        at: Reading | Moved = body if move is None else move[1]
        record = ReadingRecord(
            entry=entry,
            body=body,
            order=ledger.order(entry.id),
            dimension=at.dimension,
            feature=at.feature,
            place=at.place,
            members=at.members,
            moved_by=None if move is None else move[0],
            withdrawn_by=ledger.withdrawn_by(entry.id),
            superseded_by=ledger.superseded_by(entry.id),
        )
        self.by_id[entry.id] = record
        self.by_feature.setdefault(record.feature, []).append(record)

    def take_stated(self, entry: Entry, body: StatedSize, ledger: Ledger) -> None:
        """Take the next stated size in order."""
        record = StatedSizeRecord(
            entry=entry,
            body=body,
            order=ledger.order(entry.id),
            dimension=body.dimension,
            feature=body.feature,
            place=body.place,
            members=body.members,
            withdrawn_by=ledger.withdrawn_by(entry.id),
            superseded_by=ledger.superseded_by(entry.id),
        )
        self.stated[entry.id] = record
        self.stated_by_feature.setdefault(record.feature, []).append(record)


def moves_in_force(moved: Iterable[Recorded[ReadingsMoved]], ledger: Ledger) -> dict[str, Move]:
    """The last effective move of each moved reading; a move names only readings before it."""
    last: dict[str, Move] = {}
    for entry, body in moved:
        for move in body.moves:
            target = ledger.recorded.get(move.entry)
            if target and target.entry.seq < entry.seq and same_book(entry, target.entry):
                last[move.entry] = (entry, move)
    return last
