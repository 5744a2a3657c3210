"""The rotors of a pump stage as they can be drawn: their teeth, what surrounds them, what was measured."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from fitwright.assess.oil.parameters import Parameters
from fitwright.assess.oil.pumps import HUB_OVER_ROOT, RING_OVER_TIP, PumpElements
from fitwright.assess.oil.sizes import Basis
from fitwright.model import circuit as sheet
from fitwright.physics.numerics.errors import PhysicsError
from fitwright.physics.pump.spur import SpurPair
from fitwright.physics.pump.trochoid import RotorPair

if TYPE_CHECKING:
    from fitwright.assess.judging import Judge


@dataclass(frozen=True, slots=True)
class MeasuredGaps:
    """Clearances of a stage that were measured [m]: tip on the radius, body on diameter, end of both faces.

    None stands for one that was not measured.
    """

    tip: float | None
    body: float | None
    end: float | None


@dataclass(frozen=True, slots=True)
class RotorShape:
    """An internal rotor pump [m]."""

    title: str
    pair: RotorPair
    outer_rotor_diameter: float
    hub_diameter: float
    gaps: MeasuredGaps


@dataclass(frozen=True, slots=True)
class GearShape:
    """An external gear pump [m]."""

    title: str
    pair: SpurPair
    shaft_diameter: float
    gaps: MeasuredGaps


def rotor_shapes(judge: Judge, circuit: sheet.Circuit) -> tuple[RotorShape | GearShape, ...]:
    """The pressure stages whose rotors are described; those of which a size is not known are left out."""
    found = (_shape(judge, each) for each in circuit.pumps.values() if each.from_node is not None)
    return tuple(each for each in found if each is not None)


def _shape(judge: Judge, stage: sheet.PumpStage) -> RotorShape | GearShape | None:
    parameters = Parameters(judge)
    makes = PumpElements(parameters)
    try:
        if isinstance(stage.rotors, sheet.InternalRotor):
            return _rotors(stage, stage.rotors, makes)
        if isinstance(stage.rotors, sheet.Spur):
            pair, shaft = makes.spur_pair(stage.rotors)
            return GearShape(stage.title, pair, shaft, _gaps(parameters, stage))
    except PhysicsError:
        return None
    return None


def _rotors(stage: sheet.PumpStage, rotors: sheet.InternalRotor, makes: PumpElements) -> RotorShape:
    pair = makes.rotor_pair(rotors)
    tip = 2.0 * (pair.generating_radius - pair.tooth_radius + pair.eccentricity)
    number = makes.parameters.number
    return RotorShape(
        stage.title,
        pair,
        number(rotors, "outer_rotor_diameter", RING_OVER_TIP * tip),
        number(rotors, "hub_diameter", HUB_OVER_ROOT * (tip - 4.0 * pair.eccentricity)),
        _gaps(makes.parameters, stage),
    )


def _gaps(parameters: Parameters, stage: sheet.PumpStage) -> MeasuredGaps:
    sizes = (_gap(parameters, stage, name) for name in ("tip_clearance", "body_clearance", "end_clearance"))
    return MeasuredGaps(*sizes)


def _gap(parameters: Parameters, stage: sheet.PumpStage, name: str) -> float | None:
    """A clearance, where it was measured."""
    size = getattr(stage, name)
    value = parameters.number(stage, name, 0.0)
    if not isinstance(size, sheet.Reference):
        return None
    return value if parameters.measured[size.subject].basis is Basis.MEASURED else None
