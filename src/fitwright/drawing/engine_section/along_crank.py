"""The crank along its axis: webs, pins, journals, and the bearings that hold it."""

from __future__ import annotations

from math import cos, pi

from fitwright.drawing.engine_section.figure import Figure
from fitwright.drawing.engine_section.ink import Ink
from fitwright.drawing.engine_section.outline import box, polygon, round_box, rounded

SECTOR = 0.9
"""Half the angle [rad] that a counterweight takes up."""


def pin_level(figure: Figure, pin: int) -> float:
    """Height of a crankpin in the plane of the drawing."""
    throw = figure.throw_of(pin)
    direction = figure.crank.pin_direction(throw, figure.crank_angle)
    return figure.radius * cos(direction - figure.crank.axes[-1])


def web_span(figure: Figure, direction: float) -> tuple[float, float]:
    """Lowest and highest point of a web whose pin points in a direction, from that of the drawing."""
    if figure.rolling:
        reach = figure.radius + figure.pin_cheek
        return -reach, reach
    pin = figure.radius * cos(direction)
    steps = [direction + pi + SECTOR * share / 4 for share in range(-4, 5)]
    weights = [figure.counterweight * cos(angle) for angle in steps]
    low = min(-figure.main_cheek, pin - figure.pin_cheek, *weights)
    return low, max(figure.main_cheek, pin + figure.pin_cheek, *weights)


def draw_crank(ink: Ink, figure: Figure) -> None:
    """The crank, uncut as shafts are, with its drillings hidden."""
    for pin in range(figure.crank.pins):
        _pin(ink, figure, pin)
    for index, main in enumerate(figure.mains, start=1):
        _journal(ink, figure, index, main)


def _pin(ink: Ink, figure: Figure, pin: int) -> None:
    throw = figure.throw_of(pin)
    direction = figure.crank.pin_direction(throw, figure.crank_angle) - figure.crank.axes[-1]
    centre, level, half = pin * figure.throw_pitch, pin_level(figure, pin), figure.pin_width / 2
    radius, low, high = figure.sizes.rod_journal / 2, *web_span(figure, direction)
    ink.box(centre - half, level - radius, centre + half, level + radius, "part")
    for way, boundary in ((-1, pin), (1, pin + 1)):
        main = _main_at(figure, boundary)
        if main is not None:
            inner, outer = centre + way * half, main - way * figure.main_width / 2
            ink.draw(round_box(inner, low, outer, high, 0.05 * figure.sizes.bore), "part")
            _drilling(ink, (main, 0.0), (centre, level))
        elif way > 0 and boundary < figure.crank.pins:
            _arm(ink, figure, pin)
    for throw in figure.crank.throws:
        if throw.pin == pin:
            ink.place("crankpin", (figure.rod_place(throw), level), throw.cylinder)
    ink.place("web", (centre - half - 0.08 * figure.sizes.bore, (low + high) / 2), pin + 1)


def _arm(ink: Ink, figure: Figure, pin: int) -> None:
    """The arm from one pin to the next, where no main bearing stands between them."""
    half, cheek = figure.pin_width / 2, figure.pin_cheek
    z0, y0 = pin * figure.throw_pitch + half, pin_level(figure, pin)
    z1, y1 = (pin + 1) * figure.throw_pitch - half, pin_level(figure, pin + 1)
    plate = min(0.16 * figure.sizes.bore, (z1 - z0) / 3)
    points = [(z0, y0 + cheek), (z0 + plate, y0 + cheek), (z1 - plate, y1 + cheek), (z1, y1 + cheek)]
    points += [(z1, y1 - cheek), (z1 - plate, y1 - cheek), (z0 + plate, y0 - cheek), (z0, y0 - cheek)]
    ink.draw(rounded(points, 0.04 * figure.sizes.bore), "part")


def _drilling(ink: Ink, start: tuple[float, float], end: tuple[float, float]) -> None:
    ink.line(start, end, cls="hidden")


def _journal(ink: Ink, figure: Figure, index: int, main: float) -> None:
    half, radius = figure.main_width / 2, figure.sizes.main_journal / 2
    ink.box(main - half, -radius, main + half, radius, "part")
    ink.place("journal", (main, 0.0), index)
    ink.place("main", (main, radius + figure.shell / 2), index)
    ink.place("main", (main, -radius - figure.shell / 2), index)
    if figure.rolling:
        _rolling(ink, figure, main)
        return
    for way in (-1, 1):
        ink.box(main - 0.8 * half, way * radius, main + 0.8 * half, way * (radius + figure.shell), "solid")
    if index == len(figure.mains) // 2 + 1:
        _thrust(ink, figure, main)


def _thrust(ink: Ink, figure: Figure, main: float) -> None:
    half, radius = figure.main_width / 2, figure.sizes.main_journal / 2
    reach = radius + figure.shell + 0.11 * figure.sizes.bore
    for side in (-1, 1):
        for way in (-1, 1):
            ink.box(main + side * 0.8 * half, way * radius, main + side * half, way * reach, "solid")
        ink.place("thrust", (main + side * 0.9 * half, reach - 0.03 * figure.sizes.bore))


def _rolling(ink: Ink, figure: Figure, main: float) -> None:
    """A ball bearing: two races and a ball, above and below the shaft."""
    half, radius = 0.8 * figure.main_width / 2, figure.sizes.main_journal / 2
    depth = rolling_depth(figure)
    for way in (-1, 1):
        ink.draw(box(main - half, way * radius, main + half, way * (radius + depth)), "part")
        ink.box(main - half, way * radius, main + half, way * (radius + 0.3 * depth), "cut close")
        ink.box(main - half, way * (radius + 0.7 * depth), main + half, way * (radius + depth), "cut close")
        ink.circle((main, way * (radius + depth / 2)), 0.3 * depth, "part")
    ink.place("thrust", (main - half, radius + depth / 2))


def rolling_depth(figure: Figure) -> float:
    """Height of a rolling bearing between shaft and case."""
    return 0.38 * figure.sizes.main_journal


def housing_radius(figure: Figure) -> float:
    """Radius of the housing bore of a main bearing."""
    return figure.sizes.main_journal / 2 + (rolling_depth(figure) if figure.rolling else figure.shell)


def draw_caps(ink: Ink, figure: Figure) -> None:
    """Main caps below the crank, cut, where there are caps."""
    half, radius = 0.8 * figure.main_width / 2, housing_radius(figure)
    for main in figure.mains:
        points = [
            (main - half, 0.0),
            (main + half, 0.0),
            (main + half, cap_foot(figure)),
            (main - half, cap_foot(figure)),
        ]
        ink.draw(rounded(points, 0.03 * figure.sizes.bore), "cut other")
        ink.box(main - half, 0.0, main + half, -radius, "void")
        ink.place("cap", (main, (cap_foot(figure) - radius) / 2), figure.mains.index(main) + 1)


def cap_foot(figure: Figure) -> float:
    """Lower face of the main caps."""
    return -(housing_radius(figure) + 0.30 * figure.sizes.bore)


def _main_at(figure: Figure, boundary: int) -> float | None:
    place = figure.boundary(boundary)
    return next((main for main in figure.mains if abs(main - place) < 1e-6), None)


def bulkheads(figure: Figure, top: float) -> list[tuple[float, float, float, float]]:
    """The walls of the case that hold the upper halves of the main bearings: x0, y0, x1, y1."""
    half = 0.8 * figure.main_width / 2
    return [(main - half, 0.0, main + half, top) for main in figure.mains]


def end_washer(ink: Ink, x0: float, x1: float, inner: float, outer: float, cls: str) -> None:
    """A ring around the crank, cut above and below it."""
    for way in (-1, 1):
        ink.draw(polygon([(x0, way * inner), (x1, way * inner), (x1, way * outer), (x0, way * outer)]), cls)
