"""Axes of the charts: round ticks, thin lines, a unit at the end of each axis."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from fitwright.drawing.canvas import HANDS, Canvas
from fitwright.drawing.scale import Scale, scale_over
from fitwright.drawing.svg import line
from fitwright.units.display import MINUS


@dataclass(frozen=True, slots=True)
class Room:
    """The rectangle in which values are drawn."""

    left: float
    top: float
    right: float
    bottom: float


@dataclass(frozen=True, slots=True)
class Axes:
    """Two axes over a room: values to the right by `across`, upwards by `up`."""

    room: Room
    across: Scale
    up: Scale

    def point(self, x: float, y: float) -> tuple[float, float]:
        """Where two values stand."""
        return self.across.x(x), self.up.x(y)


def axes_over(
    room: Room, across: Iterable[float], up: Iterable[float], *, most_across: int, most_up: int = 7
) -> Axes:
    """Axes that hold some values, both from zero on unless values lie below it."""
    xs, ys = (0.0, *across), (0.0, *up)
    return Axes(
        room,
        scale_over(min(xs), max(xs), room.left, room.right, most_ticks=most_across),
        scale_over(min(ys), max(ys), room.bottom, room.top, most_ticks=most_up),
    )


def draw_axes(canvas: Canvas, axes: Axes, across_unit: str, up_unit: str) -> float:
    """The axes with fine lines over the room; where writing below them may begin."""
    room = axes.room
    for tick in axes.up.ticks():
        y = axes.up.x(tick)
        canvas.put(line(room.left, y, room.right, y, "ch-grid"))
        canvas.write(room.left - 8.0, y + 4.0, tick_words(axes.up, tick), "tick", "end")
    for tick in axes.across.ticks():
        x = axes.across.x(tick)
        canvas.put(line(x, room.bottom, x, room.bottom + 6.0, "ch-axis"))
        words = tick_words(axes.across, tick)
        anchor, at = "middle", x
        if x + HANDS["tick"].width(words) / 2 > canvas.width:
            anchor, at = "end", canvas.width
        canvas.write(at, room.bottom + 20.0, words, "tick", anchor)
    canvas.put(line(room.left, room.top, room.left, room.bottom, "ch-axis"))
    canvas.put(line(room.left, room.bottom, room.right, room.bottom, "ch-axis"))
    canvas.write(0.0, room.top - 14.0, up_unit, "small")
    canvas.write(room.right, room.bottom + 37.0, across_unit, "small", "end")
    return room.bottom + 58.0


def draw_across(canvas: Canvas, scale: Scale, top: float, bottom: float, unit: str) -> float:
    """One axis along the foot of rows, with fine lines up through them; the foot of what comes next."""
    for tick in scale.ticks():
        x = scale.x(tick)
        canvas.put(line(x, top, x, bottom, "ch-grid"), line(x, bottom, x, bottom + 6.0, "ch-axis"))
        canvas.write(x, bottom + 20.0, tick_words(scale, tick), "tick", "middle")
    canvas.put(line(scale.left, bottom, scale.right, bottom, "ch-axis"))
    canvas.write(scale.right, bottom + 36.0, unit, "small", "end")
    return bottom + 56.0


def tick_words(scale: Scale, tick: float) -> str:
    """A tick as it is written, with a true minus sign."""
    text = f"{abs(tick):.{scale.decimals}f}"
    return f"{MINUS}{text}" if tick < -0.5 * scale.step else text
