"""How the solution moves with each parameter: the implicit function theorem on the balance of flows."""

from __future__ import annotations

import numpy as np
from numba import njit

from fitwright.physics.bearings.kernels.supply import LARGEST_ITERATIONS, bearing_supply
from fitwright.physics.network.elements.kinds import BEARING, RELIEF_VALVE
from fitwright.physics.network.kernels.elimination import assemble, factor, solve_factored
from fitwright.physics.network.kernels.laws import bearing_load, flow_through, pressure_at
from fitwright.physics.network.kernels.layout import Layout, Oil, oil_at
from fitwright.physics.network.kernels.newton import Work
from fitwright.physics.pump.kernels.relief import relief_flow_slopes
from fitwright.quantity import FloatArray

RELATIVE_STEP = 1e-4  # of differences of one element's law, which are of fourth order
LEAST_STEP = 1e-7  # where a size is zero, in its unit
COMMON = 3
COMMON_STEPS = (1e-4, 1e-2, 1e-4)  # of viscosity factor, temperature change in kelvin, speed factor


@njit(cache=True, nogil=True, error_model="numpy")
def _differenced(
    kind: int,
    size: int,
    up: float,
    down: float,
    sizes: FloatArray,
    curves: FloatArray,
    oil: Oil,
    film: FloatArray,
) -> float:
    """Slope of a part's flow by one of its sizes, by a central difference of fourth order."""
    value = sizes[size]
    step = RELATIVE_STEP * abs(value) if value != 0.0 else LEAST_STEP
    found = 0.0
    for at in (-2, -1, 1, 2):
        weight = (8.0 if abs(at) == 1 else -1.0) * (1.0 if at > 0 else -1.0)
        sizes[size] = value + at * step
        found += weight * flow_through(kind, up, down, sizes, curves, oil, film)[0]
    sizes[size] = value
    slope: float = found / (12.0 * step)
    return slope


@njit(cache=True, nogil=True, error_model="numpy")
def _by_size(
    kind: int,
    size: int,
    up: float,
    down: float,
    own: FloatArray,
    curves: FloatArray,
    oil: Oil,
    film: FloatArray,
) -> float:
    """Slope of a part's flow by one of its sizes, from its law where the law gives it."""
    if kind == BEARING and size == 0:
        found = bearing_supply(
            up - down,
            oil.temperature,
            oil.angular_speed * own[3],
            bearing_load(own, oil),
            own[0],
            own[5:],
            curves,
            oil.parameters,
            LARGEST_ITERATIONS,
            film[0],
        )
        slope: float = own[4] * found[2]
        return slope
    if kind == RELIEF_VALVE and size < 2:
        slopes = relief_flow_slopes(up - down, own[0], own[1], own[2], own[3:], oil.density, oil.viscosity)
        return slopes[3] if size == 0 else slopes[2]
    return _differenced(kind, size, up, down, own, curves, oil, film)


@njit(cache=True, nogil=True, error_model="numpy")
def _own_column(
    layout: Layout,
    own: int,
    pressures: FloatArray,
    oil: Oil,
    work: Work,
    surplus: FloatArray,
    flows: FloatArray,
) -> None:
    """Slopes of the surplus of each node and the flow of each part by one of the circuit's parameters."""
    surplus[:] = 0.0
    flows[:] = 0.0
    for link in range(layout.link_start[own], layout.link_start[own + 1]):
        part = layout.link_part[link]
        up = pressure_at(pressures, layout.upstream[part])
        down = pressure_at(pressures, layout.downstream[part])
        own_sizes = work.sizes[layout.first[part] :]
        curves = layout.curves[layout.curve_start[part] : layout.curve_stop[part]]
        film = work.films[part : part + 1]
        slope = _by_size(layout.kind[part], layout.link_size[link], up, down, own_sizes, curves, oil, film)
        _add(layout, part, layout.link_factor[link] * slope, surplus, flows)


@njit(cache=True, nogil=True, error_model="numpy")
def _add(layout: Layout, part: int, slope: float, surplus: FloatArray, flows: FloatArray) -> None:
    flows[part] += slope
    if layout.upstream[part] >= 0:
        surplus[layout.upstream[part]] -= slope
    if layout.downstream[part] >= 0:
        surplus[layout.downstream[part]] += slope


@njit(cache=True, nogil=True, error_model="numpy")
def _common_column(
    layout: Layout,
    which: int,
    pressures: FloatArray,
    speed: float,
    temperature: float,
    common: FloatArray,
    oil: FloatArray,
    work: Work,
    surplus: FloatArray,
    flows: FloatArray,
) -> None:
    """The same by a parameter that every circuit has; it moves the oil or the speed for all parts."""
    surplus[:] = 0.0
    flows[:] = 0.0
    moved = common.copy()
    room = np.empty(oil.size)
    step = COMMON_STEPS[which]
    for at in (-2, -1, 1, 2):
        weight = (8.0 if abs(at) == 1 else -1.0) * (1.0 if at > 0 else -1.0) / (12.0 * step)
        moved[which] = common[which] + at * step
        there = oil_at(speed, temperature, moved, oil, room)
        for part in range(layout.kind.size):
            up = pressure_at(pressures, layout.upstream[part])
            down = pressure_at(pressures, layout.downstream[part])
            own = work.sizes[layout.first[part] :]
            curves = layout.curves[layout.curve_start[part] : layout.curve_stop[part]]
            flow = flow_through(layout.kind[part], up, down, own, curves, there, work.films[part : part + 1])[
                0
            ]
            _add(layout, part, weight * flow, surplus, flows)


@njit(cache=True, nogil=True, error_model="numpy")
def slopes_at(
    layout: Layout,
    pressures: FloatArray,
    parameters: FloatArray,
    wanted: FloatArray,
    speed: float,
    temperature: float,
    oil: FloatArray,
    work: Work,
    pressure_slopes: FloatArray,
    flow_slopes: FloatArray,
) -> bool:
    r"""Slopes of the solution by each parameter that is wanted.

    Parameters
    ----------
    layout : Layout
        The circuit.
    pressures : ndarray [Pa], shape (n)
        A solution.
    parameters : ndarray, shape (k)
        Its parameters.
    wanted : ndarray, shape (k)
        Zero for those that are left out.
    speed : float [rad/s]
        Of the crank.
    temperature : float [K]
        Of the oil.
    oil : ndarray
        From `oil_parameters`.
    work : Work
        Holds sizes and slopes at the solution; its flows are used up.
    pressure_slopes : ndarray, shape (n, k)
        Filled.
    flow_slopes : ndarray, shape (m, k)
        Filled.

    Returns
    -------
    bool
        False where the solution has no slopes.

    Notes
    -----
    .. math:: \frac{dp}{d\theta} = -\left(\frac{\partial F}{\partial p}\right)^{-1}
              \frac{\partial F}{\partial \theta}

    References
    ----------
    [krantz2013] implicit function theorem
    """
    own = layout.link_start.size - 1
    common = parameters[own:]
    assemble(layout, work.by_upstream, work.by_downstream, work.matrix)
    if not factor(layout, work.matrix):
        return False
    room = np.empty(oil.size)
    state = oil_at(speed, temperature, common, oil, room)
    for at in range(own + COMMON):
        if wanted[at] == 0.0:
            pressure_slopes[:, at] = 0.0
            flow_slopes[:, at] = 0.0
            continue
        flows = work.flows
        if at < own:
            _own_column(layout, at, pressures, state, work, work.step, flows)
        else:
            _common_column(
                layout, at - own, pressures, speed, temperature, common, oil, work, work.step, flows
            )
        solve_factored(layout, work.matrix, work.step)
        pressure_slopes[:, at] = work.step
        for part in range(flows.size):
            slope = flows[part]
            if layout.upstream[part] >= 0:
                slope += work.by_upstream[part] * work.step[layout.upstream[part]]
            if layout.downstream[part] >= 0:
                slope += work.by_downstream[part] * work.step[layout.downstream[part]]
            flow_slopes[part, at] = slope
    return True
