"""Which part sits in which position, and how that came about.

Where nothing was ever recorded, a position is occupied by its original part, whose code is the
position's id. A part is in one place at a time: fitting it elsewhere takes it out of where it was,
and whoever sat there before is out.
"""

from __future__ import annotations

from typing import NamedTuple

from fitwright.records.entry import Entry
from fitwright.records.kinds import Body, Fitting, Part, TakingOut


class ArrangementEvent(NamedTuple):
    """What happened at a position: this part went in, or (None) the one in it came out.

    `seq` is where it stands in the order: for a correction, where stood what it corrects.
    """

    seq: int
    entry: Entry
    part: str | None


class Arrangement:
    """The effective events at each position, in order, and what they lead to."""

    def __init__(self) -> None:
        self.events: dict[str, list[ArrangementEvent]] = {}
        self._location: dict[str, str | None] = {}
        self._declared: dict[str, str | None] = {}

    def occupant(self, position: str) -> str | None:
        """The part that sits in a position now; None after a taking out."""
        events = self.events.get(position)
        return events[-1].part if events else position

    def original_occupant(self, position: str) -> str:
        """The first part that was ever in a position."""
        events = self.events.get(position)
        first = events[0].part if events else None
        return position if first is None else first

    def location(self, part: str) -> str | None:
        """The position that a part sits in now; a part never fitted sits where its code says."""
        if part in self._location:
            return self._location[part]
        return part if self.occupant(part) == part else None

    def take(self, seq: int, entry: Entry, body: Body) -> None:
        """Take the next effective entry in order; any but parts, fittings and takings out are passed over."""
        match body:
            case Fitting():
                self._put_in(seq, entry, body.part, body.position)
            case TakingOut():
                if self.occupant(body.position) == body.part:
                    self._record(seq, entry, body.position, None)
            case Part():
                self._declare(seq, entry, body)

    def _declare(self, seq: int, entry: Entry, body: Part) -> None:
        """A part declared at another position than before is put in there, unless it sits there anyway."""
        before = self._declared.get(body.code)
        self._declared[body.code] = body.position
        if body.position not in (None, before) and self.occupant(body.position) != body.code:
            self._put_in(seq, entry, body.code, body.position)

    def _put_in(self, seq: int, entry: Entry, part: str, position: str) -> None:
        was_at = self.location(part)
        if was_at is not None and was_at != position:
            self._record(seq, entry, was_at, None)
        self._record(seq, entry, position, part)

    def _record(self, seq: int, entry: Entry, position: str, part: str | None) -> None:
        out = self.occupant(position)
        if out is not None:
            self._location[out] = None
        if part is not None:
            self._location[part] = position
        self.events.setdefault(position, []).append(ArrangementEvent(seq, entry, part))
