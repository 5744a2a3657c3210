"""What is said of fasteners: each pass on each of them, the preload it gives, the group."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from fitwright.model.fastener import Pass, TighteningGroup


class FastenerState(StrEnum):
    """How a fastener stands."""

    NOT_TIGHTENED = "not tightened"
    PART_WAY = "part way"
    COMPLETE = "complete"
    OUTSIDE = "outside"
    LOOSENED = "loosened"
    TO_TIGHTEN_AGAIN = "to be tightened again"


class PreloadBy(StrEnum):
    """What a preload was computed from."""

    TORQUE = "torque"
    TORQUE_AND_ANGLE = "torque and angle"
    STRETCH = "stretch"


@dataclass(frozen=True, slots=True)
class Preload:
    """A preload computed from what was recorded [N], with its band, and what it does to the joint.

    `friction` are the coefficients (thread, head) that were chosen, `lubricant` their name. Utilisations
    are shares [1] of yield strength and of proof stress; `stripping_margin` is the preload that strips
    the thread over the upper end of the band, for a sound, clean, full-depth thread. None where the sheet
    does not say enough. `words` say what such a figure may claim.
    """

    preload: float
    low: float
    high: float
    by: PreloadBy
    lubricant: str | None = None
    friction: tuple[float, float] | None = None
    yield_utilisation: float | None = None
    proof_utilisation: float | None = None
    stripping_margin: float | None = None
    yields: bool = False
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WrenchUsed:
    """The torque wrench of a pass: whether its calibration was recorded and young enough then, and its range.

    `calibrated` None: no calibration was recorded; False: older than a year, undated, or "never". `in_range`
    None: nothing says how far its scale goes; `by_rule_of_thumb` where 20 % of its scale is the lower end.
    """

    code: str
    title: str
    known: bool
    calibrated: bool | None
    calibration_date: str | None
    in_range: bool | None
    by_rule_of_thumb: bool
    words: tuple[str, ...]

    @property
    def in_order(self) -> bool:
        """Whether nothing is to be said against it."""
        return self.known and self.calibrated is True and self.in_range is not False


class Side(StrEnum):
    """On which side of the sheet's value or window something lies; otherwise: done in another way."""

    BELOW = "below"
    ABOVE = "above"
    OTHERWISE = "otherwise"


@dataclass(frozen=True, slots=True)
class FastenerPass:
    """What was recorded of one fastener in one pass; amounts in SI, None where nothing was.

    `outside` says on which side of the sheet's figure it lies, `outside_words` by how much. `early` says
    that it was recorded before the pass before was complete. `equal_torque` is the torque that gives the
    sheet's preload with the lubricant that was used, where that is another than the group's.
    """

    number: int
    entry: str
    seq: int
    at: datetime | None
    performed_by: str | None
    torque: float | None
    read: str
    angle: float | None
    stretch: float | None
    free_length: float | None
    tightened_length: float | None
    lubricant: str | None
    other_lubricant: bool
    equal_torque: float | None
    wrench: WrenchUsed | None
    preload: Preload | None
    outside: Side | None
    outside_words: str | None
    early: bool
    note: str | None


@dataclass(frozen=True, slots=True)
class FastenerStanding:
    """One fastener of a group.

    `passes` are the records that count, by pass; `preload` is that after the last of them. `times` is how
    often the physical fastener was tightened as far as recorded (where nobody said which one it is: at
    this position), `permanent_set` [m] what it stayed longer. `odd` says how it differs from the others in
    torque against stretch. `under` is the concession by which it is accepted. `missing` says in phrases
    what it still wants, `remarks` what is to be said although it is complete.
    """

    id: str
    state: FastenerState
    part: str | None
    passes: tuple[FastenerPass, ...]
    preload: Preload | None
    odd: str | None
    under: str | None
    marked: bool
    checked_by: tuple[str, ...]
    second_person: bool
    times: int
    permanent_set: float | None
    set_beyond: bool
    new: bool | None
    missing: tuple[str, ...]
    remarks: tuple[str, ...]
    words: str

    @property
    def complete(self) -> bool:
        """Whether nothing is missing, or what is outside was accepted."""
        return self.state is FastenerState.COMPLETE


@dataclass(frozen=True, slots=True)
class PassStanding:
    """One pass over all fasteners: who has had it and who not, and what it asks for in words.

    `due` False: it is for after a heat cycle that was not recorded yet. `early` are fasteners brought to it
    before the pass before was complete.
    """

    number: int
    asks: Pass
    words: str
    due: bool
    done: tuple[str, ...]
    missing: tuple[str, ...]
    early: tuple[str, ...]

    @property
    def complete(self) -> bool:
        """Whether every fastener has had it."""
        return not self.missing


@dataclass(frozen=True, slots=True)
class WarmPreload:
    """The sheet's preload at a temperature case [N]: estimated, part temperatures assumed; not judged."""

    case: str
    title: str
    preload: float
    change: float


@dataclass(frozen=True, slots=True)
class GroupStanding:
    """A tightening group: its fasteners, its passes, and whether it is complete.

    `next_pass` and `next_fastener` are what the order asks for next. `intended` is the preload that the
    sheet's own figure gives with its own lubricant. `missing` says in words what is not there ("fastener 7
    of 10 is not confirmed"); `not_computed` why there is no preload.
    """

    group: TighteningGroup
    fasteners: tuple[FastenerStanding, ...]
    passes: tuple[PassStanding, ...]
    complete: bool
    started: bool
    next_pass: int | None
    next_fastener: str | None
    intended: Preload | None
    warm: tuple[WarmPreload, ...]
    words: str
    missing: tuple[str, ...]
    remarks: tuple[str, ...]
    not_computed: str | None

    @property
    def id(self) -> str:
        """The id of the group."""
        return self.group.id

    @property
    def title(self) -> str:
        """The title of the group."""
        return self.group.title

    def fastener(self, name: str) -> FastenerStanding | None:
        """How the fastener at this position stands."""
        return next((each for each in self.fasteners if each.id == name), None)

    @property
    def odd(self) -> tuple[FastenerStanding, ...]:
        """Those that differ from the others in torque against stretch."""
        return tuple(each for each in self.fasteners if each.odd is not None)
