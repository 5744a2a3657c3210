"""Sums of opposite gaps round a shaft: a check on the readings that needs no model of the offset."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from fitwright.quantity import FloatArray, Metre, Metres, Radian, Radians, SquareMetres


@dataclass(frozen=True, slots=True)
class DiametralSum:
    """Two opposite gaps added; every such sum is twice the mean gap, whatever the offset.

    Attributes
    ----------
    station_angle : float [rad]
        Angle of the first of the two stations.
    shaft_angle : float [rad]
        Shaft angle at which both were read.
    gap_sum : float [m]
        Sum of the two gaps.
    """

    station_angle: Radian
    shaft_angle: Radian
    gap_sum: Metre


@dataclass(frozen=True, slots=True)
class Closure:
    """Whether sums of opposite gaps agree; if not, a bore is out of round or a reading is wrong.

    Attributes
    ----------
    sums : tuple of DiametralSum
        Every pair of opposite stations.
    largest_difference : float [m]
        Largest sum less smallest sum.
    standard_uncertainty : float [m]
        Of that difference.
    allowed_difference : float [m]
        What it was held against.
    """

    sums: tuple[DiametralSum, ...]
    largest_difference: Metre
    standard_uncertainty: Metre
    allowed_difference: Metre

    @property
    def agrees(self) -> bool:
        """Whether the largest difference stays within the allowed difference."""
        return self.largest_difference <= self.allowed_difference


def closure_of_gaps(
    gaps: Metres,
    *,
    station_angles: Radians,
    shaft_angles: Radians,
    covariance: SquareMetres,
    allowed_difference: Metre | None = None,
) -> Closure | None:
    r"""Compare sums of opposite gaps, which must all be twice the mean gap.

    Parameters
    ----------
    gaps : array_like [m], shape (n)
        Radial gaps as read.
    station_angles : array_like [rad], shape (n)
        Where round the shaft each gap was read.
    shaft_angles : array_like [rad], broadcastable to (n)
        Shaft angle at each reading.
    covariance : array_like [m2], shape (n, n)
        Covariance of the readings.
    allowed_difference : float [m] or None
        Largest difference that counts as agreement; None takes two standard uncertainties.

    Returns
    -------
    Closure or None
        None where fewer than two pairs of opposite stations were read.

    Notes
    -----
    .. math:: g(\theta) + g(\theta + \pi) = 2 g_0

    References
    ----------
    [muralikrishnan2009] opposite radii of an offset circle

    Examples
    --------
    >>> check = closure_of_gaps(
    ...     [0.07e-3, 0.15e-3, 0.30e-3, 0.21e-3], station_angles=np.radians([0.0, 90.0, 180.0, 270.0]),
    ...     shaft_angles=0.0, covariance=np.eye(4) * 25e-12, allowed_difference=0.02e-3,
    ... )
    >>> round(check.largest_difference * 1e3, 3), check.agrees
    (0.01, True)
    """
    g = np.asarray(gaps, dtype=float)
    theta = np.asarray(station_angles, dtype=float)
    phi = np.broadcast_to(np.asarray(shaft_angles, dtype=float), theta.shape)
    pairs = _opposite_pairs(theta, phi)
    if len(pairs) < 2:
        return None
    totals = [float(g[i] + g[j]) for i, j in pairs]
    order = sorted(range(len(pairs)), key=totals.__getitem__)
    smallest, largest = pairs[order[0]], pairs[order[-1]]
    weights = np.zeros(g.size)
    weights[list(largest)] += 1.0
    weights[list(smallest)] -= 1.0
    uncertainty = math.sqrt(float(weights @ np.asarray(covariance, dtype=float) @ weights))
    return Closure(
        sums=tuple(
            DiametralSum(float(theta[i]), float(phi[i]), total)
            for (i, _), total in zip(pairs, totals, strict=True)
        ),
        largest_difference=totals[order[-1]] - totals[order[0]],
        standard_uncertainty=uncertainty,
        allowed_difference=2.0 * uncertainty if allowed_difference is None else allowed_difference,
    )


def _opposite_pairs(theta: FloatArray, phi: FloatArray) -> list[tuple[int, int]]:
    """Pairs of readings half a turn apart at one shaft angle, each reading used once, in order."""
    pairs: list[tuple[int, int]] = []
    taken: set[int] = set()
    for i in range(theta.size):
        for j in range(i + 1, theta.size):
            opposite = math.cos(theta[i] - theta[j]) < -1.0 + 1e-9
            together = math.cos(phi[i] - phi[j]) > 1.0 - 1e-9
            if opposite and together and not {i, j} & taken:
                pairs.append((i, j))
                taken |= {i, j}
    return pairs
