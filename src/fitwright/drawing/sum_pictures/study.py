"""The readings of a crossed study, part by part, each person with a mark of their own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from fitwright.drawing.part_place.shapes import poly, seg
from fitwright.drawing.scale import scale_over
from fitwright.drawing.sum_pictures.sketch import Sketch, shortened

_LEFT, _RIGHT = 74.0, 446.0
_TOP, _FOOT = 36.0, 176.0
_MARKS = 4
"""Marks that can be told apart: a dot, a ring, a cross, a triangle."""


def study(readings: Mapping[tuple[str, str], Sequence[float]], unit: str, label: str) -> str:
    """Readings by person and part, in one unit; a column for each part, a line down from part to part."""
    people = list(dict.fromkeys(person for person, _ in readings))
    parts = list(dict.fromkeys(part for _, part in readings))
    every = [each for values in readings.values() for each in values]
    scale = scale_over(min(every), max(every), _FOOT, _TOP, most_ticks=5)
    sketch = Sketch(_FOOT + 42.0)
    _frame(sketch, parts, [(tick, scale.x(tick), scale.decimals) for tick in scale.ticks()], unit)
    width = (_RIGHT - _LEFT) / len(parts)
    for index, person in enumerate(people):
        shift = (index - (len(people) - 1) / 2.0) * min(14.0, width / (len(people) + 1))
        means = []
        for column, part in enumerate(parts):
            values = readings.get((person, part), ())
            x = _LEFT + (column + 0.5) * width + shift
            for value in values:
                _mark(sketch, x, scale.x(value), index)
            if values:
                means.append((x, scale.x(sum(values) / len(values))))
        sketch.thin(poly(means, closed=False))
        x = _LEFT + index * (_RIGHT - _LEFT) / len(people)
        _mark(sketch, x + 5.0, 13.0, index)
        sketch.write(x + 15.0, 17.0, shortened(person, 40 // len(people)), "start")
    return sketch.svg(label)


def _frame(
    sketch: Sketch, parts: Sequence[str], ticks: Sequence[tuple[float, float, int]], unit: str
) -> None:
    for tick, y, decimals in ticks:
        sketch.thin(seg(_LEFT - 6.0, y, _LEFT, y))
        sketch.write(_LEFT - 9.0, y + 4.0, f"{tick:.{decimals}f}", "end", "tick")
    sketch.thin(f"M{_LEFT} {_TOP - 8.0}V{_FOOT + 6.0}H{_RIGHT}")
    sketch.write(_LEFT - 9.0, _FOOT + 24.0, unit, "end", "tick")
    width = (_RIGHT - _LEFT) / len(parts)
    for column, part in enumerate(parts):
        words = shortened(part, max(2, int(width / 8.0)))
        sketch.write(_LEFT + (column + 0.5) * width, _FOOT + 24.0, words, cls="tick")


def _mark(sketch: Sketch, x: float, y: float, index: int) -> None:
    kind = index % _MARKS
    if kind < 2:
        sketch.dot(x, y, 4.0, "sum-dot" if kind == 0 else "sum-ring")
    elif kind == 2:
        sketch.ink(f"{seg(x - 4.0, y - 4.0, x + 4.0, y + 4.0)}{seg(x - 4.0, y + 4.0, x + 4.0, y - 4.0)}")
    else:
        sketch.ink(poly([(x, y - 5.0), (x + 4.5, y + 3.5), (x - 4.5, y + 3.5)]))
