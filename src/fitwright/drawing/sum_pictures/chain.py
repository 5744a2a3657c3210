"""The members of a fit end to end: those that open it to the right, those that fill it back to the left."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fitwright.drawing.part_place.shapes import seg
from fitwright.drawing.sum_pictures.sketch import Sketch, shortened

_LEFT, _LONG, _GAP = 60.0, 360.0, 22.0
_ROW = 36.0
_ROOM = 220.0
"""A shorter arrow has its words beside it."""


@dataclass(frozen=True, slots=True)
class Link:
    """One member: its signed length in the fit, whether it is the one that is missing, and its words."""

    signed: float
    missing: bool
    words: str


def chain(links: Sequence[Link], fit: str, label: str) -> str:
    """Arrows from end to end, and the fit that they leave; it is drawn larger than it is."""
    ordered = sorted(links, key=lambda each: each.signed < 0.0)
    sketch = Sketch(44.0 + _ROW * len(ordered) + 26.0)
    opens = sum(each.signed for each in ordered if each.signed > 0.0) or 1.0
    fills = -sum(each.signed for each in ordered if each.signed < 0.0) or 1.0
    x, y = _LEFT, 30.0
    for each in ordered:
        scale = _LONG / opens if each.signed > 0.0 else (_LONG - _GAP) / fills
        end = x + scale * each.signed
        (sketch.dashed if each.missing else sketch.ink)(seg(x, y, end, y))
        sketch.arrow(end - (8.0 if end > x else -8.0), y, end, y)
        if abs(end - x) < _ROOM:
            sketch.write(max(x, end) + 8.0, y + 4.0, shortened(each.words, 52), "start")
        else:
            sketch.write((x + end) / 2.0, y - 7.0, shortened(each.words, 52))
        sketch.thin(seg(end, y - 5.0, end, y + _ROW + 5.0))
        x, y = end, y + _ROW
    sketch.thin(seg(_LEFT, 22.0, _LEFT, y + 5.0))
    sketch.across(_LEFT, x, y)
    sketch.write(x + 8.0, y + 4.0, fit, "start")
    return sketch.svg(label)
