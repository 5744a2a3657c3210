"""What a relief valve lets the pressure rise by, at a flow; what shims do; whether its spring binds."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Final

from fitwright.physics.numerics.errors import NotConvergedError, OutOfDomainError
from fitwright.physics.pump.relief import (
    ReliefValve,
    cracking_pressure,
    full_bypass_pressure,
    relief_parameters,
)
from fitwright.quantity import (
    CubicMetrePerSecond,
    KilogramPerCubicMetre,
    Metre,
    Number,
    Pascal,
    PascalSecond,
)

COIL_MARGIN: Final = 1.0e-3
"""What has to be left between the coils at full lift."""
AT_ITS_STOP: Final = (
    "The plunger stands at its stop: the bypass is too small, and pressure rises with flow squared."
)
BINDS: Final = "The spring binds before full lift: fit one with more room, or take shims out."
_STEEPNESS: Final = 1e-12


@dataclass(frozen=True, slots=True)
class Override:
    """A relief valve at a flow.

    Attributes
    ----------
    pressure : float [Pa]
        Pressure drop at which it passes the flow.
    cracking_pressure : float [Pa]
        Where its ports begin to open.
    override : float [Pa]
        How far the pressure lies above that; negative where leaks alone pass the flow.
    full_bypass_pressure : float [Pa]
        Where the plunger reaches its stop.
    lift : float [m]
        Lift of the plunger.
    iterations : int
        Steps of the search.
    residual : float [1]
        What the flow found is off by, over the flow.
    cautions : tuple of str
        What to know before using the numbers.
    """

    pressure: Pascal
    cracking_pressure: Pascal
    override: Pascal
    full_bypass_pressure: Pascal
    lift: Metre
    iterations: int
    residual: Number
    cautions: tuple[str, ...]


def relief_override(
    valve: ReliefValve,
    flow: CubicMetrePerSecond,
    *,
    density: KilogramPerCubicMetre,
    dynamic_viscosity: PascalSecond,
    most_iterations: int = 100,
) -> Override:
    r"""Pressure drop at which a relief valve passes a flow, and how far it lies above cracking.

    Parameters
    ----------
    valve : ReliefValve
        The valve.
    flow : float [m3/s]
        What it has to pass.
    density : float [kg/m3]
        Of the oil.
    dynamic_viscosity : float [Pa s]
        Of the oil.
    most_iterations : int
        Bound on the steps of the search.

    Returns
    -------
    Override
        Pressure, override and lift.

    Raises
    ------
    OutOfDomainError
        If the flow is not positive, or no pressure below 1 GPa passes it.
    NotConvergedError
        If the search ended before the flow was found.

    Notes
    -----
    Newton's method on `relief_flow`, which rises with pressure, kept inside a bracket.

    .. math:: Q_{relief}(p) = Q

    References
    ----------
    [merritt1967] direct-acting relief valves

    Examples
    --------
    >>> valve = ReliefValve(8e3, 7e-3, seat_diameter=12e-3, full_lift=5e-3)
    >>> found = relief_override(valve, 40e-3 / 60.0, density=850.0, dynamic_viscosity=0.015)
    >>> round(found.pressure / 1e5, 2), round(found.override / 1e5, 2), round(found.lift * 1e3, 2)
    (5.49, 0.54, 0.76)
    """
    from fitwright.physics.pump.kernels.relief import relief_flow_slopes

    if not flow > 0.0:
        raise OutOfDomainError("flow", flow, "greater than zero")
    parameters = relief_parameters(valve)
    state = valve.preload_length, valve.plunger_radial_clearance, valve.seat_leak_lift
    oil = density, dynamic_viscosity

    def passed(pressure: Pascal) -> tuple[float, float, float]:
        found = relief_flow_slopes(pressure, *state, parameters, *oil)
        return float(found[0]), float(found[1]), float(found[4])

    low, high = 0.0, max(2.0 * cracking_pressure(valve), 1e4)
    while passed(high)[0] < flow:
        low, high = high, 2.0 * high
        if high > 1e9:
            raise OutOfDomainError("flow", flow, "one that the valve can pass")
    pressure, off = 0.5 * (low + high), math.inf
    for step in range(1, most_iterations + 1):
        found, slope, lift = passed(pressure)
        off = found / flow - 1.0
        low, high = (pressure, high) if off < 0.0 else (low, pressure)
        if abs(off) <= _STEEPNESS or high - low <= 1e-12 * high:
            return _override(valve, pressure, lift, (step, off))
        newton = pressure - off * flow / slope if slope > 0.0 else low
        pressure = newton if low < newton < high else 0.5 * (low + high)
    raise NotConvergedError("pressure at a relief flow", most_iterations, abs(off), _STEEPNESS)


def _override(valve: ReliefValve, pressure: Pascal, lift: Metre, search: tuple[int, float]) -> Override:
    cracking = cracking_pressure(valve)
    at_stop = lift >= valve.full_lift
    return Override(
        pressure=pressure,
        cracking_pressure=cracking,
        override=pressure - cracking,
        full_bypass_pressure=full_bypass_pressure(valve),
        lift=lift,
        iterations=search[0],
        residual=abs(search[1]),
        cautions=(AT_ITS_STOP,) if at_stop else (),
    )


def with_shims(valve: ReliefValve, thickness: Metre) -> ReliefValve:
    r"""The valve with shims under its spring; a negative thickness takes shims out.

    Parameters
    ----------
    valve : ReliefValve
        The valve as it is.
    thickness : float [m]
        Of the shims put in.

    Returns
    -------
    ReliefValve
        The valve with its preload length changed.

    Raises
    ------
    OutOfDomainError
        If no preload is left.

    Notes
    -----
    .. math:: x_0' = x_0 + t, \quad \Delta p = k t / A_p

    References
    ----------
    [merritt1967] direct-acting relief valves

    Examples
    --------
    >>> valve = ReliefValve(8e3, 7e-3, seat_diameter=12e-3, full_lift=5e-3)
    >>> round((cracking_pressure(with_shims(valve, 0.5e-3)) - cracking_pressure(valve)) / 1e5, 3)
    0.354
    """
    preload = valve.preload_length + thickness
    if preload < 0.0:
        raise OutOfDomainError("thickness", thickness, f"at least {-valve.preload_length}")
    return replace(valve, preload_length=preload)


def coil_bind_margin(
    free_length: Metre, *, coil_bind_length: Metre, preload_length: Metre, full_lift: Metre
) -> Metre:
    r"""What is left between the coils of a relief spring at full lift, beyond the margin that it needs.

    Parameters
    ----------
    free_length : float [m]
        Of the spring, without load.
    coil_bind_length : float [m]
        Of the spring with its coils on each other.
    preload_length : float [m]
        How far the closed valve shortens it, shims included.
    full_lift : float [m]
        Lift at the plunger's stop.

    Returns
    -------
    float [m]
        Zero or more where the spring has room; negative where it has not.

    Raises
    ------
    OutOfDomainError
        If the spring is not longer than bound.

    Notes
    -----
    .. math:: L_0 - L_b - x_0 - y_{full} - 1\,\text{mm}

    A spring that binds holds the valve shut: filter and seals burst on a cold start.

    References
    ----------
    [merritt1967] direct-acting relief valves; the margin of 1 mm is a rule of the trade

    Examples
    --------
    >>> left = coil_bind_margin(46e-3, coil_bind_length=28e-3, preload_length=9e-3, full_lift=7e-3)
    >>> round(left * 1e3, 3)
    1.0
    """
    if not free_length > coil_bind_length > 0.0:
        raise OutOfDomainError("free_length", free_length, f"above the bound length {coil_bind_length}")
    return free_length - coil_bind_length - preload_length - full_lift - COIL_MARGIN
