"""Press fits at temperature: what is left of the interference, and how warm a hub has to be to slip on."""

from __future__ import annotations

import numpy as np

from fitwright.physics.metrology.temperature import REFERENCE_TEMPERATURE
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, Kelvin, Kelvins, Metre, PerKelvin


def interference_at_temperature(
    interference: Metre,
    *,
    interface_diameter: Metre,
    hub_expansion: PerKelvin,
    shaft_expansion: PerKelvin,
    hub_temperature: Kelvins,
    shaft_temperature: Kelvins,
    reference_temperature: Kelvin = REFERENCE_TEMPERATURE,
) -> FloatArray:
    r"""Diametral interference once hub and shaft are warm.

    Parameters
    ----------
    interference : float [m]
        Diametral interference at the reference temperature.
    interface_diameter : float [m]
        Diameter at which hub and shaft meet.
    hub_expansion : float [1/K]
        Expansion coefficient of the hub.
    shaft_expansion : float [1/K]
        Expansion coefficient of the shaft.
    hub_temperature : array_like [K], shape (*s)
        Temperature of the hub, one per case.
    shaft_temperature : array_like [K], broadcastable to (*s)
        Temperature of the shaft, one per case.
    reference_temperature : float [K]
        Temperature that the interference is referred to.

    Returns
    -------
    ndarray [m], shape (*s)
        Interference at each case; the least of them decides the grip.

    Notes
    -----
    .. math:: \delta_T = \delta + d (\alpha_s \Delta T_s - \alpha_h \Delta T_h)

    References
    ----------
    [timoshenko1956] shrink fit of thick-walled cylinders

    Examples
    --------
    A steel insert in an aluminium head, both 150 K warmer:

    >>> left = interference_at_temperature(0.10e-3, interface_diameter=0.035, hub_expansion=23e-6,
    ...     shaft_expansion=12e-6, hub_temperature=443.15, shaft_temperature=443.15)
    >>> round(float(left) * 1e3, 4)
    0.0423
    """
    hub_growth = hub_expansion * (np.asarray(hub_temperature, dtype=float) - reference_temperature)
    shaft_growth = shaft_expansion * (np.asarray(shaft_temperature, dtype=float) - reference_temperature)
    return np.asarray(interference + interface_diameter * (shaft_growth - hub_growth))


def warming_to_lose_grip(
    interference: Metre, *, interface_diameter: Metre, hub_expansion: PerKelvin, shaft_expansion: PerKelvin
) -> Kelvin | None:
    r"""How much warmer both parts together become before the grip is gone.

    Parameters
    ----------
    interference : float [m]
        Effective diametral interference at the reference temperature.
    interface_diameter : float [m]
        Diameter at which hub and shaft meet.
    hub_expansion : float [1/K]
        Expansion coefficient of the hub.
    shaft_expansion : float [1/K]
        Expansion coefficient of the shaft.

    Returns
    -------
    float [K] or None
        Temperature difference, negative where nothing grips at the reference temperature either; None where
        the hub does not grow faster than the shaft.

    Notes
    -----
    .. math:: \Delta T = \frac{\delta}{d (\alpha_h - \alpha_s)}

    References
    ----------
    [timoshenko1956] shrink fit of thick-walled cylinders

    Examples
    --------
    >>> round(warming_to_lose_grip(
    ...     0.10e-3, interface_diameter=0.035, hub_expansion=23e-6, shaft_expansion=12e-6))
    260
    """
    if hub_expansion <= shaft_expansion:
        return None
    return interference / (interface_diameter * (hub_expansion - shaft_expansion))


def warming_to_assemble(
    interference: Metre,
    *,
    clearance: Metre,
    interface_diameter: Metre,
    hub_expansion: PerKelvin,
    shaft_expansion: PerKelvin = 0.0,
    shaft_cooling: Kelvin = 0.0,
) -> Kelvin:
    r"""How much warmer than the reference the hub has to be to slip over the shaft.

    Parameters
    ----------
    interference : float [m]
        Diametral interference as measured, at the reference temperature.
    clearance : float [m]
        Diametral clearance wanted while assembling.
    interface_diameter : float [m]
        Diameter at which hub and shaft meet.
    hub_expansion : float [1/K]
        Expansion coefficient of the hub.
    shaft_expansion : float [1/K]
        Expansion coefficient of the shaft.
    shaft_cooling : float [K]
        How much colder than the reference the shaft is.

    Returns
    -------
    float [K]
        Temperature difference of the hub, not below zero.

    Raises
    ------
    OutOfDomainError
        If the hub's expansion coefficient or the diameter is not positive.

    Notes
    -----
    .. math:: \Delta T_h = \frac{\delta + c - \alpha_s d \Delta T_s}{\alpha_h d}

    References
    ----------
    [timoshenko1956] shrink fit of thick-walled cylinders

    Examples
    --------
    >>> round(warming_to_assemble(0.03e-3, clearance=0.03e-3, interface_diameter=0.032, hub_expansion=11e-6))
    170
    """
    if not (hub_expansion > 0.0 and interface_diameter > 0.0):
        raise OutOfDomainError(
            "hub_expansion and interface_diameter", (hub_expansion, interface_diameter), "positive"
        )
    wanted = interference + clearance - shaft_expansion * interface_diameter * shaft_cooling
    return max(wanted, 0.0) / (hub_expansion * interface_diameter)
