"""One bank seen from the nose, cut through a cylinder; its frame stands along the cylinder's axis."""

from __future__ import annotations

from fitwright.drawing.engine_section.along_cylinders import case_top
from fitwright.drawing.engine_section.figure import Figure
from fitwright.drawing.engine_section.ink import Ink
from fitwright.drawing.engine_section.outline import Outline, box, round_box
from fitwright.model.throws import Throw

SIDE_POCKET = -0.86
"""Where the valves of a side-valve engine stand beside the bore's axis, as a share of the bore."""


def block_outlines(figure: Figure) -> list[Outline]:
    """What is cut of the block around a cylinder, in the bank's frame."""
    b = figure.sizes.bore
    if figure.air_cooled:
        chest = [box(-1.16 * b, 0.5 * figure.case, -0.5 * b, figure.deck)] if figure.side_valve else []
        return [box(-0.72 * b, 0.35 * figure.case, 0.72 * b, case_top(figure)), *chest]
    left = -1.16 * b if figure.side_valve else -0.76 * b
    return [box(left, 0.35 * figure.case, 0.76 * b, figure.deck)]


def bore_void(figure: Figure) -> Outline:
    """The bore, from the crankcase to the deck."""
    return box(-figure.sizes.bore / 2, 0.3 * figure.case, figure.sizes.bore / 2, figure.deck)


def draw_jackets(ink: Ink, figure: Figure) -> None:
    """Water jackets on both sides of the bore, or the fins of a barrel."""
    b = figure.sizes.bore
    if figure.air_cooled:
        _barrel(ink, figure)
        return
    low, high = figure.bore_foot + 0.28 * figure.sizes.stroke, figure.deck - 0.07 * b
    for way in (-1, 1):
        if way < 0 and figure.side_valve:
            continue
        ink.draw(round_box(way * 0.565 * b, low, way * 0.68 * b, high, 0.04 * b), "void")
    for way in (-1, 1):
        ink.place("bore", (way * b / 2, 0.5 * (low + high)), 0)
        ink.place("deck", (way * 0.62 * b, figure.deck), 0)


def _barrel(ink: Ink, figure: Figure) -> None:
    b, foot = figure.sizes.bore, case_top(figure)
    for way in (-1, 1):
        ink.box(way * 0.5 * b, figure.bore_foot, way * 0.57 * b, figure.deck, "cut other")
        if way < 0 and figure.side_valve:
            continue
        ink.box(way * 0.5 * b, foot, way * 0.72 * b, foot + 0.05 * b, "solid")
        count = max(3, int((figure.deck - foot - 0.15 * b) / (0.085 * b)))
        for index in range(count):
            v = foot + 0.15 * b + (figure.deck - foot - 0.18 * b) * index / (count - 1)
            ink.line((way * 0.57 * b, v), (way * 0.80 * b, v), cls="fin")
        ink.place("bore", (way * b / 2, 0.5 * (foot + figure.deck)), 0)
        ink.place("deck", (way * 0.54 * b, figure.deck), 0)


def draw_piston(ink: Ink, figure: Figure, throw: Throw) -> None:
    """A piston, cut across its pin: crown, ring belt and skirt; the boss is seen behind the rod."""
    b, pin = figure.sizes.bore, figure.piston_pin(throw)
    crown, r, number = pin + figure.sizes.compression_height, 0.492 * b, throw.cylinder
    low = max(pin - 0.46 * b, pin - figure.sizes.compression_height - 0.2 * b)
    boss = figure.sizes.piston_pin / 2
    roof = max(crown - 0.11 * b, pin + boss + 0.06 * b)
    belt = crown - min(0.34 * b, 0.85 * figure.sizes.compression_height)
    path = Outline().move((-r, low)).line((-r, crown), (r, crown), (r, low), (r - 0.045 * b, low))
    path.line((r - 0.06 * b, belt)).curve((r - 0.1 * b, roof), (r - 0.14 * b, roof), (r - 0.2 * b, roof))
    path.line((0.2 * b - r, roof)).curve((0.14 * b - r, roof), (0.1 * b - r, roof), (0.06 * b - r, belt))
    ink.draw(path.line((0.045 * b - r, low)).close(), "cut")
    hollow = Outline().move((-r + 0.045 * b, low)).line((r - 0.045 * b, low))
    ink.draw(hollow, "fine")
    ink.circle((0.0, pin), boss + 0.13 * b, "fine")
    depth = min(0.34, 0.8 * figure.sizes.compression_height / b)
    for share in (0.22, 0.46, 0.7)[: 2 if figure.two_stroke else 3]:
        y = crown - share * depth * b
        for way in (-1, 1):
            ink.box(way * b / 2, y, way * 0.45 * b, y - 0.022 * b, "solid")
    for way in (-1, 1):
        ink.place("ring", (way * 0.47 * b, crown - 0.46 * depth * b), number)
        ink.place("piston", (way * 0.47 * b, low + 0.08 * b), number)
    ink.place("crown", (0.0, crown), number)
    ink.place("chamber", (0.0, 0.5 * (max(crown, figure.deck) + figure.face + 0.1 * b)), number)


def draw_piston_pin(ink: Ink, figure: Figure, throw: Throw) -> None:
    """The piston pin, a tube cut across, in the eye of its rod."""
    pin, radius = figure.piston_pin(throw), figure.sizes.piston_pin / 2
    ink.circle((0.0, pin), radius + 0.02 * figure.sizes.bore, "solid")
    ink.circle((0.0, pin), radius, "cut close")
    ink.circle((0.0, pin), 0.55 * radius, "void")
    ink.cross((0.0, pin), 1.5 * radius)
    ink.place("piston_pin", (0.75 * radius, pin), throw.cylinder)


def draw_ports(ink: Ink, figure: Figure) -> None:
    """Ports of a two-stroke: exhaust on the right, transfer on the left."""
    b = figure.sizes.bore
    low = figure.sizes.rod_length - figure.radius + figure.sizes.compression_height
    high = low + 0.30 * figure.sizes.stroke
    out = (
        Outline()
        .move((0.5 * b, low))
        .line((0.9 * b, low - 0.12 * b), (0.9 * b, high - 0.02 * b), (0.5 * b, high))
    )
    ink.draw(
        Outline()
        .move((0.57 * b, low - 0.06 * b))
        .line((0.94 * b, low - 0.2 * b), (0.94 * b, high + 0.08 * b), (0.57 * b, high + 0.06 * b))
        .close(),
        "cut other",
    )
    ink.draw(out.close(), "void")
    ink.place("port", (0.6 * b, 0.5 * (low + high)), 0)
    duct = Outline().move((-0.5 * b, low)).line((-0.5 * b, low + 0.2 * figure.sizes.stroke))
    duct.curve((-0.72 * b, low + 0.2 * figure.sizes.stroke), (-0.72 * b, low), (-0.72 * b, figure.bore_foot))
    duct.line((-0.57 * b, figure.bore_foot)).line((-0.57 * b, low))
    ink.draw(duct.close(), "void")
    ink.place("port", (-0.55 * b, low + 0.1 * figure.sizes.stroke), 0)
