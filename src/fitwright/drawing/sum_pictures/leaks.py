"""Gaps that leak, cut along the flow; the gap is drawn far wider than it is."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.drawing.part_place.shapes import box, corners, seg
from fitwright.drawing.sum_pictures.sketch import Sketch

_LEFT, _RIGHT = 130.0, 330.0
_MIDDLE, _WALL = 108.0, 34.0
_NARROW, _WIDE = 10.0, 34.0
_FULL = 0.25e-3  # a gap [m] that is drawn as wide as any


@dataclass(frozen=True, slots=True)
class Slot:
    """A flat slot: its gap [m], and words for all that is known of it."""

    gap: float
    gap_words: str
    width: str
    length: str
    pressure: str
    wall: str
    leak: str


@dataclass(frozen=True, slots=True)
class Faces:
    """Two faces over a land: the gap [m], inside over outside of the land, and words."""

    gap: float
    share: float
    gap_words: str
    outer: str
    inner: str
    pressure: str
    leak: str


def slot(leak: Slot, label: str) -> str:
    """The slot between two walls, pressure on the left, the leak on the right."""
    sketch = Sketch(2.0 * _MIDDLE + 8.0)
    half = _half(leak.gap)
    _walls(sketch, _LEFT, _RIGHT, half)
    sketch.arrow(_LEFT - 70.0, _MIDDLE, _LEFT - 6.0, _MIDDLE)
    sketch.arrow(_RIGHT + 6.0, _MIDDLE, _RIGHT + 60.0, _MIDDLE)
    sketch.write(_LEFT - 40.0, _MIDDLE - 10.0, leak.pressure)
    sketch.write(_RIGHT + 66.0, _MIDDLE - 10.0, leak.leak)
    sketch.across(_LEFT, _RIGHT, _MIDDLE + half + _WALL + 16.0, leak.length, above=False)
    sketch.write(_LEFT, _MIDDLE - half - _WALL - 28.0, f"{leak.width} wide", "start")
    sketch.write(_LEFT - 8.0, _MIDDLE + 20.0, leak.gap_words, "end")
    if leak.wall:
        y = _MIDDLE - half - _WALL - 8.0
        sketch.arrow(_LEFT + 60.0, y, _RIGHT - 60.0, y)
        sketch.write(_RIGHT - 54.0, y + 4.0, leak.wall, "start")
    return sketch.svg(label)


def faces(leak: Faces, label: str) -> str:
    """Both halves of a ring-shaped land beside its axis, the leak flowing over them."""
    sketch = Sketch(2.0 * _MIDDLE + 8.0)
    half, middle, reach = _half(leak.gap), 230.0, 126.0
    bore = max(0.12, min(leak.share, 0.92)) * reach
    for sign in (-1.0, 1.0):
        ends = sorted((middle + sign * bore, middle + sign * reach))
        _walls(sketch, ends[0], ends[1], half)
        inner, outer = middle + sign * (bore - 4.0), middle + sign * (reach + 34.0)
        sketch.arrow(inner, _MIDDLE, outer, _MIDDLE)
    sketch.centre(seg(middle, _MIDDLE - half - _WALL - 4.0, middle, _MIDDLE + half + _WALL + 6.0))
    sketch.across(middle - reach, middle + reach, _MIDDLE - half - _WALL - 10.0, f"outside {leak.outer}")
    sketch.across(
        middle - bore, middle + bore, _MIDDLE + half + _WALL + 12.0, f"inside {leak.inner}", above=False
    )
    sketch.write(4.0, _MIDDLE - 10.0, leak.gap_words, "start")
    sketch.write(middle + 8.0, _MIDDLE + 4.0, leak.pressure, "start")
    sketch.write(456.0, 2.0 * _MIDDLE, leak.leak, "end")
    return sketch.svg(label)


def _half(gap: float) -> float:
    return 0.5 * (_NARROW + (_WIDE - _NARROW) * min(gap / _FULL, 1.0))


def _walls(sketch: Sketch, left: float, right: float, half: float) -> None:
    for top, falling in ((_MIDDLE - half - _WALL, False), (_MIDDLE + half, True)):
        area = (left, top, right - left, _WALL)
        sketch.cut(box(*area), corners(*area), falling=falling)
