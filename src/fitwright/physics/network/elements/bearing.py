"""A journal bearing: what its feed pushes through and its journal draws, with the film as warm as it gets."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from fitwright.physics.bearings.curves import SteadyCurves
from fitwright.physics.bearings.fed_bearing import FedBearing, bearing_parameters
from fitwright.physics.network.elements import kinds
from fitwright.physics.network.elements.element import Element
from fitwright.physics.network.sizes import Size


@dataclass(frozen=True, slots=True, eq=False)
class Bearing(Element):
    """A main, big-end or cam bearing under a steady load; the path leads from its feed to the sump.

    Attributes
    ----------
    bearing : FedBearing
        Its geometry and feed.
    steady_curves : SteadyCurves
        At the length ratio of its film.
    radial_clearance : float or Named [m]
        Half of the diametral clearance.
    load : float or Named [N]
        At every speed.
    load_growth : float or Named [N s2]
        What the load grows by with the square of the crank's angular speed.
    speed_ratio : float or Named [1]
        Speed of the journal in its bearing over that of the crank.
    count : float or Named [1]
        How many alike.
    """

    KIND: ClassVar[int] = kinds.BEARING
    POSITIVE: ClassVar[tuple[str, ...]] = ("radial_clearance",)
    NOT_NEGATIVE: ClassVar[tuple[str, ...]] = ("load", "load_growth", "speed_ratio", "count")

    bearing: FedBearing
    steady_curves: SteadyCurves
    radial_clearance: Size
    load: Size
    load_growth: Size = 0.0
    speed_ratio: Size = 1.0
    count: Size = 1.0

    def slots(self) -> tuple[Size, ...]:
        """Sizes as the kernel reads them."""
        return (
            self.radial_clearance,
            self.load,
            self.load_growth,
            self.speed_ratio,
            self.count,
            *(float(each) for each in bearing_parameters(self.bearing)),
        )

    def curves(self) -> Iterator[SteadyCurves]:
        """The curves that the kernel looks up."""
        yield self.steady_curves
