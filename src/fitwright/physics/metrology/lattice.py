"""A lattice rule: points that fill the unit cube evenly, the same in every run."""

from __future__ import annotations

from functools import cache

import numpy as np

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray

POINTS = 16384
# fmt: off
PRIMES = (
    2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71, 73, 79, 83, 89, 97, 101,
    103, 107, 109, 113, 127, 131, 137, 139, 149, 151, 157, 163, 167, 173, 179, 181, 191, 193, 197, 199,
    211, 223, 227, 229, 233, 239, 241, 251, 257, 263, 269, 271, 277, 281, 283, 293, 307, 311,
)
# fmt: on


@cache
def lattice_points(dimensions: int) -> FloatArray:
    r"""Points of the unit cube, the fractional parts of multiples of square roots of primes.

    Parameters
    ----------
    dimensions : int [1]
        Dimensions of the cube, at most 64.

    Returns
    -------
    ndarray [1], shape (16384, dimensions)
        Points strictly inside the cube; read only.

    Raises
    ------
    OutOfDomainError
        If there are more dimensions than primes at hand.

    Notes
    -----
    .. math:: u_{ij} = \left|2\,\{i \sqrt{p_j} + \tfrac12\} - 1\right|

    The folding makes the integrand continue periodically, which the rule integrates best.

    References
    ----------
    [richtmyer1951]; [genz2009] 4.2

    Examples
    --------
    >>> round(float(lattice_points(3).mean()), 3)
    0.5
    """
    if not 0 < dimensions <= len(PRIMES):
        raise OutOfDomainError("dimensions of the lattice", dimensions, f"1 to {len(PRIMES)}")
    steps = np.sqrt(np.array(PRIMES[:dimensions], dtype=np.float64))
    index = np.arange(1, POINTS + 1, dtype=np.float64)
    points = np.abs(2.0 * np.mod(np.outer(index, steps) + 0.5, 1.0) - 1.0)
    points = np.clip(points, 0.5 / POINTS**2, 1.0 - 0.5 / POINTS**2)
    points.setflags(write=False)
    return points
