"""A pipe or drilling: friction along its length, losses at edges and bends."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from fitwright.physics.network.elements import kinds
from fitwright.physics.network.elements.element import Element
from fitwright.physics.network.sizes import Size


@dataclass(frozen=True, slots=True)
class Pipe(Element):
    """A pipe, drilling or piece of gallery; `count` alike side by side.

    Attributes
    ----------
    diameter, length : float or Named [m]
        Bore, and length along the flow.
    roughness : float or Named [m]
        Height of roughness; zero is smooth.
    loss_coefficient : float or Named [1]
        Drop in dynamic pressures of this bore at edges, bends and the end, all together
        (`edges.drilling_loss_coefficient` adds them up).
    count : float or Named [1]
        How many alike lie side by side.
    """

    KIND: ClassVar[int] = kinds.PIPE
    SLOTS: ClassVar[tuple[str, ...]] = ("diameter", "length", "roughness", "loss_coefficient", "count")
    POSITIVE: ClassVar[tuple[str, ...]] = ("diameter", "length")
    NOT_NEGATIVE: ClassVar[tuple[str, ...]] = ("roughness", "loss_coefficient", "count")

    diameter: Size
    length: Size
    roughness: Size = 0.0
    loss_coefficient: Size = 0.0
    count: Size = 1.0
