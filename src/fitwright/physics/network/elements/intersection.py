"""Where one drilling breaks into another: the turn costs dynamic pressure, the more the sharper its edge."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import ClassVar

from fitwright.physics.network.elements import kinds
from fitwright.physics.network.elements.element import Element
from fitwright.physics.network.elements.orifice import Orifice
from fitwright.physics.network.sizes import Size


@dataclass(frozen=True, slots=True)
class DrilledIntersection(Element):
    """A turn between two drillings without any length.

    Attributes
    ----------
    diameter : float or Named [m]
        Bore of the smaller drilling.
    loss_coefficient : float [1]
        Drop in dynamic pressures of that bore (`passages.edges` has those of mitre bends); above zero.
    count : float or Named [1]
        How many alike lie side by side.
    """

    KIND: ClassVar[int] = kinds.ORIFICE
    POSITIVE: ClassVar[tuple[str, ...]] = ("diameter", "loss_coefficient")
    NOT_NEGATIVE: ClassVar[tuple[str, ...]] = ("count",)

    diameter: Size
    loss_coefficient: float = 1.2
    count: Size = 1.0

    def parts(self) -> tuple[Element, ...]:
        """The orifice with the same loss: its coefficient is one over the root of the loss."""
        return (Orifice(self.diameter, 1.0 / math.sqrt(self.loss_coefficient), self.count),)
