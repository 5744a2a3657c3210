"""Side view and end view of something round: planes along it, angles around it, the lit size."""

from __future__ import annotations

from math import cos, radians, sin

from fitwright.drawing.part_place.pen import MIDDLE, Pen
from fitwright.drawing.part_place.shapes import ring, seg
from fitwright.drawing.part_place.spots import Point, Spot, around, planes_of, spread

_SIDE, _END, _ALONE = 92.0, 244.0, 160.0
_STANDING = 64.0
_HIDDEN = 10.0


class RoundView:
    """Where the two views lie, and how places and arrows are drawn on them.

    The side view is seen square to the axis, so that a place at an angle lies on its plane's line
    where it would be seen: at the edge for 0 degrees of a lying part, on the centre line for 90.
    The end view is drawn only where the sheet says angles.
    """

    def __init__(
        self, pen: Pen, *, length: float, radius: float, vertical: bool = False, inside: bool = False
    ) -> None:
        self.pen, self.radius, self.vertical, self.inside = pen, radius, vertical, inside
        self.angles = [spot.degrees for spot in pen.spots if spot.degrees is not None]
        self.planes = planes_of(pen.spots)
        self.x = _ALONE if not self.angles else _STANDING if vertical else _SIDE
        self.low, self.high = -length / 2.0, length / 2.0
        self.end_radius = 34.0 if inside else 38.0

    @property
    def end(self) -> Point | None:
        """The centre of the end view."""
        return (_END, MIDDLE) if self.angles else None

    def at(self, along: float, across: float) -> Point:
        """A point of the side view; across is downwards for a lying part, to the right for a standing one."""
        if self.vertical:
            return self.x + across, MIDDLE + along
        return self.x + along, MIDDLE + across

    def places(self) -> None:
        """Plane lines with names, angle lines with degrees, the marks, and the lit size."""
        self._axis()
        self._plane_lines()
        if self.end is not None:
            self._end_view(self.end)
        for spot in self.pen.spots:
            self.pen.mark(spot, *self._point(spot))
        self._light_side()

    def _axis(self) -> None:
        one, other = self.at(self.low - 12, 0), self.at(self.high + 12, 0)
        self.pen.centre(seg(*one, *other))

    def _along(self, plane: str | None) -> float:
        if plane is None:
            return 0.0
        return spread(len(self.planes), self.low, self.high)[self.planes.index(plane)]

    def _plane_lines(self) -> None:
        for plane in self.planes:
            along, reach = self._along(plane), self.radius + 10
            one, other = self.at(along, -reach), self.at(along, reach)
            self.pen.thin(seg(*one, *other))
            name = plane.replace("_", " ")
            if self.vertical:
                beyond = self.radius + (26 if self.inside or self.angles else 32)
                self.pen.write(self.x + beyond, other[1] + 4, name, "start")
            else:
                below = self.radius + (32 if self.inside else 22 if self.angles else 38)
                self.pen.write(other[0], MIDDLE + below, name)

    def _point(self, spot: Spot) -> Point:
        """Where the mark of a place is seen: on its plane, or at its angle in the end view."""
        if spot.degrees is None or (spot.plane is None and self.end is None):
            return self.at(self._along(spot.plane), 0)
        if spot.plane is None and self.end is not None:
            return around(self.end, self.end_radius + (8 if self.inside else -10), spot.degrees)
        seen, depth = -cos(radians(spot.degrees)), sin(radians(spot.degrees))
        if self.vertical:
            seen, depth = depth, -seen
        reach = max(self.radius - 7, 0.75 * self.radius)
        aside = _HIDDEN if depth < -1e-6 else 0.0
        return self.at(self._along(spot.plane) + aside, seen * reach)

    def _end_view(self, end: Point) -> None:
        pen, radius = self.pen, self.end_radius
        reach = radius + (20 if self.inside else 14)
        pen.ink(ring(*end, radius))
        pen.centre(
            seg(end[0] - reach, end[1], end[0] + reach, end[1]),
            seg(end[0], end[1] - reach, end[0], end[1] + reach),
        )
        for angle in sorted(set(self.angles)):
            if angle % 90.0:
                pen.thin(seg(*around(end, radius + 6, angle), *around(end, radius + 6, angle + 180)))
        lit = self.pen.lit.degrees
        self._degrees(end, lit)
        if lit is None:
            return
        one, other = around(end, radius, lit), around(end, radius, lit + 180)
        if self.inside:
            pen.span(one, other)
        else:
            pen.pinch(one, other, tail=22)

    def _degrees(self, end: Point, lit: float | None) -> None:
        """The angles written around the end view, except the lit one, which the label says."""
        named = {
            spot.degrees: spot.mark or f"{spot.degrees:g}°"
            for spot in self.pen.spots
            if spot.degrees is not None
        }
        for angle, name in named.items():
            if angle != lit:
                x, y = around(end, self.end_radius + (33 if self.inside else 24), angle)
                self.pen.write(x, y + 4, name)

    def _light_side(self) -> None:
        """The lit plane; with arrows where the end view does not show them."""
        lit = self.pen.lit
        if lit.plane is None and self.end is not None:
            return
        along = self._along(lit.plane)
        one, other = self.at(along, -self.radius), self.at(along, self.radius)
        if lit.degrees is not None:
            self.pen.light(seg(*one, *other))
        elif self.inside:
            self.pen.span(one, other)
        else:
            self.pen.pinch(one, other, tail=24)
