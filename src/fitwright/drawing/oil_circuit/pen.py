"""The pen of the circuit: an element in its line, nodes, letters, what can be touched, the legend."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from html import escape
from math import atan2, cos, degrees, hypot, pi, sin

from fitwright.drawing.canvas import HANDS, Canvas, Line, broken_lines
from fitwright.drawing.oil_circuit.graph import Edge
from fitwright.drawing.oil_circuit.symbols import REACH, THROUGH, arrow_head, gauge, symbol
from fitwright.drawing.oil_circuit.words import STEPS, Flowing, Words
from fitwright.drawing.svg import circle, line, number

Point = tuple[float, float]
_STRAIGHT = {Flowing.FLOWS: 1.0, Flowing.BACKWARDS: -1.0}


@dataclass(slots=True)
class Pen:
    """Draws on a canvas what a layout has placed."""

    canvas: Canvas
    words: Words
    selected: str | None = None
    hrefs: Mapping[str, str] = field(default_factory=dict)
    touch: list[str] = field(default_factory=list)

    def element(self, edge: Edge, start: Point, end: Point, middle: Point, *, turned: bool = False) -> None:
        """An element between two points with its symbol in the middle; `turned` where it runs to `start`."""
        state, width = self.words.flowing(edge), self.words.width(edge)
        angle = atan2(end[1] - start[1], end[0] - start[0])
        c, s = cos(angle), sin(angle)
        into = (middle[0] - REACH * c, middle[1] - REACH * s)
        out = (middle[0] + REACH * c, middle[1] + REACH * s)
        cls = f"oc-line oc-w{width} oc-{state.value}"
        pieces = [(start, end)] if edge.symbol in THROUGH else [(start, into), (out, end)]
        self.canvas.put(*(line(*first, *last, cls) for first, last in pieces))
        mirror, turn = " scale(-1 1)" if turned else "", number(degrees(angle))
        place = f"translate({number(middle[0])} {number(middle[1])}) rotate({turn}){mirror}"
        self.canvas.put(
            f'<g transform="{place}" class="oc-symbol oc-{state.value}">{symbol(edge.symbol)}</g>'
        )
        if state is Flowing.SHUT:
            at, across = (into[0] - 5 * c, into[1] - 5 * s), (-9 * s, 9 * c)
            self.canvas.put(
                line(at[0] - across[0], at[1] - across[1], at[0] + across[0], at[1] + across[1], "oc-bar")
            )
        way = _STRAIGHT.get(state, 0.0) * (-1.0 if turned else 1.0)
        if way:
            self._head(out, end, way, 6.0 + 1.5 * width)

    def _head(self, start: Point, end: Point, way: float, size: float) -> None:
        """An arrow head in the middle of a piece of line that is long enough for one."""
        length = hypot(end[0] - start[0], end[1] - start[1])
        angle = atan2(end[1] - start[1], end[0] - start[0])
        if length > size + 2.0:
            back = min(0.5 * length, 14.0) - 0.4 * size * way
            x, y = start[0] + back * cos(angle), start[1] + back * sin(angle)
            self.canvas.put(arrow_head(x, y, angle if way > 0 else angle + pi, size))

    def dot(self, x: float, y: float) -> None:
        """A node."""
        self.canvas.put(circle(x, y, 3.6, "oc-node"))

    def rail(self, x1: float, y1: float, x2: float, y2: float) -> None:
        """A line that is all one node."""
        self.canvas.put(line(x1, y1, x2, y2, "oc-rail"))

    def gauge(self, x: float, y: float) -> None:
        """The gauge around a point."""
        self.canvas.put(gauge(x, y))

    def letter(self, x: float, y: float, letter: str) -> None:
        """A letter in a ring: the same letter elsewhere is the same node."""
        self.canvas.put(circle(x, y, 9.5, "oc-letter"))
        self.canvas.write(x, y + 4.4, letter, "title", "middle")

    def lines(self, x: float, y: float, lines: Sequence[Line], room: float, anchor: str = "start") -> float:
        """Lines of words below each other, the first with its foot at y; the foot of the next."""
        for words, hand in broken_lines(lines, room):
            self.canvas.write(x, y, words, hand, anchor)
            y += HANDS[hand].step
        return y

    def mark(self, edge: Edge, x: float, y: float, width: float, height: float) -> None:
        """The room of an element: a frame where it is selected, a link where it leads somewhere."""
        size = f'x="{number(x)}" y="{number(y)}" width="{number(width)}" height="{number(height)}"'
        if self.selected is not None and self.selected in (edge.id, *edge.members):
            self.canvas.put(f'<rect {size} class="oc-selected"/>')
        href = next((self.hrefs[each] for each in (edge.id, *edge.members) if each in self.hrefs), None)
        if href is not None:
            self.canvas.links = True
            name = escape(self.words.name(edge), quote=True)
            link = f'href="{escape(href, quote=True)}" data-path="{escape(edge.id, quote=True)}"'
            self.touch.append(f'<a {link} aria-label="{name}" class="oc-touch"><rect {size}/></a>')

    def legend(self, y: float, left: float, right: float) -> float:
        """What the widths of lines mean; the foot of what comes next."""
        step, names = 78.0, ["less", *(f"{each:g}" for each in STEPS)]
        per_row = max(1, int((right - left) // step))
        y = self.canvas.paragraph(left, y + 4.0, "Width of a line: from so many L/min", right - left, "small")
        for index, name in enumerate(names):
            row, column = divmod(index, per_row)
            x, foot = left + column * step, y + 4.0 + 20.0 * row
            self.canvas.put(line(x, foot - 4, x + 30, foot - 4, f"oc-line oc-w{index} oc-flows"))
            self.canvas.write(x + 36, foot, name, "tick")
        return y + 8.0 + 20.0 * ((len(names) - 1) // per_row + 1)
