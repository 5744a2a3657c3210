"""Fits: clearances, interferences, gaps, heights and ratios computed from dimensions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from fitwright.model.dimension import Judged, Sense
from fitwright.model.limit import Limit, LimitClass


class FitKind(StrEnum):
    """The named kinds of fit; `CHAIN` is the general signed chain of dimensions."""

    RUNNING_CLEARANCE = "running clearance"
    END_FLOAT = "end float"
    SIDE_CLEARANCE = "side clearance"
    GAP = "gap"
    INTERFERENCE = "interference"
    DECK = "deck"
    SQUISH = "squish"
    RATIO = "ratio"
    HEIGHT = "height"
    RUN_OUT = "run-out"
    CENTRING = "centring"
    BACKLASH = "backlash"
    TAPER = "taper"
    OUT_OF_ROUND = "out-of-round"
    CHAIN = "chain"


class RouteName(StrEnum):
    """By parts: from the sizes of the members; fitted: read on the assembled parts."""

    BY_PARTS = "by parts"
    FITTED = "fitted"


@dataclass(frozen=True, slots=True)
class ChainTerm:
    """One signed member of a chain: `coefficient` times a dimension."""

    coefficient: float
    dimension: str


@dataclass(frozen=True, slots=True)
class Route:
    """One way to a fit: its signed chain, and a constant [SI] (a stated thickness, say)."""

    name: RouteName
    chain: tuple[ChainTerm, ...]


@dataclass(frozen=True, slots=True)
class GrowthTerm:
    """A length of a part that grows into (+) or out of (-) a fit when the engine gets hot."""

    coefficient: float
    length: float
    part: str


@dataclass(frozen=True, slots=True)
class CompressionMembers:
    """Dimension ids of a compression ratio; `dish` counts positive, a dome negative."""

    bore: str
    stroke: str
    chamber_volume: str
    gasket_bore: str
    gasket_thickness: str
    deck: str
    dish_volume: str | None = None
    crevice_volume: str | None = None


@dataclass(frozen=True, slots=True)
class PressFit:
    """What an interference fit needs for its pressure and stress; lengths in metres."""

    hub: str
    shaft: str
    hub_outer_diameter: float
    shaft_inner_diameter: float = 0.0
    length: float | None = None
    friction: float | None = None
    hub_yield: float | None = None
    shaft_yield: float | None = None


@dataclass(frozen=True, slots=True)
class CentringSpec:
    """Gaps around a shaft: the dimension whose places are `angle@crank angle`, names of directions.

    Angles in degrees, 0 at the top (towards the deck), clockwise seen from the nose.
    `clearance` names the bearing fit in which the crank lies low at rest. `face_heights` names the
    heights of a joint face above its neighbour, that the same move must keep level within
    `face_step` [m]; `face_positions` how far to the right of the shaft each place lies [m].
    """

    gaps: str
    clearance: str | None = None
    face_heights: str | None = None
    face_positions: Mapping[str, float] = field(default_factory=dict)
    face_step: float | None = None


@dataclass(frozen=True, slots=True)
class Fit:
    """A fit: its kind, how it is stated, one or two routes and which governs, its limits."""

    id: str
    title: str
    kind: FitKind
    sense: Sense
    station: str | None
    routes: tuple[Route, ...] = ()
    governing_route: RouteName | None = None
    limits: tuple[Limit, ...] = ()
    limit_class: LimitClass = LimitClass.NORMAL
    judged: Judged = Judged.WORST
    growth: tuple[GrowthTerm, ...] = ()
    compression: CompressionMembers | None = None
    press: PressFit | None = None
    centring: CentringSpec | None = None
    form_of: str | None = None
    removes_metal: bool = False
    family: str | None = None
    note: str | None = None
