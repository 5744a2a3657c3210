"""An oil by its data sheet, and its viscosity and density where it works."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.oil.walther import walther_line
from fitwright.quantity import (
    FloatArray,
    Kelvin,
    Kelvins,
    KilogramPerCubicMetre,
    Number,
    Pascals,
    PascalSecond,
    PerPascal,
    PerSecond,
    PerSeconds,
    SquareMetrePerSecond,
)

HIGH_SHEAR_TEMPERATURE: Kelvin = 423.15
"""150 C, at which the high-shear viscosity of a data sheet is measured."""

HIGH_SHEAR_RATE: PerSecond = 1e6
"""Shear rate at which it is measured [1/s]."""

USUAL_PRESSURE_VISCOSITY_COEFFICIENT: PerPascal = 18e-9
"""Usual value of engine oils at 60 C to 100 C [1/Pa], good to 25 %; docs/theory/oil.md says whence."""

LEAST_HIGH_SHEAR_SHARE: Number = 0.55
MOST_HIGH_SHEAR_SHARE: Number = 1.1


@dataclass(frozen=True, slots=True)
class Oil:
    """An oil as its data sheet describes it.

    Attributes
    ----------
    kinematic_viscosity_40 : float [m2/s]
        Kinematic viscosity at 40 C.
    kinematic_viscosity_100 : float [m2/s]
        Kinematic viscosity at 100 C.
    density_15 : float [kg/m3]
        Density at 15 C.
    high_shear_viscosity_150 : float or None [Pa s]
        Dynamic viscosity at 150 C and 1e6 1/s (HTHS); None where it is not known, which means no thinning.
    pressure_viscosity_coefficient : float [1/Pa]
        Growth of the logarithm of viscosity with pressure.
    """

    kinematic_viscosity_40: SquareMetrePerSecond
    kinematic_viscosity_100: SquareMetrePerSecond
    density_15: KilogramPerCubicMetre
    high_shear_viscosity_150: PascalSecond | None = None
    pressure_viscosity_coefficient: PerPascal = USUAL_PRESSURE_VISCOSITY_COEFFICIENT


def oil_parameters(oil: Oil) -> FloatArray:
    r"""The oil as the flat vector that compiled code takes.

    Parameters
    ----------
    oil : Oil
        The oil.

    Returns
    -------
    ndarray, shape (7)
        A and B of the viscosity-temperature line, density at 15 C [kg/m3], critical shear stress [Pa],
        share of the viscosity left at high shear [1], pressure-viscosity coefficient [1/Pa], factor on the
        dynamic viscosity [1], which is one.

    Raises
    ------
    OutOfDomainError
        If the oil is none: viscosity that grows with temperature, a density outside 700 to 1200 kg/m3, a
        high-shear viscosity outside 0.55 to 1.1 of the one at low shear.

    Notes
    -----
    One high-shear point cannot fix a whole flow curve. It is met exactly by taking the shear stress there, at
    low-shear viscosity, as the critical one, so that half of the possible thinning has happened:

    .. math:: \tau_c = 10^6\,\mathrm{s}^{-1}\,\eta_0(150), \quad r = 2 \frac{\eta_{HTHS}}{\eta_0(150)} - 1

    A constant critical stress shifts the thinning with temperature. Above 1e6 1/s this extrapolates.

    References
    ----------
    [cross1965] flow equation
    [astm_d341_2020] viscosity-temperature equations

    Examples
    --------
    >>> oil = Oil(61.7e-6, 11.0e-6, 855.0, 3.1e-3)
    >>> oil_parameters(oil).round(3).tolist()[:2]
    [7.645, 2.962]
    """
    from fitwright.physics.oil.kernels.viscosity import viscosity

    law: Callable[..., Any] = viscosity.py_func
    _check(oil)
    a, b = walther_line(oil.kinematic_viscosity_40, oil.kinematic_viscosity_100)
    plain = np.array([a, b, oil.density_15, 1.0, 1.0, oil.pressure_viscosity_coefficient, 1.0], dtype=float)
    if oil.high_shear_viscosity_150 is None:
        return plain
    low = float(law(plain, HIGH_SHEAR_TEMPERATURE, 0.0))
    share = oil.high_shear_viscosity_150 / low
    if not LEAST_HIGH_SHEAR_SHARE <= share <= MOST_HIGH_SHEAR_SHARE:
        raise OutOfDomainError(
            "high_shear_viscosity_150",
            oil.high_shear_viscosity_150,
            f"within {LEAST_HIGH_SHEAR_SHARE:g} to {MOST_HIGH_SHEAR_SHARE:g} of {low:.3g} Pa s at low shear",
        )
    plain[3:5] = low * HIGH_SHEAR_RATE, min(2.0 * share - 1.0, 1.0)
    return plain


def kinematic_viscosity(oil: Oil, temperature: Kelvins) -> FloatArray:
    r"""Kinematic viscosity at temperature, at low shear.

    Parameters
    ----------
    oil : Oil
        The oil.
    temperature : array_like [K], shape (*s)
        Temperature of the oil.

    Returns
    -------
    ndarray [m2/s], shape (*s)
        Kinematic viscosity.

    Raises
    ------
    OutOfDomainError
        If the oil is none, or a temperature is not above 0 K.

    Notes
    -----
    The line of ASTM D341 through the viscosities at 40 C and 100 C. See `walther` for where it holds.

    References
    ----------
    [astm_d341_2020] viscosity-temperature equations

    Examples
    --------
    >>> oil = Oil(44.8e-6, 8.7e-6, 842.0)
    >>> (kinematic_viscosity(oil, [293.15, 393.15]) * 1e6).round(2).tolist()
    [105.55, 6.07]
    """
    from fitwright.physics.oil.kernels.viscosity import kinematic

    law: Callable[..., Any] = kinematic.py_func
    return np.asarray(law(oil_parameters(oil), _kelvins(temperature)))


def density(oil: Oil, temperature: Kelvins) -> FloatArray:
    r"""Density at temperature, at ambient pressure.

    Parameters
    ----------
    oil : Oil
        The oil.
    temperature : array_like [K], shape (*s)
        Temperature of the oil.

    Returns
    -------
    ndarray [kg/m3], shape (*s)
        Density.

    Raises
    ------
    OutOfDomainError
        If the oil is none, or a temperature is not above 0 K.

    Notes
    -----
    .. math:: \rho = \rho_{15} e^{-\alpha \Delta T (1 + 0.8 \alpha \Delta T)}, \quad
              \alpha = 0.6278 / \rho_{15}

    The tables go to 150 C for lubricating oils.

    References
    ----------
    [astm_d1250_1980] volume correction, lubricating oils (group D)

    Examples
    --------
    >>> density(Oil(44.8e-6, 8.7e-6, 842.0), [288.15, 423.15]).round(1).tolist()
    [842.0, 755.2]
    """
    from fitwright.physics.oil.kernels.viscosity import density_at

    law: Callable[..., Any] = density_at.py_func
    return np.asarray(law(oil_parameters(oil), _kelvins(temperature)))


def dynamic_viscosity(
    oil: Oil, temperature: Kelvins, shear_rate: PerSeconds = 0.0, gauge_pressure: Pascals = 0.0
) -> FloatArray:
    r"""Dynamic viscosity at temperature, shear rate and pressure.

    Parameters
    ----------
    oil : Oil
        The oil.
    temperature : array_like [K], shape (*s)
        Temperature of the oil.
    shear_rate : array_like [1/s], broadcastable to (*s)
        Shear rate.
    gauge_pressure : array_like [Pa], broadcastable to (*s)
        Pressure on the oil; matters in bearing films only.

    Returns
    -------
    ndarray [Pa s], shape (*s)
        Dynamic viscosity.

    Raises
    ------
    OutOfDomainError
        If the oil is none, or a temperature is not above 0 K.

    Notes
    -----
    .. math:: \eta = \eta_0 \left(r + \frac{1 - r}{1 + \eta_0 |\dot\gamma| / \tau_c}\right) e^{\alpha p}

    `oil_parameters` says how thinning meets the high-shear point. The exponential of pressure (Barus)
    holds to some 100 MPa; the uncertainty of its coefficient grows in proportion to the pressure.

    References
    ----------
    [cross1965] flow equation
    [barus1893] viscosity over pressure

    Examples
    --------
    >>> oil = Oil(61.7e-6, 11.0e-6, 855.0, 3.1e-3)
    >>> (dynamic_viscosity(oil, 423.15, [0.0, 1e6]) * 1e3).round(2).tolist()
    [3.65, 3.1]
    """
    from fitwright.physics.oil.kernels.viscosity import viscosity

    law: Callable[..., Any] = viscosity.py_func
    rate = np.asarray(shear_rate, dtype=float)
    thinned = law(oil_parameters(oil), _kelvins(temperature), rate)
    pressed = oil.pressure_viscosity_coefficient * np.asarray(gauge_pressure, dtype=float)
    return np.asarray(thinned * np.exp(pressed))


def _check(oil: Oil) -> None:
    if not 700.0 <= oil.density_15 <= 1200.0:
        raise OutOfDomainError("density_15", oil.density_15, "between 700 and 1200 kg/m3")
    if not oil.pressure_viscosity_coefficient >= 0.0:
        raise OutOfDomainError(
            "pressure_viscosity_coefficient", oil.pressure_viscosity_coefficient, "zero or more"
        )


def _kelvins(temperature: Kelvins) -> FloatArray:
    kelvins = np.asarray(temperature, dtype=float)
    if not np.all(kelvins > 0.0):
        raise OutOfDomainError("temperature", temperature, "above 0 K")
    return kelvins
