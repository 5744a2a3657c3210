"""Round parts measured outside: journals, pins, stems, rings and wheels."""

from __future__ import annotations

from fitwright.drawing.part_place.pen import MIDDLE, Pen
from fitwright.drawing.part_place.round_view import RoundView
from fitwright.drawing.part_place.shapes import box, poly, ring, seg
from fitwright.drawing.part_place.spots import around


def journal(pen: Pen) -> None:
    """A journal between the webs of a crank."""
    view = RoundView(pen, length=104, radius=30)
    left, right = view.x - 52, view.x + 52
    pen.ink(box(left - 20, MIDDLE - 56, 20, 112), box(right, MIDDLE - 56, 20, 112))
    pen.ink(seg(left, MIDDLE - 30, right, MIDDLE - 30), seg(left, MIDDLE + 30, right, MIDDLE + 30))
    pen.ink(_stub(left - 20, -14), _stub(right + 20, 14))
    view.places()


def shaft(pen: Pen) -> None:
    """A shaft with its shoulders, or a pin: free at both ends."""
    view = RoundView(pen, length=124, radius=28)
    left, right, top = view.x - 62, view.x + 62, MIDDLE - 28
    chamfer = [(left, top + 6), (left + 6, top), (right - 6, top), (right, top + 6)]
    pen.ink(poly([*chamfer, *((x, 2 * MIDDLE - y) for x, y in reversed(chamfer))]))
    pen.thin(seg(left + 6, top, left + 6, MIDDLE + 28), seg(right - 6, top, right - 6, MIDDLE + 28))
    view.places()


def valve_stem(pen: Pen) -> None:
    """The stem of a valve, standing on its head."""
    view = RoundView(pen, length=84, radius=18, vertical=True)
    x, top, neck = view.x, MIDDLE - 52, MIDDLE + 42
    right = [(x + 18, top), (x + 18, neck), (x + 23, neck + 12), (x + 46, neck + 21), (x + 46, neck + 27)]
    pen.ink(poly([*right, *((2 * x - px, py) for px, py in reversed(right))]))
    view.places()


def plunger(pen: Pen) -> None:
    """A plunger, follower or other short standing part, closed at its top."""
    view = RoundView(pen, length=96, radius=30, vertical=True)
    x = view.x
    pen.ink(box(x - 30, MIDDLE - 56, 60, 112))
    pen.thin(seg(x - 20, MIDDLE + 56, x - 20, MIDDLE - 40), seg(x - 20, MIDDLE - 40, x + 20, MIDDLE - 40))
    pen.thin(seg(x + 20, MIDDLE - 40, x + 20, MIDDLE + 56))
    view.places()


def wheel(pen: Pen) -> None:
    """A ring, seat or rotor seen from its face: the size across its outside."""
    _faces(pen, toothed=False)


def gear_outside(pen: Pen) -> None:
    """Gears seen from their faces: the size across the tips of their teeth."""
    _faces(pen, toothed=True)


def valve_head(pen: Pen) -> None:
    """The head of a valve, measured across its rim."""
    x, y = 160.0, MIDDLE + 18
    right = [(x + 9, 12), (x + 9, y - 22), (x + 16, y - 6), (x + 58, y + 12), (x + 58, y + 22)]
    pen.ink(poly([*right, *((2 * x - px, py) for px, py in reversed(right))]))
    pen.centre(seg(x, 6, x, y + 34))
    pen.pinch((x - 58, y + 17), (x + 58, y + 17), tail=34)
    pen.each(((x, y + 17) for _ in pen.spots), lambda _x, _y: None)


def _faces(pen: Pen, *, toothed: bool) -> None:
    """One or more faces side by side; with angles the places lie around the only one."""
    if any(spot.degrees is not None for spot in pen.spots):
        view = RoundView(pen, length=60, radius=40)
        pen.ink(box(view.x - 30, MIDDLE - 40, 60, 80))
        view.places()
        return
    count = len(pen.spots)
    radius = min(52.0, 84.0 / count)
    places = []
    for index, spot in enumerate(pen.spots):
        centre = (160 + (index - (count - 1) / 2) * 2.6 * radius, MIDDLE)
        if toothed:
            pen.ink(poly(_teeth(centre, radius)), ring(*centre, 0.3 * radius))
        else:
            pen.ink(ring(*centre, radius), ring(*centre, 0.72 * radius))
        pen.centre(seg(centre[0] - radius - 8, MIDDLE, centre[0] + radius + 8, MIDDLE))
        places.append(centre)
        if spot.id == pen.lit.id:
            tail = 20.0
            pen.pinch((centre[0], MIDDLE - radius), (centre[0], MIDDLE + radius), tail=tail)
        if spot.plane is not None:
            pen.write(centre[0], MIDDLE + radius + 32, spot.plane.replace("_", " "))
    pen.each(places, lambda _x, _y: None)


def _teeth(centre: tuple[float, float], radius: float, count: int = 10) -> list[tuple[float, float]]:
    step = 360.0 / count
    profile = ((-0.30, 0.78), (-0.16, 1.0), (0.16, 1.0), (0.30, 0.78))
    return [
        around(centre, radius * r, (tooth + share) * step) for tooth in range(count) for share, r in profile
    ]


def _stub(x: float, length: float) -> str:
    """The shaft going on, broken off."""
    end = x + length
    top, bottom = MIDDLE - 24, MIDDLE + 24
    bend = f"q{8 if length > 0 else -8} 12 0 24t0 24"
    return f"{seg(x, top, end, top)}{seg(x, bottom, end, bottom)}M{end:g} {top:g}{bend}"
