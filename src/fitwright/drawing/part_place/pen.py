"""What a picture of a part is drawn with: ink, thin and centre lines, cut metal, marks, the lit place."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Collection, Iterable
from html import escape
from math import hypot

from fitwright.drawing.part_place.shapes import Polygon, at, hatch, n, seg
from fitwright.drawing.part_place.spots import Point, Spot
from fitwright.drawing.svg import path, text

WIDTH, HEIGHT = 320.0, 168.0
MIDDLE = 72.0
"""The height at which the centre lines of pictures lie."""

_LAYERS = ("hatch", "thin", "centre", "ink", "solid")
_HEAD = 9.0


class Pen:
    """One drawing while it is made: strokes by kind of line, marks of places, the lit place."""

    def __init__(self, spots: tuple[Spot, ...], lit: Spot, read: Collection[str]) -> None:
        self.spots, self.lit, self.read = spots, lit, read
        self.caption = ""
        self._strokes: dict[str, list[str]] = defaultdict(list)
        self._lit: list[str] = []
        self._texts: list[str] = []
        self._marks: list[str] = []

    @property
    def lit_index(self) -> int:
        """Which of the places is lit."""
        return self.spots.index(self.lit)

    def ink(self, *data: str) -> None:
        """Visible edges."""
        self._strokes["ink"].extend(data)

    def thin(self, *data: str) -> None:
        """Planes, angles, and what lies behind."""
        self._strokes["thin"].extend(data)

    def centre(self, *data: str) -> None:
        """Centre lines, dash and dot."""
        self._strokes["centre"].extend(data)

    def solid(self, *data: str) -> None:
        """A tool in front of what it stands on: paper within an ink line."""
        self._strokes["solid"].extend(data)

    def cut(self, *polygons: Polygon, falling: bool = False) -> None:
        """Cut metal; parts that touch are hatched in opposite directions."""
        self._strokes["hatch"].append(hatch(polygons, falling=falling))

    def write(self, x: float, y: float, words: str, anchor: str = "middle") -> None:
        """Small words in a picture."""
        self._texts.append(text(round(x, 1), round(y, 1), words, "place-name", anchor))

    def light(self, *data: str, cls: str = "place-line") -> None:
        """A line of the lit place."""
        self._lit.extend(path(each, cls) for each in data)

    def blade(self, data: str) -> None:
        """A feeler blade, clay, solder: what is put in at the lit place."""
        self.light(data, cls="place-blade")

    def arrow(self, tail: Point, tip: Point) -> None:
        """A measuring arrow of the lit place; its first point is the tail, its second the tip."""
        dx, dy = tip[0] - tail[0], tip[1] - tail[1]
        length = hypot(dx, dy) or 1.0
        ux, uy = dx / length * _HEAD, dy / length * _HEAD
        base = (tip[0] - ux, tip[1] - uy)
        left, right = (base[0] - uy * 0.45, base[1] + ux * 0.45), (base[0] + uy * 0.45, base[1] - ux * 0.45)
        shaft = f"M{at(tail)}L{at(base)}"
        self.light(f"{shaft}M{at(tip)}L{at(left)}L{at(right)}z", cls="place-arrow")

    def span(self, one: Point, other: Point) -> None:
        """Two arrows from the middle to both ends: the size between two faces, from inside."""
        middle = ((one[0] + other[0]) / 2.0, (one[1] + other[1]) / 2.0)
        self.arrow(middle, one)
        self.arrow(middle, other)

    def pinch(self, one: Point, other: Point, tail: float = 20.0) -> None:
        """Two opposing arrows from outside on both faces, as the points of a micrometer."""
        length = hypot(other[0] - one[0], other[1] - one[1]) or 1.0
        ux, uy = (other[0] - one[0]) / length * tail, (other[1] - one[1]) / length * tail
        self.arrow((one[0] - ux, one[1] - uy), one)
        self.arrow((other[0] + ux, other[1] + uy), other)

    def extend(self, *points: tuple[Point, Point]) -> None:
        """Thin lines from an edge out to where the arrows stand."""
        self.thin(*(seg(*one, *other) for one, other in points))

    def mark(self, spot: Spot, x: float, y: float) -> None:
        """The mark of a place: open, or filled with a tick once it is read; a ring where it is lit."""
        place = f'data-place="{escape(spot.id, quote=True)}"'
        if spot.id in self.read:
            disc = f'<circle cx="{n(x)}" cy="{n(y)}" r="5.5"/>'
            tick = f'<path d="M{n(x - 2.6)} {n(y)}l1.9 2.3l3.5 -4.4"/>'
            self._marks.append(f'<g class="place-read" {place}>{disc}{tick}</g>')
        else:
            self._marks.append(f'<circle class="place-open" {place} cx="{n(x)}" cy="{n(y)}" r="4"/>')
        if spot.id == self.lit.id:
            self._marks.append(f'<circle class="place-ring" cx="{n(x)}" cy="{n(y)}" r="8"/>')

    def each(self, points: Iterable[Point], lit: Callable[[float, float], None]) -> None:
        """The marks of all places at these points, and what shows the lit one, called at its point."""
        for spot, (x, y) in zip(self.spots, points, strict=True):
            self.mark(spot, x, y)
            if spot.id == self.lit.id:
                lit(x, y)

    def parts(self) -> list[str]:
        """Everything drawn, from the hatching up to the marks."""
        strokes = [
            path("".join(self._strokes[name]), f"place-{name}") for name in _LAYERS if name in self._strokes
        ]
        place = escape(self.lit.id, quote=True)
        lit = f'<g class="place-lit" data-place="{place}">{"".join(self._lit)}</g>'
        return [*strokes, *self._texts, lit, *self._marks]
