"""Chance that an offset lies within its limit: a two-dimensional normal distribution over a disc."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from scipy import special

from fitwright.physics.fits.centring import Centring, Vector
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, Metre, Probability, Radian, SquareMetres

_REACH = 9.0
"""Standard deviations beyond which the normal distribution is left out (2e-19)."""

_PANELS, _NODES = 24, 16


@dataclass(frozen=True, slots=True)
class OffsetChance:
    """Chance that an offset is within its limit, at rest and at the worst shaft angle.

    Attributes
    ----------
    probability : float [1]
        For the housing's offset from the axis that the shaft turns about.
    worst_probability : float [1]
        Least over shaft angles, with the shaft's run-out added; equal to `probability` where run-out is
        not identified.
    worst_shaft_angle : float [rad]
        Where that happens.
    worst_offset : Vector
        Apparent offset there.
    """

    probability: Probability
    worst_probability: Probability
    worst_shaft_angle: Radian
    worst_offset: Vector


def probability_within_radius(offset: Vector, covariance: SquareMetres, radius: Metre) -> Probability:
    r"""Probability that a normally distributed offset lies in a disc about zero.

    Parameters
    ----------
    offset : Vector
        Best estimate of the offset.
    covariance : array_like [m2], shape (2, 2)
        Covariance of the offset, right and up.
    radius : float [m]
        Limit on the magnitude of the offset.

    Returns
    -------
    float [1]
        Probability.

    Raises
    ------
    OutOfDomainError
        If the radius is negative or the covariance is not a covariance.

    Notes
    -----
    In the principal axes of the covariance, with the narrow axis outside:

    .. math:: p = \int_{-L}^{L} \frac{1}{s_1}\varphi\!\left(\frac{x-m_1}{s_1}\right)
              \left[\Phi\!\left(\frac{h(x)-m_2}{s_2}\right)
              -\Phi\!\left(\frac{-h(x)-m_2}{s_2}\right)\right] dx, \quad h(x) = \sqrt{L^2-x^2}

    with x = L sin t, by composite Gauss-Legendre; where both axes are alike it equals the non-central chi
    square distribution. No random numbers, so equal inputs give equal digits.

    References
    ----------
    [jcgm106_2012] 7, conformance probability; [abramowitz1964] 26.3, normal distribution over a circle

    Examples
    --------
    >>> p = probability_within_radius(Vector(0.0, 0.03e-3), [[1e-10, 0.0], [0.0, 1e-10]], 0.05e-3)
    >>> round(p, 4)
    0.9693
    """
    v = np.asarray(covariance, dtype=float)
    if v.shape != (2, 2) or not np.isfinite(v).all() or np.abs(v - v.T).max() > 1e-9 * np.abs(v).max():
        raise OutOfDomainError("covariance", v.tolist(), "a symmetric matrix of 2 by 2")
    if not radius >= 0.0:
        raise OutOfDomainError("radius", radius, "zero or more")
    variances, axes = np.linalg.eigh(v)
    if variances[0] < -1e-12 * max(variances[1], 0.0) or variances[1] < 0.0:
        raise OutOfDomainError("covariance", v.tolist(), "without negative variance")
    mean = axes.T @ np.array([offset.right, offset.up])
    narrow, wide = np.sqrt(np.maximum(variances, 0.0))
    if narrow <= 1e-9 * wide or narrow == 0.0:
        return _probability_on_line(mean, float(wide), radius)
    return _probability_on_disc(mean, float(narrow), float(wide), radius)


def chance_of_offset(
    centring: Centring, limit: Metre, *, shaft_angle_step: Radian = math.pi / 36.0
) -> OffsetChance:
    """Judge a housing offset against a limit, also at the shaft angle where run-out makes it worst.

    Parameters
    ----------
    centring : Centring
        Offset, run-out and covariance.
    limit : float [m]
        Largest magnitude that the offset may have.
    shaft_angle_step : float [rad]
        Step with which the shaft is turned in search of the worst angle.

    Returns
    -------
    OffsetChance
        Probability that the limit holds, and the least of it over a turn of the shaft.

    References
    ----------
    [jcgm106_2012] 7, conformance probability

    Examples
    --------
    >>> from fitwright.physics.fits.centring import centre_from_gaps
    >>> found = centre_from_gaps(
    ...     [0.19e-3, 0.18e-3, 0.17e-3, 0.18e-3], station_angles=np.radians([0, 90, 180, 270]),
    ...     shaft_angles=0.0, covariance=np.eye(4) * 25e-12,
    ... )
    >>> round(chance_of_offset(found, 0.05e-3).probability, 4)
    1.0
    """
    steady = probability_within_radius(centring.offset, centring.offset_covariance, limit)
    if centring.run_out is None:
        return OffsetChance(steady, steady, 0.0, centring.offset)
    worst = OffsetChance(steady, 1.0, 0.0, centring.offset)
    for angle in np.arange(0.0, 2.0 * math.pi, shaft_angle_step):
        seen, covariance = centring.apparent_offset(float(angle))
        chance = probability_within_radius(seen, covariance, limit)
        farther = chance == worst.worst_probability and seen.magnitude > worst.worst_offset.magnitude
        if chance < worst.worst_probability or farther:
            worst = OffsetChance(steady, chance, float(angle), seen)
    return worst


def _probability_on_line(mean: FloatArray, deviation: float, radius: float) -> Probability:
    """Narrow axis without any spread: what remains is one normal variable on a chord, or a point."""
    inside = radius**2 - float(mean[0]) ** 2
    if inside < 0.0:
        return 0.0
    half = math.sqrt(inside)
    if deviation == 0.0:
        return 1.0 if abs(float(mean[1])) <= half else 0.0
    upper, lower = (half - mean[1]) / deviation, (-half - mean[1]) / deviation
    return float(special.ndtr(upper) - special.ndtr(lower))


def _probability_on_disc(mean: FloatArray, narrow: float, wide: float, radius: float) -> Probability:
    low = max(-radius, float(mean[0]) - _REACH * narrow)
    high = min(radius, float(mean[0]) + _REACH * narrow)
    if low >= high:
        return 0.0
    # x = L sin t takes the square root out of the chord's end.
    ends = np.linspace(math.asin(low / radius), math.asin(high / radius), _PANELS + 1)
    node, weight = np.polynomial.legendre.leggauss(_NODES)
    half = 0.5 * np.diff(ends)
    t = (ends[:-1] + half)[:, None] + half[:, None] * node
    x, chord = radius * np.sin(t), radius * np.cos(t)
    density = np.exp(-0.5 * ((x - mean[0]) / narrow) ** 2) / (narrow * math.sqrt(2.0 * math.pi))
    across = special.ndtr((chord - mean[1]) / wide) - special.ndtr((-chord - mean[1]) / wide)
    return float(np.clip(np.sum(half[:, None] * weight * density * across * chord), 0.0, 1.0))
