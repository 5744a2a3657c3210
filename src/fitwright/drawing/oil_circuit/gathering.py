"""Equal parts of a circuit drawn once: nodes that look alike in both directions become one.

Two nodes are alike when the same kinds of elements lead from them to nodes that are alike, and from such
nodes to them; how many does not matter (a main that feeds two big ends is like one that feeds one). What
is asked for by itself is like nothing else, and so is all that hangs on it alone.
"""

from __future__ import annotations

from collections.abc import Collection, Hashable, Iterable, Sequence
from dataclasses import replace

from fitwright.drawing.oil_circuit.graph import SUMP, Edge, Graph, is_apart


def gathered(graph: Graph, apart: Collection[str] = ()) -> Graph:
    """The graph with what is alike drawn once.

    Parameters
    ----------
    graph
        Every element by itself.
    apart
        Ids, groups or families of elements to be shown one by one.
    """
    looks = _looks(graph, apart)
    first: dict[Hashable, str] = {}
    names = {node: first.setdefault(looks[node], node) for node in graph.nodes}
    members: dict[str, list[str]] = {}
    for node in graph.nodes:
        members.setdefault(names[node], []).append(node)
    together: dict[Hashable, list[Edge]] = {}
    for edge in graph.edges:
        moved = replace(edge, start=names[edge.start], end=names[edge.end])
        together.setdefault((_kind(edge, apart), moved.start, moved.end), []).append(moved)
    edges = tuple(_one(alike) for alike in together.values())
    return Graph(edges, {name: tuple(every) for name, every in members.items()}, names[graph.gauge])


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
    return (edge.symbol, edge.group, edge.family)


def _one(alike: Sequence[Edge]) -> Edge:
    edge = alike[0]
    if len(alike) == 1:
        return edge
    return replace(
        edge,
        title=common_title([each.title for each in alike]) or edge.family or edge.group,
        count=sum(each.count for each in alike),
        members=tuple(member for each in alike for member in each.members),
    )


def common_title(titles: Sequence[str]) -> str:
    """What titles have in common, with the numbers in which they differ.

    >>> common_title(["Main 1 feed", "Main 2 feed", "Main 3 feed"])
    'Main 1 to 3 feed'
    >>> common_title(["Left jet", "Right jet"])
    'Left, Right jet'
    """
    words = [title.split() for title in dict.fromkeys(titles)]
    if len(words) == 1:
        return titles[0]
    before = _common(words)
    rest = [each[before:] for each in words]
    after = min(_common([each[::-1] for each in rest]), *(len(each) for each in rest))
    middles = [" ".join(each[: len(each) - after]) for each in rest]
    tail = rest[0][len(rest[0]) - after :]
    return " ".join(filter(None, (*words[0][:before], _listed(middles), *tail)))


def _common(words: Iterable[Sequence[str]]) -> int:
    """How many words at the front are the same."""
    count = 0
    for each in zip(*words, strict=False):
        if len(set(each)) > 1:
            break
        count += 1
    return count


def _listed(words: Sequence[str]) -> str:
    """`1 to 5`, `1, 3, 4` or `left, right`; nothing where that would be long."""
    if all(word.isdigit() for word in words):
        numbers = sorted(map(int, words))
        if len(numbers) > 2 and numbers == list(range(numbers[0], numbers[-1] + 1)):
            return f"{numbers[0]} to {numbers[-1]}"
        words = [str(each) for each in numbers]
    listed = ", ".join(filter(None, words))
    return listed if len(listed) <= 24 else ""
