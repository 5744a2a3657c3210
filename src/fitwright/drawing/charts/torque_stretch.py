"""Torque against stretch, a mark for each fastener: the one that stands apart is looked at first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import isinf
from typing import Final

from fitwright.drawing.canvas import Canvas, Picture
from fitwright.drawing.charts.axes import Axes, Room, draw_axes
from fitwright.drawing.scale import scale_over
from fitwright.drawing.svg import circle, line, path
from fitwright.drawing.tightening_figures import TighteningReader
from fitwright.drawing.writing import TextBox
from fitwright.units.families import Family, shop_unit
from fitwright.units.spellings import definition_of

NARROW: Final = 560.0


@dataclass(frozen=True, slots=True)
class TorqueAndStretch:
    """One fastener: its number in the order, torque [N m] and stretch [m]; in words why it stands apart."""

    order: int
    name: str
    torque: float
    stretch: float
    odd: str = ""


def torque_stretch(
    fasteners: Sequence[TorqueAndStretch],
    *,
    stretch_low: float | None = None,
    stretch_high: float | None = None,
    family: Family = "mm",
    width: float = 780.0,
) -> Picture:
    """Torque against stretch.

    Parameters
    ----------
    fasteners : sequence of TorqueAndStretch
        Those of which both were read.
    stretch_low, stretch_high : float [m], optional
        The window of stretch that the sheet wants, as brackets.
    family : {"mm", "inch"}
        N·m and mm, or lbf·ft and thou.
    width : float
        Width in units of 1 px.

    Returns
    -------
    Picture
        Marks with the numbers of the order; one that stands apart has a mark of its own and a sentence.
    """
    canvas, reader = Canvas(width), TighteningReader(family)
    axes = _axes(width, reader, fasteners, (stretch_low, stretch_high))
    torque_unit = definition_of(shop_unit("torque", family), "torque").shown
    foot = draw_axes(canvas, axes, f"stretch, {reader.stretch_unit}", f"torque, {torque_unit}")
    notes = _window(canvas, axes, reader, stretch_low, stretch_high)
    _marks(canvas, axes, reader, fasteners)
    notes += [f"{each.order} ({each.name}) stands apart: {each.odd}." for each in fasteners if each.odd]
    for note in notes:
        foot = canvas.paragraph(0.0, foot, note, width, "small") + 3.0
    return canvas.picture(
        foot, "Torque against stretch", _described(reader, fasteners, notes), "chart torque-stretch"
    )


def _axes(
    width: float,
    reader: TighteningReader,
    fasteners: Sequence[TorqueAndStretch],
    window: Iterable[float | None],
) -> Axes:
    """Axes close round what was read, so that what stands apart can be seen."""
    narrow = width < NARROW
    room = Room(48.0, 34.0, width - 24.0, 34.0 + (240.0 if narrow else 0.36 * width))
    stretches = [each.stretch for each in fasteners] + [end for end in window if end is not None]
    across = _span([reader.in_stretch(each) for each in stretches])
    up = _span([reader.in_torque(each.torque) for each in fasteners])
    return Axes(
        room,
        scale_over(*across, room.left, room.right, most_ticks=5 if narrow else 8),
        scale_over(*up, room.bottom, room.top, most_ticks=6),
    )


def _span(values: Sequence[float]) -> tuple[float, float]:
    """From the least to the largest with some room round them."""
    low, high = min(values, default=0.0), max(values, default=1.0)
    room = max(0.12 * (high - low), 0.05 * abs(high))
    return max(low - room, 0.0), high + room


def _window(
    canvas: Canvas, axes: Axes, reader: TighteningReader, low: float | None, high: float | None
) -> list[str]:
    """Brackets at the ends of the stretch wanted, from axis to top."""
    room = axes.room
    for end, way in ((low, 1.0), (high, -1.0)):
        if end is None or isinf(end):
            continue
        x = axes.across.x(reader.in_stretch(end))
        data = f"M{x + 8 * way:.2f} {room.top:.2f}H{x:.2f}V{room.bottom:.2f}H{x + 8 * way:.2f}"
        canvas.put(path(data, "ch-limit"))
    ends = [("from", low), ("to", high)]
    said = " ".join(f"{word} {reader.stretch_of(end)}" for word, end in ends if end is not None)
    return [f"Brackets: stretch wanted {said}."] if said else []


def _marks(
    canvas: Canvas, axes: Axes, reader: TighteningReader, fasteners: Sequence[TorqueAndStretch]
) -> None:
    """All marks first, then their numbers where they cover none of them."""
    points = [
        axes.point(reader.in_stretch(each.stretch), reader.in_torque(each.torque)) for each in fasteners
    ]
    boxes = [_mark(canvas, point, each) for point, each in zip(points, fasteners, strict=True)]
    canvas.texts.extend(boxes)
    for (x, y), each in zip(points, fasteners, strict=True):
        canvas.write_near(_places(x, y, each), str(each.order), "title", (0.0, axes.room.bottom - 2.0))
    canvas.texts[:] = [box for box in canvas.texts if box.words]


def _mark(canvas: Canvas, point: tuple[float, float], each: TorqueAndStretch) -> TextBox:
    """The mark of a fastener, a ring with a cross where it stands apart; the room that it takes."""
    x, y = point
    if each.odd:
        canvas.put(circle(x, y, 11.0, "ch-crossed bp-apart"))
        canvas.put(line(x - 5.0, y - 5.0, x + 5.0, y + 5.0, "ch-reading"))
        canvas.put(line(x - 5.0, y + 5.0, x + 5.0, y - 5.0, "ch-reading"))
    else:
        canvas.put(circle(x, y, 4.6, "ch-mark-full"))
    reach = 12.0 if each.odd else 4.0
    return TextBox("", x - reach, y - reach, 2.0 * reach, 2.0 * reach)


def _places(x: float, y: float, each: TorqueAndStretch) -> Iterator[tuple[float, float, str]]:
    """Places for a number beside its mark, ever farther from it."""
    away = 16.0 if each.odd else 8.0
    for step in range(6):
        for foot in (y + 4.5 - 15.0 * step, y + 4.5 + 15.0 * step):
            yield x + away + 4.0 * step, foot, "start"
            yield x - away - 4.0 * step, foot, "end"


def _described(reader: TighteningReader, fasteners: Sequence[TorqueAndStretch], notes: Sequence[str]) -> str:
    said = (
        f"{each.order}: {each.name}, {reader.torque_of(each.torque)}, {reader.stretch_of(each.stretch)}"
        for each in fasteners
    )
    return f"{'; '.join(said) or 'No fastener'}. {' '.join(notes)}".strip()
