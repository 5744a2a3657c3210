"""What is said of consumables, of parts that may be used once, and of parts that moved."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from fitwright.assess.assembly.deeds import Deed


@dataclass(frozen=True, slots=True)
class ConsumableUse:
    """One use of a consumable: its batch, whether it was good then, its pot life and curing.

    `over_pot_life` [s] is by how much it was put on too late. `cured_from` is when it has cured, `cured`
    whether that is so now; both None and True where the sheet gives no time for curing.
    """

    deed: Deed
    step: str | None
    batch: str | None
    batch_missing: bool
    expires: str | None
    expired: bool
    mixed_at: datetime | None
    applied_at: datetime | None
    over_pot_life: float | None
    cured_from: datetime | None
    cured: bool
    words: str

    @property
    def in_order(self) -> bool:
        """Whether nothing is to be said against it, curing apart."""
        return not (self.batch_missing or self.expired or self.over_pot_life)


@dataclass(frozen=True, slots=True)
class ConsumableStanding:
    """A consumable of the sheet with all its uses in order; `cured` while none of them is still curing."""

    id: str
    title: str
    kind: str
    cure_time: float | None
    pot_life: float | None
    uses: tuple[ConsumableUse, ...]
    cured: bool
    cured_from: datetime | None
    words: str


@dataclass(frozen=True, slots=True)
class OneTimePart:
    """A part that may be used once: a position of the sheet, or `group/fastener`; new, or why not.

    `since` is the entry that made it new or used it up.
    """

    subject: str
    title: str
    part: str | None
    new: bool
    words: str
    since: str | None


@dataclass(frozen=True, slots=True)
class PartAt:
    """A part put into a position, or (None) taken out."""

    position: str | None
    title: str
    entry: str
    seq: int
    at: datetime | None


@dataclass(frozen=True, slots=True)
class PartMove:
    """A part that has sat in more than one position, or was taken out and put back: where, in order."""

    part: str
    title: str
    now_at: str | None
    history: tuple[PartAt, ...]
    words: str
