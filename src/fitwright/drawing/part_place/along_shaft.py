"""Sizes along a shaft: end float, widths between and over faces, gaps beside a part."""

from __future__ import annotations

from fitwright.drawing.part_place.pen import MIDDLE, Pen
from fitwright.drawing.part_place.shapes import box, corners, poly, seg
from fitwright.drawing.part_place.spots import spread
from fitwright.drawing.part_place.tools import dial


def end_float(pen: Pen) -> None:
    """A shaft moved from one thrust face to the other, a dial indicator on its end."""
    y = MIDDLE + 10
    for top in (y - 58, y + 16):
        metal = corners(122, top, 66, 42)
        pen.cut(metal)
        pen.ink(poly(metal))
    pen.ink(seg(76, y - 14, 250, y - 14), seg(76, y + 14, 250, y + 14), seg(76, y - 14, 76, y + 14))
    pen.ink(box(104, y - 36, 15, 72), box(193, y - 36, 15, 72))
    pen.centre(seg(64, y, 264, y))
    dial(pen, (76, y), (-1, 0), reach=22)
    pen.span((216, y - 44), (290, y - 44))
    pen.caption = "push and pull"
    pen.each(((253, y - 44) for _ in pen.spots), lambda _x, _y: None)


def between_faces(pen: Pen) -> None:
    """The width between two cheeks, from inside."""
    _cheeks(pen)
    pen.span((110, MIDDLE - 40), (210, MIDDLE - 40))
    pen.caption = "between the faces"
    pen.each(((160, y) for y in _heights(pen)), lambda _x, _y: None)


def over_faces(pen: Pen) -> None:
    """The width of a sleeve, a bearing or a rod's eye over its faces."""
    for top in (MIDDLE - 46, MIDDLE + 26):
        metal = corners(110, top, 100, 20)
        pen.cut(metal)
        pen.ink(poly(metal))
    pen.ink(seg(110, MIDDLE - 26, 110, MIDDLE + 26), seg(210, MIDDLE - 26, 210, MIDDLE + 26))
    pen.centre(seg(92, MIDDLE, 228, MIDDLE))
    pen.pinch((110, MIDDLE - 36), (210, MIDDLE - 36), tail=44)
    pen.caption = "over its faces"
    pen.each(((160, y) for y in _heights(pen, MIDDLE - 36, MIDDLE + 36)), lambda _x, _y: None)


def pin_length(pen: Pen) -> None:
    """The length of a pin or a strut."""
    pen.ink(box(96, MIDDLE - 20, 128, 40))
    pen.thin(seg(96, MIDDLE - 10, 224, MIDDLE - 10), seg(96, MIDDLE + 10, 224, MIDDLE + 10))
    pen.centre(seg(82, MIDDLE, 238, MIDDLE))
    pen.pinch((96, MIDDLE), (224, MIDDLE), tail=44)
    pen.each(((160, y) for y in _heights(pen, MIDDLE - 10, MIDDLE + 10)), lambda _x, _y: None)


def beside_rod(pen: Pen) -> None:
    """The gap beside a rod on its pin, with a blade in it."""
    _cheeks(pen)
    for top in (MIDDLE - 46, MIDDLE + 24):
        metal = corners(122, top, 88, 22)
        pen.cut(metal)
        pen.ink(poly(metal))
    pen.ink(seg(122, MIDDLE - 46, 122, MIDDLE + 46))
    pen.blade(box(111, 4, 10, 66))
    pen.arrow((86, 18), (109, 18))
    pen.arrow((146, 18), (123, 18))
    pen.caption = "beside the rod"
    pen.each(((116, y) for y in spread(len(pen.spots), MIDDLE - 32, MIDDLE - 8)), lambda _x, _y: None)


def face_gap(pen: Pen) -> None:
    """A gap along the axis between a rotating part and a fixed face."""
    metal = corners(76, 18, 60, 108)
    pen.cut(metal)
    pen.ink(poly(metal))
    turning = [(150, 34), (172, 26), (172, 52), (252, 52), (252, 92), (172, 92), (172, 118), (150, 110)]
    pen.ink(poly(turning))
    pen.centre(seg(60, MIDDLE, 268, MIDDLE))
    pen.blade(box(137, 4, 12, 50))
    pen.arrow((112, 12), (136, 12))
    pen.arrow((174, 12), (150, 12))
    pen.each(((143, y) for y in spread(len(pen.spots), 22, 50)), lambda _x, _y: None)


def step_of_faces(pen: Pen) -> None:
    """The height of one face above its neighbour, at both sides of the shaft."""
    metal = [(40, 64), (280, 64), (280, 118), (40, 118)]
    pen.cut(metal)
    pen.ink(poly(metal), box(40, 92 - 54, 240, 26))
    pen.ink(seg(40, 64, 280, 64))
    points = [(x, 51.0) for x in spread(len(pen.spots), 40, 280)]
    pen.each(points, lambda x, _y: pen.pinch((x - 22, 38), (x - 22, 64), tail=24))
    for spot, (x, _) in zip(pen.spots, points, strict=True):
        if spot.plane is not None:
            pen.write(x, 134, spot.plane)


def shake(pen: Pen) -> None:
    """A shaft moved across its bearing, a dial indicator on it."""
    y = MIDDLE + 24
    for top in (y - 46, y + 18):
        metal = corners(80, top, 90, 28)
        pen.cut(metal)
        pen.ink(poly(metal))
    pen.ink(box(56, y - 14, 196, 28))
    pen.centre(seg(44, y, 264, y))
    dial(pen, (224, y - 14), (0, -1), reach=20)
    pen.span((272, y - 28), (272, y + 28))
    pen.caption = "lift and press"
    pen.each(((272, y) for _ in pen.spots), lambda _x, _y: None)


def _cheeks(pen: Pen) -> None:
    pen.ink(box(84, 10, 26, 124), box(210, 10, 26, 124))
    pen.ink(seg(110, MIDDLE - 24, 210, MIDDLE - 24), seg(110, MIDDLE + 24, 210, MIDDLE + 24))
    pen.centre(seg(70, MIDDLE, 250, MIDDLE))


def _heights(pen: Pen, top: float = MIDDLE - 40, foot: float = MIDDLE + 40) -> list[float]:
    count = len(pen.spots)
    return [top] if count == 1 else [top + (foot - top) * index / (count - 1) for index in range(count)]
