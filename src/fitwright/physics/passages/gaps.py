"""Laminar leakage through gaps: flat slots, faces, annular clearances."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from fitwright.physics.numerics.domain import require_above_zero, require_within
from fitwright.quantity import (
    CubicMetresPerSecond,
    FloatArray,
    KilogramsPerCubicMetre,
    Metres,
    MetresPerSecond,
    Numbers,
    Pascals,
    PascalSeconds,
)

LAMINAR_GAP_REYNOLDS = 1000.0
"""Reynolds number on the gap, mean speed times gap over kinematic viscosity, up to which gaps are laminar."""


def slot_leakage(
    pressure_drop: Pascals,
    *,
    gap: Metres,
    width: Metres,
    length: Metres,
    dynamic_viscosity: PascalSeconds,
    wall_speed: MetresPerSecond = 0.0,
) -> FloatArray:
    r"""Laminar flow through a thin flat slot, one wall sliding.

    Parameters
    ----------
    pressure_drop : array_like [Pa], shape (*s)
        Pressure upstream minus downstream; negative reverses the flow.
    gap : array_like [m], broadcastable to (*s)
        Distance between the walls; zero closes the slot.
    width : array_like [m], broadcastable to (*s)
        Extent across the flow.
    length : array_like [m], broadcastable to (*s)
        Extent along the flow.
    dynamic_viscosity : array_like [Pa s], broadcastable to (*s)
        Dynamic viscosity of the oil in the gap.
    wall_speed : array_like [m/s], broadcastable to (*s)
        Speed of one wall, positive downstream.

    Returns
    -------
    ndarray [m3/s], shape (*s)
        Volume flow, positive downstream.

    Raises
    ------
    OutOfDomainError
        If gap or width is negative, or length or viscosity is not above zero.

    Notes
    -----
    .. math:: Q = \frac{w h^3 \Delta p}{12 \mu L} + \frac{w h U}{2}

    Valid while the gap is small against width and length and the Reynolds number on it stays below about
    1000. The loss at the inlet edge and the pressure that turns into speed are neglected.

    References
    ----------
    [white2011] plane Poiseuille and Couette flow

    Examples
    --------
    Twice the gap leaks eight times as much:

    >>> flow = slot_leakage(4e5, gap=[50e-6, 100e-6], width=0.08, length=0.01, dynamic_viscosity=0.01)
    >>> (flow * 6e4).round(3).tolist()
    [0.2, 1.6]
    """
    from fitwright.physics.passages.kernels.gaps import slot

    require_within(gap=gap, width=width)
    require_above_zero(length=length, dynamic_viscosity=dynamic_viscosity)
    return _flow(slot.py_func, pressure_drop, gap, width, length, dynamic_viscosity, wall_speed)


def end_leakage(
    pressure_drop: Pascals,
    *,
    gap: Metres,
    outer_diameter: Metres,
    inner_diameter: Metres,
    dynamic_viscosity: PascalSeconds,
    share_of_turn: Numbers = 1.0,
) -> FloatArray:
    r"""Laminar radial flow between two parallel faces, over an annular land.

    Parameters
    ----------
    pressure_drop : array_like [Pa], shape (*s)
        Pressure at one edge of the land minus that at the other.
    gap : array_like [m], broadcastable to (*s)
        Distance between the faces, such as the end clearance of a rotor to its cover.
    outer_diameter : array_like [m], broadcastable to (*s)
        Outside of the land.
    inner_diameter : array_like [m], broadcastable to (*s)
        Inside of the land, smaller.
    dynamic_viscosity : array_like [Pa s], broadcastable to (*s)
        Dynamic viscosity of the oil in the gap.
    share_of_turn : array_like [1], broadcastable to (*s)
        Part of the full turn over which the pressure acts.

    Returns
    -------
    ndarray [m3/s], shape (*s)
        Volume flow, positive from the edge that the drop counts from.

    Raises
    ------
    OutOfDomainError
        If the gap is negative, a diameter or the viscosity is not above zero, the outer diameter not the
        larger one, or the share not within 0 to 1.

    Notes
    -----
    .. math:: Q = s \frac{\pi h^3 \Delta p}{6 \mu \ln(r_o / r_i)}

    Valid like the flat slot; a face that turns drags oil around, not outwards.

    References
    ----------
    [merritt1967] radial laminar flow between parallel discs

    Examples
    --------
    >>> flow = end_leakage(4e5, gap=40e-6, outer_diameter=0.060, inner_diameter=0.044,
    ...                    dynamic_viscosity=0.01)
    >>> round(float(flow) * 6e4, 3)
    0.259
    """
    from fitwright.physics.passages.kernels.gaps import end_gap

    require_within(gap=gap)
    require_within(most=1.0, share_of_turn=share_of_turn)
    require_above_zero(inner_diameter=inner_diameter, dynamic_viscosity=dynamic_viscosity)
    require_above_zero(outer_diameter_less_inner=np.subtract(outer_diameter, inner_diameter))
    whole = _flow(end_gap.py_func, pressure_drop, gap, outer_diameter, inner_diameter, dynamic_viscosity)
    return np.asarray(np.asarray(share_of_turn, dtype=float) * whole)


def annulus_leakage(
    pressure_drop: Pascals,
    *,
    diameter: Metres,
    radial_clearance: Metres,
    length: Metres,
    dynamic_viscosity: PascalSeconds,
    eccentricity_ratio: Numbers = 0.0,
) -> FloatArray:
    r"""Laminar flow along the clearance between a round part and its bore.

    Parameters
    ----------
    pressure_drop : array_like [Pa], shape (*s)
        Pressure upstream minus downstream; negative reverses the flow.
    diameter : array_like [m], broadcastable to (*s)
        Mean diameter of the clearance.
    radial_clearance : array_like [m], broadcastable to (*s)
        Clearance on the radius, half the difference of the diameters.
    length : array_like [m], broadcastable to (*s)
        Length of the land along the flow.
    dynamic_viscosity : array_like [Pa s], broadcastable to (*s)
        Dynamic viscosity of the oil in the gap.
    eccentricity_ratio : array_like [1], broadcastable to (*s)
        Offset of the centres over the radial clearance: 0 centred, 1 touching along one line.

    Returns
    -------
    ndarray [m3/s], shape (*s)
        Volume flow, positive downstream.

    Raises
    ------
    OutOfDomainError
        If the clearance is negative, diameter, length or viscosity not above zero, or the eccentricity ratio
        not within 0 to 1.

    Notes
    -----
    .. math:: Q = \frac{\pi d c^3 \Delta p}{12 \mu L} \left(1 + \tfrac32 \varepsilon^2\right)

    A part that touches its bore leaks two and a half times what it leaks centred. Valid for a clearance small
    against the diameter.

    References
    ----------
    [merritt1967] laminar flow in an annulus

    Examples
    --------
    >>> flow = annulus_leakage(4e5, diameter=0.016, radial_clearance=30e-6, length=0.012,
    ...                        dynamic_viscosity=0.01, eccentricity_ratio=[0.0, 1.0])
    >>> (flow * 6e4).round(4).tolist()
    [0.0226, 0.0565]
    """
    from fitwright.physics.passages.kernels.gaps import annulus

    require_within(radial_clearance=radial_clearance)
    require_within(most=1.0, eccentricity_ratio=eccentricity_ratio)
    require_above_zero(diameter=diameter, length=length, dynamic_viscosity=dynamic_viscosity)
    law = annulus.py_func
    clearance = radial_clearance
    return _flow(law, pressure_drop, diameter, clearance, eccentricity_ratio, length, dynamic_viscosity)


def gap_reynolds_number(
    flow: CubicMetresPerSecond,
    *,
    width: Metres,
    dynamic_viscosity: PascalSeconds,
    density: KilogramsPerCubicMetre,
) -> FloatArray:
    r"""Reynolds number on the gap of a leak, by which to see whether it is laminar.

    Parameters
    ----------
    flow : array_like [m3/s], shape (*s)
        Volume flow of the leak.
    width : array_like [m], broadcastable to (*s)
        Extent across the flow: of an annulus, the circumference.
    dynamic_viscosity : array_like [Pa s], broadcastable to (*s)
        Dynamic viscosity of the oil in the gap.
    density : array_like [kg/m3], broadcastable to (*s)
        Density of the oil.

    Returns
    -------
    ndarray [1], shape (*s)
        Mean speed times gap over kinematic viscosity.

    Raises
    ------
    OutOfDomainError
        If width, viscosity or density is not above zero.

    Notes
    -----
    .. math:: Re = \frac{\rho |Q|}{\mu w}

    Up to about 1000 the flow is laminar; the gap itself cancels.

    References
    ----------
    [white2011] plane Poiseuille flow

    Examples
    --------
    >>> round(float(gap_reynolds_number(0.2 / 6e4, width=0.08, dynamic_viscosity=0.01, density=850.0)), 2)
    3.54
    """
    require_above_zero(width=width, dynamic_viscosity=dynamic_viscosity, density=density)
    return np.asarray(np.asarray(density) * np.abs(flow) / np.multiply(width, dynamic_viscosity), dtype=float)


def _flow(law: Callable[..., Any], *arguments: ArrayLike) -> FloatArray:
    """What a compiled law says, here run on arrays."""
    flow, _ = law(*(np.asarray(argument, dtype=float) for argument in arguments))
    return np.asarray(flow)
