"""Outline of an involute gear that runs without backlash, or with a stated one."""

from __future__ import annotations

import math

import numpy as np

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.pump.spur import SpurPair
from fitwright.quantity import FloatArray, Metre, Radian

_FLANK = 12
_ROOT_BELOW_TIP = 2.25


def gear_profile(pair: SpurPair, *, backlash: Metre = 0.0, turned: Radian = 0.0) -> FloatArray:
    r"""Outline of one gear of a pair, a tooth on the axis of x.

    Parameters
    ----------
    pair : SpurPair
        Gear data.
    backlash : float [m]
        Play between the flanks along the working circle, half of it taken off each gear.
    turned : float [rad]
        How far the gear is turned from there, from x to y.

    Returns
    -------
    ndarray [m], shape (m, 2)
        Points in turn about the gear's centre, without the first one again.

    Raises
    ------
    OutOfDomainError
        If the backlash leaves no tooth.

    Notes
    -----
    Teeth fill half the working circle. Above the base circle flanks are involutes up to the tip, or to where
    they meet; below it they are straight down to a root 2.25 modules under the tip, without fillets.

    .. math:: \psi(r) = \frac{\pi}{2 z} - \frac{j}{2 a} + \text{inv}\,\alpha_w - \text{inv}\,\alpha_r

    References
    ----------
    [iso21771_2007] tooth thickness at any diameter

    Examples
    --------
    >>> gears = SpurPair(11, 3.5e-3, math.radians(20.0), 25e-3, 45.5e-3, 38.5e-3)
    >>> round(float(np.hypot(*gear_profile(gears).T).max()) * 1e3, 3)
    22.75
    """
    base, tip, work = 0.5 * pair.base_diameter, 0.5 * pair.outside_diameter, 0.5 * pair.centre_distance
    at_work = math.pi / (2.0 * pair.teeth) - 0.5 * backlash / pair.centre_distance
    if not backlash >= 0.0 or at_work <= 0.0:
        raise OutOfDomainError("backlash", backlash, "zero or more, and smaller than a tooth")

    def half(radius: FloatArray) -> FloatArray:
        angle = np.arccos(np.minimum(base / radius, 1.0))
        start = math.acos(base / work)
        return np.asarray(at_work + math.tan(start) - start - (np.tan(angle) - angle))

    radii = np.linspace(max(base, tip - _ROOT_BELOW_TIP * pair.module), tip, _FLANK)
    angles = half(radii)
    keep = angles > 0.0
    radii, angles = radii[keep], angles[keep]
    root = min(tip - _ROOT_BELOW_TIP * pair.module, float(radii[0]))
    radii, angles = np.append(root, radii), np.append(angles[0], angles)
    tooth = np.concatenate([radii * np.exp(-1j * angles), radii[::-1] * np.exp(1j * angles[::-1])])
    around = np.exp(1j * (turned + 2.0 * math.pi / pair.teeth * np.arange(pair.teeth)))
    points = (around[:, None] * tooth).ravel()
    return np.column_stack([points.real, points.imag])
