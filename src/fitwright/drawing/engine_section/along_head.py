"""Head and valve train along the crank, in the frame of one bank; its cylinders stand upright."""

from __future__ import annotations

from math import pi, sqrt

from fitwright.drawing.engine_section import valves as v
from fitwright.drawing.engine_section.figure import Figure
from fitwright.drawing.engine_section.ink import Ink
from fitwright.drawing.engine_section.outline import Outline, round_box, rounded
from fitwright.model.throws import Throw

COVER = 1.40
"""Top of the cover over overhead camshafts, as a share of the bore above the head's face."""
PUSHROD_COVER = 1.22
FLAT_HEAD = 0.30
"""Height of a head without valves."""


def in_a_row(figure: Figure) -> bool:
    """Whether inlet and exhaust valves stand in one row along the crank."""
    return figure.layout.valves_per_cylinder <= 2 and not figure.twin_cams and not figure.rockers


def row_of(figure: Figure, after_top: float) -> list[v.Valve]:
    """The valves of a cylinder that the plane of the drawing shows."""
    count = figure.layout.valves_per_cylinder
    if in_a_row(figure):
        places = [("inlet", 0.24), ("exhaust", -0.24)]
    else:
        shares = {2: (0.0,), 3: (-0.2, 0.2), 4: (-0.21, 0.21)}.get(count, (-0.3, 0.0, 0.3))
        places = [("inlet", share) for share in shares]
    b = figure.sizes.bore
    return [
        v.Valve(
            side, share * b, v.head_radius(figure, side), v.lift(side, after_top), v.cam_turn(side, after_top)
        )
        for side, share in places
    ]


def draw_head(ink: Ink, figure: Figure, throws: list[Throw]) -> None:
    """Gasket, head with chambers, valves and what works them."""
    b = figure.sizes.bore
    left, right = figure.front, figure.rear
    ink.box(left, figure.deck, right, figure.face, "solid")
    upright = ink.framed(lambda point: (point[0], point[1] + figure.face))
    if figure.two_stroke or figure.side_valve:
        _flat_head(upright, figure, throws)
    else:
        _cover(upright, figure)
        _body(upright, figure, throws)
        _train(upright, figure, throws)
    for throw in throws:
        z = figure.rod_place(throw)
        upright.place("chamber", (z, 0.03 * b), throw.cylinder)
        upright.place("gasket", (z + 0.55 * b, -figure.gasket / 2), throw.cylinder)


def _flat_head(ink: Ink, figure: Figure, throws: list[Throw]) -> None:
    b = figure.sizes.bore
    height = FLAT_HEAD * b
    ink.draw(
        rounded(
            [(figure.front, 0.0), (figure.rear, 0.0), (figure.rear, height), (figure.front, height)], 0.04 * b
        ),
        "cut",
    )
    for throw in throws:
        z = figure.rod_place(throw)
        roof = 0.13 * b if figure.two_stroke else 0.08 * b
        chamber = (
            Outline()
            .move((z - 0.46 * b, 0.0))
            .curve((z - 0.4 * b, roof * 1.3), (z + 0.4 * b, roof * 1.3), (z + 0.46 * b, 0.0))
        )
        ink.draw(chamber.close(), "void")
        _plug(ink, b, z, roof * 0.95)
        if figure.air_cooled:
            for index in range(5):
                y = height + 0.05 * b + index * 0.07 * b
                ink.line((z - 0.55 * b, y), (z - 0.08 * b, y), cls="fin")
                ink.line((z + 0.08 * b, y), (z + 0.55 * b, y), cls="fin")


def _plug(ink: Ink, b: float, z: float, foot: float) -> None:
    """A sparking plug, uncut."""
    ink.box(z - 0.035 * b, foot, z + 0.035 * b, foot + 0.24 * b, "part")
    ink.box(z - 0.075 * b, foot + 0.22 * b, z + 0.075 * b, foot + 0.31 * b, "part")
    ink.box(z - 0.045 * b, foot + 0.31 * b, z + 0.045 * b, foot + 0.52 * b, "part")
    ink.box(z - 0.02 * b, foot + 0.52 * b, z + 0.02 * b, foot + 0.58 * b, "part")


def _body(ink: Ink, figure: Figure, throws: list[Throw]) -> None:
    b = figure.sizes.bore
    top = v.SPRING[0] * b
    ink.draw(
        rounded([(figure.front, 0.0), (figure.rear, 0.0), (figure.rear, top), (figure.front, top)], 0.03 * b),
        "cut",
    )
    for throw in throws:
        z = figure.rod_place(throw)
        chamber = [
            (z - 0.47 * b, 0.0),
            (z - 0.40 * b, 0.10 * b),
            (z + 0.40 * b, 0.10 * b),
            (z + 0.47 * b, 0.0),
        ]
        ink.draw(rounded(chamber, 0.02 * b), "void")
        for valve in row_of(figure, figure.after_top(throw)):
            x = z + valve.u
            port = round_box(x - 0.82 * valve.radius, 0.12 * b, x + 0.82 * valve.radius, 0.34 * b, 0.07 * b)
            ink.draw(port, "void")
        for way in (-1, 1):
            edge = z + way * figure.wall_pitch / 2
            ink.draw(
                round_box(edge - way * 0.02 * b, 0.13 * b, edge - way * 0.085 * b, 0.38 * b, 0.02 * b), "void"
            )


def _cover(ink: Ink, figure: Figure) -> None:
    b = figure.sizes.bore
    top = (COVER if figure.overhead_cams else PUSHROD_COVER) * b
    low = v.SPRING[0] * b
    cover = [
        (figure.front, low),
        (figure.rear, low),
        (figure.rear - 0.02 * b, top),
        (figure.front + 0.02 * b, top),
    ]
    ink.draw(rounded(cover, 0.12 * b), "wall")


def _train(ink: Ink, figure: Figure, throws: list[Throw]) -> None:
    for throw in throws:
        z = figure.rod_place(throw)
        for valve in row_of(figure, figure.after_top(throw)):
            standing = ink.turned(0.0, (z, 0.0))
            v.draw_valve(standing, figure, valve, throw.cylinder)
            if figure.overhead_cams and not figure.rockers:
                v.draw_bucket(standing, figure, valve, throw.cylinder)
    if figure.overhead_cams:
        _camshaft(ink, figure, throws)
    if figure.rockers or figure.pushrods:
        _rockers(ink, figure, throws)


def _camshaft(ink: Ink, figure: Figure, throws: list[Throw]) -> None:
    """The camshaft above the valves, with its bearings between the cylinders."""
    b = figure.sizes.bore
    level = v.CAM * b
    start = figure.front - 0.30 * b
    ink.box(start, level - 0.075 * b, figure.rear - 0.05 * b, level + 0.075 * b, "part")
    for throw in throws:
        z = figure.rod_place(throw)
        for valve in row_of(figure, figure.after_top(throw)):
            low, high = v.cam_reach(figure, _nose_way(valve))
            x, half = z + valve.u, 0.10 * b
            ink.draw(round_box(x - half, level + low, x + half, level + high, 0.015 * b), "part")
            ink.place("cam", (x + half, level + high * 0.7), throw.cylinder)
    edges = [figure.rod_place(throw) - figure.wall_pitch / 2 for throw in throws]
    for place in (*edges, figure.rod_place(throws[-1]) + figure.wall_pitch / 2):
        x = min(max(place, figure.front + 0.09 * b), figure.rear - 0.09 * b)
        ink.draw(round_box(x - 0.055 * b, v.SPRING[0] * b, x + 0.055 * b, level, 0.02 * b), "cut")
        ink.draw(round_box(x - 0.055 * b, level, x + 0.055 * b, level + 0.24 * b, 0.03 * b), "cut other")
        ink.box(x - 0.055 * b, level - 0.12 * b, x + 0.055 * b, level + 0.12 * b, "part")
        ink.place("cam_bearing", (x, level + 0.12 * b))
    ink.line((start - 0.1 * b, level), (figure.rear + 0.05 * b, level), cls="centre")
    ink.place("timing", (start + 0.02 * b, level + 0.05 * b))


def _nose_way(valve: v.Valve) -> float:
    """Where a nose points: straight down at the valve, when the valve is widest open."""
    return pi + valve.turn


def _rockers(ink: Ink, figure: Figure, throws: list[Throw]) -> None:
    b = figure.sizes.bore
    level = (v.TIP + 0.06) * b
    ink.box(figure.front + 0.1 * b, level + 0.035 * b, figure.rear - 0.1 * b, level + 0.125 * b, "part")
    for throw in throws:
        z = figure.rod_place(throw)
        for valve in row_of(figure, figure.after_top(throw)):
            x, down = z + valve.u, -valve.lift * b
            pad = round_box(
                x - 0.055 * b, v.TIP * b + down - 0.005 * b, x + 0.055 * b, level + 0.16 * b, 0.03 * b
            )
            ink.draw(pad, "part")
            ink.place("follower", (x + 0.055 * b, level + 0.08 * b), throw.cylinder)
            ink.place("lash", (x, v.TIP * b + down), throw.cylinder)
        edge = z + figure.wall_pitch / 2 - 0.02 * b
        if edge < figure.rear - 0.1 * b:
            ink.draw(
                round_box(edge - 0.06 * b, v.SPRING[0] * b, edge + 0.06 * b, level + 0.16 * b, 0.03 * b),
                "cut",
            )


def draw_low_camshaft(ink: Ink, figure: Figure) -> None:
    """A camshaft in the block, and the valves of a side-valve engine: behind the plane, so hidden."""
    b = figure.sizes.bore
    level = low_cam_level(figure)
    ink.box(figure.front - 0.25 * b, level - 0.1 * b, figure.rear - 0.06 * b, level + 0.1 * b, "hidden")
    ink.line((figure.front - 0.35 * b, level), (figure.rear, level), cls="centre")
    for main in figure.mains:
        ink.place("cam_bearing", (main, level + 0.1 * b))
    for throw in (throw for throw in figure.crank.throws if throw.bank == figure.banks - 1):
        for valve in row_of(figure, figure.after_top(throw)):
            x = figure.rod_place(throw) + valve.u
            low, high = v.cam_reach(figure, _nose_way(valve) + pi)
            ink.box(x - 0.07 * b, level + low, x + 0.07 * b, level + high, "hidden")
            ink.place("cam", (x, level + high), throw.cylinder)
            foot = level + 0.16 * b
            if figure.side_valve:
                _side_valve(ink, figure, valve, x, throw.cylinder)
            elif figure.pushrods:
                tip = figure.face + (v.TIP + 0.06) * b
                ink.line((x, foot), (x, tip), cls="hidden")
            ink.place("timing", (figure.front - 0.2 * b, level))


def _side_valve(ink: Ink, figure: Figure, valve: v.Valve, x: float, number: int) -> None:
    b, deck = figure.sizes.bore, figure.deck
    top = deck + valve.lift * b
    ink.line((x - valve.radius, top), (x + valve.radius, top), cls="hidden")
    ink.line((x, top), (x, low_cam_level(figure) + 0.25 * b), cls="hidden")
    ink.place("valve", (x + valve.radius * 0.8, top), number)
    ink.place("seat", (x - valve.radius * 0.8, deck), number)
    ink.place("guide", (x, deck - 0.35 * b), number)
    ink.place("spring", (x, deck - 0.7 * b), number)
    ink.place("follower", (x, low_cam_level(figure) + 0.25 * b), number)
    ink.place("lash", (x, low_cam_level(figure) + 0.30 * b), number)


def low_cam_level(figure: Figure) -> float:
    """Height of a camshaft in the block above the crank's axis, seen from the side."""
    out, b = figure.case + 0.16 * figure.sizes.bore, figure.sizes.bore
    return out if figure.banks > 1 else sqrt(max(out**2 - (0.74 * b) ** 2, (0.3 * b) ** 2))
