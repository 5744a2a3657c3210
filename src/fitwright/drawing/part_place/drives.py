"""Drives: gear teeth, chains and belts, flats, slots and tongues."""

from __future__ import annotations

from fitwright.drawing.part_place.pen import MIDDLE, Pen
from fitwright.drawing.part_place.shapes import arc, box, corners, n, poly, ring, seg
from fitwright.drawing.part_place.spots import Point, around, planes_of, spread
from fitwright.drawing.part_place.tools import dial, straight_edge


def backlash(pen: Pen) -> None:
    """Two gears in mesh, a dial indicator on a tooth, the gear rocked."""
    one, other = (104.0, MIDDLE), (186.0, MIDDLE)
    pen.ink(poly(_gear(one, 38, 12, 15.0)), poly(_gear(other, 38, 12, 0.0)), ring(*one, 9), ring(*other, 9))
    pen.centre(ring(*one, 41), ring(*other, 41))
    tooth = around(other, 44, 60)
    dial(pen, (tooth[0] + 4, tooth[1] - 2), (0.5, -0.866), reach=14)
    pen.light(arc(other, 56, 70, 110), cls="place-line")
    for end, way in ((70.0, -6.0), (110.0, 6.0)):
        pen.arrow(around(other, 56, end - way), around(other, 56, end + way))
    pen.caption = "rock the gear"
    angled = len(pen.spots) > 1
    points = [
        around(other, 24, spot.degrees or 0.0) if spot.degrees is not None else (0.0, 0.0)
        for spot in pen.spots
    ]
    if len(set(points)) < len(points) or not angled:
        points = [around(other, 24, 90.0 + index * 360.0 / len(points)) for index in range(len(points))]
    pen.each(points, lambda _x, _y: None)


def free_span(pen: Pen) -> None:
    """The free span of a chain or belt, between where it leaves its wheels."""
    _wheels(pen)
    pen.span((70, 18), (250, 18))
    pen.extend(((70, 44), (70, 10)), ((250, 44), (250, 10)))
    pen.each(((160, 18) for _ in pen.spots), lambda _x, _y: None)


def slack(pen: Pen) -> None:
    """How far a chain or belt goes in and out in the middle of its free span."""
    _wheels(pen)
    pen.thin("M70 44Q160 24 250 44", "M70 44Q160 64 250 44")
    pen.span((160, 24), (160, 66))
    pen.caption = "in the middle of the span"
    pen.each(((160, 45) for _ in pen.spots), lambda _x, _y: None)


def tension(pen: Pen) -> None:
    """A spring balance hooked into the middle of the free span."""
    _wheels(pen)
    pen.solid(box(148, 4, 24, 22), seg(160, 26, 160, 42))
    pen.arrow((190, 44), (190, 8))
    pen.caption = "in the middle of the span"
    pen.each(((160, 44) for _ in pen.spots), lambda _x, _y: None)


def alignment(pen: Pen) -> None:
    """A straight-edge on one wheel's face, a blade at the other."""
    pen.ink(box(70, 60, 30, 64), box(220, 68, 30, 56), box(30, 84, 40, 16), box(30 + 220, 84, 40, 16))
    straight_edge(pen, 56, 60, 208)
    pen.centre(seg(22, 92, 300, 92))
    pen.blade(box(220, 60.6, 30, 6.8))
    pen.arrow((262, 32), (262, 60))
    pen.arrow((262, 106), (262, 68))
    pen.each(((235, 86) for _ in pen.spots), lambda _x, _y: None)


def flats(pen: Pen) -> None:
    """The flats of a shaft: across them, along and at its end."""
    _side_and_end(pen, inside=False)


def slot(pen: Pen) -> None:
    """The slot that takes flats or a tongue: across it, along and at its end."""
    _side_and_end(pen, inside=True)


def tongue_engaged(pen: Pen) -> None:
    """How deep a tongue goes into its slot."""
    _tongue(pen)
    pen.extend(((150, 52), (150, 22)), ((214, 52), (214, 22)))
    pen.span((150, 30), (214, 30))
    pen.each(((182, 30) for _ in pen.spots), lambda _x, _y: None)


def tongue_gap(pen: Pen) -> None:
    """The gap left at the bottom of the slot."""
    _tongue(pen)
    pen.extend(((214, 52), (214, 20)), ((226, 52), (226, 20)))
    pen.pinch((214, 30), (226, 30), tail=30)
    pen.each(((220, MIDDLE) for _ in pen.spots), lambda _x, _y: None)


def slot_depth(pen: Pen) -> None:
    """The depth of a slot."""
    _tongue(pen, tongue=False)
    pen.span((150, MIDDLE), (226, MIDDLE))
    pen.each(((188, MIDDLE) for _ in pen.spots), lambda _x, _y: None)


def _side_and_end(pen: Pen, *, inside: bool) -> None:
    end: Point = (244.0, MIDDLE)
    half = 22.0
    if inside:
        for top in (MIDDLE - 50, MIDDLE + half):
            metal = corners(44, top, 110, 50 - half)
            pen.cut(metal)
            pen.ink(poly(metal))
        pen.ink(seg(44, MIDDLE - half, 44, MIDDLE + half), seg(154, MIDDLE - half, 154, MIDDLE + half))
        pen.ink(ring(*end, 50), box(end[0] - 34, MIDDLE - half, 68, 2 * half))
    else:
        pen.ink(box(44, MIDDLE - half, 110, 2 * half), box(20, MIDDLE - 34, 24, 68))
        wide = 26.0
        left, right, high, low = (n(v) for v in (end[0] - wide, end[0] + wide, MIDDLE - half, MIDDLE + half))
        pen.ink(f"M{left} {high}H{right}A34 34 0 0 1 {right} {low}H{left}A34 34 0 0 1 {left} {high}z")
    pen.centre(seg(14, MIDDLE, 166, MIDDLE), seg(188, MIDDLE, 300, MIDDLE), seg(end[0], 14, end[0], 130))
    planes = planes_of(pen.spots)
    xs = spread(len(pen.spots), 44, 154)
    for x, name in zip(xs, planes, strict=False):
        pen.thin(seg(x, MIDDLE - 46, x, MIDDLE + 46))
        pen.write(x, 138, name.replace("_", " "))
    measure = pen.span if inside else pen.pinch
    lit = xs[pen.lit_index]
    measure((lit, MIDDLE - half), (lit, MIDDLE + half))
    measure((end[0], MIDDLE - half), (end[0], MIDDLE + half))
    pen.each([(x, MIDDLE) for x in xs], lambda _x, _y: None)


def _tongue(pen: Pen, *, tongue: bool = True) -> None:
    metal = [(150, 20 + 12), (270, 32), (270, 112), (150, 112), (150, 92), (226, 92), (226, 52), (150, 52)]
    pen.cut(metal)
    pen.ink(poly(metal))
    if tongue:
        pen.ink(
            poly(
                [(40, 44), (118, 44), (118, 54), (214, 54), (214, 90), (118, 90), (118, 100), (40, 100)],
                closed=False,
            )
        )
    pen.centre(seg(28, MIDDLE, 284, MIDDLE))


def _wheels(pen: Pen) -> None:
    pen.ink(ring(70, 78, 34), ring(250, 78, 34), ring(70, 78, 8), ring(250, 78, 8))
    pen.ink(seg(70, 44, 250, 44), seg(70, 112, 250, 112))
    pen.centre(seg(60, 78, 80, 78), seg(240, 78, 260, 78))


def _gear(centre: Point, radius: float, count: int, turned: float) -> list[Point]:
    step = 360.0 / count
    profile = ((-0.32, 0.0), (-0.14, 9.0), (0.14, 9.0), (0.32, 0.0))
    return [
        around(centre, radius + out, (tooth + share) * step + 90 + turned)
        for tooth in range(count)
        for share, out in profile
    ]
