"""Blades on each other, to scale, beside the thickness that was wanted."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate

from fitwright.drawing.part_place.shapes import box, seg
from fitwright.drawing.sum_pictures.sketch import LINE, Labelled, Sketch, spread_out

_TOP, _HIGH = 22.0, 120.0
_LEFT, _RIGHT = 130.0, 330.0


def blade_stack(blades: Sequence[Labelled], total: Labelled, wanted: Labelled, label: str) -> str:
    """The stack from its thickest blade up, its own thickness at the left, the one wanted at the right."""
    sketch = Sketch(_TOP + _HIGH + 24.0)
    scale = _HIGH / max(total.size, wanted.size, sum(each.size for each in blades))
    foot = _TOP + _HIGH
    tops = [foot - scale * size for size in accumulate(each.size for each in blades)]
    middles = [top + scale * each.size / 2.0 for top, each in zip(tops, blades, strict=True)]
    heights = spread_out([-middle for middle in middles], LINE, -foot, -_TOP + 10.0)
    for top, middle, height, each in zip(tops, middles, heights, blades, strict=True):
        sketch.solid(_LEFT, top, _RIGHT - _LEFT, scale * each.size, "sum-leaf")
        sketch.thin(seg(_RIGHT, middle, _RIGHT + 16.0, -height))
        sketch.write(_RIGHT + 20.0, -height + 4.0, each.words, "start")
    sketch.ink(seg(_LEFT - 60.0, foot, _RIGHT + 4.0, foot))
    sketch.ink(box(_LEFT, tops[-1], _RIGHT - _LEFT, foot - tops[-1]))
    sketch.upright(_LEFT - 16.0, foot - scale * total.size, foot, total.words)
    aim = foot - scale * wanted.size
    sketch.dashed(seg(_LEFT - 30.0, aim, _RIGHT + 4.0, aim))
    sketch.write((_LEFT + _RIGHT) / 2.0, min(aim, tops[-1]) - 7.0, wanted.words)
    return sketch.svg(label)
