"""Mobility of a journal bearing: exact for the short bearing, and read from a map for any other."""

from __future__ import annotations

import math

from numba import njit

from fitwright.quantity import FloatArray, Number, Radian

# Planes of a map, in this order; each is divided by what it grows or falls with (see `mobility_at`).
ALONG, ACROSS, PRESSURE = 0, 1, 2


@njit(cache=True, nogil=True, error_model="numpy")
def short_mobility(eccentricity_ratio: Number, load_angle: Radian) -> tuple[Number, Number, Number]:
    """Mobility of the short bearing, times the length ratio squared, and P / pmax.

    Parameters
    ----------
    eccentricity_ratio : float [1]
        From zero, below one.
    load_angle : float [rad]
        From the eccentricity to the load, between zero and pi.

    Returns
    -------
    tuple of 3 [1]
        Mobility along the load and across it (a quarter turn ahead of the load), times (L/D)^2; specific
        load over peak pressure.

    References
    ----------
    [booker1965] mobility of the short bearing with pressure over half of the circumference
    """
    e = eccentricity_ratio
    low, high = 0.0, math.pi
    c, s = math.cos(load_angle), math.sin(load_angle)
    for _ in range(80):
        direction = 0.5 * (low + high)
        force_r, force_t = _squeeze_force(e, direction)
        if force_t * c - force_r * s > 0.0:  # the force has turned past the load
            high = direction
        else:
            low = direction
    direction = 0.5 * (low + high)
    force_r, force_t = _squeeze_force(e, direction)
    size = 0.5 / math.hypot(force_r, force_t)
    along_r, along_t = size * math.cos(direction), size * math.sin(direction)
    peak = 6.0 * size * _largest_pressure(e, direction)
    return along_r * c + along_t * s, along_t * c - along_r * s, 1.0 / peak


@njit(cache=True, nogil=True, error_model="numpy")
def mobility_at(
    planes: FloatArray, largest: Number, length_ratio: Number, xi: Number, eta: Number
) -> tuple[Number, Number, Number]:
    """Mobility and pressure ratio where a journal is, by a map.

    Parameters
    ----------
    planes : array (n + 2, m + 2, 3) [1]
        Regular functions over -ln(1 - e), evenly from zero, and over the angle g from the eccentricity to
        the load, evenly in arccos(1 - g / pi), with one row and column more on every side.
    largest : float [1]
        Last value of -ln(1 - e); beyond it the last one's.
    length_ratio : float [1]
        Length over diameter.
    xi : float [1]
        Eccentricity ratio along the load.
    eta : float [1]
        Eccentricity ratio across it, a quarter turn ahead of the load.

    Returns
    -------
    tuple of 3 [1]
        Mobility along and across the load; P / pmax.

    References
    ----------
    [booker1965] mobility maps
    [keys1981] cubic convolution between the nodes
    """
    e = math.hypot(xi, eta)
    angle = math.atan2(abs(eta), xi)
    rows, columns = planes.shape[0] - 2, planes.shape[1] - 2
    place = min(-math.log(max(1.0 - e, 1e-300)), largest) / largest * (rows - 1)
    row = min(int(place), rows - 2)
    turn = 2.0 / math.pi * math.acos(1.0 - angle / math.pi) * (columns - 1)
    column = min(int(turn), columns - 2)
    a = _weights(place - row)
    b = _weights(turn - column)
    along, across, pressure = 0.0, 0.0, 0.0
    for i in range(4):
        for j in range(4):
            weight = a[i] * b[j]
            along += weight * planes[row + i, column + j, ALONG]
            across += weight * planes[row + i, column + j, ACROSS]
            pressure += weight * planes[row + i, column + j, PRESSURE]
    left = max(1.0 - xi, 0.0)
    root = math.sqrt(left)
    scale = 1.0 / (length_ratio * length_ratio)
    return (
        scale * along * left * left * root,
        scale * across * eta * left * root,
        pressure * root,
    )


@njit(cache=True, nogil=True, error_model="numpy")
def _weights(t: float) -> tuple[float, float, float, float]:
    """Weights of four neighbours at a share of the middle interval."""
    return (
        0.5 * t * (-1.0 + t * (2.0 - t)),
        0.5 * (2.0 + t * t * (-5.0 + 3.0 * t)),
        0.5 * t * (1.0 + t * (4.0 - 3.0 * t)),
        0.5 * t * t * (t - 1.0),
    )


@njit(cache=True, nogil=True, error_model="numpy")
def _squeeze_force(e: float, direction: float) -> tuple[float, float]:
    """Force over mu L^3 R / c^2 against a squeeze of speed one, along the eccentricity and ahead of it.

    Pressure acts over the half turn about the direction of the squeeze. With Sommerfeld's substitution the
    gap leaves the integrals of cos^2, sin cos and sin^2 over its cube in closed form.
    """
    square = 1.0 - e * e
    root = math.sqrt(square)
    wide, narrow = math.sqrt(1.0 + e), math.sqrt(1.0 - e)
    first, second = 0.5 * direction - 0.25 * math.pi, 0.5 * direction + 0.25 * math.pi
    a = 2.0 * math.atan2(wide * math.sin(first), narrow * math.cos(first))
    b = 2.0 * math.atan2(wide * math.sin(second), narrow * math.cos(second))
    sa, ca, sb, cb = math.sin(a), math.cos(a), math.sin(b), math.cos(b)
    cosines = (e * e + 0.5) * (b - a) + 2.0 * e * (sb - sa) + 0.5 * (sb * cb - sa * ca)
    mixed = e * (ca - cb) + 0.5 * (ca * ca - cb * cb)
    sines = 0.5 * (b - a) - 0.5 * (sb * cb - sa * ca)
    rr, rt, tt = cosines / (square * square * root), mixed / (square * square), sines / (square * root)
    c, s = math.cos(direction), math.sin(direction)
    return rr * c + rt * s, rt * c + tt * s


@njit(cache=True, nogil=True, error_model="numpy")
def _largest_pressure(e: float, direction: float) -> float:
    """Largest cos(psi - direction) / (1 - e cos psi)^3 over the half turn about the direction."""
    # The slope -sin(psi - d) (1 - e cos psi) - 3 e sin psi cos(psi - d) falls through zero between the
    # direction and the narrowest gap; the half turn limits it.
    low, high = max(0.0, direction - 0.5 * math.pi), direction
    for _ in range(70):
        psi = 0.5 * (low + high)
        slope = -math.sin(psi - direction) * (1.0 - e * math.cos(psi)) - 3.0 * e * math.sin(psi) * math.cos(
            psi - direction
        )
        if slope > 0.0:
            low = psi
        else:
            high = psi
    psi = 0.5 * (low + high)
    return math.cos(psi - direction) / (1.0 - e * math.cos(psi)) ** 3
