"""Leaks through narrow gaps: along a shaft or follower in its bore, or through a flat slot."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from fitwright.physics.network.elements import kinds
from fitwright.physics.network.elements.element import Element
from fitwright.physics.network.sizes import Size


@dataclass(frozen=True, slots=True)
class AnnularLeak(Element):
    """Laminar flow along a round part in its bore: a lightly loaded cam bearing, a follower.

    Attributes
    ----------
    diameter : float or Named [m]
        Of the part.
    radial_clearance : float or Named [m]
        On the radius, centred.
    length : float or Named [m]
        Of the land, from where the oil comes to where it leaves. A bearing fed by a groove in its
        middle is two such leaks, each over one land.
    eccentricity_ratio : float or Named [1]
        0 centred, 1 lying against the bore.
    count : float or Named [1]
        How many alike side by side.
    """

    KIND: ClassVar[int] = kinds.ANNULAR_LEAK
    SLOTS: ClassVar[tuple[str, ...]] = (
        "diameter",
        "radial_clearance",
        "length",
        "eccentricity_ratio",
        "count",
    )
    POSITIVE: ClassVar[tuple[str, ...]] = ("diameter", "length")
    NOT_NEGATIVE: ClassVar[tuple[str, ...]] = ("radial_clearance", "eccentricity_ratio", "count")

    diameter: Size
    radial_clearance: Size
    length: Size
    eccentricity_ratio: Size = 0.0
    count: Size = 1.0


@dataclass(frozen=True, slots=True)
class SlotLeak(Element):
    """Laminar flow through a flat slot.

    Attributes
    ----------
    gap, width, length : float or Named [m]
        Distance of the walls, extent across the flow, and along it.
    count : float or Named [1]
        How many alike side by side.
    """

    KIND: ClassVar[int] = kinds.SLOT_LEAK
    SLOTS: ClassVar[tuple[str, ...]] = ("gap", "width", "length", "count")
    POSITIVE: ClassVar[tuple[str, ...]] = ("width", "length")
    NOT_NEGATIVE: ClassVar[tuple[str, ...]] = ("gap", "count")

    gap: Size
    width: Size
    length: Size
    count: Size = 1.0
