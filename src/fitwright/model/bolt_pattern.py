"""Where the fasteners of a group sit: on a circle or in rows, seen at the heads, the middle at zero."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import accumulate
from typing import Final, TypeAlias

Point: TypeAlias = tuple[float, float]
"""x to the right and y upwards [m]."""

NANOMETRE: Final = 9
"""Decimals of a metre to which a place is kept: sines of half a turn are then zero."""


def on_a_circle(count: int, diameter: float, first_at: float = 0.0) -> tuple[Point, ...]:
    """So many points evenly on a circle, clockwise.

    Parameters
    ----------
    count : int
        How many there are.
    diameter : float
        Diameter of the circle [m].
    first_at : float
        Where the first one sits, clockwise from the top [rad].

    Examples
    --------
    >>> on_a_circle(4, 0.1)
    ((0.0, 0.05), (0.05, 0.0), (0.0, -0.05), (-0.05, 0.0))
    """
    radius = 0.5 * diameter
    angles = (first_at + math.tau * number / count for number in range(count))
    return tuple((_tidy(radius * math.sin(angle)), _tidy(radius * math.cos(angle))) for angle in angles)


def in_rows(
    across: Sequence[float], upwards: Sequence[float], *, column_by_column: bool = True
) -> tuple[Point, ...]:
    """Points in rows and columns, from the left and from the top.

    Parameters
    ----------
    across : sequence of float
        Distances from each column to the next [m].
    upwards : sequence of float
        Distances from each row to the next [m].
    column_by_column : bool
        Whether the points run down each column in turn, else along each row.

    Examples
    --------
    >>> in_rows([0.1], [0.04])
    ((-0.05, 0.02), (-0.05, -0.02), (0.05, 0.02), (0.05, -0.02))
    """
    xs = _about_zero(across)
    ys = tuple(0.0 - y for y in _about_zero(upwards))
    if column_by_column:
        return tuple((x, y) for x in xs for y in ys)
    return tuple((x, y) for y in ys for x in xs)


def _about_zero(distances: Sequence[float]) -> tuple[float, ...]:
    along = tuple(accumulate(distances, initial=0.0))
    return tuple(_tidy(each - 0.5 * along[-1]) for each in along)


def _tidy(place: float) -> float:
    return round(place, NANOMETRE) + 0.0
