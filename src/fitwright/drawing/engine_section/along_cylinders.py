"""Block, barrels, pistons and rods along the crank, in the frame of one bank: its cylinders stand upright."""

from __future__ import annotations

from itertools import pairwise
from math import cos

from fitwright.drawing.engine_section.along_crank import housing_radius
from fitwright.drawing.engine_section.figure import Figure
from fitwright.drawing.engine_section.ink import Ink
from fitwright.drawing.engine_section.outline import Outline, box, round_box, rounded
from fitwright.model.throws import Throw


def bank_throws(figure: Figure, bank: int) -> list[Throw]:
    """The throws of a bank, from the nose."""
    return [throw for throw in figure.crank.throws if throw.bank == bank]


def block_outlines(figure: Figure) -> list[Outline]:
    """What is cut of the block: the cylinders' slab and the walls that hold the main bearings."""
    b, foot = figure.sizes.bore, figure.bore_foot
    half, wall = 0.8 * figure.main_width / 2, 0.09 * b
    top = figure.deck if not figure.air_cooled else case_top(figure)
    low = foot if not figure.air_cooled else top - 0.16 * b
    found = [box(figure.front, low, figure.rear, top)]
    for main in figure.mains:
        points = [(main - half, 0.0), (main + half, 0.0), (main + half, foot * 0.8)]
        points += [
            (main + 1.6 * half, low + 0.03 * b),
            (main - 1.6 * half, low + 0.03 * b),
            (main - half, foot * 0.8),
        ]
        found.append(rounded(points, 0.06 * b))
    found.append(box(figure.front, 0.0, figure.front + wall, top))
    found.append(box(figure.rear - wall, 0.0, figure.rear, top))
    return found


def case_top(figure: Figure) -> float:
    """Upper face of the crankcase that air-cooled barrels stand on."""
    return figure.bore_foot + 0.28 * figure.sizes.bore


def draw_bores(ink: Ink, figure: Figure, throws: list[Throw]) -> None:
    """Bores and water jackets, or barrels with their fins."""
    b, r = figure.sizes.bore, figure.sizes.bore / 2
    for throw in throws:
        z = figure.rod_place(throw)
        if figure.air_cooled:
            _barrel(ink, figure, z)
        ink.box(z - r, figure.bore_foot - 0.02 * b, z + r, figure.deck, "void")
        ink.line((z - r, figure.bore_foot), (z + r, figure.bore_foot), cls="fine")
        ink.place("bore", (z + r, (figure.bore_foot + figure.deck) / 2), throw.cylinder)
        ink.place("bore", (z - r, (figure.bore_foot + figure.deck) / 2), throw.cylinder)
        ink.place("deck", (z + r + 0.04 * b, figure.deck), throw.cylinder)
    if not figure.air_cooled:
        _jackets(ink, figure, throws)


def _jackets(ink: Ink, figure: Figure, throws: list[Throw]) -> None:
    b, r = figure.sizes.bore, figure.sizes.bore / 2
    liner = 0.055 * b
    places = [figure.rod_place(throw) for throw in throws]
    edges = [(figure.front + 0.05 * b, places[0] - r - liner)]
    edges += [(left + r + liner, right - r - liner) for left, right in pairwise(places)]
    edges.append((places[-1] + r + liner, figure.rear - 0.05 * b))
    low, high = figure.bore_foot + 0.26 * figure.sizes.stroke, figure.deck - 0.07 * b
    for left, right in edges:
        if right - left > 0.03 * b:
            ink.draw(round_box(left, low, right, high, 0.03 * b), "void")


def _barrel(ink: Ink, figure: Figure, z: float) -> None:
    b, r = figure.sizes.bore, figure.sizes.bore / 2
    wall, foot = 0.07 * b, case_top(figure)
    for way in (-1, 1):
        x0, x1 = z + way * r, z + way * (r + wall)
        ink.box(x0, figure.bore_foot, x1, figure.deck, "cut other")
        ink.box(x0, foot, z + way * (r + 0.15 * b), foot + 0.05 * b, "solid")
        count = max(3, int((figure.deck - foot - 0.15 * b) / (0.085 * b)))
        for index in range(count):
            y = foot + 0.15 * b + (figure.deck - foot - 0.18 * b) * index / (count - 1)
            ink.line((x1, y), (z + way * (r + 0.19 * b), y), cls="fin")


def draw_piston(ink: Ink, figure: Figure, throw: Throw) -> None:
    """A piston, cut through its pin."""
    b, z, pin = figure.sizes.bore, figure.rod_place(throw), figure.piston_pin(throw)
    crown, r = pin + figure.sizes.compression_height, 0.492 * b
    boss, eye = figure.sizes.piston_pin / 2, 0.17 * b
    roof = max(crown - 0.11 * b, pin + boss + 0.05 * b)
    low = pin - boss - 0.08 * b
    path = Outline().move((z - r, low)).line((z - r, crown), (z + r, crown), (z + r, low), (z + eye, low))
    path.line((z + eye, roof - 0.05 * b)).curve((z + eye, roof), (z + eye, roof), (z + eye - 0.05 * b, roof))
    path.line((z - eye + 0.05 * b, roof)).curve((z - eye, roof), (z - eye, roof), (z - eye, roof - 0.05 * b))
    ink.draw(path.line((z - eye, low)).close(), "cut")
    _rings(ink, figure, z, crown)
    half = 0.40 * b
    ink.box(z - half, pin - boss, z + half, pin + boss, "part")
    ink.line((z - half, pin), (z + half, pin), cls="centre")
    ink.place("piston", (z - 0.36 * b, (crown + roof) / 2), throw.cylinder)
    ink.place("piston_pin", (z + 0.32 * b, pin), throw.cylinder)
    ink.place("crown", (z, crown), throw.cylinder)
    ink.place("ring", (z + r, crown - 0.1 * b), throw.cylinder)
    ink.place("ring", (z - r, crown - 0.1 * b), throw.cylinder)


def _rings(ink: Ink, figure: Figure, z: float, crown: float) -> None:
    b, r = figure.sizes.bore, figure.sizes.bore / 2
    depth = min(0.34, 0.8 * figure.sizes.compression_height / b)
    for share in (0.22, 0.46, 0.7)[: 2 if figure.two_stroke else 3]:
        y = crown - share * depth * b
        for way in (-1, 1):
            ink.box(z + way * r, y, z + way * (r - 0.05 * b), y - 0.022 * b, "solid")


def draw_rod(ink: Ink, figure: Figure, throw: Throw, level: float) -> None:
    """A rod from the side, its big end cut to show the bearing; `level` is that of its crankpin."""
    b, z, pin = figure.sizes.bore, figure.rod_place(throw), figure.piston_pin(throw)
    draw_big_end(ink, figure, throw, level)
    eye, half = figure.sizes.piston_pin / 2 + 0.05 * b, 0.055 * b
    start = level + figure.big_end
    if pin - eye > start:
        ink.box(z - half, start - 0.02 * b, z + half, pin - eye + 0.03 * b, "part")
        ink.line((z - 0.4 * half, start + 0.04 * b), (z - 0.4 * half, pin - eye - 0.03 * b))
        ink.line((z + 0.4 * half, start + 0.04 * b), (z + 0.4 * half, pin - eye - 0.03 * b))
        ink.place("rod", (z + half, (start + pin) / 2), throw.cylinder)
    ink.draw(round_box(z - 0.13 * b, pin - eye, z + 0.13 * b, pin + eye, 0.03 * b), "part")
    ink.place("small_end", (z - 0.13 * b, pin), throw.cylinder)


def draw_big_end(ink: Ink, figure: Figure, throw: Throw, level: float) -> None:
    """The two halves of a big end around its pin, with shells or rollers."""
    b, z = figure.sizes.bore, figure.rod_place(throw)
    half = figure.pin_width / 2 * (0.46 if figure.rods_on_pin > 1 else 0.9)
    inner, outer = figure.sizes.rod_journal / 2, figure.big_end
    for way in (-1, 1):
        lined = inner + figure.shell
        ink.draw(
            round_box(z - half, level + way * lined, z + half, level + way * outer, 0.02 * b), "cut other"
        )
        if figure.rolling:
            ink.box(z - half, level + way * inner, z + half, level + way * lined, "part")
            ink.line(
                (z - 0.7 * half, level + way * (inner + figure.shell / 2)),
                (z + 0.7 * half, level + way * (inner + figure.shell / 2)),
            )
        else:
            ink.box(z - 0.9 * half, level + way * inner, z + 0.9 * half, level + way * lined, "solid")
        ink.place("big_end", (z, level + way * (inner + figure.shell / 2)), throw.cylinder)
        ink.place("rod_side", (z + half, level + way * (inner + outer) / 2), throw.cylinder)


def crank_level(figure: Figure, throw: Throw) -> float:
    """Height of a throw's crankpin along its own cylinder."""
    return figure.radius * cos(figure.after_top(throw))


def draw_ports(ink: Ink, figure: Figure, throws: list[Throw]) -> None:
    """Transfer ports of a two-stroke: windows in the bore, covered and uncovered by the piston."""
    b = figure.sizes.bore
    crown_low = figure.sizes.rod_length - figure.radius + figure.sizes.compression_height
    for throw in throws:
        z = figure.rod_place(throw)
        for way in (-1, 1):
            inner, outer = z + way * 0.5 * b, z + way * 0.56 * b
            ink.box(inner, crown_low, outer, crown_low + 0.2 * figure.sizes.stroke, "void")
            ink.place("port", (outer, crown_low + 0.1 * figure.sizes.stroke), throw.cylinder)


def housing_voids(figure: Figure) -> list[Outline]:
    """The bores in which the main bearings sit."""
    half, radius = 0.8 * figure.main_width / 2, housing_radius(figure)
    return [box(main - half, -radius, main + half, radius) for main in figure.mains]
