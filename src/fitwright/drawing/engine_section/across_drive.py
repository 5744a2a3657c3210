"""Camshafts in the case seen from the nose, with followers, pushrods and rockers; side valves."""

from __future__ import annotations

from math import atan2, cos, pi, sin

from fitwright.drawing.engine_section import valves as v
from fitwright.drawing.engine_section.across_bank import SIDE_POCKET
from fitwright.drawing.engine_section.across_head import rocker_points
from fitwright.drawing.engine_section.figure import Figure
from fitwright.drawing.engine_section.ink import Ink
from fitwright.drawing.engine_section.outline import Outline, Point, hull, ring, round_box, taper, towards
from fitwright.model.throws import Throw

CAM_ROOM = 0.20
"""Radius of the tunnel in which a low camshaft turns, as a share of the bore."""


def low_cam(figure: Figure) -> Point | None:
    """Where a camshaft in the case stands, that of side valves in its bank's frame; None: no such."""
    b = figure.sizes.bore
    if figure.overhead_cams or figure.two_stroke:
        return None
    out = figure.case + CAM_ROOM * b
    if figure.banks > 1 and not figure.side_valve:
        return 0.0, -out if figure.flat else out
    aside = SIDE_POCKET * b if figure.side_valve else -0.74 * b
    return aside, max(out**2 - aside**2, (0.3 * b) ** 2) ** 0.5


def tunnel(figure: Figure) -> list[Outline]:
    """The metal around a low camshaft; that of a flat engine hangs in the open case."""
    cam = low_cam(figure)
    hangs = figure.flat and figure.pushrods
    return [ring(cam, (CAM_ROOM + 0.09) * figure.sizes.bore)] if cam and not hangs else []


def draw_low_cam(ink: Ink, figure: Figure, frames: list[tuple[Throw, Ink]]) -> None:
    """Low camshafts and all that they move: one for all pushrods, one for the side valves of each bank."""
    cam = low_cam(figure)
    if cam is None:
        return
    b, throws = figure.sizes.bore, [throw for throw, _ in frames]
    if figure.side_valve:
        for throw, upright in frames:
            upright.circle(cam, CAM_ROOM * b, "void")
            _side_valve(upright, figure, throw, cam)
            _cam(upright, figure, throw, cam)
        return
    if not figure.flat:
        ink.circle(cam, CAM_ROOM * b, "void")
    for throw in throws:
        _pushrod(ink, figure, throw, cam)
    _cam(ink, figure, throws[-1], cam)


def _cam(ink: Ink, figure: Figure, first: Throw, cam: Point) -> None:
    b = figure.sizes.bore
    nose = _follower_way(figure, first, cam) + figure.crank.sense * v.cam_turn(
        "inlet", figure.after_top(first)
    )
    v.draw_cam(ink, figure, cam, nose, 0.11)
    ink.place("cam", towards(cam, nose, 0.14 * b), first.cylinder)
    ink.place("cam_bearing", towards(cam, pi / 2, 0.085 * b), first.cylinder)
    ink.place("timing", towards(cam, -pi / 2, 0.05 * b))


def _follower_way(figure: Figure, throw: Throw, cam: Point) -> float:
    if figure.side_valve:
        return 0.0
    push = _push_point(figure, throw, cam)
    return atan2(push[0] - cam[0], push[1] - cam[1])


def _cam_side(figure: Figure, throw: Throw, cam: Point) -> int:
    """On which side of its bank's axis the camshaft lies."""
    axis = figure.crank.axes[throw.bank]
    return 1 if cam[0] * cos(axis) - cam[1] * sin(axis) >= 0 else -1


def _push_point(figure: Figure, throw: Throw, cam: Point) -> Point:
    _, _, push = rocker_points(figure, throw, _cam_side(figure, throw, cam))
    axis = figure.crank.axes[throw.bank]
    return push[0] * cos(axis) + push[1] * sin(axis), push[1] * cos(axis) - push[0] * sin(axis)


def _pushrod(ink: Ink, figure: Figure, throw: Throw, cam: Point) -> None:
    b = figure.sizes.bore
    way = _follower_way(figure, throw, cam)
    push = _push_point(figure, throw, cam)
    raised = v.lift("inlet", figure.after_top(throw)) * 0.6 * b
    own = ink.turned(way, cam)
    foot = 0.11 * b + raised
    ink.draw(taper(towards(cam, way, 0.24 * b), 0.11 * b, towards(push, way, -0.42 * b), 0.11 * b), "void")
    ink.draw(taper(towards(cam, way, foot + 0.2 * b), 0.04 * b, push, 0.04 * b), "part")
    own.draw(round_box(-0.085 * b, foot, 0.085 * b, foot + 0.26 * b, 0.02 * b), "part")
    own.place("follower", (0.085 * b, foot + 0.16 * b), throw.cylinder)
    own.place("pushrod", (0.0, foot + 0.5 * b), throw.cylinder)
    bank = ink.turned(figure.crank.axes[throw.bank])
    tip, pivot, end = rocker_points(figure, throw, _cam_side(figure, throw, cam))
    bank.united([hull(pivot, 0.09 * b, tip, 0.045 * b), hull(pivot, 0.09 * b, end, 0.05 * b)], "part")
    bank.circle(pivot, 0.055 * b, "cut close")
    bank.place("rocker", (pivot[0], pivot[1] + 0.06 * b), throw.cylinder)
    bank.place("lash", tip, throw.cylinder)


def _side_valve(ink: Ink, figure: Figure, throw: Throw, cam: Point) -> None:
    """A valve beside the bore, standing on its follower, opening upwards."""
    b, x, deck = figure.sizes.bore, cam[0], figure.deck
    r, opened = 0.21 * b, v.lift("inlet", figure.after_top(throw)) * b
    low = cam[1] + 0.11 * b + opened
    port = (
        Outline()
        .move((x - 0.17 * b, deck - 0.02 * b))
        .line((x + 0.17 * b, deck - 0.02 * b), (x + 0.17 * b, deck - 0.26 * b))
    )
    port.line((x - 0.17 * b, deck - 0.42 * b), (-1.16 * b, deck - 0.42 * b), (-1.16 * b, deck - 0.2 * b))
    ink.draw(port.line((x - 0.17 * b, deck - 0.16 * b)).close(), "void")
    chest = max(cam[1] + 0.36 * b, deck - 1.35 * b)
    if deck - 0.62 * b > chest:
        ink.draw(round_box(x - 0.2 * b, chest, x + 0.2 * b, deck - 0.62 * b, 0.03 * b), "void")
    for way in (-1, 1):
        ink.box(x + way * 0.03 * b, deck - 0.40 * b, x + way * 0.075 * b, deck - 0.68 * b, "cut close")
        ink.box(x + way * r * 0.86, deck - 0.055 * b, x + way * (r + 0.03 * b), deck + 0.005 * b, "solid")
    collar = max(low + 0.30 * b, deck - 1.3 * b + opened)
    ink.box(x - 0.03 * b, low + 0.22 * b, x + 0.03 * b, deck + opened, "part")
    head = (
        Outline()
        .move((x - r, deck + opened + 0.03 * b))
        .line((x + r, deck + opened + 0.03 * b), (x + r, deck + opened))
    )
    head.curve(
        (x + 0.08 * b, deck + opened - 0.06 * b),
        (x + 0.03 * b, deck + opened - 0.08 * b),
        (x + 0.03 * b, deck + opened - 0.18 * b),
    )
    head.line((x - 0.03 * b, deck + opened - 0.18 * b))
    head.curve(
        (x - 0.03 * b, deck + opened - 0.08 * b),
        (x - 0.08 * b, deck + opened - 0.06 * b),
        (x - r, deck + opened),
    )
    ink.draw(head.close(), "part")
    ink.spring((x, collar + 0.04 * b), (x, deck - 0.64 * b), 0.24 * b, 6)
    ink.draw(round_box(x - 0.14 * b, collar, x + 0.14 * b, collar + 0.045 * b, 0.01 * b), "part")
    ink.draw(round_box(x - 0.085 * b, low, x + 0.085 * b, low + 0.24 * b, 0.02 * b), "part")
    ink.place("valve", (x + 0.15 * b, deck + opened), throw.cylinder)
    ink.place("seat", (x - r, deck - 0.03 * b), throw.cylinder)
    ink.place("guide", (x + 0.05 * b, deck - 0.54 * b), throw.cylinder)
    ink.place("spring", (x - 0.12 * b, (collar + deck - 0.64 * b) / 2), throw.cylinder)
    ink.place("follower", (x - 0.085 * b, low + 0.1 * b), throw.cylinder)
    ink.place("lash", (x, low + 0.25 * b), throw.cylinder)
