"""In which order to eliminate the nodes, and the steps of that elimination, found once per circuit."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

IntArray = NDArray[np.int64]


@dataclass(frozen=True, slots=True, eq=False)
class Elimination:
    """A sparse factorization without pivoting, as lists of what is done to stored entries.

    Attributes
    ----------
    order : tuple of int
        Node that is eliminated first, second, ...
    entries : dict of (row, column) to int
        Where an entry of the matrix is stored; rows and columns count in the order of elimination.
    diagonal : array (n,)
        Where the pivots are stored.
    lower, lower_row, lower_column : array (m,)
        Entries below the diagonal in the order of their elimination.
    update_start : array (m + 1,)
        First update of each of them, and the number of updates.
    update_target, update_source : array (u,)
        Entry from which the multiple of another is taken.
    upper_start, upper, upper_column : array (n + 1,), (v,), (v,)
        Entries right of the diagonal, row by row.
    """

    order: tuple[int, ...]
    entries: dict[tuple[int, int], int]
    diagonal: IntArray
    lower: IntArray
    lower_row: IntArray
    lower_column: IntArray
    update_start: IntArray
    update_target: IntArray
    update_source: IntArray
    upper_start: IntArray
    upper: IntArray
    upper_column: IntArray


def least_degree_order(size: int, links: Iterable[tuple[int, int]]) -> tuple[tuple[int, ...], list[set[int]]]:
    """Eliminate the node with the fewest neighbours again and again.

    Parameters
    ----------
    size : int
        Number of nodes.
    links : iterable of (int, int)
        Nodes that are joined.

    Returns
    -------
    tuple
        The order, and for each node in that order the nodes left that it is joined to.

    References
    ----------
    [george1981] minimum degree ordering

    Examples
    --------
    >>> least_degree_order(4, [(0, 1), (0, 2), (0, 3)])[0]
    (1, 2, 0, 3)
    """
    beside: list[set[int]] = [set() for _ in range(size)]
    for one, other in links:
        beside[one].add(other)
        beside[other].add(one)
    left, order, fronts = set(range(size)), [], []
    while left:
        node = min(left, key=lambda each: (len(beside[each]), each))
        front = beside[node]
        for each in front:
            beside[each] |= front
            beside[each] -= {each, node}
        order.append(node)
        fronts.append(set(front))
        left.remove(node)
    return tuple(order), fronts


def elimination(size: int, links: Iterable[tuple[int, int]]) -> Elimination:
    """Steps for a matrix with entries on its diagonal and on both sides of it for each link.

    Parameters
    ----------
    size : int
        Number of nodes.
    links : iterable of (int, int)
        Nodes that are joined.

    Returns
    -------
    Elimination
        Order, storage and steps.

    References
    ----------
    [george1981] symbolic factorization

    Examples
    --------
    A star fills nothing in: three links, three entries below the diagonal.

    >>> steps = elimination(4, [(0, 1), (0, 2), (0, 3)])
    >>> steps.lower.size, steps.update_target.size
    (3, 3)
    """
    order, fronts = least_degree_order(size, links)
    place = {node: at for at, node in enumerate(order)}
    rows = [sorted(place[node] for node in front) for front in fronts]
    entries = {(at, at): at for at in range(size)}
    for at, row in enumerate(rows):
        for other in row:
            entries[at, other] = len(entries)
            entries[other, at] = len(entries)
    lower, updates = _steps(rows, entries)
    starts = np.cumsum([0, *(len(each) for each in updates)])
    flat = [update for each in updates for update in each]
    return Elimination(
        order=order,
        entries=entries,
        diagonal=_integers(range(size)),
        lower=_integers(entries[row, column] for row, column in lower),
        lower_row=_integers(row for row, _ in lower),
        lower_column=_integers(column for _, column in lower),
        update_start=_integers(starts),
        update_target=_integers(target for target, _ in flat),
        update_source=_integers(source for _, source in flat),
        upper_start=_integers(np.cumsum([0, *(len(row) for row in rows)])),
        upper=_integers(entries[at, other] for at, row in enumerate(rows) for other in row),
        upper_column=_integers(other for row in rows for other in row),
    )


def _steps(
    rows: Sequence[Sequence[int]], entries: dict[tuple[int, int], int]
) -> tuple[list[tuple[int, int]], list[list[tuple[int, int]]]]:
    """Entries below the diagonal in order, and for each the updates of its row."""
    lower, updates = [], []
    for pivot, row in enumerate(rows):
        for below in row:
            lower.append((below, pivot))
            updates.append([(entries[below, right], entries[pivot, right]) for right in row])
    return lower, updates


def _integers(values: Iterable[int]) -> IntArray:
    return np.fromiter(values, dtype=np.int64)
