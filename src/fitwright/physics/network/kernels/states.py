"""What bearings, pumps and relief valves do at pressures that are found already."""

from __future__ import annotations

import numpy as np
from numba import njit

from fitwright.physics.bearings.kernels.supply import bearing_supply
from fitwright.physics.network.kernels.elimination import assemble, factor, solve_factored
from fitwright.physics.network.kernels.laws import FILLING, bearing_load, pressure_at, pump
from fitwright.physics.network.kernels.layout import IntArray, Layout, Oil, fill_sizes, oil_at
from fitwright.physics.network.kernels.newton import Work, measure, room
from fitwright.physics.network.kernels.partials import by_speed
from fitwright.physics.pump.kernels.pump import filled_flow
from fitwright.physics.pump.kernels.relief import relief_flow
from fitwright.quantity import FloatArray


@njit(cache=True, nogil=True, error_model="numpy")
def _ends(layout: Layout, part: int, pressures: FloatArray) -> tuple[float, float]:
    return (
        pressure_at(pressures, layout.upstream[part]),
        pressure_at(pressures, layout.downstream[part]),
    )


@njit(cache=True, nogil=True, error_model="numpy")
def _bearing(layout: Layout, part: int, pressures: FloatArray, oil: Oil, work: Work, out: FloatArray) -> None:
    own = work.sizes[layout.first[part] :]
    curves = layout.curves[layout.curve_start[part] : layout.curve_stop[part]]
    up, down = _ends(layout, part, pressures)
    load = bearing_load(own, oil)
    found = bearing_supply(
        up - down, oil.temperature, oil.angular_speed * own[3], load, own[0], own[5:], curves, oil.parameters
    )
    out[0], out[1], out[2], out[3] = found[0], found[3], found[4], found[5]
    out[4], out[5], out[6], out[7] = found[6], found[7], found[8], found[9]
    out[8] = 1.0 if found[10] else 0.0
    out[9] = 1.0 if found[11] else 0.0
    out[10] = load


@njit(cache=True, nogil=True, error_model="numpy")
def _pump(layout: Layout, part: int, pressures: FloatArray, oil: Oil, work: Work, out: FloatArray) -> None:
    own = work.sizes[layout.first[part] :]
    up, down = _ends(layout, part, pressures)
    speed = oil.angular_speed * own[1]
    swept = own[0] * speed
    filled, _ = filled_flow(up, swept, speed, oil.density, own[2 : 2 + FILLING])
    net, _, _, leakage = pump(up, down, own, oil)
    out[0], out[1], out[2], out[3], out[4], out[5] = swept, filled, leakage, net, up, down


@njit(cache=True, nogil=True, error_model="numpy")
def _relief(layout: Layout, part: int, pressures: FloatArray, oil: Oil, work: Work, out: FloatArray) -> None:
    own = work.sizes[layout.first[part] :]
    up, down = _ends(layout, part, pressures)
    flow, _, lift = relief_flow(up - down, own[0], own[1], own[2], own[3:], oil.density, oil.viscosity)
    out[0], out[1] = flow, lift


@njit(cache=True, nogil=True, error_model="numpy")
def states_of_points(
    layout: Layout,
    bearings: IntArray,
    pumps: IntArray,
    reliefs: IntArray,
    speeds: FloatArray,
    temperatures: FloatArray,
    parameters: FloatArray,
    oil: FloatArray,
    pressures: FloatArray,
    of_bearings: FloatArray,
    of_pumps: FloatArray,
    of_reliefs: FloatArray,
) -> None:
    """Fill in what bearings, pumps and relief valves do; NaN where there is no solution.

    Parameters
    ----------
    layout : Layout
        The circuit.
    bearings, pumps, reliefs : ndarray of int
        Which parts these are.
    speeds : ndarray [rad/s], shape (p)
        Of the crank.
    temperatures : ndarray [K], shape (p)
        Of the oil.
    parameters : ndarray, shape (s, p, k)
        Values in the order of `Circuit.parameter_names`.
    oil : ndarray
        From `oil_parameters`.
    pressures : ndarray [Pa], shape (s, p, n)
        Solutions.
    of_bearings, of_pumps, of_reliefs : ndarray, shape (s, p, parts, quantities)
        Filled, in the order of `machines`.
    """
    work = room(layout, oil)
    for sample in range(pressures.shape[0]):
        for point in range(pressures.shape[1]):
            own, there = parameters[sample, point], pressures[sample, point]
            if not np.isfinite(there).all():
                of_bearings[sample, point] = np.nan
                of_pumps[sample, point] = np.nan
                of_reliefs[sample, point] = np.nan
                continue
            fill_sizes(layout, own, work.sizes)
            common = own[layout.link_start.size - 1 :]
            state = oil_at(speeds[point], temperatures[point], common, oil, work.oil)
            for at in range(bearings.size):
                _bearing(layout, bearings[at], there, state, work, of_bearings[sample, point, at])
            for at in range(pumps.size):
                _pump(layout, pumps[at], there, state, work, of_pumps[sample, point, at])
            for at in range(reliefs.size):
                _relief(layout, reliefs[at], there, state, work, of_reliefs[sample, point, at])


@njit(cache=True, nogil=True, error_model="numpy")
def speed_shares(
    layout: Layout,
    node: int,
    speeds: FloatArray,
    temperatures: FloatArray,
    parameters: FloatArray,
    oil: FloatArray,
    pressures: FloatArray,
    shares: FloatArray,
) -> None:
    """Fill in what each part adds to the slope of a node's pressure by the speed of the crank.

    Parameters
    ----------
    layout : Layout
        The circuit.
    node : int
        Place of the node.
    speeds : ndarray [rad/s], shape (p)
        Of the crank.
    temperatures : ndarray [K], shape (p)
        Of the oil.
    parameters : ndarray, shape (p, k)
        Values in the order of `Circuit.parameter_names`.
    oil : ndarray
        From `oil_parameters`.
    pressures : ndarray [Pa], shape (p, n)
        Solutions.
    shares : ndarray [Pa s/rad], shape (p, m)
        Filled.
    """
    work = room(layout, oil)
    for point in range(speeds.size):
        there = pressures[point]
        shares[point] = np.nan
        if not np.isfinite(there).all():
            continue
        fill_sizes(layout, parameters[point], work.sizes)
        common = parameters[point, layout.link_start.size - 1 :]
        state = oil_at(speeds[point], temperatures[point], common, oil, work.oil)
        measure(layout, there, state, work)
        assemble(layout, work.by_upstream, work.by_downstream, work.matrix)
        if not factor(layout, work.matrix):
            continue
        for part in range(layout.kind.size):
            up, down = _ends(layout, part, there)
            own = work.sizes[layout.first[part] :]
            curves = layout.curves[layout.curve_start[part] : layout.curve_stop[part]]
            film = work.films[part : part + 1]
            slope = common[2] * by_speed(layout.kind[part], up, down, own, curves, state, film)
            work.step[:] = 0.0
            if layout.upstream[part] >= 0:
                work.step[layout.upstream[part]] -= slope
            if layout.downstream[part] >= 0:
                work.step[layout.downstream[part]] += slope
            solve_factored(layout, work.matrix, work.step)
            shares[point, part] = work.step[node]
