"""Viscosity over temperature: the curve through what a data sheet says, and the point asked for.

Both axes are those on which the curve is a straight line; what stands on them is plain temperature and
plain viscosity.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from fitwright.drawing.part_place.shapes import seg
from fitwright.drawing.sum_pictures.sketch import Sketch

_LEFT, _RIGHT, _TOP, _FOOT = 60.0, 424.0, 24.0, 196.0
_THINNEST, _THICKEST = 2.0, 3000.0  # mm2/s that the picture has room for
_LINES = (3.0, 10.0, 30.0, 100.0, 300.0, 1000.0)


@dataclass(frozen=True, slots=True)
class Point:
    """A temperature [K], a kinematic viscosity [mm2/s], and words beside it."""

    temperature: float
    viscosity: float
    words: str = ""


def oil_line(known: Sequence[Point], asked: Point, marks: Sequence[tuple[float, str]], label: str) -> str:
    """The line through the known points, from end to end of the axis, and the point asked for."""
    sketch = Sketch(_FOOT + 34.0)
    temperatures = [each[0] for each in marks] + [asked.temperature]
    low, high = min(temperatures), max(temperatures)
    _axes(sketch, low, high, marks)
    first, second = (_place(each, low, high) for each in known[:2])
    slope = (second[1] - first[1]) / (second[0] - first[0])
    ends = [(x, first[1] + slope * (x - first[0])) for x in (_LEFT, _RIGHT)]
    sketch.ink(seg(*_inside(ends[0], slope), *_inside(ends[1], slope)))
    for each in known:
        sketch.dot(*_place(each, low, high), 3.4)
    x, y = _place(asked, low, high)
    y = min(max(y, _TOP), _FOOT)
    sketch.dashed(seg(x, _FOOT, x, y) + seg(_LEFT, y, x, y))
    sketch.dot(x, y, 5.0)
    sketch.write(_RIGHT + 16.0, _TOP + 10.0, asked.words, "end")  # the line falls: there it never is
    return sketch.svg(label)


def _axes(sketch: Sketch, low: float, high: float, marks: Sequence[tuple[float, str]]) -> None:
    sketch.ink(seg(_LEFT, _TOP, _LEFT, _FOOT) + seg(_LEFT, _FOOT, _RIGHT, _FOOT))
    for viscosity in _LINES:
        y = _height(viscosity)
        sketch.thin(seg(_LEFT - 5.0, y, _LEFT, y))
        sketch.write(_LEFT - 9.0, y + 4.0, f"{viscosity:g}", "end")
    sketch.write(_LEFT + 6.0, _TOP - 8.0, "mm²/s", "start")
    for temperature, words in marks:
        x = _across(temperature, low, high)
        sketch.thin(seg(x, _FOOT, x, _FOOT + 5.0))
        sketch.write(x, _FOOT + 20.0, words)


def _place(point: Point, low: float, high: float) -> tuple[float, float]:
    return _across(point.temperature, low, high), _height(point.viscosity)


def _across(temperature: float, low: float, high: float) -> float:
    share = math.log(temperature / low) / math.log(high / low)
    return _LEFT + share * (_RIGHT - _LEFT)


def _height(viscosity: float) -> float:
    bottom, top, here = (math.log(math.log(each + 0.7)) for each in (_THINNEST, _THICKEST, viscosity))
    return _FOOT - (here - bottom) / (top - bottom) * (_FOOT - _TOP)


def _inside(end: tuple[float, float], slope: float) -> tuple[float, float]:
    """The end of the line, moved along it to where the picture ends."""
    y = min(max(end[1], _TOP), _FOOT)
    return end[0] + (y - end[1]) / slope, y
