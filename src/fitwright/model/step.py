"""The order of work: steps, what each waits for, what it must leave behind, what it hides."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from fitwright.model.amount import Written


class PointKind(StrEnum):
    """Where somebody else looks (ISO 10005): past a hold point work must not go until it is released."""

    HOLD = "hold point"
    WITNESS = "witness point"


@dataclass(frozen=True, slots=True)
class PhotoWanted:
    """A photo to be taken in a step; it is filed under the subject `step/photo`."""

    id: str
    words: str


@dataclass(frozen=True, slots=True)
class Step:
    """One piece of work.

    To begin it, the steps `after` must be done (and released, where they are hold points), the `fits`
    (fits or dimensions) within or under concession, the `tightened` groups complete, the consumables
    `cured` cured. It is done with its own groups `tightens` complete, `eye_checks` (by id)
    answered as wanted, one-time-use parts `replaces` (positions) new, `photos` taken, consumables
    `uses` recorded. `hides` are fits, dimensions, positions and groups that nobody sees again after it.
    `cautions` are keys of the trade's cautions (data).
    """

    id: str
    title: str
    stage: str
    after: tuple[str, ...] = ()
    fits: tuple[str, ...] = ()
    tightened: tuple[str, ...] = ()
    cured: tuple[str, ...] = ()
    tightens: tuple[str, ...] = ()
    eye_checks: tuple[str, ...] = ()
    replaces: tuple[str, ...] = ()
    photos: tuple[PhotoWanted, ...] = ()
    uses: tuple[str, ...] = ()
    hides: tuple[str, ...] = ()
    point: PointKind | None = None
    invited: str | None = None
    cautions: tuple[str, ...] = ()
    note: str | None = None
    family: str | None = None


class ConsumableKind(StrEnum):
    """What a consumable is for."""

    SEALANT = "sealant"
    THREADLOCKER = "threadlocker"
    LUBRICANT = "lubricant"
    ADHESIVE = "adhesive"
    CLEANER = "cleaner"


@dataclass(frozen=True, slots=True)
class Consumable:
    """Something used up in assembly: how long it can be worked [s], how long it takes to cure [s].

    `friction` names a lubricant of the data, where it is put on threads. `batch_wanted` says that its
    batch and expiry are recorded. `not_on` says where it must not go ("joints tightened again").
    """

    id: str
    title: str
    kind: ConsumableKind
    pot_life: Written | None = None
    cure_time: Written | None = None
    friction: str | None = None
    batch_wanted: bool = True
    source: str | None = None
    place_in_source: str | None = None
    not_on: str | None = None
    note: str | None = None
