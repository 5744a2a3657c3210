"""Sparse elimination by a list of steps found once per circuit; stable without pivoting here.

A flow never falls with its upstream and never rises with its downstream pressure, so that columns of
the matrix are diagonally dominant.
"""

from __future__ import annotations

from numba import njit

from fitwright.physics.network.kernels.layout import Layout
from fitwright.quantity import FloatArray


@njit(cache=True, nogil=True, error_model="numpy")
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
    matrix[:] = 0.0
    for part in range(layout.kind.size):
        up, down = layout.corner_upstream[part], layout.corner_downstream[part]
        if up >= 0:
            matrix[up] += by_upstream[part]
        if down >= 0:
            matrix[down] -= by_downstream[part]
        if up >= 0 and down >= 0:
            matrix[layout.side_upstream[part]] += by_downstream[part]
            matrix[layout.side_downstream[part]] -= by_upstream[part]


@njit(cache=True, nogil=True, error_model="numpy")
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
    lower, start = layout.lower, layout.update_start
    for step in range(lower.size):
        pivot = matrix[layout.diagonal[layout.lower_column[step]]]
        if not pivot > 0.0:
            return False
        multiple = matrix[lower[step]] / pivot
        matrix[lower[step]] = multiple
        for update in range(start[step], start[step + 1]):
            matrix[layout.update_target[update]] -= multiple * matrix[layout.update_source[update]]
    regular = True
    for node in range(layout.diagonal.size):
        regular = regular and matrix[layout.diagonal[node]] > 0.0
    return regular


@njit(cache=True, nogil=True, error_model="numpy")
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
    for step in range(layout.lower.size):
        right[layout.lower_row[step]] -= matrix[layout.lower[step]] * right[layout.lower_column[step]]
    for node in range(right.size - 1, -1, -1):
        value = right[node]
        for at in range(layout.upper_start[node], layout.upper_start[node + 1]):
            value -= matrix[layout.upper[at]] * right[layout.upper_column[at]]
        right[node] = value / matrix[layout.diagonal[node]]
