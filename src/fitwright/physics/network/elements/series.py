"""Elements one behind the other in one path."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from fitwright.physics.network.elements.element import Element


@dataclass(frozen=True, slots=True)
class Series(Element):
    """Elements in series; nodes between them are made when the circuit is compiled.

    Attributes
    ----------
    elements : tuple of Element
        In the direction of the path.
    """

    POSITIVE: ClassVar[tuple[str, ...]] = ()

    elements: tuple[Element, ...]

    def parts(self) -> tuple[Element, ...]:
        """All parts of all its elements."""
        return tuple(part for element in self.elements for part in element.parts())
