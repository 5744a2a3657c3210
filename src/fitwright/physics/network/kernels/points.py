"""All operating points and samples, each from a solution nearby."""

from __future__ import annotations

import numpy as np
from numba import njit

from fitwright.physics.network.kernels.layout import IntArray, Layout, fill_sizes, oil_at
from fitwright.physics.network.kernels.newton import Work, balance, measure, room
from fitwright.physics.network.kernels.partials import slopes_at
from fitwright.physics.network.kernels.rows import add, copy, fill, known
from fitwright.quantity import FloatArray

LOOK_AHEAD = 2.0  # times the last distance between points, no further


@njit(cache=True, nogil=True, error_model="numpy")
def _solve_one(
    layout: Layout,
    speed: float,
    temperature: float,
    parameters: FloatArray,
    oil: FloatArray,
    tolerance: float,
    limit: int,
    pressures: FloatArray,
    work: Work,
) -> tuple[int, float]:
    """Balance one point with its parameters; steps, relative imbalance."""
    fill_sizes(layout, parameters, work.sizes)
    common = parameters[layout.link_start.size - 1 :]
    state = oil_at(speed, temperature, common, oil, work.oil)
    return balance(layout, pressures, state, tolerance, limit, work)


@njit(cache=True, nogil=True, error_model="numpy")
def _middle(parameters: FloatArray, mean: FloatArray, varied: FloatArray) -> None:
    """Mean over the samples, and which parameters vary at all."""
    fill(varied, 0.0)
    for each in range(mean.size):
        total = 0.0
        for sample in range(parameters.shape[0]):
            total += parameters[sample, each] - parameters[0, each]
            if parameters[sample, each] != parameters[0, each]:
                varied[each] = 1.0
        mean[each] = parameters[0, each] + total / parameters.shape[0]


@njit(cache=True, nogil=True, error_model="numpy")
def _look_ahead(
    points: IntArray,
    speeds: FloatArray,
    temperatures: FloatArray,
    before: FloatArray,
    last: FloatArray,
    now: FloatArray,
) -> None:
    """Carry the last two solutions on in a straight line, where the three points lie on one."""
    speed_ahead = speeds[points[2]] - speeds[points[1]]
    speed_behind = speeds[points[1]] - speeds[points[0]]
    warmer_ahead = temperatures[points[2]] - temperatures[points[1]]
    warmer_behind = temperatures[points[1]] - temperatures[points[0]]
    length = speed_behind**2 + warmer_behind**2
    across = speed_ahead * warmer_behind - warmer_ahead * speed_behind
    if length == 0.0 or across != 0.0:
        return
    share = (speed_ahead * speed_behind + warmer_ahead * warmer_behind) / length
    if 0.0 < share <= LOOK_AHEAD:
        add(now, share, last)
        add(now, -share, before)


@njit(cache=True, nogil=True, error_model="numpy")
def solve_points(
    layout: Layout,
    points: IntArray,
    speeds: FloatArray,
    temperatures: FloatArray,
    parameters: FloatArray,
    oil: FloatArray,
    tolerance: float,
    limit: int,
    pressures: FloatArray,
    flows: FloatArray,
    steps: IntArray,
    reached: FloatArray,
) -> None:
    """Solve some of the points for all samples.

    The mean of the samples begins where the points before lead to, the samples begin with the mean and its
    slopes.

    Parameters
    ----------
    layout : Layout
        The circuit.
    points : ndarray of int
        Which points, in an order that makes neighbours follow each other.
    speeds : ndarray [rad/s], shape (p)
        Of the crank.
    temperatures : ndarray [K], shape (p)
        Of the oil.
    parameters : ndarray, shape (s, p, k)
        Values in the order of `Circuit.parameter_names`.
    oil : ndarray
        From `oil_parameters`.
    tolerance : float [1]
        Largest imbalance over the flow of the pumps.
    limit : int
        Steps at most in one attempt.
    pressures : ndarray [Pa], shape (s, p, n)
        Filled at the points.
    flows : ndarray [m3/s], shape (s, p, m)
        Filled.
    steps : ndarray of int, shape (s, p)
        Filled.
    reached : ndarray [1], shape (s, p)
        Filled with the imbalance over the flow of the pumps.
    """
    samples, count = parameters.shape[0], parameters.shape[2]
    nodes, parts = layout.diagonal.size, layout.parts.shape[0]
    work = room(layout, oil)
    now, mean, varied = np.empty(nodes), np.empty(count), np.empty(count)
    pressure_slopes, flow_slopes = np.empty((nodes, count)), np.empty((parts, count))
    before, last = np.empty(nodes), np.empty(nodes)
    known = 0
    fill(now, np.nan)
    for at in range(points.size):
        point = points[at]
        speed, temperature = speeds[point], temperatures[point]
        _middle(parameters[:, point, :], mean, varied)
        if known > 1:
            _look_ahead(points[at - 2 : at + 1], speeds, temperatures, before, last, now)
        done, off = _solve_one(layout, speed, temperature, mean, oil, tolerance, limit, now, work)
        known = known + 1 if off <= tolerance else 0
        if known == 0:
            fill(now, np.nan)
        copy(before, last)
        copy(last, now)
        if samples == 1:
            copy(pressures[0, point], now)
            copy(flows[0, point], work.flows)
            steps[0, point], reached[0, point] = done, off
            continue
        sloped = known > 0 and slopes_at(
            layout, now, mean, varied, speed, temperature, oil, work, pressure_slopes, flow_slopes
        )
        for sample in range(samples):
            own, there = parameters[sample, point], pressures[sample, point]
            copy(there, now)
            if sloped:
                for each in range(count):
                    if varied[each] > 0.0:
                        add(there, own[each] - mean[each], pressure_slopes[:, each])
            done, off = _solve_one(layout, speed, temperature, own, oil, tolerance, limit, there, work)
            copy(flows[sample, point], work.flows)
            steps[sample, point], reached[sample, point] = done, off


@njit(cache=True, nogil=True, error_model="numpy")
def slopes_of_points(
    layout: Layout,
    speeds: FloatArray,
    temperatures: FloatArray,
    parameters: FloatArray,
    wanted: FloatArray,
    oil: FloatArray,
    pressures: FloatArray,
    pressure_slopes: FloatArray,
    flow_slopes: FloatArray,
) -> None:
    """Slopes at solutions that are found already; where there are none nothing is written.

    Parameters
    ----------
    layout : Layout
        The circuit.
    speeds : ndarray [rad/s], shape (p)
        Of the crank.
    temperatures : ndarray [K], shape (p)
        Of the oil.
    parameters : ndarray, shape (p, k)
        Values in the order of `Circuit.parameter_names`.
    wanted : ndarray, shape (k)
        Zero for those that are left out.
    oil : ndarray
        From `oil_parameters`.
    pressures : ndarray [Pa], shape (p, n)
        Solutions.
    pressure_slopes : ndarray, shape (p, n, k)
        Filled.
    flow_slopes : ndarray, shape (p, m, k)
        Filled.
    """
    work = room(layout, oil)
    for point in range(speeds.size):
        if not known(pressures[point]):
            continue
        fill_sizes(layout, parameters[point], work.sizes)
        common = parameters[point, layout.link_start.size - 1 :]
        state = oil_at(speeds[point], temperatures[point], common, oil, work.oil)
        measure(layout, pressures[point], state, work)
        slopes_at(
            layout,
            pressures[point],
            parameters[point],
            wanted,
            speeds[point],
            temperatures[point],
            oil,
            work,
            pressure_slopes[point],
            flow_slopes[point],
        )
