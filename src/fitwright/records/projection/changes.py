"""What was reworked, repaired or replaced on each part."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.records.entry import Entry
from fitwright.records.kinds import State


@dataclass(frozen=True, slots=True)
class StateChange:
    """One change of a part: readings of these dimensions taken before it are retired.

    `order` is the `seq` that it counts from: a correction stands where stood what it corrects.
    """

    entry: Entry
    order: int
    code: str
    change: str
    dimensions: tuple[str, ...]
    words: str


class Changes:
    """The effective changes of each part, in order."""

    def __init__(self) -> None:
        self.by_part: dict[str, list[StateChange]] = {}

    def take(self, seq: int, entry: Entry, body: State) -> None:
        """Take the next effective change in order."""
        change = StateChange(entry, seq, body.code, body.change, body.dimensions, body.words)
        self.by_part.setdefault(body.part, []).append(change)

    def of(self, part: str) -> list[StateChange]:
        """The changes of a part, in order."""
        return self.by_part.get(part, [])

    def last(self, part: str, dimension: str) -> StateChange | None:
        """The last change of a part that retires readings of this dimension."""
        return next((change for change in reversed(self.of(part)) if dimension in change.dimensions), None)
