"""Path data of the few shapes that the drawings of parts are made of, and the hatching of cut metal."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import ceil, floor, pi

from fitwright.drawing.part_place.spots import Point, around
from fitwright.drawing.svg import number

Polygon = Sequence[Point]

_SPACING = 9.0
"""Between two lines of the hatching, measured along an edge."""


def n(value: float) -> str:
    """A coordinate to a tenth: what can be seen at the size of these drawings."""
    return number(round(value, 1))


def at(point: Point) -> str:
    """A point of a path."""
    return f"{n(point[0])} {n(point[1])}"


def seg(x1: float, y1: float, x2: float, y2: float) -> str:
    """A straight line."""
    return f"M{n(x1)} {n(y1)}L{n(x2)} {n(y2)}"


def box(x: float, y: float, width: float, height: float) -> str:
    """A rectangle."""
    return f"M{n(x)} {n(y)}h{n(width)}v{n(height)}h{n(-width)}z"


def poly(points: Iterable[Point], *, closed: bool = True) -> str:
    """A line through points."""
    return f"M{'L'.join(at(point) for point in points)}{'z' if closed else ''}"


def ring(x: float, y: float, radius: float) -> str:
    """A circle."""
    r, d = n(radius), n(2 * radius)
    return f"M{n(x - radius)} {n(y)}a{r} {r} 0 1 0 {d} 0a{r} {r} 0 1 0 -{d} 0z"


def arc(centre: Point, radius: float, start: float, end: float) -> str:
    """A part of a circle, clockwise from one angle to another (0 at the top)."""
    large = 1 if (end - start) % 360.0 > 180.0 else 0
    r = n(radius)
    return f"M{at(around(centre, radius, start))}A{r} {r} 0 {large} 1 {at(around(centre, radius, end))}"


def corners(x: float, y: float, width: float, height: float) -> list[Point]:
    """The corners of a rectangle, as a polygon to hatch."""
    return [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]


def disc(x: float, y: float, radius: float, start: float = 0.0, end: float = 360.0) -> list[Point]:
    """A circle, or a part of it, as a polygon to hatch."""
    count = max(3, ceil(abs(end - start) / 360.0 * pi * radius / 3.0))
    return [around((x, y), radius, start + (end - start) * index / count) for index in range(count + 1)]


def hatch(polygons: Sequence[Polygon], *, falling: bool = False) -> str:
    """Lines at 45 degrees inside of polygons; where they lie within each other, the inner is a hole."""
    flipped = [[(x, -y) for x, y in each] for each in polygons] if falling else polygons
    sums = [x + y for each in flipped for x, y in each]
    first, last = ceil(min(sums) / _SPACING), floor(max(sums) / _SPACING)
    sign = -1.0 if falling else 1.0
    return "".join(
        f"M{x1:.0f} {sign * (total - x1):.0f}l{x2 - x1:.0f} {sign * (x1 - x2):.0f}"
        for total in (index * _SPACING for index in range(first, last + 1))
        for x1, x2 in _inside(flipped, total)
        if x2 - x1 >= 1.5
    )


def _inside(polygons: Sequence[Polygon], total: float) -> Iterator[tuple[float, float]]:
    """Where the line x + y = total runs inside: pairs of x."""
    crossed = sorted(
        x1 + (x2 - x1) * (total - x1 - y1) / (x2 + y2 - x1 - y1)
        for each in polygons
        for (x1, y1), (x2, y2) in zip(each, (*each[1:], each[0]), strict=True)
        if (x1 + y1 < total) != (x2 + y2 < total)
    )
    return zip(crossed[::2], crossed[1::2], strict=False)
