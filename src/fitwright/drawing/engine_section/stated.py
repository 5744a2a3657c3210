"""Which stated sizes each view shows as dimensions, and where."""

from __future__ import annotations

from math import cos, sin

from fitwright.drawing.engine_section.across import cut_throws
from fitwright.drawing.engine_section.across_oil import case_wall
from fitwright.drawing.engine_section.along_cylinders import bank_throws
from fitwright.drawing.engine_section.figure import Figure
from fitwright.drawing.engine_section.measures import Measure
from fitwright.drawing.engine_section.outline import Point

_LEAST_ROOM = 0.14
"""A bore is dimensioned over a piston that leaves so much room below the deck, as a share of it."""


def along_measures(figure: Figure) -> list[Measure]:
    """Bore over the piston that stands lowest; stroke beside the last cylinder."""
    b, r = figure.sizes.bore, figure.sizes.bore / 2
    throws = bank_throws(figure, figure.banks - 1)
    found = []
    lowest = min(throws, key=figure.piston_pin)
    written = _written(figure, "bore")
    if written and _room_over(figure, figure.piston_pin(lowest)) > _LEAST_ROOM * b:
        z, level = figure.rod_place(lowest), _over_crown(figure, figure.piston_pin(lowest))
        found.append(Measure(f"Ø {written}", (z - r, level), (z + r, level)))
    if written := _written(figure, "stroke"):
        z = max(figure.rod_place(throw) for throw in throws) + r
        top = figure.radius + figure.sizes.rod_length + figure.sizes.compression_height
        aside = (figure.rear + 0.42 * b - z, 0.0)
        found.append(Measure(written, (z, top - figure.sizes.stroke), (z, top), aside))
    return found


def across_measures(figure: Figure) -> list[Measure]:
    """Bore, rod length, and where there is room beside a single bank, stroke and deck height."""
    b, throw = figure.sizes.bore, cut_throws(figure)[-1]
    axis = figure.crank.axes[throw.bank]

    def standing(u: float, v: float) -> Point:
        return u * cos(axis) + v * sin(axis), v * cos(axis) - u * sin(axis)

    found = []
    written = _written(figure, "bore")
    if written and _room_over(figure, figure.piston_pin(throw)) > _LEAST_ROOM * b:
        level = _over_crown(figure, figure.piston_pin(throw))
        found.append(Measure(f"Ø {written}", standing(-b / 2, level), standing(b / 2, level)))
    out = figure.case + case_wall(figure)
    if written := _written(figure, "rod_length"):
        pin, small = figure.crankpin(throw), standing(0.0, figure.piston_pin(throw))
        aside = (0.0, 0.0) if figure.banks > 1 else (out + 0.28 * b - min(pin[0], small[0]), 0.0)
        found.append(Measure(written, pin, small, aside))
    if figure.banks == 1:
        found += _beside(figure, out)
    return found


def bank_angle_reach(figure: Figure) -> float | None:
    """How far from the crank the angle between the banks is written; None where none is stated."""
    stated = figure.layout.bank_angle is not None
    if figure.banks == 1 or figure.flat or not stated:
        return None
    return figure.case + 0.95 * figure.sizes.bore


def _beside(figure: Figure, out: float) -> list[Measure]:
    """Stroke and deck height, on the left of a single bank."""
    b, found = figure.sizes.bore, []
    if written := _written(figure, "stroke"):
        found.append(Measure(written, (0.0, -figure.radius), (0.0, figure.radius), (-out - 0.28 * b, 0.0)))
    if written := _written(figure, "deck_height"):
        left = -1.16 * b if figure.side_valve else -0.76 * b
        aside = (min(-out - 0.62 * b, left), 0.0)
        found.append(Measure(written, (0.0, 0.0), (0.0, figure.deck), aside))
    return found


def _written(figure: Figure, name: str) -> str | None:
    stated = figure.sizes.stated.get(name)
    return None if stated is None else stated.written


def _room_over(figure: Figure, pin: float) -> float:
    return figure.deck - pin - figure.sizes.compression_height


def _over_crown(figure: Figure, pin: float) -> float:
    """Halfway between a piston's crown and the deck."""
    return (pin + figure.sizes.compression_height + figure.deck) / 2
