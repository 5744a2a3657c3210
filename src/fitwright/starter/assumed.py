"""Sizes that a starter sheet assumes of an oil circuit: a usual two-litre four, scaled to the engine."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from fitwright.quantity import CubicMetre, Metre, RadianPerSecond
from fitwright.starter import amounts
from fitwright.starter.plan import Plan

_USUAL_BORE: Final = 0.084
"""Bore of the engine that the sizes were taken from [m]."""
_PISTON_SPEEDS: Final = {"historic": 14.0, "marine": 12.0, "agricultural": 11.0, "stationary": 10.0}
_PUMPED_SHARE: Final = 0.0045
"""Oil pumped for one turn of the crank, as a share of the swept volume."""
_ROTOR_UNIT: Final = 5.60e-6
"""Displacement of the rotors of `rotor_sizes` at a scale of one [m3]."""
_SPUR_TEETH: Final = 10
_SPUR_WIDTH: Final = 8.0
"""Width of the gears in modules."""
_ROTORS: Final = {
    "width": 15.0,
    "eccentricity": 2.5,
    "generating_radius": 18.5,
    "tooth_radius": 6.0,
    "outer_rotor_diameter": 42.0,
}
"""Sizes of four lobes in five at a scale of one [mm]."""


@dataclass(frozen=True, slots=True)
class Assumed:
    """What is assumed of an engine, written in its unit."""

    plan: Plan

    def mm(self, usual: float) -> str:
        """A size of the usual engine [mm], scaled with the bore."""
        return self.length(usual * 1e-3 * self.plan.bore / _USUAL_BORE)

    def length(self, value: Metre) -> str:
        """A size, rounded as an assumption is."""
        return amounts.rough(value, self.plan.units)

    @property
    def displacement(self) -> CubicMetre:
        """Oil pumped for one turn of the crank [m3]."""
        plan = self.plan
        swept = math.pi / 4.0 * plan.bore**2 * plan.stroke * plan.cylinders
        return _PUMPED_SHARE * swept

    def rotor_sizes(self, displacement: CubicMetre) -> dict[str, str]:
        """Sizes of internal rotors that displace so much in one turn."""
        scale = (displacement / _ROTOR_UNIT) ** (1.0 / 3.0)
        return {name: amounts.size(usual * 1e-3 * scale, self.plan.units) for name, usual in _ROTORS.items()}

    def spur_sizes(self, displacement: CubicMetre) -> dict[str, str | float]:
        """Sizes of two gears that displace so much in one turn."""
        module = (displacement / (2.0 * math.pi * _SPUR_TEETH * _SPUR_WIDTH)) ** (1.0 / 3.0)
        write = self.plan.units
        return {
            "teeth": _SPUR_TEETH,
            "module": amounts.size(module, write),
            "pressure_angle": "20 deg",
            "width": amounts.size(_SPUR_WIDTH * module, write),
            "outside_diameter": amounts.size((_SPUR_TEETH + 2) * module, write),
        }

    @property
    def top_speed(self) -> RadianPerSecond:
        """Speed of the crank at the piston speed of the duty, in whole hundreds of revolutions a minute."""
        plan = self.plan
        piston_speed = 22.0 if plan.competition else _PISTON_SPEEDS.get(plan.duty, 16.0)
        return max(100, round(30.0 * piston_speed / plan.stroke / 100.0) * 100) * math.pi / 30.0

    @property
    def idle_speed(self) -> RadianPerSecond:
        """Idle: as the duty has it, and never near the top."""
        usual = 1100 if self.plan.competition else 600 if self.plan.duty in _PISTON_SPEEDS else 850
        return min(usual * math.pi / 30.0, self.top_speed / 4.0)

    @property
    def grade(self) -> str:
        """A grade of oil that such an engine often has."""
        if self.plan.duty == "historic":
            return "30"
        if self.plan.air_cooled:
            return "20W-50"
        return "10W-60" if self.plan.competition else "10W-40"

    @property
    def opening_pressure(self) -> float:
        """At which the relief valve begins to open [Pa]."""
        return 3.0e5 if self.plan.duty == "historic" else 5.0e5 if self.plan.competition else 4.5e5


def rpm(speed: RadianPerSecond) -> str:
    """A speed as one says it.

    Examples
    --------
    >>> rpm(94.24777960769379)
    '900 rpm'
    """
    return f"{round(speed * 30.0 / math.pi)} rpm"
