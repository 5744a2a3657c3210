"""Rotors in their body, cut along the axis: the end clearance over them."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.drawing.canvas import Canvas
from fitwright.drawing.part_place.shapes import corners, hatch, poly
from fitwright.drawing.rotor_set.clearances import Place
from fitwright.drawing.rotor_set.view import View
from fitwright.drawing.svg import path, rect


@dataclass(frozen=True, slots=True)
class Side:
    """What is cut: half widths of parts from the axis out [m], their height, the drawn end clearance."""

    edges: tuple[float, ...]
    body: float
    height: float
    gap: float


def side_section(canvas: Canvas, left: float, top: float, room: tuple[float, float], cut: Side) -> float:
    """Half of the pump from its axis outwards, cover on top; the foot of the drawing."""
    wide, high = room
    outside = 1.14 * cut.body
    scale = min((wide - 10.0) / outside, (high - 70.0) / (cut.height + cut.gap))
    depth = scale * (cut.height + cut.gap)
    wall, gap = 18.0, scale * cut.gap
    cover, floor = top + 26.0, top + 26.0 + wall + depth
    _metal(canvas, left, cover, scale * outside, wall, falling=True)
    _body(canvas, left, (cover + wall, floor), (scale * cut.body, scale * outside), wall)
    for inside, beyond in zip(cut.edges[:-1], cut.edges[1:], strict=True):
        canvas.put(
            rect(
                left + scale * inside,
                cover + wall + gap,
                scale * (beyond - inside),
                scale * cut.height,
                "rs-rotor",
            )
        )
    canvas.put(path(f"M{left:.1f} {cover - 8:.1f}V{floor + wall + 8:.1f}", "rs-centre"))
    at = left + 0.5 * scale * (cut.edges[0] + cut.edges[1])
    view = View(canvas, at, cover + wall + 0.5 * gap, 1.0)
    view.letter((0.0, 0.0), Place.END.letter, (at + 26.0, top + 10.0))
    return floor + wall + 14.0


def _metal(canvas: Canvas, x: float, y: float, width: float, height: float, *, falling: bool) -> None:
    area = corners(x, y, width, height)
    canvas.put(path(poly(area), "rs-solid"), path(hatch([area], falling=falling), "rs-hatch"))


def _body(
    canvas: Canvas, x: float, levels: tuple[float, float], widths: tuple[float, float], wall: float
) -> None:
    top, floor = levels
    bore, outside = x + widths[0], x + widths[1]
    area = [
        (bore, top),
        (outside, top),
        (outside, floor + wall),
        (x, floor + wall),
        (x, floor),
        (bore, floor),
    ]
    canvas.put(path(poly(area), "rs-solid"), path(hatch([area]), "rs-hatch"))
