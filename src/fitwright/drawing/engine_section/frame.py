"""The page around the drawing: where labels may stand, how large the engine is drawn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from fitwright.drawing.engine_section.ink import Placing
from fitwright.drawing.engine_section.labels import WIDTH as LABEL
from fitwright.drawing.engine_section.leaders import Slot
from fitwright.drawing.engine_section.outline import Point

RowHeights = tuple[float, float, float, float]
"""Heights of the inner rows above and below the drawing, then of the outer ones."""

WIDTH = 780.0
GAP = 9.6
_PITCH = LABEL + GAP
_PER_ROW = 6
_ROOM = 34.0
"""Between the labels and the drawing, for leaders and the names of directions."""
_TALLEST, _TALLEST_BETWEEN = 560.0, 640.0
_WORTH = 1.12
"""Rows make a page longer than columns do: they have to make the drawing so much larger."""


@dataclass(frozen=True, slots=True)
class Bounds:
    """What the drawing takes up, in millimetres of the engine."""

    x0: float
    y0: float
    x1: float
    y1: float

    @property
    def width(self) -> float:
        """Along the page."""
        return self.x1 - self.x0

    @property
    def height(self) -> float:
        """Down the page."""
        return self.y1 - self.y0

    def placing(self, scale: float, left: float, top: float, mirror: tuple[bool, bool]) -> Placing:
        """The placing that puts the upper left corner of the drawing there."""
        x = self.x1 if mirror[0] else -self.x0
        y = -self.y0 if mirror[1] else self.y1
        return Placing(scale, left + scale * x, top + scale * y, *mirror)


@dataclass(frozen=True, slots=True)
class Frame:
    """Where everything stands: the drawing's room [page units], its scale, slots for labels, the foot."""

    left: float
    top: float
    scale: float
    width: float
    height: float
    slots: tuple[Slot, ...]
    foot: float


def frame_for(bounds: Bounds, count: int, rows: RowHeights, tallest: float, head: float) -> Frame:
    """Room for a drawing and `count` labels with leaders, below a head of some height.

    Labels stand in columns beside the drawing, or in rows above and below it where the engine can be
    drawn larger so.
    """
    beside = _beside(bounds, count, tallest, head)
    if count > 4 * _PER_ROW - 2:
        return beside
    around = _above_and_below(bounds, count, rows, head)
    return beside if count and beside.scale * _WORTH > around.scale else around


def row_heights(frame: Frame, seats: Sequence[int], heights: Sequence[float]) -> RowHeights:
    """How tall each row has to be for the labels that sit in it; an empty row takes no room."""
    found = [0.0, 0.0, 0.0, 0.0]
    for seat, height in zip(seats, heights, strict=True):
        row = frame.slots[seat].row
        found[row] = max(found[row], height)
    return found[0], found[1], found[2], found[3]


def _beside(bounds: Bounds, count: int, label_height: float, head: float) -> Frame:
    """Two columns of labels, the drawing between them."""
    room = WIDTH - 2 * (LABEL + _ROOM)
    each = ceil(count / 2)
    column = each * (label_height + GAP) - GAP
    scale = min(room / bounds.width, max(_TALLEST_BETWEEN, column - 2 * _ROOM) / bounds.height)
    width, height = bounds.width * scale, bounds.height * scale
    inner = max(height + 2 * _ROOM, column)
    slots = []
    pitch = (inner - label_height) / max(each - 1, 1) if each > 1 else 0.0
    pitch = min(pitch, label_height + 4 * GAP)
    first = head + (inner - (pitch * (each - 1) + label_height)) / 2
    for row in range(each):
        y = first + row * pitch
        middle = y + label_height / 2
        slots.append(Slot(0.0, y, (LABEL, middle), (LABEL, middle), rise=0.5, height=label_height))
        right = WIDTH - LABEL
        slots.append(Slot(right, y, (right, middle), (right, middle), rise=0.5, height=label_height))
    left, top = (WIDTH - width) / 2, head + (inner - height) / 2
    return Frame(left, top, scale, width, height, tuple(slots), head + inner + GAP)


def _above_and_below(bounds: Bounds, count: int, rows: RowHeights, head: float) -> Frame:
    """Rows of labels above and below; those of an outer row lead through the gaps of the inner one."""
    scale = min((WIDTH - 2 * _ROOM) / bounds.width, _TALLEST / bounds.height)
    width, height = bounds.width * scale, bounds.height * scale
    steps = [row + GAP if row else 0.0 for row in rows]
    outer = count > 2 * _PER_ROW
    inner_y = head + (steps[2] if outer else 0.0)
    top = inner_y + steps[0] + _ROOM
    foot = top + height + _ROOM
    slots = list[Slot]()
    if count:
        port = inner_y + rows[0]
        slots += _row(0, inner_y, port, port, 0.0)
        slots += _row(1, foot, foot, foot, 0.0)
        if outer:
            slots += _row(2, head, head + rows[2], port, _PITCH / 2)
            slots += _row(3, foot + steps[1], foot + steps[1], foot, _PITCH / 2)
    end = foot + steps[1] + (steps[3] if outer else 0.0)
    return Frame((WIDTH - width) / 2, top, scale, width, height, tuple(slots), end)


def _row(row: int, y: float, start: float, port: float, shift: float) -> list[Slot]:
    found = []
    for index in range(_PER_ROW - (1 if shift else 0)):
        x = shift + index * _PITCH
        middle = x + LABEL / 2
        above = row in {0, 2}
        found.append(Slot(x, y, (middle, start), (middle, port), row, 1.0 if above else 0.0, abs(start - y)))
    return found


def margin_rows(heights: Sequence[float], top: float) -> tuple[list[tuple[float, float]], float]:
    """Corners of the labels that lead nowhere, in rows along the foot, and where those rows end."""
    corners, y = list[tuple[float, float]](), top
    for start in range(0, len(heights), _PER_ROW):
        row = heights[start : start + _PER_ROW]
        corners += [(index * _PITCH, y) for index in range(len(row))]
        y += max(row) + GAP
    return corners, y


def bounds_of(box: tuple[float, float, float, float], points: Sequence[Point]) -> Bounds:
    """Bounds of a box (least x, least y, greatest x, greatest y) and of some points."""
    xs, ys = [box[0], box[2], *(x for x, _ in points)], [box[1], box[3], *(y for _, y in points)]
    return Bounds(min(xs), min(ys), max(xs), max(ys))
