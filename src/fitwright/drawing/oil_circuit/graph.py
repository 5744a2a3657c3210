"""The circuit of a sheet as a graph to be drawn: what joins two nodes, and by which symbol."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from types import MappingProxyType
from typing import Final

from fitwright.model.circuit.circuit import Circuit
from fitwright.model.circuit.elements import Filter, Jet
from fitwright.model.circuit.paths import OilPath, PathKind
from fitwright.model.circuit.pumps import PumpStage
from fitwright.model.circuit.relief import Relief

SUMP: Final = "sump"


class Symbol(StrEnum):
    """What stands for an element on the drawing."""

    PUMP = "pump"
    RELIEF = "relief valve"
    PASSAGE = "passage"
    INTERSECTION = "drilled intersection"
    ORIFICE = "restrictor"
    STRAINER = "strainer"
    FILTER = "filter"
    FILTER_BYPASS = "filter with bypass"
    COOLER = "cooler"
    JET = "jet"
    JET_VALVE = "jet with opening pressure"
    BEARING = "bearing"
    CAM_BEARING = "cam bearing"
    BIG_END_FEED = "drilling in the crank"
    PLUNGER = "plunger in its bore"
    GAP = "gap"
    TENSIONER = "tensioner"
    TURBOCHARGER = "turbocharger"


_SYMBOLS: Final = MappingProxyType(
    {
        PathKind.PIPE: Symbol.PASSAGE,
        PathKind.DRILLING: Symbol.PASSAGE,
        PathKind.INTERSECTION: Symbol.INTERSECTION,
        PathKind.RESTRICTOR: Symbol.ORIFICE,
        PathKind.STRAINER: Symbol.STRAINER,
        PathKind.FILTER: Symbol.FILTER,
        PathKind.COOLER: Symbol.COOLER,
        PathKind.JET: Symbol.JET,
        PathKind.BEARING: Symbol.BEARING,
        PathKind.CAM_BEARING: Symbol.CAM_BEARING,
        PathKind.BIG_END_FEED: Symbol.BIG_END_FEED,
        PathKind.FOLLOWER: Symbol.PLUNGER,
        PathKind.ANNULAR_LEAK: Symbol.GAP,
        PathKind.SLOT: Symbol.GAP,
        PathKind.TENSIONER: Symbol.TENSIONER,
        PathKind.TURBOCHARGER: Symbol.TURBOCHARGER,
    }
)


@dataclass(frozen=True, slots=True)
class Edge:
    """What joins two nodes; `members` are the ids of all that are drawn as one, `count` how many."""

    id: str
    title: str
    symbol: Symbol
    group: str
    start: str
    end: str
    count: int = 1
    family: str | None = None
    members: tuple[str, ...] = ()

    def other(self, node: str) -> str:
        """The node at the other end."""
        return self.end if node == self.start else self.start


@dataclass(frozen=True, slots=True)
class Graph:
    """Elements between nodes.

    `members` are the nodes that each node stands for, `gauge` the node that stands for the one read;
    `pieces` says of how many passages a gallery consists that is drawn as one node.
    """

    edges: tuple[Edge, ...]
    members: dict[str, tuple[str, ...]]
    gauge: str
    pieces: Mapping[str, int] = field(default_factory=dict)

    def at(self, node: str) -> Iterator[Edge]:
        """All that is joined to a node, in order."""
        return (edge for edge in self.edges if node in (edge.start, edge.end))

    @property
    def nodes(self) -> tuple[str, ...]:
        """All nodes, in the order in which elements name them."""
        return tuple(self.members)


def graph_of(circuit: Circuit) -> Graph:
    """The circuit with every element by itself; stages that only scavenge have no place in it."""
    edges = tuple(_edge(each) for each in circuit.connections())
    nodes = dict.fromkeys(node for edge in edges for node in (edge.start, edge.end))
    return Graph(edges, {node: (node,) for node in nodes}, circuit.gauge)


def _edge(part: PumpStage | Relief | OilPath) -> Edge:
    start, end = part.from_node or SUMP, part.to_node or SUMP
    if isinstance(part, OilPath):
        count, family = part.count, part.family
        return Edge(part.id, part.title, _symbol(part), part.group, start, end, count, family, (part.id,))
    symbol = Symbol.PUMP if isinstance(part, PumpStage) else Symbol.RELIEF
    return Edge(part.id, part.title, symbol, symbol.value, start, end, members=(part.id,))


def _symbol(path: OilPath) -> Symbol:
    element = path.element
    if isinstance(element, Filter) and element.bypass_opening_pressure is not None:
        return Symbol.FILTER_BYPASS
    if isinstance(element, Jet) and element.opening_pressure is not None:
        return Symbol.JET_VALVE
    return _SYMBOLS[path.kind]


def is_apart(edge: Edge, apart: Collection[str]) -> bool:
    """Whether an element is to be drawn by itself: its id, group or family is asked for."""
    return edge.id in apart or edge.group in apart or edge.family in apart
