"""Outlines: straight lines and cubic curves, which any change of frame carries over point by point.

Arcs are written as cubic curves, so that a turned, scaled or mirrored outline needs no thought about
which way an arc runs. Lengths are millimetres of the engine; angles are radians, clockwise from the
top as seen from the nose, like all angles of a sheet.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from math import atan2, ceil, cos, hypot, pi, sin, tan

Point = tuple[float, float]
Move = Callable[[Point], Point]


def towards(centre: Point, angle: float, distance: float) -> Point:
    """The point at a distance from a centre, in a direction clockwise from the top.

    >>> towards((0.0, 0.0), 0.0, 2.0)
    (0.0, 2.0)
    """
    return centre[0] + distance * sin(angle), centre[1] + distance * cos(angle)


@dataclass(slots=True)
class Outline:
    """A path: its letters (M, L, C, Z) and their points."""

    steps: list[tuple[str, tuple[Point, ...]]] = field(default_factory=list)

    def move(self, point: Point) -> Outline:
        """Begin a new piece at a point."""
        self.steps.append(("M", (point,)))
        return self

    def line(self, *points: Point) -> Outline:
        """Straight lines to each of the points."""
        self.steps.extend(("L", (point,)) for point in points)
        return self

    def curve(self, first: Point, second: Point, end: Point) -> Outline:
        """A cubic curve."""
        self.steps.append(("C", (first, second, end)))
        return self

    def arc(self, centre: Point, radius: float, start: float, end: float) -> Outline:
        """An arc about a centre, from one direction to another; drawn on from where the path stands."""
        count = max(1, ceil(abs(end - start) / (pi / 2) - 1e-9))
        step = (end - start) / count
        reach = 4.0 / 3.0 * tan(step / 4.0) * radius
        for index in range(count):
            a, b = start + index * step, start + (index + 1) * step
            p, q = towards(centre, a, radius), towards(centre, b, radius)
            self.curve(
                (p[0] + reach * cos(a), p[1] - reach * sin(a)),
                (q[0] - reach * cos(b), q[1] + reach * sin(b)),
                q,
            )
        return self

    def close(self) -> Outline:
        """Close the piece."""
        self.steps.append(("Z", ()))
        return self

    def moved(self, move: Move) -> Outline:
        """The same outline in another frame."""
        return Outline([(letter, tuple(move(point) for point in points)) for letter, points in self.steps])

    def points(self) -> Iterable[Point]:
        """Every point of the path, those that pull a curve included."""
        for _, points in self.steps:
            yield from points


def polygon(points: Sequence[Point]) -> Outline:
    """A closed polygon."""
    return Outline().move(points[0]).line(*points[1:]).close()


def box(x0: float, y0: float, x1: float, y1: float) -> Outline:
    """A rectangle."""
    return polygon([(x0, y0), (x1, y0), (x1, y1), (x0, y1)])


def rounded(points: Sequence[Point], radius: float) -> Outline:
    """A closed polygon whose corners are rounded, as those of a casting are."""
    path = Outline()
    count = len(points)
    for index, corner in enumerate(points):
        before, after = points[index - 1], points[(index + 1) % count]
        cut = min(radius, _half(before, corner), _half(corner, after))
        entry, leave = _along(corner, before, cut), _along(corner, after, cut)
        if index:
            path.line(entry)
        else:
            path.move(entry)
        path.curve(_along(entry, corner, cut * 0.55), _along(leave, corner, cut * 0.55), leave)
    return path.close()


def round_box(x0: float, y0: float, x1: float, y1: float, radius: float) -> Outline:
    """A rectangle with rounded corners."""
    return rounded([(x0, y0), (x1, y0), (x1, y1), (x0, y1)], radius)


def ring(centre: Point, radius: float) -> Outline:
    """A whole circle as an outline."""
    return Outline().move(towards(centre, 0.0, radius)).arc(centre, radius, 0.0, 2 * pi).close()


def hull(first: Point, first_radius: float, second: Point, second_radius: float) -> Outline:
    """Two circles with their outer tangents: a link, a lobe, a web."""
    dx, dy = second[0] - first[0], second[1] - first[1]
    apart = hypot(dx, dy)
    if apart <= abs(first_radius - second_radius) + 1e-9:
        centre, radius = (first, first_radius) if first_radius >= second_radius else (second, second_radius)
        return ring(centre, radius)
    way = atan2(dx, dy)
    lean = atan2(((apart**2 - (first_radius - second_radius) ** 2) ** 0.5), first_radius - second_radius)
    path = Outline().move(towards(second, way - lean, second_radius))
    path.arc(second, second_radius, way - lean, way + lean)
    path.line(towards(first, way + lean, first_radius))
    return path.arc(first, first_radius, way + lean, way - lean + 2 * pi).close()


def taper(start: Point, start_width: float, end: Point, end_width: float) -> Outline:
    """A straight bar between two points, with its width at each end."""
    way = atan2(end[0] - start[0], end[1] - start[1]) + pi / 2
    return polygon(
        [
            towards(start, way, -start_width / 2),
            towards(end, way, -end_width / 2),
            towards(end, way, end_width / 2),
            towards(start, way, start_width / 2),
        ]
    )


def _half(first: Point, second: Point) -> float:
    return hypot(second[0] - first[0], second[1] - first[1]) / 2


def _along(start: Point, end: Point, distance: float) -> Point:
    length = hypot(end[0] - start[0], end[1] - start[1]) or 1.0
    share = distance / length
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share
