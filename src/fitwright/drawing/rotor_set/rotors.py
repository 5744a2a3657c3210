"""An internal rotor pump from its face: both rotors in their body, ports behind, clearances lettered."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import cos, degrees, pi, sin
from typing import Final

import numpy as np

from fitwright.drawing.canvas import Canvas, Picture
from fitwright.drawing.part_place.shapes import hatch
from fitwright.drawing.rotor_set.clearances import ROTOR_TITLES, Clearances, Place, as_drawn, described
from fitwright.drawing.rotor_set.plan import (
    PAGE,
    BesidePlan,
    across_plan,
    kidney,
    notes,
    port_angles,
    scale_note,
)
from fitwright.drawing.rotor_set.side import Side
from fitwright.drawing.rotor_set.view import View, polar
from fitwright.drawing.svg import line, path
from fitwright.physics.pump.cautions import NEVER_LONGER_KIDNEYS
from fitwright.physics.pump.trochoid import RotorPair, inner_profile, outer_profile
from fitwright.quantity import FloatArray, Metre, Radian
from fitwright.units.families import Family

_MOST_OF_TOOTH: Final = 0.25


@dataclass(frozen=True, slots=True)
class RotorBody:
    """What surrounds the teeth [m]: outside of the outer rotor, and the bore of the inner one.

    `across_flats` is that of a two-flat drive in that bore; None for a round one.
    """

    outer_rotor_diameter: Metre
    hub_diameter: Metre
    across_flats: Metre | None = None


def rotor_set(
    pair: RotorPair,
    body: RotorBody,
    clearances: Clearances,
    *,
    angle: Radian = 0.0,
    factor: float = 1.0,
    ports: bool = True,
    family: Family = "mm",
    width: float = PAGE,
) -> Picture:
    """An internal rotor pump at an angle of its inner rotor.

    Parameters
    ----------
    pair : RotorPair
        Tooth data.
    body : RotorBody
        Outside and bore of the rotors.
    clearances : Clearances
        What was measured.
    angle : float [rad]
        How far the inner rotor is turned; it turns from inlet to outlet over the widest chamber.
    factor : float
        How many times larger than true the clearances are drawn.
    ports : bool
        Whether the ports behind the rotors are shown, one chamber short of each other.
    family : {"mm", "inch"}
        The reader's unit; the other one stands beside it.
    width : float
        Width of the picture in units of 1 px; below 600 everything stands in one column.

    Returns
    -------
    Picture
        SVG text; `oil_pictures.css` has its style.
    """
    canvas = Canvas(width)
    across = across_plan(canvas)
    drawn, limited = _drawn(pair, clearances, factor)
    reach = 0.5 * body.outer_rotor_diameter * 1.13 + 0.5 * drawn.body
    scale = 0.47 * across / reach
    view = View(canvas, 0.5 * across - scale * pair.eccentricity, 0.5 * across, scale)
    _plan(view, pair, body, drawn, angle, ports=ports)
    edges = (
        0.5 * body.hub_diameter,
        pair.outer_tip_radius - 0.5 * drawn.tip,
        0.5 * body.outer_rotor_diameter,
    )
    cut = Side((edges[0], edges[1], edges[2]), edges[2] + 0.5 * drawn.body, pair.width, drawn.end)
    foot = BesidePlan(clearances, ROTOR_TITLES, cut, (230.0, 220.0), family).draw(canvas, across)
    lines = [scale_note(factor, limited=limited), f"Inner rotor turned by {degrees(angle):.0f}°."]
    if ports:
        lines.append(NEVER_LONGER_KIDNEYS)
    foot = notes(canvas, foot + 18.0, lines)
    label = f"Internal rotor pump, {pair.inner_lobes} lobes in {pair.outer_teeth} teeth"
    return canvas.picture(foot, label, described(clearances, ROTOR_TITLES, family), "rotor-set")


@dataclass(frozen=True, slots=True)
class _Drawn:
    """Clearances as large as they are drawn [m]; the body's on diameter."""

    tip: Metre
    body: Metre
    end: Metre


def _drawn(pair: RotorPair, measured: Clearances, factor: float) -> tuple[_Drawn, bool]:
    """Clearances times the factor, as far as teeth and picture have room for them."""
    most = _MOST_OF_TOOTH * pair.tooth_radius, 0.5 * pair.tooth_radius, 0.5 * pair.width
    sizes, limited = as_drawn((measured.tip, measured.body, measured.end), most, factor)
    return _Drawn(*sizes), limited


def _plan(view: View, pair: RotorPair, body: RotorBody, drawn: _Drawn, angle: Radian, *, ports: bool) -> None:
    centre = (pair.eccentricity, 0.0)
    _body(view, body, drawn, centre)
    land = 2.0 * pi / pair.outer_teeth
    inner, outer = _rotors(pair, drawn, angle)
    outside = view.ring(centre, 0.5 * body.outer_rotor_diameter)
    if ports:
        radii = pair.inner_root_radius, pair.outer_root_radius
        for upper in (True, False):
            kidney(view, (0.5 * pair.eccentricity, 0.0), radii, port_angles(land, upper=upper))
    view.fill(outside + view.outline(outer + np.array(centre)), "rs-rotor")
    view.fill(view.outline(inner) + _bore(view, body, angle), "rs-rotor")
    if ports:
        _name(view, pair, "outlet", upper=True)
        _name(view, pair, "inlet", upper=False)
    view.cross((0.0, 0.0))
    view.cross(centre, 6.0)
    view.dot(polar((0.0, 0.0), pair.inner_root_radius - 0.2 * pair.tooth_radius, angle))
    turned = angle * pair.inner_lobes / pair.outer_teeth
    view.dot(polar(centre, 0.5 * (pair.outer_root_radius + 0.5 * body.outer_rotor_diameter), turned))
    start = 0.5 * body.hub_diameter + 0.25 * (pair.inner_root_radius - 0.5 * body.hub_diameter)
    view.turning((0.0, 0.0), start, pi - 0.6, pi + 0.6)
    _letters(view, pair, body, drawn, angle)


def _body(view: View, body: RotorBody, drawn: _Drawn, centre: tuple[float, float]) -> None:
    bore = 0.5 * (body.outer_rotor_diameter + drawn.body)
    wall = 1.12 * 0.5 * body.outer_rotor_diameter + 0.5 * drawn.body
    view.fill(view.ring(centre, wall), "rs-solid")
    round_ = np.linspace(0.0, 2.0 * pi, 90, endpoint=False)
    rings = [[view.at(polar(centre, radius, float(each))) for each in round_] for radius in (wall, bore)]
    view.canvas.put(path(hatch(rings), "rs-hatch"))
    view.fill(view.ring(centre, bore), "rs-solid")


def _rotors(pair: RotorPair, drawn: _Drawn, angle: Radian) -> tuple[FloatArray, FloatArray]:
    """Both outlines, half of the drawn tip clearance taken off each, in the frame of the body."""
    thinner = 0.5 * drawn.tip
    apart = RotorPair(
        pair.inner_lobes, pair.eccentricity, pair.generating_radius, pair.tooth_radius - thinner, pair.width
    )
    inner = inner_profile(
        replace(pair, tooth_radius=pair.tooth_radius + thinner), count=pair.inner_lobes * 90
    )
    outer = outer_profile(apart, count=pair.outer_teeth * 60)
    return _turned(inner, angle), _turned(outer, angle * pair.inner_lobes / pair.outer_teeth)


def _turned(points: FloatArray, angle: Radian) -> FloatArray:
    c, s = cos(angle), sin(angle)
    return np.asarray(points @ np.array([[c, s], [-s, c]]))


def _bore(view: View, body: RotorBody, angle: Radian) -> str:
    radius = 0.5 * body.hub_diameter
    if body.across_flats is None:
        return view.ring((0.0, 0.0), radius)
    half = np.arccos(min(0.5 * body.across_flats / radius, 1.0))
    arcs = [np.linspace(half, pi - half, 24), np.linspace(pi + half, 2.0 * pi - half, 24)]
    around = np.concatenate(arcs)
    # Flats lie across the axis of x of the rotor; the rounds between them keep the bore's radius.
    points = radius * np.column_stack([np.sin(around - 0.5 * pi), np.cos(around - 0.5 * pi)])
    return view.outline(_turned(points, angle))


def _name(view: View, pair: RotorPair, name: str, *, upper: bool) -> None:
    """The name of a port in the corner nearest to it, with a line to its edge."""
    sign = 1.0 if upper else -1.0
    x, y = view.at(polar((0.5 * pair.eccentricity, 0.0), pair.outer_root_radius, sign * 0.72 * pi))
    corner = 0.045 * view.canvas.width, view.y - sign * 0.94 * view.y
    box = view.canvas.write(corner[0] - 10.0, corner[1] + (8.0 if upper else 0.0), name, "small")
    edge = box.y + box.height + 1.0 if upper else box.y - 1.0
    view.canvas.put(line(box.x + 0.5 * box.width, edge, x, y, "rs-leader"))


def _letters(view: View, pair: RotorPair, body: RotorBody, drawn: _Drawn, angle: Radian) -> None:
    """A at the contact nearest to the widest chamber, B at the rim of the body."""
    pitch = 2.0 * pi / pair.outer_teeth
    turned = angle * pair.inner_lobes / pair.outer_teeth
    nearest = (turned + 0.5 * pitch) % pitch - 0.5 * pitch
    tip = polar((pair.eccentricity, 0.0), pair.outer_tip_radius, nearest)
    beyond = polar(
        (pair.eccentricity, 0.0), 0.5 * (pair.outer_root_radius + 0.5 * body.outer_rotor_diameter), 0.0
    )
    view.letter(tip, Place.TIP.letter, view.at(beyond))
    rim = polar((pair.eccentricity, 0.0), 0.5 * body.outer_rotor_diameter + 0.25 * drawn.body, -0.25 * pi)
    x, y = view.at(polar((pair.eccentricity, 0.0), 0.62 * body.outer_rotor_diameter, -0.25 * pi))
    view.letter(rim, Place.BODY.letter, (x + 4.0, y + 4.0))
