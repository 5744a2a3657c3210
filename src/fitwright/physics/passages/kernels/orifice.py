"""Flow through a sharp orifice, compiled; the same text runs on arrays where it is not."""

from __future__ import annotations

import math

import numpy as np
from numba import njit

from fitwright.quantity import CubicMetrePerSecond, KilogramPerCubicMetre, Metre, Number, Pascal, PascalSecond


@njit(cache=True, nogil=True, error_model="numpy")
def orifice(
    pressure_drop: Pascal,
    diameter: Metre,
    discharge_coefficient: Number,
    density: KilogramPerCubicMetre,
    viscosity: PascalSecond,
) -> tuple[CubicMetrePerSecond, float]:
    r"""Flow through a sharp round orifice, from creeping to turbulent.

    Parameters
    ----------
    pressure_drop : float [Pa]
        Pressure upstream minus downstream.
    diameter : float [m]
        Diameter of the orifice.
    discharge_coefficient : float [1]
        Flow over that of an ideal jet filling the orifice, at high Reynolds number.
    density : float [kg/m3]
        Density.
    viscosity : float [Pa s]
        Dynamic viscosity.

    Returns
    -------
    tuple of float [m3/s]
        Volume flow, and its derivative by the pressure drop [m3/(s Pa)].

    Notes
    -----
    .. math:: Q = C_d A \sqrt{\frac{2}{\rho}} \frac{\Delta p}{(\Delta p^2 + \Delta p_t^2)^{1/4}}, \quad
              \Delta p_t = \frac{\rho}{2} \left(\frac{12 \pi C_d \mu}{\rho d}\right)^2

    The transition pressure makes the law meet the exact creeping flow through a hole in a thin wall,
    d^3 p / (24 mu), at small drops; at large ones it is the usual orifice equation. Between the two it is
    an interpolation.

    References
    ----------
    [merritt1967] turbulent orifice flow
    [sampson1891] creeping flow through a circular aperture

    Examples
    --------
    >>> flow, slope = orifice(4e5, 0.0015, 0.62, 850.0, 0.01)
    >>> round(flow * 6e4, 3)
    2.017
    """
    flowing = discharge_coefficient * 0.25 * math.pi * diameter**2 * np.sqrt(2.0 / density)
    transition_speed = 12.0 * math.pi * discharge_coefficient * viscosity / (density * diameter)
    transition = 0.5 * density * transition_speed**2
    square = pressure_drop**2 + transition**2
    root = np.sqrt(np.sqrt(square))
    slope = flowing / root * (1.0 - 0.5 * pressure_drop**2 / square)
    return flowing * pressure_drop / root, slope
