"""What fuel in the oil leaves of its viscosity."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from fitwright.physics.numerics.domain import require_within
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.oil.oil import HIGH_SHEAR_TEMPERATURE, Oil, dynamic_viscosity
from fitwright.physics.oil.walther import walther_ordinate
from fitwright.quantity import (
    FloatArray,
    KilogramPerCubicMetre,
    Number,
    Numbers,
    SquareMetrePerSecond,
    SquareMetresPerSecond,
)

MOST_FUEL: Number = 0.2
"""Mass fraction of fuel up to which a blend is computed."""


@dataclass(frozen=True, slots=True)
class Fuel:
    """What thins the oil.

    Attributes
    ----------
    kinematic_viscosity_40 : float [m2/s]
        Kinematic viscosity at 40 C.
    kinematic_viscosity_100 : float [m2/s]
        Kinematic viscosity at 100 C of what does not boil away.
    density_15 : float [kg/m3]
        Density at 15 C.
    """

    kinematic_viscosity_40: SquareMetrePerSecond
    kinematic_viscosity_100: SquareMetrePerSecond
    density_15: KilogramPerCubicMetre


def blended_viscosity(
    first_viscosity: SquareMetresPerSecond, second_viscosity: SquareMetresPerSecond, second_fraction: Numbers
) -> FloatArray:
    r"""Kinematic viscosity of a blend of two liquids, all at one temperature.

    Parameters
    ----------
    first_viscosity : array_like [m2/s], shape (*s)
        Kinematic viscosity of the first liquid.
    second_viscosity : array_like [m2/s], broadcastable to (*s)
        Kinematic viscosity of the second.
    second_fraction : array_like [1], broadcastable to (*s)
        Fraction of the second; by mass where one of them is a fuel.

    Returns
    -------
    ndarray [m2/s], shape (*s)
        Kinematic viscosity of the blend.

    Raises
    ------
    OutOfDomainError
        If a fraction is not within 0 to 1 or a viscosity below 0.21 mm2/s.

    Notes
    -----
    .. math:: \log \log Z = \sum_i x_i \log \log Z_i

    with the Z of the viscosity-temperature line (the ASTM method of the practice). The practice leaves oils
    with viscosity improver out of what it promises; fuels were predicted better by mass than by volume.

    References
    ----------
    [astm_d7152_2011] ASTM blending method
    [astm_d341_2020] the function Z

    Examples
    --------
    >>> float(blended_viscosity(11.0e-6, 0.5e-6, 0.05) * 1e6)
    8.26
    """
    require_within(0.0, 1.0, second_fraction=second_fraction)
    x = np.asarray(second_fraction, dtype=float)
    ordinate = (1.0 - x) * walther_ordinate(first_viscosity) + x * walther_ordinate(second_viscosity)
    z = 10.0 ** (10.0**ordinate) - 0.7
    thin = np.exp(-0.7487 - z * (3.295 - z * (0.6119 - z * 0.3193)))
    return np.asarray(1e-6 * (z - thin))


def diluted(oil: Oil, fuel: Fuel, fuel_mass_fraction: Number) -> Oil:
    r"""The oil with fuel in it.

    Parameters
    ----------
    oil : Oil
        The oil as it was.
    fuel : Fuel
        The fuel.
    fuel_mass_fraction : float [1]
        Mass of the fuel over that of oil and fuel, up to 0.2.

    Returns
    -------
    Oil
        What works in the engine.

    Raises
    ------
    OutOfDomainError
        If the fraction is not within 0 to 0.2.

    Notes
    -----
    Both viscosities blend by `blended_viscosity`, volumes add up, and the high-shear viscosity keeps its
    ratio to that at low shear. Light ends leave hot oil: the fraction is what a laboratory finds in it, not
    what went in.

    References
    ----------
    [astm_d7152_2011] ASTM blending method

    Examples
    --------
    >>> thin = diluted(Oil(61.7e-6, 11.0e-6, 855.0, 3.1e-3), Fuel(0.5e-6, 0.3e-6, 745.0), 0.05)
    >>> round(thin.kinematic_viscosity_100 * 1e6, 2), round(thin.density_15)
    (7.58, 849)
    """
    if not 0.0 <= fuel_mass_fraction <= MOST_FUEL:
        raise OutOfDomainError("fuel_mass_fraction", fuel_mass_fraction, f"between 0 and {MOST_FUEL:g}")
    x = fuel_mass_fraction
    pairs = (
        (oil.kinematic_viscosity_40, fuel.kinematic_viscosity_40),
        (oil.kinematic_viscosity_100, fuel.kinematic_viscosity_100),
    )
    at_40, at_100 = (float(blended_viscosity(first, second, x)) for first, second in pairs)
    density = 1.0 / ((1.0 - x) / oil.density_15 + x / fuel.density_15)
    thin = replace(
        oil,
        kinematic_viscosity_40=at_40,
        kinematic_viscosity_100=at_100,
        density_15=density,
        high_shear_viscosity_150=None,
    )
    if oil.high_shear_viscosity_150 is None:
        return thin
    before = dynamic_viscosity(replace(oil, high_shear_viscosity_150=None), HIGH_SHEAR_TEMPERATURE)
    share = oil.high_shear_viscosity_150 / float(before)
    after = float(dynamic_viscosity(thin, HIGH_SHEAR_TEMPERATURE))
    return replace(thin, high_shear_viscosity_150=share * after)
