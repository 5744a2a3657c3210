"""A relief valve: when it opens, how much it lets by at a pressure, what closed it still leaks."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import StrEnum

import numpy as np

from fitwright.physics.numerics.errors import NotConvergedError, OutOfDomainError
from fitwright.quantity import (
    FloatArray,
    KilogramPerCubicMetre,
    Metre,
    NewtonPerMetre,
    Number,
    Pascal,
    Pascals,
    PascalSecond,
    SquareMetre,
)

OPENING_SMOOTHING = 0.005
"""Lift over which opening sets in and ends, as a share of the full lift."""
SHARP_EDGE_TRANSITION = (0.611 / 0.2) ** 2
"""Reynolds number at which laminar and turbulent flow past a sharp round edge meet [merritt1967]."""
SPOOL_FLOW_FORCE = 0.43
"""Closing force over (pressure drop x open area), sharp-edged plunger, jet at 69 degrees [merritt1967]."""


class Ports(StrEnum):
    """What the plunger uncovers."""

    ROUND = "round ports"
    ANNULUS = "full annulus"
    SEAT = "seat"


@dataclass(frozen=True, slots=True)
class ReliefValve:
    """The sizes of a relief valve whose spring space is drained to behind it.

    Attributes
    ----------
    spring_rate : float [N/m]
        Rate of the spring.
    preload_length : float [m]
        How far the closed valve shortens its spring, shims included.
    seat_diameter : float [m]
        On which the pressure acts while closed: the seat, or the plunger where there is none.
    full_lift : float [m]
        Where the plunger stops.
    ports : Ports
        Round ports in the bore, a groove all round it, or the curtain round the seat.
    port_count : int
        Number of round ports.
    port_diameter : float [m]
        Of one round port.
    port_lead : float [m]
        Lift before the ports begin to open.
    plunger_diameter : float [m]
        Of the plunger in its bore; zero for a ball or poppet without one.
    plunger_radial_clearance : float [m]
        Clearance on the radius.
    plunger_eccentricity_ratio : float [1]
        0 for a plunger in the middle of its bore, 1 against the wall.
    land_length : float [m]
        Along which oil creeps past the plunger.
    seat_leak_lift : float [m]
        How far debris or wear holds the seat open; zero for a tight one.
    seat_width : float [m]
        Width of the seat's line along the flow.
    discharge_coefficient : float [1]
        Of the ports.
    flow_force_coefficient : float [1]
        Closing force of the jet over pressure drop and open area; zero to leave it out.
    largest_area : float [m2]
        Passage behind the ports beyond which no lift helps.
    """

    spring_rate: NewtonPerMetre
    preload_length: Metre
    seat_diameter: Metre
    full_lift: Metre
    ports: Ports = Ports.SEAT
    port_count: int = 1
    port_diameter: Metre = 0.0
    port_lead: Metre = 0.0
    plunger_diameter: Metre = 0.0
    plunger_radial_clearance: Metre = 0.0
    plunger_eccentricity_ratio: Number = 0.0
    land_length: Metre = 0.01
    seat_leak_lift: Metre = 0.0
    seat_width: Metre = 0.5e-3
    discharge_coefficient: Number = 0.65
    flow_force_coefficient: Number = 0.0
    largest_area: SquareMetre = math.inf


@dataclass(frozen=True, slots=True)
class ReliefFlow:
    """Flow past a relief valve, with one entry for each pressure drop.

    Attributes
    ----------
    flow : ndarray [m3/s]
        What passes ports, plunger and seat.
    by_pressure : ndarray [m3/(s Pa)]
        Derivative of the flow by the pressure drop.
    by_plunger_clearance : ndarray [m2/s]
        Derivative by the radial clearance of the plunger.
    by_preload_length : ndarray [m2/s]
        Derivative by the preload length, such as by a shim.
    lift : ndarray [m]
        Lift of the plunger.
    """

    flow: FloatArray = field(compare=False)  # an array has no one answer to "equal"
    by_pressure: FloatArray = field(compare=False)
    by_plunger_clearance: FloatArray = field(compare=False)
    by_preload_length: FloatArray = field(compare=False)
    lift: FloatArray = field(compare=False)


def relief_parameters(valve: ReliefValve) -> FloatArray:
    """What the compiled flow of a relief valve takes besides preload, plunger clearance and seat leak.

    Parameters
    ----------
    valve : ReliefValve
        The valve.

    Returns
    -------
    ndarray, shape (17)
        In the order of the constants in `kernels.relief`.

    Raises
    ------
    OutOfDomainError
        If a size means nothing, such as a lead beyond the full lift.

    Notes
    -----
    Round ports count with their own diameter, a groove with the plunger's and a seat with the seat's.

    References
    ----------
    [merritt1967] spool valves, direct-acting relief valves

    Examples
    --------
    >>> relief_parameters(ReliefValve(8e3, 7e-3, seat_diameter=12e-3, full_lift=5e-3)).shape
    (17,)
    """
    from fitwright.physics.pump.kernels import relief as places

    _check(valve)
    found = np.zeros(places.PARAMETERS)
    found[places.SPRING_RATE] = valve.spring_rate
    found[places.PRESSURE_AREA] = math.pi / 4.0 * valve.seat_diameter**2
    found[places.PORT_KIND] = float(valve.ports is not Ports.ROUND)
    found[places.PORT_COUNT] = valve.port_count
    found[places.PORT_DIAMETER] = _port_diameter(valve)
    found[places.PORT_LEAD] = valve.port_lead
    found[places.FULL_LIFT] = valve.full_lift
    found[places.LARGEST_AREA] = valve.largest_area
    found[places.DISCHARGE_COEFFICIENT] = valve.discharge_coefficient
    found[places.FLOW_FORCE_COEFFICIENT] = valve.flow_force_coefficient
    found[places.TRANSITION_REYNOLDS] = SHARP_EDGE_TRANSITION
    found[places.OPENING_SMOOTHING] = OPENING_SMOOTHING * valve.full_lift
    found[places.PLUNGER_DIAMETER] = valve.plunger_diameter
    found[places.PLUNGER_ECCENTRICITY] = valve.plunger_eccentricity_ratio
    found[places.LAND_LENGTH] = valve.land_length
    found[places.SEAT_DIAMETER] = valve.seat_diameter
    found[places.SEAT_WIDTH] = valve.seat_width
    return found


def relief_flow(
    valve: ReliefValve,
    pressure_drop: Pascals,
    *,
    density: KilogramPerCubicMetre,
    dynamic_viscosity: PascalSecond,
) -> ReliefFlow:
    r"""Flow past a relief valve at one or more pressure drops, with its exact derivatives.

    Parameters
    ----------
    valve : ReliefValve
        The valve.
    pressure_drop : array_like [Pa]
        Pressure before the valve less that behind it.
    density : float [kg/m3]
        Of the oil.
    dynamic_viscosity : float [Pa s]
        Of the oil.

    Returns
    -------
    ReliefFlow
        Flow, derivatives and lift, shaped as `pressure_drop`.

    Raises
    ------
    OutOfDomainError
        If a size means nothing.
    NotConvergedError
        If the balance of forces was not found.

    Notes
    -----
    .. math:: k (x_0 + y) + j \Delta p A(y) = \Delta p A_p, \quad Q = C_d A(y) \sqrt{2 \Delta p / \rho}

    with a laminar start of the ports, the plunger's annulus and the seat's slot beside it. Steady: neither
    chatter nor the inertia of a cold start. The opening is rounded over 0.5 % of the full lift.

    References
    ----------
    [merritt1967] spool valves, flow forces, direct-acting relief valves

    Examples
    --------
    >>> valve = ReliefValve(8e3, 7e-3, seat_diameter=12e-3, full_lift=5e-3)
    >>> found = relief_flow(valve, [4.5e5, 5.5e5, 6.5e5], density=850.0, dynamic_viscosity=0.015)
    >>> [round(flow * 60e3, 1) for flow in found.flow.tolist()]
    [0.0, 40.9, 125.8]
    """
    from fitwright.physics.pump.kernels.relief import relief_flow_slopes

    parameters = relief_parameters(valve)
    drops = np.asarray(pressure_drop, dtype=float)
    rows = [
        relief_flow_slopes(
            drop,
            valve.preload_length,
            valve.plunger_radial_clearance,
            valve.seat_leak_lift,
            parameters,
            density,
            dynamic_viscosity,
        )
        for drop in drops.ravel().tolist()
    ]
    columns = np.array(rows).reshape(-1, 5).T.reshape(5, *drops.shape)
    if np.isnan(columns).any():
        raise NotConvergedError("lift of the relief valve", 100, math.nan, 1e-15)
    return ReliefFlow(*columns)


def cracking_pressure(valve: ReliefValve) -> Pascal:
    r"""Pressure drop at which a relief valve begins to open its ports.

    Parameters
    ----------
    valve : ReliefValve
        The valve.

    Returns
    -------
    float [Pa]
        Pressure drop at which the plunger has lifted by its lead.

    Notes
    -----
    .. math:: p_o = k (x_0 + y_{lead}) / A_p

    References
    ----------
    [merritt1967] direct-acting relief valves

    Examples
    --------
    >>> round(cracking_pressure(ReliefValve(8e3, 7e-3, seat_diameter=12e-3, full_lift=5e-3)) / 1e5, 2)
    4.95
    """
    _check(valve)
    area = math.pi / 4.0 * valve.seat_diameter**2
    return valve.spring_rate * (valve.preload_length + valve.port_lead) / area


def full_bypass_pressure(valve: ReliefValve) -> Pascal:
    r"""Pressure drop at which a relief valve reaches its stop, and opens no further.

    Parameters
    ----------
    valve : ReliefValve
        The valve.

    Returns
    -------
    float [Pa]
        Pressure drop; infinite where the jet holds the plunger off its stop at any pressure.

    Notes
    -----
    .. math:: p_f = k (x_0 + y_{full}) / (A_p - j A(y_{full}))

    References
    ----------
    [merritt1967] flow forces, direct-acting relief valves

    Examples
    --------
    >>> round(full_bypass_pressure(ReliefValve(8e3, 7e-3, seat_diameter=12e-3, full_lift=5e-3)) / 1e5, 2)
    8.49
    """
    from fitwright.physics.pump.kernels.relief import port_area

    open_area = port_area(valve.full_lift - valve.port_lead, relief_parameters(valve))[0]
    area = math.pi / 4.0 * valve.seat_diameter**2 - valve.flow_force_coefficient * open_area
    if area <= 0.0:
        return math.inf
    return valve.spring_rate * (valve.preload_length + valve.full_lift) / area


def _port_diameter(valve: ReliefValve) -> Metre:
    own = {Ports.ROUND: valve.port_diameter, Ports.ANNULUS: valve.plunger_diameter}
    return own.get(valve.ports, valve.seat_diameter)


def _check(valve: ReliefValve) -> None:
    positive = ("spring_rate", "seat_diameter", "full_lift", "land_length", "seat_width", "largest_area")
    for name in (*positive, "discharge_coefficient"):
        if not getattr(valve, name) > 0.0:
            raise OutOfDomainError(name, getattr(valve, name), "greater than zero")
    for name in ("preload_length", "plunger_radial_clearance", "seat_leak_lift", "flow_force_coefficient"):
        if not getattr(valve, name) >= 0.0:
            raise OutOfDomainError(name, getattr(valve, name), "zero or more")
    if not 0.0 <= valve.port_lead < valve.full_lift:
        raise OutOfDomainError("port_lead", valve.port_lead, "at least zero and below the full lift")
    if not 0.0 <= valve.plunger_eccentricity_ratio <= 1.0:
        raise OutOfDomainError("plunger_eccentricity_ratio", valve.plunger_eccentricity_ratio, "from 0 to 1")
    if not _port_diameter(valve) > 0.0 or valve.port_count < 1:
        raise OutOfDomainError("ports", valve.ports, "ports with a diameter, one or more of them")
