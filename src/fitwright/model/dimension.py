"""Dimensions: measurable sizes, where on a part they are taken, and in which condition."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from fitwright.model.amount import Written
from fitwright.model.limit import Limit, LimitClass


class Sense(StrEnum):
    """How a size is stated. Radial or diametral is always said."""

    DIAMETRAL = "diametral"
    RADIAL = "radial"
    AXIAL = "axial"
    LINEAR = "linear"
    ANGULAR = "angular"
    RATIO = "ratio"
    VOLUME = "volume"
    FORCE = "force"
    TORQUE = "torque"
    PRESSURE = "pressure"
    STIFFNESS = "stiffness"
    MASS = "mass"
    FLOW = "flow"


class Judged(StrEnum):
    """What a limit is held against: the worst (pair of) places, or the mean of all places."""

    WORST = "worst"
    MEAN = "mean"


@dataclass(frozen=True, slots=True)
class Condition:
    """What a dimension is valid in: bare, caps tightened with which lubricant, gasket in, ..."""

    id: str
    title: str
    kind: str
    lubricant: str | None = None


@dataclass(frozen=True, slots=True)
class Place:
    """Where a size is taken: a plane along the part, an angle around it, or both."""

    id: str
    plane: str | None = None
    angle: str | None = None


WHOLE = Place("whole")
"""The single place of a dimension that is taken in one place only."""


@dataclass(frozen=True, slots=True)
class Dimension:
    """A measurable size.

    It lies on one position (`part`), or it is taken *through* a set of parts: `through` then names
    positions (the whole part counts) or other dimensions (only that feature of their part counts).
    `feature` is the name by which the part carries the readings when it moves to another position.
    """

    id: str
    title: str
    sense: Sense
    station: str | None
    part: str | None = None
    through: tuple[str, ...] = ()
    feature: str = ""
    nominal: Written | None = None
    plausible: tuple[Written, Written] | None = None
    places: tuple[Place, ...] = (WHOLE,)
    condition: str | None = None
    instruments: tuple[str, ...] = ()
    limits: tuple[Limit, ...] = ()
    limit_class: LimitClass = LimitClass.NORMAL
    judged: Judged = Judged.WORST
    family: str | None = None
    note: str | None = None

    def place(self, place_id: str) -> Place | None:
        """The place with this id, or None."""
        return next((place for place in self.places if place.id == place_id), None)
