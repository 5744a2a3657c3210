"""Kinematic viscosity over temperature: the straight line of log log viscosity over log temperature."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, Kelvin, Kelvins, Numbers, SquareMetresPerSecond

TEMPERATURE_40: Kelvin = 313.15
"""40 C, at which data sheets give the first kinematic viscosity."""

TEMPERATURE_100: Kelvin = 373.15
"""100 C, at which data sheets give the second."""


def walther_ordinate(kinematic_viscosity: SquareMetresPerSecond) -> FloatArray:
    r"""What grows in a straight line over the logarithm of temperature.

    Parameters
    ----------
    kinematic_viscosity : array_like [m2/s], shape (*s)
        Kinematic viscosity, from 0.21 mm2/s up.

    Returns
    -------
    ndarray [1], shape (*s)
        log10 log10 Z.

    Raises
    ------
    OutOfDomainError
        If a viscosity is below 0.21 mm2/s.

    Notes
    -----
    .. math:: Z = \nu + 0.7 + e^{-1.47 - 1.84 \nu - 0.51 \nu^2}, \quad \nu \text{ in mm2/s}

    Holds from 0.21 to 2e7 mm2/s; the exponential is lost from 2 mm2/s on.

    References
    ----------
    [astm_d341_2020] viscosity-temperature equations

    Examples
    --------
    >>> float(walther_ordinate(8.7e-6))
    -0.01183
    """
    nu = np.asarray(kinematic_viscosity, dtype=float) * 1e6
    if not np.all(nu >= 0.21):
        raise OutOfDomainError("kinematic_viscosity", f"{float(np.min(nu)):g} mm2/s", "0.21 mm2/s or more")
    return np.asarray(np.log10(np.log10(nu + 0.7 + np.exp(-1.47 - nu * (1.84 + 0.51 * nu)))))


def walther_line(
    first_viscosity: SquareMetresPerSecond,
    second_viscosity: SquareMetresPerSecond,
    *,
    first_temperature: Kelvins = TEMPERATURE_40,
    second_temperature: Kelvins = TEMPERATURE_100,
) -> tuple[FloatArray, FloatArray]:
    r"""Constants of the line through two measured viscosities.

    Parameters
    ----------
    first_viscosity : array_like [m2/s], shape (*s)
        Kinematic viscosity at the first temperature.
    second_viscosity : array_like [m2/s], broadcastable to (*s)
        Kinematic viscosity at the second temperature.
    first_temperature : array_like [K]
        The first temperature.
    second_temperature : array_like [K]
        The second temperature, another one.

    Returns
    -------
    tuple of ndarray [1], shape (*s)
        A and B.

    Raises
    ------
    OutOfDomainError
        If the temperatures are the same or the viscosity does not fall with temperature.

    Notes
    -----
    .. math:: \log_{10} \log_{10} Z = A - B \log_{10} T

    References
    ----------
    [astm_d341_2020] viscosity-temperature equations

    Examples
    --------
    >>> a, b = walther_line(44.8e-6, 8.7e-6)
    >>> round(float(a), 6), round(float(b), 6)
    (7.805996, 3.039728)
    """
    first, second = walther_ordinate(first_viscosity), walther_ordinate(second_viscosity)
    x = np.log10(np.asarray(first_temperature, dtype=float))
    run = np.log10(np.asarray(second_temperature, dtype=float)) - x
    if not np.all(run * (first - second) > 0.0):
        raise OutOfDomainError(
            "second_viscosity", second_viscosity, "lower than the first one where it is warmer"
        )
    slope = (first - second) / run
    return np.asarray(first + slope * x), np.asarray(slope)


def walther_line_from_slope(
    kinematic_viscosity: SquareMetresPerSecond, *, temperature: Kelvins, slope: Numbers
) -> tuple[FloatArray, FloatArray]:
    r"""Constants of the line through one measured viscosity with a slope that is stated.

    Parameters
    ----------
    kinematic_viscosity : array_like [m2/s], shape (*s)
        Kinematic viscosity at the temperature.
    temperature : array_like [K]
        Temperature at which it was measured.
    slope : array_like [1]
        B of an oil of the same kind; engine oils have about 2.4 (much improver) to 3.6 (none).

    Returns
    -------
    tuple of ndarray [1], shape (*s)
        A and B.

    Raises
    ------
    OutOfDomainError
        If the slope is not positive.

    Notes
    -----
    .. math:: A = \log_{10} \log_{10} Z + B \log_{10} T

    References
    ----------
    [astm_d341_2020] viscosity-temperature equations

    Examples
    --------
    A used oil measured at 100 C, of a kind that had B = 2.96 when new:

    >>> a, b = walther_line_from_slope(10.2e-6, temperature=373.15, slope=2.9615)
    >>> float(viscosity_on_line(a, b, 313.15) * 1e6)
    54.7
    """
    b = np.asarray(slope, dtype=float)
    if not np.all(b > 0.0):
        raise OutOfDomainError("slope", slope, "above zero")
    ordinate = walther_ordinate(kinematic_viscosity)
    a = ordinate + b * np.log10(np.asarray(temperature, dtype=float))
    return np.asarray(a), np.asarray(np.broadcast_to(b, a.shape))


def viscosity_on_line(intercept: Numbers, slope: Numbers, temperature: Kelvins) -> FloatArray:
    r"""Kinematic viscosity at temperature on a line.

    Parameters
    ----------
    intercept : array_like [1], shape (*s)
        A of the line.
    slope : array_like [1], broadcastable to (*s)
        B of the line.
    temperature : array_like [K], broadcastable to (*s)
        Temperature of the oil.

    Returns
    -------
    ndarray [m2/s], shape (*s)
        Kinematic viscosity.

    Notes
    -----
    .. math:: \log_{10} \log_{10} Z = A - B \log_{10} T

    Exact at the points that made the line. Between 0 C and 150 C a straight line fits mineral and synthetic
    engine oils within a few per cent; below 0 C wax makes an oil thicker than the line.

    References
    ----------
    [astm_d341_2020] viscosity-temperature equations

    Examples
    --------
    >>> float(viscosity_on_line(7.805996, 3.039728, 393.15) * 1e6)
    6.066
    """
    from fitwright.physics.oil.kernels.viscosity import kinematic

    law: Callable[..., Any] = kinematic.py_func
    line = (np.asarray(intercept, dtype=float), np.asarray(slope, dtype=float))
    return np.asarray(law(line, np.asarray(temperature, dtype=float)))
