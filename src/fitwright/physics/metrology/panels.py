"""Gauss-Legendre quadrature on panels between given break points."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, Metre

NODES, WEIGHTS = np.polynomial.legendre.leggauss(8)
LEAST_PANELS = 12


def panel_rule(low: Metre, high: Metre, breaks: Sequence[Metre]) -> tuple[FloatArray, FloatArray]:
    """Nodes and weights of a quadrature that is exact for smooth pieces between the breaks.

    Parameters
    ----------
    low : float [m]
        Start of the range.
    high : float [m]
        End of the range.
    breaks : sequence of float [m]
        Where the integrand steps or bends; those outside the range are left out.

    Returns
    -------
    tuple of ndarray [m], shape (J,)
        Nodes in rising order, and weights.

    Raises
    ------
    OutOfDomainError
        If the range is empty.

    Notes
    -----
    Eight nodes on each panel; panels longer than a twelfth of the range are divided.

    References
    ----------
    [abramowitz1964] 25.4.29

    Examples
    --------
    >>> x, w = panel_rule(0.0, 2.0, [1.0])
    >>> round(float(w @ (x > 1.0)), 12)
    1.0
    """
    if not low < high:
        raise OutOfDomainError("range", (low, high), "a range with its end above its start")
    inside = np.array([low, high, *(cut for cut in breaks if low < cut < high)])
    cuts = np.unique(np.concatenate((inside, np.linspace(low, high, LEAST_PANELS + 1))))
    half = 0.5 * np.diff(cuts)
    middle = 0.5 * (cuts[:-1] + cuts[1:])
    x = middle[:, np.newaxis] + half[:, np.newaxis] * NODES
    w = half[:, np.newaxis] * WEIGHTS
    return x.ravel(), w.ravel()
