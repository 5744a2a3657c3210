"""A turbocharger's feed: line, restrictor and what its bearings take, one behind the other."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from fitwright.physics.network.elements.element import Element
from fitwright.physics.network.elements.orifice import Orifice
from fitwright.physics.network.elements.pipe import Pipe
from fitwright.physics.network.elements.resistance import LaminarResistance
from fitwright.physics.network.sizes import Size


@dataclass(frozen=True, slots=True)
class TurbochargerFeed(Element):
    """Line, restrictor, and the turbocharger's bearings as a laminar resistance to a free drain.

    Heating of the oil in the turbocharger is left out: with a restrictor it is the hole that meters.

    Attributes
    ----------
    line_diameter, line_length : float or Named [m]
        Of the feed line.
    restrictor_diameter : float or Named [m], or None
        Of the sharp restrictor; None where there is none.
    bearing_resistance : float or Named [1/m3], or None
        Drop over viscosity and flow of its bearings; None where nothing is known of them.
    line_loss_coefficient : float or Named [1]
        Of unions and bends, in dynamic pressures in the line.
    restrictor_discharge_coefficient : float or Named [1]
        Of the restrictor.
    count : float [1]
        How many alike lie side by side, each with a line of its own.
    """

    POSITIVE: ClassVar[tuple[str, ...]] = (
        "line_diameter",
        "line_length",
        "restrictor_discharge_coefficient",
    )
    NOT_NEGATIVE: ClassVar[tuple[str, ...]] = ("line_loss_coefficient", "count")

    line_diameter: Size
    line_length: Size
    restrictor_diameter: Size | None = None
    bearing_resistance: Size | None = None
    line_loss_coefficient: Size = 2.0
    restrictor_discharge_coefficient: Size = 0.62
    count: float = 1.0

    def parts(self) -> tuple[Element, ...]:
        """Line, restrictor and bearings, as far as there are any."""
        return tuple(self._parts())

    def _parts(self) -> Iterator[Element]:
        yield Pipe(
            self.line_diameter,
            self.line_length,
            loss_coefficient=self.line_loss_coefficient,
            count=self.count,
        )
        if self.restrictor_diameter is not None:
            yield Orifice(self.restrictor_diameter, self.restrictor_discharge_coefficient, self.count)
        if self.bearing_resistance is not None:
            yield LaminarResistance(self.bearing_resistance, self.count)
