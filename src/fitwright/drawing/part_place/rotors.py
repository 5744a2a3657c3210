"""Oil pumps: rotors and gears in their body, depths, the pump around the crank, the pickup."""

from __future__ import annotations

from math import cos, radians

from fitwright.drawing.part_place.pen import MIDDLE, Pen
from fitwright.drawing.part_place.shapes import box, corners, poly, ring, seg
from fitwright.drawing.part_place.spots import Point, around, planes_of, spread
from fitwright.drawing.part_place.tools import depth_gauge, straight_edge


def end_clearance(pen: Pen) -> None:
    """A straight-edge over the body, a blade between it and the rotors."""
    face, top, floor = 62.0, 72.0, 116.0
    _pocket(pen, face, floor)
    count = len(pen.spots)
    points = [(x, (face + top) / 2) for x in spread(count, 76, 244)]
    width = 160.0 / count
    for spot, (x, _) in zip(pen.spots, points, strict=True):
        metal = corners(x - width / 2, top, width - 2, floor - top)
        pen.cut(metal, falling=True)
        pen.ink(poly(metal))
        if spot.plane is not None:
            pen.write(x, 146, spot.plane.replace("_", " "))
    straight_edge(pen, 26, face, 268)
    pen.caption = "under the straight-edge"
    pen.each(points, lambda x, y: _gap(pen, x, y, top - face))


def depth(pen: Pen) -> None:
    """The depth of a pocket, from its face to its floor."""
    face, floor = 50.0, 112.0
    _pocket(pen, face, floor)
    points = [(x, (face + floor) / 2) for x in spread(len(pen.spots), 78, 242)]
    lit = points[pen.lit_index][0]
    pen.solid(box(34, face - 10, 252, 10), box(lit - 6, face - 34, 12, 24))
    for spot, (x, _) in zip(pen.spots, points, strict=True):
        if spot.plane is not None:
            pen.write(x, 146, spot.plane.replace("_", " "))
    pen.each(points, lambda x, _y: pen.span((x, face), (x, floor)))


def groove(pen: Pen) -> None:
    """The depth of a groove in a face."""
    metal = [(40, 56), (124, 56), (124, 86), (196, 86), (196, 56), (280, 56), (280, 122), (40, 122)]
    pen.cut(metal)
    pen.ink(poly(metal))
    points = [(x, 71.0) for x in spread(len(pen.spots), 126, 194)]
    lit = points[pen.lit_index][0]
    depth_gauge(pen, lit, 56, 86)
    pen.each(points, lambda x, _y: pen.span((x, 56), (x, 86)))
    for spot, (x, _) in zip(pen.spots, points, strict=True):
        if spot.plane is not None:
            pen.write(x + (x - 160) * 2.4, 140, spot.plane.replace("_", " "))


def thickness(pen: Pen) -> None:
    """Rotors or gears from their faces with the places on them, and their thickness in section."""
    names = [spot.plane or "" for spot in pen.spots if spot.degrees is None]
    apart = len(names) == 2 and all(len(name) > 1 for name in names)
    points = _two_faces(pen, names) if apart else _one_face(pen)
    metal = corners(212, MIDDLE - 15, 84, 30)
    pen.cut(metal)
    pen.ink(poly(metal))
    pen.pinch((254, MIDDLE - 15), (254, MIDDLE + 15), tail=34)
    pen.each(points, lambda _x, _y: None)


def tip_clearance(pen: Pen) -> None:
    """The lobes of both rotors, a blade where they come closest."""
    centre, rise = (160.0, MIDDLE - 2), 4.0
    count = len(pen.spots) if len(pen.spots) > 2 else 5
    pen.ink(ring(*centre, 54), poly(_lobes(centre, 40, rise, count)))
    pen.ink(
        poly(_lobes((centre[0], centre[1] - rise), 33.6, rise, count - 1)),
        ring(centre[0], centre[1] - rise, 11),
    )
    angles = [(index + 0.5) * 360.0 / count for index in range(len(pen.spots))]
    pen.caption = "lobe to lobe"
    pen.each([around(centre, 35, angle) for angle in angles], lambda x, y: _tip(pen, centre, (x, y)))
    for spot, angle in zip(pen.spots, angles, strict=True):
        if spot.plane is not None and spot.id != pen.lit.id:
            x, y = around(centre, 64, angle)
            pen.write(x, y + 4, spot.plane.split("_")[-1])


def body_gap(pen: Pen) -> None:
    """The outer rotor or gear pushed to one side of its bore, a blade at the other."""
    pen.cut(corners(72, 6, 176, 132), [around((160, MIDDLE), 58, step * 10.0) for step in range(36)])
    pen.ink(box(72, 6, 176, 132), ring(160, MIDDLE, 58), ring(156, MIDDLE, 50), ring(156, MIDDLE, 20))
    pen.centre(seg(84, MIDDLE, 236, MIDDLE), seg(156, 60, 156, 84))
    pen.blade(box(206.5, MIDDLE - 22, 11, 44))
    pen.arrow((176, MIDDLE), (205, MIDDLE))
    pen.arrow((248, MIDDLE), (219, MIDDLE))
    pen.each(((212, y) for y in spread(len(pen.spots), MIDDLE - 22, MIDDLE + 22)), lambda _x, _y: None)


def around_shaft(pen: Pen) -> None:
    """A housing around the crank: gaps in the directions, the crank's position shown by its key."""
    centre = (160.0, MIDDLE)
    cranks = sorted({spot.crank for spot in pen.spots if spot.crank is not None})
    pen.cut(
        [around(centre, 66, step * 10.0) for step in range(36)],
        [around(centre, 42, step * 10.0) for step in range(36)],
    )
    pen.ink(ring(*centre, 66), ring(*centre, 42), ring(*centre, 31))
    turned = pen.lit.crank or 0.0
    pen.ink(
        seg(*around(centre, 18, turned), *around(centre, 31, turned)), ring(*around(centre, 18, turned), 3)
    )
    pen.centre(seg(84, MIDDLE, 236, MIDDLE), seg(160, 2, 160, 142))
    points = []
    for spot in pen.spots:
        aside = cranks.index(spot.crank) * 17.0 if spot.crank in cranks else 0.0
        angle = spot.degrees or 0.0
        along = aside - (len(cranks) - 1) * 8.5
        x, y = around(centre, 54, angle)
        points.append((x + along * abs(cos(radians(angle))), y + along * (1 - abs(cos(radians(angle))))))
    pen.each(points, lambda _x, _y: None)
    lit = pen.lit.degrees or 0.0
    pen.light(seg(*around(centre, 33, lit), *around(centre, 40, lit)), cls="place-blade-end")
    pen.arrow(around(centre, 4, lit), around(centre, 31, lit))
    pen.arrow(around(centre, 86, lit), around(centre, 42, lit))


def pickup_gap(pen: Pen) -> None:
    """The pickup over the floor of the sump, clay pressed between them."""
    floor = [(44, 104), (276, 104), (276, 118), (44, 118)]
    pen.cut(floor)
    pen.ink(poly(floor), seg(44, 104, 30, 40), seg(276, 104, 290, 40))
    pen.ink(poly([(146, 8), (146, 44), (100, 76), (220, 76), (174, 44), (174, 8)], closed=False))
    pen.centre(seg(160, 4, 160, 130))
    pen.blade("M126 103q-8 -14 6 -26h26q14 12 6 26z")
    pen.extend(((220, 76), (262, 76)))
    pen.span((246, 76), (246, 104))
    pen.caption = "pickup to the floor"
    pen.each(((246, 90) for _ in pen.spots), lambda _x, _y: None)


def o_ring(pen: Pen) -> None:
    """The section of an O-ring."""
    for x in (92.0, 228.0):
        section = [around((x, MIDDLE), 24, step * 20.0) for step in range(18)]
        pen.cut(section)
        pen.ink(ring(x, MIDDLE, 24))
    pen.thin(seg(92, MIDDLE - 24, 228, MIDDLE - 24), seg(92, MIDDLE + 24, 228, MIDDLE + 24))
    pen.centre(seg(160, 20, 160, 124))
    pen.pinch((92, MIDDLE - 24), (92, MIDDLE + 24), tail=34)
    pen.each(((92, MIDDLE) for _ in pen.spots), lambda _x, _y: None)


def _pocket(pen: Pen, face: float, floor: float) -> None:
    """A body in section, its pocket open upwards."""
    metal = [
        (32, face),
        (70, face),
        (70, floor),
        (250, floor),
        (250, face),
        (288, face),
        (288, 132),
        (32, 132),
    ]
    pen.cut(metal)
    pen.ink(poly(metal))


def _gap(pen: Pen, x: float, y: float, gap: float) -> None:
    """A blade in a gap that lies flat, arrows on both of its faces."""
    pen.blade(box(x - 26, y - gap / 2 + 0.8, 52, gap - 1.6))
    pen.arrow((x, y - gap / 2 - 38), (x, y - gap / 2))
    pen.arrow((x, y + gap / 2 + 34), (x, y + gap / 2))


def _lobes(centre: Point, radius: float, rise: float, count: int) -> list[Point]:
    """A rotor whose lobes rise and fall `count` times around it, the first rise at the top."""
    step = 360.0 / (count * 8)
    return [
        around(centre, radius + rise * cos(radians(count * index * step)), index * step)
        for index in range(count * 8)
    ]


def _one_face(pen: Pen) -> list[Point]:
    """One face with its places around it; on two rings where the sheet names an inner and an outer part."""
    centre = (100.0, MIDDLE)
    planes = planes_of(pen.spots) if any(spot.degrees is not None for spot in pen.spots) else ()
    radii = [26.0, 50.0] if len(planes) > 1 else [42.0]
    pen.ink(ring(*centre, 60), ring(*centre, 12), *([ring(*centre, 38)] if len(planes) > 1 else []))
    pen.centre(seg(100, 4, 100, 140), seg(32, MIDDLE, 168, MIDDLE))
    points = []
    for index, spot in enumerate(pen.spots):
        radius = radii[(planes.index(spot.plane) if spot.plane in planes else 0) % len(radii)]
        angle = spot.degrees if spot.degrees is not None else index * 360.0 / len(pen.spots)
        points.append(around(centre, radius, angle))
    return points


def _two_faces(pen: Pen, names: list[str]) -> list[Point]:
    """Two parts beside each other, each with its name."""
    centres = [(52.0, MIDDLE), (148.0, MIDDLE)]
    for name, (x, y) in zip(names, centres, strict=True):
        pen.ink(ring(x, y, 42), ring(x, y, 10))
        pen.centre(seg(x - 48, y, x + 48, y), seg(x, y - 48, x, y + 48))
        pen.write(x, y + 64, name.replace("_", " "))
    return [around(centre, 26, 45) for centre in centres]


def _tip(pen: Pen, centre: Point, point: Point) -> None:
    dx, dy = point[0] - centre[0], point[1] - centre[1]
    length = (dx * dx + dy * dy) ** 0.5
    ux, uy = dx / length, dy / length
    pen.arrow((point[0] - 30 * ux, point[1] - 30 * uy), (point[0] - 7 * ux, point[1] - 7 * uy))
    pen.arrow((point[0] + 34 * ux, point[1] + 34 * uy), (point[0] + 7 * ux, point[1] + 7 * uy))
