"""An amount on two rulers that lie against each other, each in a unit of its own."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.drawing.part_place.shapes import seg
from fitwright.drawing.scale import scale_over
from fitwright.drawing.sum_pictures.sketch import Sketch, ticks_between

_LEFT, _RIGHT = 24.0, 436.0
_EDGE, _DEPTH = 66.0, 40.0


@dataclass(frozen=True, slots=True)
class Ruler:
    """One ruler: what its two ends read in its unit, and the amount in words."""

    low: float
    high: float
    unit: str
    words: str


def rulers(upper: Ruler, lower: Ruler, share: float, label: str) -> str:
    """Two rulers over the same span, with the amount at `share` of it."""
    sketch = Sketch(132.0)
    sketch.ink(
        f"M{_LEFT} {_EDGE - _DEPTH}H{_RIGHT}V{_EDGE + _DEPTH}H{_LEFT}z{seg(_LEFT, _EDGE, _RIGHT, _EDGE)}"
    )
    _marks(sketch, upper, -1.0)
    _marks(sketch, lower, 1.0)
    x = _LEFT + share * (_RIGHT - _LEFT)
    sketch.solid(x - 1.5, _EDGE - _DEPTH, 3.0, 2.0 * _DEPTH)
    anchor = "start" if share < 0.25 else "end" if share > 0.75 else "middle"
    sketch.write(x, _EDGE - _DEPTH - 8.0, upper.words, anchor)
    sketch.write(x, _EDGE + _DEPTH + 18.0, lower.words, anchor)
    return sketch.svg(label)


def _marks(sketch: Sketch, ruler: Ruler, side: float) -> None:
    scale = scale_over(ruler.low, ruler.high, _LEFT, _RIGHT, most_ticks=6)
    length = ruler.high - ruler.low

    def x(value: float) -> float:
        return _LEFT + (value - ruler.low) / length * (_RIGHT - _LEFT)

    for tick in ticks_between(ruler.low, ruler.high, scale.step / 5.0):
        sketch.thin(seg(x(tick), _EDGE, x(tick), _EDGE + side * 7.0))
    for tick in ticks_between(ruler.low, ruler.high, scale.step):
        at = x(tick)
        sketch.ink(seg(at, _EDGE, at, _EDGE + side * 13.0))
        if _LEFT + 12.0 < at < _RIGHT - 46.0:
            sketch.write(at, _EDGE + side * 24.0 + 4.0, f"{tick:.{scale.decimals}f}", cls="tick")
    sketch.write(_RIGHT - 6.0, _EDGE + side * 24.0 + 4.0, ruler.unit, "end", "tick")
