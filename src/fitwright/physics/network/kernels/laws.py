"""Flow through each kind of element and its slopes by the pressures at its two ends."""

from __future__ import annotations

import numpy as np
from numba import njit

from fitwright.physics.bearings.kernels.supply import LARGEST_ITERATIONS, bearing_supply
from fitwright.physics.network.elements.kinds import (
    ANNULAR_LEAK,
    BEARING,
    CHAIN_TENSIONER,
    COOLER,
    CRANK_DRILLING,
    FILTER,
    JET,
    LAMINAR_RESISTANCE,
    ORIFICE,
    PIPE,
    PUMP,
    SLOT_LEAK,
)
from fitwright.physics.network.kernels.layout import Layout, Oil
from fitwright.physics.passages.kernels.passages import annulus, orifice, pipe, slot
from fitwright.physics.pump.kernels.pump import pump_flow
from fitwright.physics.pump.kernels.relief import relief_flow
from fitwright.quantity import FloatArray

FILLING = 3  # sizes that the pump's filling has
LEAST_FLOW = 1e-9  # m3/s, what imbalances are held against while the pumps stand still


@njit(cache=True, nogil=True, error_model="numpy")
def _opening(value: float, begins: float, ends: float) -> tuple[float, float]:
    """Smooth step from 0 to 1 without a kink at either end, and its slope."""
    x = (value - begins) / (ends - begins)
    if x <= 0.0:
        return 0.0, 0.0
    if x >= 1.0:
        return 1.0, 0.0
    return x * x * (3.0 - 2.0 * x), 6.0 * x * (1.0 - x) / (ends - begins)


@njit(cache=True, nogil=True, error_model="numpy")
def _jet(drop: float, sizes: FloatArray, oil: Oil) -> tuple[float, float]:
    """Orifice behind a valve; sizes: diameter, opening and full pressure, coefficient, count."""
    flow, slope = orifice(drop, sizes[0], sizes[3], oil.density, oil.viscosity)
    if sizes[1] > 0.0:
        share, share_slope = _opening(drop, sizes[1], sizes[2])
        flow, slope = share * flow, share * slope + share_slope * flow
    return sizes[4] * flow, sizes[4] * slope


@njit(cache=True, nogil=True, error_model="numpy")
def _filter_flow(drop: float, sizes: FloatArray, oil: Oil) -> tuple[float, float]:
    """Laminar medium and bypass; sizes: resistance, opening and full drop, diameter, coefficient."""
    slope = 1.0 / (sizes[0] * oil.viscosity)
    flow = slope * drop
    if sizes[3] > 0.0 and drop > sizes[1]:
        share, share_slope = _opening(drop, sizes[1], sizes[2])
        past, past_slope = orifice(drop, sizes[3], sizes[4], oil.density, oil.viscosity)
        flow += share * past
        slope += share * past_slope + share_slope * past
    return flow, slope


@njit(cache=True, nogil=True, error_model="numpy")
def _cooler(drop: float, sizes: FloatArray, oil: Oil) -> tuple[float, float]:
    """Core and bypass; sizes: resistance, diameter, two temperatures, two drops, coefficient, leak share."""
    open_share, _ = _opening(oil.temperature, sizes[2], sizes[3])
    leak = sizes[7]
    core = (leak + (1.0 - leak) * open_share) / (sizes[0] * oil.viscosity)
    closed = leak + (1.0 - leak) * (1.0 - open_share)
    valve, valve_slope = _opening(drop, sizes[4], sizes[5])
    share = closed + (1.0 - closed) * valve
    past, past_slope = orifice(drop, sizes[1], sizes[6], oil.density, oil.viscosity)
    return core * drop + share * past, core + share * past_slope + (1.0 - closed) * valve_slope * past


@njit(cache=True, nogil=True, error_model="numpy")
def thrown_pressure(sizes: FloatArray, oil: Oil) -> float:
    r"""What a crank drilling's spin adds to the pressure from its beginning to its end.

    Parameters
    ----------
    sizes : ndarray
        As `CrankDrilling.slots` gives them.
    oil : Oil
        Oil and speed.

    Returns
    -------
    float [Pa]
        Pressure at the end less that at the beginning, without flow.

    Notes
    -----
    .. math:: \Delta p = \tfrac12 \rho \omega^2 (r_{end}^2 - r_{begin}^2)

    References
    ----------
    [white2011] rigid-body rotation of a fluid
    """
    speed = oil.angular_speed * sizes[7]
    change: float = 0.5 * oil.density * speed * speed * (sizes[9] * sizes[9] - sizes[8] * sizes[8])
    return change


@njit(cache=True, nogil=True, error_model="numpy")
def _crank_drilling(drop: float, sizes: FloatArray, oil: Oil) -> tuple[float, float]:
    """Pipe that turns with the crank; sizes as `CrankDrilling.slots` gives them."""
    thrown, loss = thrown_pressure(sizes, oil), sizes[3] + sizes[4]
    flow, slope = pipe(drop + thrown, sizes[0], sizes[1], sizes[2], loss, oil.density, oil.viscosity)
    return sizes[5] * sizes[6] * flow, sizes[5] * sizes[6] * slope


@njit(cache=True, nogil=True, error_model="numpy")
def _tensioner(drop: float, sizes: FloatArray, oil: Oil) -> tuple[float, float]:
    """Leak along the plunger, and a vent; sizes: those of the annulus, then the vent's."""
    flow, slope = annulus(drop, sizes[0], sizes[1], sizes[3], sizes[2], oil.viscosity)
    if sizes[4] > 0.0:
        vent, vent_slope = orifice(drop, sizes[4], sizes[5], oil.density, oil.viscosity)
        return flow + vent, slope + vent_slope
    return flow, slope


@njit(cache=True, nogil=True, error_model="numpy")
def bearing_load(sizes: FloatArray, oil: Oil) -> float:
    r"""Load of a bearing at the speed of the operating point.

    Parameters
    ----------
    sizes : ndarray
        As `Bearing.slots` gives them.
    oil : Oil
        Oil and speed.

    Returns
    -------
    float [N]
        Load.

    Notes
    -----
    .. math:: W = W_0 + k \omega^2

    References
    ----------
    [heywood1988] inertia forces of the crank train grow with the square of the speed
    """
    load: float = sizes[1] + sizes[2] * oil.angular_speed * oil.angular_speed
    return load


@njit(cache=True, nogil=True, error_model="numpy")
def _bearing(
    drop: float, sizes: FloatArray, curves: FloatArray, oil: Oil, film: FloatArray
) -> tuple[float, float]:
    """Bearings alike; sizes: radial clearance, two of load, speed ratio, count, then the bearing's vector."""
    found = bearing_supply(
        drop,
        oil.temperature,
        oil.angular_speed * sizes[3],
        bearing_load(sizes, oil),
        sizes[0],
        sizes[5:],
        curves,
        oil.parameters,
        LARGEST_ITERATIONS,
        film[0],
    )
    film[0] = found[3] if found[11] else 0.0
    if not found[11]:
        return np.nan, np.nan  # a heat balance that is open must not pass for a flow
    return sizes[4] * found[0], sizes[4] * found[1]


@njit(cache=True, nogil=True, error_model="numpy")
def pump(up: float, down: float, sizes: FloatArray, oil: Oil) -> tuple[float, float, float, float]:
    """Net flow of a pump.

    Parameters
    ----------
    up, down : float [Pa]
        Gauge pressures of inlet and outlet.
    sizes : ndarray
        As `Pump.slots` gives them.
    oil : Oil
        Oil and speed.

    Returns
    -------
    tuple of float [m3/s]
        Net flow, its slopes by the pressures of inlet and outlet [m3/(s Pa)], leakage.

    References
    ----------
    [ivantysyn2001] losses of displacement machines
    """
    leaks = int(sizes[5])
    flow, by_outlet, by_inlet, leakage = pump_flow(
        down,
        up,
        oil.angular_speed * sizes[1],
        oil.viscosity,
        oil.density,
        sizes[0],
        sizes[2 : 2 + FILLING],
        sizes[6 : 6 + leaks],
        sizes[6 + leaks : 6 + 2 * leaks],
        sizes[6 + 2 * leaks : 6 + 3 * leaks],
    )
    return flow, by_inlet, by_outlet, leakage


@njit(cache=True, nogil=True, error_model="numpy")
def _passive(  # noqa: C901, PLR0911  # one list of all kinds
    kind: int, drop: float, s: FloatArray, curves: FloatArray, oil: Oil, film: FloatArray
) -> tuple[float, float]:
    """Flow of everything that the pressure drop alone drives, and its slope."""
    if kind == PIPE:
        flow, slope = pipe(drop, s[0], s[1], s[2], s[3], oil.density, oil.viscosity)
        return s[4] * flow, s[4] * slope
    if kind == BEARING:
        return _bearing(drop, s, curves, oil, film)
    if kind == ORIFICE:
        flow, slope = orifice(drop, s[0], s[1], oil.density, oil.viscosity)
        return s[2] * flow, s[2] * slope
    if kind == ANNULAR_LEAK:
        flow, slope = annulus(drop, s[0], s[1], s[3], s[2], oil.viscosity)
        return s[4] * flow, s[4] * slope
    if kind == CRANK_DRILLING:
        return _crank_drilling(drop, s, oil)
    if kind == JET:
        return _jet(drop, s, oil)
    if kind == FILTER:
        return _filter_flow(drop, s, oil)
    if kind == COOLER:
        return _cooler(drop, s, oil)
    if kind == SLOT_LEAK:
        flow, slope = slot(drop, s[0], s[1], s[2], oil.viscosity, 0.0)
        return s[3] * flow, s[3] * slope
    if kind == CHAIN_TENSIONER:
        return _tensioner(drop, s, oil)
    if kind == LAMINAR_RESISTANCE:
        conductance = s[1] / (s[0] * oil.viscosity)
        return conductance * drop, conductance
    flow, slope, _ = relief_flow(drop, s[0], s[1], s[2], s[3:], oil.density, oil.viscosity)
    return flow, slope


@njit(cache=True, nogil=True, error_model="numpy")
def flow_through(
    kind: int,
    up: float,
    down: float,
    sizes: FloatArray,
    curves: FloatArray,
    oil: Oil,
    film: FloatArray,
) -> tuple[float, float, float]:
    """Flow of one part, by the law of its kind.

    Parameters
    ----------
    kind : int
        One of `elements.kinds`.
    up, down : float [Pa]
        Gauge pressures at its two ends.
    sizes : ndarray
        From its first size on.
    curves : ndarray, shape (n, 14)
        Of a bearing; empty for all else.
    oil : Oil
        Oil and speed.
    film : ndarray [K], shape (1)
        Film temperature of a bearing to begin with, zero for no idea; replaced by the one found.

    Returns
    -------
    tuple of float [m3/s]
        Flow, and its slopes by the upstream and the downstream pressure [m3/(s Pa)].

    References
    ----------
    [white2011] pipes, orifices, gaps
    """
    if kind == PUMP:
        flow, by_upstream, by_downstream, _ = pump(up, down, sizes, oil)
        return flow, by_upstream, by_downstream
    flow, slope = _passive(kind, up - down, sizes, curves, oil, film)
    return flow, slope, -slope


@njit(cache=True, nogil=True, error_model="numpy")
def pressure_at(pressures: FloatArray, node: int) -> float:
    """Gauge pressure of a node; nothing at the sump.

    Parameters
    ----------
    pressures : ndarray [Pa], shape (n)
        Of all nodes.
    node : int
        Place of the node, -1 for the sump.

    Returns
    -------
    float [Pa]
        Gauge pressure.

    References
    ----------
    [white2011] gauge pressure
    """
    return 0.0 if node < 0 else pressures[node]


@njit(cache=True, nogil=True, error_model="numpy")
def imbalances(
    layout: Layout,
    pressures: FloatArray,
    sizes: FloatArray,
    oil: Oil,
    flows: FloatArray,
    by_upstream: FloatArray,
    by_downstream: FloatArray,
    surplus: FloatArray,
    films: FloatArray,
) -> tuple[float, float, float]:
    r"""Flow into each node less flow out of it.

    Parameters
    ----------
    layout : Layout
        The circuit.
    pressures : ndarray [Pa], shape (n)
        Gauge pressures.
    sizes : ndarray
        All sizes.
    oil : Oil
        Oil and speed.
    flows, by_upstream, by_downstream : ndarray, shape (m)
        Filled with flow of each part [m3/s] and its slopes.
    surplus : ndarray [m3/s], shape (n)
        Filled with what is too much at each node.
    films : ndarray [K], shape (m)
        Film temperatures of bearings to begin with, zero for no idea; replaced by those found.

    Returns
    -------
    tuple of float [m3/s]
        Largest imbalance, sum of all, and what they are held against: the flow of the pumps.

    Notes
    -----
    .. math:: F_i = \sum_{j \to i} q_j - \sum_{i \to j} q_j

    Pumps that stand still would leave nothing to hold an imbalance against: 1e-9 m3/s is the least.

    References
    ----------
    [white2011] conservation of mass in a steady flow
    """
    surplus[:] = 0.0
    pumped = LEAST_FLOW
    kinds, upstream, downstream, first = layout.kind, layout.upstream, layout.downstream, layout.first
    curves, curve_start, curve_stop = layout.curves, layout.curve_start, layout.curve_stop
    for part in range(kinds.size):
        up, down = upstream[part], downstream[part]
        flow, slope_up, slope_down = flow_through(
            kinds[part],
            pressure_at(pressures, up),
            pressure_at(pressures, down),
            sizes[first[part] :],
            curves[curve_start[part] : curve_stop[part]],
            oil,
            films[part : part + 1],
        )
        flows[part], by_upstream[part], by_downstream[part] = flow, slope_up, slope_down
        if up >= 0:
            surplus[up] -= flow
        if down >= 0:
            surplus[down] += flow
        if kinds[part] == PUMP:
            pumped += abs(flow)
    largest, total = 0.0, 0.0
    for node in range(surplus.size):
        size = abs(surplus[node])
        total += size
        largest = size if not size <= largest else largest
    return largest, total, pumped
