"""A plan to scale on a canvas: metres to units of the picture, y upwards."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import cos, pi, sin

from fitwright.drawing.canvas import Canvas
from fitwright.drawing.svg import circle, number, path
from fitwright.quantity import FloatArray

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class View:
    """Where metres lie on a canvas."""

    canvas: Canvas
    x: float
    y: float
    scale: float

    def at(self, point: Point) -> Point:
        """A point in metres, on the canvas."""
        return self.x + self.scale * point[0], self.y - self.scale * point[1]

    def outline(self, points: FloatArray) -> str:
        """Path data of a closed outline."""
        x, y = self.x + self.scale * points[:, 0], self.y - self.scale * points[:, 1]
        pairs = (f"{number(a)} {number(b)}" for a, b in zip(x.tolist(), y.tolist(), strict=True))
        return f"M{'L'.join(pairs)}z"

    def ring(self, centre: Point, radius: float) -> str:
        """Path data of a circle."""
        x, y = self.at(centre)
        r = number(self.scale * radius)
        wide = number(2.0 * self.scale * radius)
        return (
            f"M{number(x - self.scale * radius)} {number(y)}a{r} {r} 0 1 0 {wide} 0a{r} {r} 0 1 0 -{wide} 0z"
        )

    def fill(self, data: str, cls: str) -> None:
        """An area between outlines."""
        self.canvas.put(path(data, cls))

    def cross(self, point: Point, size: float = 9.0) -> None:
        """The mark of a centre."""
        x, y = (number(each) for each in self.at(point))
        size_ = number(2.0 * size)
        self.canvas.put(path(f"M{x} {number(self.at(point)[1] - size)}v{size_}", "rs-centre"))
        self.canvas.put(path(f"M{number(self.at(point)[0] - size)} {y}h{size_}", "rs-centre"))

    def dot(self, point: Point, radius: float = 3.0) -> None:
        """A mark on metal that shows how far it has turned."""
        self.canvas.put(circle(*self.at(point), radius, "rs-mark"))

    def arc(self, centre: Point, radius: float, start: float, end: float) -> str:
        """Path data of an arc from one angle [rad] to another, its head left to `arrow`."""
        count = max(int(abs(end - start) / 0.05), 2)
        points = (polar(centre, radius, start + (end - start) * k / count) for k in range(count + 1))
        return self.line(points)

    def line(self, points: Iterable[Point]) -> str:
        """Path data of an open line."""
        pairs = (f"{number(x)} {number(y)}" for x, y in map(self.at, points))
        return f"M{'L'.join(pairs)}"

    def turning(self, centre: Point, radius: float, start: float, end: float) -> None:
        """An arrow round a centre, from one angle to another."""
        self.canvas.put(path(self.arc(centre, radius, start, end), "rs-thin"))
        x, y = self.at(polar(centre, radius, end))
        way = end + (pi / 2.0 if end > start else -pi / 2.0)
        dx, dy = 9.0 * cos(way), -9.0 * sin(way)
        base = x - dx, y - dy
        ends = [(base[0] - 0.4 * dy, base[1] + 0.4 * dx), (base[0] + 0.4 * dy, base[1] - 0.4 * dx)]
        words = "L".join(f"{number(a)} {number(b)}" for a, b in [(x, y), *ends])
        self.canvas.put(path(f"M{words}z", "rs-mark"))

    def letter(self, place: Point, letter: str, towards: Point) -> None:
        """A letter in a ring beside a gap, with a line to it; both points in metres and on the canvas."""
        x, y = self.at(place)
        length = max(((towards[0] - x) ** 2 + (towards[1] - y) ** 2) ** 0.5, 1e-9)
        short = 1.0 - 10.0 / length
        leader = f"M{number(x)} {number(y)}L{number(x + short * (towards[0] - x))} "
        self.canvas.put(path(f"{leader}{number(y + short * (towards[1] - y))}", "rs-leader"))
        self.canvas.put(circle(x, y, 1.8, "rs-mark"))
        self.canvas.put(circle(*towards, 10.0, "rs-letter"))
        self.canvas.write(towards[0], towards[1] + 4.4, letter, "title", "middle")


def polar(centre: Point, radius: float, angle: float) -> Point:
    """A point at an angle [rad] round a centre."""
    return centre[0] + radius * cos(angle), centre[1] + radius * sin(angle)
