"""A journal in its bearing, seen along its axis: load, place of the journal, thinnest film.

The clearance is drawn far wider than it is; the load points down, and the journal turns the way of the
arrow, against the clock.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, degrees, pi, radians, sin

from fitwright.drawing.part_place.shapes import arc, disc, ring, seg
from fitwright.drawing.sum_pictures.sketch import LINE, Sketch

_X, _Y = 122.0, 146.0
_SHAFT, _BORE, _WALL = 62.0, 86.0, 100.0


@dataclass(frozen=True, slots=True)
class JournalBearing:
    """Eccentricity ratio and attitude [rad], None where no film is predicted; and words."""

    eccentricity_ratio: float | None
    attitude_angle: float | None
    load: str
    speed: str
    thinnest: str
    beside: tuple[str, ...]


def journal_bearing(bearing: JournalBearing, label: str) -> str:
    """The view, and beside it what was found."""
    sketch = Sketch(2.0 * _Y + 2.0)
    # Without a film the journal lies where the load presses it.
    e = 1.0 if bearing.eccentricity_ratio is None else bearing.eccentricity_ratio
    way = -0.5 * pi + (bearing.attitude_angle or 0.0)
    off = e * (_BORE - _SHAFT)
    x, y = _X + off * cos(way), _Y - off * sin(way)
    sketch.cut(ring(_X, _Y, _WALL) + ring(_X, _Y, _BORE), disc(_X, _Y, _WALL), disc(_X, _Y, _BORE))
    sketch.cut(ring(x, y, _SHAFT), disc(x, y, _SHAFT), falling=True)
    sketch.centre(_cross(_X, _Y) + _cross(x, y))
    _turning(sketch, bearing.speed)
    sketch.arrow(x, y, x, _Y + _WALL + 34.0)
    sketch.write(x - 8.0, _Y + _WALL + 30.0, bearing.load, "end")
    if bearing.attitude_angle is not None:
        _line_of_centres(sketch, way, (x, y), bearing)
    for number, words in enumerate(bearing.beside):
        sketch.write(246.0, 44.0 + number * LINE, words, "start")
    return sketch.svg(label)


def _line_of_centres(
    sketch: Sketch, way: float, centre: tuple[float, float], bearing: JournalBearing
) -> None:
    """Through both centres to the thinnest film, and the angle between it and the load."""
    far = _WALL + 16.0
    end = _X + far * cos(way), _Y - far * sin(way)
    sketch.dashed(seg(_X - 0.6 * far * cos(way), _Y + 0.6 * far * sin(way), *end))
    sketch.write(end[0] + 6.0, end[1] + 4.0, bearing.thinnest, "start")
    # Angles of an arc run clockwise from the top.
    sketch.thin(arc(centre, 0.75 * _SHAFT, 90.0 - degrees(way), 180.0))


def _turning(sketch: Sketch, words: str) -> None:
    """An arrow over the bearing, against the clock."""
    radius, end = _WALL + 12.0, 0.5 * pi + radians(24.0)
    sketch.thin(arc((_X, _Y), radius, -24.0, 24.0))
    x, y = _X + radius * cos(end), _Y - radius * sin(end)
    sketch.arrow(x + 14.0 * sin(end), y + 14.0 * cos(end), x, y)
    sketch.write(_X, _Y - radius - 8.0, words)


def _cross(x: float, y: float) -> str:
    return seg(x - 6.0, y, x + 6.0, y) + seg(x, y - 6.0, x, y + 6.0)
