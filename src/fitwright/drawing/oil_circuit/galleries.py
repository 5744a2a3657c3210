"""Galleries in pieces: nodes of one name and a number each, joined by plain passages, drawn as one node.

A sheet gives each piece of a gallery by itself, so that pressure may fall along it. On the drawing that
hides what is alike: all that hangs on the gallery would stand at nodes of its own.
"""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import replace

from fitwright.drawing.oil_circuit.graph import Edge, Graph, Symbol, is_apart

_NUMBERED = re.compile(r"(.+?)[._ -]?\d+")


def joined(graph: Graph, apart: Collection[str]) -> Graph:
    """The graph with each gallery as one node; pieces that are asked for by themselves stay.

    Nodes of one name between which anything else lies than a passage (a pump from `n.1` to `n.2`) are
    no gallery.
    """
    barred = {_name(edge.start) for edge in graph.edges if _is_inside(edge) and not _is_piece(edge, apart)}
    pieces = [edge for edge in graph.edges if _is_piece(edge, apart) and _name(edge.start) not in barred]
    first = {node: node for node in graph.nodes}
    for piece in pieces:
        kept, gone = sorted((first[piece.start], first[piece.end]), key=graph.nodes.index)
        first = {node: kept if name == gone else name for node, name in first.items()}
    members: dict[str, list[str]] = {}
    for node, name in first.items():
        members.setdefault(name, []).append(node)
    counts: dict[str, int] = {}
    for piece in pieces:
        counts[first[piece.start]] = counts.get(first[piece.start], 0) + 1
    edges = tuple(
        replace(edge, start=first[edge.start], end=first[edge.end])
        for edge in graph.edges
        if edge not in pieces
    )
    every = {name: tuple(nodes) for name, nodes in members.items()}
    return Graph(edges, every, first[graph.gauge], counts)


def _name(node: str) -> str:
    """The name of a numbered node without its number; empty where it has none."""
    found = _NUMBERED.fullmatch(node)
    return found[1] if found else ""


def _is_inside(edge: Edge) -> bool:
    """Whether an element lies between two nodes of one name."""
    return _name(edge.start) == _name(edge.end) != ""


def _is_piece(edge: Edge, apart: Collection[str]) -> bool:
    return edge.symbol is Symbol.PASSAGE and _is_inside(edge) and not is_apart(edge, apart)
