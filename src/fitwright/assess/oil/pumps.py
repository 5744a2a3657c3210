"""The pump stages of the sheet's circuit as elements of its computation.

Sizes that the sheet leaves out are those of gears as usually cut, with rings and hubs in proportion.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import singledispatchmethod
from math import pi, radians
from typing import Final

from fitwright.assess.oil.parameters import Parameters
from fitwright.model import circuit as sheet
from fitwright.model.amount import Written
from fitwright.physics.network import elements
from fitwright.physics.network.sizes import Named, Size
from fitwright.physics.pump.chambers import rotor_displacement
from fitwright.physics.pump.crescent import CrescentPair, crescent_displacement
from fitwright.physics.pump.gear_leaks import crescent_leaks, spur_leaks
from fitwright.physics.pump.leakage import Gap, LeakagePath
from fitwright.physics.pump.rotor_leaks import rotor_leaks
from fitwright.physics.pump.spur import SpurPair, spur_displacement
from fitwright.physics.pump.tooth_sizes import tooth_data
from fitwright.physics.pump.trochoid import RotorPair

USUAL_PRESSURE_ANGLE: Final = radians(20.0)
RING_OVER_TIP: Final = 1.25
HUB_OVER_ROOT: Final = 0.6
SHAFT_OVER_PITCH: Final = 0.45

CLEARANCES: Final = {
    Gap.END: ("end_clearance", 1.0),
    Gap.TIP: ("tip_clearance", 1.0),
    Gap.BODY: ("body_clearance", 0.5),
    Gap.SHAFT: ("shaft_clearance", 0.5),
}
"""The size of a stage that a leak goes through, and its factor: a leak takes body and shaft on the radius."""


@dataclass(frozen=True, slots=True)
class Displacing:
    """What the rotors of a stage displace in one revolution [m3], and where they leak."""

    displacement: float
    leaks: tuple[LeakagePath, ...] = ()


@dataclass(frozen=True, slots=True)
class PumpElements:
    """Makes the pump stages of one circuit, and collects the parameters that they follow."""

    parameters: Parameters

    def element(self, stage: sheet.PumpStage) -> elements.Pump:
        """The element of one pressure stage.

        Raises
        ------
        OutOfDomainError
            If its sizes are those of no pump.
        """
        owner = f"pumps.{stage.id}"
        displacing = self.displacing(stage)
        ratio = f"{owner}.speed_ratio"
        self.parameters.values[ratio] = stage.speed_ratio
        filling: dict[str, Size] = {}
        if stage.release_gauge_pressure is not None:
            filling["release_gauge_pressure"] = stage.release_gauge_pressure.si
        if stage.filling_area is not None:
            filling["filling_area"] = stage.filling_area.si
        return elements.Pump(
            displacement_per_radian=displacing.displacement / (2.0 * pi),
            leaks=tuple(self._leaks(owner, stage, displacing.leaks)),
            speed_ratio=Named(ratio),
            **filling,
        )

    def displacing(self, stage: sheet.PumpStage) -> Displacing:
        """What a stage displaces, pressure or scavenge, and its leaks."""
        return self._rotors(stage.rotors, stage)

    def _leaks(
        self, owner: str, stage: sheet.PumpStage, paths: Sequence[LeakagePath]
    ) -> list[elements.PumpLeak]:
        found = []
        for path in paths:
            name, scale = CLEARANCES[path.gap]
            clearance = self.parameters.of(owner, stage, name, scale=scale)
            if clearance is not None:
                found.append(elements.PumpLeak(path, clearance))
        return found

    def _number(self, part: object, name: str, usual: float) -> float:
        return self.parameters.number(part, name, usual)

    @singledispatchmethod
    def _rotors(self, rotors: object, stage: sheet.PumpStage) -> Displacing:
        raise TypeError(f"pump {stage.id}: no law for {type(rotors).__name__}")

    @_rotors.register
    def _(self, rotors: sheet.StatedDisplacement, stage: sheet.PumpStage) -> Displacing:
        del stage
        return Displacing(self._number(rotors, "displacement", 0.0))

    @_rotors.register
    def _(self, rotors: sheet.InternalRotor, stage: sheet.PumpStage) -> Displacing:
        pair = self.rotor_pair(rotors)
        tip = 2.0 * (pair.generating_radius - pair.tooth_radius + pair.eccentricity)
        root = tip - 4.0 * pair.eccentricity
        leaks = rotor_leaks(
            pair,
            outer_rotor_diameter=self._number(rotors, "outer_rotor_diameter", RING_OVER_TIP * tip),
            hub_diameter=self._number(rotors, "hub_diameter", HUB_OVER_ROOT * root),
            tip_clearance=self._number(stage, "tip_clearance", 0.1e-3),
        )
        return Displacing(rotor_displacement(pair).displacement, leaks)

    def rotor_pair(self, rotors: sheet.InternalRotor) -> RotorPair:
        """The rotors by their tooth data, which follow from tip and root where they are not stated.

        Raises
        ------
        OutOfDomainError
            If no rotors have these sizes.
        """
        width = self._number(rotors, "width", 0.0)
        eccentricity = self._number(rotors, "eccentricity", 0.0)
        generating, tooth = (
            self._number(rotors, name, 0.0) for name in ("generating_radius", "tooth_radius")
        )
        if eccentricity and generating and tooth:
            return RotorPair(rotors.inner_lobes, eccentricity, generating, tooth, width)
        return tooth_data(
            rotors.inner_lobes,
            inner_tip_diameter=self._number(rotors, "inner_tip_diameter", 0.0),
            inner_root_diameter=self._number(rotors, "inner_root_diameter", 0.0),
            width=width,
            tooth_radius=tooth or None,
        ).pair

    @_rotors.register
    def _(self, rotors: sheet.Spur, stage: sheet.PumpStage) -> Displacing:
        del stage
        pair, shaft = self.spur_pair(rotors)
        return Displacing(spur_displacement(pair).displacement, spur_leaks(pair, shaft_diameter=shaft))

    def spur_pair(self, rotors: sheet.Spur) -> tuple[SpurPair, float]:
        """The gears, and the diameter of their shafts [m].

        Raises
        ------
        OutOfDomainError
            If no gears have these sizes.
        """
        module, width = self._number(rotors, "module", 0.0), self._number(rotors, "width", 0.0)
        pitch = module * rotors.teeth
        pair = SpurPair(
            rotors.teeth,
            module,
            _angle(rotors.pressure_angle),
            width,
            self._number(rotors, "outside_diameter", pitch + 2.0 * module),
            self._number(rotors, "centre_distance", pitch),
        )
        return pair, self._number(rotors, "shaft_diameter", SHAFT_OVER_PITCH * pitch)

    @_rotors.register
    def _(self, rotors: sheet.Crescent, stage: sheet.PumpStage) -> Displacing:
        del stage
        module, width = self._number(rotors, "module", 0.0), self._number(rotors, "width", 0.0)
        inner, outer = module * rotors.inner_teeth, module * rotors.outer_teeth
        pair = CrescentPair(
            rotors.inner_teeth,
            rotors.outer_teeth,
            module,
            _angle(rotors.pressure_angle),
            width,
            self._number(rotors, "inner_tip_diameter", inner + 2.0 * module),
            self._number(rotors, "outer_tip_diameter", outer - 2.0 * module),
            self._number(rotors, "centre_distance", 0.5 * (outer - inner)),
        )
        leaks = crescent_leaks(
            pair,
            ring_diameter=self._number(rotors, "ring_diameter", RING_OVER_TIP * outer),
            hub_diameter=self._number(rotors, "hub_diameter", HUB_OVER_ROOT * (inner - 2.5 * module)),
        )
        return Displacing(crescent_displacement(pair).displacement, leaks)


def _angle(written: Written | None) -> float:
    return written.si if written is not None else USUAL_PRESSURE_ANGLE
