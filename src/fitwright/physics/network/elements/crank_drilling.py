"""The drilling from a main to a big end: it turns with the crank, so the oil in it is thrown outwards."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from fitwright.physics.network.elements import kinds
from fitwright.physics.network.elements.element import Element
from fitwright.physics.network.sizes import Size


@dataclass(frozen=True, slots=True)
class CrankDrilling(Element):
    """A drilling from the surface of a main journal to the surface of a crankpin.

    Pressure changes along it by half density times speed squared times the difference of the squared
    radii. Where the drilling passes nearer to the crank's axis than it begins, oil has to be pushed in
    first: the way is told by the radii of its stations, from which `outputs.big_end_feeds` finds the
    lowest pressure on it.

    Attributes
    ----------
    diameter, length : float or Named [m]
        Bore, and length along the flow.
    station_radii : tuple of float [m]
        Distance from the crank's axis, where it begins, at its corners, and where it ends; between two
        stations it changes evenly along equal parts of the length.
    roughness : float or Named [m]
        Height of roughness.
    entry_loss_coefficient : float or Named [1]
        Drop at the entry, in dynamic pressures of the bore; 0.5 with a sharp edge.
    loss_coefficient : float or Named [1]
        Drop at corners and at the end, in dynamic pressures of the bore.
    fed_share : float or Named [1]
        Share of a turn for which the entry lies over a groove that is fed: 1 for a full groove, or for
        a drilling through the journal that has one of its two ends over a half groove.
    count : float or Named [1]
        How many alike side by side.
    speed_ratio : float or Named [1]
        Its speed over that of the crank.
    """

    KIND: ClassVar[int] = kinds.CRANK_DRILLING
    POSITIVE: ClassVar[tuple[str, ...]] = ("diameter", "length", "fed_share")
    NOT_NEGATIVE: ClassVar[tuple[str, ...]] = (
        "roughness",
        "entry_loss_coefficient",
        "loss_coefficient",
        "count",
    )

    diameter: Size
    length: Size
    station_radii: tuple[float, ...]
    roughness: Size = 0.0
    entry_loss_coefficient: Size = 0.5
    loss_coefficient: Size = 1.0
    fed_share: Size = 1.0
    count: Size = 1.0
    speed_ratio: Size = 1.0

    def slots(self) -> tuple[Size, ...]:
        """Sizes as the kernel reads them; only the first and last radius matter to the flow."""
        return (
            self.diameter,
            self.length,
            self.roughness,
            self.entry_loss_coefficient,
            self.loss_coefficient,
            self.fed_share,
            self.count,
            self.speed_ratio,
            self.station_radii[0],
            self.station_radii[-1],
        )
