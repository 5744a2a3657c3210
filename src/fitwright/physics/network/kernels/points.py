"""All operating points and samples, each from a solution nearby."""

from __future__ import annotations

import numpy as np

from fitwright.physics.network.kernels.layout import IntArray, Layout, fill_sizes, oil_at
from fitwright.physics.network.kernels.newton import Work, balance, measure, room
from fitwright.physics.network.kernels.options import inner, outer
from fitwright.physics.network.kernels.partials import slopes_at
from fitwright.physics.network.kernels.rows import add, copy, fill, known
from fitwright.quantity import FloatArray

LOOK_AHEAD = 2.0  # times the last distance between points, no further


@inner
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


@inner
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


@outer
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
    """Solve some of the points, each begun where the points before lead to.

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
    parameters : ndarray, shape (p, k)
        Values in the order of `Circuit.parameter_names`.
    oil : ndarray
        From `oil_parameters`.
    tolerance : float [1]
        Largest imbalance over the flow of the pumps.
    limit : int
        Steps at most in one attempt.
    pressures : ndarray [Pa], shape (p, n)
        Filled at the points.
    flows : ndarray [m3/s], shape (p, m)
        Filled.
    steps : ndarray of int, shape (p)
        Filled.
    reached : ndarray [1], shape (p)
        Filled with the imbalance over the flow of the pumps.
    """
    work = room(layout, oil)
    nodes = layout.diagonal.size
    now, before, last = np.empty(nodes), np.empty(nodes), np.empty(nodes)
    found = 0
    for at in range(points.size):
        point = points[at]
        if found == 0:
            fill(now, np.nan)
        elif found > 1:
            _look_ahead(points[at - 2 : at + 1], speeds, temperatures, before, last, now)
        done, off = _solve_one(
            layout, speeds[point], temperatures[point], parameters[point], oil, tolerance, limit, now, work
        )
        found = found + 1 if off <= tolerance else 0
        copy(before, last)
        copy(last, now)
        copy(pressures[point], now)
        copy(flows[point], work.flows)
        steps[point], reached[point] = done, off


@outer
def solve_samples(
    layout: Layout,
    points: IntArray,
    speeds: FloatArray,
    temperatures: FloatArray,
    parameters: FloatArray,
    oil: FloatArray,
    tolerance: float,
    limit: int,
    middle: FloatArray,
    slopes: FloatArray,
    pressures: FloatArray,
    flows: FloatArray,
    steps: IntArray,
    reached: FloatArray,
) -> None:
    """Solve all samples of some of the points, each begun at their middle, moved by its slopes.

    Parameters
    ----------
    layout : Layout
        The circuit.
    points : ndarray of int
        Which points.
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
    middle : ndarray, shape (p, k)
        Parameters that the slopes belong to.
    slopes : ndarray, shape (p, k, n)
        Of the pressures by each parameter.
    pressures : ndarray [Pa], shape (s, p, n)
        Holds the pressures of the middle in place of each sample; filled.
    flows : ndarray [m3/s], shape (s, p, m)
        Filled.
    steps : ndarray of int, shape (s, p)
        Filled.
    reached : ndarray [1], shape (s, p)
        Filled with the imbalance over the flow of the pumps.
    """
    work = room(layout, oil)
    for point in points:
        for sample in range(parameters.shape[0]):
            own, there = parameters[sample, point], pressures[sample, point]
            for each in range(own.size):
                change = own[each] - middle[point, each]
                if change != 0.0:
                    add(there, change, slopes[point, each])
            done, off = _solve_one(
                layout, speeds[point], temperatures[point], own, oil, tolerance, limit, there, work
            )
            copy(flows[sample, point], work.flows)
            steps[sample, point], reached[sample, point] = done, off


@outer
def slopes_of_points(
    layout: Layout,
    points: IntArray,
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
    points : ndarray of int
        Which points.
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
    pressure_slopes : ndarray, shape (p, k, n)
        Filled.
    flow_slopes : ndarray, shape (p, k, m)
        Filled.
    """
    work = room(layout, oil)
    for point in points:
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
