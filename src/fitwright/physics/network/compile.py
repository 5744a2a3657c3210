"""A circuit as flat arrays, once: parts, links from parameters to sizes, steps of the elimination."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from fitwright.physics.bearings.curves import curve_coefficients
from fitwright.physics.network.circuit import SUMP, Circuit, Path
from fitwright.physics.network.elements.element import Element
from fitwright.physics.network.elements.pump import Pump
from fitwright.physics.network.ordering import Elimination, IntArray, elimination
from fitwright.physics.network.sizes import Named, value_of
from fitwright.quantity import FloatArray

if TYPE_CHECKING:
    from fitwright.physics.network.kernels.layout import Layout

CURVE_COLUMNS = 14


@dataclass(frozen=True, slots=True)
class Part:
    """A piece of a path between two nodes, one of which may lie inside the path."""

    path: int
    element: Element
    upstream: str
    downstream: str


@dataclass(frozen=True, slots=True, eq=False)
class CompiledCircuit:
    """A circuit ready to be solved.

    Attributes
    ----------
    circuit : Circuit
        What was compiled.
    layout : Layout
        Arrays for the kernels.
    node_places : array (nodes,)
        Where each node of the circuit stands in the order of elimination.
    path_parts : array (paths,)
        First part of each path.
    """

    circuit: Circuit
    layout: Layout
    node_places: IntArray
    path_parts: IntArray


def compile_circuit(circuit: Circuit) -> CompiledCircuit:
    """Find the order of elimination and lay out all sizes; done once per circuit.

    Parameters
    ----------
    circuit : Circuit
        A checked circuit.

    Returns
    -------
    CompiledCircuit
        For `solve`.

    Notes
    -----
    Nodes with the fewest neighbours are eliminated first; a circuit is almost a tree, so that next to
    nothing is filled in.

    References
    ----------
    [george1981] minimum degree ordering, symbolic factorization

    Examples
    --------
    >>> from fitwright.physics.network.circuit import Circuit, Path, SUMP
    >>> from fitwright.physics.network.elements import Orifice, Pump
    >>> paths = (Path("pump", SUMP, "gallery", Pump(1.6e-6)),
    ...          Path("jet", "gallery", SUMP, Orifice(2e-3)))
    >>> compile_circuit(Circuit(paths)).node_places.tolist()
    [0]
    """
    from fitwright.physics.network.kernels.laws import flow_through
    from fitwright.physics.network.kernels.layout import Layout

    parts = tuple(_parts(circuit))
    names = tuple(dict.fromkeys([*circuit.nodes, *_inner_nodes(parts)]))
    number = {name: at for at, name in enumerate(names)}
    joined = [
        (number[part.upstream], number[part.downstream])
        for part in parts
        if SUMP not in (part.upstream, part.downstream)
    ]
    steps = elimination(len(names), joined)
    places = {names[node]: at for at, node in enumerate(steps.order)}
    upstream = _integers(places.get(part.upstream, -1) for part in parts)
    downstream = _integers(places.get(part.downstream, -1) for part in parts)
    first, sizes = _sizes(circuit, parts)
    links = _links(circuit, parts)
    curve_start, curve_stop, curves = _curves(parts)
    kinds = _integers(part.element.KIND for part in parts)
    layout = Layout(
        parts=np.column_stack(
            [
                kinds,
                upstream,
                downstream,
                first,
                curve_start,
                curve_stop,
                _entries(steps, upstream, upstream),
                _entries(steps, downstream, downstream),
                _entries(steps, upstream, downstream),
                _entries(steps, downstream, upstream),
            ]
        ),
        sizes=sizes,
        link_start=links.start,
        links=np.column_stack([links.part, links.size]),
        link_values=np.column_stack([links.factor, links.offset]),
        curves=curves,
        entries=len(steps.entries),
        diagonal=steps.diagonal,
        lower=np.column_stack(
            [
                steps.lower,
                steps.lower_row,
                steps.lower_column,
                steps.update_start[:-1],
                steps.update_start[1:],
            ]
        ),
        updates=np.column_stack([steps.update_target, steps.update_source]),
        upper_start=steps.upper_start,
        uppers=np.column_stack([steps.upper, steps.upper_column]),
        fed=_fed(parts, places),
        law=flow_through,
    )
    firsts: dict[int, int] = {}
    for at, part in enumerate(parts):
        firsts.setdefault(part.path, at)
    return CompiledCircuit(
        circuit,
        layout,
        _integers(places[node] for node in circuit.nodes),
        _integers(firsts[path] for path in range(len(circuit.paths))),
    )


def _parts(circuit: Circuit) -> Iterator[Part]:
    for at, path in enumerate(circuit.paths):
        pieces = path.element.parts()
        ends = [path.upstream, *_between(path, len(pieces)), path.downstream]
        for piece, up, down in zip(pieces, ends[:-1], ends[1:], strict=True):
            yield Part(at, piece, up, down)


def _between(path: Path, pieces: int) -> Iterator[str]:
    """Names of the nodes inside a path; no node that a person names has a line break."""
    return (f"{path.name}\n{inner}" for inner in range(1, pieces))


def _inner_nodes(parts: tuple[Part, ...]) -> Iterator[str]:
    return (node for part in parts for node in (part.upstream, part.downstream) if node != SUMP)


def _sizes(circuit: Circuit, parts: tuple[Part, ...]) -> tuple[IntArray, FloatArray]:
    """Where the sizes of each part begin, and all sizes."""
    values = [[value_of(size, circuit.parameters) for size in part.element.slots()] for part in parts]
    first = _integers(np.cumsum([0, *(len(each) for each in values)])[:-1])
    return first, np.array([value for each in values for value in each], dtype=np.float64)


@dataclass(frozen=True, slots=True)
class _Links:
    """Links from parameters to sizes, sorted by parameter; `start` is where those of each begin."""

    start: IntArray
    part: IntArray
    size: IntArray
    factor: FloatArray
    offset: FloatArray


def _links(circuit: Circuit, parts: tuple[Part, ...]) -> _Links:
    number = {name: at for at, name in enumerate(circuit.parameter_names)}
    found = sorted(
        (number[size.parameter], at, place, size.factor, size.offset)
        for at, part in enumerate(parts)
        for place, size in enumerate(part.element.slots())
        if isinstance(size, Named)
    )
    own = len(circuit.own_parameters())
    counts = np.bincount(_integers(link[0] for link in found), minlength=own)
    return _Links(
        _integers(np.cumsum([0, *counts])),
        _integers(link[1] for link in found),
        _integers(link[2] for link in found),
        np.array([link[3] for link in found], dtype=np.float64),
        np.array([link[4] for link in found], dtype=np.float64),
    )


def _curves(parts: tuple[Part, ...]) -> tuple[IntArray, IntArray, FloatArray]:
    """First and last row of the curves of each part, and all rows; curves that are shared stand once."""
    tables: dict[int, tuple[int, int]] = {}
    rows, spans, end = [], [], 0
    for part in parts:
        span = (0, 0)
        for curves in part.element.curves():
            if id(curves) not in tables:
                tables[id(curves)] = (end, end + curves.eccentricity_ratio.size)
                rows.append(curve_coefficients(curves))
                end += len(rows[-1])
            span = tables[id(curves)]
        spans.append(span)
    return (
        _integers(span[0] for span in spans),
        _integers(span[1] for span in spans),
        np.concatenate([np.zeros((0, CURVE_COLUMNS)), *rows]),
    )


def _entries(steps: Elimination, rows: IntArray, columns: IntArray) -> IntArray:
    """Where entries of the matrix are stored; -1 for those of the sump."""
    return _integers(
        steps.entries.get((row, column), -1)
        for row, column in zip(rows.tolist(), columns.tolist(), strict=True)
    )


def _fed(parts: tuple[Part, ...], places: dict[str, int]) -> IntArray:
    """Mark what the pumps press: all that hangs together with an outlet but not by way of an inlet."""
    drawn = {part.upstream for part in parts if isinstance(part.element, Pump)} | {SUMP}
    ahead = [part.downstream for part in parts if isinstance(part.element, Pump)]
    fed: set[str] = set()
    while ahead:
        node = ahead.pop()
        if node in fed or node in drawn:
            continue
        fed.add(node)
        ahead += [part.downstream for part in parts if part.upstream == node]
        ahead += [part.upstream for part in parts if part.downstream == node]
    marked = np.zeros(len(places), dtype=np.int64)
    marked[[places[node] for node in fed]] = 1
    return marked


def _integers(values: Iterable[int]) -> IntArray:
    return np.array(list(values), dtype=np.int64)
