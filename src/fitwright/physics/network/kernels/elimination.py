"""Sparse elimination by a list of steps found once per circuit; stable without pivoting here.

A flow never falls with its upstream and never rises with its downstream pressure, so that columns of
the matrix are diagonally dominant.
"""

from __future__ import annotations

from fitwright.physics.network.kernels.layout import (
    COLUMN,
    CORNER_DOWNSTREAM,
    CORNER_UPSTREAM,
    ENTRY,
    FIRST_UPDATE,
    LAST_UPDATE,
    ROW,
    SIDE_DOWNSTREAM,
    SIDE_UPSTREAM,
    Layout,
)
from fitwright.physics.network.kernels.options import inner
from fitwright.physics.network.kernels.rows import fill
from fitwright.quantity import FloatArray


@inner
def assemble(layout: Layout, by_upstream: FloatArray, by_downstream: FloatArray, matrix: FloatArray) -> None:
    """Put together the slopes of the flow out of each node by each pressure.

    Parameters
    ----------
    layout : Layout
        The circuit.
    by_upstream, by_downstream : ndarray [m3/(s Pa)], shape (m)
        Slopes of each part's flow.
    matrix : ndarray
        Filled, entry by entry.
    """
    fill(matrix, 0.0)
    for part in range(layout.parts.shape[0]):
        up, down = layout.parts[part, CORNER_UPSTREAM], layout.parts[part, CORNER_DOWNSTREAM]
        if up >= 0:
            matrix[up] += by_upstream[part]
        if down >= 0:
            matrix[down] -= by_downstream[part]
        if up >= 0 and down >= 0:
            matrix[layout.parts[part, SIDE_UPSTREAM]] += by_downstream[part]
            matrix[layout.parts[part, SIDE_DOWNSTREAM]] -= by_upstream[part]


@inner
def factor(layout: Layout, matrix: FloatArray) -> bool:
    """Factorize the matrix in place.

    Parameters
    ----------
    layout : Layout
        The circuit.
    matrix : ndarray
        Entries, replaced by those of the factors.

    Returns
    -------
    bool
        False where a pivot is not above zero.

    References
    ----------
    [george1981] sparse elimination in a fixed order
    """
    lower, updates = layout.lower, layout.updates
    for step in range(lower.shape[0]):
        entry = lower[step, ENTRY]
        pivot = matrix[layout.diagonal[lower[step, COLUMN]]]
        if not pivot > 0.0:
            return False
        multiple = matrix[entry] / pivot
        matrix[entry] = multiple
        for update in range(lower[step, FIRST_UPDATE], lower[step, LAST_UPDATE]):
            matrix[updates[update, 0]] -= multiple * matrix[updates[update, 1]]
    regular = True
    for node in range(layout.diagonal.size):
        regular = regular and matrix[layout.diagonal[node]] > 0.0
    return regular


@inner
def solve_factored(layout: Layout, matrix: FloatArray, right: FloatArray) -> None:
    """Replace a right-hand side by its solution.

    Parameters
    ----------
    layout : Layout
        The circuit.
    matrix : ndarray
        Factors, from `factor`.
    right : ndarray, shape (n)
        Right-hand side, replaced.
    """
    lower = layout.lower
    for step in range(lower.shape[0]):
        right[lower[step, ROW]] -= matrix[lower[step, ENTRY]] * right[lower[step, COLUMN]]
    for node in range(right.size - 1, -1, -1):
        value = right[node]
        for at in range(layout.upper_start[node], layout.upper_start[node + 1]):
            value -= matrix[layout.uppers[at, 0]] * right[layout.uppers[at, 1]]
        right[node] = value / matrix[layout.diagonal[node]]
