"""Points that fill the unit cube evenly, the same in every run, and as many as are wanted."""

from __future__ import annotations

import numpy as np

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray


def even_points(dimensions: int, *, first: int, count: int) -> FloatArray:
    r"""Give a run of an additive recurrence whose steps are powers of a generalised golden ratio.

    Parameters
    ----------
    dimensions : int [1]
        Dimensions of the cube, at least one.
    first : int [1]
        Index of the first point; runs that follow on continue one sequence.
    count : int [1]
        Number of points.

    Returns
    -------
    ndarray [1], shape (count, dimensions)
        Points of the half-open unit cube.

    Raises
    ------
    OutOfDomainError
        If there is no dimension.

    Notes
    -----
    .. math:: x_{ij} = \{\tfrac12 + i \varphi_d^{-j}\}, \quad \varphi_d^{d+1} = \varphi_d + 1

    References
    ----------
    [roberts2018]; [niederreiter1992] chapter 3, additive recurrences

    Examples
    --------
    >>> even_points(1, first=1, count=3).round(3).ravel().tolist()
    [0.118, 0.736, 0.354]
    """
    if dimensions < 1:
        raise OutOfDomainError("dimensions", dimensions, "at least one")
    ratio = 2.0
    for _ in range(60):  # a contraction: every step gains a digit or more, so 60 reach the last bit
        ratio = (1.0 + ratio) ** (1.0 / (dimensions + 1.0))
    steps = ratio ** -np.arange(1.0, dimensions + 1.0)
    index = np.arange(first, first + count, dtype=float)
    return np.asarray(np.mod(0.5 + np.outer(index, steps), 1.0))
