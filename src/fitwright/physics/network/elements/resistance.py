"""A plain laminar resistance: what is only known by its drop at one flow and viscosity."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from fitwright.physics.network.elements import kinds
from fitwright.physics.network.elements.element import Element
from fitwright.physics.network.sizes import Size


@dataclass(frozen=True, slots=True)
class LaminarResistance(Element):
    """Flow in proportion to the drop over the viscosity.

    Attributes
    ----------
    resistance : float or Named [1/m3]
        Drop over viscosity and flow: a rated drop over rated viscosity and flow.
    count : float or Named [1]
        How many alike side by side.
    """

    KIND: ClassVar[int] = kinds.LAMINAR_RESISTANCE
    SLOTS: ClassVar[tuple[str, ...]] = ("resistance", "count")
    POSITIVE: ClassVar[tuple[str, ...]] = ("resistance",)
    NOT_NEGATIVE: ClassVar[tuple[str, ...]] = ("count",)

    resistance: Size
    count: Size = 1.0
