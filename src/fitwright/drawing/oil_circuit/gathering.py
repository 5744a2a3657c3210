"""Equal parts of a circuit drawn once, and a gallery in pieces as one (`galleries`).

Two nodes are alike when the same kinds of elements lead from them to nodes that are alike, and from such
nodes to them; how many does not matter (a main that feeds two big ends is like one that feeds one). What
is asked for by itself is like nothing else, and so is all that hangs on it alone.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Hashable, Sequence
from dataclasses import replace
from typing import Final

from fitwright.drawing.oil_circuit.galleries import joined
from fitwright.drawing.oil_circuit.graph import SUMP, Edge, Graph, is_apart
from fitwright.drawing.oil_circuit.titles import common_title

_NUMBERS: Final = re.compile(r"\d+")


def gathered(graph: Graph, apart: Collection[str] = ()) -> Graph:
    """The graph with what is alike drawn once.

    Parameters
    ----------
    graph
        Every element by itself.
    apart
        Ids, groups or families of elements to be shown one by one.
    """
    graph = joined(graph, apart)
    looks = _looks(graph, apart)
    first: dict[Hashable, str] = {}
    names = {node: first.setdefault(looks[node], node) for node in graph.nodes}
    members: dict[str, list[str]] = {}
    pieces: dict[str, int] = {}
    for node in graph.nodes:
        members.setdefault(names[node], []).extend(graph.members[node])
        if node in graph.pieces:
            pieces[names[node]] = pieces.get(names[node], 0) + graph.pieces[node]
    together: dict[tuple[Hashable, str, str], list[Edge]] = {}
    for edge in graph.edges:
        between = (_kind(edge, apart), names[edge.start], names[edge.end])
        together.setdefault(between, []).append(edge)
    edges = tuple(
        replace(_one(alike), start=start, end=end)
        for (_, start, end), every in together.items()
        for alike in _told_apart(every)
    )
    found = {name: tuple(every) for name, every in members.items()}
    return Graph(edges, found, names[graph.gauge], pieces)


def _looks(graph: Graph, apart: Collection[str]) -> dict[str, int]:
    """A number for each node, the same for nodes that are alike."""
    special = {SUMP: 1, graph.gauge: 2}
    looks = {node: special.get(node, 0) for node in graph.nodes}
    for _ in graph.nodes:
        seen: dict[Hashable, int] = {}
        refined = {
            node: seen.setdefault((looks[node], _around(graph, node, looks, apart)), len(seen))
            for node in graph.nodes
        }
        if len(seen) == len(set(looks.values())):
            break
        looks = refined
    return looks


def _around(graph: Graph, node: str, looks: dict[str, int], apart: Collection[str]) -> Hashable:
    if node == SUMP:
        return None
    return frozenset(
        (edge.start == node, _kind(edge, apart), looks[edge.other(node)]) for edge in graph.at(node)
    )


def _kind(edge: Edge, apart: Collection[str]) -> Hashable:
    """What has to be the same in elements that are drawn as one."""
    if is_apart(edge, apart):
        return edge.id
    return (edge.symbol, edge.group)


def _told_apart(edges: Sequence[Edge]) -> list[list[Edge]]:
    """Elements between nodes that are alike, those apart that lie side by side and are called otherwise.

    What corresponds may have names of its own (`Front main to pin 1`, `Rear main to pin 4`): they lie
    between other nodes each. Inlet and exhaust camshafts on one gallery are two things.
    """
    called: dict[str, list[Edge]] = {}
    names: dict[str, str] = {}
    for edge in edges:
        name = _NUMBERS.sub("#", edge.title)
        name = names.setdefault(edge.family, name) if edge.family else name
        called.setdefault(name, []).append(edge)
    found: list[tuple[set[tuple[str, str]], list[Edge]]] = []
    for alike in called.values():
        ends = {(edge.start, edge.end) for edge in alike}
        place = next((each for each in found if not each[0] & ends), None)
        if place is None:
            found.append((ends, list(alike)))
        else:
            place[0].update(ends)
            place[1].extend(alike)
    return [alike for _, alike in found]


def _one(alike: Sequence[Edge]) -> Edge:
    edge = alike[0]
    if len(alike) == 1:
        return edge
    return replace(
        edge,
        title=common_title([each.title for each in alike]) or edge.group,
        count=sum(each.count for each in alike),
        members=tuple(member for each in alike for member in each.members),
    )
