"""Pressure at the gauge over the speed of the crank, a line with its band for each oil temperature."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from fitwright.assess.oil.results import PressureCurve, StopValue
from fitwright.drawing.canvas import Canvas, Picture
from fitwright.drawing.charts.axes import Axes, Room, axes_over, draw_axes
from fitwright.drawing.charts.curve_lines import CurveLines, rev_per_min
from fitwright.drawing.charts.limit_lines import draw_readings, draw_relief, draw_selected, draw_stops
from fitwright.drawing.charts.shown import ReliefPlateau, Selected, StartReading
from fitwright.drawing.oil_figures import OilReader
from fitwright.units.families import Family

NARROW: Final = 560.0
LEAST_SPAN: Final = 0.5e5
"""The axis of pressure reaches at least so far [Pa]."""


def pressure_speed(
    curves: Sequence[PressureCurve],
    *,
    family: Family = "mm",
    width: float = 780.0,
    stops: Sequence[StopValue] = (),
    relief: ReliefPlateau | None = None,
    selected: Selected | None = None,
    what_if: Sequence[PressureCurve] = (),
    solid: str = "the build as measured",
    readings: Sequence[StartReading] = (),
) -> Picture:
    """The chart of pressure over speed.

    Parameters
    ----------
    curves : sequence of PressureCurve
        The build as measured, one for each oil temperature.
    family : {"mm", "inch"}
        bar and °C, or psi and °F.
    width : float
        Width in units of 1 px; below 560 the chart is higher than usual for its width.
    stops : sequence of StopValue
        Those with a lowest pressure stand as brackets with a letter, explained below with who says so.
    relief : ReliefPlateau, optional
        Where the relief valve opens.
    selected : Selected, optional
        The point looked at.
    what_if : sequence of PressureCurve
        The same engine with something changed: dashed, without band.
    solid : str
        What the full lines are called where there are dashed ones.
    readings : sequence of StartReading
        Pressures read at the first start, as marks with numbers.

    Returns
    -------
    Picture
        A point without a solution is a gap, marked at the foot of the chart.
    """
    canvas, reader = Canvas(width), OilReader(family)
    axes = _axes(width, reader, (*curves, *what_if), stops, relief, readings)
    lines = CurveLines(canvas, axes, reader)
    foot = draw_axes(canvas, axes, "rev/min", f"{reader.pressure_unit} at the gauge")
    kinds = {each.oil_temperature: kind for kind, each in enumerate(curves)}
    for kind, curve in enumerate(curves):
        lines.band(curve, kind)
    for kind, curve in enumerate(curves):
        lines.line(curve, kind)
    changed = [(each, kinds.setdefault(each.oil_temperature, len(kinds))) for each in what_if]
    for curve, kind in changed:
        lines.line(curve, kind, "ch-what-if")
    measured = [(curve, kind, "") for kind, curve in enumerate(curves)]
    lines.labels([*measured, *((curve, kind, "what-if") for curve, kind in changed)], axes.room.right)
    notes = _over(lines, curves, stops, relief, selected, readings)
    row = axes.room.bottom - 10.0
    for curve in (*curves, *what_if):
        row = lines.gaps(curve, row)
    for note in (*_key(solid if what_if else "", curves), *notes):
        foot = canvas.paragraph(0.0, foot, note, width, "small") + 3.0
    return canvas.picture(
        foot, "Oil pressure over speed", _described(lines, curves, notes), "chart pressure-speed"
    )


def _over(
    lines: CurveLines,
    curves: Sequence[PressureCurve],
    stops: Sequence[StopValue],
    relief: ReliefPlateau | None,
    selected: Selected | None,
    readings: Sequence[StartReading],
) -> list[str]:
    """All that stands over the curves; what is said of it below the chart."""
    notes = draw_relief(lines, relief) if relief is not None else []
    notes += [draw_selected(lines, curves, selected)] if selected is not None else []
    return [*notes, *draw_stops(lines, stops), *draw_readings(lines, readings)]


def _axes(
    width: float,
    reader: OilReader,
    curves: Sequence[PressureCurve],
    stops: Sequence[StopValue],
    relief: ReliefPlateau | None,
    readings: Sequence[StartReading],
) -> Axes:
    narrow = width < NARROW
    labels = 104.0 if any(curves) else 20.0
    room = Room(40.0, 34.0, width - labels - 12.0, 34.0 + (300.0 if narrow else 0.46 * width))
    speeds = [speed for curve in curves for speed in curve.angular_speeds]
    speeds += [each.angular_speed for each in readings]
    speeds += [each.angular_speed for each in stops if each.angular_speed is not None]
    pressures = [
        end
        for curve in curves
        for band in curve.gauge_pressure
        for end in (band.best, band.low, band.high)
        if end is not None
    ]
    pressures += [each.lowest_pressure for each in stops if each.lowest_pressure is not None]
    pressures += [each.gauge_pressure for each in readings]
    if relief is not None:
        ends = (relief.cracking_pressure, relief.full_bypass_pressure)
        pressures += [end for end in ends if end is not None]
    return axes_over(
        room,
        [rev_per_min(each) for each in speeds] or [1000.0],
        [reader.in_pressure(each) for each in (*pressures, LEAST_SPAN)],
        most_across=5 if narrow else 9,
    )


def _key(solid: str, curves: Sequence[PressureCurve]) -> list[str]:
    bands = any(band.low is not None for curve in curves for band in curve.gauge_pressure)
    said = ["Grey, between thin broken lines: 95 % band."] if bands else []
    return [*said, *([f"Dashed: what-if. Full lines: {solid}."] if solid else [])]


def _described(lines: CurveLines, curves: Sequence[PressureCurve], notes: Sequence[str]) -> str:
    """Each curve by its first, middle and last point; then what else is said."""
    reader, said = lines.reader, []
    for curve in curves:
        count = len(curve.angular_speeds)
        places = dict.fromkeys((0, count // 2, count - 1)) if count else {}
        points = [
            f"{reader.speed(curve.angular_speeds[n])} {reader.pressure(curve.gauge_pressure[n])}"
            for n in places
        ]
        said.append(f"Oil {reader.temperature(curve.oil_temperature)}: {', '.join(points)}.")
    return " ".join((*said, *notes)) or "No curves."
