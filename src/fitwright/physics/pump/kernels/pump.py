"""Flow of a positive displacement pump with its leaks, smooth in both pressures."""

from __future__ import annotations

import numpy as np
from numba import njit

from fitwright.quantity import (
    CubicMetrePerSecond,
    FloatArray,
    KilogramPerCubicMetre,
    Pascal,
    PascalSecond,
    RadianPerSecond,
)

# How sharply filling gives way from "all of it" to "as much as the inlet lets in": at twice the flow
# wanted, 0.05 % is missing; where both are equal, 8 %.
FILLING_SHARPNESS = 8
# Pressure [Pa] over which "above the release pressure" sets in.
RELEASE_SMOOTHING = 500.0


@njit(cache=True, nogil=True, error_model="numpy")
def filled_flow(
    inlet_gauge_pressure: Pascal,
    swept_flow: CubicMetrePerSecond,
    angular_speed: RadianPerSecond,
    density: KilogramPerCubicMetre,
    filling: FloatArray,
) -> tuple[CubicMetrePerSecond, float]:
    r"""Flow that gets into the chambers of a pump at a pressure before its inlet port.

    Parameters
    ----------
    inlet_gauge_pressure : float [Pa]
        Gauge pressure before the inlet port.
    swept_flow : float [m3/s]
        Displacement times angular speed: what full chambers would take in.
    angular_speed : float [rad/s]
        Of the chambers.
    density : float [kg/m3]
        Of the oil.
    filling : ndarray, shape (3)
        Gauge pressure at which air or vapour is released [Pa], effective area of the inlet port [m2],
        and half the difference of the squared radii of port and innermost chamber wall [m2].

    Returns
    -------
    tuple of float [m3/s]
        Flow taken in, and its derivative by the inlet pressure [m3/(s Pa)].

    Notes
    -----
    .. math:: Q_{max} = A_f \sqrt{\tfrac{2}{\rho} (p_{in} - p_{rel} - \rho \omega^2 C_f)^+}, \quad
              Q = Q_{sw} \left[1 + (Q_{sw}/Q_{max})^n\right]^{-1/n}

    The inlet port lets in no more than the head above the release pressure drives; n is
    `FILLING_SHARPNESS`, the positive part is rounded over `RELEASE_SMOOTHING`, so that the flow is smooth
    and rises with pressure everywhere. A model of one pressure and one port, not of bubbles.

    References
    ----------
    [ivantysyn2001] filling limit of the inlet; the smooth minimum is this project's

    Examples
    --------
    >>> import numpy as np
    >>> filling = np.array([-70e3, 300e-6, 0.0])
    >>> [round(60e3 * filled_flow(p, 1e-3, 600.0, 850.0, filling)[0], 1) for p in (-10e3, -60e3, -70e3)]
    [60.0, 59.6, 19.5]
    """
    if swept_flow <= 0.0:
        return swept_flow, 0.0
    head = inlet_gauge_pressure - filling[0] - density * angular_speed * angular_speed * filling[2]
    root = np.sqrt(head * head + 4.0 * RELEASE_SMOOTHING * RELEASE_SMOOTHING)
    # The same positive part, written so that nothing cancels far below the release pressure.
    if head >= 0.0:
        above = 0.5 * (head + root)
    else:
        above = 2.0 * RELEASE_SMOOTHING * RELEASE_SMOOTHING / (root - head)
    largest = filling[1] * np.sqrt(2.0 * above / density)
    slope = 0.5 * largest / root  # d above / d head is above / root
    ratio = (swept_flow / largest) ** FILLING_SHARPNESS
    if not np.isfinite(ratio):
        return largest, slope
    flow = swept_flow * (1.0 + ratio) ** (-1.0 / FILLING_SHARPNESS)
    return flow, (flow / largest) ** (FILLING_SHARPNESS + 1) * slope


@njit(cache=True, nogil=True, error_model="numpy")
def pump_flow(
    outlet_gauge_pressure: Pascal,
    inlet_gauge_pressure: Pascal,
    angular_speed: RadianPerSecond,
    viscosity: PascalSecond,
    density: KilogramPerCubicMetre,
    displacement_per_radian: float,
    filling: FloatArray,
    pressure_coefficients: FloatArray,
    drag_coefficients: FloatArray,
    clearances: FloatArray,
) -> tuple[CubicMetrePerSecond, float, float, CubicMetrePerSecond]:
    r"""Net flow of a pump into its outlet: what the chambers take in less what leaks back.

    Parameters
    ----------
    outlet_gauge_pressure, inlet_gauge_pressure : float [Pa]
        Gauge pressures behind and before the pump.
    angular_speed : float [rad/s]
        Of the driven rotor, zero or more.
    viscosity : float [Pa s]
        Dynamic viscosity of the oil in the gaps.
    density : float [kg/m3]
        Of the oil.
    displacement_per_radian : float [m3/rad]
        Displacement per revolution over 2 pi.
    filling : ndarray, shape (3)
        As in `filled_flow`.
    pressure_coefficients : ndarray, shape (k) [1]
        Leak of each path = coefficient x clearance cubed x pressure rise / viscosity.
    drag_coefficients : ndarray, shape (k) [m2/rad]
        Leak of each path = coefficient x clearance x angular speed.
    clearances : ndarray, shape (k) [m]
        The clearance of each path.

    Returns
    -------
    tuple of float [m3/s]
        Net flow; its derivatives by outlet and by inlet pressure [m3/(s Pa)]; leakage.

    Notes
    -----
    .. math:: Q = Q_{filled} - \sum_k \left[a_k h_k^3 \frac{p_{out} - p_{in}}{\mu} + b_k h_k \omega\right]

    References
    ----------
    [ivantysyn2001] losses of displacement machines: laminar gaps with moving walls

    Examples
    --------
    >>> import numpy as np
    >>> flow, _, _, leak = pump_flow(
    ...     3e5, -5e3, 300.0, 0.012, 840.0, 2e-6, np.array([-70e3, 300e-6, 0.0]),
    ...     np.array([3.0]), np.array([0.0]), np.array([40e-6]))
    >>> round(flow * 60e3, 2), round(leak * 60e3, 2)
    (35.71, 0.29)
    """
    swept = displacement_per_radian * angular_speed
    filled, filled_slope = filled_flow(inlet_gauge_pressure, swept, angular_speed, density, filling)
    conductance = 0.0
    dragged = 0.0
    for k in range(clearances.size):
        h = clearances[k]
        conductance += pressure_coefficients[k] * h * h * h / viscosity
        dragged += drag_coefficients[k] * h * angular_speed
    leakage = conductance * (outlet_gauge_pressure - inlet_gauge_pressure) + dragged
    return filled - leakage, -conductance, filled_slope + conductance, leakage


@njit(cache=True, nogil=True, error_model="numpy")
def flow_by_clearance(
    pressure_rise: Pascal,
    angular_speed: RadianPerSecond,
    viscosity: PascalSecond,
    pressure_coefficients: FloatArray,
    drag_coefficients: FloatArray,
    clearances: FloatArray,
) -> FloatArray:
    r"""Derivative of the net flow of a pump by each of its clearances.

    Parameters
    ----------
    pressure_rise : float [Pa]
        Outlet pressure less inlet pressure.
    angular_speed : float [rad/s]
        Of the driven rotor.
    viscosity : float [Pa s]
        Dynamic viscosity of the oil in the gaps.
    pressure_coefficients, drag_coefficients, clearances : ndarray, shape (k)
        As in `pump_flow`.

    Returns
    -------
    ndarray, shape (k) [m2/s]
        Change of the net flow per metre of clearance.

    Notes
    -----
    .. math:: \frac{\partial Q}{\partial h_k} = -3 a_k h_k^2 \frac{\Delta p}{\mu} - b_k \omega

    References
    ----------
    [ivantysyn2001] losses of displacement machines: laminar gaps with moving walls

    Examples
    --------
    >>> import numpy as np
    >>> found = flow_by_clearance(3e5, 300.0, 0.012, np.array([3.0]), np.array([0.0]), np.array([40e-6]))
    >>> round(float(found[0]) * 60e3 * 0.01e-3, 3)  # litres per minute for each hundredth of a millimetre
    -0.216
    """
    slopes = np.empty(clearances.size)
    for k in range(clearances.size):
        h = clearances[k]
        by_pressure = 3.0 * pressure_coefficients[k] * h * h * pressure_rise / viscosity
        slopes[k] = -by_pressure - drag_coefficients[k] * angular_speed
    return slopes
