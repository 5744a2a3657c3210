"""The way of the oil through a circuit: a tree from the sump, with what joins it again told apart."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import chain

from fitwright.drawing.oil_circuit.graph import SUMP, Edge, Graph, Symbol

MOST_LEAVES = 3
"""A node on the trunk hands off at most so many elements that end at once; a node with more is a gallery."""


@dataclass(slots=True)
class Branch:
    """An element, the node that it leads to, and what leads on from there.

    `beside` are elements between the same two nodes. A leaf ends in the sump, or at a node that has its
    place elsewhere (`joins`).
    """

    edge: Edge
    start: str
    end: str
    children: list[Branch] = field(default_factory=list)
    beside: list[Edge] = field(default_factory=list)
    joins: bool = False

    @property
    def is_leaf(self) -> bool:
        """Whether nothing is drawn at its end."""
        return self.joins or self.end == SUMP

    @property
    def depth(self) -> int:
        """How many elements lie one after the other from its start to the farthest end."""
        if self.is_leaf:
            return 1
        return 1 + max((each.depth for each in self.children), default=0)

    def parts(self) -> Iterator[Branch]:
        """The branch itself and all that leads on from it."""
        yield self
        yield from chain.from_iterable(each.parts() for each in self.children)


def branches_of(graph: Graph) -> list[Branch]:
    """The tree of a circuit: what leads out of the sump, each with all that follows; every element once.

    What no way joins to the sump comes last, from a node of its own.
    """
    return _Walk(graph).roots()


class _Walk:
    """A walk through the circuit, nearest first, along the oil where that reaches."""

    def __init__(self, graph: Graph) -> None:
        self.graph = graph
        self.seen = {SUMP}
        self.used: set[str] = set()
        self.branches: dict[str, list[Branch]] = {}
        self.tree: dict[str, Branch] = {}
        self.loose: list[str] = []

    def roots(self) -> list[Branch]:
        intake = self._intake()
        sources = [edge for edge in self.graph.at(SUMP) if edge.start == SUMP and edge.end in intake]
        waiting = deque(self._grown(SUMP, sources))
        self._spread(waiting)
        while left := next(self._left(), None):
            self._spread(deque(self._grown(left.start if left.start in self.seen else left.end, [left])))
        self._leaves()
        for branch in self.tree.values():
            branch.children = self.branches.get(branch.end, [])
        return [branch for node in (SUMP, *self.loose) for branch in self.branches.get(node, [])]

    def _intake(self) -> set[str]:
        """Nodes on the way from the sump to a pump, and what a pump feeds that draws from the sump itself."""
        pumps = [edge for edge in self.graph.edges if edge.symbol is Symbol.PUMP]
        found = {pump.start for pump in pumps if pump.start != SUMP}
        found_before: set[str] = set()
        while found != found_before:
            found_before = set(found)
            found |= {
                edge.start
                for edge in self.graph.edges
                if edge.end in found
                and edge.symbol not in {Symbol.PUMP, Symbol.RELIEF}
                and edge.start != SUMP
            }
        return found | {pump.end for pump in pumps if pump.start == SUMP}

    def _grown(self, node: str, edges: list[Edge]) -> Iterator[str]:
        """Nodes that elements lead to for the first time; a second one between the same nodes goes beside."""
        for edge in edges:
            if edge.id in self.used:
                continue
            end = edge.other(node)
            if end not in self.seen:
                self.seen.add(end)
                self.used.add(edge.id)
                branch = Branch(edge, node, end)
                self.tree[end] = branch
                self.branches.setdefault(node, []).append(branch)
                yield end
            elif end in self.tree and self.tree[end].start == node and node != SUMP:
                self.used.add(edge.id)
                self.tree[end].beside.append(edge)

    def _spread(self, waiting: deque[str]) -> None:
        while waiting:
            node = waiting.popleft()
            waiting.extend(self._grown(node, [edge for edge in self.graph.at(node) if edge.start == node]))

    def _left(self) -> Iterator[Edge]:
        """Elements that lead to what no oil along its stated ways reaches, and what hangs on nothing."""
        rest = [edge for edge in self.graph.edges if edge.id not in self.used]
        apart = [edge for edge in rest if {edge.start, edge.end} - self.seen]
        touching = [edge for edge in apart if {edge.start, edge.end} & (self.seen - {SUMP})]
        yield from touching
        yield from (edge for edge in apart if SUMP in (edge.start, edge.end))
        for edge in apart:
            self.seen.add(edge.start)
            self.loose.append(edge.start)
            yield edge

    def _leaves(self) -> None:
        """What is left ends in the sump, or joins a node that has its place."""
        for edge in self.graph.edges:
            if edge.id in self.used:
                continue
            self.used.add(edge.id)
            start, end = (edge.end, edge.start) if edge.start == SUMP else (edge.start, edge.end)
            if end != SUMP and start in self.tree and self.tree[start].start == end:
                self.tree[start].beside.append(edge)
                continue
            leaf = Branch(edge, start, end, joins=end != SUMP)
            self.branches.setdefault(start, []).append(leaf)
        ranks = {edge.id: rank for rank, edge in enumerate(self.graph.edges)}
        for branches in self.branches.values():
            branches.sort(key=lambda each: ranks[each.edge.id])


@dataclass(slots=True)
class Course:
    """The trunk from the sump to the first gallery, and all that the gallery feeds."""

    trunk: list[Branch]
    gallery: list[Branch]
    others: list[Branch]


def course_of(roots: list[Branch]) -> Course:
    """The trunk: as long as only one element leads on, and few end beside it."""
    if not roots:
        return Course([], [], [])
    first = max(roots, key=lambda each: (each.start == SUMP, sum(1 for _ in each.parts())))
    trunk = [first]
    while True:
        leading = [each for each in trunk[-1].children if not each.is_leaf]
        leaves = [each for each in trunk[-1].children if each.is_leaf]
        if len(leading) != 1 or len(leaves) > MOST_LEAVES:
            break
        trunk.append(leading[0])
    return Course(trunk, trunk[-1].children, [each for each in roots if each is not first])


def hanging(branch: Branch) -> list[Branch]:
    """What ends at once at the end of an element of the trunk."""
    return [each for each in branch.children if each.is_leaf]
