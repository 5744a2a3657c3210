"""Bores, in section: split housings, bushes, cylinders, guides, eyes, bosses, pump bodies."""

from __future__ import annotations

from fitwright.drawing.part_place.pen import MIDDLE, Pen
from fitwright.drawing.part_place.round_view import RoundView
from fitwright.drawing.part_place.shapes import arc, box, corners, disc, poly, ring, seg

_WALL = 17.0


def housing(pen: Pen, *, shells: bool = False) -> None:
    """A housing divided at its joint, bolted together; with its shells in place if asked."""
    view = _lying(pen, split=True)
    if shells:
        x, r = view.x, view.radius
        for y in (MIDDLE - r - 5, MIDDLE + r + 5):
            pen.ink(seg(x - 50, y, x + 50, y))
    if view.end is not None:
        ex, ey = view.end
        outer = view.end_radius + _WALL
        pen.ink(
            seg(ex - outer - 6, ey, ex - view.end_radius, ey),
            seg(ex + view.end_radius, ey, ex + outer + 6, ey),
        )
        if shells:
            pen.ink(ring(ex, ey, view.end_radius + 4))
    view.places()


def fitted_housing(pen: Pen) -> None:
    """A divided housing with its shells in place."""
    housing(pen, shells=True)


def bush(pen: Pen) -> None:
    """A plain bore through metal."""
    _lying(pen, split=False).places()


def cylinder(pen: Pen) -> None:
    """A cylinder from its top face down, and seen from above."""
    view = RoundView(pen, length=104, radius=36, vertical=True, inside=True)
    _standing_walls(pen, view, thick=16, half=56)
    view.places()


def guide(pen: Pen) -> None:
    """A narrow standing bore: a valve guide, the bore of a plunger or follower."""
    view = RoundView(pen, length=100, radius=17, vertical=True, inside=True)
    _standing_walls(pen, view, thick=22, half=54)
    view.places()


def counterbore(pen: Pen) -> None:
    """A shallow hole with a floor, for a seat, a plug, a seal; around it where the sheet says angles."""
    if any(spot.degrees is not None for spot in pen.spots):
        bush(pen)
        return
    x, top, floor = 160.0, MIDDLE - 24, MIDDLE + 16
    outline = [(x - 110, top), (x - 62, top), (x - 62, floor), (x - 30, floor), (x - 30, MIDDLE + 44)]
    left = [*outline, (x - 110, MIDDLE + 44)]
    right = [(2 * x - px, py) for px, py in left]
    pen.cut(left)
    pen.cut(right)
    pen.ink(poly(left), poly(right), seg(x - 62, top, x + 62, top), seg(x - 30, floor, x + 30, floor))
    pen.centre(seg(x, top - 14, x, MIDDLE + 54))
    pen.span((x - 62, MIDDLE - 4), (x + 62, MIDDLE - 4))
    pen.each(((x, MIDDLE - 4) for _ in pen.spots), lambda _x, _y: None)


def pin_boss(pen: Pen) -> None:
    """The pin bore of a piston, through both bosses."""
    view = RoundView(pen, length=116, radius=16, inside=True)
    x = view.x
    top, foot = MIDDLE - 56, MIDDLE + 58
    crown = corners(x - 74, top, 148, 16)
    bosses = [corners(x + side, y, 38, 12) for side in (-66, 28) for y in (MIDDLE - 28, MIDDLE + 16)]
    for metal in (crown, *bosses):
        pen.cut(metal)
        pen.ink(poly(metal))
    pen.ink(box(x - 74, top, 8, foot - top), box(x + 66, top, 8, foot - top))
    _end_metal(pen, view)
    view.places()


def gear_body(pen: Pen) -> None:
    """The two bores of a gear pump's body, seen from the cover."""
    radius, y, ways = 38.0, 60.0, (128.0, 192.0)
    outline = [*disc(ways[0], y, radius, 122.7, 417.3), *disc(ways[1], y, radius, -57.3, 237.3)]
    pen.cut(corners(66, 4, 188, 112), outline)
    pen.ink(
        box(66, 4, 188, 112), arc((ways[0], y), radius, 122.7, 57.3), arc((ways[1], y), radius, 302.7, 237.3)
    )
    for x in ways:
        pen.centre(seg(x - 8, y, x + 8, y), seg(x, y - radius - 6, x, y + radius + 6))
    spots = [(ways[index % 2], y) for index in range(len(pen.spots))]
    pen.each(spots, lambda x, _y: pen.span((x, y - radius), (x, y + radius)))
    for spot, (x, _) in zip(pen.spots, spots, strict=True):
        if spot.plane is not None:
            pen.write(x, 134, spot.plane.replace("_", " "))


def _lying(pen: Pen, *, split: bool) -> RoundView:
    view = RoundView(pen, length=100, radius=30, inside=True)
    x, r = view.x, view.radius
    for y, falling in ((MIDDLE - r - _WALL - 3, False), (MIDDLE + r, split)):
        metal = corners(x - 50, y, 100, _WALL + 3)
        pen.cut(metal, falling=falling)
        pen.ink(poly(metal))
    pen.ink(seg(x - 50, MIDDLE - r, x - 50, MIDDLE + r), seg(x + 50, MIDDLE - r, x + 50, MIDDLE + r))
    if split:
        pen.thin(seg(x - 50, MIDDLE, x + 50, MIDDLE))
    _end_metal(pen, view, split=split)
    return view


def _end_metal(pen: Pen, view: RoundView, *, split: bool = False) -> None:
    """The metal around the bore in the end view."""
    if view.end is None:
        return
    x, y = view.end
    outer, inner = view.end_radius + _WALL, view.end_radius
    pen.ink(ring(x, y, outer))
    if not split:
        pen.cut(disc(x, y, outer), disc(x, y, inner))
        return
    for start, falling in ((-90.0, False), (90.0, True)):
        half = [*disc(x, y, outer, start, start + 180), *reversed(disc(x, y, inner, start, start + 180))]
        pen.cut(half, falling=falling)


def _standing_walls(pen: Pen, view: RoundView, *, thick: float, half: float) -> None:
    x, r = view.x, view.radius
    for left in (x - r - thick, x + r):
        metal = corners(left, MIDDLE - half, thick, 2 * half)
        pen.cut(metal)
        pen.ink(poly(metal))
    pen.ink(seg(x - r, MIDDLE - half, x + r, MIDDLE - half), seg(x - r, MIDDLE + half, x + r, MIDDLE + half))
    _end_metal(pen, view)
