"""Dimension arrows on the page, with what the sheet states written on them."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, cos, hypot, pi, sin

from fitwright.drawing.engine_section.ink import Placing
from fitwright.drawing.engine_section.outline import Point
from fitwright.drawing.svg import line, path
from fitwright.drawing.writing import TextBox, box_of, shown, width_of

SIZE = 12.0
_HEAD = 7.0


@dataclass(frozen=True, slots=True)
class Measure:
    """A length between two points of the engine [mm], its line moved aside by `aside`."""

    words: str
    start: Point
    end: Point
    aside: Point = (0.0, 0.0)


def drawn(measure: Measure, placing: Placing) -> tuple[str, TextBox]:
    """Extension lines, dimension line with arrow heads, and the figure over its middle."""
    first, last = placing(measure.start), placing(measure.end)
    a, b = (placing(point) for point in ends(measure))
    parts = []
    if measure.aside != (0.0, 0.0):
        parts += [line(*first, *a, "es-extension"), line(*last, *b, "es-extension")]
    way = atan2(b[1] - a[1], b[0] - a[0])
    parts += [_head(a, way), _head(b, way + pi)]
    text, box, open_line = _figure(measure.words, a, b)
    parts += [line(*start, *end, "es-measure") for start, end in open_line]
    return "".join(parts) + text, box


def _figure(words: str, a: Point, b: Point) -> tuple[str, TextBox, list[tuple[Point, Point]]]:
    """The figure in its dimension line, which is left open for it; beside the line where it is too short."""
    x, y = (a[0] + b[0]) / 2, (a[1] + b[1]) / 2
    width, length = width_of(words, SIZE, mono=True), hypot(b[0] - a[0], b[1] - a[1]) or 1.0
    across, down = abs(b[0] - a[0]) / length, abs(b[1] - a[1]) / length
    upright = down > 4 * across
    room = width if upright or down < 0.25 else min(width / across, SIZE / down)
    share = 0.5 - (room / 2 + 3.0) / length
    lines = [(a, b)]
    if share * length > _HEAD + 2.0:
        inner = [(a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t) for t in (share, 1.0 - share)]
        lines = [(a, inner[0]), (inner[1], b)]
    elif upright:
        x += 0.75 * SIZE
    else:
        y -= 0.75 * SIZE
    if upright:
        x += 0.35 * SIZE
        box = box_of(x, y, words, width, SIZE, "middle", upright=True)
        return shown(x, y, words, "es-number", "middle", -90.0), box, lines
    y += 0.35 * SIZE
    return shown(x, y, words, "es-number", "middle"), box_of(x, y, words, width, SIZE, "middle"), lines


def _head(point: Point, way: float) -> str:
    x, y = point
    wings = [(x + _HEAD * cos(way + turn), y + _HEAD * sin(way + turn)) for turn in (0.2, -0.2)]
    data = f"M{x:.1f} {y:.1f}" + "".join(f"L{px:.1f} {py:.1f}" for px, py in wings) + "Z"
    return path(data, "es-arrow")


def angle_drawn(words: str, centre: Point, reach: float, spread: tuple[float, float]) -> tuple[str, TextBox]:
    """An angle between two directions on the page (clockwise from upwards), with its figure."""
    start, end = spread
    middle = (start + end) / 2
    width = width_of(words, SIZE, mono=True)
    half = (width / 2 + 4.0) / reach
    places = [
        (centre[0] + reach * sin(a), centre[1] - reach * cos(a))
        for a in (start, middle - half, middle + half, end)
    ]
    x, y = centre[0] + reach * sin(middle), centre[1] - reach * cos(middle)
    parts = [_head(places[0], start), _head(places[3], end + pi)]
    if 2 * half < end - start:
        for first, last in (places[:2], places[2:]):
            data = f"M{first[0]:.1f} {first[1]:.1f}A{reach:.1f} {reach:.1f} 0 0 1 {last[0]:.1f} {last[1]:.1f}"
            parts.append(path(data, "es-measure"))
    return "".join(parts) + shown(x, y + 0.35 * SIZE, words, "es-number", "middle"), box_of(
        x, y + 0.35 * SIZE, words, width, SIZE, "middle"
    )


def ends(measure: Measure) -> tuple[Point, Point]:
    """Where a dimension line begins and ends [mm]."""
    return _plus(measure.start, measure.aside), _plus(measure.end, measure.aside)


def _plus(first: Point, second: Point) -> Point:
    return first[0] + second[0], first[1] + second[1]
