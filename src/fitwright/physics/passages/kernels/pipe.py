"""Flow in pipes and drillings, laminar and turbulent, compiled."""

from __future__ import annotations

import math

from numba import njit

from fitwright.quantity import CubicMetrePerSecond, KilogramPerCubicMetre, Metre, Number, Pascal, PascalSecond

LAMINAR_UP_TO: Number = 2000.0
"""Reynolds number up to which the flow is taken as laminar."""

TURBULENT_FROM: Number = 2500.0
"""Reynolds number from which on the flow is taken as turbulent; between the two the friction blends."""

_LOSS_LAMINAR_REYNOLDS = (
    10.0  # below it a loss coefficient acts in proportion to speed, so zero flow has a slope
)
_COLEBROOK_STEPS = 4
_MOST_STEPS = 80


@njit(cache=True, nogil=True, error_model="numpy")
def _colebrook(reynolds: float, relative_roughness: float) -> tuple[float, float]:
    """Turbulent friction factor and its derivative by the Reynolds number."""
    rough = relative_roughness / 3.7
    x = -1.8 * math.log10(rough**1.11 + 6.9 / reynolds)  # Haaland's explicit form to begin with
    for _ in range(_COLEBROOK_STEPS):
        inner = rough + 2.51 * x / reynolds
        off = x + 2.0 * math.log10(inner)
        x -= off / (1.0 + 2.0 / math.log(10.0) * 2.51 / (reynolds * inner))
    inner = rough + 2.51 * x / reynolds
    along = 2.0 / (math.log(10.0) * inner)
    dx = along * 2.51 * x / reynolds**2 / (1.0 + along * 2.51 / reynolds)
    return 1.0 / x**2, -2.0 / x**3 * dx


@njit(cache=True, nogil=True, error_model="numpy")
def friction(reynolds: Number, relative_roughness: Number) -> tuple[Number, Number]:
    r"""Darcy friction factor of a round pipe.

    Parameters
    ----------
    reynolds : float [1]
        Reynolds number on the diameter, above zero.
    relative_roughness : float [1]
        Roughness height over the diameter.

    Returns
    -------
    tuple of float [1]
        Friction factor, and its derivative by the Reynolds number.

    Notes
    -----
    .. math:: f = \frac{64}{Re}, \qquad
              \frac{1}{\sqrt f} = -2 \log_{10}\left(\frac{e/D}{3.7} + \frac{2.51}{Re \sqrt f}\right)

    Laminar up to Re = 2000, Colebrook's equation solved by Newton's method from 2500 on, a cubic blend of
    both between; there nature is unsteady and the blend is only smooth.

    References
    ----------
    [colebrook1939] transition between smooth and rough pipes
    [haaland1983] explicit form, where Newton's method begins

    Examples
    --------
    >>> f, slope = friction(1e5, 1e-3)
    >>> round(f, 7)
    0.0221745
    """
    laminar, laminar_slope = 64.0 / reynolds, -64.0 / reynolds**2
    if reynolds <= LAMINAR_UP_TO:
        return laminar, laminar_slope
    turbulent, turbulent_slope = _colebrook(reynolds, relative_roughness)
    if reynolds >= TURBULENT_FROM:
        return turbulent, turbulent_slope
    t = (reynolds - LAMINAR_UP_TO) / (TURBULENT_FROM - LAMINAR_UP_TO)
    share = t * t * (3.0 - 2.0 * t)
    share_slope = 6.0 * t * (1.0 - t) / (TURBULENT_FROM - LAMINAR_UP_TO)
    factor = laminar + share * (turbulent - laminar)
    slope = laminar_slope + share * (turbulent_slope - laminar_slope) + share_slope * (turbulent - laminar)
    return factor, slope


@njit(cache=True, nogil=True, error_model="numpy")
def pipe_drop(
    flow: CubicMetrePerSecond,
    diameter: Metre,
    length: Metre,
    roughness: Metre,
    loss_coefficient: Number,
    density: KilogramPerCubicMetre,
    viscosity: PascalSecond,
) -> tuple[Pascal, float]:
    r"""Pressure drop of a pipe with fittings.

    Parameters
    ----------
    flow : float [m3/s]
        Volume flow, negative upstream.
    diameter : float [m]
        Inside diameter.
    length : float [m]
        Length.
    roughness : float [m]
        Roughness height of the wall.
    loss_coefficient : float [1]
        Sum of the loss coefficients of edges, bends and outlets, on this diameter.
    density : float [kg/m3]
        Density.
    viscosity : float [Pa s]
        Dynamic viscosity.

    Returns
    -------
    tuple of float [Pa]
        Pressure drop, and its derivative by the flow [Pa s/m3].

    Notes
    -----
    .. math:: \Delta p = \frac{\rho v |v|}{2} \left(f \frac{L}{D} + K\right)

    The loss coefficient is constant; below a Reynolds number of about 10 its drop becomes proportional to
    the speed, so that a passage of losses alone has a slope at rest.

    References
    ----------
    [white2011] head loss of pipes and minor losses

    Examples
    --------
    >>> drop, slope = pipe_drop(20 / 6e4, 0.008, 0.3, 0.0, 0.5, 850.0, 0.01)
    >>> round(drop)
    36348
    """
    area = 0.25 * math.pi * diameter**2
    speed = abs(flow) / area
    reynolds = density * speed * diameter / viscosity
    # Laminar friction is written on its own: at rest there is no friction factor.
    drop = 32.0 * viscosity * length * speed / diameter**2
    slope = 32.0 * viscosity * length / diameter**2
    if reynolds > LAMINAR_UP_TO:
        factor, factor_slope = friction(reynolds, roughness / diameter)
        scale = 0.5 * density * length / diameter
        drop = scale * factor * speed**2
        slope = scale * (2.0 * factor * speed + factor_slope * reynolds * speed)
    start = _LOSS_LAMINAR_REYNOLDS * viscosity / (density * diameter)
    root = math.sqrt(speed**2 + start**2)
    drop += 0.5 * density * loss_coefficient * speed * root
    slope += 0.5 * density * loss_coefficient * (root + speed**2 / root)
    return math.copysign(drop, flow), slope / area


@njit(cache=True, nogil=True, error_model="numpy")
def pipe(
    pressure_drop: Pascal,
    diameter: Metre,
    length: Metre,
    roughness: Metre,
    loss_coefficient: Number,
    density: KilogramPerCubicMetre,
    viscosity: PascalSecond,
) -> tuple[CubicMetrePerSecond, float]:
    r"""Flow through a pipe with fittings.

    Parameters
    ----------
    pressure_drop : float [Pa]
        Pressure upstream minus downstream.
    diameter : float [m]
        Inside diameter.
    length : float [m]
        Length; it may be zero where there is a loss coefficient.
    roughness : float [m]
        Roughness height of the wall.
    loss_coefficient : float [1]
        Sum of the loss coefficients of edges, bends and outlets, on this diameter.
    density : float [kg/m3]
        Density.
    viscosity : float [Pa s]
        Dynamic viscosity.

    Returns
    -------
    tuple of float [m3/s]
        Volume flow, and its derivative by the pressure drop [m3/(s Pa)]; NaN where no flow was found.

    Notes
    -----
    The flow for which `pipe_drop` gives the pressure drop, by Newton's method kept inside a bracket that
    only shrinks. The drop grows with the flow throughout, so there is one such flow.

    References
    ----------
    [white2011] pipe flow, flow rate unknown

    Examples
    --------
    >>> flow, slope = pipe(36347.71, 0.008, 0.3, 0.0, 0.5, 850.0, 0.01)
    >>> round(flow * 6e4, 3)
    20.0
    """
    target = abs(pressure_drop)
    _, slope = pipe_drop(0.0, diameter, length, roughness, loss_coefficient, density, viscosity)
    if target == 0.0:
        return 0.0, 1.0 / slope
    # The drop is never below its tangent at rest, nor below that of the losses alone: two upper bounds.
    lower, upper = 0.0, target / slope
    if loss_coefficient > 0.0:
        ideal = 0.25 * math.pi * diameter**2 * math.sqrt(2.0 * target / (density * loss_coefficient))
        upper = min(upper, ideal)
    flow = upper
    for _ in range(_MOST_STEPS):
        drop, slope = pipe_drop(flow, diameter, length, roughness, loss_coefficient, density, viscosity)
        if drop < target:
            lower = flow
        else:
            upper = flow
        following = flow - (drop - target) / slope
        if abs(following - flow) <= 4e-16 * flow or drop == target:
            return math.copysign(flow, pressure_drop), 1.0 / slope
        if not lower < following < upper:
            following = 0.5 * (lower + upper)
            if following in (lower, upper):
                return math.copysign(flow, pressure_drop), 1.0 / slope
        flow = following
    return math.nan, math.nan
