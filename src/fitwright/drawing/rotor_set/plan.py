"""What every plan of a rotor set has beside its metal: ports, the list of clearances, the notes."""

from __future__ import annotations

from collections.abc import Iterable
from math import pi
from typing import Final

from fitwright.drawing.canvas import HANDS, Canvas
from fitwright.drawing.rotor_set.clearances import ShownClearance, in_both_units
from fitwright.drawing.rotor_set.view import Point, View, polar
from fitwright.drawing.svg import circle
from fitwright.units.families import Family

TRUE: Final = "All drawn to scale, clearances too."
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


def listed(canvas: Canvas, x: float, y: float, clearances: Iterable[ShownClearance], family: Family) -> float:
    """The clearances below each other: letter, both readings, what it is; the foot of the next line."""
    for each in clearances:
        canvas.put(circle(x + 10.0, y + 6.0, 10.0, "rs-letter"))
        canvas.write(x + 10.0, y + 10.4, each.place.letter, "title", "middle")
        first, second = in_both_units(each.size, family)
        box = canvas.write(x + 28.0, y + 10.0, first, "number" if second else "word")
        if second:
            canvas.write(box.x + box.width + 12.0, y + 10.0, second, "tick")
        y = canvas.paragraph(x + 28.0, y + 26.0, each.title, _COLUMN - 28.0, "small") + 12.0
    return y


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
