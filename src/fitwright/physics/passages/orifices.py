"""Flow through sharp orifices."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

from fitwright.physics.numerics.domain import require_above_zero, require_within
from fitwright.quantity import (
    FloatArray,
    KilogramsPerCubicMetre,
    Metres,
    Number,
    Numbers,
    Pascals,
    PascalSeconds,
)

SHARP_DISCHARGE_COEFFICIENT: Number = 0.611
"""Discharge coefficient of a sharp orifice at high Reynolds number, pi / (pi + 2), of a plane free jet."""


def orifice_flow(
    pressure_drop: Pascals,
    *,
    diameter: Metres,
    density: KilogramsPerCubicMetre,
    dynamic_viscosity: PascalSeconds,
    discharge_coefficient: Numbers = SHARP_DISCHARGE_COEFFICIENT,
) -> FloatArray:
    r"""Flow through a sharp round orifice, from creeping to turbulent.

    Parameters
    ----------
    pressure_drop : array_like [Pa], shape (*s)
        Pressure upstream minus downstream; negative reverses the flow.
    diameter : array_like [m], broadcastable to (*s)
        Diameter of the orifice, small against the passage before it.
    density : array_like [kg/m3], broadcastable to (*s)
        Density of the oil.
    dynamic_viscosity : array_like [Pa s], broadcastable to (*s)
        Dynamic viscosity of the oil.
    discharge_coefficient : array_like [1], broadcastable to (*s)
        Flow over that of an ideal jet filling the orifice, at high Reynolds number.

    Returns
    -------
    ndarray [m3/s], shape (*s)
        Volume flow, positive downstream.

    Raises
    ------
    OutOfDomainError
        If diameter, density or viscosity is not above zero, or the discharge coefficient not within 0.1 to 1.

    Notes
    -----
    .. math:: Q = C_d A \sqrt{\frac{2}{\rho}} \frac{\Delta p}{(\Delta p^2 + \Delta p_t^2)^{1/4}}

    Proportional to the drop where the oil creeps (exactly as through a hole in a thin wall), the orifice
    equation where it does not; in between it interpolates.

    References
    ----------
    [merritt1967] orifice flow
    [sampson1891] creeping flow through a circular aperture

    Examples
    --------
    >>> flow = orifice_flow([1e5, 4e5], diameter=0.0015, density=850.0, dynamic_viscosity=0.01)
    >>> (flow * 6e4).round(3).tolist()
    [0.994, 1.987]
    """
    from fitwright.physics.passages.kernels.orifice import orifice

    require_above_zero(diameter=diameter, density=density, dynamic_viscosity=dynamic_viscosity)
    require_within(0.1, 1.0, discharge_coefficient=discharge_coefficient)
    law: Callable[..., Any] = orifice.py_func
    arguments = (pressure_drop, diameter, discharge_coefficient, density, dynamic_viscosity)
    return np.asarray(law(*(np.asarray(argument, dtype=float) for argument in arguments))[0])
