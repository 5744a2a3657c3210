"""Fasteners tightened, looked at again, loosened; consumables used."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal, Self

from pydantic import Field, model_validator

from fitwright.records.fields import Code, Words
from fitwright.records.kinds.body import Body, Typed

Fasteners = Annotated[tuple[str, ...], Field(min_length=1)]


class Tightening(Body):
    """Fasteners of one group brought to a pass: what the wrench was set to, turned by or stretched to.

    One entry may speak for several fasteners that were treated alike ("all of pass 2 with T3"); an
    exception is an entry of its own, and the later entry of a fastener and pass counts. `number` is
    the pass, from 1. `members` says which physical bolt sits where (fastener -> part code), so that
    times tightened can be counted. `stretch` is the elongation read; or the two lengths, free and
    tightened, which belong to one fastener. `lubricant` where another was used than the group's.
    """

    kind: ClassVar[str] = "tightening"
    group: str
    fasteners: Fasteners
    number: Annotated[int, Field(ge=1, le=20)]
    members: dict[str, str] = Field(default_factory=dict)
    torque: Typed | None = None
    read: Literal["set", "peak"] = "set"
    angle: Typed | None = None
    stretch: Typed | None = None
    free_length: Typed | None = None
    tightened_length: Typed | None = None
    wrench: Code | None = None
    angle_gauge: Code | None = None
    stretch_gauge: Code | None = None
    lubricant: str | None = None
    performed_by: Code | None = None
    note: Words | None = None

    @model_validator(mode="after")
    def _says_something(self) -> Self:
        lengths = (self.free_length, self.tightened_length)
        if all(each is None for each in (self.torque, self.angle, self.stretch, *lengths)):
            message = "a tightening says a torque, an angle, a stretch or lengths"
            raise ValueError(message)
        if len(self.fasteners) > 1 and any(each is not None for each in lengths):
            message = "lengths belong to one fastener each"
            raise ValueError(message)
        return self


class TighteningCheck(Body):
    """Somebody looked again at tightened fasteners: marked them, or checked them as a second person."""

    kind: ClassVar[str] = "tightening check"
    group: str
    fasteners: Fasteners
    check: Literal["marked", "checked", "stands as it is"]
    checked_by: Code | None = None
    words: Words | None = None


class Loosening(Body):
    """Fasteners loosened again: what was tightened before counts no longer.

    `breakaway_torque` is what it took to loosen, `length_after` the free length then (permanent set).
    """

    kind: ClassVar[str] = "loosening"
    group: str
    fasteners: Fasteners
    members: dict[str, str] = Field(default_factory=dict)
    because: Words
    breakaway_torque: Typed | None = None
    length_after: Typed | None = None


class HeatCycle(Body):
    """The engine was run to heat and cooled again, or whatever else a group is tightened again after."""

    kind: ClassVar[str] = "heat cycle"
    words: Words
    taken_at: str | None = None


class ConsumableUsed(Body):
    """A consumable used: which batch, until when it is good, when it was mixed or opened, and applied.

    Times are as `client_time` is written; the clock of pot life runs from `mixed_at`, that of curing
    from `applied_at`, else from when the entry was made.
    """

    kind: ClassVar[str] = "consumable used"
    consumable: str
    step: str | None = None
    batch: Words | None = None
    expires: str | None = None
    mixed_at: str | None = None
    applied_at: str | None = None
    used_by: Code | None = None
    note: Words | None = None
