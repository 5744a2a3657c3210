"""Rows of a chart: a name, a bar in its room, figures beside it; on narrow pictures one above the other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fitwright.drawing.canvas import HANDS, Canvas, Line, broken_lines

NARROW = 560.0
"""Narrower pictures have names and figures above their bars."""

BAR = 16.0
_PAD = 7.0


@dataclass(frozen=True, slots=True)
class Layout:
    """Where names, bars and figures of rows stand."""

    width: float
    name: float
    left: float
    right: float
    figures: float

    @property
    def is_narrow(self) -> bool:
        """Whether names and figures stand above the bars."""
        return self.width < NARROW

    @classmethod
    def over(cls, width: float) -> Layout:
        """Names to the left, bars in the middle, figures to the right, or all below each other."""
        if width < NARROW:
            return cls(width, width, 12.0, width - 24.0, width)
        name, figures = 0.25 * width, min(250.0, 0.29 * width)
        return cls(width, name - 12.0, name, width - figures - 22.0, figures)


def put_row(
    canvas: Canvas, layout: Layout, y: float, name: Sequence[Line], figures: Sequence[Line]
) -> tuple[float, float]:
    """Name and figures of a row from `y` down; the middle of its bar, and where the next row begins."""
    if layout.is_narrow:
        foot = _lines(canvas, 0.0, y + 12.0, broken_lines((*name, *figures), layout.width))
        middle = foot - 6.0 + BAR / 2
        return middle, middle + BAR / 2 + 2 * _PAD
    left = broken_lines(name, layout.name)
    right = broken_lines(figures, layout.figures)
    height = max(_height(left), _height(right), BAR) + 2 * _PAD
    middle = y + height / 2
    _lines(canvas, 0.0, _first(left, middle), left)
    _lines(canvas, layout.width - layout.figures, _first(right, middle), right)
    return middle, y + height


def _height(lines: Sequence[Line]) -> float:
    return sum(HANDS[hand].step for _, hand in lines)


def _first(lines: Sequence[Line], middle: float) -> float:
    return middle - _height(lines) / 2 + 11.5


def _lines(canvas: Canvas, x: float, y: float, lines: Sequence[Line]) -> float:
    for words, hand in lines:
        canvas.write(x, y, words, hand)
        y += HANDS[hand].step
    return y
