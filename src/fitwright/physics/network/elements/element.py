"""What all elements of the circuit have in common."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from fitwright.physics.bearings.curves import SteadyCurves
from fitwright.physics.network.sizes import Size


@dataclass(frozen=True, slots=True)
class Element:
    """Something that oil flows through; its sizes in the order in which the kernel reads them.

    A pressure drop drives the flow from the path's upstream node to its downstream node; it may have
    either sign. Sizes are numbers or follow a parameter (`Named`).
    """

    KIND: ClassVar[int] = -1
    SLOTS: ClassVar[tuple[str, ...]] = ()
    POSITIVE: ClassVar[tuple[str, ...]] = ()  # what must be above zero
    NOT_NEGATIVE: ClassVar[tuple[str, ...]] = ()
    ORDERED: ClassVar[tuple[tuple[str, str], ...]] = ()  # pairs of which the second must be larger

    def slots(self) -> tuple[Size, ...]:
        """Sizes as the kernel reads them."""
        return tuple(getattr(self, name) for name in self.SLOTS)

    def parts(self) -> tuple[Element, ...]:
        """Elements in series that this one is compiled to; itself if it is one piece."""
        return (self,)

    def checked(self) -> Iterator[tuple[str, Size, bool]]:
        """Each size that has a domain: its name, the size, and whether zero is allowed."""
        for name in self.POSITIVE:
            yield name, getattr(self, name), False
        for name in self.NOT_NEGATIVE:
            yield name, getattr(self, name), True

    def curves(self) -> Iterator[SteadyCurves]:
        """Curves that the kernel looks up, at most one set."""
        yield from ()

    def ordered(self) -> tuple[tuple[str, str], ...]:
        """Pairs of sizes of which the second must be the larger."""
        return self.ORDERED
