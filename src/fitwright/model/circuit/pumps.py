"""The oil pump of an engine type: its stages, with what displaces the oil and where it leaks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import Final, TypeAlias

from fitwright.model.circuit.sizes import (
    Angle,
    AxialClearance,
    Diameter,
    DiametralClearance,
    Displacement,
    Length,
    RadialClearance,
    Radius,
    StatedArea,
    Vacuum,
    Width,
)


class PumpKind(StrEnum):
    """What displaces the oil."""

    INTERNAL_ROTOR = "internal rotor"
    CRESCENT = "crescent"
    SPUR = "external spur"
    STATED = "stated displacement"


class StagePurpose(StrEnum):
    """Pressure: it feeds the engine. Scavenge: it empties the sump of a dry-sump engine."""

    PRESSURE = "pressure"
    SCAVENGE = "scavenge"


@dataclass(frozen=True, slots=True)
class InternalRotor:
    """An inner rotor in an outer one with one lobe more.

    The profile is that of eccentricity, generating radius and tooth radius; where those are not
    known, tip and root of the inner rotor stand in for it. `hub_diameter` is where the side face of
    the inner rotor ends towards its shaft.
    """

    inner_lobes: int
    outer_lobes: int
    width: Width
    eccentricity: Length | None = None
    generating_radius: Radius | None = None
    tooth_radius: Radius | None = None
    inner_tip_diameter: Diameter | None = None
    inner_root_diameter: Diameter | None = None
    outer_rotor_diameter: Diameter | None = None
    hub_diameter: Diameter | None = None


@dataclass(frozen=True, slots=True)
class Crescent:
    """A gear in a ring gear, with a crescent between them."""

    inner_teeth: int
    outer_teeth: int
    module: Length
    width: Width
    pressure_angle: Angle | None = None
    centre_distance: Length | None = None
    inner_tip_diameter: Diameter | None = None
    outer_tip_diameter: Diameter | None = None
    ring_diameter: Diameter | None = None
    hub_diameter: Diameter | None = None


@dataclass(frozen=True, slots=True)
class Spur:
    """Two equal gears side by side."""

    teeth: int
    module: Length
    width: Width
    pressure_angle: Angle | None = None
    outside_diameter: Diameter | None = None
    centre_distance: Length | None = None
    shaft_diameter: Diameter | None = None


@dataclass(frozen=True, slots=True)
class StatedDisplacement:
    """A pump of which only the displacement of one turn is stated."""

    displacement: Displacement


Rotors: TypeAlias = InternalRotor | Crescent | Spur | StatedDisplacement

ROTORS: Final[Mapping[PumpKind, type[Rotors]]] = MappingProxyType(
    {
        PumpKind.INTERNAL_ROTOR: InternalRotor,
        PumpKind.CRESCENT: Crescent,
        PumpKind.SPUR: Spur,
        PumpKind.STATED: StatedDisplacement,
    }
)
"""The class of what displaces the oil, of each kind."""


@dataclass(frozen=True, slots=True)
class PumpStage:
    """One stage of the oil pump; `speed_ratio` is its speed over that of the crank.

    End clearance is that of both side faces together. Tip clearance is lobe to lobe (internal rotor),
    teeth to crescent, or gear to body (spur). Body clearance is that of the outer rotor or ring in the
    body, diametral; shaft clearance that of its shaft in the bush, diametral. A pressure stage runs
    from one node to another; a scavenge stage has no nodes and is only counted in the ratio of
    displacements. `release_gauge_pressure` (below zero) is the pressure at which oil gives off its air,
    so that chambers no longer fill; `filling_area` the effective area through which they
    fill. `without_relief` says that on purpose no relief valve belongs to the stage.
    """

    id: str
    title: str
    kind: PumpKind
    rotors: Rotors
    speed_ratio: float
    purpose: StagePurpose = StagePurpose.PRESSURE
    from_node: str | None = None
    to_node: str | None = None
    end_clearance: AxialClearance | None = None
    tip_clearance: RadialClearance | None = None
    body_clearance: DiametralClearance | None = None
    shaft_clearance: DiametralClearance | None = None
    release_gauge_pressure: Vacuum | None = None
    filling_area: StatedArea | None = None
    without_relief: bool = False
    family: str | None = None
    note: str | None = None
