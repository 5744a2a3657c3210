"""Which label stands where: each near its place, and no leader over another.

Straight lines that join two sets of points with the least total length never cross, so labels are
exchanged between slots for as long as that makes the leaders shorter.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from math import hypot

from fitwright.drawing.engine_section.outline import Point

_SHARED = 40.0
"""Two leaders to one point are worth this detour [page units]."""
_ROUNDS = 60


@dataclass(frozen=True, slots=True)
class Slot:
    """Room for a label: its corner, the way its leader takes to `port`, and on from there.

    A label that is less tall than the slot's `height` is let down by the share `rise` of the rest.
    """

    x: float
    y: float
    start: Point
    port: Point
    row: int = 0
    rise: float = 0.0
    height: float = 0.0

    def corner(self, height: float) -> float:
        """Upper edge of a label of some height in this slot."""
        return self.y + self.rise * (self.height - height)


def assigned(points: Sequence[Sequence[Point]], slots: Sequence[Slot]) -> tuple[list[int], list[Point]]:
    """For each label (its possible points) the index of its slot, and the point that it leads to."""
    taken = list(range(len(slots)))
    order = sorted(range(len(points)), key=lambda index: (points[index][0], index))
    by_place = sorted(taken, key=lambda index: slots[index].port)
    seats: list[int | None] = [None] * len(slots)
    step = len(slots) / max(len(points), 1)
    for rank, label in enumerate(order):
        seats[by_place[int(rank * step)]] = label
    _exchange(seats, points, slots)
    where = {label: slot for slot, label in enumerate(seats) if label is not None}
    chosen = _ends(where, points, slots)
    _uncross(where, chosen, slots)
    return [where[label] for label in range(len(points))], [chosen[label] for label in range(len(points))]


def _exchange(seats: list[int | None], points: Sequence[Sequence[Point]], slots: Sequence[Slot]) -> None:
    table = [[min(_apart(slot.port, point) for point in choice) for slot in slots] for choice in points]

    def cost(label: int | None, slot: int) -> float:
        return 0.0 if label is None else table[label][slot]

    for _ in range(_ROUNDS):
        better = False
        for a, b in combinations(range(len(seats)), 2):
            now = cost(seats[a], a) + cost(seats[b], b)
            if cost(seats[b], a) + cost(seats[a], b) < now - 1e-9:
                seats[a], seats[b] = seats[b], seats[a]
                better = True
        if not better:
            return


def _ends(
    where: dict[int, int], points: Sequence[Sequence[Point]], slots: Sequence[Slot]
) -> dict[int, Point]:
    """The nearest of a label's points, another one where that is taken."""
    chosen: dict[int, Point] = {}
    for label in sorted(where, key=lambda label: len(points[label])):
        port, taken = slots[where[label]].port, list(chosen.values())

        def cost(point: Point, port: Point = port, taken: list[Point] = taken) -> float:
            near = sum(_SHARED for other in taken if _apart(point, other) < 9.0)
            return _apart(port, point) + near

        chosen[label] = min(points[label], key=cost)
    return chosen


def _uncross(where: dict[int, int], chosen: dict[int, Point], slots: Sequence[Slot]) -> None:
    for _ in range(_ROUNDS):
        crossing = next(
            (
                (a, b)
                for a, b in combinations(sorted(where), 2)
                if cross(slots[where[a]].port, chosen[a], slots[where[b]].port, chosen[b])
            ),
            None,
        )
        if crossing is None:
            return
        a, b = crossing
        where[a], where[b] = where[b], where[a]


def cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether the line from a to b crosses that from c to d."""

    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0


def _apart(first: Point, second: Point) -> float:
    return hypot(first[0] - second[0], first[1] - second[1])
