"""A filter: laminar flow through its medium, and a bypass valve beside it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from fitwright.physics.network.elements import kinds
from fitwright.physics.network.elements.element import Element
from fitwright.physics.network.sizes import Size


@dataclass(frozen=True, slots=True)
class Filter(Element):
    """A filter whose drop rises with flow times viscosity, until its bypass opens.

    Attributes
    ----------
    resistance : float or Named [1/m3]
        Drop over viscosity and flow; a dirty element has more.
    bypass_opening_pressure : float or Named [Pa]
        Drop at which the bypass begins to open.
    bypass_full_pressure : float or Named [Pa]
        Drop at which it is fully open.
    bypass_diameter : float or Named [m]
        Of the round hole with the area of the open bypass; zero means that there is none.
    bypass_discharge_coefficient : float or Named [1]
        Of the open bypass.
    """

    KIND: ClassVar[int] = kinds.FILTER
    SLOTS: ClassVar[tuple[str, ...]] = (
        "resistance",
        "bypass_opening_pressure",
        "bypass_full_pressure",
        "bypass_diameter",
        "bypass_discharge_coefficient",
    )
    POSITIVE: ClassVar[tuple[str, ...]] = ("resistance", "bypass_discharge_coefficient")
    NOT_NEGATIVE: ClassVar[tuple[str, ...]] = (
        "bypass_opening_pressure",
        "bypass_full_pressure",
        "bypass_diameter",
    )
    ORDERED: ClassVar[tuple[tuple[str, str], ...]] = (("bypass_opening_pressure", "bypass_full_pressure"),)

    resistance: Size
    bypass_opening_pressure: Size = 1.0e5
    bypass_full_pressure: Size = 2.0e5
    bypass_diameter: Size = 0.0
    bypass_discharge_coefficient: Size = 0.62
