"""What is said of assembly: steps and groups, fasteners, permissions, rework, consumables, open points.

Everything is immutable and in SI; moments are aware datetimes in UTC. `entry` is always the id of an
entry of the record. Words are whole sentences or phrases for a reader; where they hold a figure it
stands in both families of units.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from fitwright.assess.assembly.deeds import Deed
from fitwright.assess.assembly.fastener_results import (
    FastenerPass,
    FastenerStanding,
    FastenerState,
    GroupStanding,
    PassStanding,
    Preload,
    PreloadBy,
    Side,
    WarmPreload,
    WrenchUsed,
)
from fitwright.assess.assembly.part_results import (
    ConsumableStanding,
    ConsumableUse,
    OneTimePart,
    PartAt,
    PartMove,
)
from fitwright.assess.assembly.permission_results import (
    ConcessionStanding,
    ReworkedDimension,
    ReworkItem,
    ReworkStanding,
)
from fitwright.model.step import PhotoWanted, PointKind

__all__ = [
    "Cause",
    "Change",
    "ConcessionStanding",
    "Condition",
    "ConditionKind",
    "ConsumableStanding",
    "ConsumableUse",
    "Deed",
    "FastenerPass",
    "FastenerStanding",
    "FastenerState",
    "GroupStanding",
    "Hidden",
    "OneTimePart",
    "OpenKind",
    "OpenPoint",
    "PartAt",
    "PartMove",
    "PassStanding",
    "Preload",
    "PreloadBy",
    "ReworkItem",
    "ReworkStanding",
    "ReworkedDimension",
    "Side",
    "Standing",
    "StepStanding",
    "StepState",
    "WarmPreload",
    "Witness",
    "WrenchUsed",
]


class StepState(StrEnum):
    """How a step stands."""

    CAN_BE_DONE = "can be done"
    WAITS_FOR = "waits for"
    HELD = "held"
    DONE = "done"
    RELEASED = "released"
    CHANGED_SINCE = "changed since"


class ConditionKind(StrEnum):
    """What a step asks for: the first four before it begins, the others before it is done."""

    AFTER = "step before"
    FIT = "fit"
    TIGHTENED = "tightened before"
    CURED = "cured"
    TIGHTENS = "tightened"
    EYE_CHECK = "eye check"
    REPLACED = "new part"
    PHOTO = "photo"
    USED = "consumable"

    @property
    def to_begin(self) -> bool:
        """Whether it must hold before work on the step begins."""
        return self in (self.AFTER, self.FIT, self.TIGHTENED, self.CURED)


@dataclass(frozen=True, slots=True)
class Condition:
    """One thing that a step asks for, and whether it holds now.

    `subject` is the id of the step, fit, dimension, group, consumable, eye check, position or
    `step/photo`; `title` its name; `words` how it stands ("outside: below the lower limit", "8 of 10
    complete, C4 and C5 are not"). `under` is the concession or deviation permit by which it holds,
    `until` the moment from which it will hold by itself (cured), where that is known.
    """

    kind: ConditionKind
    subject: str
    title: str
    holds: bool
    words: str
    under: str | None = None
    until: datetime | None = None


@dataclass(frozen=True, slots=True)
class Change:
    """What happened to a condition after the step was done or released; `entry` None: the clock did it."""

    kind: ConditionKind
    subject: str
    words: str
    entry: str | None
    seq: int | None


@dataclass(frozen=True, slots=True)
class Cause:
    """Why a step waits, at the beginning of the chain: this step has not come past this condition.

    `steps` are the ids on the way: the waiting step's predecessors, nearest first, `step` last. Where
    nothing else is in the way, `condition` is None: that step can be done, and has not been.
    """

    step: str
    title: str
    condition: Condition | None
    words: str
    steps: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Hidden:
    """Something that nobody sees again after a closing step, and what of it is not in order.

    `open` says that something is: outside, unproven, not measured, not tightened, not photographed.
    """

    subject: str
    title: str
    kind: str
    open: bool
    words: str


@dataclass(frozen=True, slots=True)
class Witness:
    """What is recorded of a witness point: who was invited, and what came of it."""

    deed: Deed
    invited: str
    answer: str


@dataclass(frozen=True, slots=True)
class StepStanding:
    """How a step stands, and everything that it rests on.

    `words` say the state in one phrase, with the first cause. `missing` are the conditions that do not
    hold. `done` and `released` are the latest such entries, also where they do not count (any more).
    `lone` says that whoever released it is the shop's only person, `later` that he looked again later.
    `out_of_order` says in words what was not so when it was recorded as done or released. `may_be_done`
    and `may_be_released` are what a write of StepDone or StepReleased is held against.
    """

    id: str
    title: str
    stage: str
    point: PointKind | None
    state: StepState
    words: str
    conditions: tuple[Condition, ...]
    waits_for: Cause | None
    done: Deed | None
    released: Deed | None
    lone: bool
    later: bool
    invited: str | None
    witness: Witness | None
    changes: tuple[Change, ...]
    out_of_order: tuple[str, ...]
    hides: tuple[Hidden, ...]
    before: tuple[str, ...]
    photos: tuple[PhotoWanted, ...]
    cautions: tuple[str, ...]
    note: str | None
    may_be_done: bool
    may_be_released: bool

    @property
    def missing(self) -> tuple[Condition, ...]:
        """The conditions that do not hold now."""
        return tuple(each for each in self.conditions if not each.holds)

    @property
    def counts(self) -> bool:
        """Whether steps after it may go on: done, or released where it is a hold point."""
        wanted = StepState.RELEASED if self.point is PointKind.HOLD else StepState.DONE
        return self.state is wanted


class OpenKind(StrEnum):
    """What kind of thing is open, the gravest first: open points are listed in this order."""

    FIT_OUTSIDE = "fit outside"
    FASTENER_OUTSIDE = "fastener outside"
    CHANGED_SINCE = "step changed since"
    OUT_OF_ORDER = "step out of order"
    ODD_FASTENER = "odd fastener"
    FIT_UNPROVEN = "fit unproven"
    FIT_NOT_MEASURED = "fit not measured"
    PERMISSION_OVER = "permission no longer in force"
    GROUP_INCOMPLETE = "tightening incomplete"
    TORQUE_UNEXPLAINED = "tightening not as the sheet says"
    ONE_TIME_PART = "one-time part not new"
    REWORK_OPEN = "rework not followed up"
    HOLD_NOT_RELEASED = "hold point not released"
    STEP_NOT_DONE = "step not done"
    EYE_CHECK = "eye check"
    CONSUMABLE = "consumable"
    WRENCH = "wrench"
    NOT_CHECKED = "nobody checked"
    NOT_RECORDED = "not recorded"
    PHOTO = "photo missing"
    UNDER_CONCESSION = "under concession"
    LONE_RELEASE = "released by the only person"


_SEVERITY = {kind: place for place, kind in enumerate(OpenKind)}


@dataclass(frozen=True, slots=True)
class OpenPoint:
    """Something that a hand-over must show in full view.

    `subject` is an id as in `Condition`, or `group/fastener`; `because` the reason that somebody gave.
    """

    kind: OpenKind
    subject: str
    title: str
    words: str
    entry: str | None = None
    because: str | None = None

    @property
    def severity(self) -> int:
        """Its place among the kinds: the smaller, the graver."""
        return _SEVERITY[self.kind]


@dataclass(frozen=True, slots=True)
class Standing:
    """How the assembly of a build stands at a moment.

    `head` is the last entry that it knows; `now` the moment that curing and days are held against.
    `alone` says that the shop has one person (or none). Mappings keep the order of the sheet.
    """

    build: str
    sheet: str
    head: int
    now: datetime | None
    alone: bool
    steps: Mapping[str, StepStanding]
    groups: Mapping[str, GroupStanding]
    concessions: tuple[ConcessionStanding, ...]
    reworks: tuple[ReworkStanding, ...]
    consumables: Mapping[str, ConsumableStanding]
    one_time_parts: tuple[OneTimePart, ...]
    moves: tuple[PartMove, ...]
    open_points: tuple[OpenPoint, ...]
    not_in_this_job: Mapping[str, str]

    @property
    def can_be_done(self) -> tuple[StepStanding, ...]:
        """The steps that somebody may take up now."""
        return tuple(each for each in self.steps.values() if each.state is StepState.CAN_BE_DONE)

    @property
    def permitted(self) -> Mapping[str, ConcessionStanding]:
        """By subject the permission that is in force."""
        return {each.subject: each for each in self.concessions if each.in_force}

    @property
    def stages(self) -> Mapping[str, tuple[StepStanding, ...]]:
        """The steps by stage, in the order of the sheet."""
        names = dict.fromkeys(each.stage for each in self.steps.values())
        return {name: tuple(each for each in self.steps.values() if each.stage == name) for name in names}

    def count(self, state: StepState) -> int:
        """How many steps stand so."""
        return sum(1 for each in self.steps.values() if each.state is state)
