"""What lies in a path of oil: one class for each law of flow, with the sizes that it needs.

None means that the sheet leaves the size out. What then counts (a sharp edge, a smooth wall, a
discharge coefficient) is for the computation to say.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

from fitwright.model.circuit.sizes import (
    Angle,
    Area,
    Diameter,
    DiametralClearance,
    Direction,
    EdgeRadius,
    Flow,
    Gap,
    Length,
    Load,
    Pressure,
    Roughness,
    Speed,
    StatedPressure,
    Temperature,
    Viscosity,
)


class BearingFeed(StrEnum):
    """How oil reaches the film of a bearing."""

    FULL_GROOVE = "full groove"
    HALF_GROOVE = "half groove"
    PARTIAL_GROOVE = "partial groove"
    HOLE = "hole"


@dataclass(frozen=True, slots=True)
class Passage:
    """A pipe or a drilling; `loss_coefficient` is for its bends and fittings, in velocity heads.

    `edge_radius` is that of the edge where oil enters; without it the edge is sharp.
    """

    diameter: Diameter
    length: Length
    edge_radius: EdgeRadius | None = None
    roughness: Roughness | None = None
    loss_coefficient: float | None = None


@dataclass(frozen=True, slots=True)
class Intersection:
    """Where a drilling opens into another one, at an angle between the two."""

    diameter: Diameter
    crossing_diameter: Diameter | None = None
    angle: Angle | None = None
    edge_radius: EdgeRadius | None = None


@dataclass(frozen=True, slots=True)
class Restrictor:
    """A metering hole."""

    diameter: Diameter
    length: Length | None = None
    edge_radius: EdgeRadius | None = None
    discharge_coefficient: float | None = None


@dataclass(frozen=True, slots=True)
class Strainer:
    """A mesh with the area that is open in it."""

    open_area: Area
    discharge_coefficient: float | None = None


@dataclass(frozen=True, slots=True)
class Filter:
    """A filter: its pressure drop at one flow and kinematic viscosity, and its bypass.

    The bypass begins to open at one pressure drop and is fully open at another.
    """

    rated_flow: Flow
    rated_pressure_drop: StatedPressure
    rated_viscosity: Viscosity
    bypass_opening_pressure: Pressure | None = None
    bypass_full_pressure: Pressure | None = None
    bypass_diameter: Diameter | None = None


@dataclass(frozen=True, slots=True)
class Cooler:
    """A cooler of tubes side by side, opened by a thermostat, beside the bypass that it closes.

    A cooler without a thermostat is a pipe.
    """

    tube_diameter: Diameter
    tube_length: Length
    bypass_diameter: Diameter
    opening_temperature: Temperature
    full_temperature: Temperature
    tube_count: int = 1
    loss_coefficient: float | None = None


@dataclass(frozen=True, slots=True)
class Jet:
    """A spray jet; without an opening pressure it is always open.

    Its valve begins to open at one pressure and is fully open at another. The target is what it
    should give.
    """

    diameter: Diameter
    length: Length | None = None
    opening_pressure: Pressure | None = None
    full_pressure: Pressure | None = None
    discharge_coefficient: float | None = None
    target_flow: Flow | None = None
    target_pressure: StatedPressure | None = None


@dataclass(frozen=True, slots=True)
class Bearing:
    """A plain bearing that runs in its own oil.

    The load stated is `load` at every speed plus `inertia_load` at `inertia_load_speed` of the crank,
    which grows with the square of the speed; None of both: no load is stated. `speed_ratio` is the
    speed of the shaft over that of the crank. `surface_roughness` is that of both surfaces together
    (combined Rq). `feed_angle` is that of the middle of the feed from the side opposite the load,
    positive in the direction of rotation.
    """

    diametral_clearance: DiametralClearance
    journal_diameter: Diameter
    length: Length
    feed: BearingFeed = BearingFeed.HOLE
    groove_width: Length | None = None
    groove_arc: Angle | None = None
    hole_diameter: Diameter | None = None
    feed_angle: Direction | None = None
    speed_ratio: float = 1.0
    load: Load | None = None
    inertia_load: Load | None = None
    inertia_load_speed: Speed | None = None
    surface_roughness: Roughness | None = None


@dataclass(frozen=True, slots=True)
class BigEndFeed:
    """The drilling in the crank from a main to a pin, where spin changes the pressure.

    Radii are from the crank's axis: where oil enters, where it leaves, and the nearest to the axis
    that it comes on its way (zero where the drilling passes through the axis; None: never nearer
    than where it enters). `feed_arc` is the part of a turn over which the main's groove feeds it.
    """

    diameter: Diameter
    length: Length
    inlet_radius: EdgeRadius
    outlet_radius: EdgeRadius
    innermost_radius: EdgeRadius | None = None
    edge_radius: EdgeRadius | None = None
    roughness: Roughness | None = None
    loss_coefficient: float | None = None
    feed_arc: Angle | None = None


@dataclass(frozen=True, slots=True)
class AnnularLeak:
    """Oil that escapes along a shaft or plunger in its bore, through an optional feed hole.

    `length` is the land on one side of the feed; `lands` says over how many sides it escapes.
    """

    diametral_clearance: DiametralClearance
    diameter: Diameter
    length: Length
    lands: int = 2
    feed_diameter: Diameter | None = None
    eccentricity_ratio: float | None = None


@dataclass(frozen=True, slots=True)
class Slot:
    """A flat gap: as wide as it is across the flow, as long as the land that oil crosses."""

    clearance: Gap
    width: Length
    length: Length


@dataclass(frozen=True, slots=True)
class Tensioner:
    """A tensioner pressed by oil: the leak past its plunger, and its bleed hole."""

    diametral_clearance: DiametralClearance
    diameter: Diameter
    length: Length
    bleed_diameter: Diameter | None = None


@dataclass(frozen=True, slots=True)
class TurbochargerFeed:
    """The feed of a turbocharger: line, restrictor, and the lands of its floating bushes."""

    restrictor_diameter: Diameter
    line_diameter: Diameter
    line_length: Length
    bush_diameter: Diameter | None = None
    bush_clearance: DiametralClearance | None = None
    bush_length: Length | None = None
    bush_count: int | None = None


Element: TypeAlias = (
    Passage
    | Intersection
    | Restrictor
    | Strainer
    | Filter
    | Cooler
    | Jet
    | Bearing
    | BigEndFeed
    | AnnularLeak
    | Slot
    | Tensioner
    | TurbochargerFeed
)
