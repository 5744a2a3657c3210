"""Viscosity and density of an oil, compiled; the same text runs on arrays where it is not.

The vector of parameters holds: A and B of the viscosity-temperature line, density at 15 C [kg/m3],
critical shear stress [Pa], share of the viscosity that is left at high shear [1], pressure-viscosity
coefficient [1/Pa], factor on the dynamic viscosity [1].
"""

from __future__ import annotations

import numpy as np
from numba import njit

from fitwright.quantity import (
    FloatArray,
    Kelvin,
    KilogramPerCubicMetre,
    PascalSecond,
    PerSecond,
    SquareMetrePerSecond,
)

VISCOSITY_FACTOR = 6  # place in the vector; one, unless somebody asks what a thicker oil would do


@njit(cache=True, nogil=True, error_model="numpy")
def kinematic(parameters: FloatArray, temperature: Kelvin) -> SquareMetrePerSecond:
    r"""Kinematic viscosity by the viscosity-temperature line of ASTM D341.

    Parameters
    ----------
    parameters : ndarray, shape (6)
        What `oil_parameters` gives.
    temperature : float [K]
        Temperature of the oil.

    Returns
    -------
    float [m2/s]
        Kinematic viscosity.

    Notes
    -----
    .. math:: \log_{10} \log_{10} Z = A - B \log_{10} T, \quad
              \nu = z - e^{-0.7487 - 3.295 z + 0.6119 z^2 - 0.3193 z^3}, \; z = Z - 0.7

    in mm2/s. The exponential matters below 2 mm2/s only.

    References
    ----------
    [astm_d341_2020] viscosity-temperature equations

    Examples
    --------
    >>> line = np.array([7.80600, 3.03973, 842.0, 1.0, 1.0, 0.0])
    >>> round(kinematic(line, 373.15) * 1e6, 2)
    8.7
    """
    z = 10.0 ** (10.0 ** (parameters[0] - parameters[1] * np.log10(temperature))) - 0.7
    nu: float = 1e-6 * (z - np.exp(-0.7487 - z * (3.295 - z * (0.6119 - z * 0.3193))))
    return nu


@njit(cache=True, nogil=True, error_model="numpy")
def density_at(parameters: FloatArray, temperature: Kelvin) -> KilogramPerCubicMetre:
    r"""Density of a lubricating oil at temperature.

    Parameters
    ----------
    parameters : ndarray, shape (6)
        What `oil_parameters` gives.
    temperature : float [K]
        Temperature of the oil.

    Returns
    -------
    float [kg/m3]
        Density.

    Notes
    -----
    .. math:: \rho = \rho_{15} e^{-\alpha \Delta T (1 + 0.8 \alpha \Delta T)}, \quad
              \alpha = \frac{0.6278}{\rho_{15}}

    References
    ----------
    [astm_d1250_1980] volume correction, lubricating oils (group D)

    Examples
    --------
    >>> round(density_at(np.array([7.80600, 3.03973, 842.0, 1.0, 1.0, 0.0]), 423.15), 1)
    755.2
    """
    expanded = 0.6278 / parameters[2] * (temperature - 288.15)
    rho: float = parameters[2] * np.exp(-expanded * (1.0 + 0.8 * expanded))
    return rho


@njit(cache=True, nogil=True, error_model="numpy")
def viscosity(parameters: FloatArray, temperature: Kelvin, shear_rate: PerSecond) -> PascalSecond:
    r"""Dynamic viscosity at temperature and shear rate, at ambient pressure.

    Parameters
    ----------
    parameters : ndarray, shape (7)
        What `oil_parameters` gives.
    temperature : float [K]
        Temperature of the oil.
    shear_rate : float [1/s]
        Shear rate, of either sign.

    Returns
    -------
    float [Pa s]
        Dynamic viscosity.

    Notes
    -----
    .. math:: \eta = \eta_0 \left(r + \frac{1 - r}{1 + \eta_0 |\dot\gamma| / \tau_c}\right), \quad
              \eta_0 = \nu \rho

    References
    ----------
    [cross1965] flow equation, exponent one

    Examples
    --------
    >>> line = np.array([7.80600, 3.03973, 842.0, 2955.0, 0.83, 0.0, 1.0])
    >>> round(viscosity(line, 423.15, 1e6) * 1e3, 2)
    2.7
    """
    low = kinematic(parameters, temperature) * density_at(parameters, temperature)
    low = low * parameters[VISCOSITY_FACTOR]
    share = parameters[4]
    eta: float = low * (share + (1.0 - share) / (1.0 + low * np.abs(shear_rate) / parameters[3]))
    return eta


@njit(cache=True, nogil=True, error_model="numpy")
def viscosity_and_slopes(
    parameters: FloatArray, temperature: Kelvin, shear_rate: PerSecond
) -> tuple[PascalSecond, float, float]:
    r"""Dynamic viscosity, with the slopes of its logarithm by temperature and by shear rate.

    Parameters
    ----------
    parameters : ndarray, shape (7)
        What `oil_parameters` gives.
    temperature : float [K]
        Temperature of the oil.
    shear_rate : float [1/s]
        Shear rate, zero or more.

    Returns
    -------
    tuple of float [Pa s]
        Dynamic viscosity, and the slopes of its natural logarithm [1/K] and [s].

    Notes
    -----
    With the viscosity at low shear and x, it over the critical shear stress times the shear rate,

    .. math:: \frac{d \ln \eta}{d T} = \frac{d \ln \eta_0}{d T} (1 + b), \quad
              \frac{d \ln \eta}{d \dot\gamma} = \frac{b}{\dot\gamma}, \quad
              b = -\frac{(1 - r) x}{(1 + x)(1 + r x)}, \quad x = \frac{\eta_0 \dot\gamma}{\tau_c}

    References
    ----------
    [astm_d341_2020] viscosity-temperature equations
    [astm_d1250_1980] volume correction, lubricating oils (group D)
    [cross1965] flow equation, exponent one

    Examples
    --------
    >>> line = np.array([7.80600, 3.03973, 842.0, 2955.0, 0.83, 0.0, 1.0])
    >>> mu, by_temperature, by_shear = viscosity_and_slopes(line, 423.15, 1e6)
    >>> round(mu * 1e3, 2), round(by_temperature, 4)
    (2.7, -0.0132)
    """
    exponent = 10.0 ** (parameters[0] - parameters[1] * np.log10(temperature))
    above = 10.0**exponent  # Z of the equation, mm2/s
    z = above - 0.7
    small = np.exp(-0.7487 - z * (3.295 - z * (0.6119 - z * 0.3193)))
    kinematic_viscosity = z - small
    by_z = 1.0 + small * (3.295 - z * (1.2238 - z * 0.9579))
    z_by_temperature = -above * np.log(10.0) * exponent * parameters[1] / temperature
    alpha = 0.6278 / parameters[2]
    expanded = alpha * (temperature - 288.15)
    density = parameters[2] * np.exp(-expanded * (1.0 + 0.8 * expanded))
    low = 1e-6 * kinematic_viscosity * density * parameters[VISCOSITY_FACTOR]
    low_by_temperature = by_z * z_by_temperature / kinematic_viscosity - alpha * (1.0 + 1.6 * expanded)
    share = parameters[4]
    x = low * shear_rate / parameters[3]
    bend = -(1.0 - share) * x / ((1.0 + x) * (1.0 + share * x))
    by_shear = -(1.0 - share) * low / parameters[3] / ((1.0 + x) * (1.0 + share * x))
    return low * (share + (1.0 - share) / (1.0 + x)), low_by_temperature * (1.0 + bend), by_shear
