"""The pen of these pictures: ink, thin and dashed lines, cut metal, dimension arrows, words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from fitwright.drawing.part_place.shapes import Polygon, hatch, n, seg
from fitwright.drawing.svg import circle, document, path, rect, text

WIDTH = 460.0
"""Width of every picture, that of a limit scale."""
_HEAD = 7.0
LINE = 17.0
"""From one line of words to the next."""


@dataclass(frozen=True, slots=True)
class Labelled:
    """A number to be drawn, and the words that stand for it."""

    size: float
    words: str


@dataclass(slots=True)
class Sketch:
    """One picture in the making; later strokes cover earlier ones."""

    height: float
    parts: list[str] = field(default_factory=list)

    def svg(self, label: str, cls: str = "sum-picture") -> str:
        """The picture, named by `label` for who cannot see it."""
        return document(WIDTH, self.height, label, self.parts, cls)

    def ink(self, data: str) -> None:
        """Visible edges."""
        self.parts.append(path(data, "sum-ink"))

    def thin(self, data: str) -> None:
        """Help lines and dimension lines."""
        self.parts.append(path(data, "sum-thin"))

    def dashed(self, data: str) -> None:
        """What is not there yet, or only allowed."""
        self.parts.append(path(data, "sum-dashed"))

    def centre(self, data: str) -> None:
        """Centre lines."""
        self.parts.append(path(data, "sum-centre"))

    def cut(self, outline: str, *polygons: Polygon, falling: bool = False) -> None:
        """Cut metal: paper within an outline, and hatching."""
        self.parts.append(path(outline, "sum-solid"))
        self.parts.append(path(hatch(polygons, falling=falling), "sum-hatch"))

    def solid(self, x: float, y: float, width: float, height: float, cls: str = "sum-blade") -> None:
        """A rectangle filled with one colour."""
        self.parts.append(rect(x, y, width, height, cls))

    def dot(self, x: float, y: float, radius: float = 4.2, cls: str = "sum-dot") -> None:
        """A point that was found or read."""
        self.parts.append(circle(x, y, radius, cls))

    def write(self, x: float, y: float, words: str, anchor: str = "middle", cls: str = "sum-word") -> None:
        """Words, their baseline at y."""
        self.parts.append(text(x, y, words, cls, anchor))

    def arrow(self, x1: float, y1: float, x2: float, y2: float) -> None:
        """A line with its head at the second point."""
        self.thin(seg(x1, y1, x2, y2))
        self._head(x1, y1, x2, y2)

    def across(self, x1: float, x2: float, y: float, words: str = "", *, above: bool = True) -> None:
        """A dimension from left to right, its words in the middle."""
        self.thin(seg(x1, y, x2, y))
        self._heads(((x2, y, x1, y), (x1, y, x2, y)))
        if words:
            self.write((x1 + x2) / 2.0, y - 5.0 if above else y + 14.0, words)

    def upright(self, x: float, y1: float, y2: float, words: str = "", *, left: bool = True) -> None:
        """A dimension from top to bottom, its words beside it."""
        self.thin(seg(x, y1, x, y2))
        self._heads(((x, y2, x, y1), (x, y1, x, y2)))
        if words:
            side = (x - 6.0, "end") if left else (x + 6.0, "start")
            self.write(side[0], (y1 + y2) / 2.0 + 4.0, words, side[1])

    def _heads(self, arrows: Sequence[tuple[float, float, float, float]]) -> None:
        for each in arrows:
            self._head(*each)

    def _head(self, x1: float, y1: float, x2: float, y2: float) -> None:
        length = max(((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5, 1e-9)
        head = min(_HEAD, 0.45 * length)
        ux, uy = (x2 - x1) / length * head, (y2 - y1) / length * head
        base = (x2 - ux, y2 - uy)
        left = (base[0] - 0.4 * uy, base[1] + 0.4 * ux)
        right = (base[0] + 0.4 * uy, base[1] - 0.4 * ux)
        points = f"M{n(x2)} {n(y2)}L{n(left[0])} {n(left[1])}L{n(right[0])} {n(right[1])}z"
        self.parts.append(path(points, "sum-head"))


def spread_out(places: Sequence[float], apart: float, low: float, high: float) -> list[float]:
    """Heights of labels nearest to their places, in the same order, never closer than `apart`.

    >>> spread_out([10.0, 12.0, 40.0], 10.0, 0.0, 100.0)
    [10.0, 20.0, 40.0]
    """
    found: list[float] = []
    for place in places:
        found.append(max(place, found[-1] + apart if found else low))
    over = (found[-1] - high) if found else 0.0
    if over > 0.0:
        found[-1] = high
        for index in range(len(found) - 2, -1, -1):
            found[index] = min(found[index], found[index + 1] - apart)
    return found


def shortened(words: str, most: int) -> str:
    """Words that would run out of the picture, cut short."""
    return words if len(words) <= most else f"{words[: most - 1].rstrip()}…"


def ticks_between(low: float, high: float, step: float) -> Iterator[float]:
    """Whole multiples of a step from low to high."""
    first = -(-low // step)
    count = int((high - first * step) / step + 1e-9)
    for index in range(max(count + 1, 0)):
        yield (first + index) * step
