"""The relief valve: shut but for its leaks up to the cracking pressure, then open by its lift."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from fitwright.physics.network.elements import kinds
from fitwright.physics.network.elements.element import Element
from fitwright.physics.network.sizes import Size
from fitwright.physics.pump.relief import ReliefValve, relief_parameters


@dataclass(frozen=True, slots=True)
class Relief(Element):
    """A relief valve; its path leads to the pump's inlet or to the sump.

    Attributes
    ----------
    valve : ReliefValve
        Its sizes; those below take their place where they are given.
    preload_length : float or Named [m], or None
        How far the spring is compressed while the valve is shut; shims add to it.
    plunger_radial_clearance : float or Named [m], or None
        Of the plunger in its bore.
    seat_leak_lift : float or Named [m], or None
        How far something holds the seat open; zero is a good seat.
    spring_rate : float or Named [N/m], or None
        Of the spring.
    """

    KIND: ClassVar[int] = kinds.RELIEF_VALVE
    NOT_NEGATIVE: ClassVar[tuple[str, ...]] = (
        "preload_length",
        "plunger_radial_clearance",
        "seat_leak_lift",
    )

    valve: ReliefValve
    preload_length: Size | None = None
    plunger_radial_clearance: Size | None = None
    seat_leak_lift: Size | None = None
    spring_rate: Size | None = None

    def __post_init__(self) -> None:
        """Take from the valve what is not given."""
        for name in (*self.NOT_NEGATIVE, "spring_rate"):
            if getattr(self, name) is None:
                object.__setattr__(self, name, getattr(self.valve, name))

    def slots(self) -> tuple[Size, ...]:
        """Sizes as the kernel reads them; the spring rate is the first of the valve's own."""
        own = (self.preload_length, self.plunger_radial_clearance, self.seat_leak_lift, self.spring_rate)
        given = tuple(size for size in own if size is not None)
        return (*given, *(float(each) for each in relief_parameters(self.valve)[1:]))
