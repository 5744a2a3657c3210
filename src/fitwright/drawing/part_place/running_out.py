"""Run-out and straightness, read by a dial indicator while something turns."""

from __future__ import annotations

from fitwright.drawing.part_place.pen import MIDDLE, Pen
from fitwright.drawing.part_place.shapes import arc, box, poly, ring, seg
from fitwright.drawing.part_place.spots import Point, around, spread
from fitwright.drawing.part_place.tools import dial


def shaft_run_out(pen: Pen) -> None:
    """A shaft turned in blocks, the indicator on it."""
    y = 86.0
    pen.ink(box(36, y - 16, 248, 32))
    for x in (70.0, 250.0):
        pen.ink(poly([(x - 20, 132), (x + 20, 132), (x + 8, y + 16), (x - 8, y + 16)]))
    pen.centre(seg(24, y, 296, y))
    points = [(x, y) for x in (spread(len(pen.spots), 36, 284) if len(pen.spots) > 1 else [160.0])]
    lit = points[pen.lit_index][0]
    dial(pen, (lit, y - 16), (0, -1), reach=20)
    _turn(pen, (lit + 34 if lit < 200 else lit - 34, y), 22)
    pen.caption = "one turn of the shaft"
    pen.each(points, lambda _x, _y: None)
    for spot, (x, _) in zip(pen.spots, points, strict=True):
        if spot.plane is not None and spot.id != pen.lit.id:
            pen.write(x, 62, spot.plane)


def face_run_out(pen: Pen) -> None:
    """A face turned past an indicator that stands along the shaft."""
    pen.ink(box(132, 8, 26, 128), box(60, MIDDLE - 22, 72, 44))
    pen.centre(seg(44, MIDDLE, 240, MIDDLE))
    dial(pen, (158, 28), (1, 0), reach=26)
    _turn(pen, (92, MIDDLE), 32)
    pen.caption = "one turn"
    pen.each(((158, y) for y in spread(len(pen.spots), 20, 36)), lambda _x, _y: None)


def bore_run_out(pen: Pen) -> None:
    """An indicator carried by the shaft, turned around inside of a bore."""
    centre = (160.0, MIDDLE)
    wall = [[around(centre, radius, step * 10.0) for step in range(36)] for radius in (66, 50)]
    pen.cut(*wall)
    pen.ink(ring(*centre, 66), ring(*centre, 50), ring(*centre, 15))
    pen.centre(seg(84, MIDDLE, 236, MIDDLE), seg(160, 2, 160, 142))
    angles = [spot.degrees if spot.degrees is not None else 45.0 for spot in pen.spots]
    lit = angles[pen.lit_index]
    tip = around(centre, 50, lit)
    pen.solid(seg(*around(centre, 15, lit), *around(centre, 24, lit)), ring(*around(centre, 34, lit), 10))
    pen.solid(seg(*around(centre, 44, lit), *tip))
    _turn(pen, centre, 80, start=70, end=110)
    pen.caption = "one turn of the shaft"
    pen.each([around(centre, 58, angle) for angle in angles], lambda _x, _y: None)


def rim_run_out(pen: Pen) -> None:
    """An indicator on a rim."""
    pen.ink(ring(140, MIDDLE, 60), ring(140, MIDDLE, 14))
    pen.centre(seg(72, MIDDLE, 208, MIDDLE), seg(140, 4, 140, 140))
    dial(pen, (200, MIDDLE), (1, 0), reach=26)
    _turn(pen, (140, MIDDLE), 40)
    pen.caption = "one turn"
    pen.each(((186, y) for y in spread(len(pen.spots), MIDDLE - 12, MIDDLE + 12)), lambda _x, _y: None)


def cam_base(pen: Pen) -> None:
    """An indicator on the base circle of a cam."""
    pen.ink("M128 50A36 36 0 1 0 192 50L172 20A13 13 0 0 0 148 20z", ring(160, 66.5, 8))
    pen.centre(seg(112, 66, 208, 66), seg(160, 4, 160, 110))
    dial(pen, (160, 103), (0, 1), reach=6)
    pen.light(arc((160, 66), 46, 120, 240))
    pen.arrow(around((160, 66), 46, 228), around((160, 66), 46, 242))
    pen.arrow(around((160, 66), 46, 132), around((160, 66), 46, 118))
    pen.caption = "on the base circle only"
    pen.each(((160, 90) for _ in pen.spots), lambda _x, _y: None)


def rod_form(pen: Pen) -> None:
    """A rod on arbors through both eyes: how far they lie out of true over a length."""
    rod(pen)
    for x in (66.0, 246.0):
        pen.thin(seg(x, 94, x, 130))
    dial(pen, (246, 50), (0, -1), reach=12)
    pen.pinch((236, 112), (256, 112), tail=26)
    pen.caption = "arbors in both eyes"
    pen.each(((246, 112) for _ in pen.spots), lambda _x, _y: None)


def rod_length(pen: Pen) -> None:
    """A rod from the centre of one eye to the other."""
    rod(pen)
    pen.extend(((76, MIDDLE), (76, 12)), ((246, MIDDLE), (246, 12)))
    pen.span((76, 18), (246, 18))
    pen.caption = "centre to centre"
    pen.each(((161, 18) for _ in pen.spots), lambda _x, _y: None)


def rod(pen: Pen) -> None:
    """A connecting rod, its big end to the left."""
    pen.ink(ring(76, MIDDLE, 28), ring(76, MIDDLE, 42), ring(246, MIDDLE, 13), ring(246, MIDDLE, 22))
    pen.ink(seg(116, MIDDLE - 12, 226, MIDDLE - 9), seg(116, MIDDLE + 12, 226, MIDDLE + 9))
    pen.thin(seg(76, MIDDLE - 42, 76, MIDDLE - 28), seg(76, MIDDLE + 28, 76, MIDDLE + 42))
    pen.centre(seg(24, MIDDLE, 282, MIDDLE))


def _turn(pen: Pen, centre: Point, radius: float, start: float = 40.0, end: float = 140.0) -> None:
    """An arrow along a part of a circle: it is turned."""
    pen.light(arc(centre, radius, start, end))
    tip = around(centre, radius, end)
    back = around(centre, radius, end - 500.0 / radius)
    pen.arrow(back, tip)


def spring_balance_on_shaft(pen: Pen) -> None:
    """A torque gauge or balance on an arm, turning the shaft."""
    centre = (110.0, MIDDLE + 12)
    pen.ink(ring(*centre, 34), ring(*centre, 14))
    pen.solid(box(centre[0], centre[1] - 6, 150, 12), ring(*centre, 10))
    pen.centre(seg(66, centre[1], 284, centre[1]), seg(centre[0], 34, centre[0], 130))
    pen.arrow((260, centre[1] + 6), (260, centre[1] - 54))
    _turn(pen, centre, 48, start=230, end=310)
    pen.caption = "turning steadily"
    pen.each(((x, centre[1]) for x in spread(len(pen.spots), 140, 240)), lambda _x, _y: None)
