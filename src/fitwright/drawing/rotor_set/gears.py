"""An external gear pump from its face: both gears in their body, ports beside the mesh."""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, degrees, pi, sqrt
from typing import Final

import numpy as np

from fitwright.drawing.canvas import Canvas, Picture
from fitwright.drawing.part_place.shapes import hatch
from fitwright.drawing.rotor_set.clearances import GEAR_TITLES, Clearances, Place, as_drawn, described
from fitwright.drawing.rotor_set.plan import PAGE, BesidePlan, across_plan, notes, scale_note
from fitwright.drawing.rotor_set.side import Side
from fitwright.drawing.rotor_set.view import Point, View, polar
from fitwright.drawing.svg import line, path, rect
from fitwright.physics.pump.cautions import KEEP_TRAPPED_OIL_GROOVES
from fitwright.physics.pump.gear_profile import gear_profile
from fitwright.physics.pump.spur import SpurPair
from fitwright.quantity import Metre, Radian
from fitwright.units.families import Family

_WALL: Final = 1.16


@dataclass(frozen=True, slots=True)
class _Drawn:
    """Clearances as large as they are drawn [m]."""

    tip: Metre
    backlash: Metre
    end: Metre


def gear_set(
    pair: SpurPair,
    clearances: Clearances,
    *,
    shaft_diameter: Metre,
    angle: Radian = 0.0,
    factor: float = 1.0,
    ports: bool = True,
    family: Family = "mm",
    width: float = PAGE,
) -> Picture:
    """An external gear pump at an angle of its driving gear, the lower one.

    Parameters
    ----------
    pair : SpurPair
        Gear data.
    clearances : Clearances
        What was measured.
    shaft_diameter : float [m]
        Of both shafts.
    angle : float [rad]
        How far the driving gear is turned.
    factor : float
        How many times larger than true the clearances are drawn.
    ports : bool
        Whether inlet and outlet are shown beside the mesh.
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
    bore = 0.5 * pair.outside_diameter + drawn.tip
    high = 2.0 * _WALL * bore + pair.centre_distance
    scale = min((across - 110.0) / (2.0 * _WALL * bore), 560.0 / high)
    view = View(canvas, 0.5 * across, 6.0 + 0.5 * scale * high, scale)
    _plan(view, pair, drawn, shaft_diameter, angle, ports=ports)
    cut = Side((0.5 * shaft_diameter, 0.5 * pair.outside_diameter), bore, pair.width, drawn.end)
    beside = BesidePlan(clearances, GEAR_TITLES, cut, (260.0, 240.0), family)
    foot = beside.draw(canvas, 12.0 + scale * high)
    lines = [scale_note(factor, limited=limited), f"Lower gear turned by {degrees(angle):.0f}°."]
    if ports:
        lines.append(KEEP_TRAPPED_OIL_GROOVES)
    foot = notes(canvas, foot + 18.0, lines)
    label = f"External gear pump, two gears of {pair.teeth} teeth"
    return canvas.picture(foot, label, described(clearances, GEAR_TITLES, family), "rotor-set")


def _drawn(pair: SpurPair, measured: Clearances, factor: float) -> tuple[_Drawn, bool]:
    most = 0.5 * pair.module, 0.6 * pair.module, 0.5 * pair.width
    sizes, limited = as_drawn((measured.tip, measured.backlash, measured.end), most, factor)
    return _Drawn(*sizes), limited


def _plan(view: View, pair: SpurPair, drawn: _Drawn, shaft: Metre, angle: Radian, *, ports: bool) -> None:
    half = 0.5 * pair.centre_distance
    bore = 0.5 * pair.outside_diameter + drawn.tip
    _body(view, half, bore)
    if ports:
        for sign, name in ((-1.0, "inlet"), (1.0, "outlet")):
            _port(view, sign, half, bore, name)
    up = 0.5 * pi
    lower = gear_profile(pair, backlash=drawn.backlash, turned=up + angle)
    upper = gear_profile(pair, backlash=drawn.backlash, turned=-up + pi / pair.teeth - angle)
    for sign, points in ((-1.0, lower), (1.0, upper)):
        centre = (0.0, sign * half)
        view.fill(view.outline(points + np.array(centre)) + view.ring(centre, 0.5 * shaft), "rs-rotor")
        view.cross(centre)
    root = 0.5 * pair.outside_diameter - 2.6 * pair.module
    view.dot(polar((0.0, -half), root, up + angle))
    turn = 0.5 * (0.5 * shaft + root)
    view.turning((0.0, -half), turn, -0.5 * pi - 0.6, -0.5 * pi + 0.6)
    view.turning((0.0, half), turn, 0.5 * pi + 0.6, 0.5 * pi - 0.6)
    _letters(view, half, bore, drawn)


def _body(view: View, half: Metre, bore: Metre) -> None:
    """The body round both bores; beside the mesh the bores run into each other."""
    wall = _WALL * bore
    outline = np.array(_two_rounds(half, wall, 0.5 * pi))
    waist = acos(min(half / bore, 1.0))
    inside = np.array(_two_rounds(half, bore, 0.5 * pi + (0.5 * pi - waist)))
    rings = [[view.at((float(x), float(y))) for x, y in each] for each in (outline, inside)]
    view.fill(view.outline(outline), "rs-solid")
    view.canvas.put(path(hatch(rings), "rs-hatch"))
    view.fill(view.outline(inside), "rs-oil")


def _port(view: View, sign: float, half: Metre, bore: Metre, name: str) -> None:
    """A passage through the body beside the mesh, and its name outside."""
    high = 0.28 * bore
    outside, top = view.at((sign * _WALL * bore, high))
    waist, foot = view.at((sign * 0.97 * sqrt(max(bore**2 - half**2, 0.0)), -high))
    view.canvas.put(rect(min(outside, waist) - 2.0, top, abs(outside - waist) + 4.0, foot - top, "rs-open"))
    edge = view.at((sign * sqrt(max(bore**2 - (half - high) ** 2, 0.0)), 0.0))[0]
    for level in (top, foot):
        view.canvas.put(line(outside, level, edge, level, "rs-thin"))
    beyond = outside + sign * 8.0
    view.canvas.write(beyond, 0.5 * (top + foot) + 4.0, name, "small", "end" if sign < 0.0 else "start")


def _two_rounds(half: Metre, radius: Metre, open_to: Radian) -> list[Point]:
    """An outline of two arcs about both centres, each from `open_to` on one side to the other."""
    steps = [open_to * (2.0 * k / 80.0 - 1.0) for k in range(81)]
    above = [polar((0.0, half), radius, 0.5 * pi + each) for each in steps]
    below = [polar((0.0, -half), radius, -0.5 * pi + each) for each in steps]
    return [*above, *below]


def _letters(view: View, half: Metre, bore: Metre, drawn: _Drawn) -> None:
    rim = polar((0.0, half), bore - 0.5 * drawn.tip, 0.25 * pi)
    x, y = view.at(polar((0.0, half), 1.28 * bore, 0.25 * pi))
    view.letter(rim, Place.TIP.letter, (x, y))
    view.letter((0.0, 0.0), Place.BACKLASH.letter, view.at((0.62 * bore, 0.0)))
