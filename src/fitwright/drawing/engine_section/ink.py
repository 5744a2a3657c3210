"""Ink: what is drawn, in millimetres of the engine, until its place on the page is known.

Later things cover earlier ones. Solid parts are filled with the colour of the paper, cut metal with
one of three hatchings. `united` fuses overlapping outlines into one: all are stroked first, then all
are filled, so that the inner halves of the strokes vanish under the fillings.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from math import cos, hypot, pi, sin
from types import MappingProxyType
from typing import Final

from fitwright.drawing.engine_section.outline import Move, Outline, Point, box
from fitwright.drawing.svg import number

CUT: Final[Mapping[str, str]] = MappingProxyType({"cut": "a", "cut other": "b", "cut close": "c"})
"""Kinds of cut metal; neighbours are hatched differently, so that one sees where a part ends."""


@dataclass(frozen=True, slots=True)
class Placing:
    """From millimetres of the engine to the page: scale, origin, and whether either axis is turned."""

    scale: float
    left: float
    top: float
    mirror_x: bool = False
    mirror_y: bool = False

    def __call__(self, point: Point) -> Point:
        """Where a point stands on the page."""
        x, y = (-point[0] if self.mirror_x else point[0]), (-point[1] if self.mirror_y else point[1])
        return self.left + self.scale * x, self.top - self.scale * y


@dataclass(frozen=True, slots=True)
class Shape:
    """An outline, or a circle by centre and radius, with its class."""

    cls: str
    outline: Outline | None = None
    centre: Point = (0.0, 0.0)
    radius: float = 0.0

    def points(self) -> Iterator[Point]:
        """Points that bound the shape."""
        if self.outline is not None:
            yield from self.outline.points()
        else:
            for dx, dy in ((-1, -1), (1, 1)):
                yield self.centre[0] + dx * self.radius, self.centre[1] + dy * self.radius

    def svg(self, placing: Placing, hatches: str) -> str:
        """The shape on the page."""
        kind = self.cls.removesuffix(" bare")
        classes = " ".join(f"es-{word}" for word in self.cls.split())
        fill = f' fill="url(#{hatches}-{CUT[kind]})"' if kind in CUT else ""
        if self.outline is None:
            x, y = placing(self.centre)
            size = f'cx="{number(x)}" cy="{number(y)}" r="{number(self.radius * placing.scale)}"'
            return f'<circle {size}{fill} class="{classes}"/>'
        return f'<path d="{_data(self.outline, placing)}"{fill} class="{classes}"/>'


@dataclass(slots=True)
class Ink:
    """A drawing in the making, and the places that readings belong to.

    `turn` is the frame in which one draws just now; `turned` gives the same drawing in another.
    """

    shapes: list[Shape] = field(default_factory=list)
    anchors: dict[str, dict[int, list[Point]]] = field(default_factory=dict)
    turn: Move = lambda point: point

    def turned(self, angle: float, origin: Point = (0.0, 0.0)) -> Ink:
        """The same drawing, in a frame at `origin` whose axis points `angle` clockwise from the top."""
        c, s = cos(angle), sin(angle)
        return self.framed(
            lambda point: (
                origin[0] + point[0] * c + point[1] * s,
                origin[1] - point[0] * s + point[1] * c,
            )
        )

    def framed(self, move: Move) -> Ink:
        """The same drawing, in a frame that `move` carries into this one."""
        outer = self.turn
        return Ink(self.shapes, self.anchors, lambda point: outer(move(point)))

    def draw(self, outline: Outline, cls: str) -> None:
        """An outline."""
        self.shapes.append(Shape(cls, outline.moved(self.turn)))

    def united(self, outlines: Iterable[Outline], cls: str) -> None:
        """Several outlines as one."""
        outlines = tuple(outlines)
        for outline in outlines:
            self.draw(outline, "edge")
        for outline in outlines:
            self.draw(outline, f"{cls} bare")

    def line(self, *points: Point, cls: str = "fine") -> None:
        """Straight lines from point to point."""
        self.draw(Outline().move(points[0]).line(*points[1:]), cls)

    def box(self, x0: float, y0: float, x1: float, y1: float, cls: str) -> None:
        """A rectangle."""
        self.draw(box(x0, y0, x1, y1), cls)

    def circle(self, centre: Point, radius: float, cls: str) -> None:
        """A circle."""
        self.shapes.append(Shape(cls, None, self.turn(centre), radius))

    def cross(self, centre: Point, reach: float) -> None:
        """Two short centre lines through a point."""
        x, y = centre
        self.line((x - reach, y), (x + reach, y), cls="centre")
        self.line((x, y - reach), (x, y + reach), cls="centre")

    def place(self, kind: str, point: Point, number: int = 0) -> None:
        """Say that readings of a kind (`main`) belong here; of which one, if there are several."""
        self.anchors.setdefault(kind, {}).setdefault(number, []).append(self.turn(point))

    def spring(self, start: Point, end: Point, width: float, turns: int) -> None:
        """A coil spring in its side view: slanting wires between two ends."""
        way = (end[0] - start[0], end[1] - start[1])
        length = hypot(*way) or 1.0
        across = (way[1] / length * width / 2, -way[0] / length * width / 2)
        path = Outline()
        for index in range(turns):
            low, high = index / turns, (index + 0.62) / turns
            first = (start[0] + way[0] * low - across[0], start[1] + way[1] * low - across[1])
            second = (start[0] + way[0] * high + across[0], start[1] + way[1] * high + across[1])
            path.move(first).line(second)
        self.draw(path, "wire")

    def bounds(self) -> tuple[float, float, float, float]:
        """Least x, least y, greatest x, greatest y of all that is drawn."""
        points = [point for shape in self.shapes for point in shape.points()]
        xs, ys = [x for x, _ in points], [y for _, y in points]
        return min(xs), min(ys), max(xs), max(ys)


FULL: Final = 2 * pi


def hatchings(prefix: str) -> str:
    """The three hatchings, under ids of this drawing."""
    found = []
    for name, gap, way in (("a", 6.0, 1), ("b", 6.0, -1), ("c", 3.6, 1)):
        data = f"M0 {gap:g} L{gap:g} 0" if way > 0 else f"M0 0 L{gap:g} {gap:g}"
        found.append(
            f'<pattern id="{prefix}-{name}" width="{gap:g}" height="{gap:g}" patternUnits="userSpaceOnUse">'
            f'<rect width="{gap:g}" height="{gap:g}" class="es-ground"/>'
            f'<path d="{data}" class="es-hatch"/></pattern>'
        )
    return f"<defs>{''.join(found)}</defs>"


def _data(outline: Outline, placing: Placing) -> str:
    words = []
    for letter, points in outline.steps:
        pairs = (placing(point) for point in points)
        words.append(letter + " ".join(f"{_short(x)} {_short(y)}" for x, y in pairs))
    return "".join(words)


def _short(value: float) -> str:
    text = f"{value:.1f}"
    return "0" if text == "-0.0" else text.removesuffix(".0")
