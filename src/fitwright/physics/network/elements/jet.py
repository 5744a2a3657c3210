"""A piston jet: an orifice behind a valve that opens at a pressure."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from fitwright.physics.network.elements import kinds
from fitwright.physics.network.elements.element import Element
from fitwright.physics.network.sizes import Size


@dataclass(frozen=True, slots=True)
class Jet(Element):
    """Jets with one opening pressure; `count` alike.

    Attributes
    ----------
    diameter : float or Named [m]
        Bore of one jet.
    opening_pressure : float or Named [Pa]
        Drop at which its valve begins to open; zero for a plain hole that is never shut.
    full_pressure : float or Named [Pa]
        Drop from which the valve is no hindrance; between the two the open share rises smoothly.
    discharge_coefficient : float or Named [1]
        Of the jet.
    count : float or Named [1]
        How many alike.
    """

    KIND: ClassVar[int] = kinds.JET
    SLOTS: ClassVar[tuple[str, ...]] = (
        "diameter",
        "opening_pressure",
        "full_pressure",
        "discharge_coefficient",
        "count",
    )
    POSITIVE: ClassVar[tuple[str, ...]] = ("diameter", "discharge_coefficient")
    NOT_NEGATIVE: ClassVar[tuple[str, ...]] = ("opening_pressure", "full_pressure", "count")
    ORDERED: ClassVar[tuple[tuple[str, str], ...]] = (("opening_pressure", "full_pressure"),)

    diameter: Size
    opening_pressure: Size
    full_pressure: Size
    discharge_coefficient: Size = 0.8
    count: Size = 1.0
