"""Fasteners that are tightened together: thread, strength, lubricant, passes, order, pattern."""

from __future__ import annotations

from collections.abc import Container
from dataclasses import dataclass
from enum import StrEnum
from itertools import takewhile
from typing import Final

from fitwright.model.amount import Written

NOT_STATED: Final = "not stated yet"
"""Stands for the thread of a group whose sheet does not say it; nothing is computed with it."""


class TighteningMethod(StrEnum):
    """What says that a fastener is tight."""

    TORQUE = "torque"
    TORQUE_AND_ANGLE = "torque and angle"
    STRETCH = "stretch"
    YIELD = "to yield"


class Locking(StrEnum):
    """What keeps a fastener from turning back, where that changes how it is tightened."""

    CASTLE_NUT = "castle nut"
    THREADLOCKER = "threadlocker"
    LOCK_WIRE = "lock wire"
    TAB_WASHER = "tab washer"


@dataclass(frozen=True, slots=True)
class Fastener:
    """One fastener of a group, by its position, and where it sits in the pattern [m].

    `x` to the right and `y` upwards as one looks at the heads; None where no pattern was given.
    """

    id: str
    x: float | None = None
    y: float | None = None


@dataclass(frozen=True, slots=True)
class Pass:
    """One round over all fasteners: to a torque, by a further angle, or to a stretch.

    `torque` [N m] or `angle` [rad] or the window of `stretch` [m]; with a stretch, the torque window is
    a cross-check only. `upto` is the upper end of a torque window (castle nuts up to the next slot).
    `after_heat` says that it is done only after a heat cycle.
    """

    torque: Written | None = None
    upto: Written | None = None
    angle: Written | None = None
    stretch_low: Written | None = None
    stretch_high: Written | None = None
    after_heat: bool = False


@dataclass(frozen=True, slots=True)
class GripSection:
    """A length of the grip [m] with one diameter [m]; without a diameter it is threaded."""

    length: Written
    diameter: Written | None = None


@dataclass(frozen=True, slots=True)
class TighteningGroup:
    """Fasteners that are tightened together, listed in the order of tightening.

    `thread` and `property_class` as they are designated (`M10x1.25`, `10.9`; a thread may end in `LH`,
    or be `NOT_STATED`).
    `lubricant` names what the values are for: an id of a consumable, or a lubricant of the data.
    `bearing_diameter_*` of the head or nut face, `engagement` of the thread in `tapped_in` (a material).
    `clamped` is the material of what is held together. No passes means that no value is stated yet.
    `permanent_set` is the most that a fastener may stay longer [m]; `most_tightenings` how often one
    may be tightened. `blind` holes are seen dry to the bottom first.
    """

    id: str
    title: str
    thread: str
    fasteners: tuple[Fastener, ...]
    passes: tuple[Pass, ...] = ()
    method: TighteningMethod = TighteningMethod.TORQUE
    property_class: str | None = None
    lubricant: str | None = None
    bearing_diameter_outer: Written | None = None
    bearing_diameter_hole: Written | None = None
    grip: tuple[GripSection, ...] = ()
    clamped: str | None = None
    tapped_in: str | None = None
    engagement: Written | None = None
    thread_insert: bool = False
    blind: bool = False
    locking: Locking | None = None
    permanent_set: Written | None = None
    most_tightenings: int | None = None
    one_time_use: bool = False
    critical: bool = False
    source: str | None = None
    place_in_source: str | None = None
    caution: str | None = None
    note: str | None = None
    family: str | None = None

    def fastener(self, name: str) -> Fastener | None:
        """The fastener at this position."""
        return next((each for each in self.fasteners if each.id == name), None)


def position_of_fastener(group: TighteningGroup, fastener: str, positions: Container[str]) -> str | None:
    """The position of the sheet in which a fastener sits; None where the sheet has none for it.

    >>> group = TighteningGroup("head", "Head", "M10", (Fastener("bolt.1"),))
    >>> position_of_fastener(group, "bolt.1", {"head.bolt.1"}), position_of_fastener(group, "bolt.1", ())
    ('head.bolt.1', None)
    """
    named = (f"{group.id}/{fastener}", f"{group.id}.{fastener}", fastener)
    return next((each for each in named if each in positions), None)


def readable_names(group: TighteningGroup) -> dict[str, str]:
    """What each position is called beside its head: its id without what tells no two of them apart.

    >>> ids = ("head.bolt.1", "head.bolt.2")
    >>> readable_names(TighteningGroup("head", "Head", "M10", tuple(map(Fastener, ids))))
    {'head.bolt.1': 'bolt 1', 'head.bolt.2': 'bolt 2'}
    """
    parts = {each.id: each.id.split(".") for each in group.fasteners}
    level = takewhile(lambda each: len({*each}) == 1, zip(*parts.values(), strict=False))
    alike = len(list(level)) if len(parts) > 1 else 0
    start = max(alike - 1, 0)
    return {name: " ".join(each[start:]).replace("_", " ") for name, each in parts.items()}


def fastener_title(group: TighteningGroup, fastener: str) -> str:
    """What a fastener is called away from its group; an id that the group lacks stands as it is."""
    return f"{group.title}, {readable_names(group).get(fastener, fastener)}"
