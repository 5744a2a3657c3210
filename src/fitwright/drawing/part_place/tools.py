"""Tools of the bench as they stand on a part: dial indicator, straight-edge, depth gauge."""

from __future__ import annotations

from fitwright.drawing.part_place.pen import Pen
from fitwright.drawing.part_place.shapes import at, box, ring, seg
from fitwright.drawing.part_place.spots import Point


def dial(pen: Pen, tip: Point, way: tuple[float, float], *, reach: float = 26.0) -> None:
    """A dial indicator with its point on the work; `way` leads from the point to the dial."""
    radius = 13.0
    x, y = tip[0] + way[0] * (reach + radius), tip[1] + way[1] * (reach + radius)
    near = (tip[0] + way[0] * 5, tip[1] + way[1] * 5)
    rim = (tip[0] + way[0] * reach, tip[1] + way[1] * reach)
    pen.solid(seg(*near, *rim), ring(tip[0] + way[0] * 3, tip[1] + way[1] * 3, 2.5), ring(x, y, radius))
    pen.solid(f"M{at((x, y))}l5 -8")


def straight_edge(pen: Pen, x: float, y: float, length: float) -> None:
    """A straight-edge lying on a face whose height is y."""
    pen.solid(box(x, y - 13, length, 13))
    pen.thin(seg(x, y - 4, x + length, y - 4))


def depth_gauge(pen: Pen, x: float, face: float, floor: float) -> None:
    """A depth micrometer on a face, its rod on the floor."""
    pen.solid(box(x - 30, face - 9, 60, 9), box(x - 6, face - 30, 12, 21), box(x - 2, face, 4, floor - face))
