"""Deck, crown, crank throw, gasket, and the flatness of faces."""

from __future__ import annotations

from fitwright.drawing.part_place.pen import MIDDLE, Pen
from fitwright.drawing.part_place.shapes import box, corners, poly, ring, seg
from fitwright.drawing.part_place.spots import around, spread
from fitwright.drawing.part_place.tools import dial, straight_edge


def piston_at_deck(pen: Pen) -> None:
    """The piston at the top of its stroke and the deck, a dial indicator on a bridge over the bore."""
    deck, crown = 66.0, 82.0
    for left in (40.0, 236.0):
        metal = corners(left, deck, 44, 66)
        pen.cut(metal)
        pen.ink(poly(metal))
    pen.ink(box(86, crown, 148, 50))
    pen.thin(seg(86, crown + 12, 234, crown + 12), seg(86, crown + 17, 234, crown + 17))
    pen.centre(seg(160, deck - 10, 160, 140))
    points = [(x, crown - 1) for x in spread(len(pen.spots), 96, 224)]
    lit = points[pen.lit_index][0]
    pen.solid(box(66, deck - 12, 188, 12))
    dial(pen, (lit, deck - 12), (0, -1), reach=8)
    pen.extend(((234, crown), (306, crown)), ((280, deck), (306, deck)))
    pen.pinch((296, deck), (296, crown), tail=30)
    pen.each(points, lambda x, y: pen.light(seg(x, deck, x, y - 8)))
    for spot, (x, _) in zip(pen.spots, points, strict=True):
        if spot.plane is not None:
            pen.write(x, crown + 38, spot.plane)


def deck_height(pen: Pen) -> None:
    """From the crank's centre line up to the deck."""
    metal = [(70, 22), (226, 22), (226, 116), (182, 116), (182, 108), (114, 108), (114, 116), (70, 116)]
    pen.ink(poly(metal), ring(148, 108, 20))
    pen.thin(seg(110, 22, 110, 70), seg(186, 22, 186, 70))
    pen.centre(seg(50, 108, 300, 108), seg(148, 12, 148, 136))
    pen.extend(((226, 22), (296, 22)))
    points = [(x, 65.0) for x in spread(len(pen.spots), 244, 292)]
    pen.each(points, lambda x, _y: pen.span((x, 22), (x, 108)))
    pen.caption = "crank centre to the face"


def stroke(pen: Pen) -> None:
    """The crank pin at both ends of its way."""
    y = MIDDLE
    pen.ink(ring(160, y, 20), ring(160, y - 42, 15))
    pen.thin(ring(160, y + 42, 15))
    pen.centre(ring(160, y, 42), seg(100, y, 220, y), seg(160, 6, 160, 138))
    pen.extend(((160, y - 42), (262, y - 42)), ((160, y + 42), (262, y + 42)))
    pen.span((250, y - 42), (250, y + 42))
    pen.each(((250, y) for _ in pen.spots), lambda _x, _y: None)


def squish(pen: Pen) -> None:
    """Soft solder pressed between crown and head."""
    head = [(60, 14), (260, 14), (260, 58), (214, 58), (196, 34), (124, 34), (106, 58), (60, 58)]
    pen.cut(head)
    crown = corners(64, 72, 192, 54)
    pen.cut(crown, falling=True)
    pen.ink(poly(head), poly(crown))
    pen.centre(seg(160, 6, 160, 136))
    ends = [82.0, 238.0] if len(pen.spots) == 2 else spread(len(pen.spots), 66, 104)
    pen.each([(x, 65.0) for x in ends], lambda x, y: _solder(pen, x, y))
    for spot, x in zip(pen.spots, ends, strict=True):
        if spot.plane is not None:
            pen.write(x + (34 if x < 160 else -34), 69, spot.plane)


def opening(pen: Pen) -> None:
    """A gasket's opening, from side to side."""
    metal = corners(52, 14, 216, 116)
    pen.ink(poly(metal), ring(160, MIDDLE, 48))
    for x in (70.0, 250.0):
        pen.ink(ring(x, 32, 6), ring(x, 112, 6))
    pen.centre(seg(160, 12, 160, 132))
    angles = [spot.degrees if spot.degrees is not None else 90.0 for spot in pen.spots]
    lit = angles[pen.lit_index]
    pen.span(around((160, MIDDLE), 48, lit), around((160, MIDDLE), 48, lit + 180))
    pen.each(
        [around((160, MIDDLE), 12 if len(angles) > 1 else 0, angle) for angle in angles], lambda _x, _y: None
    )


def flat_face(pen: Pen) -> None:
    """A straight-edge across a face: along, across and over both diagonals."""
    left, right, top, foot = 40.0, 280.0, 16.0, 128.0
    pen.ink(box(left, top, right - left, foot - top))
    for x in (88.0, 160.0, 232.0):
        pen.thin(ring(x, MIDDLE, 26))
    ways = [
        ((left, top), (right, foot)),
        ((left, foot), (right, top)),
        ((left, 26.0), (right, 26.0)),
        ((left, 118.0), (right, 118.0)),
        ((52.0, top), (52.0, foot)),
        ((268.0, top), (268.0, foot)),
        ((left, MIDDLE), (right, MIDDLE)),
    ]
    chosen = [ways[index % len(ways)] for index in range(len(pen.spots))]
    for one, other in chosen:
        pen.thin(seg(*one, *other))
    one, other = chosen[pen.lit_index]
    pen.span(one, other)
    pen.caption = "straight-edge and blade"
    pen.each(
        [(a[0] + (b[0] - a[0]) * 0.32, a[1] + (b[1] - a[1]) * 0.32) for a, b in chosen], lambda _x, _y: None
    )


def tunnel(pen: Pen) -> None:
    """A straight-edge along the bearings of a block, a blade under it where it stands clear."""
    pen.thin(seg(30, 52, 290, 52))
    for x in (44.0, 104.0, 164.0, 224.0):
        metal = corners(x, 78, 40, 44)
        pen.cut(metal)
        pen.ink(poly(metal))
    straight_edge(pen, 34, 74, 240)
    pen.centre(seg(24, 40, 296, 40))
    pen.blade(box(164, 74.5, 40, 3.5))
    pen.arrow((184, 44), (184, 73))
    pen.arrow((184, 104), (184, 79))
    pen.each(((x, 112) for x in spread(len(pen.spots), 164, 204)), lambda _x, _y: None)
    pen.caption = "largest of all bearings"


def _solder(pen: Pen, x: float, y: float) -> None:
    pen.blade(box(x - 14, y - 6.5, 28, 13))
    pen.arrow((x, y - 38), (x, y - 8))
    pen.arrow((x, y + 38), (x, y + 8))
