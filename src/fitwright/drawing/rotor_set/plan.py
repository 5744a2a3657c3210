"""What every plan of a rotor set has beside its metal: ports, list of clearances, side section, notes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import pi
from typing import Final

from fitwright.drawing.canvas import HANDS, Canvas
from fitwright.drawing.rotor_set.clearances import Clearances, Place, ShownClearance, in_both_units, shown
from fitwright.drawing.rotor_set.side import Side, side_section
from fitwright.drawing.rotor_set.view import Point, View, polar
from fitwright.drawing.svg import circle
from fitwright.units.families import Family

PAGE: Final = 780.0
"""Width of a picture [1 px]; one below `_NARROW` has everything in one column."""

TRUE: Final = "All drawn to scale, clearances too."
_NARROW: Final = 600.0
_LIST: Final = 240.0
_COLUMN: Final = 235.0


def kidney(view: View, centre: Point, radii: tuple[float, float], angles: tuple[float, float]) -> None:
    """A port behind the rotors, from one angle to another."""
    inside, outside = radii
    count = 48
    steps = [angles[0] + (angles[1] - angles[0]) * k / count for k in range(count + 1)]
    points = [polar(centre, outside, each) for each in steps]
    points += [polar(centre, inside, each) for each in reversed(steps)]
    view.fill(f"{view.line(points)}z", "rs-port")


def port_angles(land: float, *, upper: bool) -> tuple[float, float]:
    """Where a port begins and ends round a plan whose lands lie left and right."""
    start, end = 0.5 * land, pi - 0.5 * land
    return (start, end) if upper else (-end, -start)


def across_plan(canvas: Canvas) -> float:
    """How wide the plan itself may be."""
    return canvas.width - _LIST - 20.0 if canvas.width >= _NARROW else canvas.width


@dataclass(frozen=True, slots=True)
class BesidePlan:
    """The list of clearances and the side section; `high` is the room of that beside and below the plan."""

    clearances: Clearances
    titles: dict[Place, str]
    cut: Side
    high: tuple[float, float]
    family: Family

    def draw(self, canvas: Canvas, foot: float) -> float:
        """Beside a plan that ends at a foot, or below it on a narrow picture; the foot of all."""
        beside, below = self.high
        if canvas.width >= _NARROW:
            left = across_plan(canvas) + 20.0
            end = self._listed(canvas, left, 20.0)
            return max(foot, side_section(canvas, left + 10.0, end + 4.0, (_LIST - 30.0, beside), self.cut))
        end = self._listed(canvas, 4.0, foot + 14.0)
        return side_section(canvas, 20.0, end, (min(canvas.width - 40.0, 260.0), below), self.cut)

    def _listed(self, canvas: Canvas, x: float, y: float) -> float:
        for each in shown(self.clearances, self.titles):
            y = _clearance(canvas, x, y, each, self.family)
        return y


def _clearance(canvas: Canvas, x: float, y: float, each: ShownClearance, family: Family) -> float:
    """One clearance: letter, both readings, what it is; the foot of the next one."""
    canvas.put(circle(x + 10.0, y + 6.0, 10.0, "rs-letter"))
    canvas.write(x + 10.0, y + 10.4, each.place.letter, "title", "middle")
    first, second = in_both_units(each.size, family)
    box = canvas.write(x + 28.0, y + 10.0, first, "number" if second else "word")
    if second:
        canvas.write(box.x + box.width + 12.0, y + 10.0, second, "tick")
    return canvas.paragraph(x + 28.0, y + 26.0, each.title, _COLUMN - 28.0, "small") + 12.0


def notes(canvas: Canvas, y: float, lines: Iterable[str]) -> float:
    """Lines of small print over the whole width; the foot of the next one."""
    for each in lines:
        y = canvas.paragraph(0.0, y, each, canvas.width, "small") + 2.0
    return y - HANDS["small"].step + 6.0


def scale_note(factor: float, *, limited: bool) -> str:
    """How large the clearances are drawn."""
    if factor == 1.0:
        return TRUE
    room = ", as far as there is room" if limited else ""
    return f"To scale, but clearances drawn {factor:g} times as large as they are{room}."
