"""Rows of numbers filled, copied and added by plain loops: they compile many times faster than array text."""

from __future__ import annotations

import math

from fitwright.physics.network.kernels.options import inner
from fitwright.quantity import FloatArray


@inner
def fill(row: FloatArray, value: float) -> None:
    """Write one number everywhere.

    Parameters
    ----------
    row : ndarray, shape (n)
        Filled.
    value : float
        The number.
    """
    for at in range(row.size):
        row[at] = value


@inner
def copy(row: FloatArray, source: FloatArray) -> None:
    """Copy a row.

    Parameters
    ----------
    row : ndarray, shape (n)
        Filled.
    source : ndarray, shape (n)
        What it is filled with.
    """
    for at in range(row.size):
        row[at] = source[at]


@inner
def add(row: FloatArray, times: float, other: FloatArray) -> None:
    """Add a multiple of another row.

    Parameters
    ----------
    row : ndarray, shape (n)
        Changed.
    times : float
        How often the other is added.
    other : ndarray, shape (n)
        What is added.
    """
    for at in range(row.size):
        row[at] += times * other[at]


@inner
def known(row: FloatArray) -> bool:
    """Whether a row is a solution: where one was not found all of it is NaN.

    Parameters
    ----------
    row : ndarray, shape (n)
        Pressures.

    Returns
    -------
    bool
        False for NaN.

    References
    ----------
    [kelley2003] failure is to be told
    """
    return not math.isnan(row[0])
