"""What would be otherwise: changes to the build as measured, for which the oil system is predicted again."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class WhatIf:
    """Changes against the build as measured; the default changes nothing.

    Attributes
    ----------
    oil : str
        Id of another oil; empty for the one that the build is filled with.
    fuel_share : float [1]
        Share of fuel in the oil, by mass.
    temperature_change : float [K]
        Added to every oil temperature.
    clearance_changes : mapping of str to float [m]
        By group of paths ("mains"): added to each of its clearances, as the circuit states them:
        bearings, followers, plungers and bodies on the diameter, tips as a gap, ends as both faces together.
    sizes : mapping of str to float [SI]
        Parameters of the circuit that take another value (`paths.jets.diameter`).
    shim : float [m]
        Added to the preload of the relief springs.
    seat_leak_lift : float [m]
        By how much more a relief valve's seat stands open.
    pump_speed_factor : float [1]
        Factor on the speed ratio of the pressure stages.
    misalignment : float [m]
        How far each journal is tilted against its bearing from end to end; the film at an end is thinner
        by half of it, by geometry alone.
    """

    oil: str = ""
    fuel_share: float = 0.0
    temperature_change: float = 0.0
    clearance_changes: Mapping[str, float] = field(default_factory=dict)
    sizes: Mapping[str, float] = field(default_factory=dict)
    shim: float = 0.0
    seat_leak_lift: float = 0.0
    pump_speed_factor: float = 1.0
    misalignment: float = 0.0

    @property
    def changes_nothing(self) -> bool:
        """Whether it is the build as measured."""
        return self == WhatIf()
