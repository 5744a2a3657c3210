"""Flow past a relief valve, smooth in the pressure drop, with its slopes."""

from __future__ import annotations

import numpy as np
from numba import njit

from fitwright.quantity import (
    CubicMetrePerSecond,
    FloatArray,
    KilogramPerCubicMetre,
    Metre,
    Pascal,
    PascalSecond,
    SquareMetre,
)

# Places in the vector of parameters.
SPRING_RATE = 0  # N/m
PRESSURE_AREA = 1  # m2, on which the pressure drop acts
PORT_KIND = 2  # 0 round ports, 1 full annulus (or the curtain of a seat)
PORT_COUNT = 3
PORT_DIAMETER = 4  # m, of one port; the plunger or seat for an annulus
PORT_LEAD = 5  # m, lift before the ports begin to open
FULL_LIFT = 6  # m, where the plunger stops
LARGEST_AREA = 7  # m2, no more than this is ever open
DISCHARGE_COEFFICIENT = 8
FLOW_FORCE_COEFFICIENT = 9  # closing force / (pressure drop x open area)
TRANSITION_REYNOLDS = 10  # of the port, by hydraulic diameter
OPENING_SMOOTHING = 11  # m of lift over which opening sets in and ends
PLUNGER_DIAMETER = 12  # m
PLUNGER_ECCENTRICITY = 13  # 0 in the middle, 1 against the wall
LAND_LENGTH = 14  # m
SEAT_DIAMETER = 15  # m
SEAT_WIDTH = 16  # m, along the flow
PARAMETERS = 17


@njit(cache=True, nogil=True, error_model="numpy")
def _ramp(x: float, width: float) -> tuple[float, float]:
    """Positive part of x with a parabola of half width `width` at its kink; value and slope."""
    if x <= -width:
        return 0.0, 0.0
    if x >= width:
        return x, 1.0
    return (x + width) ** 2 / (4.0 * width), (x + width) / (2.0 * width)


@njit(cache=True, nogil=True, error_model="numpy")
def _port_opening(raw_lift: float, parameters: FloatArray) -> tuple[float, float]:
    """How far the ports are uncovered, between nothing and full lift, and its slope by raw lift."""
    width = parameters[OPENING_SMOOTHING]
    most = parameters[FULL_LIFT] - parameters[PORT_LEAD]
    low, low_slope = _ramp(raw_lift - parameters[PORT_LEAD], width)
    over, over_slope = _ramp(raw_lift - parameters[PORT_LEAD] - most, width)
    return low - over, low_slope - over_slope


@njit(cache=True, nogil=True, error_model="numpy")
def port_area(opening: Metre, parameters: FloatArray) -> tuple[SquareMetre, float]:
    r"""Open area of the bypass ports of a relief valve.

    Parameters
    ----------
    opening : float [m]
        How far the plunger has uncovered the ports.
    parameters : ndarray, shape (17)
        As in `relief_flow_slopes`.

    Returns
    -------
    tuple of float [m2]
        Area, and its derivative by the opening [m].

    Notes
    -----
    Round ports: segments of a circle. Full annulus, or the curtain of a seat: circumference times opening.
    No more than `LARGEST_AREA` is open.

    .. math:: A = n \left[\tfrac{d^2}{4} \arccos(1 - 2y/d) - (\tfrac{d}{2} - y) \sqrt{y (d - y)}\right],
              \quad A = \pi d y

    References
    ----------
    [merritt1967] spool valves with round ports and with full annulus

    Examples
    --------
    >>> import numpy as np
    >>> parameters = np.zeros(PARAMETERS)
    >>> parameters[[PORT_COUNT, PORT_DIAMETER, LARGEST_AREA]] = 2.0, 6e-3, np.inf
    >>> [round(port_area(y, parameters)[0] * 1e6, 2) for y in (0.0, 3e-3, 6e-3, 9e-3)]
    [0.0, 28.27, 56.55, 56.55]
    """
    d = parameters[PORT_DIAMETER]
    if parameters[PORT_KIND] > 0.5:
        area, slope = np.pi * d * opening, np.pi * d
    elif opening <= 0.0:
        return 0.0, 0.0
    elif opening >= d:
        area, slope = parameters[PORT_COUNT] * 0.25 * np.pi * d * d, 0.0
    else:
        half_chord = np.sqrt(opening * (d - opening))
        angle = np.arccos(1.0 - 2.0 * opening / d)
        area = parameters[PORT_COUNT] * (0.25 * d * d * angle - (0.5 * d - opening) * half_chord)
        slope = parameters[PORT_COUNT] * 2.0 * half_chord
    largest = parameters[LARGEST_AREA]
    over, over_slope = _ramp(area - largest, 0.02 * largest)
    return area - over, slope * (1.0 - over_slope)


@njit(cache=True, nogil=True, error_model="numpy")
def _raw_lift_at(pressure_drop: float, preload_length: float, parameters: FloatArray) -> tuple[float, int]:
    """Lift without stops at which spring and flow force balance the pressure; rounds needed, -1 if too many.

    The balance k (x + u) + j p a(u) = p A rises with u, so a bracketed Newton search cannot miss.
    """
    k = parameters[SPRING_RATE]
    push = pressure_drop * parameters[PRESSURE_AREA]
    jet = parameters[FLOW_FORCE_COEFFICIENT] * pressure_drop
    free = push / k - preload_length
    if jet <= 0.0:
        return free, 0
    opening, _ = _port_opening(free, parameters)
    if opening <= 0.0:
        return free, 0
    low = free - jet * port_area(opening, parameters)[0] / k
    high = free
    u = 0.5 * (low + high)
    for step in range(100):
        opening, opening_slope = _port_opening(u, parameters)
        area, area_slope = port_area(opening, parameters)
        residual = k * (preload_length + u) + jet * area - push
        if residual > 0.0:
            high = u
        else:
            low = u
        move = -residual / (k + jet * area_slope * opening_slope)
        if abs(move) <= 1e-15 + 1e-14 * abs(u) or high - low <= 1e-16:
            return u + move if low <= u + move <= high else u, step + 1
        u = u + move if low < u + move < high else 0.5 * (low + high)
    return u, -1


@njit(cache=True, nogil=True, error_model="numpy")
def _port_flow(
    pressure_drop: float, area: float, parameters: FloatArray, density: float, viscosity: float
) -> tuple[float, float, float]:
    """Flow through the open ports, slopes by pressure drop and by area; laminar at low Reynolds number."""
    if area <= 0.0 or pressure_drop <= 0.0:
        return 0.0, 0.0, 0.0
    perimeter = parameters[PORT_COUNT] * np.pi * parameters[PORT_DIAMETER]
    if parameters[PORT_KIND] > 0.5:
        perimeter = 2.0 * np.pi * parameters[PORT_DIAMETER]
    laminar = 0.25 * parameters[TRANSITION_REYNOLDS] * viscosity / density * perimeter
    square = 2.0 * (parameters[DISCHARGE_COEFFICIENT] * area) ** 2 / density  # flow^2 per pressure
    root = np.sqrt(laminar * laminar + 4.0 * square * pressure_drop)
    flow = 2.0 * square * pressure_drop / (laminar + root)
    return flow, square / root, 2.0 * square * pressure_drop / (area * root)


@njit(cache=True, nogil=True, error_model="numpy")
def _gap_flow(
    pressure_drop: float, width: float, height: float, length: float, density: float, viscosity: float
) -> tuple[float, float]:
    """Laminar slot with its dynamic pressure lost; flow and slope by a signed pressure drop."""
    if height <= 1e-9:  # nothing passes, and powers of it would underflow
        return 0.0, 0.0
    linear = 12.0 * viscosity * length / (width * height**3)
    quadratic = 0.5 * density / (width * height) ** 2
    size = abs(pressure_drop)
    root = np.sqrt(linear * linear + 4.0 * quadratic * size)
    return 2.0 * pressure_drop / (linear + root), 1.0 / root


@njit(cache=True, nogil=True, error_model="numpy")
def relief_flow_slopes(
    pressure_drop: Pascal,
    preload_length: Metre,
    plunger_radial_clearance: Metre,
    seat_leak_lift: Metre,
    parameters: FloatArray,
    density: KilogramPerCubicMetre,
    viscosity: PascalSecond,
) -> tuple[CubicMetrePerSecond, float, float, float, Metre]:
    r"""Flow past a relief valve with its derivatives by pressure, plunger clearance and preload.

    Parameters
    ----------
    pressure_drop : float [Pa]
        Pressure before the valve less that behind it; the spring's space is drained to behind it.
    preload_length : float [m]
        Compression of the spring when closed, shims included.
    plunger_radial_clearance : float [m]
        Of the plunger in its bore.
    seat_leak_lift : float [m]
        How far debris or wear holds the seat open; zero for a tight seat.
    parameters : ndarray, shape (17)
        In the order of this module's constants, from `fitwright.physics.pump.relief.relief_parameters`.
    density : float [kg/m3]
        Of the oil.
    viscosity : float [Pa s]
        Dynamic viscosity of the oil.

    Returns
    -------
    tuple of float [m3/s], [m]
        Flow; its derivatives by pressure drop [m3/(s Pa)], by plunger clearance [m2/s] and by preload
        length [m2/s]; lift, NaN where the balance of forces was not found.

    Notes
    -----
    The lift y balances pressure, spring and flow force; ports open after the lift to the port:

    .. math:: k (x_0 + y) + j \Delta p A(y) = \Delta p A_p, \quad
              \Delta p = \frac{\rho}{2} \frac{Q^2 + Q Q_t}{(C_d A)^2}, \quad
              Q_t = Re_t \frac{\mu}{\rho} \frac{P}{4}

    Closed, only the plunger's annulus and the seat leak; at full lift the area stays. Opening sets in and
    ends over `OPENING_SMOOTHING` of lift, so that the flow has a continuous derivative. Forces are those
    of a steady state: no chatter is predicted.
    The derivatives are exact: the lift's follow from the balance of forces.

    References
    ----------
    [merritt1967] flow forces and orifices of spool valves

    Examples
    --------
    >>> import numpy as np
    >>> valve = np.zeros(PARAMETERS)
    >>> valve[[SPRING_RATE, PRESSURE_AREA, FULL_LIFT, LARGEST_AREA]] = 8e3, 154e-6, 8e-3, np.inf
    >>> valve[[PORT_COUNT, PORT_DIAMETER, PORT_LEAD, OPENING_SMOOTHING]] = 2.0, 6e-3, 2e-3, 6e-5
    >>> valve[[DISCHARGE_COEFFICIENT, TRANSITION_REYNOLDS]] = 0.7, 10.0
    >>> valve[[PLUNGER_DIAMETER, LAND_LENGTH]] = 14e-3, 10e-3
    >>> flow, _, _, by_preload, lift = relief_flow_slopes(5.5e5, 6e-3, 20e-6, 0.0, valve, 850.0, 0.015)
    >>> round(flow * 60e3, 1), round(lift * 1e3, 2)
    (35.2, 4.59)
    >>> round(by_preload * 0.5e-3 * 60e3, 1)  # litres per minute for a shim of 0.5 mm
    -9.0
    """
    k = parameters[SPRING_RATE]
    u, rounds = _raw_lift_at(pressure_drop, preload_length, parameters)
    opening, opening_slope = _port_opening(u, parameters)
    area, area_slope = port_area(opening, parameters)
    jet = parameters[FLOW_FORCE_COEFFICIENT] * max(pressure_drop, 0.0)
    by_lift = area_slope * opening_slope  # d area / d raw lift
    stiffness = k + jet * by_lift
    lift_by_pressure = parameters[PRESSURE_AREA] / stiffness
    if pressure_drop > 0.0:
        lift_by_pressure -= parameters[FLOW_FORCE_COEFFICIENT] * area / stiffness
    lift_by_preload = -k / stiffness
    flow, by_pressure, by_area = _port_flow(pressure_drop, area, parameters, density, viscosity)
    slope = by_pressure + by_area * by_lift * lift_by_pressure
    preload_slope = by_area * by_lift * lift_by_preload

    c = plunger_radial_clearance
    e = parameters[PLUNGER_ECCENTRICITY]
    annulus = np.pi * parameters[PLUNGER_DIAMETER] * (1.0 + 1.5 * e * e)
    annulus /= 12.0 * viscosity * parameters[LAND_LENGTH]
    seat, seat_slope = _gap_flow(
        pressure_drop,
        np.pi * parameters[SEAT_DIAMETER],
        seat_leak_lift,
        parameters[SEAT_WIDTH],
        density,
        viscosity,
    )
    total = flow + seat + annulus * c**3 * pressure_drop
    lift = min(max(u, 0.0), parameters[FULL_LIFT])
    if rounds < 0:
        lift = np.nan
    by_clearance = 3.0 * annulus * c * c * pressure_drop
    return total, slope + seat_slope + annulus * c**3, by_clearance, preload_slope, lift
