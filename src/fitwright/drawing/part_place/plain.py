"""A plain block with the direction of measure, for what no other picture fits."""

from __future__ import annotations

from fitwright.drawing.part_place.pen import MIDDLE, Pen
from fitwright.drawing.part_place.shapes import box, seg
from fitwright.drawing.part_place.spots import spread


def block_height(pen: Pen) -> None:
    """A block measured from face to face."""
    left, right, top, foot = 60.0, 260.0, MIDDLE - 26, MIDDLE + 26
    pen.ink(box(left, top, right - left, foot - top))
    points = [(x, MIDDLE) for x in spread(len(pen.spots), left, right)]
    pen.each(points, lambda x, _y: pen.pinch((x, top), (x, foot), tail=26))
    name_all(pen, points, foot + 40)


def block_length(pen: Pen) -> None:
    """A block measured along its length, with its centre line."""
    left, right, top, foot = 84.0, 236.0, MIDDLE - 40, MIDDLE + 40
    pen.ink(box(left, top, right - left, foot - top))
    pen.centre(seg(left - 14, MIDDLE, right + 14, MIDDLE))
    points = [(160.0, y) for y in spread(len(pen.spots), top, foot)]
    pen.each(points, lambda _x, y: pen.pinch((left, y), (right, y), tail=40))


def name_all(pen: Pen, points: list[tuple[float, float]], y: float) -> None:
    """Names of places under their marks, while there is room for them."""
    longest = max(len(spot.plane or "") for spot in pen.spots)
    if len(pen.spots) * longest <= 36:
        for spot, (x, _) in zip(pen.spots, points, strict=True):
            if spot.plane is not None:
                pen.write(x, y, spot.plane.replace("_", " "))
