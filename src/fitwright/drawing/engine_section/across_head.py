"""The head of one bank seen from the nose: chamber, ports, valves at their angle, and what works them."""

from __future__ import annotations

from math import pi, radians, sin

from fitwright.drawing.engine_section import valves as v
from fitwright.drawing.engine_section.across_bank import SIDE_POCKET
from fitwright.drawing.engine_section.along_head import FLAT_HEAD, PUSHROD_COVER, in_a_row
from fitwright.drawing.engine_section.figure import Figure
from fitwright.drawing.engine_section.ink import Ink
from fitwright.drawing.engine_section.outline import Outline, Point, hull, round_box, rounded, taper, towards
from fitwright.model.throws import Throw


def valve_angle(figure: Figure) -> float:
    """How far a valve's stem leans from the cylinder's axis."""
    if in_a_row(figure):
        return radians(12.0)
    return radians(24.0 if figure.layout.valves_per_cylinder <= 3 else 17.0)


def inlet_way(figure: Figure, bank: int) -> int:
    """On which side of its axis the inlet stands: the inner one of a vee, else as the sheet calls it."""
    if figure.banks > 1:
        return 1 if bank == 0 else -1
    right = figure.sheet.engine.directions.right.lower()
    return 1 if "inlet" in right or "carburettor" in right or "intake" in right else -1


def draw_head(ink: Ink, figure: Figure, throw: Throw) -> None:
    """Gasket, head and valve train over one cylinder, in the frame of its bank."""
    b = figure.sizes.bore
    width = 0.80 if figure.air_cooled else 0.76
    left = -1.16 * b if figure.side_valve else -width * b
    ink.box(left, figure.deck, width * b, figure.face, "solid")
    ink.place("gasket", (width * b * 0.96, figure.deck + figure.gasket / 2), throw.cylinder)
    upright = ink.framed(lambda point: (point[0], point[1] + figure.face))
    if figure.two_stroke or figure.side_valve:
        _flat_head(upright, figure, left, width * b)
        return
    way = inlet_way(figure, throw.bank)
    if in_a_row(figure):
        _row(upright, figure, throw, way, width * b)
    else:
        _opposed(upright, figure, throw, way, width * b)


def _flat_head(ink: Ink, figure: Figure, left: float, right: float) -> None:
    b, height = figure.sizes.bore, FLAT_HEAD * figure.sizes.bore
    ink.draw(rounded([(left, 0.0), (right, 0.0), (right, height), (left, height)], 0.04 * b), "cut")
    reach = SIDE_POCKET * b - 0.24 * b if figure.side_valve else -0.46 * b
    roof = 0.17 * b
    chamber = Outline().move((reach, 0.0)).curve((reach, roof * 1.2), (0.30 * b, roof * 1.2), (0.46 * b, 0.0))
    ink.draw(chamber.close(), "void")
    plug = SIDE_POCKET * 0.5 * b if figure.side_valve else 0.0
    for half, low, high in (
        (0.035, 0.14, 0.36),
        (0.075, 0.34, 0.43),
        (0.045, 0.43, 0.64),
        (0.02, 0.64, 0.70),
    ):
        ink.box(plug - half * b, low * b, plug + half * b, high * b, "part")
    if figure.air_cooled:
        for index in range(5):
            y = height + 0.05 * b + index * 0.07 * b
            for way in (-1, 1):
                ink.line((way * 0.1 * b, y), (way * (0.78 - 0.05 * index) * b, y), cls="fin")


def _opposed(ink: Ink, figure: Figure, throw: Throw, way: int, width: float) -> None:
    """Inlet and exhaust valves on opposite sides of the axis, under one cam or two."""
    b, lean = figure.sizes.bore, valve_angle(figure)
    top = 0.60 * b
    ridge = top - 0.10 * b
    body = [
        (-width, 0.0),
        (width, 0.0),
        (width, 0.36 * b),
        (0.66 * b, top),
        (0.16 * b, ridge),
        (-0.16 * b, ridge),
    ]
    towers = [_tower(figure, sign, lean) for sign in (-1, 1)]
    ink.united([rounded([*body, (-0.66 * b, top), (-width, 0.36 * b)], 0.05 * b), *towers], "cut")
    roof = 0.47 * b * sin(lean) + 0.05 * b
    ink.draw(
        rounded(
            [(-0.48 * b, 0.0), (-0.44 * b, 0.03 * b), (0.0, roof), (0.44 * b, 0.03 * b), (0.48 * b, 0.0)],
            0.02 * b,
        ),
        "void",
    )
    after_top = figure.after_top(throw)
    stands = {}
    for side, sign in (("inlet", way), ("exhaust", -way)):
        _port(ink, figure, sign, width)
        seat = (sign * 0.23 * b, 0.5 * roof + 0.02 * b)
        origin = towards(seat, sign * lean, -v.SEAT * b)
        standing = ink.turned(sign * lean, origin)
        stands[side] = (standing, origin)
        valve = v.Valve(
            side, 0.0, v.head_radius(figure, side), v.lift(side, after_top), v.cam_turn(side, after_top)
        )
        _boss(standing, figure)
        v.draw_valve(standing, figure, valve, throw.cylinder)
        if not figure.rockers:
            v.draw_bucket(standing, figure, valve, throw.cylinder)
            v.draw_cam(standing, figure, (0.0, v.CAM * b), pi + figure.crank.sense * valve.turn)
            standing.place("cam", (0.0, (v.CAM + 0.12) * b), throw.cylinder)
            standing.place("cam_bearing", (0.085 * b * sign, v.CAM * b), throw.cylinder)
            standing.place("timing", (0.0, v.CAM * b - 0.05 * b))
    if figure.rockers:
        _central_cam(ink, figure, throw, way, lean)
    _plug(ink, b, roof)
    _cover(ink, figure, lean, width)


def _plug(ink: Ink, b: float, roof: float) -> None:
    for half, low, high in ((0.03, -0.03, 0.22), (0.065, 0.21, 0.29), (0.038, 0.29, 0.50)):
        ink.box(-half * b, roof + low * b, half * b, roof + high * b, "part")


def _tower(figure: Figure, sign: int, lean: float) -> Outline:
    """The metal in which the bucket of a leaning valve slides, or its spring stands."""
    b = figure.sizes.bore
    foot = (sign * 0.23 * b, 0.02 * b)
    return taper(
        towards(foot, sign * lean, 0.3 * b),
        0.5 * b,
        towards(foot, sign * lean, _tower_top(figure) * b),
        0.46 * b,
    )


def _tower_top(figure: Figure) -> float:
    return 0.50 if figure.rockers or figure.pushrods else 0.74


def _boss(ink: Ink, figure: Figure) -> None:
    """The hollow in the head in which a spring stands."""
    b = figure.sizes.bore
    hollow = Outline().move((-0.172 * b, 1.02 * _tower_top(figure) * b + v.SEAT * b))
    hollow.line((-0.172 * b, v.SPRING[0] * b), (0.172 * b, v.SPRING[0] * b))
    ink.draw(hollow.line((0.172 * b, 1.02 * _tower_top(figure) * b + v.SEAT * b)), "void")


def _port(ink: Ink, figure: Figure, sign: int, width: float) -> None:
    b = figure.sizes.bore
    path = Outline().move((sign * 0.08 * b, 0.14 * b)).line((sign * 0.42 * b, 0.10 * b))
    path.curve((sign * 0.52 * b, 0.16 * b), (sign * 0.6 * b, 0.17 * b), (sign * width, 0.16 * b))
    path.line((sign * width, 0.34 * b)).curve(
        (sign * 0.5 * b, 0.42 * b), (sign * 0.2 * b, 0.40 * b), (sign * 0.08 * b, 0.14 * b)
    )
    ink.draw(path.close(), "void")


def _cover(ink: Ink, figure: Figure, lean: float, width: float) -> None:
    b = figure.sizes.bore
    reach = 0.23 * b + (v.CAM + 0.02) * b * sin(lean) + 0.3 * b
    top = (1.46 if not figure.rockers else 1.30) * b
    reach = reach if not figure.rockers else width
    path = Outline().move((-width + 0.02 * b, 0.40 * b)).line((-reach, 0.66 * b), (-reach, top - 0.3 * b))
    path.curve((-reach, top), (-reach + 0.2 * b, top), (-reach + 0.3 * b, top)).line((reach - 0.3 * b, top))
    path.curve((reach - 0.2 * b, top), (reach, top), (reach, top - 0.3 * b)).line(
        (reach, 0.66 * b), (width - 0.02 * b, 0.40 * b)
    )
    ink.draw(path, "wall")


def _central_cam(ink: Ink, figure: Figure, throw: Throw, way: int, lean: float) -> None:
    """One cam between the valves, with a rocker to each."""
    b, after_top = figure.sizes.bore, figure.after_top(throw)
    centre: Point = (0.0, 0.88 * b)
    for side, sign in (("inlet", way), ("exhaust", -way)):
        down = -v.lift(side, after_top) * b
        tip = towards((sign * 0.23 * b, 0.03 * b), sign * lean, (v.TIP - v.SEAT + 0.1) * b + down)
        pivot = (sign * 0.26 * b, 1.12 * b)
        ink.united(
            [
                hull(pivot, 0.09 * b, tip, 0.05 * b),
                hull(pivot, 0.09 * b, (sign * 0.12 * b, 1.03 * b), 0.05 * b),
            ],
            "part",
        )
        ink.circle(pivot, 0.05 * b, "cut close")
        ink.place("follower", (pivot[0], pivot[1] + 0.06 * b), throw.cylinder)
        ink.place("lash", tip, throw.cylinder)
    v.draw_cam(ink, figure, centre, figure.crank.sense * v.cam_turn("inlet", after_top) + pi / 2, 0.10)
    ink.place("cam", (0.0, centre[1] + 0.1 * b), throw.cylinder)
    ink.place("cam_bearing", (0.08 * b, centre[1]), throw.cylinder)
    ink.place("timing", (-0.05 * b, centre[1]))


def _row(ink: Ink, figure: Figure, throw: Throw, way: int, width: float) -> None:
    """Valves in one row along the crank; the plane shows one of them, and both ports' common side."""
    b, after_top = figure.sizes.bore, figure.after_top(throw)
    lean = valve_angle(figure) * (1 if figure.pushrods else 0.4) * way
    top = v.SPRING[0] * b + 0.06 * b
    ink.draw(rounded([(-width, 0.0), (width, 0.0), (width, top), (-width, top)], 0.04 * b), "cut")
    ink.draw(
        rounded([(-0.46 * b, 0.0), (-0.36 * b, 0.13 * b), (0.36 * b, 0.13 * b), (0.46 * b, 0.0)], 0.04 * b),
        "void",
    )
    _port(ink, figure, way, width)
    ink.draw(round_box(-way * 0.35 * b, 0.2 * b, -way * 0.66 * b, 0.42 * b, 0.05 * b), "void")
    origin = (way * 0.12 * b, 0.02 * b)
    standing = ink.turned(lean, origin)
    _boss(standing, figure)
    valve = v.Valve(
        "inlet",
        0.0,
        v.head_radius(figure, "inlet"),
        v.lift("inlet", after_top),
        v.cam_turn("inlet", after_top),
    )
    v.draw_valve(standing, figure, valve, throw.cylinder)
    if not figure.pushrods:
        v.draw_bucket(standing, figure, valve, throw.cylinder)
        v.draw_cam(standing, figure, (0.0, v.CAM * b), pi + figure.crank.sense * valve.turn)
        standing.place("cam", (0.0, (v.CAM + 0.12) * b), throw.cylinder)
        standing.place("cam_bearing", (0.085 * b, v.CAM * b), throw.cylinder)
        standing.place("timing", (0.0, (v.CAM - 0.05) * b))
    high = (1.42 if not figure.pushrods else PUSHROD_COVER + 0.12) * b
    cover = Outline().move((-width + 0.02 * b, top)).line((-width + 0.06 * b, high - 0.25 * b))
    cover.curve((-width + 0.08 * b, high), (-width + 0.2 * b, high), (-width + 0.32 * b, high)).line(
        (width - 0.32 * b, high)
    )
    cover.curve((width - 0.2 * b, high), (width - 0.08 * b, high), (width - 0.06 * b, high - 0.25 * b)).line(
        (width - 0.02 * b, top)
    )
    ink.draw(cover, "wall")


def rocker_points(figure: Figure, throw: Throw, cam_side: int) -> tuple[Point, Point, Point]:
    """Where a pushrod's rocker stands, in the bank's frame: at the valve, its pivot, at the pushrod."""
    b, way = figure.sizes.bore, inlet_way(figure, throw.bank)
    lean = valve_angle(figure) * way
    down = -v.lift("inlet", figure.after_top(throw)) * b
    tip = towards((way * 0.12 * b, figure.face + 0.02 * b), lean, (v.TIP + 0.03) * b + down)
    push = (cam_side * 0.60 * b, figure.face + (v.TIP + 0.02) * b - 0.6 * down)
    pivot = ((tip[0] + push[0]) / 2, figure.face + (v.TIP + 0.17) * b)
    return tip, pivot, push
