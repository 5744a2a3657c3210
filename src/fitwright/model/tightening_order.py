"""Orders of tightening that follow from where the fasteners sit: outwards, and crosswise.

Both begin with the fastener that is listed first among those that may begin, and run clockwise.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from enum import StrEnum
from types import MappingProxyType
from typing import Final

from fitwright.model.bolt_pattern import Point

SAME_RING: Final = 0.05
"""Fasteners whose distances from the middle differ by less than this share of the largest are one ring."""


class TighteningOrder(StrEnum):
    """An order that the pattern gives."""

    FROM_THE_CENTRE = "from the centre outwards"
    CROSSWISE = "crosswise"


def from_the_centre_outwards(points: Sequence[Point]) -> tuple[int, ...]:
    """The order of a spiral: the ring nearest to the middle first, each ring clockwise in turn.

    Parameters
    ----------
    points : sequence of Point
        Where the fasteners sit [m], as they are listed.

    Returns
    -------
    tuple of int
        Their numbers in the list, in the order of tightening. Each ring begins with the fastener
        that follows next, clockwise, on the last one of the ring before.

    Examples
    --------
    >>> two_rows = [(-1.0, 0.5), (0.0, 0.5), (1.0, 0.5), (-1.0, -0.5), (0.0, -0.5), (1.0, -0.5)]
    >>> from_the_centre_outwards(two_rows)
    (1, 4, 3, 0, 2, 5)
    """
    middle = _middle(points)
    angles = [_clockwise(point, middle) for point in points]
    order: list[int] = []
    for ring in _rings(points, middle):
        start = angles[order[-1]] if order else angles[ring[0]]
        order += sorted(ring, key=lambda each, start=start: _past(angles[each], start))  # type: ignore[misc]
    return tuple(order)


def crosswise(points: Sequence[Point]) -> tuple[int, ...]:
    """The order of a star: always across to the far side, so that the joint closes evenly.

    Parameters
    ----------
    points : sequence of Point
        Where the fasteners sit [m], as they are listed.

    Returns
    -------
    tuple of int
        Their numbers in the list, in the order of tightening. An even number goes in opposite
        pairs, each as far as may be from those before; an odd number goes round by nearly half.
        What sits in the middle itself comes first.

    Examples
    --------
    >>> from fitwright.model.bolt_pattern import on_a_circle
    >>> crosswise(on_a_circle(6, 0.1)), crosswise(on_a_circle(5, 0.1))
    ((0, 3, 1, 4, 2, 5), (0, 2, 4, 1, 3))
    """
    middle = _middle(points)
    far = max((math.dist(point, middle) for point in points), default=0.0)
    inside = [each for each, point in enumerate(points) if math.dist(point, middle) <= SAME_RING * far]
    around = [each for each in range(len(points)) if each not in inside]
    if not around:
        return tuple(inside)
    start = _clockwise(points[around[0]], middle)
    around.sort(key=lambda each: _past(_clockwise(points[each], middle), start))
    return (*inside, *(around[place] for place in _star(len(around))))


ORDERS: Final[Mapping[TighteningOrder, Callable[[Sequence[Point]], tuple[int, ...]]]] = MappingProxyType(
    {TighteningOrder.FROM_THE_CENTRE: from_the_centre_outwards, TighteningOrder.CROSSWISE: crosswise}
)
"""How each order comes from the places of the fasteners."""


def _star(count: int) -> list[int]:
    """Places round a circle in the order of a star."""
    if count % 2:
        return [step * max(1, count // 2) % count for step in range(count)]
    order: list[int] = []
    while len(order) < count:
        left = [place for place in range(count // 2) if place not in order]
        place = max(left, key=lambda each: (_away(each, order, count), -each))
        order += [place, place + count // 2]
    return order


def _away(place: int, others: Sequence[int], count: int) -> int:
    """How many places lie between this one and the nearest other."""
    return min((min((place - each) % count, (each - place) % count) for each in others), default=count)


def _rings(points: Sequence[Point], middle: Point) -> list[list[int]]:
    """The numbers of the points by their distance from the middle, near ones first."""
    away = [math.dist(point, middle) for point in points]
    width = SAME_RING * max(away, default=0.0)
    rings: list[list[int]] = []
    for each in sorted(range(len(points)), key=lambda each: (away[each], each)):
        if rings and away[each] - away[rings[-1][0]] <= width:
            rings[-1].append(each)
        else:
            rings.append([each])
    return [sorted(ring) for ring in rings]


def _middle(points: Sequence[Point]) -> Point:
    count = max(1, len(points))
    return sum(x for x, _ in points) / count, sum(y for _, y in points) / count


def _clockwise(point: Point, middle: Point) -> float:
    """The angle from the top, clockwise [rad]."""
    return math.atan2(point[0] - middle[0], point[1] - middle[1])


def _past(angle: float, start: float) -> float:
    """How far clockwise past the start; what lies at the start itself comes first, not last."""
    past = (angle - start) % math.tau
    return 0.0 if math.tau - past < 1e-6 else round(past, 6)
