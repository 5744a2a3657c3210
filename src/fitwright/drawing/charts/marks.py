"""Marks that tell lines apart without colour, and the brackets that stand for limits."""

from __future__ import annotations

from fitwright.drawing.svg import circle, line, path

KINDS = 6
"""Marks that can be told apart: ring, full square, triangle, full dot, square, full triangle."""


def mark(kind: int, x: float, y: float) -> str:
    """The mark of a line around (x, y)."""
    cls = "ch-mark-full" if kind % 2 else "ch-mark-open"
    shape = (0, 1, 2, 0, 1, 2)[kind % KINDS]
    if shape == 0:
        return circle(x, y, 4.2, cls)
    if shape == 1:
        return path(f"M{x - 4:.2f} {y - 4:.2f}h8v8h-8z", cls)
    return path(f"M{x:.2f} {y - 5.2:.2f}l5 8.6h-10z", cls)


def reading_mark(x: float, y: float) -> str:
    """What was read at an engine: a cross in a ring."""
    cross = line(x - 4.6, y - 4.6, x + 4.6, y + 4.6, "ch-reading") + line(
        x - 4.6, y + 4.6, x + 4.6, y - 4.6, "ch-reading"
    )
    return circle(x, y, 6.4, "ch-reading") + cross


def floor_bracket(x1: float, x2: float, y: float, cls: str) -> str:
    """A limit from below: a bracket that opens upwards."""
    return path(f"M{x1:.2f} {y - 9:.2f}V{y:.2f}H{x2:.2f}V{y - 9:.2f}", cls)


def wall_bracket(x: float, y1: float, y2: float, cls: str) -> str:
    """A limit from the left: a bracket that opens to the right, set off from what it crosses."""
    data = f"M{x + 6:.2f} {y1:.2f}H{x:.2f}V{y2:.2f}H{x + 6:.2f}"
    return path(data, "ch-whisker-halo") + path(data, cls)


def whisker(x1: float, x2: float, y: float, reach: float = 4.5) -> str:
    """A band along a row: a line with short ends, set off from what it crosses."""
    ends = [f"M{x:.2f} {y - reach:.2f}v{2 * reach:g}" for x in (x1, x2)]
    data = f"{ends[0]}M{x1:.2f} {y:.2f}H{x2:.2f}{ends[1]}"
    return path(data, "ch-whisker-halo") + path(data, "ch-whisker")
