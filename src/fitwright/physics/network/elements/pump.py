"""The pump: what its chambers carry, less what its gaps let back."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from fitwright.physics.network.elements import kinds
from fitwright.physics.network.elements.element import Element
from fitwright.physics.network.sizes import Size
from fitwright.physics.pump.leakage import LeakagePath


@dataclass(frozen=True, slots=True)
class PumpLeak:
    """One leak of the pump, from outlet to inlet, and the clearance that it goes through.

    Attributes
    ----------
    path : LeakagePath
        Its coefficients.
    clearance : float or Named [m]
        Of the gap.
    """

    path: LeakagePath
    clearance: Size


@dataclass(frozen=True, slots=True)
class Pump(Element):
    """A positive displacement pump; the path leads from its inlet to its outlet.

    Attributes
    ----------
    displacement_per_radian : float or Named [m3/rad]
        Of the pump's own shaft.
    leaks : tuple of PumpLeak
        Gaps back to the inlet.
    speed_ratio : float or Named [1]
        Speed of the pump over that of the crank.
    release_gauge_pressure : float or Named [Pa]
        Pressure at which the oil gives off its air or boils, so that chambers no longer fill.
    filling_area : float or Named [m2]
        Effective area through which the chambers fill.
    centrifugal_area : float or Named [m2]
        Half the difference of squared radii against which oil is drawn in.
    """

    KIND: ClassVar[int] = kinds.PUMP
    POSITIVE: ClassVar[tuple[str, ...]] = ("displacement_per_radian", "speed_ratio", "filling_area")

    displacement_per_radian: Size
    leaks: tuple[PumpLeak, ...] = ()
    speed_ratio: Size = 1.0
    release_gauge_pressure: Size = -0.4e5
    filling_area: Size = 1.0e-4
    centrifugal_area: Size = 0.0

    def slots(self) -> tuple[Size, ...]:
        """Sizes as the kernel reads them: the leaks behind their number."""
        return (
            self.displacement_per_radian,
            self.speed_ratio,
            self.release_gauge_pressure,
            self.filling_area,
            self.centrifugal_area,
            float(len(self.leaks)),
            *(leak.path.pressure_coefficient for leak in self.leaks),
            *(leak.path.drag_coefficient for leak in self.leaks),
            *(leak.clearance for leak in self.leaks),
        )
