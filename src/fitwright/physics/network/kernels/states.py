"""What bearings, pumps and relief valves do at pressures that are found already."""

from __future__ import annotations

from fitwright.physics.network.kernels.elimination import assemble, factor, solve_factored
from fitwright.physics.network.kernels.imbalance import pressure_at
from fitwright.physics.network.kernels.layout import (
    CURVE_START,
    CURVE_STOP,
    DOWNSTREAM,
    FIRST,
    KIND,
    UPSTREAM,
    IntArray,
    Layout,
    fill_sizes,
    oil_at,
)
from fitwright.physics.network.kernels.newton import measure, room
from fitwright.physics.network.kernels.options import inner, outer
from fitwright.physics.network.kernels.partials import by_speed
from fitwright.physics.network.kernels.rows import copy, fill, known
from fitwright.quantity import FloatArray


@inner
def _ends(layout: Layout, part: int, pressures: FloatArray) -> tuple[float, float]:
    return (
        pressure_at(pressures, layout.parts[part, UPSTREAM]),
        pressure_at(pressures, layout.parts[part, DOWNSTREAM]),
    )


@outer
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
    """Fill in what bearings, pumps and relief valves do; where there is no solution nothing is written.

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
        Filled: of bearings and pumps with their notes (`layout`), of relief valves with flow and lift.
    """
    work = room(layout, oil)
    for sample in range(pressures.shape[0]):
        for point in range(pressures.shape[1]):
            own, there = parameters[sample, point], pressures[sample, point]
            if not known(there):
                continue
            fill_sizes(layout, own, work.sizes)
            common = own[layout.link_start.size - 1 :]
            state = oil_at(speeds[point], temperatures[point], common, oil, work.oil)
            measure(layout, there, state, work)
            for at in range(bearings.size):
                copy(of_bearings[sample, point, at], work.notes[bearings[at]])
            for at in range(pumps.size):
                copy(of_pumps[sample, point, at], work.notes[pumps[at]])
            for at in range(reliefs.size):
                of_reliefs[sample, point, at, 0] = work.flows[reliefs[at]]
                of_reliefs[sample, point, at, 1] = work.notes[reliefs[at], 0]


@outer
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
        if not known(there):
            continue
        fill_sizes(layout, parameters[point], work.sizes)
        common = parameters[point, layout.link_start.size - 1 :]
        state = oil_at(speeds[point], temperatures[point], common, oil, work.oil)
        measure(layout, there, state, work)
        assemble(layout, work.by_upstream, work.by_downstream, work.matrix)
        if not factor(layout, work.matrix):
            continue
        for part in range(layout.parts.shape[0]):
            up, down = _ends(layout, part, there)
            own = work.sizes[layout.parts[part, FIRST] :]
            curves = layout.curves[layout.parts[part, CURVE_START] : layout.parts[part, CURVE_STOP]]
            notes = work.notes[part]
            slope = common[2] * by_speed(
                layout.law, layout.parts[part, KIND], up, down, own, curves, state, notes
            )
            fill(work.step, 0.0)
            if layout.parts[part, UPSTREAM] >= 0:
                work.step[layout.parts[part, UPSTREAM]] -= slope
            if layout.parts[part, DOWNSTREAM] >= 0:
                work.step[layout.parts[part, DOWNSTREAM]] += slope
            solve_factored(layout, work.matrix, work.step)
            shares[point, part] = work.step[node]
