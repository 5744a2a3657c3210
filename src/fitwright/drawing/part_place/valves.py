"""Valve gear: lash, springs, lift, seats, gaps between valves and piston."""

from __future__ import annotations

from fitwright.drawing.part_place.pen import MIDDLE, Pen
from fitwright.drawing.part_place.shapes import box, corners, poly, ring, seg
from fitwright.drawing.part_place.spots import spread
from fitwright.drawing.part_place.tools import dial


def cam_lash(pen: Pen) -> None:
    """The base circle of a cam over its follower, a blade between them."""
    pen.ink("M132 52A30 30 0 1 0 188 52L169 14A10 10 0 0 0 151 14z", ring(160, 62, 8))
    pen.ink(box(124, 102, 72, 32))
    pen.centre(seg(120, 62, 200, 62), seg(160, 0, 160, 142))
    pen.blade(box(70, 93, 150, 8))
    pen.arrow((222, 62), (222, 92))
    pen.arrow((222, 132), (222, 102))
    pen.caption = "cam on its base circle"
    pen.each(((x, 97) for x in spread(len(pen.spots), 130, 190)), lambda _x, _y: None)


def rocker_lash(pen: Pen) -> None:
    """A rocker over the tip of a valve's stem, a blade between them."""
    pen.ink(
        "M36 44L120 30A22 22 0 0 1 150 34L226 56V74A26 26 0 0 1 190 74V66L140 60A20 20 0 0 1 112 60L40 66z"
    )
    pen.ink(ring(128, 44, 9), box(198, 91, 20, 46), box(40, 66, 12, 70))
    pen.centre(seg(208, 50, 208, 142), seg(112, 44, 144, 44))
    pen.blade(box(176, 82, 116, 8))
    pen.arrow((256, 52), (256, 81))
    pen.arrow((256, 120), (256, 91))
    pen.each(((x, 86) for x in spread(len(pen.spots), 190, 226)), lambda _x, _y: None)


def spring_height(pen: Pen) -> None:
    """A valve spring from its seat to its retainer."""
    _spring_on_valve(pen)
    pen.extend(((190, 34), (252, 34)), ((200, 112), (252, 112)))
    pen.span((240, 34), (240, 112))
    pen.each(((240, 73) for _ in pen.spots), lambda _x, _y: None)


def valve_lift(pen: Pen) -> None:
    """How far a valve or a plunger moves, read by a dial indicator on the retainer."""
    _spring_on_valve(pen)
    dial(pen, (184, 26), (0.8, -0.3), reach=22)
    pen.span((96, 16), (96, 62))
    pen.caption = "shut to open"
    pen.each(((96, 39) for _ in pen.spots), lambda _x, _y: None)


def retainer_gap(pen: Pen) -> None:
    """From the retainer down to the seal or the guide, valve shut."""
    _spring_on_valve(pen, coils=False)
    guide = [(144, 84), (176, 84), (176, 132), (144, 132)]
    pen.cut(guide)
    pen.ink(poly(guide))
    pen.extend(((176, 84), (232, 84)), ((190, 34), (232, 34)))
    pen.span((220, 34), (220, 84))
    pen.each(((220, 59) for _ in pen.spots), lambda _x, _y: None)


def valve_to_piston(pen: Pen) -> None:
    """The least gap between a valve and the piston under it."""
    crown = [(60, 96), (112, 96), (120, 108), (200, 108), (208, 96), (260, 96), (260, 134), (60, 134)]
    pen.cut(crown)
    pen.ink(poly(crown))
    _valve(pen, 160, 64, 38)
    pen.span((160, 74), (160, 108))
    pen.caption = "at the closest"
    pen.each(((160, 91) for _ in pen.spots), lambda _x, _y: None)


def valve_to_valve(pen: Pen) -> None:
    """The least gap between two valves."""
    for x in (108.0, 212.0):
        _valve(pen, x, 90, 46)
    pen.blade(box(155, 78, 10, 48))
    pen.arrow((122, 116), (154, 116))
    pen.arrow((198, 116), (166, 116))
    pen.each(((160, 88) for _ in pen.spots), lambda _x, _y: None)


def seat_width(pen: Pen) -> None:
    """The width of the seat's band."""
    _seat(pen)
    pen.span((206, 74), (222, 52))
    pen.pinch((206, 74), (222, 52), tail=26)
    pen.each(((214, 63) for _ in pen.spots), lambda _x, _y: None)


def seat_run_out(pen: Pen) -> None:
    """A dial indicator turned on the seat around the guide's centre."""
    _seat(pen)
    pen.solid(seg(160, 16, 160, 124), seg(160, 30, 196, 30))
    dial(pen, (212, 64), (-0.6, -0.8), reach=16)
    pen.light("M138 108a22 7 0 0 0 44 0")
    pen.arrow((180, 110), (183, 98))
    pen.caption = "one turn around"
    pen.each(((214, 66) for _ in pen.spots), lambda _x, _y: None)


def tip_sweep(pen: Pen) -> None:
    """The width of the mark that a rocker's tip leaves on the stem, seen from above."""
    pen.ink(ring(160, MIDDLE, 54))
    pen.thin(box(134, MIDDLE - 30, 52, 60))
    pen.centre(seg(96, MIDDLE, 224, MIDDLE), seg(160, 8, 160, 136))
    pen.pinch((134, MIDDLE), (186, MIDDLE), tail=40)
    pen.caption = "width of the mark"
    pen.each(((160, MIDDLE) for _ in pen.spots), lambda _x, _y: None)


def spring_free(pen: Pen) -> None:
    """The length of a spring by itself."""
    _coils(pen, 160, 20, 124, 30)
    pen.extend(((160, 20), (246, 20)), ((160, 124), (246, 124)))
    pen.span((234, 20), (234, 124))
    pen.each(((234, 72) for _ in pen.spots), lambda _x, _y: None)


def spring_solid(pen: Pen) -> None:
    """A spring pressed until its coils touch."""
    for y in range(34, 106, 12):
        pen.ink(f"M130 {y}h60a6 6 0 0 1 0 12h-60a6 6 0 0 1 0 -12z")
    pen.ink(box(112, 24, 96, 10), box(112, 106, 96, 10))
    pen.arrow((160, 0), (160, 23))
    pen.extend(((208, 34), (260, 34)), ((208, 106), (260, 106)))
    pen.span((248, 34), (248, 106))
    pen.caption = "coils touching"
    pen.each(((248, 70) for _ in pen.spots), lambda _x, _y: None)


def relief_spring(pen: Pen) -> None:
    """The spring of a relief valve in its place, between plunger and cap."""
    _relief(pen)
    pen.extend(((128, 50), (128, 18)), ((252, 50), (252, 18)))
    pen.span((128, 24), (252, 24))
    pen.caption = "spring in its place"
    pen.each(((190, 24) for _ in pen.spots), lambda _x, _y: None)


def relief_travel(pen: Pen) -> None:
    """How far the plunger of a relief valve moves before its port is open."""
    _relief(pen)
    pen.extend(((64, 54), (64, 18)), ((112, 50), (112, 18)))
    pen.span((64, 24), (112, 24))
    pen.caption = "shut to fully open"
    pen.each(((88, 24) for _ in pen.spots), lambda _x, _y: None)


def spring_load(pen: Pen) -> None:
    """A spring pressed to a length in a tester, its force read."""
    pen.ink(box(104, 122, 112, 12), box(112, 26, 96, 10), seg(160, 4, 160, 26))
    _coils(pen, 160, 36, 122, 28)
    pen.thin(seg(96, 26, 96, 122), seg(90, 36, 102, 36), seg(90, 122, 102, 122))
    pen.solid(ring(262, 100, 26))
    pen.thin(seg(216, 128, 262, 128), seg(262, 126, 262, 128))
    pen.light("M262 100l12 -14")
    pen.arrow((184, 2), (184, 25))
    pen.arrow((136, 2), (136, 25))
    pen.caption = "force at its length"
    pen.each(((262, 100) for _ in pen.spots), lambda _x, _y: None)


def _spring_on_valve(pen: Pen, *, coils: bool = True) -> None:
    pen.ink(box(154, 14, 12, 120), box(130, 26, 60, 8), box(112, 112, 96, 10))
    if coils:
        _coils(pen, 160, 34, 112, 24)
    pen.centre(seg(160, 4, 160, 142))


def _relief(pen: Pen) -> None:
    """A plunger lying in its bore, its spring behind it, the port beside it."""
    for y, port in ((34.0, False), (94.0, True)):
        pieces = ((40.0, 50.0), (112.0, 140.0)) if port else ((40.0, 212.0),)
        for x, width in pieces:
            metal = corners(x, y, width, 16)
            pen.cut(metal)
            pen.ink(poly(metal))
    pen.ink("M64 50h64v6H74v32h54v6H64z", box(252, 44, 22, 56))
    zigzag = [(128.0 + index * 12.4, 58.0 if index % 2 else 86.0) for index in range(11)]
    pen.ink(poly(zigzag, closed=False))
    pen.centre(seg(28, MIDDLE, 290, MIDDLE))


def _coils(pen: Pen, x: float, top: float, foot: float, half: float) -> None:
    turns = 5
    step = (foot - top) / turns
    lines = [
        seg(x - half, top + index * step + step * 0.8, x + half, top + index * step + 0.2 * step)
        for index in range(turns)
    ]
    pen.ink(*lines, seg(x - half, top, x + half, top), seg(x - half, foot, x + half, foot))
    pen.thin(
        *(
            seg(x + half, top + index * step + 0.2 * step, x - half, top + (index - 0.2) * step)
            for index in range(1, turns)
        )
    )


def _valve(pen: Pen, x: float, y: float, half: float) -> None:
    right = [(x + 5, 6), (x + 5, y - 20), (x + 12, y - 6), (x + half, y + 4), (x + half, y + 10)]
    pen.ink(poly([*right, *((2 * x - px, py) for px, py in reversed(right))]))
    pen.centre(seg(x, 2, x, y + 18))


def _seat(pen: Pen) -> None:
    right = [(196, 132), (196, 90), (206, 74), (222, 52), (230, 40), (286, 40), (286, 132)]
    left = [(320 - x, y) for x, y in right]
    for metal in (left, right):
        pen.cut(metal)
        pen.ink(poly(metal))
    pen.centre(seg(160, 6, 160, 140))
