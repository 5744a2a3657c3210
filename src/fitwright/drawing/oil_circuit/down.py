"""The circuit from top to bottom, for narrow screens: an element or node in a row, its words beside it."""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass, field

from fitwright.drawing.canvas import HANDS, height_of
from fitwright.drawing.oil_circuit.graph import SUMP, Edge, Graph
from fitwright.drawing.oil_circuit.grid import Letters
from fitwright.drawing.oil_circuit.order import Branch
from fitwright.drawing.oil_circuit.pen import Pen
from fitwright.drawing.oil_circuit.symbols import REACH, reservoir

_LEFT = 22.0
_STUB, _LEVEL = 7.0, 50.0
_LEAST_ROW = 46.0
_LEAST_ROOM = 95.0
"""Writing is never narrower than this; what hangs deeper goes on further down, under a letter."""


@dataclass(slots=True)
class Down:
    """One drawing from top to bottom."""

    pen: Pen
    graph: Graph
    letters: Letters = field(default_factory=Letters)
    waiting: deque[Branch] = field(default_factory=deque)

    def draw(self, roots: list[Branch], top: float) -> float:
        """All of the circuit from `top` downwards; where the drawing ends."""
        for branch in (part for root in roots for part in root.parts()):
            if branch.joins:
                self.letters.of(branch.end)
        y = top + 14.0
        self.pen.canvas.put(reservoir(_LEFT + 28.0, y))
        self.pen.rail(_LEFT, y - 10.0, _LEFT + 28.0, y - 10.0)
        self.pen.rail(_LEFT + 28.0, y - 10.0, _LEFT + 28.0, y)
        self.pen.canvas.write(_LEFT + 46.0, y + 4.0, SUMP, "title")
        from_sump = [each for each in roots if each.start == SUMP]
        y = self._hung(SUMP, from_sump, _LEFT, y - 10.0, y + 10.0)
        for node in dict.fromkeys(each.start for each in roots if each.start != SUMP):
            y = self._headed(node, [each for each in roots if each.start == node], y)
        while self.waiting:
            branch = self.waiting.popleft()
            self.letters.of(branch.end)
            y = self._headed(branch.end, branch.children, y)
        return y

    def _headed(self, node: str, branches: list[Branch], y: float) -> float:
        """What leads off from a node that is drawn elsewhere, or that no way joins to the sump."""
        letter = self.letters.given.get(node, "")
        y += 16.0
        self.pen.canvas.write(_LEFT + 22.0, y + 4.0, self._title(node), "title")
        if letter:
            self.pen.letter(_LEFT, y, letter)
        else:
            self.pen.dot(_LEFT, y)
        return self._hung(node, branches, _LEFT, y + (10.0 if letter else 0.0), y + 20.0)

    def _title(self, node: str) -> str:
        return self.pen.words.of_node(self.graph.members[node])[0][0]

    def _hung(self, node: str, branches: list[Branch], x: float, start: float, y: float) -> float:
        """What leads off from a node whose line begins at `start`, in rows from `y`; where they end.

        What ends at once comes first; the last that leads on goes straight down if it is the only one.
        """
        leading = [each for each in branches if not each.is_leaf]
        straight = leading[0] if len(leading) == 1 else None
        foot = start
        for branch in (each for each in branches if each is not straight):
            foot, y = self._off(branch, x, y)
            y = self._beside_rows(branch, x, y)
        if straight is None:
            self.pen.rail(x, start, x, foot)
            return y
        for edge in straight.beside:
            _, y = self._row(edge, x, y, turned=edge.start != node, letter=self.letters.of(straight.end))
        if y > start:
            self.pen.rail(x, start, x, y)
        return self._straight(straight, x, y)

    def _beside_rows(self, branch: Branch, x: float, y: float) -> float:
        """Elements beside another one between the same nodes: rows of their own that join by a letter."""
        for edge in branch.beside:
            _, y = self._row(
                edge, x, y, turned=edge.start != branch.start, letter=self.letters.of(branch.end)
            )
        return y

    def _straight(self, branch: Branch, x: float, y: float) -> float:
        """An element in the line that goes on downwards."""
        lines = self.pen.words.of_edge(branch.edge)
        at, room = x + 30.0, self.pen.canvas.width - x - 32.0
        height = max(_LEAST_ROW, height_of(lines, room) + 12.0)
        middle = y + height / 2
        end = y + height
        turned = branch.edge.start != branch.start
        self.pen.element(branch.edge, (x, y), (x, end), (x, middle), turned=turned)
        self._words(branch.edge, at, middle, room)
        self.pen.mark(branch.edge, x - 21.0, y, self.pen.canvas.width - x + 20.0, height)
        return self._node(branch, x, end)

    def _off(self, branch: Branch, x: float, y: float) -> tuple[float, float]:
        """An element that leads off to the right; where it leaves the line, and the next row."""
        turned = branch.edge.start != branch.start
        if branch.is_leaf:
            letter = self.letters.of(branch.end) if branch.joins else ""
            return self._row(branch.edge, x, y, turned=turned, letter=letter)
        corner = x + _LEVEL
        lines = self.pen.words.of_edge(branch.edge)
        room = self.pen.canvas.width - corner - 12.0
        height = max(_LEAST_ROW, height_of(lines, room) + 10.0)
        middle = y + height / 2
        self.pen.element(
            branch.edge, (x, middle), (corner, middle), (x + _STUB + REACH, middle), turned=turned
        )
        self._words(branch.edge, corner + 10.0, middle, room)
        self.pen.mark(branch.edge, x + 3.0, y, self.pen.canvas.width - x - 4.0, height)
        self.pen.rail(corner, middle, corner, y + height)
        return middle, self._node(branch, corner, y + height)

    def _node(self, branch: Branch, x: float, y: float) -> float:
        """A node in the line, and all that leads off from it; where that ends."""
        node = branch.end
        lines = self.pen.words.of_node(self.graph.members[node], self.graph.pieces.get(node, 0))
        deep = bool(branch.children) and self.pen.canvas.width - x - _LEVEL - 80.0 < _LEAST_ROOM
        letter = self.letters.of(node) if deep else self.letters.given.get(node, "")
        at = x + 12.0
        room = self.pen.canvas.width - at - 2.0 - (24.0 if letter else 0.0)
        is_gauge = node == self.graph.gauge
        room -= 24.0 if is_gauge else 0.0
        height = max(height_of(lines, room) + 8.0, 26.0 if letter or is_gauge else 0.0)
        middle = y + height / 2
        if is_gauge:
            self.pen.rail(x, middle, at, middle)
            self.pen.gauge(at + 8.0, middle)
            at += 24.0
        if letter:
            self.pen.letter(at + 8.0, middle, letter)
            at += 24.0
        self.pen.lines(at, middle - height_of(lines, room) / 2 + HANDS["title"].size - 1.0, lines, room)
        if deep:
            self.waiting.append(branch)
        onward = [] if deep else branch.children
        self.pen.rail(x, y, x, y + height if onward else middle)
        after = self._hung(node, onward, x, y + height, y + height) if onward else y + height + 4.0
        self.pen.dot(x, middle)
        return after

    def _row(self, edge: Edge, x: float, y: float, *, turned: bool, letter: str) -> tuple[float, float]:
        """An element that ends in the sump, or at a node that has its letter elsewhere."""
        end = x + _STUB + 2 * REACH + 24.0
        lines = self.pen.words.of_edge(edge)
        at = end + (25.0 if letter else 18.0)
        room = self.pen.canvas.width - at - 2.0
        height = max(_LEAST_ROW, height_of(lines, room) + 10.0)
        middle = y + height / 2
        self.pen.element(edge, (x, middle), (end, middle), (x + _STUB + REACH, middle), turned=turned)
        if letter:
            self.pen.letter(end + 9.0, middle, letter)
        else:
            self.pen.rail(end, middle, end, middle + 11.0)
            self.pen.canvas.put(reservoir(end, middle + 11.0))
        self._words(edge, at, middle, room)
        self.pen.mark(edge, x + 3.0, y, self.pen.canvas.width - x - 4.0, height)
        return middle, y + height

    def _words(self, edge: Edge, x: float, middle: float, room: float) -> None:
        lines = self.pen.words.of_edge(edge)
        first = middle - height_of(lines, room) / 2 + HANDS["title"].size - 1.0
        self.pen.lines(x, first, lines, room)
