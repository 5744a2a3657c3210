"""A hydraulic chain tensioner: what leaks along its plunger, and what its vent lets out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from fitwright.physics.network.elements import kinds
from fitwright.physics.network.elements.element import Element
from fitwright.physics.network.sizes import Size


@dataclass(frozen=True, slots=True)
class ChainTensioner(Element):
    """A plunger held out by oil pressure; in steady running only its leaks take oil.

    Attributes
    ----------
    plunger_diameter : float or Named [m]
        Diameter of the plunger.
    radial_clearance : float or Named [m]
        Between plunger and bore, on the radius.
    land_length : float or Named [m]
        Length of the plunger in its bore.
    eccentricity_ratio : float or Named [1]
        1 where the chain pushes the plunger against its bore.
    vent_diameter : float or Named [m]
        Bleed hole or chain jet; zero where there is none.
    vent_discharge_coefficient : float or Named [1]
        Of that hole.
    """

    KIND: ClassVar[int] = kinds.CHAIN_TENSIONER
    SLOTS: ClassVar[tuple[str, ...]] = (
        "plunger_diameter",
        "radial_clearance",
        "land_length",
        "eccentricity_ratio",
        "vent_diameter",
        "vent_discharge_coefficient",
    )
    POSITIVE: ClassVar[tuple[str, ...]] = ("plunger_diameter", "land_length", "vent_discharge_coefficient")
    NOT_NEGATIVE: ClassVar[tuple[str, ...]] = ("radial_clearance", "eccentricity_ratio", "vent_diameter")

    plunger_diameter: Size
    radial_clearance: Size
    land_length: Size
    eccentricity_ratio: Size = 1.0
    vent_diameter: Size = 0.0
    vent_discharge_coefficient: Size = 0.8
