"""Bearing shells, register and joint of a divided bearing."""

from __future__ import annotations

from fitwright.drawing.part_place.pen import MIDDLE, Pen
from fitwright.drawing.part_place.shapes import arc, box, corners, disc, poly, seg
from fitwright.drawing.part_place.spots import around, spread

_CENTRE = (160.0, MIDDLE + 44)
_OUTER, _INNER = 94.0, 78.0


def wall(pen: Pen) -> None:
    """The wall of a shell at its crown, or at the angles that the sheet says (0 is the crown)."""
    _shell(pen)
    pen.caption = "at the crown"
    angles = [spot.degrees if spot.degrees is not None else 0.0 for spot in pen.spots]
    if len(set(angles)) < len(angles):
        angles = spread(len(angles), -70, 70)
    points = [around(_CENTRE, (_OUTER + _INNER) / 2, angle) for angle in angles]
    pen.each(points, lambda _x, _y: None)
    lit = angles[pen.lit_index]
    pen.pinch(around(_CENTRE, _OUTER, lit), around(_CENTRE, _INNER, lit), tail=22)


def free_width(pen: Pen) -> None:
    """A shell out of its housing, measured across its joint faces."""
    _shell(pen)
    y = _CENTRE[1] - 5
    pen.pinch((_CENTRE[0] - _OUTER, y), (_CENTRE[0] + _OUTER, y), tail=46)
    pen.caption = "across the joint"
    pen.each(((_CENTRE[0], y) for _ in pen.spots), lambda _x, _y: None)


def joint_gap(pen: Pen) -> None:
    """A divided bearing with one side tightened, a blade in the joint of the other."""
    centre = (150.0, MIDDLE)
    for start, falling, y in ((-90.0, False, -3.0), (90.0, True, 3.0)):
        middle = (centre[0], centre[1] + y)
        half = [*disc(*middle, 58, start, start + 180), *reversed(disc(*middle, 40, start, start + 180))]
        pen.cut(half, falling=falling)
        pen.ink(poly(half))
        pen.ink(arc(middle, 34, start, start + 180))
    pen.ink(box(centre[0] - 56, 4, 12, 12), seg(centre[0] - 50, 16, centre[0] - 50, 128))
    pen.blade(box(192, MIDDLE - 3, 76, 6))
    pen.arrow((248, MIDDLE - 30), (248, MIDDLE - 4))
    pen.arrow((248, MIDDLE + 30), (248, MIDDLE + 4))
    pen.caption = "other side tightened"
    pen.each(((x, MIDDLE) for x in spread(len(pen.spots), 198, 232)), lambda _x, _y: None)


def register(pen: Pen) -> None:
    """The register for a bearing cap, measured between its sides."""
    metal = [(56, 30), (94, 30), (94, 76), (226, 76), (226, 30), (264, 30), (264, 126), (56, 126)]
    bore = disc(160, 76, 38, 90, 270)
    pen.cut(metal, bore)
    pen.ink(poly(metal), arc((160, 76), 38, 90, 270))
    pen.span((94, 54), (226, 54))
    pen.each(((x, 54) for x in spread(len(pen.spots), 130, 190)), lambda _x, _y: None)


def cap(pen: Pen) -> None:
    """A bearing cap, measured over the sides that fit its register."""
    metal = [(98, 66), (110, 20), (210, 20), (222, 66), (222, 112), (98, 112)]
    bore = disc(160, 112, 36, -90, 90)
    pen.cut(metal, bore)
    pen.ink(poly(metal), arc((160, 112), 36, -90, 90))
    pen.pinch((98, 88), (222, 88), tail=46)
    pen.each(((x, 62) for x in spread(len(pen.spots), 130, 190)), lambda _x, _y: None)


def flat_stock(pen: Pen) -> None:
    """A flat piece between two anvils: gasket, shim, spacer."""
    metal = corners(76, MIDDLE - 8, 168, 16)
    pen.cut(metal)
    pen.ink(poly(metal))
    points = [(x, MIDDLE) for x in spread(len(pen.spots), 76, 244)]
    pen.each(points, lambda x, _y: pen.pinch((x, MIDDLE - 8), (x, MIDDLE + 8), tail=36))


def _shell(pen: Pen) -> None:
    half = [*disc(*_CENTRE, _OUTER, -90, 90), *reversed(disc(*_CENTRE, _INNER, -90, 90))]
    pen.cut(half)
    pen.ink(arc(_CENTRE, _OUTER, -90, 90), arc(_CENTRE, _INNER, -90, 90))
    for side in (-1, 1):
        pen.ink(seg(_CENTRE[0] + side * _INNER, _CENTRE[1], _CENTRE[0] + side * _OUTER, _CENTRE[1]))
    pen.centre(seg(_CENTRE[0], 8, _CENTRE[0], _CENTRE[1] + 10))
