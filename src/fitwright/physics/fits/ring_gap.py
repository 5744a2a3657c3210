"""Piston ring gaps: how they close when the ring gets hot, and how they follow the bore."""

from __future__ import annotations

import math

import numpy as np

from fitwright.physics.metrology.temperature import REFERENCE_TEMPERATURE
from fitwright.quantity import FloatArray, Kelvin, Kelvins, Metre, PerKelvin


def ring_gap_in_bore(gap: Metre, *, bore_when_read: Metre, bore_when_fitted: Metre) -> Metre:
    r"""Gap that a ring will have in another bore than the one it was read in.

    Parameters
    ----------
    gap : float [m]
        Gap as read.
    bore_when_read : float [m]
        Bore at the depth where the gap was read.
    bore_when_fitted : float [m]
        Bore where the ring will run, after honing or at another depth.

    Returns
    -------
    float [m]
        Gap there; a bore that grows by 0.01 mm opens it by 0.031 mm.

    Notes
    -----
    .. math:: s_2 = s_1 + \pi (B_2 - B_1)

    References
    ----------
    [iso6621_2_2020] closed gap

    Examples
    --------
    >>> round(ring_gap_in_bore(0.40e-3, bore_when_read=83.50e-3, bore_when_fitted=83.55e-3) * 1e3, 3)
    0.557
    """
    return gap + math.pi * (bore_when_fitted - bore_when_read)


def ring_gap_at_temperature(
    gap: Metre,
    *,
    bore: Metre,
    ring_expansion: PerKelvin,
    bore_expansion: PerKelvin,
    ring_temperature: Kelvins,
    bore_temperature: Kelvins,
    reference_temperature: Kelvin = REFERENCE_TEMPERATURE,
) -> FloatArray:
    r"""Gap of a ring that is hotter than it was on the bench; negative means that its ends butt.

    Parameters
    ----------
    gap : float [m]
        Gap at the reference temperature.
    bore : float [m]
        Bore at the reference temperature.
    ring_expansion : float [1/K]
        Expansion coefficient of the ring.
    bore_expansion : float [1/K]
        Expansion coefficient of the cylinder.
    ring_temperature : array_like [K], shape (*s)
        Mean temperature of the ring.
    bore_temperature : array_like [K], broadcastable to (*s)
        Mean temperature of the cylinder wall at the ring.
    reference_temperature : float [K]
        Temperature that gap and bore are referred to.

    Returns
    -------
    ndarray [m], shape (*s)
        Gap at temperature.

    Notes
    -----
    .. math:: s_T = \pi B (1 + \alpha_b \Delta T_b) - (\pi B - s)(1 + \alpha_r \Delta T_r)

    References
    ----------
    [jcgm100_2008] H.1.2, thermal expansion of a length

    Examples
    --------
    A ring 200 K above a cold wall closes by 0.57 mm:

    >>> hot = ring_gap_at_temperature(0.50e-3, bore=83.5e-3, ring_expansion=11e-6, bore_expansion=11e-6,
    ...     ring_temperature=493.15, bore_temperature=293.15)
    >>> round(float(hot) * 1e3, 3)
    -0.076
    """
    ring_growth = 1.0 + ring_expansion * (np.asarray(ring_temperature, dtype=float) - reference_temperature)
    bore_growth = 1.0 + bore_expansion * (np.asarray(bore_temperature, dtype=float) - reference_temperature)
    circumference = math.pi * bore
    return np.asarray(circumference * bore_growth - (circumference - gap) * ring_growth)


def cold_gap_for_hot_gap(
    hot_gap: Metre,
    *,
    bore: Metre,
    ring_expansion: PerKelvin,
    bore_expansion: PerKelvin,
    ring_temperature: Kelvin,
    bore_temperature: Kelvin,
    reference_temperature: Kelvin = REFERENCE_TEMPERATURE,
) -> Metre:
    r"""Gap to file on the bench so that a stated gap is left at temperature.

    Parameters
    ----------
    hot_gap : float [m]
        Gap wanted at temperature.
    bore : float [m]
        Bore at the reference temperature.
    ring_expansion : float [1/K]
        Expansion coefficient of the ring.
    bore_expansion : float [1/K]
        Expansion coefficient of the cylinder.
    ring_temperature : float [K]
        Mean temperature of the ring.
    bore_temperature : float [K]
        Mean temperature of the cylinder wall at the ring.
    reference_temperature : float [K]
        Temperature that gap and bore are referred to.

    Returns
    -------
    float [m]
        Gap at the reference temperature.

    Notes
    -----
    .. math:: s = \pi B - \frac{\pi B (1 + \alpha_b \Delta T_b) - s_T}{1 + \alpha_r \Delta T_r}

    References
    ----------
    [jcgm100_2008] H.1.2, thermal expansion of a length

    Examples
    --------
    >>> cold = cold_gap_for_hot_gap(0.0, bore=83.5e-3, ring_expansion=11e-6, bore_expansion=11e-6,
    ...     ring_temperature=493.15, bore_temperature=293.15)
    >>> round(cold * 1e3, 3)
    0.576
    """
    ring_growth = 1.0 + ring_expansion * (ring_temperature - reference_temperature)
    bore_growth = 1.0 + bore_expansion * (bore_temperature - reference_temperature)
    circumference = math.pi * bore
    return circumference - (circumference * bore_growth - hot_gap) / ring_growth
