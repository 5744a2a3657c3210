"""A gap between its limits, and below it what each blade said: at least this much, or less than that."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fitwright.drawing.limit_picture import AXIS, HEIGHT, RIGHT, LimitPicture
from fitwright.drawing.part_place.shapes import seg
from fitwright.drawing.sum_pictures.sketch import LINE, Sketch

_REACH = 26.0


@dataclass(frozen=True, slots=True)
class Said:
    """What one blade or stack said: its thickness in the unit of the axis, and the answer in words."""

    thickness: float
    words: str
    at_least: bool
    less_than: bool


def blade_answers(picture: LimitPicture, answers: Sequence[Said], label: str) -> str:
    """The limit scale with one line for each answer, the thinnest blade first."""
    sketch = Sketch(HEIGHT + 6.0 + LINE * len(answers), picture.parts())
    for number, each in enumerate(sorted(answers, key=lambda one: (one.thickness, one.words))):
        _answer(sketch, picture.scale.x(each.thickness), HEIGHT + 10.0 + LINE * number, each)
    return sketch.svg(label)


def _answer(sketch: Sketch, x: float, y: float, each: Said) -> None:
    sketch.ink(seg(x, AXIS - 9.0, x, AXIS))
    sketch.dashed(seg(x, AXIS + 31.0, x, y))
    sketch.ink(seg(x, y - 6.0, x, y + 6.0))
    if each.at_least:
        sketch.arrow(x, y, x + _REACH, y)
    if each.less_than:
        sketch.arrow(x, y, x - _REACH, y)
    fits_right = x + _REACH + 6.0 + 7.5 * len(each.words) < RIGHT
    if fits_right:
        sketch.write(x + (_REACH if each.at_least else 0.0) + 6.0, y + 4.0, each.words, "start")
    else:
        sketch.write(x - (_REACH if each.less_than else 0.0) - 6.0, y + 4.0, each.words, "end")
