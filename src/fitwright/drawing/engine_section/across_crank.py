"""The crank seen from the nose, cut through the first crankpin, with the rods on it."""

from __future__ import annotations

from math import atan2, pi

from fitwright.drawing.engine_section.along_crank import SECTOR, housing_radius
from fitwright.drawing.engine_section.figure import Figure
from fitwright.drawing.engine_section.ink import Ink
from fitwright.drawing.engine_section.outline import Outline, Point, box, hull, taper, towards
from fitwright.model.throws import Throw

CENTRE: Point = (0.0, 0.0)


def draw_web(ink: Ink, figure: Figure, throw: Throw) -> None:
    """The web behind the pin with its counterweight, and the main bearing hidden behind it."""
    b, pin = figure.sizes.bore, figure.crankpin(throw)
    direction = figure.crank.pin_direction(throw, figure.crank_angle)
    if figure.rolling:
        ink.circle(CENTRE, figure.radius + figure.pin_cheek, "part")
    else:
        start = direction + pi - SECTOR
        fan = Outline().move(CENTRE).line(towards(CENTRE, start, figure.counterweight))
        fan.arc(CENTRE, figure.counterweight, start, start + 2 * SECTOR).close()
        ink.united([fan, hull(CENTRE, figure.main_cheek, pin, figure.pin_cheek)], "part")
    ink.circle(CENTRE, figure.sizes.main_journal / 2, "hidden")
    ink.circle(CENTRE, housing_radius(figure), "hidden")
    ink.circle(CENTRE, figure.radius, "centre")
    for angle, distance in ((-2.3, figure.sizes.main_journal / 2), (2.3, figure.sizes.main_journal / 2)):
        ink.place("main", towards(CENTRE, angle, distance + figure.shell / 2), 1)
    ink.place("journal", towards(CENTRE, direction + pi, 0.3 * figure.sizes.main_journal), 1)
    ink.place("web", towards(CENTRE, direction + pi + 0.6, 0.92 * figure.counterweight), 1)
    ink.place("bulkhead", towards(CENTRE, -1.9, housing_radius(figure) + 0.03 * b), 1)


def draw_pin(ink: Ink, figure: Figure, throw: Throw) -> None:
    """The crankpin, cut, with the bearing of the rod around it."""
    pin, radius = figure.crankpin(throw), figure.sizes.rod_journal / 2
    if figure.rolling:
        ink.circle(pin, radius + figure.shell, "part")
        roller = figure.shell / 2
        count = max(8, int(2 * pi * (radius + roller) / (2.6 * roller)))
        for index in range(count):
            ink.circle(towards(pin, 2 * pi * index / count, radius + roller), roller * 0.9, "part")
    else:
        ink.circle(pin, radius + figure.shell, "solid")
    ink.circle(pin, radius, "cut")
    ink.circle(pin, 0.14 * radius, "void")
    ink.cross(pin, radius * 1.25)


def draw_rod(ink: Ink, figure: Figure, throw: Throw) -> None:
    """A rod, uncut, at its true angle."""
    b = figure.sizes.bore
    pin = figure.crankpin(throw)
    axis = figure.crank.axes[throw.bank]
    small = towards(CENTRE, axis, figure.piston_pin(throw))
    way = atan2(small[0] - pin[0], small[1] - pin[1])
    eye = figure.sizes.piston_pin / 2 + 0.06 * b
    low, high = towards(pin, way, 0.5 * figure.big_end), towards(small, way, -0.5 * eye)
    beam = taper(low, 0.42 * b, high, 0.22 * b)
    own = ink.turned(way, pin)
    lug, joint = figure.sizes.rod_journal / 2 + figure.shell + 0.055 * b, 0.30 * figure.big_end
    ink.united([beam, _circle(pin, figure.big_end), _circle(small, eye), *_lugs(figure, pin, way)], "part")
    for side in (-1, 1):
        own.line((side * lug, -joint - 0.13 * b), (side * lug, joint + 0.05 * b), cls="centre")
        nut = box(side * lug - 0.05 * b, -joint - 0.10 * b, side * lug + 0.05 * b, -joint - 0.02 * b)
        own.draw(nut, "part")
        own.line((side * figure.sizes.rod_journal / 2, 0.0), (side * (lug + 0.07 * b), 0.0))
    start, end = figure.big_end + 0.04 * b, figure.sizes.rod_length - eye - 0.04 * b
    if end > start:
        own.draw(taper((0.0, start), 0.22 * b, (0.0, end), 0.09 * b), "fine")
    ink.line(pin, small, cls="centre")
    mid = figure.sizes.rod_length * 0.55
    own.place("rod", (0.11 * b, mid), throw.cylinder)
    own.place("big_end", (figure.sizes.rod_journal / 2 + figure.shell / 2, 0.0), throw.cylinder)
    own.place("big_end", (-figure.sizes.rod_journal / 2 - figure.shell / 2, 0.0), throw.cylinder)
    own.place("rod_side", (figure.big_end * 0.7, -figure.big_end * 0.7), throw.cylinder)
    own.place("crankpin", (0.0, -0.3 * figure.sizes.rod_journal), throw.cylinder)
    own.place("small_end", (eye * 0.9, figure.sizes.rod_length), throw.cylinder)
    own.place("small_end", (-eye * 0.9, figure.sizes.rod_length), throw.cylinder)


def _lugs(figure: Figure, pin: Point, way: float) -> list[Outline]:
    """The shoulders of the big end through which its bolts go."""
    b = figure.sizes.bore
    lug = figure.sizes.rod_journal / 2 + figure.shell + 0.055 * b
    joint = 0.30 * figure.big_end
    found = []
    for side in (-1, 1):
        low, high = towards(pin, way, -joint), towards(pin, way, joint)
        aside = way + pi / 2
        found.append(
            taper(towards(low, aside, side * lug), 0.15 * b, towards(high, aside, side * lug), 0.15 * b)
        )
    return found


def _circle(centre: Point, radius: float) -> Outline:
    return hull(centre, radius, centre, radius)
