"""The edge through which oil enters a drilling, cut lengthwise, its radius in proportion to the diameter."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.drawing.part_place.shapes import n, seg
from fitwright.drawing.sum_pictures.sketch import Sketch

_FACE, _END = 150.0, 400.0
_MIDDLE, _BORE, _WALL = 112.0, 42.0, 48.0
_ARC = 8  # corners that stand for the round edge under the hatching


@dataclass(frozen=True, slots=True)
class Inlet:
    """Edge radius over diameter, and words for what is known and found."""

    ratio: float
    diameter: str
    radius: str
    speed: str
    drop: str
    range_words: str


def inlet(edge: Inlet, label: str) -> str:
    """A wall with a drilling in it, oil flowing in from the left."""
    sketch = Sketch(2.0 * _MIDDLE + 14.0)
    radius = min(2.0 * _BORE * edge.ratio, _WALL)
    for way in (-1.0, 1.0):
        _wall(sketch, way, radius)
        start = _MIDDLE + way * (_BORE + 26.0)
        sketch.arrow(_FACE - 70.0, start, _FACE - 14.0, _MIDDLE + way * _BORE * 0.6)
    sketch.arrow(_FACE - 96.0, _MIDDLE, _FACE + 90.0, _MIDDLE)
    sketch.centre(seg(_FACE - 110.0, _MIDDLE, _END + 20.0, _MIDDLE))
    sketch.upright(_END - 14.0, _MIDDLE - _BORE, _MIDDLE + _BORE)
    sketch.write(_END - 20.0, _MIDDLE - 12.0, edge.diameter, "end")
    sketch.write(_FACE + 100.0, _MIDDLE + 20.0, edge.speed, "start")
    sketch.write(_FACE - 6.0, _MIDDLE - _BORE - _WALL + 2.0, edge.radius, "end")
    sketch.write(_FACE + 4.0, 2.0 * _MIDDLE + 6.0, edge.range_words, "start")
    sketch.write(_FACE + 4.0, 14.0, edge.drop, "start")
    return sketch.svg(label)


def _wall(sketch: Sketch, way: float, radius: float) -> None:
    """The metal on one side of the drilling."""
    inside, outside = _MIDDLE + way * _BORE, _MIDDLE + way * (_BORE + _WALL)
    turn = [0.5 * math.pi * step / _ARC for step in range(_ARC + 1)]
    edge = [
        (
            _FACE + radius * (1.0 - math.sin(angle)),
            inside + way * radius * (1.0 - math.cos(angle)),
        )
        for angle in turn
    ]
    around = [*edge, (_FACE, outside), (_END, outside), (_END, inside)]
    outline = "M" + "L".join(f"{n(x)} {n(y)}" for x, y in around) + "z"
    sketch.cut(outline, around, falling=way > 0.0)
