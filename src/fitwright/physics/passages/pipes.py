"""Pipes and drillings: friction factor, flow from pressure drop, pressure drop from flow."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from fitwright.physics.numerics.domain import require_above_zero, require_within
from fitwright.physics.numerics.errors import NotConvergedError
from fitwright.quantity import (
    CubicMetresPerSecond,
    FloatArray,
    KilogramsPerCubicMetre,
    Metres,
    Numbers,
    Pascals,
    PascalSeconds,
)


def pipe_friction_factor(reynolds_number: Numbers, relative_roughness: Numbers = 0.0) -> FloatArray:
    r"""Darcy friction factor of a round pipe, laminar and turbulent.

    Parameters
    ----------
    reynolds_number : array_like [1], shape (*s)
        Reynolds number on the diameter.
    relative_roughness : array_like [1], broadcastable to (*s)
        Roughness height over the diameter.

    Returns
    -------
    ndarray [1], shape (*s)
        Friction factor, four times the one of Fanning.

    Raises
    ------
    OutOfDomainError
        If a Reynolds number is not above zero, or a relative roughness not within 0 to 0.1.

    Notes
    -----
    .. math:: f = \frac{64}{Re}, \qquad
              \frac{1}{\sqrt f} = -2 \log_{10}\left(\frac{e/D}{3.7} + \frac{2.51}{Re \sqrt f}\right)

    Laminar up to Re = 2000, turbulent (Colebrook) from 2500 on, a smooth blend between. Colebrook's equation
    meets the measurements behind it within some 10 %; drillings of an engine are short, and bends and edges
    before them make the flow turbulent earlier or later than in a long pipe.

    References
    ----------
    [colebrook1939] transition between smooth and rough pipes
    [white2011] laminar friction

    Examples
    --------
    >>> pipe_friction_factor([1000.0, 1e5], 1e-3).round(5).tolist()
    [0.064, 0.02217]
    """
    from fitwright.physics.passages.kernels.batches import frictions

    require_above_zero(reynolds_number=reynolds_number)
    require_within(0.0, 0.1, relative_roughness=relative_roughness)
    return _each(frictions, reynolds_number, relative_roughness)


def pipe_flow(
    pressure_drop: Pascals,
    *,
    diameter: Metres,
    length: Metres,
    density: KilogramsPerCubicMetre,
    dynamic_viscosity: PascalSeconds,
    roughness: Metres = 0.0,
    loss_coefficient: Numbers = 0.0,
) -> FloatArray:
    r"""Flow through a pipe or drilling with its edges and bends.

    Parameters
    ----------
    pressure_drop : array_like [Pa], shape (*s)
        Pressure upstream minus downstream; negative reverses the flow.
    diameter : array_like [m], broadcastable to (*s)
        Inside diameter.
    length : array_like [m], broadcastable to (*s)
        Length.
    density : array_like [kg/m3], broadcastable to (*s)
        Density of the oil.
    dynamic_viscosity : array_like [Pa s], broadcastable to (*s)
        Dynamic viscosity of the oil.
    roughness : array_like [m], broadcastable to (*s)
        Roughness height of the wall.
    loss_coefficient : array_like [1], broadcastable to (*s)
        Sum of the loss coefficients of edges, bends and outlets, on this diameter.

    Returns
    -------
    ndarray [m3/s], shape (*s)
        Volume flow, positive downstream.

    Raises
    ------
    OutOfDomainError
        If diameter, length, density or viscosity is not above zero, or roughness or loss is negative.
    NotConvergedError
        If no flow was found that gives the drop.

    Notes
    -----
    .. math:: \Delta p = \frac{\rho v |v|}{2} \left(f \frac{L}{D} + K\right)

    solved for the flow by a bracketed Newton method.

    References
    ----------
    [white2011] pipe flow, flow rate unknown

    Examples
    --------
    >>> flow = pipe_flow(36347.71, diameter=0.008, length=0.3, density=850.0, dynamic_viscosity=0.01,
    ...                  loss_coefficient=0.5)
    >>> round(float(flow) * 6e4, 3)
    20.0
    """
    from fitwright.physics.passages.kernels.batches import flows

    require_above_zero(diameter=diameter, length=length, density=density, dynamic_viscosity=dynamic_viscosity)
    require_within(roughness=roughness, loss_coefficient=loss_coefficient)
    drop = np.asarray(pressure_drop, dtype=float)
    found = _each(flows, drop, diameter, length, roughness, loss_coefficient, density, dynamic_viscosity)
    if not np.isfinite(found).all():
        raise NotConvergedError("the flow of a pipe", 80, float("nan"), 4e-16)
    return found


def pipe_pressure_drop(
    flow: CubicMetresPerSecond,
    *,
    diameter: Metres,
    length: Metres,
    density: KilogramsPerCubicMetre,
    dynamic_viscosity: PascalSeconds,
    roughness: Metres = 0.0,
    loss_coefficient: Numbers = 0.0,
) -> FloatArray:
    r"""Pressure drop of a pipe or drilling with its edges and bends.

    Parameters
    ----------
    flow : array_like [m3/s], shape (*s)
        Volume flow; negative reverses the drop.
    diameter : array_like [m], broadcastable to (*s)
        Inside diameter.
    length : array_like [m], broadcastable to (*s)
        Length; zero for losses alone.
    density : array_like [kg/m3], broadcastable to (*s)
        Density of the oil.
    dynamic_viscosity : array_like [Pa s], broadcastable to (*s)
        Dynamic viscosity of the oil.
    roughness : array_like [m], broadcastable to (*s)
        Roughness height of the wall.
    loss_coefficient : array_like [1], broadcastable to (*s)
        Sum of the loss coefficients of edges, bends and outlets, on this diameter.

    Returns
    -------
    ndarray [Pa], shape (*s)
        Pressure upstream minus downstream.

    Raises
    ------
    OutOfDomainError
        If diameter, density or viscosity is not above zero, or another size is negative.

    Notes
    -----
    .. math:: \Delta p = \frac{\rho v |v|}{2} \left(f \frac{L}{D} + K\right)

    Loss coefficients are those of turbulent flow; in laminar flow real ones are larger, so that cold thick
    oil loses more at edges than this. Over any length, friction then outweighs them.

    References
    ----------
    [white2011] head loss of pipes and minor losses

    Examples
    --------
    >>> drop = pipe_pressure_drop(20 / 6e4, diameter=0.008, length=0.3, density=850.0, dynamic_viscosity=0.01,
    ...                           loss_coefficient=0.5)
    >>> round(float(drop))
    36348
    """
    from fitwright.physics.passages.kernels.batches import drops

    require_above_zero(diameter=diameter, density=density, dynamic_viscosity=dynamic_viscosity)
    require_within(length=length, roughness=roughness, loss_coefficient=loss_coefficient)
    return _each(drops, flow, diameter, length, roughness, loss_coefficient, density, dynamic_viscosity)


def _each(batch: Callable[..., Any], *arguments: ArrayLike) -> FloatArray:
    """A compiled law at every element of its arguments."""
    together = np.broadcast_arrays(*(np.asarray(argument, dtype=float) for argument in arguments))
    flat = [np.ascontiguousarray(each).ravel() for each in together]
    return np.asarray(batch(*flat)).reshape(together[0].shape)
