"""What is weighed, filled, pressed, timed or let flow, with the gauge that reads it."""

from __future__ import annotations

from fitwright.drawing.part_place.pen import MIDDLE, Pen
from fitwright.drawing.part_place.shapes import arc, box, poly, ring, seg
from fitwright.drawing.part_place.spots import around, spread


def scales(pen: Pen) -> None:
    """A part on the pan of scales."""
    pen.ink(box(118, 34, 84, 44), ring(160, 58, 10), box(96, 78, 128, 6))
    pen.ink(poly([(150, 84), (170, 84), (174, 96), (146, 96)]), box(88, 96, 144, 36))
    pen.thin(box(124, 104, 72, 20))
    pen.arrow((236, 42), (236, 94))
    pen.caption = "clean and dry"
    pen.each(((x, 114) for x in spread(len(pen.spots), 130, 190)), lambda _x, _y: None)


def big_end_on_scales(pen: Pen) -> None:
    """A rod level, its big end on the scales, its small end hung."""
    _weighed_rod(pen, big=96.0, small=248.0, weighed=96.0, hung=248.0, eye=26.0)


def small_end_on_scales(pen: Pen) -> None:
    """A rod level, its small end on the scales, its big end hung."""
    _weighed_rod(pen, big=248.0, small=96.0, weighed=96.0, hung=248.0, eye=13.0)


def chamber_volume(pen: Pen) -> None:
    """A chamber under a clear plate, filled from a burette."""
    metal = [(50, 74), (96, 74), (116, 104), (204, 104), (224, 74), (270, 74), (270, 132), (50, 132)]
    pen.cut(metal)
    pen.ink(poly(metal), box(66, 66, 188, 8))
    _burette(pen, 160, 66)
    pen.light("M104 82h112M112 92h96M118 101h84")
    pen.caption = "filled to the plate"
    pen.each(((x, 92) for x in spread(len(pen.spots), 120, 200)), lambda _x, _y: None)


def piston_volume(pen: Pen) -> None:
    """A piston's dish or crevice under a plate, filled from a burette."""
    pen.ink(poly([(90, 66), (118, 66), (130, 84), (190, 84), (202, 66), (230, 66), (230, 134), (90, 134)]))
    pen.ink(box(78, 58, 164, 8))
    pen.thin(seg(90, 96, 230, 96), seg(90, 101, 230, 101), seg(90, 112, 230, 112), seg(90, 117, 230, 117))
    _burette(pen, 160, 58)
    pen.light("M124 72h72M128 79h64")
    pen.caption = "filled to the plate"
    pen.each(((160, 76) for _ in pen.spots), lambda _x, _y: None)


def measured_volume(pen: Pen) -> None:
    """What one turn delivers, caught in a measuring glass."""
    pen.ink("M196 34v88q0 10 10 10h44q10 0 10 -10V34", ring(96, 60, 34), ring(80, 60, 13), ring(112, 60, 13))
    pen.ink(poly([(130, 46), (226, 46), (226, 60)], closed=False), seg(130, 60, 214, 60))
    for y in (54.0, 72.0, 90.0, 108.0):
        pen.thin(seg(244, y, 260, y))
    pen.light("M198 90h60", "M198 100h60", "M198 110h60", "M198 120h60")
    pen.arrow((220, 62), (220, 86))
    pen.caption = "for one turn"
    pen.each(((228, 105) for _ in pen.spots), lambda _x, _y: None)


def flow(pen: Pen) -> None:
    """A jet's flow at a set pressure, caught over a time."""
    pen.ink(box(40, 30, 70, 24), poly([(110, 36), (134, 40), (134, 44), (110, 48)]), ring(62, 84, 18))
    pen.ink(seg(62, 54, 62, 66), "M176 60v62q0 10 10 10h64q10 0 10 -10V60")
    pen.thin("M136 42Q206 42 214 96", seg(244, 78, 260, 78), seg(244, 96, 260, 96), seg(244, 114, 260, 114))
    pen.arrow((190, 50), (211, 92))
    pen.light("M178 100h80", "M178 110h80", "M178 120h80")
    pen.caption = "at the pressure set"
    pen.each(((218, 112) for _ in pen.spots), lambda _x, _y: None)


def pressure(pen: Pen) -> None:
    """A pressure gauge on the line to a relief valve."""
    pen.ink(ring(108, 54, 38), seg(102, 92, 102, 112), seg(114, 92, 114, 112), box(60, 112, 200, 18))
    for step in range(7):
        pen.thin(seg(*around((108, 54), 32, -120 + 40 * step), *around((108, 54), 37, -120 + 40 * step)))
    pen.ink(box(212, 50, 36, 62), poly([(212, 66), (248, 74), (212, 82), (248, 90)], closed=False))
    pen.thin(seg(230, 90, 230, 112))
    tip = around((108, 54), 28, 62)
    pen.arrow((108, 54), tip)
    pen.arrow((264, 104), (264, 70))
    pen.caption = "when it opens"
    pen.each(((108, 54) for _ in pen.spots), lambda _x, _y: None)


def degree_wheel(pen: Pen) -> None:
    """A degree wheel on the crank, its pointer, the dead centre at the top."""
    centre = (160.0, MIDDLE + 2)
    pen.ink(ring(*centre, 62), ring(*centre, 12))
    pen.thin(
        *(
            seg(*around(centre, 62 - (9 if step % 3 else 15), step * 10), *around(centre, 62, step * 10))
            for step in range(36)
        )
    )
    pen.centre(seg(90, centre[1], 230, centre[1]), seg(160, 4, 160, 142))
    pen.solid("M160 16l-5 -14h10z")
    pen.light(arc(centre, 40, 8, 100))
    pen.arrow(around(centre, 40, 88), around(centre, 40, 104))
    pen.caption = "from top dead centre"
    pen.each((around(centre, 28, 50 + index * 60) for index in range(len(pen.spots))), lambda _x, _y: None)


def torque(pen: Pen) -> None:
    """A torque wrench on a fastener or a shaft, pulled steadily."""
    pen.ink(ring(92, 84, 26), poly([around((92, 84), 17, step * 60) for step in range(6)]))
    pen.solid("M92 72H258a12 12 0 0 1 0 24H92a12 12 0 0 1 0 -24z")
    pen.thin(seg(204, 72, 204, 96), seg(212, 72, 212, 96), seg(220, 72, 220, 96))
    pen.arrow((250, 66), (250, 14))
    pen.light(arc((92, 84), 58, 20, 70))
    pen.caption = "pulled steadily"
    pen.each(((x, 84) for x in spread(len(pen.spots), 110, 190)), lambda _x, _y: None)


def _weighed_rod(pen: Pen, *, big: float, small: float, weighed: float, hung: float, eye: float) -> None:
    way = 1.0 if small > big else -1.0
    pen.ink(ring(big, 62, 26), ring(big, 62, 15), ring(small, 62, 13), ring(small, 62, 7))
    for y_big, y_small in ((54.0, 57.0), (70.0, 67.0)):
        pen.ink(seg(big + way * 25, y_big, small - way * 12, y_small))
    pen.ink(seg(hung, 62 - (39 - eye), hung, 6), seg(weighed, 62 + eye, weighed, 88))
    pen.ink(box(60, 88, 72, 6), box(88, 94, 16, 6), box(52, 100, 88, 32))
    pen.centre(seg(56, 62, 286, 62))
    pen.arrow((weighed, 8), (weighed, 62 - eye))
    pen.caption = "rod level, other end hung"
    pen.each(((weighed, 116) for _ in pen.spots), lambda _x, _y: None)


def _burette(pen: Pen, x: float, plate: float) -> None:
    pen.solid(
        f"M{x - 7:g} 2V{plate - 24:g}L{x - 2:g} {plate - 14:g}V{plate:g}"
        f"H{x + 2:g}V{plate - 14:g}L{x + 7:g} {plate - 24:g}V2"
    )
    pen.thin(*(seg(x, y, x + 7, y) for y in (10.0, 18.0, 26.0)))
    pen.arrow((x + 24, plate - 42), (x + 24, plate - 8))
