"""Mobility maps: how fast a journal moves under its load, wherever it is in the clearance.

With the load turned to the axis xi and eta a quarter turn ahead of it, the eccentricity ratio moves at

    F (c/R)^2 / (mu L D) * (M_xi, M_eta)

seen from a frame that turns with the mean speed of journal and bearing. Between the nodes of a map, regular
functions are interpolated: M_xi (L/D)^2 / (1 - xi)^(5/2), M_eta (L/D)^2 / (eta (1 - xi)^(3/2)) and
(P/pmax) / (1 - xi)^(1/2), which are constants in the published fit of the short bearing.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, Number, Numbers

ROWS, COLUMNS = 91, 73
LARGEST_DEPTH: Number = 9.0
"""-ln(1 - e) at the last row: a film of 1.2e-4 of the clearance."""


@dataclass(frozen=True, slots=True, eq=False)
class MobilityMap:
    """Mobility of a bearing at one length ratio.

    Attributes
    ----------
    length_ratio : float [1]
        Length of the film over the diameter.
    planes : array (n, m, 3) [1]
        Regular functions for the kernels, with a border.
    largest_depth : float [1]
        -ln(1 - e) at the last row but the border.
    source : str
        Where the map comes from.
    """

    length_ratio: Number
    planes: FloatArray
    largest_depth: Number
    source: str


def short_bearing_mobility(
    xi: Numbers, eta: Numbers, *, length_ratio: Number
) -> tuple[FloatArray, FloatArray]:
    r"""Mobility of the short bearing, exact.

    Parameters
    ----------
    xi : array_like [1]
        Eccentricity ratio along the load.
    eta : array_like [1]
        Eccentricity ratio across it, a quarter turn ahead of the load.
    length_ratio : float [1]
        Length over diameter.

    Returns
    -------
    tuple of two arrays [1]
        Mobility along and across the load.

    Raises
    ------
    OutOfDomainError
        If the journal lies on or outside the clearance circle, or the length ratio is not positive.

    Notes
    -----
    Pressure over the half turn about the squeeze; the direction of the squeeze that answers a load is found
    by bisection on closed integrals.

    References
    ----------
    [booker1965] mobility of the short bearing

    Examples
    --------
    >>> along, across = short_bearing_mobility(0.3, 0.3, length_ratio=1.0)
    >>> round(float(along), 6), round(float(across), 6)
    (0.130778, -0.072554)
    """
    from fitwright.physics.bearings.kernels.mobility import short_mobility

    x, y = _inside(xi, eta)
    if not length_ratio > 0.0:
        raise OutOfDomainError("length_ratio", length_ratio, "positive")
    found = np.array(
        [
            short_mobility(math.hypot(a, b), math.atan2(abs(b), a))[:2]
            for a, b in zip(x.ravel(), y.ravel(), strict=True)
        ]
    ).reshape(*x.shape, 2)
    return found[..., 0] / length_ratio**2, -np.sign(y) * found[..., 1] / length_ratio**2


def booker_mobility(xi: Numbers, eta: Numbers, *, length_ratio: Number) -> tuple[FloatArray, FloatArray]:
    r"""Mobility of the short bearing by the published fit.

    Parameters
    ----------
    xi : array_like [1]
        Eccentricity ratio along the load.
    eta : array_like [1]
        Eccentricity ratio across it, a quarter turn ahead of the load.
    length_ratio : float [1]
        Length over diameter.

    Returns
    -------
    tuple of two arrays [1]
        Mobility along and across the load.

    Raises
    ------
    OutOfDomainError
        If the journal lies on or outside the clearance circle.

    Notes
    -----
    .. math:: M_\xi = \frac{(1-\xi)^{5/2}}{\pi (L/D)^2}, \quad
              M_\eta = -\frac{4 \eta (1-\xi)^{3/2}}{\pi^2 (L/D)^2}

    Within some 10 % of the exact one.

    References
    ----------
    [booker1971] curve fit of the short-bearing mobility

    Examples
    --------
    >>> along, across = booker_mobility(0.3, 0.3, length_ratio=1.0)
    >>> round(float(along), 6), round(float(across), 6)
    (0.130495, -0.071208)
    """
    x, y = _inside(xi, eta)
    along: FloatArray = (1.0 - x) ** 2.5 / (math.pi * length_ratio**2)
    across: FloatArray = -4.0 * y * (1.0 - x) ** 1.5 / (math.pi * length_ratio) ** 2
    return along, across


def mobility_map(
    length_ratio: Number,
    mobility: Callable[[float, float], tuple[float, float, float]],
    *,
    source: str,
) -> MobilityMap:
    """Map of a bearing from its mobility at single places.

    Parameters
    ----------
    length_ratio : float [1]
        Length over diameter.
    mobility : callable
        Takes eccentricity ratio and the angle from the eccentricity to the load [rad]; gives the mobility
        along and across the load and P / pmax.
    source : str
        Where these come from.

    Returns
    -------
    MobilityMap
        For the orbit.

    References
    ----------
    [booker1965] mobility maps

    Examples
    --------
    >>> flat = mobility_map(1.0, lambda e, angle: (0.3, 0.0, 0.5), source="nothing moves across")
    >>> flat.planes.shape
    (93, 75, 3)
    """
    depths = np.linspace(0.0, LARGEST_DEPTH, ROWS)
    # Close together near the load, where a thin film changes within an angle of sqrt(1 - e).
    angles = math.pi * (1.0 - np.cos(np.linspace(0.0, 0.5 * math.pi, COLUMNS)))
    planes = np.empty((ROWS, COLUMNS, 3))
    for i, depth in enumerate(depths):
        e = max(-math.expm1(-depth), 1e-6)
        for j, angle in enumerate(angles):
            # On the axis of the load nothing moves across; its slope there is that of a place close by.
            beside = min(max(float(angle), 1e-5), math.pi - 1e-5)
            xi, eta = e * math.cos(beside), -e * math.sin(beside)
            along, across, pressure = mobility(e, beside)
            planes[i, j, 0] = along * length_ratio**2 / (1.0 - xi) ** 2.5
            planes[i, j, 1] = across * length_ratio**2 / (eta * (1.0 - xi) ** 1.5)
            planes[i, j, 2] = pressure / math.sqrt(1.0 - xi)
    return MobilityMap(length_ratio, bordered_planes(planes), LARGEST_DEPTH, source)


def short_bearing_map(length_ratio: Number) -> MobilityMap:
    """Map of the exact short bearing.

    Parameters
    ----------
    length_ratio : float [1]
        Length over diameter.

    Returns
    -------
    MobilityMap
        For the orbit.

    Raises
    ------
    OutOfDomainError
        If the length ratio is not positive.

    References
    ----------
    [booker1965] mobility of the short bearing

    Examples
    --------
    >>> short_bearing_map(0.4).length_ratio
    0.4
    """
    if not length_ratio > 0.0:
        raise OutOfDomainError("length_ratio", length_ratio, "positive")
    unit = _short_bearing_map_of_one()
    return MobilityMap(length_ratio, unit.planes, unit.largest_depth, unit.source)


@lru_cache(maxsize=1)
def _short_bearing_map_of_one() -> MobilityMap:
    from fitwright.physics.bearings.kernels.mobility import short_mobility

    return mobility_map(1.0, short_mobility, source="short bearing, exact")


def bordered_planes(planes: FloatArray) -> FloatArray:
    """Planes of a map with a row and a column more on every side: mirrored in angle, parabolas in depth.

    Parameters
    ----------
    planes : array (n, m, 3) [1]
        Regular functions over depth and angle.

    Returns
    -------
    array (n + 2, m + 2, 3) [1]
        What `MobilityMap` holds.

    References
    ----------
    [keys1981] the border of cubic convolution

    Examples
    --------
    >>> bordered_planes(np.ones((5, 4, 3))).shape
    (7, 6, 3)
    """
    first = 3.0 * (planes[0] - planes[1]) + planes[2]
    last = 3.0 * (planes[-1] - planes[-2]) + planes[-3]
    tall = np.concatenate([first[None], planes, last[None]])
    wide: FloatArray = np.concatenate([tall[:, 1:2], tall, tall[:, -2:-1]], axis=1)
    return np.ascontiguousarray(wide)


def _inside(xi: Numbers, eta: Numbers) -> tuple[FloatArray, FloatArray]:
    x, y = np.broadcast_arrays(np.asarray(xi, dtype=np.float64), np.asarray(eta, dtype=np.float64))
    if not (np.hypot(x, y) < 1.0).all():
        raise OutOfDomainError("eccentricity ratio", np.hypot(x, y), "below one")
    return x, y
