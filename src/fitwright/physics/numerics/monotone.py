"""Interpolation in tables that never overshoots between two rows."""

from __future__ import annotations

import numpy as np

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, Numbers


def monotone_interpolation(points: Numbers, nodes: Numbers, values: Numbers) -> FloatArray:
    r"""Smooth interpolation that rises and falls only where the table does.

    Parameters
    ----------
    points : array_like [1], shape (*s)
        Where to read; beyond the ends, the end's value.
    nodes : array_like [1], shape (n)
        Ascending, three or more.
    values : array_like [1], shape (n)
        The table's values.

    Returns
    -------
    ndarray [1], shape (*s)
        Interpolated values.

    Raises
    ------
    OutOfDomainError
        If there are fewer than three nodes or they do not ascend.

    Notes
    -----
    Cubic between nodes. The slope at an inner node is the weighted harmonic mean of the divided differences
    on both sides where they have one sign, and zero where not; at the ends it is that of the outer piece.

    References
    ----------
    [fritsch1984] local monotone piecewise cubic interpolation

    Examples
    --------
    >>> monotone_interpolation([0.5, 1.0, 2.5, 9.0], [0, 1, 2, 3], [0, 1, 1, 2]).tolist()
    [0.625, 1.0, 1.375, 2.0]
    """
    x, y = np.asarray(nodes, dtype=float), np.asarray(values, dtype=float)
    step = np.diff(x)
    if x.size < 3 or not (step > 0.0).all():
        raise OutOfDomainError("nodes", nodes, "three or more, ascending")
    slopes = _slopes(step, np.diff(y) / step)
    at = np.clip(np.asarray(points, dtype=float), x[0], x[-1])
    i = np.clip(np.searchsorted(x, at, side="right") - 1, 0, x.size - 2)
    h, t = step[i], (at - x[i]) / step[i]
    rise = t * t * (3.0 - 2.0 * t)
    bent = h * t * (1.0 - t) * ((1.0 - t) * slopes[i] - t * slopes[i + 1])
    return np.asarray(y[i] + rise * (y[i + 1] - y[i]) + bent)


def _slopes(step: FloatArray, difference: FloatArray) -> FloatArray:
    before, after = difference[:-1], difference[1:]
    first, second = step[:-1] + 2.0 * step[1:], 2.0 * step[:-1] + step[1:]
    alike = before * after > 0.0
    safe = np.where(alike, before, 1.0), np.where(alike, after, 1.0)
    inner = np.where(alike, (first + second) / (first / safe[1] + second / safe[0]), 0.0)
    return np.concatenate([difference[:1], inner, difference[-1:]])
