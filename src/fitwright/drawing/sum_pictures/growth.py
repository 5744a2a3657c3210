"""Members of a fit, cold and warm: openings between walls, solid parts between their ends.

Sizes are drawn in proportion to each other; growth is drawn larger than it is, alike for all.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fitwright.drawing.limit_picture import LimitPicture
from fitwright.drawing.part_place.shapes import box, corners, seg
from fitwright.drawing.sum_pictures.sketch import Sketch, shortened
from fitwright.drawing.svg import line, rect, text

_LEFT, _LONGEST, _SHORTEST, _MOST_GROWTH = 40.0, 300.0, 60.0, 48.0
_ROW, _BAR = 62.0, 20.0
_WALL = 14.0


@dataclass(frozen=True, slots=True)
class Member:
    """One member: its name, whether it is an opening, its size and growth, and both in words."""

    name: str
    opening: bool
    size: float
    growth: float
    words: str


def growth(members: Sequence[Member], fit: LimitPicture, fit_words: tuple[str, str], label: str) -> str:
    """A line for each member, and below them the fit: cold as a stroke, warm as an interval."""
    foot = 14.0 + _ROW * len(members)
    sketch = Sketch(foot + 106.0)
    longest = max(each.size for each in members)
    most = max(abs(each.growth) for each in members) or 1.0
    for number, each in enumerate(members):
        cold = _SHORTEST + (_LONGEST - _SHORTEST) * each.size / longest
        _member(sketch, 14.0 + _ROW * number, cold, _MOST_GROWTH * each.growth / most, each)
    sketch.parts.append(f'<g transform="translate(0 {foot + 14.0:g})">{"".join(_fit(fit, fit_words))}</g>')
    return sketch.svg(label)


def _member(sketch: Sketch, y: float, cold: float, grown: float, each: Member) -> None:
    sketch.write(_LEFT - _WALL, y + 8.0, shortened(f"{each.name}  {each.words}", 58), "start")
    top = y + 16.0
    if each.opening:
        for x in (_LEFT - _WALL, _LEFT + cold):
            sketch.cut(box(x, top, _WALL, _BAR), corners(x, top, _WALL, _BAR))
        sketch.across(_LEFT, _LEFT + cold, top + _BAR / 2.0)
    else:
        sketch.cut(box(_LEFT, top, cold, _BAR), corners(_LEFT, top, cold, _BAR), falling=True)
    warm = _LEFT + cold + grown
    sketch.dashed(seg(warm, top - 4.0, warm, top + _BAR + 4.0))
    if abs(grown) > 1.0:
        sketch.arrow(_LEFT + cold, top + _BAR + 6.0, warm, top + _BAR + 6.0)


def _fit(fit: LimitPicture, words: tuple[str, str]) -> list[str]:
    """The axis of the fit with its cold value as a stroke and its warm interval as an outlined bar."""
    low, high = fit.hot or (None, None)
    x = fit.scale.x(fit.value or 0.0)
    x1, x2 = fit.scale.x(low or 0.0), fit.scale.x(high or 0.0)
    return [
        line(x, 24.0, x, 60.0, "sum-ink"),
        text(min(max(x, 60.0), 400.0), 16.0, words[0], "sum-word"),
        rect(x1, 42.0, max(x2 - x1, 2.0), 10.0, "bar-hot"),
        text(min(max((x1 + x2) / 2.0, 60.0), 400.0), 36.0, words[1], "sum-word"),
        *fit.axis(),
    ]
