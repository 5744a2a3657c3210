"""Pistons and their rings."""

from __future__ import annotations

from fitwright.drawing.part_place.pen import MIDDLE, Pen
from fitwright.drawing.part_place.shapes import arc, box, corners, disc, poly, ring, seg
from fitwright.drawing.part_place.spots import around, spread

_X, _TOP, _HALF, _FOOT = 160.0, 14.0, 58.0, 126.0


def piston(pen: Pen, x: float = _X) -> None:
    """A piston seen square to its pin, with its grooves."""
    left, right = x - _HALF, x + _HALF
    pen.ink(f"{box(left, _TOP, 2 * _HALF, _FOOT - _TOP)}", ring(x, MIDDLE + 4, 14))
    for y in (26.0, 38.0, 50.0):
        pen.thin(seg(left, y, right, y), seg(left, y + 4, right, y + 4))
    pen.centre(seg(x, _TOP - 8, x, _FOOT + 8), seg(x - 22, MIDDLE + 4, x + 22, MIDDLE + 4))


def skirt(pen: Pen) -> None:
    """The skirt of a piston, measured across its pin near the foot."""
    piston(pen)
    heights = spread(len(pen.spots), 92, 124) if len(pen.spots) > 1 else [112.0]
    pen.caption = "across the pin"
    pen.each(((_X, y) for y in heights), lambda x, y: pen.pinch((x - _HALF, y), (x + _HALF, y), tail=46))


def compression_height(pen: Pen) -> None:
    """From the centre of the pin up to the crown."""
    piston(pen)
    pen.extend(((_X + _HALF, _TOP), (_X + 104, _TOP)), ((_X + 16, MIDDLE + 4), (_X + 104, MIDDLE + 4)))
    pen.span((_X + 92, _TOP), (_X + 92, MIDDLE + 4))
    pen.caption = "pin centre to crown"
    pen.each(((_X + 92, (_TOP + MIDDLE + 4) / 2) for _ in pen.spots), lambda _x, _y: None)


def between_clips(pen: Pen) -> None:
    """Along the pin bore, from clip to clip."""
    for left in (86.0, 196.0):
        for y in (MIDDLE - 40, MIDDLE + 18):
            metal = corners(left, y, 38, 22)
            pen.cut(metal)
            pen.ink(poly(metal))
    pen.ink(box(80, 12, 160, 20), box(80, 12, 6, 116), box(234, 12, 6, 116))
    for x in (92.0, 224.0):
        pen.ink(box(x, MIDDLE - 24, 4, 48))
    pen.centre(seg(66, MIDDLE, 254, MIDDLE))
    pen.span((96, MIDDLE), (224, MIDDLE))
    pen.each(((160, MIDDLE) for _ in pen.spots), lambda _x, _y: None)


def pocket(pen: Pen) -> None:
    """A valve's pocket in the crown, with the valve above it."""
    crown = [(70, 76), (112, 76), (122, 98), (198, 98), (208, 76), (250, 76), (250, 126), (70, 126)]
    pen.cut(crown)
    pen.ink(poly(crown))
    pen.thin(box(126, 40, 68, 10), seg(155, 8, 155, 40), seg(165, 8, 165, 40))
    pen.centre(seg(160, 4, 160, 134))
    pen.span((117, 87), (203, 87))
    pen.each(((160, 87) for _ in pen.spots), lambda _x, _y: None)


def pocket_offset(pen: Pen) -> None:
    """How far the centre of a pocket lies from the centre of its valve."""
    crown = [(70, 80), (104, 80), (112, 100), (212, 100), (220, 80), (250, 80), (250, 128), (70, 128)]
    pen.cut(crown)
    pen.ink(poly(crown), box(108, 42, 84, 10), seg(145, 8, 145, 42), seg(155, 8, 155, 42))
    pen.centre(seg(150, 4, 150, 76), seg(166, 60, 166, 134))
    pen.pinch((150, 68), (166, 68), tail=34)
    pen.each(((158, 86) for _ in pen.spots), lambda _x, _y: None)


def groove_height(pen: Pen) -> None:
    """The height of a ring groove."""
    _groove(pen)
    pen.pinch((196, 54), (196, 84), tail=28)
    pen.each(((150, y) for y in spread(len(pen.spots), 56, 82)), lambda _x, _y: None)


def groove_depth(pen: Pen) -> None:
    """The depth of a ring groove, from the land to its floor."""
    _groove(pen)
    pen.extend(((200, 54), (200, 30)), ((112, 54), (112, 30)))
    pen.span((112, 69), (200, 69))
    pen.each(((156, y) for y in spread(len(pen.spots), 56, 82)), lambda _x, _y: None)


def ring_side_gap(pen: Pen) -> None:
    """The gap above a ring in its groove, with a blade in it."""
    _groove(pen)
    metal = corners(124, 64, 84, 20)
    pen.cut(metal, falling=True)
    pen.ink(poly(metal))
    pen.blade(box(140, 55, 132, 8))
    pen.arrow((238, 30), (238, 54))
    pen.arrow((238, 88), (238, 64))
    pen.each(((x, 59) for x in spread(len(pen.spots), 160, 210)), lambda _x, _y: None)


def ring_gap(pen: Pen) -> None:
    """A ring in its bore seen from above, a blade in its gap; the rails of an oil ring side by side."""
    count = len(pen.spots)
    radius = 56.0 if count == 1 else 50.0
    centres = [(x, MIDDLE + 6) for x in (spread(count, 30, 290) if count > 1 else [160.0])]
    pen.caption = "square in the bore"
    for spot, (x, y) in zip(pen.spots, centres, strict=True):
        pen.ink(ring(x, y, radius + 5), arc((x, y), radius, 8, 352), arc((x, y), radius - 9, 8, 352))
        for degrees in (8.0, 352.0):
            pen.ink(seg(*around((x, y), radius, degrees), *around((x, y), radius - 9, degrees)))
        pen.centre(seg(x - 10, y, x + 10, y), seg(x, y - 10, x, y + 10))
        if count > 1 and spot.plane is not None:
            pen.write(x, y + 22, spot.plane.replace("_", " "))
    pen.each([(x, y - radius + 26) for x, y in centres], lambda x, y: _gap_blade(pen, x, y - 26))


def ring_height(pen: Pen) -> None:
    """The height of a ring."""
    metal = corners(96, MIDDLE - 14, 128, 28)
    pen.cut(metal)
    pen.ink(poly(metal))
    points = [(x, MIDDLE) for x in spread(len(pen.spots), 96, 224)]
    pen.each(points, lambda x, _y: pen.pinch((x, MIDDLE - 14), (x, MIDDLE + 14), tail=34))


def radial_thickness(pen: Pen) -> None:
    """The thickness of a ring from its inside to its outside."""
    centre = (160.0, MIDDLE + 56)
    outer, inner = 104.0, 82.0
    half = [*disc(*centre, outer, -60, 60), *reversed(disc(*centre, inner, -60, 60))]
    pen.cut(half)
    pen.ink(arc(centre, outer, -60, 60), arc(centre, inner, -60, 60))
    for degrees in (-60.0, 60.0):
        pen.ink(seg(*around(centre, outer, degrees), *around(centre, inner, degrees)))
    pen.pinch(around(centre, outer, 0), around(centre, inner, 0), tail=20)
    angles = [0.0] if len(pen.spots) == 1 else spread(len(pen.spots), -50, 50)
    pen.each([around(centre, 93, degrees) for degrees in angles], lambda _x, _y: None)


def _groove(pen: Pen) -> None:
    """The side of a piston cut through one groove."""
    metal = [(60, 14), (200, 14), (200, 54), (112, 54), (112, 84), (200, 84), (200, 126), (60, 126)]
    pen.cut(metal)
    pen.ink(poly(metal[:-1], closed=False), seg(200, 126, 60, 126))


def _gap_blade(pen: Pen, x: float, y: float) -> None:
    pen.blade(box(x - 4, y - 12, 8, 26))
    pen.arrow((x - 36, y + 5), (x - 9, y + 5))
    pen.arrow((x + 36, y + 5), (x + 9, y + 5))
