"""The circuit from left to right, for pages and paper: the trunk on top, what the gallery feeds below it."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.drawing.canvas import HANDS, Line, height_of
from fitwright.drawing.oil_circuit.graph import SUMP, Graph
from fitwright.drawing.oil_circuit.grid import Band, Cell, Ending, Spot, bands_of
from fitwright.drawing.oil_circuit.order import Course
from fitwright.drawing.oil_circuit.pen import Pen
from fitwright.drawing.oil_circuit.symbols import HALF, REACH, reservoir

LEAST_COLUMN = 112.0
_LEFT, _END, _RAIL = 16.0, 124.0, 18.0
_GAP, _FOLD = 10.0, 16.0
_MORE = 44.0
"""Room beside the trunk for what a gallery in pieces says besides."""


@dataclass(slots=True)
class Across:
    """One drawing from left to right."""

    pen: Pen
    graph: Graph
    column: float = LEAST_COLUMN

    def draw(self, course: Course, top: float) -> float:
        """All bands from `top` downwards; where the drawing ends."""
        room = (
            self.pen.canvas.width - _LEFT - _END - (_MORE if self.graph.gauge in self.graph.pieces else 0.0)
        )
        most = max(2, int(room // LEAST_COLUMN))
        bands = bands_of(course, most)
        needed = max((spot.column for band in bands for spot in band.spots), default=1)
        self.column = room / max(needed, min(4, most))
        fold: tuple[float, float] | None = None
        for band in bands:
            lines = self._rows(band, top + (_FOLD if band.folded else 0.0))
            if band.folded and fold is not None:
                self._folded(fold, top + 4.0, lines[0])
            top = self._band(band, lines)
            last = band.spots[-1]
            fold = (self._x(last.column), lines[0])
        return top

    def _x(self, column: int) -> float:
        return _LEFT + column * self.column

    def _node_lines(self, spot: Spot) -> list[Line]:
        if not spot.labelled:
            return []
        if spot.node == SUMP:
            return [(SUMP, "title")]
        return self.pen.words.of_node(self.graph.members[spot.node], self.graph.pieces.get(spot.node, 0))

    def _node_room(self, spot: Spot) -> float:
        wide = min(self.column, self.pen.canvas.width - _RAIL - self._x(spot.column))
        return wide - 10.0 - self._before(spot)

    def _before(self, spot: Spot) -> float:
        """What stands before the label of a node: the gauge, its letter."""
        return (22.0 if spot.node == self.graph.gauge else 0.0) + (22.0 if spot.letter else 0.0)

    def _beside(self, cell: Cell) -> bool:
        """Whether the words of an element stand beside its symbol: they are short, and the row is free."""
        if cell.ending is not Ending.RAIL:
            return False
        room = self.pen.canvas.width - _RAIL - 12.0 - self._side(cell)
        return all(HANDS[hand].width(words) <= room for words, hand in self._said(cell))

    def _side(self, cell: Cell) -> float:
        return self._x(cell.column) + self.column / 2 + REACH + 30.0

    def _said(self, cell: Cell) -> list[Line]:
        """Words in two lines: the title, and all else."""
        (title, hand), *rest = self.pen.words.of_edge(cell.edge)
        return [(title, hand), *([(", ".join(words for words, _ in rest), rest[0][1])] if rest else [])]

    def _below(self, cell: Cell) -> float:
        """Room that words below an element take."""
        if self._beside(cell):
            return 0.0
        return height_of(self.pen.words.of_edge(cell.edge), self._cell_room(cell))

    def _cell_room(self, cell: Cell) -> float:
        if cell.ending is Ending.RAIL:
            return self.pen.canvas.width - _RAIL - self._x(cell.column) - 20.0
        return self.column - 14.0

    def _rows(self, band: Band, top: float) -> list[float]:
        """Where the line of each row runs, and at last where the band ends."""
        lines = []
        for row in range(band.rows):
            spots = [each for each in band.spots if each.row == row]
            cells = [each for each in band.cells if each.row == row]
            above = max((height_of(self._node_lines(s), self._node_room(s)) for s in spots), default=0.0)
            below = max(map(self._below, cells), default=0.0)
            lines.append(top + above + HALF + 4.0)
            top = lines[-1] + HALF + below + _GAP
        return [*lines, top]

    def _folded(self, start: tuple[float, float], y: float, end: float) -> None:
        """The line that leads a node from the end of one band to the beginning of the next."""
        x1, x0 = start[0], self._x(0)
        self.pen.rail(x1, start[1], x1, y)
        self.pen.rail(x1, y, x0, y)
        self.pen.rail(x0, y, x0, end)

    def _band(self, band: Band, lines: list[float]) -> float:
        rails = [cell for cell in band.cells if cell.ending is Ending.RAIL]
        for spot in band.spots:
            self.pen.rail(self._x(spot.column), lines[spot.row], self._x(spot.column), lines[spot.foot])
        if rails:
            self._sump_rail([lines[cell.row] for cell in rails], lines[-1])
        for cell in band.cells:
            self._cell(cell, lines[cell.row])
        for spot in band.spots:
            self._spot(spot, lines[spot.row])
        return lines[-1] + (20.0 if rails else 0.0)

    def _sump_rail(self, joints: list[float], bottom: float) -> None:
        x = self.pen.canvas.width - _RAIL
        self.pen.canvas.put(reservoir(x, bottom + 8.0))
        self.pen.rail(x, min(joints), x, bottom + 8.0)
        self.pen.canvas.write(x - 18.0, bottom + 14.0, SUMP, "title", "end")

    def _cell(self, cell: Cell, y: float) -> None:
        x1 = self._x(cell.column)
        x2, middle = x1 + self.column, x1 + self.column / 2
        if cell.ending is Ending.TANK:
            x2 -= 16.0
            self.pen.canvas.put(reservoir(x2, y + 12.0))
            self.pen.rail(x2, y, x2, y + 12.0)
        elif cell.ending is Ending.RAIL:
            x2 = self.pen.canvas.width - _RAIL
        elif cell.ending is Ending.LETTER:
            x2 -= 25.0
        self.pen.element(cell.edge, (x1, y), (x2, y), (middle, y), turned=cell.turned)
        if cell.ending is Ending.LETTER:
            self.pen.letter(x2 + 9.5, y, cell.letter)
        self._label(cell, x1, y)

    def _label(self, cell: Cell, x: float, y: float) -> None:
        """The words of an element, and its room."""
        lines = self.pen.words.of_edge(cell.edge)
        if self._beside(cell):
            lines, side = self._said(cell), self._side(cell)
            self.pen.canvas.write(side, y - 8.0, *lines[0])
            for words, hand in lines[1:]:
                self.pen.canvas.write(side, y + 17.0, words, hand)
            right = side + max(HANDS[hand].width(words) for words, hand in lines)
            height = 2 * HALF + 6.0
        else:
            room = self._cell_room(cell)
            self.pen.lines(x + 8.0, y + HALF + HANDS["title"].size, lines, room)
            right, height = x + self.column - 7.0, 2 * HALF + 6.0 + height_of(lines, room)
        self.pen.mark(cell.edge, x + 3.0, y - HALF - 1.0, right + 4.0 - x - 3.0, height)

    def _spot(self, spot: Spot, y: float) -> None:
        x = self._x(spot.column)
        if spot.node == SUMP:
            self.pen.rail(x, y, x, y + 14.0)
            self.pen.canvas.put(reservoir(x, y + 14.0))
        else:
            self.pen.dot(x, y)
        lines = self._node_lines(spot)
        if not lines:
            return
        room = self._node_room(spot)
        first = y - HALF - 2.0 - height_of(lines, room) + HANDS["title"].size
        at = x + 6.0
        if spot.node == self.graph.gauge:
            self.pen.rail(x, y, x, first - 4.0)
            self.pen.gauge(x + 10.0, first - 4.0)
            at += 22.0
        if spot.letter:
            self.pen.letter(at + 9.5, first - 4.0, spot.letter)
            at += 22.0
        self.pen.lines(at, first, lines, room)
