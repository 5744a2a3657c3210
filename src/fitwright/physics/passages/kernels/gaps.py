"""Laminar leakage through narrow gaps, compiled; the same text runs on arrays where it is not."""

from __future__ import annotations

import math

import numpy as np
from numba import njit

from fitwright.quantity import (
    CubicMetrePerSecond,
    Metre,
    MetrePerSecond,
    Number,
    Pascal,
    PascalSecond,
)


@njit(cache=True, nogil=True, error_model="numpy")
def slot(
    pressure_drop: Pascal,
    gap: Metre,
    width: Metre,
    length: Metre,
    viscosity: PascalSecond,
    wall_speed: MetrePerSecond,
) -> tuple[CubicMetrePerSecond, float]:
    r"""Flow through a flat slot, one wall sliding.

    Parameters
    ----------
    pressure_drop : float [Pa]
        Pressure upstream minus downstream.
    gap : float [m]
        Distance between the walls.
    width : float [m]
        Extent across the flow.
    length : float [m]
        Extent along the flow.
    viscosity : float [Pa s]
        Dynamic viscosity.
    wall_speed : float [m/s]
        Speed of one wall, positive downstream.

    Returns
    -------
    tuple of float [m3/s]
        Volume flow, and its derivative by the pressure drop [m3/(s Pa)].

    Notes
    -----
    .. math:: Q = \frac{w h^3 \Delta p}{12 \mu L} + \frac{w h U}{2}

    References
    ----------
    [white2011] plane Poiseuille and Couette flow

    Examples
    --------
    >>> flow, slope = slot(4e5, 50e-6, 0.08, 0.01, 0.01, 0.0)
    >>> round(flow * 6e4, 4)
    0.2
    """
    slope = width * gap**3 / (12.0 * viscosity * length)
    return slope * pressure_drop + 0.5 * width * gap * wall_speed, slope


@njit(cache=True, nogil=True, error_model="numpy")
def annulus(
    pressure_drop: Pascal,
    diameter: Metre,
    radial_clearance: Metre,
    eccentricity_ratio: Number,
    length: Metre,
    viscosity: PascalSecond,
) -> tuple[CubicMetrePerSecond, float]:
    r"""Flow along the clearance between a round part and its bore.

    Parameters
    ----------
    pressure_drop : float [Pa]
        Pressure upstream minus downstream.
    diameter : float [m]
        Mean diameter of the clearance.
    radial_clearance : float [m]
        Clearance on the radius, centred.
    eccentricity_ratio : float [1]
        Offset of the centres over the radial clearance, 0 centred, 1 touching.
    length : float [m]
        Length of the land along the flow.
    viscosity : float [Pa s]
        Dynamic viscosity.

    Returns
    -------
    tuple of float [m3/s]
        Volume flow, and its derivative by the pressure drop [m3/(s Pa)].

    Notes
    -----
    .. math:: Q = \frac{\pi d c^3 \Delta p}{12 \mu L} \left(1 + \tfrac32 \varepsilon^2\right)

    References
    ----------
    [merritt1967] laminar flow in an annulus

    Examples
    --------
    >>> flow, slope = annulus(4e5, 0.016, 30e-6, 1.0, 0.012, 0.01)
    >>> round(flow * 6e4, 4)
    0.0565
    """
    slope = math.pi * diameter * radial_clearance**3 / (12.0 * viscosity * length)
    slope = slope * (1.0 + 1.5 * eccentricity_ratio**2)
    return slope * pressure_drop, slope


@njit(cache=True, nogil=True, error_model="numpy")
def end_gap(
    pressure_drop: Pascal,
    gap: Metre,
    outer_diameter: Metre,
    inner_diameter: Metre,
    viscosity: PascalSecond,
) -> tuple[CubicMetrePerSecond, float]:
    r"""Radial flow between two parallel faces, over a whole annular land.

    Parameters
    ----------
    pressure_drop : float [Pa]
        Pressure at one edge of the land minus that at the other.
    gap : float [m]
        Distance between the faces.
    outer_diameter : float [m]
        Outside of the land.
    inner_diameter : float [m]
        Inside of the land.
    viscosity : float [Pa s]
        Dynamic viscosity.

    Returns
    -------
    tuple of float [m3/s]
        Volume flow, and its derivative by the pressure drop [m3/(s Pa)].

    Notes
    -----
    .. math:: Q = \frac{\pi h^3 \Delta p}{6 \mu \ln(r_o / r_i)}

    References
    ----------
    [merritt1967] radial laminar flow between parallel discs

    Examples
    --------
    >>> flow, slope = end_gap(4e5, 40e-6, 0.060, 0.044, 0.01)
    >>> round(flow * 6e4, 4)
    0.2593
    """
    slope = math.pi * gap**3 / (6.0 * viscosity * np.log(outer_diameter / inner_diameter))
    return slope * pressure_drop, slope
