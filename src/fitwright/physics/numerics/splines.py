"""Slopes that make piecewise cubics smooth."""

from __future__ import annotations

import numpy as np

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray


def spline_slopes(nodes: FloatArray, values: FloatArray) -> FloatArray:
    r"""Slopes at the nodes of the cubic spline through values, not-a-knot at both ends.

    Parameters
    ----------
    nodes : array (n,)
        Ascending, four or more.
    values : array (n, ...)
        One function per trailing element.

    Returns
    -------
    array (n, ...)
        Slope of each function at each node.

    Raises
    ------
    OutOfDomainError
        If there are fewer than four nodes or they do not ascend.

    Notes
    -----
    With the steps h and the divided differences d, at inner nodes

    .. math:: h_i m_{i-1} + 2 (h_{i-1} + h_i) m_i + h_{i-1} m_{i+1} = 3 (h_i d_{i-1} + h_{i-1} d_i)

    and at the ends the third derivative does not jump at the second node.

    References
    ----------
    [deboor2001] cubic spline interpolation, not-a-knot

    Examples
    --------
    >>> nodes = np.array([1.0, 2.0, 4.0, 5.0])
    >>> spline_slopes(nodes, nodes**3).round(9)
    array([ 3., 12., 48., 75.])
    """
    step = np.diff(nodes)
    if nodes.size < 4 or not (step > 0.0).all():
        raise OutOfDomainError("nodes", nodes, "four or more, ascending")
    difference = np.diff(values, axis=0) / step.reshape(-1, *[1] * (values.ndim - 1))
    matrix, right = np.zeros((nodes.size, nodes.size)), np.empty_like(values)
    for i in range(1, nodes.size - 1):
        matrix[i, i - 1 : i + 2] = step[i], 2.0 * (step[i - 1] + step[i]), step[i - 1]
        right[i] = 3.0 * (step[i] * difference[i - 1] + step[i - 1] * difference[i])
    matrix[0, :2], right[0] = _end(step[0], step[1], difference[0], difference[1])
    matrix[-1, :-3:-1], right[-1] = _end(step[-1], step[-2], difference[-1], difference[-2])
    slopes = np.linalg.solve(matrix, right.reshape(nodes.size, -1))
    return np.asarray(slopes, dtype=np.float64).reshape(values.shape)


def _end(
    first: float, second: float, first_difference: FloatArray, second_difference: FloatArray
) -> tuple[tuple[float, float], FloatArray]:
    """Weights of the two outermost slopes, and the right side."""
    both = first + second
    right = (first + 2.0 * both) * second * first_difference + first**2 * second_difference
    return (second, both), right / both
