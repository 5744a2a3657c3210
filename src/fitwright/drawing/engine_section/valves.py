"""Valves with guide, spring and what works them, in the frame of one valve: its stem stands upright.

Heights are shares of the bore above the head's lower face. The lift follows a smooth curve over the
crank angle for which a usual cam holds its valve open.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, radians, tau
from typing import Final

from fitwright.drawing.engine_section.figure import Figure
from fitwright.drawing.engine_section.ink import Ink
from fitwright.drawing.engine_section.outline import Outline, Point, box, hull, round_box, towards

SEAT: Final = 0.09
GUIDE: Final = (0.30, 0.56)
SPRING: Final = (0.48, 0.80)
TIP: Final = 0.87
BUCKET: Final = 0.93
BASE: Final = 0.13
NOSE: Final = (0.115, 0.055)
"""Distance of a cam's nose from its centre, and the radius of the nose."""
CAM: Final = BUCKET + BASE

LIFT: Final = 0.11
OPEN_FOR: Final = radians(260.0)
PEAK: Final = {"inlet": radians(470.0), "exhaust": radians(250.0)}
"""Crank angle after the firing top at which each kind of valve is widest open."""


def lift(side: str, after_top: float) -> float:
    """Lift of a valve as a share of the bore."""
    apart = (after_top - PEAK[side] + tau) % (2 * tau) - tau
    share = apart / OPEN_FOR
    return LIFT * cos(pi * share) ** 2 if abs(share) < 0.5 else 0.0


def cam_turn(side: str, after_top: float) -> float:
    """How far a cam's nose is past pointing at its valve; cams turn at half the crank's speed."""
    return (after_top - PEAK[side]) / 2


@dataclass(frozen=True, slots=True)
class Valve:
    """One valve of the drawing: where it stands, its radius and how far it is open [mm]."""

    side: str
    u: float
    radius: float
    lift: float
    turn: float


def head_radius(figure: Figure, side: str) -> float:
    """Radius of a valve's head."""
    share = {2: 0.21, 3: 0.18, 4: 0.17}.get(figure.layout.valves_per_cylinder, 0.145)
    return figure.sizes.bore * share * (1.0 if side == "inlet" else 0.88)


def draw_valve(ink: Ink, figure: Figure, valve: Valve, number: int, *, hidden: bool = False) -> None:
    """A valve with its seat, guide, spring and retainer; `ink` has the head's face at v = 0."""
    b, r, u = figure.sizes.bore, valve.radius, valve.u
    seat, stem = SEAT * b, 0.03 * b
    down = -valve.lift * b
    if hidden:
        ink.draw(_valve_outline(u, seat + down, r, stem, (TIP - SEAT) * b), "hidden")
        return
    for way in (-1, 1):
        ink.draw(
            box(u + way * r * 0.86, seat - 0.005 * b, u + way * (r + 0.025 * b), seat + 0.055 * b), "solid"
        )
        ink.draw(box(u + way * stem, GUIDE[0] * b, u + way * (stem + 0.045 * b), GUIDE[1] * b), "cut close")
    ink.draw(_valve_outline(u, seat + down, r, stem, (TIP - SEAT) * b), "part")
    low, high = SPRING[0] * b, SPRING[1] * b + down
    ink.line((u - 0.15 * b, low), (u + 0.15 * b, low), cls="thin")
    ink.spring((u, low), (u, high), 0.24 * b, 5)
    ink.draw(round_box(u - 0.15 * b, high, u + 0.15 * b, high + 0.045 * b, 0.02 * b), "part")
    ink.place("seat", (u + r * 0.9, seat + 0.02 * b), number)
    ink.place("guide", (u - stem - 0.02 * b, 0.4 * b), number)
    ink.place("valve", (u, 0.2 * b + down), number)
    ink.place("spring", (u + 0.12 * b, 0.62 * b), number)


def draw_bucket(ink: Ink, figure: Figure, valve: Valve, number: int) -> None:
    """The bucket between a valve and its cam."""
    b, u, down = figure.sizes.bore, valve.u, -valve.lift * figure.sizes.bore
    top, low = BUCKET * b + down, 0.70 * b + down
    cup = (
        Outline()
        .move((u - 0.17 * b, low))
        .line((u - 0.17 * b, top), (u + 0.17 * b, top), (u + 0.17 * b, low))
    )
    cup.line((u + 0.145 * b, low), (u + 0.145 * b, top - 0.04 * b), (u - 0.145 * b, top - 0.04 * b))
    ink.draw(cup.line((u - 0.145 * b, low)).close(), "cut close")
    ink.place("follower", (u - 0.158 * b, 0.80 * b + down), number)
    ink.place("lash", (u, top), number)


def draw_cam(ink: Ink, figure: Figure, centre: Point, nose_way: float, base: float = BASE) -> None:
    """A cam seen along its axis, its nose pointing `nose_way` clockwise from the frame's top."""
    b = figure.sizes.bore
    nose = towards(centre, nose_way, (base + LIFT - NOSE[1]) * b)
    ink.draw(hull(centre, base * b, nose, NOSE[1] * b), "part")
    ink.circle(centre, 0.085 * b, "part")
    ink.cross(centre, 0.2 * b)


def cam_reach(figure: Figure, nose_way: float) -> tuple[float, float]:
    """How far a cam reaches below and above its axis, seen from the side [mm]."""
    b = figure.sizes.bore
    nose = (BASE + LIFT - NOSE[1]) * b * cos(nose_way)
    return min(-BASE * b, nose - NOSE[1] * b), max(BASE * b, nose + NOSE[1] * b)


def _valve_outline(u: float, foot: float, radius: float, stem: float, length: float) -> Outline:
    edge, neck = 0.14 * radius, foot + 0.85 * radius
    top = foot + length
    path = Outline().move((u - radius, foot)).line((u + radius, foot), (u + radius, foot + edge))
    path.curve((u + 0.45 * radius, foot + 0.3 * radius), (u + stem, foot + 0.45 * radius), (u + stem, neck))
    path.line((u + stem, top), (u - stem, top), (u - stem, neck))
    path.curve(
        (u - stem, foot + 0.45 * radius), (u - 0.45 * radius, foot + 0.3 * radius), (u - radius, foot + edge)
    )
    return path.close()
