"""Indications of one place on an axis, their mean, and the band of one standard deviation each way."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from fitwright.drawing.part_place.shapes import seg
from fitwright.drawing.scale import scale_over
from fitwright.drawing.sum_pictures.sketch import Labelled, Sketch

_LEFT, _RIGHT = 24.0, 436.0
_APART = 11.0


def spread(
    indications: Sequence[float], mean: Labelled, deviation: float, band: Labelled | None, label: str
) -> str:
    """Dots above an axis, all in its unit; equal indications stand on each other."""
    piles = Counter(indications)
    axis = 34.0 + _APART * max(piles.values()) + 26.0
    sketch = Sketch(axis + (64.0 if band else 36.0))
    reach = max(deviation, 1e-9)
    low = min(*indications, mean.size - 1.5 * reach)
    high = max(*indications, mean.size + 1.5 * reach)
    scale = scale_over(low, high, _LEFT, _RIGHT, most_ticks=5)
    left, right = scale.x(mean.size - deviation), scale.x(mean.size + deviation)
    sketch.solid(left, 26.0, right - left, axis - 26.0, "sum-hot")
    sketch.thin(seg(_LEFT, axis, _RIGHT, axis))
    for tick in scale.ticks():
        sketch.thin(seg(scale.x(tick), axis, scale.x(tick), axis + 8.0))
        sketch.write(scale.x(tick), axis + 25.0, f"{tick:.{scale.decimals}f}", cls="tick")
    for value, count in piles.items():
        for number in range(count):
            sketch.dot(scale.x(value), axis - 9.0 - _APART * number)
    sketch.ink(seg(scale.x(mean.size), 22.0, scale.x(mean.size), axis))
    sketch.write(min(max(scale.x(mean.size), 90.0), 370.0), 15.0, mean.words)
    if band is not None:
        half = min(0.5 * band.size / (scale.high - scale.low) * (_RIGHT - _LEFT), 0.5 * (_RIGHT - _LEFT))
        middle = 0.5 * (_LEFT + _RIGHT)
        sketch.across(middle - half, middle + half, axis + 42.0, band.words, above=False)
    return sketch.svg(label)
