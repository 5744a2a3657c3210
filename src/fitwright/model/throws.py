"""Where each crankpin points: from the firing order where it says so, else as such cranks usually are.

A cylinder fires when its pin is at the top of its stroke. With evenly spaced firing the k-th cylinder
to fire is there k times 720 degrees over the number of cylinders after the first (360 for a
two-stroke), which says where its pin points. Turned by the crank angle, pins go to
`direction + crank_angle`, clockwise seen from the nose unless the sheet says otherwise.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isclose, pi, tau

from fitwright.model.engine import Layout
from fitwright.model.sheet import Sheet

_USUAL_ORDERS = {
    1: (1,),
    2: (1, 2),
    3: (1, 3, 2),
    4: (1, 3, 4, 2),
    5: (1, 2, 4, 5, 3),
    6: (1, 5, 3, 6, 2, 4),
    8: (1, 6, 2, 5, 8, 3, 7, 4),
}
_USUAL_VEE = {1: (0,), 2: (0, 180), 3: (0, 240, 120), 4: (0, 90, 270, 180)}
"""Directions of the pins of a vee, in degrees from the first, by the number of pins."""


@dataclass(frozen=True, slots=True)
class Throw:
    """One cylinder's place on the crank.

    `pin` counts pins from the nose, `bank` banks from the left (0 where there is one). `top_at` is
    the crank angle at which its piston is at the top of its firing stroke.
    """

    cylinder: int
    bank: int
    pin: int
    top_at: float


@dataclass(frozen=True, slots=True)
class Crank:
    """The throws of an engine, and a note where they are not derived from its firing order."""

    throws: tuple[Throw, ...]
    pins: int
    cycle: float
    sense: int
    axes: tuple[float, ...]
    note: str | None

    def pin_direction(self, throw: Throw, crank_angle: float) -> float:
        """Where a pin points, clockwise from the top, at a crank angle counted in its own sense."""
        return self.axes[throw.bank] + self.sense * (crank_angle - throw.top_at)

    def after_top(self, throw: Throw, crank_angle: float) -> float:
        """How far a cylinder is past the top of its firing stroke, within its working cycle."""
        return (crank_angle - throw.top_at) % self.cycle


def crank_of_sheet(sheet: Sheet) -> Crank:
    """The throws of the engine of a sheet."""
    layout = sheet.engine.layout
    bank_angle = pi if layout.arrangement == "flat" else pi / 2
    if layout.arrangement == "vee" and layout.bank_angle is not None:
        bank_angle = layout.bank_angle.si
    return crank_of(layout, shared_pins=_pins_are_shared(sheet), bank_angle=bank_angle)


def _pins_are_shared(sheet: Sheet) -> bool:
    """Whether two rods run on one pin: where the sheet measures pins by themselves, or as is usual."""
    if any(name.startswith("pin.") for name in sheet.dimensions):
        return True
    if any(name.startswith("rod.") and name.endswith(".pin_width") for name in sheet.dimensions):
        return False
    return sheet.engine.layout.arrangement == "vee"


def crank_of(layout: Layout, *, shared_pins: bool, bank_angle: float) -> Crank:
    """The throws of an engine; crank angle zero is cylinder 1 at the top of its firing stroke."""
    cycle = tau if layout.valve_train == "two-stroke" else 2 * tau
    sense = -1 if layout.rotation.startswith("anti") else 1
    axes: tuple[float, ...] = (0.0,)
    if layout.arrangement in {"vee", "flat"} and layout.cylinders % 2 == 0:
        axes = (-bank_angle / 2, bank_angle / 2)
    pins = layout.cylinders // 2 if len(axes) > 1 and shared_pins else layout.cylinders
    order = _order(layout)
    if order is not None:
        for seats in _seatings(layout.cylinders, axes, shared=shared_pins):
            throws = _from_order(order, seats, cycle)
            found = Crank(throws, pins, cycle, sense, axes, None)
            if _agrees(found):
                return found
    throws = _usual(layout.cylinders, axes, pins, cycle, sense)
    reason = "firing order not stated" if order is None else "firing order fits no evenly firing crank"
    note = None if layout.cylinders == 1 else f"Crankpins as such cranks usually are: {reason}."
    return Crank(throws, pins, cycle, sense, axes, note)


def _order(layout: Layout) -> tuple[int, ...] | None:
    words = (layout.firing_order or "").split("-")
    if sorted(words) != sorted(str(number + 1) for number in range(layout.cylinders)):
        return None
    return tuple(int(word) for word in words)


def _seatings(cylinders: int, axes: tuple[float, ...], *, shared: bool) -> list[dict[int, tuple[int, int]]]:
    """Bank and pin of each cylinder, in the ways in which cylinders are numbered."""
    if len(axes) == 1:
        return [{number: (0, number - 1) for number in range(1, cylinders + 1)}]
    found = []
    for first in (1, 0):
        for by_bank in (False, True):
            seats = {}
            for number in range(cylinders):
                place = number % (cylinders // 2) if by_bank else number // 2
                bank = (number >= cylinders // 2) if by_bank else number % 2
                side = first if not bank else 1 - first
                pin = place if shared else 2 * place + (0 if side == 1 else 1)
                seats[number + 1] = (side, pin)
            found.append(seats)
    return found


def _from_order(order: tuple[int, ...], seats: dict[int, tuple[int, int]], cycle: float) -> tuple[Throw, ...]:
    shift = order.index(1)
    return tuple(
        Throw(number, *seats[number], ((order.index(number) - shift) % len(order)) * cycle / len(order))
        for number in sorted(seats)
    )


def _agrees(crank: Crank) -> bool:
    """Whether cylinders that share a pin want it in the same direction."""
    wanted: dict[int, float] = {}
    for throw in crank.throws:
        direction = crank.pin_direction(throw, 0.0)
        first = wanted.setdefault(throw.pin, direction)
        apart = (direction - first + pi) % tau - pi
        if not isclose(apart, 0.0, abs_tol=0.02):
            return False
    return True


def _usual(cylinders: int, axes: tuple[float, ...], pins: int, cycle: float, sense: int) -> tuple[Throw, ...]:
    if len(axes) == 1:
        order = _USUAL_ORDERS.get(cylinders) or tuple(range(1, cylinders + 1))
        return _from_order(order, {number: (0, number - 1) for number in range(1, cylinders + 1)}, cycle)
    throws = []
    pairs = cylinders // 2
    degrees = _directions(pairs)
    for number in range(cylinders):
        place, side = number // 2, 1 - number % 2
        direction = axes[1] + sense * degrees[place] * pi / 180
        if pins > pairs and side == 0 and isclose(axes[1], pi / 2):
            direction += pi  # opposed pistons move together
        pin = place if pins == pairs else number
        top_at = (sense * (axes[side] - direction)) % tau
        throws.append(Throw(number + 1, side, pin, top_at + (tau if number % 4 > 1 and cycle > tau else 0.0)))
    return tuple(throws)


def _directions(pins: int) -> tuple[float, ...]:
    if pins in _USUAL_VEE:
        return _USUAL_VEE[pins]
    order = _USUAL_ORDERS.get(pins) or tuple(range(1, pins + 1))
    return tuple(-720.0 / pins * order.index(number + 1) for number in range(pins))
