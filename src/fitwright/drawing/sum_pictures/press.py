"""A hub pressed on a shaft, cut lengthwise: diameters in proportion, the interference drawn larger."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.drawing.part_place.shapes import box, corners, seg
from fitwright.drawing.sum_pictures.sketch import Labelled, Sketch

_MIDDLE, _OUTER = 112.0, 84.0
_LEFT, _RIGHT = 170.0, 290.0
_ENDS = 34.0
_BAND = 6.0


@dataclass(frozen=True, slots=True)
class Press:
    """The sizes of a press fit, with words, and what they lead to."""

    shaft: Labelled
    outer: Labelled
    bore: Labelled
    length: str
    interference: str
    pressure: str
    grips: bool


def press(fit: Press, label: str) -> str:
    """Hub and shaft in section; arrows press on each other where they grip."""
    sketch = Sketch(2.0 * _MIDDLE + 14.0)
    radius = _OUTER * fit.shaft.size / fit.outer.size
    hole = _OUTER * fit.bore.size / fit.outer.size
    for top in (_MIDDLE - _OUTER, _MIDDLE + radius):
        area = (_LEFT, top, _RIGHT - _LEFT, _OUTER - radius)
        sketch.cut(box(*area), corners(*area))
    for top in (_MIDDLE - radius, _MIDDLE + hole):
        area = (_LEFT - _ENDS, top, _RIGHT - _LEFT + 2.0 * _ENDS, radius - hole)
        sketch.cut(box(*area), corners(*area), falling=True)
    if fit.grips:
        _grip(sketch, radius)
    sketch.centre(seg(_LEFT - _ENDS - 12.0, _MIDDLE, _RIGHT + _ENDS + 12.0, _MIDDLE))
    _sizes(sketch, fit, radius, hole)
    return sketch.svg(label)


def _grip(sketch: Sketch, radius: float) -> None:
    """The overlap, as a dark band, and arrows from the hub onto it."""
    for y, way in ((_MIDDLE - radius, -1.0), (_MIDDLE + radius, 1.0)):
        sketch.solid(_LEFT, y - _BAND / 2.0, _RIGHT - _LEFT, _BAND, "sum-dark")
        for share in (0.2, 0.5, 0.8):
            x = _LEFT + share * (_RIGHT - _LEFT)
            sketch.arrow(x, y + way * 24.0, x, y + way * (_BAND / 2.0))


def _sizes(sketch: Sketch, fit: Press, radius: float, hole: float) -> None:
    left, right = _LEFT - _ENDS, _RIGHT + _ENDS
    for sign in (-1.0, 1.0):
        sketch.thin(seg(_LEFT, _MIDDLE + sign * _OUTER, 104.0, _MIDDLE + sign * _OUTER))
        sketch.thin(seg(right, _MIDDLE + sign * radius, right + 26.0, _MIDDLE + sign * radius))
    sketch.upright(110.0, _MIDDLE - _OUTER, _MIDDLE + _OUTER, fit.outer.words)
    sketch.upright(right + 20.0, _MIDDLE - radius, _MIDDLE + radius, fit.shaft.words, left=False)
    if hole > 1.0:
        sketch.upright(left + 12.0, _MIDDLE - hole, _MIDDLE + hole)
        sketch.write(left - 4.0, _MIDDLE + 4.0, fit.bore.words, "end")
    if fit.length:
        sketch.across(_LEFT, _RIGHT, _MIDDLE + _OUTER + 12.0, fit.length, above=False)
    sketch.write((_LEFT + _RIGHT) / 2.0, _MIDDLE - _OUTER - 10.0, fit.pressure)
    sketch.write(_RIGHT + 8.0, _MIDDLE - radius - 8.0, fit.interference, "start")
