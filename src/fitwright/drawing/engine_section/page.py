"""The finished page: drawing, dimensions, leaders, touch marks, names of directions, notes, scale."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from html import escape
from math import degrees, pi
from typing import Literal

from fitwright.drawing.engine_section.across import draw_across
from fitwright.drawing.engine_section.along import draw_along
from fitwright.drawing.engine_section.figure import Figure
from fitwright.drawing.engine_section.frame import (
    WIDTH,
    Bounds,
    Frame,
    bounds_of,
    frame_for,
    margin_rows,
    row_heights,
)
from fitwright.drawing.engine_section.ink import Ink, Placing, hatchings
from fitwright.drawing.engine_section.labels import WIDTH as LABEL
from fitwright.drawing.engine_section.labels import Label, label_of
from fitwright.drawing.engine_section.leaders import assigned
from fitwright.drawing.engine_section.measures import Measure, angle_drawn, drawn, ends
from fitwright.drawing.engine_section.outline import Point
from fitwright.drawing.engine_section.places import place_of
from fitwright.drawing.engine_section.state import Section, StationState, TouchMark
from fitwright.drawing.engine_section.stated import across_measures, along_measures, bank_angle_reach
from fitwright.drawing.svg import circle, line, number
from fitwright.drawing.writing import TextBox, box_of, broken, shown, width_of

View = Literal["along", "across"]
Leading = tuple[Label, str | None, tuple[Point, ...]]
"""A label, the kind of place that it leads to, and that kind's points in this view [mm]."""

_SMALL, _NOTE_STEP = 12.0, 16.0


@dataclass(slots=True)
class Page:
    """One page in the making."""

    figure: Figure
    view: View
    hot: bool
    inverted: bool
    parts: list[str] = field(default_factory=list)
    over: list[str] = field(default_factory=list)
    marks: list[TouchMark] = field(default_factory=list)
    texts: list[TextBox] = field(default_factory=list)
    touch: list[str] = field(default_factory=list)

    def section(self, states: Mapping[str, StationState]) -> Section:
        """The whole page."""
        ink = draw_along(self.figure) if self.view == "along" else draw_across(self.figure)
        labels = self._labels(states)
        places = {
            name: place_of(self.figure.sheet.stations[name], self.figure.sheet, ink.anchors)
            for name in labels
        }
        placed = [name for name in labels if places[name][1]]
        apart = [name for name in labels if not places[name][1]]
        leading = [(labels[name], *places[name]) for name in placed]
        measures = along_measures(self.figure) if self.view == "along" else across_measures(self.figure)
        outer = [point for measure in measures for point in ends(measure)]
        if self.view == "across":
            outer.append((0.0, bank_angle_reach(self.figure) or 0.0))
        bounds = bounds_of(ink.bounds(), outer)
        frame, placing, seats = self._seated(bounds, leading, self._head())
        self._drawing(ink, placing)
        self._measures(measures, placing)
        self._directions(frame, placing)
        self._leaders(leading, seats, frame)
        foot = self._margin([labels[name] for name in apart], frame.foot)
        foot = self._notes(foot, frame.scale)
        return self._finished(foot, frame.scale)

    def _seated(
        self, bounds: Bounds, leading: list[Leading], head: float
    ) -> tuple[Frame, Placing, list[tuple[int, Point]]]:
        """Who sits where: first as if all labels were as tall as the tallest, then with rows as they are."""
        heights = [label.height for label, _, _ in leading]
        tall = max(heights, default=0.0)
        mirror = (self.inverted and self.view == "across", self.inverted)
        frame = frame_for(bounds, len(leading), (tall, tall, tall, tall), tall, head)
        placing = bounds.placing(frame.scale, frame.left, frame.top, mirror)
        points = [[placing(point) for point in choice] for _, _, choice in leading]
        seats, points_at = assigned(points, frame.slots)
        frame = frame_for(bounds, len(leading), row_heights(frame, seats, heights), tall, head)
        lower = frame.top - (placing.top - bounds.placing(frame.scale, 0.0, 0.0, mirror).top)
        moved = bounds.placing(frame.scale, frame.left, frame.top, mirror)
        return frame, moved, [(seat, (x, y + lower)) for seat, (x, y) in zip(seats, points_at, strict=True)]

    def _labels(self, states: Mapping[str, StationState]) -> dict[str, Label]:
        found = {}
        for station in self.figure.sheet.stations.values():
            state = states.get(station.id) or StationState(station.id, station.title)
            found[station.id] = label_of(state, hot=self.hot)
        return found

    def _write(
        self,
        x: float,
        y: float,
        words: str,
        cls: str,
        size: float,
        *,
        anchor: str = "start",
        bold: bool = False,
        turn: float = 0.0,
    ) -> None:
        width = width_of(words, size, bold=bold)
        self.over.append(shown(x, y, words, cls, anchor, turn))
        self.texts.append(box_of(x, y, words, width, size, anchor, upright=bool(turn)))

    def _head(self) -> float:
        """Title and attitude; returns where they end."""
        y = 16.0
        for words in broken(
            f"{self.figure.sheet.engine.name}, section {self.view} the crank", WIDTH, 16.0, bold=True
        ):
            self._write(0.0, y, words, "es-heading", 16.0, bold=True)
            y += 20.0
        for words in broken(self._attitude(), WIDTH, _SMALL):
            self._write(0.0, y - 2.0, words, "es-small", _SMALL)
            y += _NOTE_STEP
        return y - 6.0

    def _attitude(self) -> str:
        """From where one looks, how the engine stands, and how its crank is turned."""
        figure = self.figure
        words = ["nose on the left" if self.view == "along" else "seen from the nose"]
        if self.view == "along" and figure.banks > 1:
            right = figure.sheet.engine.directions.right
            words.append("both banks cut" if figure.flat else f"{right[:30]} turned into the plane")
        if self.inverted:
            words.append("upside down, as the engine hangs on the stand")
        words.append(f"crank {degrees(figure.crank_angle):.0f}° past the firing top of cylinder 1")
        if self.hot:
            words.append("hot, estimated")
        sentence = ", ".join(words)
        return sentence[0].upper() + sentence[1:] + "."

    def _drawing(self, ink: Ink, placing: Placing) -> None:
        prefix = self._prefix()
        shapes = "".join(shape.svg(placing, prefix) for shape in ink.shapes)
        self.parts.append(f'<g aria-hidden="true">{shapes}</g>')

    def _prefix(self) -> str:
        return f"es-{self.view}{'-inverted' if self.inverted else ''}{'-hot' if self.hot else ''}"

    def _measures(self, measures: list[Measure], placing: Placing) -> None:
        figure = self.figure
        for measure in measures:
            self._dimension(*drawn(measure, placing))
        reach, stated = bank_angle_reach(figure), figure.layout.bank_angle
        if self.view == "across" and reach is not None and stated is not None:
            turn = pi if self.inverted else 0.0
            low, high = (axis + turn for axis in figure.crank.axes)
            centre = placing((0.0, 0.0))
            self._dimension(*angle_drawn(stated.written, centre, reach * placing.scale, (low, high)))

    def _dimension(self, svg: str, box: TextBox) -> None:
        """A dimension; left out where its figure would stand on another one."""
        if not any(box.overlaps(other, 2.0) for other in self.texts):
            self.over.append(f'<g aria-hidden="true">{svg}</g>')
            self.texts.append(box)

    def _directions(self, frame: Frame, placing: Placing) -> None:
        names = self.figure.sheet.engine.directions
        top, right, bottom, left = names.top, names.right, names.bottom, names.left
        if self.view == "along":
            end = "flywheel" if self.figure.clutch_on_crank else "drive end"
            top, bottom = (right, left) if self.figure.flat else (top, bottom)
            left, right = "nose", end
            if self.inverted:
                top, bottom = bottom, top
        elif self.inverted:
            top, right, bottom, left = bottom, left, top, right
        middle = frame.left + frame.width / 2
        axis = placing((0.0, 0.0))
        x = axis[0] if self.view == "across" else middle
        self._direction(x, frame.top - 10.0, top)
        self._direction(x, frame.top + frame.height + 20.0, bottom)
        self._direction(frame.left - 16.0, axis[1], left, upright=True)
        self._direction(frame.left + frame.width + 26.0, axis[1], right, upright=True)

    def _direction(self, x: float, y: float, words: str, *, upright: bool = False) -> None:
        """A direction's name, moved along the edge for as long as a figure stands in its way."""
        words = words[:40]
        width = width_of(words, _SMALL)
        for step in (0, 1, -1, 2, -2, 3, -3):
            place = (x, y + step * 40.0) if upright else (x + step * 40.0, y)
            box = box_of(*place, words, width, _SMALL, "middle", upright=upright)
            if not any(box.overlaps(other, 1.0) for other in self.texts):
                turn = -90.0 if upright else 0.0
                self._write(*place, words, "es-direction", _SMALL, anchor="middle", turn=turn)
                return

    def _leaders(self, leading: list[Leading], seats: list[tuple[int, Point]], frame: Frame) -> None:
        for (label, kind, _), (seat, end) in zip(leading, seats, strict=True):
            slot = frame.slots[seat]
            if slot.start != slot.port:
                self.over.insert(0, line(*slot.start, *slot.port, "es-leader"))
            self.over.insert(0, line(*slot.port, *end, "es-leader"))
            self.over.append(circle(*end, 3.0, "es-dot"))
            self._mark(label, slot.x, slot.corner(label.height), kind, end)

    def _mark(self, label: Label, x: float, y: float, kind: str | None, end: Point | None) -> None:
        self.touch.append(label.svg(x, y))
        self.marks.append(TouchMark(label.state.id, label.state.name(), x, y, LABEL, label.height, kind, end))
        self.texts.append(TextBox(label.state.name(), x, y, LABEL, label.height))

    def _margin(self, labels: list[Label], top: float) -> float:
        """Stations without a place of their own on this view, connected by nothing."""
        if not labels:
            return top + 4.0
        self.over.append(line(0.0, top + 2.0, WIDTH, top + 2.0, "es-rule"))
        self._write(
            0.0, top + 18.0, "The whole engine, or not to be seen in this section", "es-small", _SMALL
        )
        corners, foot = margin_rows([label.height for label in labels], top + 28.0)
        for label, (x, y) in zip(labels, corners, strict=True):
            self._mark(label, x, y, None, None)
        return foot

    def notes(self) -> tuple[str, ...]:
        """What is to scale, what is not, and what the crank rests on."""
        note = self.figure.crank.note
        return (*self.figure.sizes.notes(), *((note,) if note else ()))

    def _notes(self, top: float, scale: float) -> float:
        self._scale_bar(top, scale)
        y = top + 16.0
        for note in self.notes():
            for words in broken(note, WIDTH - 190.0, _SMALL):
                self._write(0.0, y, words, "es-small", _SMALL)
                y += _NOTE_STEP
        return max(y, top + 40.0)

    def _scale_bar(self, top: float, scale: float) -> None:
        inch = self.figure.sheet.engine.unit_family == "inch"
        steps = (
            [25.4 * n for n in (0.5, 1, 2, 5, 10, 20)]
            if inch
            else [5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0]
        )
        length = max((step for step in steps if step * scale <= 120.0), default=steps[0])
        words = f"{length / 25.4:g} in" if inch else f"{length:g} mm"
        x1, y = WIDTH - 2.0, top + 22.0
        x0 = x1 - length * scale
        for start, end, cls in ((x0, (x0 + x1) / 2, "es-scale-dark"), ((x0 + x1) / 2, x1, "es-scale")):
            size = f'x="{number(start)}" y="{number(y - 3)}" width="{number(end - start)}" height="6"'
            self.over.append(f'<rect {size} class="{cls}"/>')
        self._write(x1, y - 9.0, words, "es-number", _SMALL, anchor="end")

    def _finished(self, foot: float, scale: float) -> Section:
        engine = self.figure.sheet.engine
        what = f"{engine.name}: section {self.view} the crank, with {len(self.marks)} stations."
        label = " ".join((what, *self.notes()))
        body = "".join((hatchings(self._prefix()), *self.parts, *self.over, *self.touch))
        view = f"-2 -2 {number(WIDTH + 4)} {number(foot + 4)}"
        svg = (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{view}" role="group" '
            f'aria-label="{escape(label, quote=True)}" class="engine-section">{body}</svg>'
        )
        return Section(svg, WIDTH, foot, scale, label, tuple(self.marks), tuple(self.texts), self.notes())
