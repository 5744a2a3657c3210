"""The oil side seen from the nose: sump, pump where it sits, pickup."""

from __future__ import annotations

from math import cos, pi, sin

from fitwright.drawing.engine_section.along_oil import rail, well
from fitwright.drawing.engine_section.figure import Figure
from fitwright.drawing.engine_section.ink import Ink
from fitwright.drawing.engine_section.outline import (
    Outline,
    Point,
    polygon,
    round_box,
    rounded,
    towards,
)


def case_wall(figure: Figure) -> float:
    """Thickness of the crankcase's wall."""
    return 0.085 * figure.sizes.bore


def foot(figure: Figure) -> float:
    """Lower edge of the crankcase."""
    if not figure.flat:
        return rail(figure)
    return -(figure.case + (0.09 if figure.overhead_cams or figure.two_stroke else 0.5) * figure.sizes.bore)


def draw_sump(ink: Ink, figure: Figure) -> None:
    """The sump under the crankcase."""
    b, edge = figure.sizes.bore, figure.case + case_wall(figure)
    top, deep = foot(figure), well(figure)
    if figure.flat:
        edge, deep = 0.8 * figure.case + case_wall(figure), min(deep, top - 0.55 * figure.sizes.bore)
    path = (
        Outline()
        .move((-edge - 0.06 * b, top))
        .line((-edge + 0.03 * b, top), (-0.82 * edge, deep), (0.82 * edge, deep))
    )
    ink.draw(path.line((edge - 0.03 * b, top), (edge + 0.06 * b, top)), "wall")
    ink.box(-0.09 * b, deep - 0.075 * b, 0.09 * b, deep - 0.012 * b, "part")
    if not figure.dry_sump and not figure.flat:
        ink.line((-0.84 * edge, deep + 0.42 * b), (0.84 * edge, deep + 0.42 * b), cls="level")
    ink.place("sump", (0.82 * edge, deep + 0.03 * b))


def draw_pump(ink: Ink, figure: Figure) -> None:
    """The pump: around the crank's nose in front of the plane, in the sump, or outside the case."""
    b = figure.sizes.bore
    if figure.pump == "none" or figure.two_stroke:
        return
    if figure.pump == "crank-driven internal rotor":
        _rotors_on_crank(ink, figure)
        _pickup(ink, figure, (-0.35 * b, well(figure) + 0.3 * b))
    elif figure.dry_sump:
        _outside(ink, figure)
    else:
        _in_sump(ink, figure)


def _rotors_on_crank(ink: Ink, figure: Figure) -> None:
    """In front of the plane of the section, so as phantom lines."""
    b, nose = figure.sizes.bore, 0.78 * figure.sizes.main_journal / 2
    pocket = min(max(figure.sizes.pocket / 2, nose + 0.18 * b), 0.95 * b)
    ink.circle((0.0, 0.0), pocket + 0.13 * b, "phantom")
    ink.circle((0.0, 0.0), pocket, "phantom")
    ink.place("pump", towards((0.0, 0.0), 1.9, pocket))
    ink.place("pump", towards((0.0, 0.0), -1.9, pocket))
    ink.place("pump_drive", towards((0.0, 0.0), 2.4, nose))
    ink.place("relief", towards((0.0, 0.0), -2.6, pocket + 0.13 * b))


def _in_sump(ink: Ink, figure: Figure) -> None:
    b = figure.sizes.bore
    low = well(figure) if not figure.flat else foot(figure) - 0.55 * b
    x, y = 0.30 * b, max(low + 0.34 * b, -(figure.case + 0.9 * b))
    ink.draw(round_box(x - 0.46 * b, y - 0.26 * b, x + 0.46 * b, y + 0.26 * b, 0.06 * b), "cut")
    if figure.pump == "chain-driven":
        draw_rotors(ink, (x, y), 0.21 * b)
        ink.line((x - 0.16 * b, y), (-0.3 * b, 0.0), cls="phantom")
        ink.line((x + 0.16 * b, y), (0.3 * b, 0.0), cls="phantom")
        ink.place("pump_drive", (x + 0.16 * b, y))
    else:
        draw_gears(ink, (x, y), 0.19 * b)
        drive = (x - 0.19 * b, y + 0.26 * b)
        ink.line(drive, (drive[0], -0.2 * b), cls="phantom")
        ink.place("pump_drive", (drive[0], drive[1]))
    ink.place("pump", (x + 0.3 * b, y + 0.12 * b))
    ink.draw(round_box(x + 0.46 * b, y - 0.07 * b, x + 0.80 * b, y + 0.07 * b, 0.02 * b), "cut")
    ink.box(x + 0.47 * b, y - 0.04 * b, x + 0.78 * b, y + 0.04 * b, "void")
    ink.spring((x + 0.58 * b, y), (x + 0.76 * b, y), 0.065 * b, 4)
    ink.place("relief", (x + 0.66 * b, y))
    _pickup(ink, figure, (x - 0.46 * b, y - 0.05 * b))


def draw_gears(ink: Ink, centre: Point, radius: float) -> None:
    """Two spur gears in mesh in their body."""
    x, y = centre
    for way in (-1, 1):
        ink.circle((x + way * radius * 0.92, y), radius * 1.1, "void")
    for way in (-1, 1):
        middle = (x + way * radius * 0.92, y)
        ink.draw(_gear(middle, radius, 9, 0.0 if way < 0 else pi / 9), "part")
        ink.circle(middle, 0.3 * radius, "cut close")
        ink.cross(middle, 0.5 * radius)


def draw_rotors(ink: Ink, centre: Point, radius: float) -> None:
    """An inner rotor in an outer one with one lobe more."""
    ink.circle(centre, radius, "part")
    lobes = 4
    aside = radius * 0.72 / (2 * lobes + 1)
    ink.draw(_lobed(centre, 0.68 * radius, aside, lobes + 1), "void")
    ink.draw(_lobed((centre[0] + aside, centre[1]), 0.57 * radius, aside, lobes), "cut close")
    ink.circle((centre[0] + aside, centre[1]), 0.22 * radius, "part")


def _lobed(centre: Point, radius: float, wave: float, lobes: int) -> Outline:
    points = []
    for step in range(lobes * 12):
        angle = 2 * pi * step / (lobes * 12)
        points.append(towards(centre, angle, radius + wave * cos(lobes * angle) * 1.4))
    return polygon(points)


def _gear(centre: Point, radius: float, teeth: int, turn: float) -> Outline:
    points = []
    for tooth in range(teeth):
        for share, reach in ((0.0, 0.86), (0.18, 1.06), (0.40, 1.06), (0.58, 0.86)):
            points.append(towards(centre, turn + 2 * pi * (tooth + share) / teeth, radius * reach))
    return polygon(points)


def _pickup(ink: Ink, figure: Figure, pump: Point) -> None:
    b = figure.sizes.bore
    floor = well(figure) if not figure.flat else min(well(figure), foot(figure) - 0.55 * b)
    x, mouth, top = -0.45 * b, floor + 0.10 * b, floor + 0.24 * b
    pipe = Outline().move(pump).curve((x, pump[1]), (x, pump[1]), (x, top))
    ink.draw(pipe, "pipe")
    ink.draw(pipe, "pipe-bore")
    ink.draw(
        rounded(
            [(x - 0.05 * b, top), (x + 0.05 * b, top), (x + 0.22 * b, mouth), (x - 0.22 * b, mouth)], 0.02 * b
        ),
        "part",
    )
    ink.line((x - 0.22 * b, mouth), (x + 0.22 * b, mouth), cls="mesh")
    ink.place("pickup", (x - 0.2 * b, (mouth + floor) / 2))


def _outside(ink: Ink, figure: Figure) -> None:
    """A dry sump pump beside the case, with the belt to the crank's nose."""
    b = figure.sizes.bore
    x, y = -(figure.case + case_wall(figure) + 0.52 * b), foot(figure) + 0.05 * b
    if figure.flat:
        y = min(y, -1.24 * b)
    for way, reach in ((-1, 0.30), (1, 0.34)):
        ink.line(
            towards((x, y), 0.7 + way * pi / 2, 0.2 * b),
            towards((0.0, 0.0), 0.7 + way * pi / 2, reach * b),
            cls="phantom",
        )
    ink.draw(round_box(x - 0.42 * b, y - 0.27 * b, x + 0.42 * b, y + 0.27 * b, 0.08 * b), "cut")
    draw_gears(ink, (x, y), 0.18 * b)
    ink.place("pump", (x - 0.3 * b, y - 0.1 * b))
    ink.place("pump_drive", (x + 0.3 * b * sin(1.0), y + 0.27 * b))
    ink.draw(round_box(x - 0.1 * b, y - 0.55 * b, x + 0.1 * b, y - 0.27 * b, 0.02 * b), "cut other")
    ink.spring((x, y - 0.52 * b), (x, y - 0.33 * b), 0.1 * b, 4)
    ink.place("relief", (x, y - 0.45 * b))
    edge = 0.7 * figure.case if figure.flat else 0.8 * (figure.case + case_wall(figure))
    floor = well(figure) if not figure.flat else min(well(figure), foot(figure) - 0.55 * b)
    start, end = (-edge - 0.02 * b, floor + 0.10 * b), (x + 0.3 * b, y - 0.27 * b)
    pipe = Outline().move(start).curve((end[0], start[1]), (end[0], start[1]), end)
    ink.draw(pipe, "pipe")
    ink.draw(pipe, "pipe-bore")
    ink.place("pickup", start)
