"""A housing round a shaft as seen from the nose, and beside it the plane in which its centre lies.

The shaft and the mean gap have a fixed size; the offset is drawn larger than it is. In the plane the
shaft's centre is the origin; the limit is a circle about it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, hypot, sin

from fitwright.drawing.part_place.shapes import disc, poly, ring, seg
from fitwright.drawing.sum_pictures.sketch import Labelled, Sketch, shortened

_VIEW, _PLANE = (152.0, 120.0), (374.0, 120.0)
_SHAFT, _BORE, _WALL = 46.0, 66.0, 78.0
_MOST = 15.0
_OUTSIDE, _BESIDE = 97.0, 0.5
_REACH = 62.0

Point = tuple[float, float]
"""To the right, and towards the top."""


@dataclass(frozen=True, slots=True)
class Around:
    """What was found: gaps by their angle, the offset, its limit, every offset that blades allow."""

    gaps: Sequence[Labelled]
    offset: Point | None
    offset_words: str
    limit: Labelled | None
    corners: Sequence[Point]
    uncertainty: Point | None
    sides: tuple[str, str, str, str]


def round_shaft(around: Around, label: str) -> str:
    """The view and the plane side by side; `gaps` give an angle clockwise from the top [rad]."""
    sketch = Sketch(272.0)
    _view(sketch, around)
    _plane(sketch, around)
    return sketch.svg(label)


def _view(sketch: Sketch, around: Around) -> None:
    x, y = _VIEW
    right, up = around.offset or (0.0, 0.0)
    size = hypot(right, up) or 1.0
    shift = _MOST if around.offset is not None and size else 0.0
    cx, cy = x + shift * right / size, y - shift * up / size
    sketch.cut(ring(cx, cy, _WALL) + ring(cx, cy, _BORE), disc(cx, cy, _WALL), disc(cx, cy, _BORE))
    sketch.cut(ring(x, y, _SHAFT), disc(x, y, _SHAFT), falling=True)
    sketch.centre(seg(x - 12.0, y, x + 12.0, y) + seg(x, y - 12.0, x, y + 12.0))
    for gap in around.gaps:
        _gap(sketch, gap)


def _gap(sketch: Sketch, gap: Labelled) -> None:
    """The words of a gap outside of the housing, where it was read."""
    x, y = _VIEW
    s, c = sin(gap.size), cos(gap.size)
    sketch.thin(seg(x + _SHAFT * s, y - _SHAFT * c, x + _OUTSIDE * s, y - _OUTSIDE * c))
    anchor = "start" if s > _BESIDE else "end" if s < -_BESIDE else "middle"
    at = _OUTSIDE + 5.0
    below = 14.0 if c < -_BESIDE else 0.0 if c > _BESIDE else 5.0
    sketch.write(x + at * s, y - at * c + below, gap.words, anchor)


def _plane(sketch: Sketch, around: Around) -> None:
    x, y = _PLANE
    scale = _REACH / _farthest(around)
    sketch.thin(seg(x - 74.0, y, x + 74.0, y) + seg(x, y - 84.0, x, y + 84.0))
    _sides(sketch, around.sides)
    if around.limit is not None:
        sketch.ink(ring(x, y, scale * around.limit.size))
        sketch.write(x, y + 142.0, around.limit.words)
    if around.corners:
        sketch.dashed(poly([(x + scale * right, y - scale * up) for right, up in around.corners]))
    if around.offset is None:
        return
    at = (x + scale * around.offset[0], y - scale * around.offset[1])
    if around.uncertainty is not None:
        right, up = (2.0 * scale * each for each in around.uncertainty)
        sketch.ink(
            seg(at[0] - right, at[1], at[0] + right, at[1]) + seg(at[0], at[1] - up, at[0], at[1] + up)
        )
    sketch.arrow(*at, x, y)
    sketch.dot(*at)
    sketch.write(_VIEW[0], y + 142.0, around.offset_words)


def _sides(sketch: Sketch, sides: tuple[str, str, str, str]) -> None:
    x, y = _PLANE
    top, right, bottom, left = (shortened(each, 18) for each in sides)
    sketch.write(x, y - 92.0, top)
    sketch.write(x, y + 102.0, bottom)
    sketch.write(x + 84.0, y - 72.0, f"{right} →", "end")
    sketch.write(x - 84.0, y + 84.0, f"← {left}", "start")


def _farthest(around: Around) -> float:
    sizes = [hypot(*each) for each in (*around.corners, *((around.offset,) if around.offset else ()))]
    if around.limit is not None:
        sizes.append(around.limit.size)
    return max(sizes, default=0.0) or 1.0
