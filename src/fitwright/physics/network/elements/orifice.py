"""A short hole: an orifice in a thin wall, or a restrictor as long as it is drilled."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from fitwright.physics.network.elements import kinds
from fitwright.physics.network.elements.element import Element
from fitwright.physics.network.elements.pipe import Pipe
from fitwright.physics.network.sizes import Size


@dataclass(frozen=True, slots=True)
class Orifice(Element):
    """A sharp round orifice; flow with the root of the drop, creeping at very small drops.

    Attributes
    ----------
    diameter : float or Named [m]
        Bore.
    discharge_coefficient : float or Named [1]
        Flow over that of a jet as wide as the bore.
    count : float or Named [1]
        How many alike lie side by side.
    """

    KIND: ClassVar[int] = kinds.ORIFICE
    SLOTS: ClassVar[tuple[str, ...]] = ("diameter", "discharge_coefficient", "count")
    POSITIVE: ClassVar[tuple[str, ...]] = ("diameter", "discharge_coefficient")
    NOT_NEGATIVE: ClassVar[tuple[str, ...]] = ("count",)

    diameter: Size
    discharge_coefficient: Size = 0.62
    count: Size = 1.0


@dataclass(frozen=True, slots=True)
class Restrictor(Element):
    """A metering hole of some length: friction in it, and the dynamic pressure lost at its edges.

    Attributes
    ----------
    diameter, length : float or Named [m]
        Bore, and how long it is drilled.
    loss_coefficient : float or Named [1]
        Entry and exit; 1.5 with sharp edges on both sides.
    count : float or Named [1]
        How many alike lie side by side.
    """

    KIND: ClassVar[int] = kinds.PIPE
    POSITIVE: ClassVar[tuple[str, ...]] = ("diameter", "length")
    NOT_NEGATIVE: ClassVar[tuple[str, ...]] = ("loss_coefficient", "count")

    diameter: Size
    length: Size
    loss_coefficient: Size = 1.5
    count: Size = 1.0

    def parts(self) -> tuple[Element, ...]:
        """The pipe that it is."""
        return (Pipe(self.diameter, self.length, loss_coefficient=self.loss_coefficient, count=self.count),)
