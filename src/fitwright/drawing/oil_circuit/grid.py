"""Where elements and nodes stand in rows and columns: the course of the oil from left to right, in bands.

A band is a piece of trunk, or all that hangs on one node. An element takes one cell; a node stands at the
border between two columns, and reaches down as far as what leads off from it. Nothing crosses: what ends
in the sump has the rest of its row for itself.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass, field
from enum import StrEnum
from string import ascii_uppercase

from fitwright.drawing.oil_circuit.graph import Edge
from fitwright.drawing.oil_circuit.order import Branch, Course, hanging


class Ending(StrEnum):
    """What is drawn at the far end of an element."""

    NODE = "node"
    TANK = "tank"
    RAIL = "rail"
    LETTER = "letter"


@dataclass(frozen=True, slots=True)
class Cell:
    """An element in its cell; `turned` where it runs to the left, `letter` where it joins a node."""

    edge: Edge
    column: int
    row: int
    ending: Ending
    turned: bool = False
    letter: str = ""


@dataclass(slots=True)
class Spot:
    """A node at the border before a column, from its own row down to `foot`."""

    node: str
    column: int
    row: int
    foot: int
    labelled: bool = True
    letter: str = ""


@dataclass(slots=True)
class Band:
    """Rows that belong together; `folded` where its first node is the last one of the band before."""

    cells: list[Cell] = field(default_factory=list)
    spots: list[Spot] = field(default_factory=list)
    rows: int = 0
    folded: bool = False

    def spot(self, node: str, column: int, row: int, *, labelled: bool = True) -> Spot:
        """A new node."""
        found = Spot(node, column, row, row, labelled)
        self.spots.append(found)
        return found


class Letters:
    """Letters for nodes at which something joins that is drawn elsewhere."""

    def __init__(self) -> None:
        self.given: dict[str, str] = {}

    def of(self, node: str) -> str:
        """The letter of a node: A, B, ... Z, AA, AB, ..."""
        return self.given.setdefault(node, _letter(len(self.given)))


def _letter(index: int) -> str:
    before, last = divmod(index, 26)
    return (_letter(before - 1) if before else "") + ascii_uppercase[last]


def bands_of(course: Course, columns: int) -> list[Band]:
    """The bands of a circuit over so many columns."""
    return list(_Grid(columns).bands(course))


class _Grid:
    def __init__(self, columns: int) -> None:
        self.columns = max(columns, 2)
        self.letters = Letters()
        self.waiting: deque[tuple[str, list[Branch]]] = deque()

    def bands(self, course: Course) -> list[Band]:
        found = list(self._trunk(course.trunk)) if course.trunk else []
        if course.gallery:
            found.append(self._hung(course.trunk[-1].end, course.gallery, folded=True))
        for start in dict.fromkeys(each.start for each in course.others):
            found.append(self._hung(start, [each for each in course.others if each.start == start]))
        while self.waiting:
            found.append(self._hung(*self.waiting.popleft()))
        for spot in (spot for band in found for spot in band.spots):
            spot.letter = self.letters.given.get(spot.node, "") if spot.labelled else ""
        return found

    def _trunk(self, trunk: list[Branch]) -> Iterator[Band]:
        count = -(-len(trunk) // self.columns)
        size = -(-len(trunk) // count)
        for first in range(0, len(trunk), size):
            piece = trunk[first : first + size]
            before = trunk[first - 1] if first else None
            yield self._piece(piece, before)

    def _piece(self, piece: list[Branch], before: Branch | None) -> Band:
        """A piece of the trunk in the first row; what ends beside it hangs below."""
        band = Band(folded=before is not None)
        spots = [band.spot(piece[0].start, 0, 0, labelled=before is None)]
        leaves = [hanging(before) if before else []]
        for column, branch in enumerate(piece):
            band.cells.append(self._cell(branch.edge, column, 0, branch.start, Ending.NODE))
            spots.append(band.spot(branch.end, column + 1, 0))
            leaves.append(hanging(branch))
        band.rows = 1
        for column, branch in enumerate(piece):
            row = 1
            for leaf in leaves[column]:
                band.cells.append(self._leaf(leaf, column, row, Ending.TANK))
                spots[column].foot = max(spots[column].foot, row)
                row += 1
            row = self._beside(band, branch, (spots[column], spots[column + 1]), column, row)
            band.rows = max(band.rows, row)
        return band

    def _beside(self, band: Band, branch: Branch, ends: tuple[Spot, Spot], column: int, row: int) -> int:
        for edge in branch.beside:
            band.cells.append(self._cell(edge, column, row, branch.start, Ending.NODE))
            for spot in ends:
                spot.foot = max(spot.foot, row)
            row += 1
        return row

    def _hung(self, node: str, branches: list[Branch], *, folded: bool = False) -> Band:
        band = Band(folded=folded)
        band.rows = self._place(band, node, branches, 0, 0, labelled=not folded)[0]
        return band

    def _place(
        self, band: Band, node: str, branches: list[Branch], column: int, row: int, *, labelled: bool = True
    ) -> tuple[int, Spot]:
        """A node with all that leads off from it; the next free row."""
        spot = band.spot(node, column, row, labelled=labelled)
        for branch in branches:
            spot.foot = row
            if branch.is_leaf:
                band.cells.append(self._leaf(branch, column, row, Ending.RAIL))
                row += 1
                continue
            band.cells.append(self._cell(branch.edge, column, row, node, Ending.NODE))
            row, end = self._onward(band, branch, column + 1, row)
            row = self._beside(band, branch, (spot, end), column, row)
        return max(row, spot.row + 1), spot

    def _onward(self, band: Band, branch: Branch, column: int, row: int) -> tuple[int, Spot]:
        """What follows an element; where the columns end it goes on in a band of its own."""
        if column < self.columns or not branch.children:
            return self._place(band, branch.end, branch.children, column, row)
        self.letters.of(branch.end)
        self.waiting.append((branch.end, branch.children))
        return row + 1, band.spot(branch.end, column, row)

    def _cell(self, edge: Edge, column: int, row: int, start: str, ending: Ending) -> Cell:
        return Cell(edge, column, row, ending, turned=edge.start != start)

    def _leaf(self, branch: Branch, column: int, row: int, ending: Ending) -> Cell:
        turned = branch.edge.start != branch.start
        if branch.joins:
            letter = self.letters.of(branch.end)
            return Cell(branch.edge, column, row, Ending.LETTER, turned, letter)
        return Cell(branch.edge, column, row, ending, turned)
